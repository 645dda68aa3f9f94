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
    double reach;          /* |L| + Im L: twice the most that Im L - x Re L is of 1 + x^2 */
    double half_cotangent; /* cot(c/2) = Re L/reach */
} bite_direction_root;

/**
 * Both eigenvalues for an arc of contact and a ratio r of radial to tangential pressure; the second
 * one has the smaller reach.
 *
 * The four factors are integrals of sines and cosines of twice the angle over the arc; of their
 * matrix only trace and determinant matter, in which the place of the arc cancels: L = -r s +-
 * sqrt((1 + r^2) sin^2 s - s^2), s the arc's span (derived here). They are a conjugated pair, or
 * real and of one sign, so that their phases add up to pi or to 3 pi.
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
    double far = middle > 0.0 ? middle + apart : middle - apart;
    double near = middle > 0.0 ? middle - apart : middle + apart;
    double phase = atan2(turned, far) + 0.5 * M_PI;
    double reach = sqrt(far * far + turned * turned) + turned;
    double less = turned > 0.0 ? near * near / reach : fabs(near);
    bite_direction_root first = {far, turned, phase, reach, far / reach};
    bite_direction_root second = {near, -turned, phase > M_PI ? 3.0 * M_PI - phase : M_PI - phase,
                                  less, near / less};
    roots[0] = first;
    roots[1] = second;
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

/* A first w - 1 for w tau + 2 psi = wanted; rest = wanted - pi - tau, to which tau (w - 1) + 2 atan
 * x is to be equal. Near the resonance w = 1 + zeta x, and with atan x about x/(1 + 2 |x|/pi) the
 * equation is quadratic; its root is kept within bounds of the true one, which follow from 0 < psi
 * < pi and, below the resonance, psi < w pi/2. */
BITE_FORMULA double bite_mode_first_guess(double damping, double tau, double wanted, double rest)
{
    const double p = 2.0 / M_PI;
    double size = fabs(rest);
    double line = tau * damping + 2.0 - p * size;
    double square = tau * damping * p;
    double root = sqrt(line * line + 4.0 * square * size);
    bool near = line > 0.0; /* both quotients are equal; the other one would be 0/0 at its end */
    double above = near ? 2.0 * size : root - line;
    double below = near ? line + root : 2.0 * square;
    double guess = damping * above / below;
    double per_tau = 1.0 / tau; /* the lobes of a root share these quotients */
    double low = bite_larger(wanted * (1.0 / (tau + M_PI)), (wanted - M_PI) * per_tau) - 1.0;
    return rest < 0.0 ? bite_within(-guess, low, 0.0)
                      : bite_within(guess, 0.0, wanted * per_tau - 1.0);
}

/* Householder's method with four derivatives: from that guess the second round ends within 1e-9 of
 * the root in units of 1 + |x|, and within rounding almost everywhere, for dampings of 1e-4 to 0.5
 * and tau of 0.02 to 2000. */
#define BITE_MODE_ROUNDS 2

/* The w - 1 of a lobe. With p = w^2 - 1, q = 2 zeta w and s = p^2 + q^2, x = p/q; the derivatives
 * of atan x follow from that it rises by 2 zeta (w^2 + 1)/s. */
BITE_FORMULA double bite_mode_solve(double damping, double tau, double wanted)
{
    double rest = wanted - M_PI - tau;
    double v = bite_mode_first_guess(damping, tau, wanted, rest);
    double slope = 2.0 * damping;
    BITE_UNROLLED
    for (int i = 0; i < BITE_MODE_ROUNDS; i++) {
        double w = 1.0 + v;
        double p = v * (2.0 + v);
        double q = slope * w;
        double s = p * p + q * q;
        double inverse = 1.0 / (q * s);
        double per_s = q * inverse;
        double middle = 4.0 * p + 2.0 * slope * slope;
        double s1 = w * middle;
        double s2 = middle + 8.0 * w * w;
        double rise = slope * (p + 2.0) * per_s;
        double rise2 = (2.0 * q - rise * s1) * per_s;
        double rise3 = (2.0 * slope - 2.0 * rise2 * s1 - rise * s2) * per_s;
        double rise4 = -3.0 * (rise3 * s1 + rise2 * s2 + 8.0 * rise * w) * per_s;
        double gap = tau * v + 2.0 * atan(p * s * inverse) - rest;
        double d1 = tau + 2.0 * rise;
        double g1 = gap * rise2; /* half of gap d2 */
        double g2 = gap * gap * rise3;
        double square = d1 * d1;
        double a = 4.0 * gap * (3.0 * d1 * (square - 2.0 * g1) + g2);
        double b = 6.0 * square * (2.0 * square - 6.0 * g1) + 12.0 * g1 * g1 + 8.0 * d1 * g2 -
                   gap * gap * gap * rise4;
        v -= a / b;
    }
    return v;
}

/* 1/depth of a lobe, 1/m; 0: it has none, or the lobe does not exist. */
BITE_FORMULA double bite_mode_lobe_reciprocal(const bite_direction_root *root,
                                              const bite_vibration_mode *mode, double force,
                                              double tau, double lobe)
{
    double wanted = 2.0 * root->phase + 2.0 * M_PI * lobe;
    bool exists = wanted > 0.0;
    double v = bite_mode_solve(mode->damping, tau, exists ? wanted : 1.0);
    double p = v * (2.0 + v);
    double q = 2.0 * mode->damping * (1.0 + v);
    double grows = q * root->imaginary - p * root->real; /* as the sine of c - psi */
    double reciprocal = force * grows / (2.0 * M_PI * mode->stiffness * (p * p + q * q));
    return exists ? bite_larger(reciprocal, 0.0) : 0.0;
}

/** 1/depth, 1/m, of a root, at which an undamped flank begins to chatter; 0: at none. The larger
 * one of the two lobes nearest to the resonance; the deepest part of a lobe lies near w = 1 - zeta
 * cot(c/2). The mode chatters at the larger one of its roots. */
BITE_FORMULA double bite_mode_root_reciprocal(const bite_direction_root *root,
                                              const bite_vibration_mode *mode,
                                              const bite_excitation *cut)
{
    double tau = 2.0 * M_PI * mode->frequency / (cut->teeth * cut->speed);
    double force = cut->teeth * cut->tangential;
    double w = bite_larger(1.0 - mode->damping * root->half_cotangent, 0.0);
    double lag = atan2(2.0 * mode->damping * w, 1.0 - w * w);
    double first = floor((w * tau + 2.0 * lag - 2.0 * root->phase) / (2.0 * M_PI));
    return bite_larger(bite_mode_lobe_reciprocal(root, mode, force, tau, first),
                       bite_mode_lobe_reciprocal(root, mode, force, tau, first + 1.0));
}

/** What the reciprocal of a root exceeds at no speed, 1/m; INFINITY: none is known. The mode
 * chatters above x = Im L/Re L alone, and there w has its least value. */
BITE_FORMULA double bite_mode_root_ceiling(const bite_direction_root *root,
                                           const bite_vibration_mode *mode,
                                           const bite_excitation *cut)
{
    double e = bite_smaller(mode->damping * root->imaginary / root->real, 0.0);
    double per_w = sqrt(1.0 + e * e) - e;
    double ceiling = cut->teeth * cut->tangential * root->reach * per_w /
                     (8.0 * M_PI * mode->stiffness * mode->damping);
    return root->real < 0.0 ? ceiling : (double)INFINITY;
}

/**
 * A depth with the damping by the flank, which presses on the waves that the edge has cut.
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
