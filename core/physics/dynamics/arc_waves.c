/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Waves of the chip thickness along the arc of contact. */
#include "core/physics/dynamics/arc_waves.h"
#include "core/physics/dynamics/arc_exponentials.h"
#include <math.h>
#include <stdbool.h>

double bite_arc_rate(const bite_axis_modes *modes, const bite_excitation *cut, double load)
{
    double fastest = 0.0;
    double compliance = 0.0;
    for (int i = 0; i < modes->count; i++) {
        fastest = fmax(fastest, modes->modes[i].natural);
        compliance += modes->modes[i].alpha;
    }
    /* in a deep cut the forces are stiffer than the springs, and the motion is that much faster */
    double rate = sqrt(fastest * fastest + load * compliance);
    return rate * cut->span / (2.0 * M_PI * cut->speed);
}

/* A row of a mode's matrices, from both of its exponentials, of which e is the first. To to_come it
 * is added. */
BITE_FORMULA void fill_row(const bite_arc_factors *restrict factors, int e, int a, int order,
                           double *restrict cosine, double *restrict sine, double *restrict to_come)
{
    double p = factors->first_real[e][a];
    double q = factors->first_imaginary[e][a];
    double r = factors->first_real[e + 1][a];
    double s = factors->first_imaginary[e + 1][a];
    double t = factors->to_come_real[e][a];
    double u = factors->to_come_imaginary[e][a];
    double v = factors->to_come_real[e + 1][a];
    double w = factors->to_come_imaginary[e + 1][a];
    for (int b = 0; b < order; b++) {
        double c = factors->second_real[e][b];
        double d = factors->second_imaginary[e][b];
        double f = factors->second_real[e + 1][b];
        double g = factors->second_imaginary[e + 1][b];
        cosine[b] = p * c - q * d + r * f - s * g;
        sine[b] = p * d + q * c + r * g + s * f;
        to_come[b] += t * d + u * c + v * g + w * f;
    }
}

/* What is to come has its formulas above the diagonal; the entries below follow from them. */
BITE_FORMULA void complete_to_come(const bite_arc_factors *restrict factors, int count, int order,
                                   double *restrict to_come)
{
    for (int a = 0; a < order; a++) {
        double diagonal = 0.0;
        for (int e = 0; e < count; e++) {
            diagonal += factors->diagonal[e][a];
        }
        to_come[a * order + a] = diagonal;
        double sign = -1.0;
        for (int b = a + 1; b < order; b++, sign = -sign) {
            to_come[b * order + a] = sign * to_come[a * order + b];
        }
    }
}

BITE_IN_LANES static void fill_matrices(const bite_arc_factors *restrict factors,
                                        bite_arc_waves *restrict waves)
{
    int order = waves->order;
    for (int k = 0; k < order * order; k++) {
        waves->to_come[k] = 0.0;
    }
    for (int m = 0; m < waves->modes; m++) {
        for (int a = 0; a < order; a++) {
            fill_row(factors, 2 * m, a, order, waves->cosine[m] + a * order,
                     waves->sine[m] + a * order, waves->to_come + a * order);
        }
    }
    complete_to_come(factors, 2 * waves->modes, order, waves->to_come);
}

/* The exponentials of the modes over a length of time. turned: the angle by which the direction of
 * the force has turned at its beginning; sign: of the exponents. */
static void set_exponentials(const bite_axis_modes *modes, double ratio, double length, double span,
                             double turned, double sign, bite_arc_exponentials *these)
{
    int count = 2 * modes->count;
    double cosine = cos(turned);
    double sine = sin(turned);
    for (int e = 0; e < BITE_ARC_EXPONENTIALS; e++) {
        const bite_mode *mode = &modes->modes[e % count / 2];
        double side = e % 2 == 0 ? -1.0 : 1.0;
        double rate = mode->natural * sqrt(1.0 - mode->damping * mode->damping);
        double gain = length * mode->alpha / rate;
        these->real[e] = -0.5 * sign * mode->damping * mode->natural * length;
        these->imaginary[e] = 0.5 * sign * (rate * length + side * span);
        /* of c = Re((-r + i) exp(i turned) exp(2 pi i n t)) */
        these->weight_real[e] = gain * (-ratio * cosine - sine);
        these->weight_imaginary[e] = gain * side * (cosine - ratio * sine);
    }
    these->count = count;
}

static void set_decays(const bite_axis_modes *modes, bite_arc_waves *waves)
{
    for (int m = 0; m < modes->count; m++) {
        const bite_mode *mode = &modes->modes[m];
        bite_complex exponent = {-mode->damping * mode->natural * waves->period,
                                 mode->natural * sqrt(1.0 - mode->damping * mode->damping) *
                                     waves->period};
        waves->decay[m] = bite_complex_exponential(exponent);
        waves->natural[m] = mode->natural;
        waves->damping[m] = mode->damping;
        waves->repeated[m] = 0;
        for (int i = 0; i < m; i++) {
            waves->repeated[m] |= waves->decay[i].real == waves->decay[m].real &&
                                  waves->decay[i].imaginary == waves->decay[m].imaginary;
        }
    }
}

/* The response to what is to come of a part of the arc, as in the whole arc. */
static void set_to_come(const bite_arc_exponentials *these, int order, bite_arc_factors *factors,
                        double *to_come)
{
    bite_arc_factors_set(these, order, factors);
    for (int a = 0; a < order; a++) {
        for (int b = a + 1; b < order; b++) {
            double sum = 0.0;
            for (int e = 0; e < these->count; e++) {
                sum += factors->to_come_real[e][a] * factors->second_imaginary[e][b] +
                       factors->to_come_imaginary[e][a] * factors->second_real[e][b];
            }
            to_come[a * order + b] = sum;
        }
    }
    complete_to_come(factors, these->count, order, to_come);
}

/* The Legendre polynomials of size x - (1 - size) as sums of those of x: row by row, all of them
 * normalized. */
static void set_shares(int order, double size, double *shares)
{
    for (int c = 0; c < order; c++) {
        shares[c] = c == 0 ? 1.0 : 0.0;
    }
    for (int n = 1; n < order; n++) {
        const double *before = shares + (n - 1) * order;
        for (int c = 0; c < order; c++) {
            /* of polynomials that are 1 at 1: x P_c = ((c + 1) P_(c+1) + c P_(c-1))/(2 c + 1) */
            double left = c > 0 ? before[c - 1] * c / (2 * c - 1.0) : 0.0;
            double right = c + 1 < order ? before[c + 1] * (c + 1) / (2 * c + 3.0) : 0.0;
            double product = size * (left + right) - (1.0 - size) * before[c];
            double last = n > 1 ? shares[(n - 2) * order + c] : 0.0;
            shares[n * order + c] = ((2 * n - 1) * product - (n - 1) * last) / n;
        }
    }
    for (int n = 0; n < order; n++) {
        for (int c = 0; c < order; c++) {
            shares[n * order + c] *= sqrt((2 * n + 1.0) / (2 * c + 1.0));
        }
    }
}

/* scale B M D B' D, with the shares B and alternating signs D; also the signs of its rows, if
 * alternating, in place of those of its columns. */
static void spread(bite_arc_room *room, int order, double scale, bool alternating_rows,
                   double *whole)
{
    for (int a = 0; a < order; a++) {
        for (int d = 0; d < order; d++) {
            double sum = 0.0;
            for (int c = 0; c <= a; c++) {
                sum += room->shares[a * order + c] * room->part[c * order + d];
            }
            room->product[a * order + d] = d % 2 == 0 ? sum : -sum;
        }
    }
    for (int a = 0; a < order; a++) {
        for (int b = 0; b < order; b++) {
            double sum = 0.0;
            for (int d = 0; d <= b; d++) {
                sum += room->product[a * order + d] * room->shares[b * order + d];
            }
            whole[a * order + b] = (alternating_rows ? a : b) % 2 == 0 ? scale * sum : -scale * sum;
        }
    }
}

/* The parts of teeth that cut at the same time as others. */
static void set_overlaps(const bite_axis_modes *modes, double ratio, const bite_excitation *cut,
                         bite_arc_room *room, bite_arc_waves *waves)
{
    double length = cut->span / (2.0 * M_PI * cut->speed);
    double pitch = 2.0 * M_PI / cut->teeth;
    int order = waves->order;
    bite_arc_exponentials these;
    waves->overlaps = 0;
    for (int k = 1; k <= BITE_ARC_OVERLAPS_MAX && k * pitch < cut->span; k++) {
        double size = 1.0 - k * pitch / cut->span;
        set_shares(order, size, room->shares);
        set_exponentials(modes, ratio, size * length, size * cut->span, -k * pitch, 1.0, &these);
        set_to_come(&these, order, &room->factors, room->part);
        spread(room, order, size, false, waves->later[k - 1]);
        set_exponentials(modes, ratio, size * length, size * cut->span, k * pitch, -1.0, &these);
        set_to_come(&these, order, &room->factors, room->part);
        spread(room, order, -size, true, waves->sooner[k - 1]);
        waves->overlaps = k;
    }
}

void bite_arc_waves_set(const bite_axis_modes *modes, double ratio, const bite_excitation *cut,
                        int order, bite_arc_room *room, bite_arc_waves *waves)
{
    bite_arc_exponentials these;
    double length = cut->span / (2.0 * M_PI * cut->speed);
    waves->order = order;
    waves->modes = modes->count;
    waves->period = 1.0 / (cut->teeth * cut->speed);
    set_decays(modes, waves);
    set_exponentials(modes, ratio, length, cut->span, 0.0, 1.0, &these);
    bite_arc_factors_set(&these, order, &room->factors);
    fill_matrices(&room->factors, waves);
    set_overlaps(modes, ratio, cut, room, waves);
}
