/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each index is processed once, whatever the number of threads; signals stay on the threads of the
 * host, and no thread stays bound to a processor. */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "core/base/thread_pool.h"
#include "tests/support/support.h"
#include <pthread.h>
#include <sched.h>
#include <signal.h>
#include <stdatomic.h>
#include <string.h>

#define INDICES 1000

typedef struct marks {
    atomic_int done[INDICES];
    atomic_int open_to_signals; /* tasks on a thread of the library that does not block SIGTERM */
    atomic_int busy[BITE_THREADS_MAX];
    atomic_int shared; /* tasks whose worker was running another task, or is not below `workers` */
    size_t workers;
    pthread_t host;
} marks;

/* A worker runs one task at a time. */
static void claim(marks *of, size_t worker, int busy)
{
    if (worker >= of->workers || atomic_exchange(&of->busy[worker], busy) == busy) {
        atomic_fetch_add(&of->shared, 1);
    }
}

static void mark(void *work, size_t index, size_t worker)
{
    marks *of = work;
    sigset_t mask;
    claim(of, worker, 1);
    atomic_fetch_add(&of->done[index], 1);
    if (!pthread_equal(pthread_self(), of->host) &&
        pthread_sigmask(SIG_SETMASK, NULL, &mask) == 0 && !sigismember(&mask, SIGTERM)) {
        atomic_fetch_add(&of->open_to_signals, 1);
    }
    claim(of, worker, 0);
}

START_TEST(each_index_runs_once)
{
    static const size_t threads[] = {0, 1, 2, 3, 16, 1000};
    static const size_t counts[] = {0, 1, 2, 15, 1000};
    for (size_t i = 0; i < sizeof threads / sizeof *threads; i++) {
        for (size_t k = 0; k < sizeof counts / sizeof *counts; k++) {
            static marks of;
            memset(&of, 0, sizeof of);
            of.host = pthread_self();
            of.workers = threads[i] < 1                  ? 1
                         : threads[i] < BITE_THREADS_MAX ? threads[i]
                                                         : BITE_THREADS_MAX;
            bite_thread_pool_run(counts[k], threads[i], mark, &of);
            for (size_t index = 0; index < INDICES; index++) {
                ck_assert_int_eq(atomic_load(&of.done[index]), index < counts[k]);
            }
            ck_assert_int_eq(atomic_load(&of.open_to_signals), 0);
            ck_assert_int_eq(atomic_load(&of.shared), 0);
        }
    }
}
END_TEST

START_TEST(the_signal_mask_is_restored)
{
    sigset_t one;
    sigset_t after;
    static marks of;
    (void)sigemptyset(&one);
    (void)sigaddset(&one, SIGUSR1);
    ck_assert_int_eq(pthread_sigmask(SIG_SETMASK, &one, NULL), 0);
    of.host = pthread_self();
    of.workers = 4;
    bite_thread_pool_run(INDICES, 4, mark, &of);
    ck_assert_int_eq(pthread_sigmask(SIG_SETMASK, NULL, &after), 0);
    ck_assert(sigismember(&after, SIGUSR1));
    ck_assert(!sigismember(&after, SIGTERM));
}
END_TEST

#ifdef HAVE_PTHREAD_ATTR_SETAFFINITY_NP
typedef struct bounds {
    cpu_set_t host;
    atomic_int seen;
    atomic_int bound; /* tasks on a thread that may not use all processors of the host */
} bounds;

static void compare_processors(void *work, size_t place, size_t worker)
{
    bounds *of = work;
    cpu_set_t mine;
    CPU_ZERO(&mine);
    (void)place;
    (void)worker;
    atomic_fetch_add(&of->seen, 1);
    if (pthread_getaffinity_np(pthread_self(), sizeof mine, &mine) != 0 ||
        !CPU_EQUAL(&mine, &of->host)) {
        atomic_fetch_add(&of->bound, 1);
    }
}

START_TEST(threads_may_use_all_processors_of_the_host)
{
    static bounds of;
    cpu_set_t after;
    CPU_ZERO(&after);
    ck_assert_int_eq(pthread_getaffinity_np(pthread_self(), sizeof of.host, &of.host), 0);
    bite_thread_pool_run(INDICES, 16, compare_processors, &of);
    ck_assert_int_eq(atomic_load(&of.seen), INDICES);
    ck_assert_int_eq(atomic_load(&of.bound), 0);
    ck_assert_int_eq(pthread_getaffinity_np(pthread_self(), sizeof after, &after), 0);
    ck_assert(CPU_EQUAL(&after, &of.host));
}
END_TEST
#endif

int main(void)
{
    Suite *suite = suite_create("thread_pool");
    TCase *tests = tcase_create("thread_pool");
    tcase_add_test(tests, each_index_runs_once);
    tcase_add_test(tests, the_signal_mask_is_restored);
#ifdef HAVE_PTHREAD_ATTR_SETAFFINITY_NP
    tcase_add_test(tests, threads_may_use_all_processors_of_the_host);
#endif
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
