/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The number of threads to use. */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "bindings/cli/processor_count.h"
#include <sched.h>
#include <unistd.h>

#define THREADS_MAX 16 /* of the library */

static long usable_processors(void)
{
#ifdef HAVE_SCHED_GETAFFINITY
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof set, &set) == 0) {
        return CPU_COUNT(&set);
    }
#endif
    return sysconf(_SC_NPROCESSORS_ONLN);
}

size_t processor_count(void)
{
    long count = usable_processors();
    return (size_t)(count < 1 ? 1 : count > THREADS_MAX ? THREADS_MAX : count);
}
