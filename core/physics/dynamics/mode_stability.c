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
        double sine = creal(value) / roots[i].size;
        double cosine = -cimag(value) / roots[i].size;
        roots[i].half_sine = sqrt(0.5 * (1.0 - cosine));
        roots[i].half_cotangent = sine / (1.0 - cosine);
        roots[i].cotangent = cosine / sine;
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

/* The frequency at which the response lags by an angle, 0 to pi, of this cotangent. */
static double frequency_at_lag(double damping, double cotangent)
{
    double x = damping * cotangent;
    double root = sqrt(1.0 + x * x);
    return x > 0.0 ? 1.0 / (root + x) : root - x;
}

/* A frequency, and the lag of the response there. */
typedef struct response {
    double w;
    double lag;
    double slope; /* of the lag over w */
} response;

static response response_at(double damping, double w)
{
    response at = {.w = w};
    at.lag = lag_of(damping, w, &at.slope);
    return at;
}

/* The response where w tau + 2 psi(w), which grows with w, is `wanted` > 0: Newton within a
 * bracket, in w where the time between teeth makes most of the growth, in psi near the resonance,
 * where psi does. */
static response response_of_lobe(double damping, double tau, double wanted, response at)
{
    const double close = 1e-8; /* the next step is of the order of its square */
    double low = fmax(0.0, (wanted - 2.0 * M_PI) / tau);
    double high = wanted / tau;
    at = at.w < low ? response_at(damping, low) : at.w > high ? response_at(damping, high) : at;
    for (int i = 0; i < ROUNDS; i++) {
        double gap = at.w * tau + 2.0 * at.lag - wanted;
        low = gap < 0.0 ? at.w : low;
        high = gap < 0.0 ? high : at.w;
        double next = at.w - gap / (tau + 2.0 * at.slope);
        if (2.0 * at.slope > tau) {
            double psi = at.lag - gap / (2.0 + tau / at.slope);
            next = psi > 0.0 && psi < M_PI ? frequency_at_lag(damping, cos(psi) / sin(psi)) : next;
        }
        if (fabs(next - at.w) <= close * at.w) { /* before the bracket, of which w is an end */
            at.lag += at.slope * (next - at.w);
            at.w = next;
            return at;
        }
        at = response_at(damping, next > low && next < high ? next : 0.5 * (low + high));
    }
    return at;
}

static double depth_of_lobe(const bite_direction_root *root, const bite_vibration_mode *mode,
                            const bite_excitation *cut, double tau, double lobe,
                            const response *start)
{
    double wanted = 2.0 * root->phase + 2.0 * M_PI * lobe;
    if (!(wanted > 0.0)) {
        return INFINITY;
    }
    response at = response_of_lobe(mode->damping, tau, wanted, *start);
    double shift = root->phase - at.lag;
    if (!(shift > 0.0 && shift < M_PI)) {
        return INFINITY;
    }
    double real = 1.0 - at.w * at.w;
    double imaginary = 2.0 * mode->damping * at.w;
    double stiff = mode->stiffness * sqrt(real * real + imaginary * imaginary);
    return 2.0 * M_PI * stiff / (sin(shift) * cut->teeth * cut->tangential * root->size);
}

/* Whether waves can grow at a lobe: psi lies between phase - pi and phase. w tau + 2 psi grows with
 * w, so it is enough to compare it at that end; end: the frequency there. */
static int lobe_exists(const bite_direction_root *root, double end, double tau, double lobe)
{
    return root->phase > M_PI ? end * tau < 2.0 * M_PI * (lobe + 1.0)
                              : end * tau > 2.0 * M_PI * lobe;
}

/* No lobe of a root is shallower than this. With |1/G| = 2 zeta w/sin(psi) the depth is that of 2
 * zeta w/(sin(psi) sin(phase - psi)), whose divisor is at most sin^2(phase/2), and w is at least
 * its value at the end where psi is phase - pi; where that is 0, |1/G| is at least its least. */
static double least_depth(const bite_direction_root *root, const bite_vibration_mode *mode,
                          const bite_excitation *cut, double end)
{
    double damping = mode->damping;
    double soft = root->phase > M_PI ? 2.0 * damping * end / (root->half_sine * root->half_sine)
                                     : 2.0 * damping * sqrt(fmax(0.0, 1.0 - damping * damping));
    return 2.0 * M_PI * mode->stiffness * soft / (cut->teeth * cut->tangential * root->size);
}

static double depth_of_root(const bite_direction_root *root, const bite_vibration_mode *mode,
                            const bite_excitation *cut, double most)
{
    double end = frequency_at_lag(mode->damping, root->cotangent);
    if (!(root->size > 0.0 && root->half_sine > 0.0) || least_depth(root, mode, cut, end) >= most) {
        return INFINITY;
    }
    /* the deepest part of a lobe lies near this frequency */
    double tau = 2.0 * M_PI * mode->frequency / (cut->teeth * cut->speed);
    response start =
        response_at(mode->damping, fmax(0.0, 1.0 - mode->damping * root->half_cotangent));
    double first = floor((start.w * tau + 2.0 * start.lag - 2.0 * root->phase) / (2.0 * M_PI));
    double least = INFINITY;
    for (int i = 0; i < 2; i++) {
        double lobe = first + i;
        if (lobe_exists(root, end, tau, lobe)) {
            least = fmin(least, depth_of_lobe(root, mode, cut, tau, lobe, &start));
        }
    }
    return least;
}

double bite_mode_depth(const bite_direction_root roots[2], const bite_vibration_mode *mode,
                       const bite_excitation *cut, double most)
{
    int larger = roots[1].size > roots[0].size;
    double depth = depth_of_root(&roots[larger], mode, cut, most);
    return fmin(depth, depth_of_root(&roots[!larger], mode, cut, fmin(most, depth)));
}

/* Land in contact with the waves, in edge radii, and the share from which no wave grows. */
static const double contact_in_radii = 8.0;
static const double no_growth = 0.98;

/* Growth of the damping with the depth, over the damping, 1/m. */
static double damping_growth(const bite_vibration_mode *mode, const bite_excitation *cut)
{
    double rise = contact_in_radii * cut->edge_radius * cut->tangential * cut->teeth * cut->span *
                  mode->frequency / (4.0 * cut->surface_speed * mode->stiffness);
    return rise / mode->damping;
}

double bite_mode_damped_depth(double depth, const bite_vibration_mode *mode,
                              const bite_excitation *cut)
{
    double share = depth * damping_growth(mode, cut);
    return share < no_growth ? depth / (1.0 - share) : INFINITY;
}

double bite_mode_undamped_depth(double damped, const bite_vibration_mode *mode,
                                const bite_excitation *cut)
{
    double growth = damping_growth(mode, cut);
    return fmin(no_growth / growth, 1.0 / (1.0 / damped + growth));
}
