/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The characteristic equation of the waves on the arc as a polynomial. */
#include "core/physics/dynamics/wave_polynomial.h"
#include <math.h>
#include <stdbool.h>

#define LANES BITE_WAVE_LANES

/* 1 - d v; sign -1: of the conjugate of d. */
BITE_FORMULA void set_pole(const bite_complex *decay, double sign, const bite_lane_complex *v,
                           bite_lane_complex *pole)
{
    double imaginary = sign * decay->imaginary;
    pole->real = 1.0 - decay->real * v->real + imaginary * v->imaginary;
    pole->imaginary = 0.0 - decay->real * v->imaginary - imaginary * v->real;
}

/* A mode's factors of its cosines and sines: (p e^{st} - q e^{s't})/(2 i), s' the conjugate of s,
 * p and q the sums over the teeth before, times `delayed`. */
BITE_FORMULA void set_mode_factors(const bite_complex *decay, const bite_lane_complex *v,
                                   const bite_lane_complex *delayed, bite_lane_complex *cosine,
                                   bite_lane_complex *sine)
{
    bite_lane_complex p, q;
    set_pole(decay, 1.0, v, &p);
    set_pole(decay, -1.0, v, &q);
    bite_lane_reciprocal(&p, &p);
    bite_lane_reciprocal(&q, &q);
    cosine->real = 0.5 * (p.imaginary - q.imaginary);
    cosine->imaginary = -0.5 * (p.real - q.real);
    sine->real = 0.5 * (p.real + q.real);
    sine->imaginary = 0.5 * (p.imaginary + q.imaginary);
    bite_lane_product(cosine, delayed, cosine);
    bite_lane_product(sine, delayed, sine);
}

/* The factors of the operator's parts, those of to_come last. */
BITE_FORMULA void set_factors(const bite_arc_waves *waves, const double *cosine, const double *sine,
                              const double *load, bite_lane_complex *factors)
{
    bite_lane_complex *delayed = &factors[2 * waves->modes];
    bite_lane_complex v;
    for (int l = 0; l < LANES; l++) {
        v.real[l] = cosine[l];
        v.imaginary[l] = -sine[l];
        delayed->real[l] = load[l] * (1.0 - cosine[l]);
        delayed->imaginary[l] = load[l] * sine[l];
    }
    for (int m = 0; m < waves->modes; m++) {
        set_mode_factors(&waves->decay[m], &v, delayed, &factors[2 * m], &factors[2 * m + 1]);
    }
}

/* Rows of the leading part of the matrices, with a number of modes that the compiler knows. */
BITE_FORMULA void fill_rows(const bite_arc_waves *restrict waves, int modes, int order,
                            const bite_lane_complex *factors, bite_lane_matrices *restrict matrices)
{
    for (int a = 0; a < order; a++) {
        for (int b = 0; b < order; b++) {
            int at = a * waves->order + b;
            bite_lane_vector real = factors[2 * modes].real * waves->to_come[at];
            bite_lane_vector imaginary = factors[2 * modes].imaginary * waves->to_come[at];
            BITE_UNROLLED
            for (int m = 0; m < modes; m++) {
                double c = waves->cosine[m][at];
                double s = waves->sine[m][at];
                const bite_lane_complex *f = &factors[2 * m];
                const bite_lane_complex *g = &factors[2 * m + 1];
                real = real + f->real * c + g->real * s;
                imaginary = imaginary + f->imaginary * c + g->imaginary * s;
            }
            matrices->real[a * order + b] = real;
            matrices->imaginary[a * order + b] = imaginary;
        }
    }
}

/* Adds (1 - v) v^power load times a part. */
BITE_FORMULA void add_overlap(const double *restrict part, int power, const double *cosine,
                              const double *sine, const bite_lane_complex *delayed, int order,
                              int stride, bite_lane_matrices *restrict matrices)
{
    bite_lane_complex factor = *delayed;
    bite_lane_complex v;
    for (int l = 0; l < LANES; l++) {
        v.real[l] = cosine[l];
        v.imaginary[l] = power > 0 ? -sine[l] : sine[l];
    }
    for (int k = 0; k < (power > 0 ? power : -power); k++) {
        bite_lane_product(&factor, &v, &factor);
    }
    for (int a = 0; a < order; a++) {
        for (int b = 0; b < order; b++) {
            matrices->real[a * order + b] += factor.real * part[a * stride + b];
            matrices->imaginary[a * order + b] += factor.imaginary * part[a * stride + b];
        }
    }
}

/* load A(v), v = cosine - i sine. */
BITE_IN_LANES static void fill_matrices(const bite_arc_waves *waves, int order,
                                        const double *cosine, const double *sine,
                                        const double *load, bite_lane_matrices *matrices)
{
    bite_lane_complex factors[2 * BITE_MODES_MAX + 1];
    set_factors(waves, cosine, sine, load, factors);
    switch (waves->modes) {
    case 1:
        fill_rows(waves, 1, order, factors, matrices);
        break;
    case 2:
        fill_rows(waves, 2, order, factors, matrices);
        break;
    case 3:
        fill_rows(waves, 3, order, factors, matrices);
        break;
    default:
        fill_rows(waves, BITE_MODES_MAX, order, factors, matrices);
    }
    const bite_lane_complex *delayed = &factors[2 * waves->modes];
    for (int k = 0; k < waves->overlaps; k++) {
        add_overlap(waves->later[k], k + 1, cosine, sine, delayed, order, waves->order, matrices);
        add_overlap(waves->sooner[k], -k - 1, cosine, sine, delayed, order, waves->order, matrices);
    }
}

/* Cosine and sine of some turns: in two loops, since for both of one number the compiler takes a
 * function that has no vector form. */
BITE_IN_LANES static void set_circle(const double *restrict turn, int count,
                                     double *restrict cosine, double *restrict sine)
{
    for (int i = 0; i < count; i++) {
        cosine[i] = cos(turn[i]);
    }
    for (int i = 0; i < count; i++) {
        sine[i] = sin(turn[i]);
    }
}

/* The product of (1 - d v)^2 (1 - d' v)^2; (1 - d v)(1 - d' v) = 1 - 2 Re(d) v + |d|^2 v^2. */
static bite_complex poles_at(const bite_arc_waves *waves, double cosine, double sine)
{
    bite_complex poles = {1.0, 0.0};
    for (int m = 0; m < waves->modes; m++) {
        if (!waves->repeated[m]) {
            double twice = 2.0 * waves->decay[m].real;
            double square = waves->decay[m].real * waves->decay[m].real +
                            waves->decay[m].imaginary * waves->decay[m].imaginary;
            bite_complex pair = {1.0 - twice * cosine + square * (2.0 * cosine * cosine - 1.0),
                                 twice * sine - square * 2.0 * sine * cosine};
            poles = bite_complex_product(poles, bite_complex_product(pair, pair));
        }
    }
    return poles;
}

/* If teeth overlap, a part of the matrices has no longer quite the determinant of an entire
 * function: it contains a little of the first negative powers of v. They are kept as well: all
 * powers are shifted by some. */
static int shift_of(const bite_arc_waves *waves)
{
    return waves->overlaps > 0 ? BITE_ARC_OVERLAPS_MAX : 0;
}

/* The same, shifted as the powers are. */
static void set_poles(const bite_arc_waves *waves, bite_wave_turn *turn)
{
    bite_complex v = {turn->cosine, -turn->sine};
    turn->poles = poles_at(waves, turn->cosine, turn->sine);
    for (int i = shift_of(waves); i > 0; i--) {
        turn->poles = bite_complex_product(turn->poles, v);
    }
}

/* N of four turns into the samples from `from` on. */
static void keep_samples(const bite_arc_waves *waves, const double *cosine, const double *sine,
                         const bite_lane_complex *coefficients, int order, int from,
                         bite_wave_room *room)
{
    bite_lane_complex poles;
    for (int l = 0; l < LANES; l++) {
        bite_complex of = poles_at(waves, cosine[l], sine[l]);
        poles.real[l] = of.real;
        poles.imaginary[l] = of.imaginary;
    }
    for (int k = 0; k < order + LANES; k++) {
        bite_lane_complex value = {0.0 * poles.real, 0.0 * poles.real};
        if (k <= order) {
            value = coefficients[k];
            bite_lane_product(&value, &poles, &value);
        }
        for (int l = 0; l < LANES; l++) {
            room->real[from + l][k] = value.real[l];
            room->imaginary[from + l][k] = value.imaginary[l];
        }
    }
}

/* The sums and differences of samples that are as far from no turn as from half a turn, whose
 * cosines and sines are equal but for their signs. */
BITE_FORMULA void fold_samples(bite_wave_room *restrict room, int samples, int from)
{
    for (int j = 1; j < samples - j; j++) {
        bite_lane_vector *real = (bite_lane_vector *)&room->real[j][from];
        bite_lane_vector *imaginary = (bite_lane_vector *)&room->imaginary[j][from];
        bite_lane_vector *other_real = (bite_lane_vector *)&room->real[samples - j][from];
        bite_lane_vector *other_imaginary = (bite_lane_vector *)&room->imaginary[samples - j][from];
        bite_lane_vector difference = *real - *other_real;
        *real = *real + *other_real;
        *other_real = difference;
        difference = *imaginary - *other_imaginary;
        *other_imaginary = *imaginary + *other_imaginary;
        *imaginary = difference;
    }
}

/* The coefficients of the powers of v by Fourier's sums, of which the second half are those of the
 * conjugates. The first and the last sample are real and have half of the weight. Of the first one
 * only the power 0 of the load is not 0: waves that repeat themselves leave the chip as it is. */
BITE_IN_LANES static void transform(bite_wave_room *restrict room, int samples, int from, int shift,
                                    double first, const double *restrict cosine,
                                    const double *restrict sine,
                                    bite_wave_polynomial *restrict polynomial)
{
    double weight = 1.0 / samples;
    int middle = samples / 2;
    fold_samples(room, samples, from);
    for (int q = 0; q <= samples; q++) {
        bool is_odd = q % 2 != 0;
        bite_lane_vector even = *(const bite_lane_vector *)&room->real[samples][from];
        even *= is_odd ? -0.5 : 0.5;
        even[0] += from == 0 ? 0.5 * first : 0.0;
        int at = q * middle % (2 * samples);
        even += cosine[at] * *(const bite_lane_vector *)&room->real[middle][from];
        bite_lane_vector odd = sine[at] * *(const bite_lane_vector *)&room->imaginary[middle][from];
        at = q;
        for (int j = 1; j < middle; j++) {
            int folded = is_odd ? samples - j : j;
            even += cosine[at] * *(const bite_lane_vector *)&room->real[folded][from];
            odd += sine[at] * *(const bite_lane_vector *)&room->imaginary[folded][from];
            at += q;
            at -= at >= 2 * samples ? 2 * samples : 0;
        }
        int place = (q + shift) % (2 * samples);
        int other = (2 * samples - q + shift) % (2 * samples);
        for (int l = 0; l < LANES; l++) {
            polynomial->coefficient[from + l][other] = weight * (even[l] + odd[l]);
            polynomial->coefficient[from + l][place] = weight * (even[l] - odd[l]);
        }
    }
}

void bite_wave_polynomial_set(const bite_arc_waves *waves, int order, double unit, int samples,
                              bite_lane_matrices *matrices, bite_wave_room *room,
                              bite_wave_polynomial *polynomial)
{
    const double loads[LANES] = {unit, unit, unit, unit};
    bite_lane_complex coefficients[BITE_LOAD_POWERS];
    double turn[BITE_WAVE_POWERS] = {0.0};
    double cosine[BITE_WAVE_POWERS];
    double sine[BITE_WAVE_POWERS];
    for (int i = 0; i < 2 * samples; i++) {
        turn[i] = M_PI / samples * i;
    }
    set_circle(turn, 2 * samples, cosine, sine);
    for (int j = 1; j <= samples; j += LANES) {
        fill_matrices(waves, order, cosine + j, sine + j, loads, matrices);
        bite_lane_characteristics(order, matrices, &room->minors, coefficients);
        keep_samples(waves, cosine + j, sine + j, coefficients, order, j, room);
    }
    polynomial->powers = 2 * samples;
    polynomial->load_powers = order + 1;
    for (int from = 0; from <= order; from += LANES) {
        transform(room, samples, from, shift_of(waves), poles_at(waves, 1.0, 0.0).real, cosine,
                  sine, polynomial);
    }
}

void bite_wave_exact(const bite_arc_waves *waves, const double *turn, const double *load,
                     bite_lane_matrices *room, bite_lane_complex *value)
{
    double cosine[LANES];
    double sine[LANES];
    set_circle(turn, LANES, cosine, sine);
    fill_matrices(waves, waves->order, cosine, sine, load, room);
    bite_lane_determinants(waves->order, room, value);
}

BITE_IN_LANES void bite_wave_polynomial_load(const bite_wave_polynomial *restrict polynomial,
                                             const double *load,
                                             bite_lane_vector *restrict coefficient)
{
    bite_lane_vector x = {load[0], load[1], load[2], load[3]};
    for (int q = 0; q < polynomial->powers; q += 2) { /* their number is even */
        bite_lane_vector sum = 0.0 * x;
        bite_lane_vector other = sum;
        for (int k = polynomial->load_powers - 1; k >= 0; k--) {
            sum = sum * x + polynomial->coefficient[k][q];
            other = other * x + polynomial->coefficient[k][q + 1];
        }
        coefficient[q] = sum;
        coefficient[q + 1] = other;
    }
}

void bite_wave_turns_set(const bite_arc_waves *waves, const double *turn, int count,
                         bite_wave_turn *turns)
{
    double cosine[BITE_WAVE_TURNS_MAX];
    double sine[BITE_WAVE_TURNS_MAX];
    set_circle(turn, count, cosine, sine);
    for (int i = 0; i < count; i++) {
        turns[i].turn = turn[i];
        turns[i].cosine = cosine[i];
        turns[i].sine = sine[i];
        set_poles(waves, &turns[i]);
    }
}

void bite_wave_turn_between(const bite_arc_waves *waves, const bite_wave_turn *low,
                            const bite_wave_turn *high, bite_wave_turn *middle)
{
    double cosine = low->cosine + high->cosine;
    double sine = low->sine + high->sine;
    double over = 1.0 / sqrt(cosine * cosine + sine * sine);
    middle->turn = 0.5 * (low->turn + high->turn);
    middle->cosine = over * cosine;
    middle->sine = over * sine;
    set_poles(waves, middle);
}

/* Clenshaw's recurrence for the sum of coefficients times powers of exp(-i turn). */
BITE_IN_LANES void bite_wave_determinants(const bite_lane_vector *restrict coefficient, int powers,
                                          const bite_wave_turn *restrict turns, int count,
                                          bite_lane_vector (*restrict value)[2])
{
    for (int i = 0; i < count; i++) {
        double twice = 2.0 * turns[i].cosine;
        bite_lane_vector next = coefficient[powers - 1];
        bite_lane_vector after = coefficient[powers - 2] + twice * next;
        /* next and after take turns: the number of powers is even */
        for (int q = powers - 3; q > 0; q -= 2) {
            next = coefficient[q] + twice * after - next;
            after = coefficient[q - 1] + twice * next - after;
        }
        bite_lane_vector real = after - next * turns[i].cosine;
        bite_lane_vector imaginary = -turns[i].sine * next;
        value[i][0] = real * turns[i].poles.real + imaginary * turns[i].poles.imaginary;
        value[i][1] = imaginary * turns[i].poles.real - real * turns[i].poles.imaginary;
    }
}

/* The coefficients at a load, and their derivatives. */
BITE_IN_LANES static void set_load(const bite_wave_polynomial *restrict polynomial, double load,
                                   bite_lane_vector *restrict coefficient,
                                   bite_lane_vector *restrict slope)
{
    for (int q = 0; q < polynomial->powers; q += LANES) {
        bite_lane_vector sum = {0.0, 0.0, 0.0, 0.0};
        bite_lane_vector change = sum;
        for (int k = polynomial->load_powers - 1; k >= 0; k--) {
            change = change * load + sum;
            sum = sum * load + *(const bite_lane_vector *)&polynomial->coefficient[k][q];
        }
        coefficient[q / LANES] = sum;
        slope[q / LANES] = change;
    }
}

bite_wave_point bite_wave_polynomial_at(const bite_wave_polynomial *polynomial, double turn,
                                        double load)
{
    bite_lane_vector coefficient[BITE_WAVE_POWERS / LANES];
    bite_lane_vector slope[BITE_WAVE_POWERS / LANES];
    const double *of_value = (const double *)coefficient;
    const double *of_slope = (const double *)slope;
    bite_complex v = {cos(turn), -sin(turn)};
    bite_wave_point at = {{0.0, 0.0}, {0.0, 0.0}, {0.0, 0.0}};
    set_load(polynomial, load, coefficient, slope);
    for (int q = polynomial->powers - 1; q >= 0; q--) {
        at.by_turn = bite_complex_sum(bite_complex_product(at.by_turn, v), at.value);
        at.value = bite_complex_product(at.value, v);
        at.value.real += of_value[q];
        at.by_load = bite_complex_product(at.by_load, v);
        at.by_load.real += of_slope[q];
    }
    bite_complex change = {v.imaginary, -v.real}; /* dv/dturn */
    at.by_turn = bite_complex_product(at.by_turn, change);
    return at;
}
