/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A parallel loop: the same task for many indices, on threads that end before the call returns. */
#ifndef BITE_BASE_THREAD_POOL_H
#define BITE_BASE_THREAD_POOL_H

#include <stddef.h>

#define BITE_THREADS_MAX 16

/**
 * The work for one index.
 *
 * Indices are processed in any order and at the same time, so a task writes only what belongs to
 * its index. worker: the number of the thread that runs it, below the number of threads; at any
 * time only one task has a given worker, so it may use memory that belongs to that worker.
 */
typedef void (*bite_task)(void *work, size_t index, size_t worker);

/**
 * Runs task(work, index, worker) once for each index below count, on up to `threads` threads, the
 * caller's included (0 counts as 1; at most BITE_THREADS_MAX).
 *
 * If the system refuses a thread, fewer do the work; the result is the same. The threads block all
 * signals, so that the host's handlers run on the host's own threads.
 */
void bite_thread_pool_run(size_t count, size_t threads, bite_task task, void *work);

#endif
