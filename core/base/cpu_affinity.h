/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The processor that a new thread starts on.
 *
 * A scheduler may leave a new thread waiting on its creator's processor until the next tick, four
 * milliseconds: as long as the whole task takes. So each new thread starts on another processor,
 * and as soon as it runs it may move to any processor that its creator may use. On systems without
 * this choice these functions do nothing.
 */
#ifndef BITE_BASE_CPU_AFFINITY_H
#define BITE_BASE_CPU_AFFINITY_H

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include <pthread.h>
#include <sched.h>
#include <stddef.h>

typedef struct bite_affinity {
#ifdef HAVE_PTHREAD_ATTR_SETAFFINITY_NP
    cpu_set_t allowed; /* the processors that the creating thread may use */
#endif
    size_t last; /* the processor that was assigned last */
    int known;   /* 1: `allowed` has been read */
} bite_affinity;

/** Reads which processors the calling thread may use, and which it runs on. */
void bite_affinity_init(bite_affinity *affinity);

/** Assigns the next allowed processor, in turn, to the thread that is created with these
 * attributes. Whether the system accepts it shows when the thread is created. */
void bite_affinity_assign(bite_affinity *affinity, pthread_attr_t *attributes);

/** Called by the new thread: it may use all allowed processors from now on. */
void bite_affinity_release(const bite_affinity *affinity);

#endif
