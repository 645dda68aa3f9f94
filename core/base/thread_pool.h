/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The same work on many places at once, on threads that end before the call does. */
#ifndef BITE_BASE_THREAD_POOL_H
#define BITE_BASE_THREAD_POOL_H

#include <stddef.h>

#define BITE_THREADS_MAX 16

/** Does the work of one place. Places are done in any order and at the same time: each writes its
 * own alone. worker: which of the threads does it, below their number: what belongs to it (memory
 * to work in) no other place uses at that time. */
typedef void (*bite_task)(void *work, size_t index, size_t worker);

/** All places below count, on up to `threads` threads of which the caller's is one (0 is 1,
 * BITE_THREADS_MAX the most). Where the system gives no thread, fewer do it: the result is the
 * same. The threads take no signal, so that the host's handlers run on the host's own threads. */
void bite_thread_pool_run(size_t count, size_t threads, bite_task task, void *work);

#endif
