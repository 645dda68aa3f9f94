/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limit that represents a pass. */
#include "core/job/foremost_limit.h"

#include <math.h>

/* Below this nothing is worth a name; it would be shown as 0.0 %. */
static const double least_chance = 5e-4;

uint32_t bite_foremost_limit(const bite_result *result, double *chance)
{
    uint32_t likeliest = BITE_LIMIT_COUNT;
    uint32_t fullest = result->worst;
    double most = least_chance;
    double used = -1.0;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        if (!limit->applies || limit->advisory) {
            continue;
        }
        if (limit->chance > most) {
            most = limit->chance;
            likeliest = i;
        }
        if (limit->utilization > used) {
            used = limit->utilization;
            fullest = i;
        }
    }
    *chance = likeliest < BITE_LIMIT_COUNT ? most : (double)NAN;
    return likeliest < BITE_LIMIT_COUNT ? likeliest : fullest;
}
