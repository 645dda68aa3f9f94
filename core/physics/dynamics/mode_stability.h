/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The depth above which one mode chatters, at the actual speed, in closed form.
 *
 * A mode that is the same along and across the feed has G = 1/(k (1 - w^2 + 2 i zeta w)), w =
 * chatter frequency / natural frequency. With L an eigenvalue of the averaged directional factors
 * (Altintas and Budak 1995, recalled; zero order) the characteristic equation is 1 = z K a L G (1 -
 * exp(-i w tau))/(4 pi), tau = 2 pi f/(z n). Its phase determines w, its magnitude the depth a.
 *
 * With the response's lag psi behind the force the phase is that of w tau + 2 psi = 2 c + 2 pi
 * lobe, c = arg L + pi/2. In x = -cot(psi) = (w^2 - 1)/(2 zeta w), 1/a = z K (Im L - x Re L)/(4 pi
 * k zeta w (1 + x^2)): no angle is needed but that of the phase itself.
 */
#ifndef BITE_PHYSICS_DYNAMICS_MODE_STABILITY_H
#define BITE_PHYSICS_DYNAMICS_MODE_STABILITY_H

#include "core/base/lane_math.h"
#include "core/physics/geometry/engagement.h"
#include <stdbool.h>

/** An eigenvalue L of the averaged directional factors. */
typedef struct bite_direction_root {
    double real;
    double imaginary;
    double phase;          /* c = arg L + pi/2, rad, 0 to 2 pi */
    double half_cotangent; /* cot(c/2) */
} bite_direction_root;

BITE_FORMULA bite_direction_root bite_mode_root(double real, double imaginary)
{
    double size = sqrt(real * real + imaginary * imaginary);
    double phase = atan2(imaginary, real) + 0.5 * M_PI;
    bite_direction_root root = {real, imaginary, phase < 0.0 ? phase + 2.0 * M_PI : phase,
                                real / (size + imaginary)}; /* sin c/(1 - cos c) */
    return root;
}

/**
 * Both eigenvalues for an arc of contact and a ratio r of radial to tangential pressure.
 *
 * The four factors are integrals of sines and cosines of twice the angle over the arc; of their
 * matrix only trace and determinant matter, in which the place of the arc cancels: L = -r s +-
 * sqrt((1 + r^2) sin^2 s - s^2), s the arc's span (derived here).
 */
BITE_FORMULA void bite_mode_roots(bite_arc arc, double ratio, bite_direction_root roots[2])
{
    double span = arc.leave - arc.enter;
    double sine = sin(span);
    double middle = -ratio * span;
    double square = ratio * ratio * sine * sine - (span - sine) * (span + sine);
    double root = sqrt(fabs(square));
    double apart = square > 0.0 ? root : 0.0;
    double turned = square > 0.0 ? 0.0 : root;
    roots[0] = bite_mode_root(middle + apart, turned);
    roots[1] = bite_mode_root(middle - apart, -turned);
}

typedef struct bite_vibration_mode {
    double frequency; /* f, Hz */
    double stiffness; /* k, N/m */
    double damping;   /* zeta, 1 */
} bite_vibration_mode;

/** The cut that excites the mode. */
typedef struct bite_excitation {
    double teeth;         /* z */
    double speed;         /* n, 1/s */
    double tangential;    /* K, Pa */
    double span;          /* arc of contact, rad */
    double surface_speed; /* v, m/s */
    double edge_radius;   /* re, m */
} bite_excitation;

/* w at x = -cot(psi), and R = sqrt(1 + (zeta x)^2), of which dw/dx = zeta w/R. */
BITE_FORMULA double bite_mode_ratio_at(double damping, double x, double *root)
{
    double e = damping * x;
    *root = sqrt(1.0 + e * e);
    double sum = *root + fabs(e);
    return e > 0.0 ? sum : 1.0 / sum;
}

/* A first x for w tau + 2 psi = wanted. Near the resonance w = 1 + zeta x, and with atan x about
 * x/(1 + 2 |x|/pi) the equation is quadratic; the w of its root is kept within bounds of the true
 * one, which follow from 0 < psi < pi and, below the resonance, psi < w pi/2. */
BITE_FORMULA double bite_mode_first_guess(double damping, double tau, double wanted)
{
    const double p = 2.0 / M_PI;
    double rest = wanted - M_PI - tau; /* of tau zeta x + 2 atan x */
    bool below = rest < 0.0;
    double size = fabs(rest);
    double line = tau * damping + 2.0 - p * size;
    double square = tau * damping * p;
    double root = sqrt(line * line + 4.0 * square * size);
    double x = line > 0.0 ? 2.0 * size / (line + root) : (root - line) / (2.0 * square);
    double w = 1.0 + damping * (below ? -x : x);
    double low = bite_larger(wanted / (tau + M_PI), (wanted - M_PI) / tau);
    w = below ? bite_within(w, low, 1.0) : bite_within(w, 1.0, wanted / tau);
    return (w * w - 1.0) / (2.0 * damping * w);
}

/* Householder's method with three derivatives: from that guess the third round ends within
 * rounding, for dampings of 1e-4 to 0.5 and tau of 0.02 to 2000. */
#define BITE_MODE_ROUNDS 3

/* The x of a lobe. */
BITE_FORMULA double bite_mode_solve(double damping, double tau, double wanted)
{
    double x = bite_mode_first_guess(damping, tau, wanted);
    double rise = tau * damping;
    for (int i = 0; i < BITE_MODE_ROUNDS; i++) {
        double root;
        double w = bite_mode_ratio_at(damping, x, &root);
        double per_root = 1.0 / root;
        double u = 1.0 / (1.0 + x * x);
        double curve = rise * damping * per_root * per_root * per_root;
        double gap = tau * w + 2.0 * atan(x) - (wanted - M_PI);
        double d1 = rise * w * per_root + 2.0 * u;
        double d2 = curve - 4.0 * x * u * u;
        double d3 = (12.0 * x * x - 4.0) * u * u * u -
                    3.0 * curve * damping * damping * x * per_root * per_root;
        double a = 3.0 * gap * (2.0 * d1 * d1 - gap * d2);
        double b = 6.0 * d1 * (d1 * d1 - gap * d2) + gap * gap * d3;
        x -= a / b;
    }
    return x;
}

BITE_FORMULA double bite_mode_lobe_depth(const bite_direction_root *root,
                                         const bite_vibration_mode *mode, double force, double tau,
                                         double lobe)
{
    double wanted = 2.0 * root->phase + 2.0 * M_PI * lobe;
    bool exists = wanted > 0.0;
    double x = bite_mode_solve(mode->damping, tau, exists ? wanted : 1.0);
    double slant;
    double w = bite_mode_ratio_at(mode->damping, x, &slant);
    double grows = root->imaginary - x * root->real; /* as the sine of c - psi */
    double depth =
        4.0 * M_PI * mode->stiffness * mode->damping * w * (1.0 + x * x) / (force * grows);
    return (exists & (grows > 0.0)) ? depth : (double)INFINITY;
}

/* The deepest part of a lobe lies near w = 1 - zeta cot(c/2). */
BITE_FORMULA double bite_mode_root_depth(const bite_direction_root *root,
                                         const bite_vibration_mode *mode, double force, double tau)
{
    double w = bite_larger(1.0 - mode->damping * root->half_cotangent, 0.0);
    double lag = atan2(2.0 * mode->damping * w, 1.0 - w * w);
    double first = floor((w * tau + 2.0 * lag - 2.0 * root->phase) / (2.0 * M_PI));
    return bite_smaller(bite_mode_lobe_depth(root, mode, force, tau, first),
                        bite_mode_lobe_depth(root, mode, force, tau, first + 1.0));
}

/** The depth, m, at which an undamped flank begins to chatter; INFINITY: none. The least over both
 * roots and the two lobes nearest to the resonance. */
BITE_FORMULA double bite_mode_depth(const bite_direction_root roots[2],
                                    const bite_vibration_mode *mode, const bite_excitation *cut)
{
    double tau = 2.0 * M_PI * mode->frequency / (cut->teeth * cut->speed);
    double force = cut->teeth * cut->tangential;
    return bite_smaller(bite_mode_root_depth(&roots[0], mode, force, tau),
                        bite_mode_root_depth(&roots[1], mode, force, tau));
}

/**
 * The same with the damping by the flank, which presses on the waves that the edge has cut.
 *
 * Contact of 8 re behind the edge (estimate, fitted; indentation of 4e13 N/m3 with a land of 60 um,
 * memory, has the same magnitude at re = 10 um) raises zeta by Z a, Z = 8 re K (z span/2 pi) w_n/(4
 * v k), so that a = a0/(1 - a0 Z/zeta); INFINITY from a0 Z = 0.98 zeta on.
 */
BITE_FORMULA double bite_mode_damped_depth(double depth, const bite_vibration_mode *mode,
                                           const bite_excitation *cut)
{
    const double contact_in_radii = 8.0;
    const double no_growth = 0.98;
    double rise = contact_in_radii * cut->edge_radius * cut->tangential * cut->teeth * cut->span *
                  mode->frequency / (4.0 * cut->surface_speed * mode->stiffness * mode->damping);
    double share = depth * rise;
    return share < no_growth ? depth / (1.0 - share) : (double)INFINITY;
}

#endif
