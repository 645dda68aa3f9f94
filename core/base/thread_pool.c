/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A parallel loop: threads take the next index until none is left. */
#include "core/base/thread_pool.h"
#include "core/base/cpu_affinity.h"
#include <pthread.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdbool.h>

typedef struct thread_pool {
    size_t count;
    bite_task task;
    void *work;
    atomic_size_t next;    /* index */
    atomic_size_t started; /* threads that run, without the caller's */
    bite_affinity affinity;
} thread_pool;

static void run_tasks(thread_pool *pool, size_t worker)
{
    for (size_t index = atomic_fetch_add(&pool->next, 1); index < pool->count;
         index = atomic_fetch_add(&pool->next, 1)) {
        pool->task(pool->work, index, worker);
    }
}

static void *thread_main(void *argument)
{
    thread_pool *pool = argument;
    bite_affinity_release(&pool->affinity);
    run_tasks(pool, 1 + atomic_fetch_add(&pool->started, 1));
    return NULL;
}

/* A whole choice, with a family's plugin in it, may run on one of these threads; some C libraries
 * give a thread 128 KB. */
static const size_t stack_size = (size_t)4 << 20;

static bool create_thread(thread_pool *pool, bool assign_processor, pthread_t *thread)
{
    pthread_attr_t attributes;
    bool created = false;
    if (pthread_attr_init(&attributes) != 0) {
        return false;
    }
    if (pthread_attr_setstacksize(&attributes, stack_size) == 0) {
        if (assign_processor) {
            bite_affinity_assign(&pool->affinity, &attributes);
        }
        created = pthread_create(thread, &attributes, thread_main, pool) == 0;
    }
    (void)pthread_attr_destroy(&attributes);
    return created;
}

/* A thread inherits the signal mask of its creator, so all signals are blocked while threads are
 * created. A system that forbids the choice of a processor may still allow the thread: the first
 * failure is answered by creating threads without that choice. Returns how many were created. */
static size_t create_threads(thread_pool *pool, size_t wanted, pthread_t *threads)
{
    sigset_t all;
    sigset_t before;
    size_t created = 0;
    bool assign_processor = true;
    (void)sigfillset(&all);
    if (pthread_sigmask(SIG_SETMASK, &all, &before) != 0) {
        return 0;
    }
    bite_affinity_init(&pool->affinity);
    while (created < wanted) {
        if (create_thread(pool, assign_processor, &threads[created])) {
            created++;
        } else if (assign_processor) {
            assign_processor = false;
        } else {
            break;
        }
    }
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
    return created;
}

void bite_thread_pool_run(size_t count, size_t threads, bite_task task, void *work)
{
    thread_pool pool = {.count = count, .task = task, .work = work};
    pthread_t others[BITE_THREADS_MAX];
    size_t wanted = threads < count ? threads : count;
    wanted = wanted > BITE_THREADS_MAX ? BITE_THREADS_MAX : wanted;
    size_t created = wanted > 1 ? create_threads(&pool, wanted - 1, others) : 0;
    run_tasks(&pool, 0);
    for (size_t i = 0; i < created; i++) {
        (void)pthread_join(others[i], NULL);
    }
}
