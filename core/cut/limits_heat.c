/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the part's temperature: softening and crazing. */
#include "core/cut/limits_heat.h"
#include <math.h>

void bite_limit_softening(bite_limit_case *limit)
{
    double start = limit->cut->room_temperature;
    bite_limit_set(limit, limit->segment->value[BITE_SURFACE_TEMPERATURE] - start,
                   limit->cut->softening - start);
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
    if (limit->cut->substance == BITE_METAL) {
        bite_limit_omit(limit, BITE_WHY_METAL);
    }
}

/* Half-width, K, of the range of temperatures over which a skin relaxes in the time that it is hot
 * (estimate). */
static const double relaxing_width = 10.0;

/* A skin that relaxes while it is hot contracts when it cools, and the material under it prevents
 * that: sigma = E alpha dT/(1 - nu). */
void bite_limit_craze(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    double relaxing = isnan(cut->relaxing) ? cut->transition - 20.0 : cut->relaxing;
    double share = (limit->segment->value[BITE_SURFACE_TEMPERATURE] - relaxing + relaxing_width) /
                   (2.0 * relaxing_width);
    double whole =
        cut->modulus * cut->expansion * (relaxing - cut->room_temperature) / (1.0 - cut->poisson);
    /* not fmin, which would drop a NaN */
    share = share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share;
    bite_limit_set(limit, share * whole, cut->crazing);
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
    if (cut->substance == BITE_METAL) {
        bite_limit_omit(limit, BITE_WHY_DOES_NOT_CRAZE);
    }
}
