/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Where new threads begin.
 *
 * A scheduler may let a new thread wait on its maker's processor until the next tick, four
 * milliseconds: as long as all there is to do. So each begins on another processor, and once it has
 * begun it may go wherever its maker may. Where a system knows no such choice, nothing is done.
 */
#ifndef BITE_BASE_AFFINITY_H
#define BITE_BASE_AFFINITY_H

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include <pthread.h>
#include <sched.h>
#include <stddef.h>

typedef struct bite_affinity {
#ifdef HAVE_PTHREAD_ATTR_SETAFFINITY_NP
    cpu_set_t all; /* those of the maker */
#endif
    size_t last; /* that was given away */
    int known;
} bite_affinity;

/** The processors that the calling thread may use. */
void bite_affinity_find(bite_affinity *affinity);

/** The next one, in turn, for the thread that is made with `how`. Whether the system allows it,
 * making it tells. */
void bite_affinity_next(bite_affinity *affinity, pthread_attr_t *how);

/** Called by the thread itself: from now on it may use all of them. */
void bite_affinity_leave(const bite_affinity *affinity);

#endif
