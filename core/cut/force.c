/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a square end mill, integrated along the helix in closed form. */
#include "core/cut/force.h"
#include <math.h>

/* A straight flute is the limit of a helix that lags by so little over the depth: one code for both, good to 1e-9. */
static const double lag_least = 1e-6; /* rad over ap */

/* Between kinks the sum is smooth; samples this close and a parabola give its peak to 3e-4. */
static const double sample_step = M_PI / 9.0;

/* A stretch this short is judged by its ends: what it could rise between them is under 3e-4. */
static const double stretch_least = 0.05; /* rad */

#define KINKS_MOST (2 * BITE_TEETH_MOST * (BITE_PIECES_MOST + 1))

/* Antiderivative of a piece's forces at angle theta, for a tooth that touches there. */
static bite_load antiderivative(const bite_force_piece *piece, double theta)
{
    double s = sin(theta);
    double c = cos(theta);
    double half_square = 0.5 * s * s;      /* of sin cos */
    double square = 0.5 * (theta - s * c); /* of sin^2 */
    bite_load load;
    load.tangential = -piece->cut_t * c + piece->edge_t * theta;
    load.x = -piece->cut_t * half_square - piece->edge_t * s - piece->cut_r * square + piece->edge_r * c;
    load.y = piece->cut_t * square - piece->edge_t * c - piece->cut_r * half_square - piece->edge_r * s;
    load.lift = -piece->cut_a * c + piece->edge_a * theta;
    return load;
}

static bite_load add(bite_load a, bite_load b, double times)
{
    bite_load sum = {a.tangential + times * b.tangential, a.x + times * b.x, a.y + times * b.y, a.lift + times * b.lift};
    return sum;
}

/* A tooth under h_min forms no chip now, but may meet what it left and this pass together: for the peak its chip counts twice. */
static void form_tooth(bite_force_tooth *out, const bite_tooth *tooth, const bite_pressure *pressure)
{
    double times = tooth->forms ? 1.0 : 2.0;
    bite_load sum = {0.0, 0.0, 0.0, 0.0};
    out->count = tooth->count;
    for (int i = 0; i < tooth->count; i++) {
        const bite_piece *from = &tooth->pieces[i];
        bite_force_piece *piece = &out->pieces[i];
        double slope = times * from->slope;
        double offset = times * from->offset;
        piece->enter = from->enter;
        piece->leave = from->leave;
        piece->cut_t = pressure->tangential * slope;
        piece->edge_t = pressure->tangential * offset + pressure->edge_tangential;
        piece->cut_r = pressure->radial * slope;
        piece->edge_r = pressure->radial * offset + pressure->edge_radial;
        piece->cut_a = pressure->axial * slope;
        piece->edge_a = pressure->axial * offset + pressure->edge_axial;
        piece->before = add(sum, antiderivative(piece, piece->enter), -1.0);
        piece->after = sum = add(piece->before, antiderivative(piece, piece->leave), 1.0);
    }
    out->total = sum;
}

/* The mean of a tooth that rubs: its edge term alone, for the material that it leaves is cut by another. */
static bite_load rubbing_total(const bite_tooth *tooth, const bite_pressure *pressure)
{
    bite_load sum = {0.0, 0.0, 0.0, 0.0};
    for (int i = 0; i < tooth->count; i++) {
        bite_force_piece piece = {0};
        piece.edge_t = pressure->edge_tangential;
        piece.edge_r = pressure->edge_radial;
        piece.edge_a = pressure->edge_axial;
        sum = add(sum, antiderivative(&piece, tooth->pieces[i].leave), 1.0);
        sum = add(sum, antiderivative(&piece, tooth->pieces[i].enter), -1.0);
    }
    return sum;
}

void bite_force_form(bite_force *force, const bite_chip *chip, const bite_pressure *pressure, double depth, double diameter,
                     double helix)
{
    double lag = tan(helix) / (0.5 * diameter);
    double least = lag_least / depth;
    force->flutes = chip->flutes;
    force->alike = chip->alike;
    force->depth = depth;
    force->lag = fabs(lag) < least ? copysign(least, lag) : lag;
    bite_load sum = {0.0, 0.0, 0.0, 0.0};
    int shown = chip->alike ? 1 : chip->flutes;
    double times = chip->alike ? chip->flutes : 1.0;
    for (int j = 0; j < shown; j++) {
        const bite_tooth *tooth = &chip->teeth[j];
        form_tooth(&force->teeth[j], tooth, pressure);
        sum = add(sum, tooth->forms ? force->teeth[j].total : rubbing_total(tooth, pressure), times);
    }
    bite_load none = {0.0, 0.0, 0.0, 0.0};
    force->mean = add(none, sum, depth / (2.0 * M_PI));
}

/* Adds `times` the antiderivative of a tooth's force from 0 to theta, theta in 0 to 2 pi. */
static void add_tooth(bite_load *sum, const bite_force_tooth *tooth, double theta, double times)
{
    for (int i = tooth->count - 1; i >= 0; i--) {
        const bite_force_piece *piece = &tooth->pieces[i];
        if (theta >= piece->leave) {
            *sum = add(*sum, piece->after, times); /* between pieces, or behind the last: all up to this one */
            return;
        }
        if (theta > piece->enter) {
            *sum = add(*sum, add(piece->before, antiderivative(piece, theta), 1.0), times);
            return;
        }
    }
}

static void add_unwrapped(bite_load *sum, const bite_force_tooth *tooth, double theta, double times)
{
    double turn = 2.0 * M_PI;
    if (theta < 0.0 || theta >= turn) {
        double turns = floor(theta / turn);
        theta -= turn * turns;
        *sum = add(*sum, tooth->total, times * turns);
    }
    add_tooth(sum, tooth, theta, times);
}

bite_load bite_force_at(const bite_force *force, double phi)
{
    bite_load sum = {0.0, 0.0, 0.0, 0.0};
    double pitch = 2.0 * M_PI / force->flutes;
    double psi = force->lag * force->depth;
    double scale = 1.0 / force->lag;
    for (int j = 0; j < force->flutes; j++) {
        const bite_force_tooth *tooth = &force->teeth[force->alike ? 0 : j];
        double tip = phi - pitch * j;
        add_unwrapped(&sum, tooth, tip, scale);
        add_unwrapped(&sum, tooth, tip - psi, -scale);
    }
    return sum;
}

static double wrapped(double phi, double period)
{
    double turn = phi - period * floor(phi / period);
    return turn < period ? turn : 0.0;
}

/* Tip angles at which some tooth's end of the integral crosses the border of a piece: there the sum has its kinks. */
static int find_kinks(const bite_force *force, double period, double *kinks)
{
    int count = 0;
    int shown = force->alike ? 1 : force->flutes;
    double pitch = 2.0 * M_PI / force->flutes;
    double psi = force->lag * force->depth;
    kinks[count++] = 0.0;
    for (int j = 0; j < shown; j++) {
        const bite_force_tooth *tooth = &force->teeth[j];
        for (int i = 0; i < tooth->count; i++) {
            if (i == 0 || tooth->pieces[i].enter != tooth->pieces[i - 1].leave) {
                kinks[count++] = wrapped(tooth->pieces[i].enter + pitch * j, period);
                kinks[count++] = wrapped(tooth->pieces[i].enter + pitch * j + psi, period);
            }
            kinks[count++] = wrapped(tooth->pieces[i].leave + pitch * j, period);
            kinks[count++] = wrapped(tooth->pieces[i].leave + pitch * j + psi, period);
        }
    }
    for (int i = 1; i < count; i++) {
        double at = kinks[i];
        int k = i;
        for (; k > 0 && kinks[k - 1] > at; k--) {
            kinks[k] = kinks[k - 1];
        }
        kinks[k] = at;
    }
    return count;
}

/* The top of the parabola through three values at equal steps, never below the middle one. */
static double parabola(double left, double middle, double right)
{
    double bend = left - 2.0 * middle + right;
    double slope = 0.5 * (right - left);
    if (!(bend < 0.0) || fabs(slope) >= -bend) {
        return fmax(left, fmax(middle, right));
    }
    return middle - 0.5 * slope * slope / bend;
}

static void meet(bite_force_peaks *peaks, const bite_load *load)
{
    double side = load->x * load->x + load->y * load->y;
    peaks->tangential = load->tangential > peaks->tangential ? load->tangential : peaks->tangential;
    peaks->side = side > peaks->side ? side : peaks->side;
    peaks->lift = fabs(load->lift) > fabs(peaks->lift) ? load->lift : peaks->lift;
}

/* One smooth stretch from a, where the load is *left, to b; *left becomes the load at b. */
static void climb(const bite_force *force, bite_force_peaks *peaks, double a, double b, bite_load *left)
{
    int steps = b - a < stretch_least ? 1 : 2 * (1 + (int)((b - a) / (2.0 * sample_step)));
    double step = (b - a) / steps;
    for (int i = 0; i + 1 < steps; i += 2) {
        bite_load middle = bite_force_at(force, a + step * (i + 1));
        bite_load right = bite_force_at(force, a + step * (i + 2));
        meet(peaks, &middle);
        meet(peaks, &right);
        double tangential = parabola(left->tangential, middle.tangential, right.tangential);
        double side = parabola(left->x * left->x + left->y * left->y, middle.x * middle.x + middle.y * middle.y,
                               right.x * right.x + right.y * right.y);
        peaks->tangential = tangential > peaks->tangential ? tangential : peaks->tangential;
        peaks->side = side > peaks->side ? side : peaks->side;
        *left = right;
    }
    if (steps == 1) {
        *left = bite_force_at(force, b);
        meet(peaks, left);
    }
}

bite_force_peaks bite_force_peak(const bite_force *force)
{
    double kinks[KINKS_MOST + 1];
    double period = force->alike ? 2.0 * M_PI / force->flutes : 2.0 * M_PI;
    int count = find_kinks(force, period, kinks);
    bite_force_peaks peaks = {0.0, 0.0, 0.0};
    bite_load left = bite_force_at(force, kinks[0]);
    meet(&peaks, &left);
    for (int i = 0; i < count; i++) {
        double end = i + 1 < count ? kinks[i + 1] : period;
        if (end > kinks[i]) {
            climb(force, &peaks, kinks[i], end, &left);
        }
    }
    peaks.side = sqrt(peaks.side);
    return peaks;
}
