/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chatter by the zero-order solution. */
#include "core/physics/dynamics/stability_lobes.h"
#include <complex.h>
#include <math.h>

/* Frequencies are looked at from half the lowest mode to this many times the highest, in steps of
 * the narrowest resonance. */
static const double lowest = 0.5;
static const double highest = 2.5;
static const double step_of_width = 1.0;
#define STEPS_MOST 6000
#define ROUNDS 4
#define SPLITS 24
#define LOBES 30

/* A stretch over which the waves gain less, and pass no whole number, holds no lobe. */
static const double waves_enough = 0.2;

/* C/K in edge radii, and the tangent of a small end mill's clearance, 10 to 14 degrees (memory). */
static const double rides_in_radii = 4.0;
static const double clearance = 0.2;

bite_mode bite_mode_plain(double frequency, double stiffness, double damping)
{
    double natural = 2.0 * M_PI * frequency;
    bite_mode mode = {natural, damping, natural * natural / stiffness, 0.0};
    return mode;
}

static double complex response(const bite_axis_modes *axis, double w)
{
    double complex sum = 0.0;
    for (int i = 0; i < axis->count; i++) {
        const bite_mode *mode = &axis->modes[i];
        double complex below =
            mode->natural * mode->natural - w * w + 2.0 * I * mode->damping * mode->natural * w;
        sum += (mode->alpha + I * mode->beta * w) / below;
    }
    return sum;
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

/* The two eigenvalues L of a0 L^2 + a1 L + 1 = 0 at a frequency; one where an axis is rigid. */
typedef struct pair {
    int count;
    double complex root[2];
} pair;

static pair roots_at(const bite_chatter_case *problem, const double *direction, double w)
{
    double complex gx = response(&problem->x, w);
    double complex gy = response(&problem->y, w);
    double complex a0 = gx * gy * (direction[0] * direction[3] - direction[1] * direction[2]);
    double complex a1 = direction[0] * gx + direction[3] * gy;
    pair found = {1, {0.0, 0.0}};
    if (a0 == 0.0) {
        found.root[0] = -1.0 / a1;
        return found;
    }
    double complex root = csqrt(a1 * a1 - 4.0 * a0);
    found.count = 2;
    found.root[0] = (-a1 + root) / (2.0 * a0);
    found.root[1] = (-a1 - root) / (2.0 * a0);
    return found;
}

/* Depth of an eigenvalue, 1/alim so that what is no limit passes through 0; > 0: a limit. */
static double inverse_depth(const bite_chatter_case *problem, double complex root)
{
    double size = creal(root) * creal(root) + cimag(root) * cimag(root);
    return -problem->teeth * problem->tangential * creal(root) / (2.0 * M_PI * size);
}

static double depth_of(double inverse)
{
    return inverse > 0.0 ? 1.0 / inverse : INFINITY;
}

/* The same two roots at the next frequency keep their places. */
static void keep_places(const pair *before, pair *now)
{
    if (now->count == 2 &&
        cabs(now->root[0] - before->root[0]) > cabs(now->root[1] - before->root[0])) {
        double complex other = now->root[0];
        now->root[0] = now->root[1];
        now->root[1] = other;
    }
}

typedef struct frequency_sweep {
    double from;
    double step;
    int steps;
} frequency_sweep;

/* near: 2 pi times the teeth's frequency; INFINITY: the whole range. Further than so many lobes
 * from the modes none is the least.
 */
static frequency_sweep sweep_of(const bite_chatter_case *problem, double near)
{
    const bite_axis_modes *axes[] = {&problem->x, &problem->y};
    double low = INFINITY;
    double high = 0.0;
    double narrow = INFINITY;
    for (int k = 0; k < 2; k++) {
        for (int i = 0; i < axes[k]->count; i++) {
            low = fmin(low, axes[k]->modes[i].natural);
            high = fmax(high, axes[k]->modes[i].natural);
            narrow = fmin(narrow, axes[k]->modes[i].natural * axes[k]->modes[i].damping);
        }
    }
    double from = fmax(lowest * low, low - LOBES * near);
    double to = fmin(highest * high, high + LOBES * near);
    double steps = fmin(STEPS_MOST, ceil((to - from) / (step_of_width * narrow)));
    frequency_sweep found = {from, (to - from) / steps, (int)steps};
    return found;
}

/* Whole waves between two teeth: an integer where the speed lies on a lobe of this frequency. */
static double waves_of(double complex root, double w, double pitch_time)
{
    double shift = M_PI - 2.0 * atan2(cimag(root), creal(root));
    return (w * pitch_time - shift) / (2.0 * M_PI);
}

/* A stretch of frequencies, with its eigenvalues at both ends. */
typedef struct frequency_range {
    double low;
    double high;
    pair at_low;
    pair at_high;
} frequency_range;

/* How far the waves get from one frequency to the next; whole turns of the angle count for nothing.
 */
static double waves_gained(double was, double is)
{
    double gained = is - was;
    return gained - floor(gained + 0.5);
}

/* The least depth on lobes of one root within a stretch: parts in which the waves gain little, so
 * that none is passed over. */
static double depth_within(const bite_chatter_case *problem, const double *direction, int place,
                           const frequency_range *within, double pitch_time, int splits)
{
    double was = waves_of(within->at_low.root[place], within->low, pitch_time);
    double gained =
        waves_gained(was, waves_of(within->at_high.root[place], within->high, pitch_time));
    int crosses = floor(was + gained) != floor(was);
    if (splits == 0 || (fabs(gained) < waves_enough && !crosses)) {
        return crosses ? depth_of(inverse_depth(problem, within->at_low.root[place])) : INFINITY;
    }
    double middle = 0.5 * (within->low + within->high);
    pair now = roots_at(problem, direction, middle);
    keep_places(&within->at_low, &now);
    frequency_range below = {within->low, middle, within->at_low, now};
    frequency_range above = {middle, within->high, now, within->at_high};
    return fmin(depth_within(problem, direction, place, &below, pitch_time, splits - 1),
                depth_within(problem, direction, place, &above, pitch_time, splits - 1));
}

double bite_chatter_at(const bite_chatter_case *problem, double speed)
{
    double direction[4];
    double least = INFINITY;
    double pitch_time = 1.0 / (problem->teeth * speed);
    bite_chatter_directions(problem->arc, problem->ratio, direction);
    frequency_sweep along = sweep_of(problem, 2.0 * M_PI / pitch_time);
    frequency_range part;
    part.at_low = roots_at(problem, direction, along.from);
    for (int i = 1; i <= along.steps; i++) {
        part.low = along.from + along.step * (i - 1);
        part.high = along.from + along.step * i;
        part.at_high = roots_at(problem, direction, part.high);
        keep_places(&part.at_low, &part.at_high);
        for (int r = 0; r < part.at_high.count; r++) {
            least = fmin(least, depth_within(problem, direction, r, &part, pitch_time, SPLITS));
        }
        part.at_low = part.at_high;
    }
    return least;
}

/* With one response G along both axes L = mu/G, mu the roots of a0 mu^2 + a1 mu + 1 = 0 without G:
 * 1/G = k (A + i B). */
bite_chatter_roots bite_chatter_roots_of(bite_arc arc, double ratio)
{
    double direction[4];
    bite_chatter_roots roots;
    bite_chatter_directions(arc, ratio, direction);
    double a0 = direction[0] * direction[3] - direction[1] * direction[2];
    double a1 = direction[0] + direction[3];
    double complex root = csqrt(a1 * a1 - 4.0 * a0);
    for (int i = 0; i < 2; i++) {
        double complex mu = (-a1 + (i == 0 ? -root : root)) / (2.0 * a0);
        roots.real[i] = creal(mu);
        roots.imaginary[i] = cimag(mu);
    }
    return roots;
}

/* Each root mu has two depths |mu|^2 (A^2 + B^2)/(c A + d B), c = -Re mu, d = Im mu, at its least
 * positive: A = 1 - u, B = 2 zeta sqrt(u), u = (w/wn)^2, and A = B (-d +- sqrt(d^2 + c^2))/c, found
 * by going round, for B hardly changes with A. All four at once.
 */
double bite_chatter_share(const bite_chatter_roots *roots, double damping)
{
    enum { WAYS = 4 };
    double a[WAYS];
    double b[WAYS];
    double a_of_b[WAYS];
    double best = INFINITY;
    for (int i = 0; i < WAYS; i++) {
        double c = -roots->real[i / 2];
        double d = roots->imaginary[i / 2];
        double root = sqrt(d * d + c * c);
        a_of_b[i] = fabs(c) > 0.0 ? ((i % 2 ? root : -root) - d) / c : 0.0;
        b[i] = 2.0 * damping;
    }
    for (int round = 0; round < ROUNDS; round++) {
        for (int i = 0; i < WAYS; i++) {
            a[i] = b[i] * a_of_b[i];
            double square = 1.0 - a[i];
            b[i] = 2.0 * damping * sqrt(square > 0.0 ? square : 0.0);
        }
    }
    for (int i = 0; i < WAYS; i++) {
        double c = -roots->real[i / 2];
        double d = roots->imaginary[i / 2];
        /* depth = -(2 pi/(z K)) |L|^2/Re L */
        double share = (c * c + d * d) * (a[i] * a[i] + b[i] * b[i]) / (c * a[i] + d * b[i]);
        best = share > 0.0 && share < best ? share : best;
    }
    return 2.0 * M_PI * best;
}

double bite_chatter_damped_by_flank(const bite_ripple *waves, bite_arc arc, double slope)
{
    double left = 1.0 - 2.0 * M_PI * waves->height / (waves->length * clearance);
    double rides = 0.25 * slope * (arc.leave - arc.enter) * rides_in_radii * waves->edge_radius /
                   waves->length;
    double free = left > 0.0 ? left * left - rides : 0.0;
    return free > 0.0 ? left * left / free : INFINITY;
}
