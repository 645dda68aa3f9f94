/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where new threads begin. */
#include "core/base/affinity.h"
#include <string.h>

#ifdef HAVE_PTHREAD_ATTR_SETAFFINITY_NP

void bite_seats_find(bite_seats *seats)
{
    memset(seats, 0, sizeof *seats);
    int here = sched_getcpu();
    seats->last = here < 0 ? 0 : (size_t)here;
    seats->known = pthread_getaffinity_np(pthread_self(), sizeof seats->all, &seats->all) == 0;
}

void bite_seats_next(bite_seats *seats, pthread_attr_t *how)
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

void bite_seats_leave(const bite_seats *seats)
{
    if (seats->known) {
        (void)pthread_setaffinity_np(pthread_self(), sizeof seats->all, &seats->all);
    }
}

#else

void bite_seats_find(bite_seats *seats)
{
    memset(seats, 0, sizeof *seats);
}

void bite_seats_next(bite_seats *seats, pthread_attr_t *how)
{
    (void)seats;
    (void)how;
}

void bite_seats_leave(const bite_seats *seats)
{
    (void)seats;
}

#endif
