/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Many places at once. */
#include "core/base/thread_pool.h"
#include "core/base/affinity.h"
#include <pthread.h>
#include <signal.h>
#include <stdatomic.h>

typedef struct crew {
    size_t count;
    bite_task task;
    void *work;
    atomic_size_t next;
    atomic_size_t elsewhere; /* threads that have begun beside the caller's */
    bite_affinity seats;
} crew;

static void labour(crew *at, size_t worker)
{
    for (size_t index = atomic_fetch_add(&at->next, 1); index < at->count;
         index = atomic_fetch_add(&at->next, 1)) {
        at->task(at->work, index, worker);
    }
}

static void *labour_elsewhere(void *argument)
{
    crew *at = argument;
    bite_affinity_leave(&at->seats);
    labour(at, 1 + atomic_fetch_add(&at->elsewhere, 1));
    return NULL;
}

/* A whole choice, and a family's plugin in it, may run on a thread of ours; some C libraries give
 * one 128 KB. */
static const size_t stack_size = (size_t)4 << 20;

static int make_thread(crew *at, int seated, pthread_t *thread)
{
    pthread_attr_t how;
    int made = 0;
    if (pthread_attr_init(&how) != 0) {
        return 0;
    }
    if (pthread_attr_setstacksize(&how, stack_size) == 0) {
        if (seated) {
            bite_affinity_next(&at->seats, &how);
        }
        made = pthread_create(thread, &how, labour_elsewhere, at) == 0;
    }
    (void)pthread_attr_destroy(&how);
    return made;
}

/* A thread is born with its maker's mask: all signals are held back for that moment. A system that
 * forbids to choose a processor may still give a thread. Returns how many began. */
static size_t hire(crew *at, size_t wanted, pthread_t *threads)
{
    sigset_t all;
    sigset_t before;
    size_t begun = 0;
    int seated = 1;
    (void)sigfillset(&all);
    if (pthread_sigmask(SIG_SETMASK, &all, &before) != 0) {
        return 0;
    }
    bite_affinity_find(&at->seats);
    while (begun < wanted) {
        if (make_thread(at, seated, &threads[begun])) {
            begun++;
        } else if (seated) {
            seated = 0;
        } else {
            break;
        }
    }
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
    return begun;
}

void bite_thread_pool_run(size_t count, size_t threads, bite_task task, void *work)
{
    crew at = {.count = count, .task = task, .work = work};
    pthread_t others[BITE_THREADS_MAX];
    size_t wanted = threads < count ? threads : count;
    wanted = wanted > BITE_THREADS_MAX ? BITE_THREADS_MAX : wanted;
    size_t begun = wanted > 1 ? hire(&at, wanted - 1, others) : 0;
    labour(&at, 0);
    for (size_t i = 0; i < begun; i++) {
        (void)pthread_join(others[i], NULL);
    }
}
