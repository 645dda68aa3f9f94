/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The caller who watches a long call (bite_progress), and may stop it.
 *
 * A call that is stopped goes the way of one whose memory runs out: what notices it returns
 * BITE_NO_MEMORY, which nothing on the way takes for an answer, and bite_watch_end makes
 * BITE_STOPPED of it.
 */
#ifndef BITE_BASE_WATCH_H
#define BITE_BASE_WATCH_H

#include <coolbite/coolbite.h>
#include <pthread.h>
#include <stdbool.h>

/** Whether a flag of the caller (bite_batch_run) asks a call to stop; NULL: never. Other threads
 * set it while those of the pool read it, so it is read as a whole. */
static inline bool bite_stop_asked(const volatile int *stop)
{
    return stop != NULL && __atomic_load_n(stop, __ATOMIC_RELAXED) != 0;
}

/** Shared by the threads of a call. NULL, and one without a report, watches nothing. */
typedef struct bite_watch {
    bite_progress report; /* NULL: nobody watches, or no longer */
    void *user;
    uint64_t done; /* the rest under the mutex */
    uint64_t total;
    int stopped;
    pthread_mutex_t mutex;
} bite_watch;

void bite_watch_start(bite_watch *watch, bite_progress report, void *user);

/** So many more units of work are to be done. */
void bite_watch_expect(bite_watch *watch, uint64_t units);

/** So many more are done; with 0 the caller is only asked. Returns 1: stop. */
int bite_watch_step(bite_watch *watch, uint64_t units);

/** Ends it: whatever still points to it watches nothing. Returns status, or BITE_STOPPED, with its
 * error, for one that is not BITE_OK of a call that was stopped. After BITE_OK all is done, which
 * is reported. */
bite_status bite_watch_end(bite_watch *watch, bite_status status, bite_error *error);

#endif
