/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the part's temperature: softening and crazing. */
#include "core/cut/limits_heat.h"
#include "core/cut/block/softening_law.h"
#include <math.h>

/* Boards, laminates and minerals: the flash temperature against the shop limit, since they scorch
 * at once. */
BITE_FORMULA void soften_board(const bite_block *block, const bite_block_segment *segment,
                               double *restrict demand, double *restrict capacity)
{
    const double *room = BITE_ROW(block, room_temperature);
    const double *softening = BITE_ROW(block, softening);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->value[BITE_FLASH_TEMPERATURE][k] - room[k];
        capacity[k] = softening[k] - room[k];
    }
}

/* Whether some lane has a floor. */
static int has_floor(const bite_block *block, const bite_block_segment *segment)
{
    int known = 0;
    for (int k = 0; k < block->lanes; k++) {
        known |= segment->floor_rise[k] == segment->floor_rise[k];
    }
    return known;
}

static const bite_lanes no_decades = {0.0};

/* The surface counts whose demand exceeds more of its capacity; one that the cut does not have, of
 * NaN, does not. The first one replaces the NaN of a lane that has none yet. */
BITE_FORMULA void take_worse(const bite_block *block, const double *restrict rise,
                             const double *restrict new_demand, const double *restrict new_capacity,
                             double *restrict demand, double *restrict capacity)
{
    bite_lanes worse;
    BITE_EACH_LANE(k, block)
    {
        int more = new_demand[k] * capacity[k] > demand[k] * new_capacity[k];
        worse[k] = ((rise[k] == rise[k]) & (more | (demand[k] != demand[k]))) ? 1.0 : 0.0;
    }
    bite_take_where(block, worse, new_demand, demand);
    bite_take_where(block, worse, new_capacity, capacity);
}

/* Polymers: the sustained temperature of the surface against that at which it would flow within the
 * time for which it stays warm. */
BITE_FORMULA void soften_surface(const bite_block *block, const double *restrict rise,
                                 const double *restrict dwell, double *restrict demand,
                                 double *restrict capacity)
{
    const double *room = BITE_ROW(block, room_temperature);
    bite_lanes margin;
    bite_block_fill_flow(block, dwell, no_decades, margin);
    BITE_EACH_LANE(k, block)
    {
        margin[k] -= room[k];
    }
    take_worse(block, rise, rise, margin, demand, capacity);
}

static void blank(const bite_block *block, double *restrict demand, double *restrict capacity)
{
    for (int k = 0; k < block->lanes; k++) {
        demand[k] = capacity[k] = (double)NAN;
    }
}

BITE_IN_LANES void bite_limit_softening(const bite_block *block, const bite_block_segment *segment,
                                        double *restrict demand, double *restrict capacity)
{
    if (!bite_block_is_polymer(block)) {
        soften_board(block, segment, demand, capacity);
        return;
    }
    blank(block, demand, capacity);
    soften_surface(block, segment->wall_rise, segment->wall_dwell, demand, capacity);
    if (has_floor(block, segment)) {
        soften_surface(block, segment->floor_rise, segment->floor_dwell, demand, capacity);
    }
}

bite_why bite_limit_softening_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    return block->cut->substance == BITE_METAL ? BITE_WHY_METAL : BITE_WHY_APPLIES;
}

/* A layer that relaxes while it is warm contracts when it cools, and the material under it prevents
 * that: sigma = E alpha dT/(1 - nu) of the relaxed share. */
BITE_FORMULA void craze_surface(const bite_block *block, const double *restrict rise,
                                const double *restrict dwell, double *restrict demand,
                                double *restrict capacity)
{
    const double *room = BITE_ROW(block, room_temperature);
    const double *modulus = BITE_ROW(block, modulus);
    const double *expansion = BITE_ROW(block, expansion);
    const double *poisson = BITE_ROW(block, poisson);
    bite_lanes skin;
    bite_lanes stress;
    bite_lanes hottest;
    BITE_EACH_LANE(k, block)
    {
        skin[k] = room[k] + rise[k];
    }
    bite_block_fill_relaxed(block, skin, dwell, stress);
    bite_block_fill_flow(block, dwell, no_decades, hottest);
    BITE_EACH_LANE(k, block)
    {
        double warmer = bite_smaller(skin[k], hottest[k]) - room[k];
        stress[k] *= modulus[k] * expansion[k] * warmer / (1.0 - poisson[k]);
    }
    take_worse(block, rise, stress, BITE_ROW(block, crazing), demand, capacity);
}

BITE_IN_LANES void bite_limit_craze(const bite_block *block, const bite_block_segment *segment,
                                    double *restrict demand, double *restrict capacity)
{
    blank(block, demand, capacity);
    craze_surface(block, segment->wall_rise, segment->wall_dwell, demand, capacity);
    if (has_floor(block, segment)) {
        craze_surface(block, segment->floor_rise, segment->floor_dwell, demand, capacity);
    }
}

bite_why bite_limit_craze_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    if (block->cut->substance == BITE_METAL) {
        return BITE_WHY_DOES_NOT_CRAZE;
    }
    return bite_block_is_polymer(block) && bite_is_given(BITE_ROW(block, crazing))
               ? BITE_WHY_APPLIES
               : BITE_WHY_NO_DATA;
}
