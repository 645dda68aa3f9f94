/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Many places at once. */
#include "core/base/parallel.h"
#include <pthread.h>
#include <signal.h>
#include <stdatomic.h>

typedef struct crew {
    size_t count;
    bite_task task;
    void *work;
    atomic_size_t next;
} crew;

static void *labour(void *of)
{
    crew *at = of;
    for (size_t place = atomic_fetch_add(&at->next, 1); place < at->count; place = atomic_fetch_add(&at->next, 1)) {
        at->task(at->work, place);
    }
    return NULL;
}

/* What a pass keeps lies on the stack, a third of a megabyte; some C libraries give a thread less than that. */
static const size_t stack_size = (size_t)4 << 20;

/* A thread is born with its maker's mask: all signals are held back for that moment. Returns how many began. */
static size_t hire(crew *at, size_t wanted, pthread_t *threads)
{
    sigset_t all;
    sigset_t before;
    size_t begun = 0;
    pthread_attr_t how;
    if (pthread_attr_init(&how) != 0) {
        return 0;
    }
    (void)sigfillset(&all);
    if (pthread_attr_setstacksize(&how, stack_size) == 0 && pthread_sigmask(SIG_SETMASK, &all, &before) == 0) {
        while (begun < wanted && pthread_create(&threads[begun], &how, labour, at) == 0) {
            begun++;
        }
        (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
    }
    (void)pthread_attr_destroy(&how);
    return begun;
}

void bite_parallel(size_t count, size_t threads, bite_task task, void *work)
{
    crew at = {count, task, work, 0};
    pthread_t others[BITE_THREADS_MOST];
    size_t wanted = threads < count ? threads : count;
    wanted = wanted > BITE_THREADS_MOST ? BITE_THREADS_MOST : wanted;
    size_t begun = wanted > 1 ? hire(&at, wanted - 1, others) : 0;
    (void)labour(&at);
    for (size_t i = 0; i < begun; i++) {
        (void)pthread_join(others[i], NULL);
    }
}
