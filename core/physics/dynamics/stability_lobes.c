/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Modes, and the averaged directional coefficients of the zero-order solution. */
#include "core/physics/dynamics/stability_lobes.h"
#include <math.h>

bite_mode bite_mode_plain(double frequency, double stiffness, double damping)
{
    double natural = 2.0 * M_PI * frequency;
    bite_mode mode = {natural, damping, natural * natural / stiffness, 0.0};
    return mode;
}

static void directions_at(double phi, double ratio, double sign, double *sum)
{
    double twice = 2.0 * phi;
    sum[0] += sign * 0.5 * (cos(twice) - ratio * twice + ratio * sin(twice));
    sum[1] += sign * 0.5 * (-sin(twice) - twice + ratio * cos(twice));
    sum[2] += sign * 0.5 * (-sin(twice) + twice + ratio * cos(twice));
    sum[3] += sign * 0.5 * (-cos(twice) - ratio * twice - ratio * sin(twice));
}

void bite_chatter_directions(bite_arc arc, double ratio, double *coefficients)
{
    coefficients[0] = coefficients[1] = coefficients[2] = coefficients[3] = 0.0;
    directions_at(arc.leave, ratio, 1.0, coefficients);
    directions_at(arc.enter, ratio, -1.0, coefficients);
}
