/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws of uncertain inputs. */
#include "core/cut/draw.h"
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_qrng.h>
#include <math.h>

/* Deviate of 95 % of a standard normal. */
static const double deviate_95 = 1.6448536269514722;

/* GSL's points are multiples of 2^-30. */
#define DIGITS 30 /* of 0x1p30 below */

/* splitmix64 (public domain, Vigna): the shifts of a seed, the same everywhere. */
static uint32_t shift_of(uint64_t *seed)
{
    uint64_t z = *seed += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    z ^= z >> 31;
    return (uint32_t)(z >> (64 - DIGITS));
}

int bite_draw_begin(bite_draw *draw, unsigned dimensions, uint64_t seed)
{
    const gsl_qrng_type *sobol = gsl_qrng_sobol;
    if (dimensions == 0 || dimensions > BITE_DRAW_DIMENSIONS || dimensions > sobol->max_dimension ||
        sobol->state_size(dimensions) > sizeof draw->state.bytes || sobol->init_state(draw->state.bytes, dimensions) != 0) {
        return 0;
    }
    draw->dimensions = dimensions;
    draw->begun = 0;
    for (unsigned i = 0; i < dimensions; i++) {
        draw->shift[i] = shift_of(&seed);
    }
    return 1;
}

void bite_draw_next(bite_draw *draw, double *point)
{
    double at[BITE_DRAW_DIMENSIONS] = {0.0}; /* GSL leaves out the first point, the origin */
    if (draw->begun) {
        (void)gsl_qrng_sobol->get(draw->state.bytes, draw->dimensions, at);
    }
    draw->begun = 1;
    for (unsigned i = 0; i < draw->dimensions; i++) {
        uint32_t digits = (uint32_t)(at[i] * 0x1p30) ^ draw->shift[i];
        point[i] = ((double)digits + 0.5) * 0x1p-30;
    }
}

double bite_draw_normal(double probability)
{
    return gsl_cdf_ugaussian_Pinv(probability);
}

bite_scatter bite_draw_scatter(const bite_spread *spread, double best)
{
    bite_scatter scatter = {best, 0.0, 0.0, spread->shape, 0};
    if (spread->shape == BITE_SHAPE_LEVEL) {
        scatter.best = spread->low;
        scatter.up = spread->high - spread->low;
    } else if (spread->shape == BITE_SHAPE_LOGNORMAL) {
        scatter.down = log(best / spread->low) / deviate_95;
        scatter.up = log(spread->high / best) / deviate_95;
    } else {
        scatter.down = (best - spread->low) / deviate_95;
        scatter.up = (spread->high - best) / deviate_95;
    }
    return scatter;
}

double bite_draw_value(const bite_scatter *scatter, double deviate)
{
    if (scatter->shape == BITE_SHAPE_LEVEL) {
        return scatter->best + gsl_cdf_ugaussian_P(deviate) * scatter->up;
    }
    double away = deviate * (deviate < 0.0 ? scatter->down : scatter->up);
    return scatter->shape == BITE_SHAPE_LOGNORMAL ? scatter->best * exp(away) : scatter->best + away;
}
