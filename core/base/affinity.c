/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where new threads begin. */
#include "core/base/affinity.h"
#include <string.h>

#ifdef HAVE_PTHREAD_ATTR_SETAFFINITY_NP

void bite_affinity_find(bite_affinity *seats)
{
    memset(seats, 0, sizeof *seats);
    int here = sched_getcpu();
    seats->last = here < 0 ? 0 : (size_t)here;
    seats->known = pthread_getaffinity_np(pthread_self(), sizeof seats->all, &seats->all) == 0;
}

void bite_affinity_next(bite_affinity *seats, pthread_attr_t *how)
{
    cpu_set_t one;
    if (!seats->known) {
        return;
    }
    do {
        seats->last = (seats->last + 1) % CPU_SETSIZE;
    } while (!CPU_ISSET(seats->last, &seats->all));
    CPU_ZERO(&one);
    CPU_SET(seats->last, &one);
    (void)pthread_attr_setaffinity_np(how, sizeof one, &one);
}

void bite_affinity_leave(const bite_affinity *seats)
{
    if (seats->known) {
        (void)pthread_setaffinity_np(pthread_self(), sizeof seats->all, &seats->all);
    }
}

#else

void bite_affinity_find(bite_affinity *affinity)
{
    memset(affinity, 0, sizeof *affinity);
}

void bite_affinity_next(bite_affinity *affinity, pthread_attr_t *how)
{
    (void)affinity;
    (void)how;
}

void bite_affinity_leave(const bite_affinity *affinity)
{
    (void)affinity;
}

#endif
