/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Many places at once. */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "core/base/parallel.h"
#include <pthread.h>
#include <sched.h>
#include <signal.h>
#include <stdatomic.h>
#include <string.h>

/* A scheduler may let a new thread wait on its maker's processor until the next tick, four milliseconds: as long as all there is to
 * do. So each begins on another processor, and once it has begun it may go wherever the process may. */
#ifdef HAVE_PTHREAD_ATTR_SETAFFINITY_NP
typedef struct seats {
    cpu_set_t all;
    size_t last; /* that was given away */
    int known;
} seats;

static void find_seats(seats *of)
{
    memset(of, 0, sizeof *of);
    int here = sched_getcpu();
    of->last = here < 0 ? 0 : (size_t)here;
    of->known = pthread_getaffinity_np(pthread_self(), sizeof of->all, &of->all) == 0;
}

static void seat_next(seats *of, pthread_attr_t *how)
{
    cpu_set_t one;
    if (!of->known) {
        return;
    }
    do {
        of->last = (of->last + 1) % CPU_SETSIZE;
    } while (!CPU_ISSET(of->last, &of->all));
    CPU_ZERO(&one);
    CPU_SET(of->last, &one);
    (void)pthread_attr_setaffinity_np(how, sizeof one, &one);
}

static void leave_seat(const seats *of)
{
    if (of->known) {
        (void)pthread_setaffinity_np(pthread_self(), sizeof of->all, &of->all);
    }
}
#else
typedef struct seats {
    int known;
} seats;

static void find_seats(seats *of)
{
    of->known = 0;
}

static void seat_next(seats *of, pthread_attr_t *how)
{
    (void)of;
    (void)how;
}

static void leave_seat(const seats *of)
{
    (void)of;
}
#endif

typedef struct crew {
    size_t count;
    bite_task task;
    void *work;
    atomic_size_t next;
    seats seats;
} crew;

static void *labour(void *of)
{
    crew *at = of;
    for (size_t place = atomic_fetch_add(&at->next, 1); place < at->count; place = atomic_fetch_add(&at->next, 1)) {
        at->task(at->work, place);
    }
    return NULL;
}

static void *labour_elsewhere(void *of)
{
    leave_seat(&((crew *)of)->seats);
    return labour(of);
}

/* What a pass keeps lies on the stack, a third of a megabyte; some C libraries give a thread less than that. */
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
            seat_next(&at->seats, &how);
        }
        made = pthread_create(thread, &how, labour_elsewhere, at) == 0;
    }
    (void)pthread_attr_destroy(&how);
    return made;
}

/* A thread is born with its maker's mask: all signals are held back for that moment. A system that forbids to choose a processor
 * may still give a thread. Returns how many began. */
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
    find_seats(&at->seats);
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

void bite_parallel(size_t count, size_t threads, bite_task task, void *work)
{
    crew at = {.count = count, .task = task, .work = work};
    pthread_t others[BITE_THREADS_MOST];
    size_t wanted = threads < count ? threads : count;
    wanted = wanted > BITE_THREADS_MOST ? BITE_THREADS_MOST : wanted;
    size_t begun = wanted > 1 ? hire(&at, wanted - 1, others) : 0;
    (void)labour(&at);
    for (size_t i = 0; i < begun; i++) {
        (void)pthread_join(others[i], NULL);
    }
}
