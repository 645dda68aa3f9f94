/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a tool or a thin part may deflect if no tolerance was requested. */
#include "core/cut/gross_deflection.h"
#include "core/cut/physics_inputs.h"
#include <math.h>
#include <stddef.h>

/* Deviations that nobody would accept even if no tolerance was requested: the general tolerance of
 * class c (ISO 2768-1), either way, for sizes from the stated one upwards, straight in between so
 * that it has no steps. m */
static const struct {
    double size;
    double deviation;
} coarse[] = {{0.5e-3, 0.2e-3}, {3e-3, 0.3e-3}, {6e-3, 0.5e-3}, {30e-3, 0.8e-3}};

static double coarse_at(double size)
{
    size_t last = sizeof coarse / sizeof *coarse - 1;
    for (size_t i = 1; i <= last; i++) {
        if (size < coarse[i].size) {
            double share =
                fmax(0.0, size - coarse[i - 1].size) / (coarse[i].size - coarse[i - 1].size);
            return coarse[i - 1].deviation +
                   share * (coarse[i].deviation - coarse[i - 1].deviation);
        }
    }
    return coarse[last].deviation;
}

/* A body that springs away by all that the pass removes is not cut at all; a smaller deflection is
 * found by the next pass, which then removes as much as it should. */
double bite_gross_deflection_capacity(double size, double share, double removed)
{
    return fmin(fmin(share * size, coarse_at(size)), removed);
}

double bite_gross_deflection_width(const bite_limit_case *limit)
{
    return limit->segment->engaged * bite_cutting_diameter(limit->cut);
}

void bite_gross_deflection_omit_if_toleranced(bite_limit_case *limit)
{
    if (!isnan(limit->requested->tolerance)) {
        bite_limit_omit(limit, BITE_WHY_TOLERANCE);
    }
}
