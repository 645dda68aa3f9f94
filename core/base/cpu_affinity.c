/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The processor that a new thread starts on. */
#include "core/base/cpu_affinity.h"
#include <string.h>

#ifdef HAVE_PTHREAD_ATTR_SETAFFINITY_NP

void bite_affinity_init(bite_affinity *affinity)
{
    memset(affinity, 0, sizeof *affinity);
    int current = sched_getcpu();
    affinity->last = current < 0 ? 0 : (size_t)current;
    affinity->known =
        pthread_getaffinity_np(pthread_self(), sizeof affinity->allowed, &affinity->allowed) == 0;
}

void bite_affinity_assign(bite_affinity *affinity, pthread_attr_t *attributes)
{
    cpu_set_t one;
    if (!affinity->known) {
        return;
    }
    do {
        affinity->last = (affinity->last + 1) % CPU_SETSIZE;
    } while (!CPU_ISSET(affinity->last, &affinity->allowed));
    CPU_ZERO(&one);
    CPU_SET(affinity->last, &one);
    (void)pthread_attr_setaffinity_np(attributes, sizeof one, &one);
}

void bite_affinity_release(const bite_affinity *affinity)
{
    if (affinity->known) {
        (void)pthread_setaffinity_np(pthread_self(), sizeof affinity->allowed, &affinity->allowed);
    }
}

#else

void bite_affinity_init(bite_affinity *affinity)
{
    memset(affinity, 0, sizeof *affinity);
}

void bite_affinity_assign(bite_affinity *affinity, pthread_attr_t *attributes)
{
    (void)affinity;
    (void)attributes;
}

void bite_affinity_release(const bite_affinity *affinity)
{
    (void)affinity;
}

#endif
