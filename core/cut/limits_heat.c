/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the part's temperature: softening and crazing. */
#include "core/cut/limits_heat.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/heat/softening_time.h"
#include <math.h>

/* Sets the limit to this surface, wall or floor, if it is worse than the one before. */
static void set_worse(bite_limit_case *limit, double demand, double capacity)
{
    if (isnan(limit->demand) || demand * limit->capacity > limit->demand * capacity) {
        bite_limit_set(limit, demand, capacity);
    }
}

/* Boards, laminates and minerals: the flash temperature against the shop limit, since they scorch
 * at once. */
static void soften_board(bite_limit_case *limit)
{
    double start = limit->cut->room_temperature;
    bite_limit_set(limit, limit->segment->value[BITE_FLASH_TEMPERATURE] - start,
                   limit->cut->softening - start);
}

/* Polymers: the sustained temperature of the surface against that at which it would flow within the
 * time for which it stays warm. */
static void soften_polymer(bite_limit_case *limit)
{
    const bite_segment *segment = limit->segment;
    const bite_wall_heat *surfaces[] = {&segment->wall, &segment->floor};
    bite_softening_law law = bite_cut_softening(limit->cut);
    for (int i = 0; i < 2; i++) {
        if (!isnan(surfaces[i]->rise)) {
            set_worse(limit, surfaces[i]->rise,
                      bite_softening_temperature(&law, surfaces[i]->dwell, 0.0) -
                          limit->cut->room_temperature);
        }
    }
}

void bite_limit_softening(bite_limit_case *limit)
{
    uint32_t substance = limit->cut->substance;
    if (substance == BITE_AMORPHOUS || substance == BITE_CRYSTALLINE) {
        soften_polymer(limit);
    } else {
        soften_board(limit);
    }
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
    if (substance == BITE_METAL) {
        bite_limit_omit(limit, BITE_WHY_METAL);
    }
}

/* A layer that relaxes while it is warm contracts when it cools, and the material under it prevents
 * that: sigma = E alpha dT/(1 - nu) of the relaxed share. */
static double locked_stress(const bite_cut *cut, const bite_softening_law *law,
                            const bite_wall_heat *surface)
{
    double skin = cut->room_temperature + surface->rise;
    double share = bite_softening_relaxed_share(law, skin, surface->dwell);
    double hottest = bite_softening_temperature(law, surface->dwell, 0.0);
    double rise = (skin < hottest ? skin : hottest) - cut->room_temperature;
    return share * cut->modulus * cut->expansion * rise / (1.0 - cut->poisson);
}

void bite_limit_craze(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    const bite_wall_heat *surfaces[] = {&limit->segment->wall, &limit->segment->floor};
    bite_softening_law law = bite_cut_softening(cut);
    for (int i = 0; i < 2; i++) {
        if (!isnan(surfaces[i]->rise)) {
            set_worse(limit, locked_stress(cut, &law, surfaces[i]), cut->crazing);
        }
    }
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
    if (cut->substance == BITE_METAL) {
        bite_limit_omit(limit, BITE_WHY_DOES_NOT_CRAZE);
    }
}
