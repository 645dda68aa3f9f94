/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Draws of uncertain inputs. */
#include "core/cut/draw.h"
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_qrng.h>
#include <math.h>

/* Deviate of 95 % of a standard normal. */
static const double deviate_95 = 1.6448536269514722;

/* splitmix64 (public domain, Vigna): the shifts of a seed, the same everywhere. */
static double shift_of(uint64_t *seed)
{
    uint64_t z = *seed += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    z ^= z >> 31;
    return (double)(z >> 11) * 0x1p-53;
}

int bite_draw_begin(bite_draw *draw, unsigned dimensions, uint64_t seed)
{
    const gsl_qrng_type *sobol = gsl_qrng_sobol;
    if (dimensions == 0 || dimensions > BITE_DRAW_DIMENSIONS || dimensions > sobol->max_dimension ||
        sobol->state_size(dimensions) > sizeof draw->state.bytes || sobol->init_state(draw->state.bytes, dimensions) != 0) {
        return 0;
    }
    draw->dimensions = dimensions;
    for (unsigned i = 0; i < dimensions; i++) {
        draw->shift[i] = shift_of(&seed);
    }
    return 1;
}

void bite_draw_next(bite_draw *draw, double *point)
{
    (void)gsl_qrng_sobol->get(draw->state.bytes, draw->dimensions, point);
    for (unsigned i = 0; i < draw->dimensions; i++) {
        double at = point[i] + draw->shift[i];
        at -= at >= 1.0 ? 1.0 : 0.0;
        point[i] = fmin(fmax(at, 1e-12), 1.0 - 1e-12);
    }
}

double bite_draw_normal(double probability)
{
    return gsl_cdf_ugaussian_Pinv(probability);
}

double bite_draw_value(const bite_spread *spread, double best, double deviate)
{
    if (spread->shape == BITE_SHAPE_LEVEL) {
        double share = gsl_cdf_ugaussian_P(deviate);
        return spread->low + share * (spread->high - spread->low);
    }
    double end = deviate < 0.0 ? spread->low : spread->high;
    double size = fabs(deviate) / deviate_95;
    if (spread->shape == BITE_SHAPE_LOGNORMAL) {
        return best * pow(end / best, size);
    }
    return best + size * (end - best);
}
