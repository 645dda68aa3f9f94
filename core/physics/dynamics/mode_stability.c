/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depth above which one mode chatters, at the actual speed, in closed form. */
#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/dynamics/stability_lobes.h"
#include <complex.h>
#include <math.h>

#define ROUNDS 60

void bite_mode_roots(bite_arc arc, double ratio, bite_direction_root roots[2])
{
    double direction[4];
    bite_chatter_directions(arc, ratio, direction);
    double trace = direction[0] + direction[3];
    double complex det = direction[0] * direction[3] - direction[1] * direction[2];
    double complex root = csqrt(trace * trace - 4.0 * det);
    for (int i = 0; i < 2; i++) {
        double complex value = 0.5 * (i == 0 ? trace + root : trace - root);
        double phase = carg(value) + 0.5 * M_PI;
        roots[i].size = cabs(value);
        roots[i].phase = phase < 0.0 ? phase + 2.0 * M_PI : phase;
    }
}

/* Phase lag psi of the mode's response, rad. *slope: its derivative with w. */
static double lag_of(double damping, double w, double *slope)
{
    double real = 1.0 - w * w;
    double imaginary = 2.0 * damping * w;
    *slope = 2.0 * damping * (1.0 + w * w) / (real * real + imaginary * imaginary);
    return atan2(imaginary, real);
}

/* The frequency at which w tau + 2 psi(w), which increases with w, is `wanted` > 0: by Newton's
 * method within a bracket, since psi is steep at the resonance. */
static double frequency_of(double damping, double tau, double wanted, double start)
{
    double low = fmax(0.0, (wanted - 2.0 * M_PI) / tau);
    double high = wanted / tau;
    double w = fmin(high, fmax(low, start));
    for (int i = 0; i < ROUNDS; i++) {
        double slope;
        double gap = w * tau + 2.0 * lag_of(damping, w, &slope) - wanted;
        low = gap < 0.0 ? w : low;
        high = gap < 0.0 ? high : w;
        double next = w - gap / (tau + 2.0 * slope);
        next = next > low && next < high ? next : 0.5 * (low + high);
        if (fabs(next - w) <= 1e-12 * w) {
            return next;
        }
        w = next;
    }
    return w;
}

static double depth_of_lobe(const bite_direction_root *root, const bite_vibration_mode *mode,
                            const bite_excitation *cut, double tau, double lobe, double start)
{
    double wanted = 2.0 * root->phase + 2.0 * M_PI * lobe;
    if (!(wanted > 0.0)) {
        return INFINITY;
    }
    double slope;
    double w = frequency_of(mode->damping, tau, wanted, start);
    double shift = root->phase - lag_of(mode->damping, w, &slope);
    if (!(shift > 0.0 && shift < M_PI)) {
        return INFINITY;
    }
    double stiff = mode->stiffness * hypot(1.0 - w * w, 2.0 * mode->damping * w);
    return 2.0 * M_PI * stiff / (sin(shift) * cut->teeth * cut->tangential * root->size);
}

double bite_mode_depth(const bite_direction_root roots[2], const bite_vibration_mode *mode,
                       const bite_excitation *cut)
{
    double tau = 2.0 * M_PI * mode->frequency / (cut->teeth * cut->speed);
    double least = INFINITY;
    for (int i = 0; i < 2; i++) {
        double half = 0.5 * roots[i].phase;
        if (!(roots[i].size > 0.0 && sin(half) > 0.0)) {
            continue;
        }
        /* the minimum of a lobe is near this frequency */
        double slope;
        double start = fmax(0.0, 1.0 - mode->damping * cos(half) / sin(half));
        double at =
            (start * tau + 2.0 * lag_of(mode->damping, start, &slope) - 2.0 * roots[i].phase) /
            (2.0 * M_PI);
        double lobe = floor(at);
        least = fmin(least, depth_of_lobe(&roots[i], mode, cut, tau, lobe, start));
        least = fmin(least, depth_of_lobe(&roots[i], mode, cut, tau, lobe + 1.0, start));
    }
    return least;
}

/* Land in contact with the waves, in edge radii, and the ratio a0 Z/zeta above which no wave grows.
 */
static const double contact_in_radii = 8.0;
static const double no_growth = 0.98;

double bite_mode_damped_depth(double depth, const bite_vibration_mode *mode,
                              const bite_excitation *cut)
{
    double rise = contact_in_radii * cut->edge_radius * cut->tangential * cut->teeth * cut->span *
                  mode->frequency / (4.0 * cut->surface_speed * mode->stiffness);
    double share = depth * rise / mode->damping;
    return share < no_growth ? depth / (1.0 - share) : INFINITY;
}
