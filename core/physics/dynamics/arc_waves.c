/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Waves of the chip thickness along the arc of contact. */
#include "core/physics/dynamics/arc_waves.h"
#include "core/base/lane_math.h"
#include <math.h>

/* Points for waves of no length, and for each rad of the fastest motion within the arc: to 0.5 % of
 * the depth, from 1000 random cuts against twice as many points. */
static const double least_points = 4.0;
static const double points_each = 0.8;

static bite_complex product(bite_complex a, bite_complex b)
{
    bite_complex c = {a.real * b.real - a.imaginary * b.imaginary,
                      a.real * b.imaginary + a.imaginary * b.real};
    return c;
}

static bite_complex reciprocal(bite_complex a)
{
    double over = 1.0 / (a.real * a.real + a.imaginary * a.imaginary);
    bite_complex c = {a.real * over, -a.imaginary * over};
    return c;
}

double bite_arc_points(const bite_axis_modes *modes, const bite_excitation *cut, double depth)
{
    double fastest = 0.0;
    double compliance = 0.0;
    for (int i = 0; i < modes->count; i++) {
        fastest = fmax(fastest, modes->modes[i].natural);
        compliance += modes->modes[i].alpha;
    }
    /* in a deep cut the forces are stiffer than the springs, and the motion is that much faster */
    double rate = sqrt(fastest * fastest + depth * cut->tangential * compliance);
    return ceil(least_points + points_each * rate * cut->span / (2.0 * M_PI * cut->speed));
}

/* Points and weights of Gauss-Legendre quadrature over -1 to 1, with the Legendre polynomials of
 * orders 0 to count at the points. */
typedef struct gauss_rule {
    double point[BITE_ARC_POINTS_MAX];
    double weight[BITE_ARC_POINTS_MAX];
    double legendre[BITE_ARC_POINTS_MAX][BITE_ARC_POINTS_MAX + 1];
} gauss_rule;

static void fill_legendre(double x, int count, double *legendre)
{
    legendre[0] = 1.0;
    legendre[1] = x;
    for (int k = 1; k < count; k++) {
        legendre[k + 1] = ((2 * k + 1) * x * legendre[k] - k * legendre[k - 1]) / (k + 1);
    }
}

static void set_gauss(int count, gauss_rule *rule)
{
    for (int i = 0; i < (count + 1) / 2; i++) {
        int other = count - 1 - i;
        double *legendre = rule->legendre[other];
        double x = cos(M_PI * (i + 0.75) / (count + 0.5)); /* good to 1e-3 and better */
        double slope = 1.0;
        for (int round = 0; round < 3; round++) {
            fill_legendre(x, count, legendre);
            slope = count * (x * legendre[count] - legendre[count - 1]) / (x * x - 1.0);
            x -= legendre[count] / slope;
        }
        fill_legendre(x, count, legendre);
        rule->point[other] = x;
        rule->point[i] = -x;
        rule->weight[i] = rule->weight[other] = 2.0 / ((1.0 - x * x) * slope * slope);
        for (int k = 0; k <= count; k++) {
            rule->legendre[i][k] = k % 2 == 0 ? legendre[k] : -legendre[k];
        }
    }
}

/* The integral, from point i to the end, of the polynomial that is 1 at point j and 0 at the
 * others. */
static double rest_weight(const gauss_rule *rule, int count, int i, int j)
{
    double sum = 1.0 - rule->point[i];
    for (int k = 1; k < count; k++) {
        sum += rule->legendre[j][k] * (rule->legendre[i][k - 1] - rule->legendre[i][k + 1]);
    }
    return 0.5 * rule->weight[j] * sum;
}

/* exp((-zeta wn + i wd) t) */
static bite_complex vibration(const bite_mode *mode, double time)
{
    double size = exp(-mode->damping * mode->natural * time);
    double angle = mode->natural * sqrt(1.0 - mode->damping * mode->damping) * time;
    bite_complex c = {size * cos(angle), size * sin(angle)};
    return c;
}

/* A mode's parts of the operator. direction: c of two points, times half of the arc's time. */
static void add_mode(const bite_mode *mode, const gauss_rule *rule, const double *direction, int m,
                     bite_arc_waves *waves)
{
    int count = waves->count;
    double gain =
        mode->alpha / (mode->natural * sqrt(1.0 - mode->damping * mode->damping)); /* of g */
    bite_complex forth[BITE_ARC_POINTS_MAX];
    bite_complex back[BITE_ARC_POINTS_MAX];
    for (int i = 0; i < count; i++) {
        forth[i] = vibration(mode, waves->time[i]);
        back[i] = reciprocal(forth[i]);
    }
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < count; j++) {
            int at = i * count + j;
            bite_complex wave = product(forth[i], back[j]);
            waves->cosine[m][at] = gain * direction[at] * rule->weight[j] * wave.real;
            waves->sine[m][at] = gain * direction[at] * rule->weight[j] * wave.imaginary;
            /* sine/weight times the rest's weight; the latter is applied once for all modes */
            waves->to_come[at] -= gain * direction[at] * wave.imaginary;
        }
    }
    waves->decay[m] = vibration(mode, waves->period);
    waves->natural[m] = mode->natural;
    waves->damping[m] = mode->damping;
}

void bite_arc_waves_set(const bite_axis_modes *modes, double span, double ratio, double teeth,
                        double speed, int count, bite_arc_waves *waves)
{
    gauss_rule rule;
    double direction[BITE_ARC_ENTRIES];
    double sine[BITE_ARC_POINTS_MAX];
    double cosine[BITE_ARC_POINTS_MAX];
    double length = span / (2.0 * M_PI * speed);
    waves->count = count;
    waves->modes = modes->count;
    waves->period = 1.0 / (teeth * speed);
    set_gauss(count, &rule);
    for (int i = 0; i < count; i++) {
        double share = 0.5 * (1.0 + rule.point[i]);
        waves->time[i] = share * length;
        sine[i] = sin(share * span);
        cosine[i] = cos(share * span);
    }
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < count; j++) {
            double sine_apart = sine[i] * cosine[j] - cosine[i] * sine[j];
            double cosine_apart = cosine[i] * cosine[j] + sine[i] * sine[j];
            direction[i * count + j] = -0.5 * length * (sine_apart + ratio * cosine_apart);
            waves->to_come[i * count + j] = 0.0;
        }
    }
    for (int m = 0; m < modes->count; m++) {
        add_mode(&modes->modes[m], &rule, direction, m, waves);
    }
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < count; j++) {
            waves->to_come[i * count + j] *= rest_weight(&rule, count, i, j);
        }
    }
}

/* 1/(1 - decay/mu) */
static bite_complex repeated(bite_complex decay, bite_complex back, bite_complex *slope)
{
    bite_complex again = product(decay, back);
    bite_complex rest = {1.0 - again.real, -again.imaginary};
    bite_complex sum = reciprocal(rest);
    bite_complex change = {again.imaginary, -again.real}; /* -i decay/mu */
    *slope = product(product(sum, sum), change);
    return sum;
}

/* Of (p e^{st} - q e^{s't})/(2 i), s' the conjugate of s, with the cosine and the sine of wd t. */
static void split(bite_complex p, bite_complex q, bite_complex *cosine, bite_complex *sine)
{
    cosine->real = 0.5 * (p.imaginary - q.imaginary);
    cosine->imaginary = -0.5 * (p.real - q.real);
    sine->real = 0.5 * (p.real + q.real);
    sine->imaginary = 0.5 * (p.imaginary + q.imaginary);
}

static bite_complex product_slope(bite_complex a, bite_complex a_slope, bite_complex b,
                                  bite_complex b_slope)
{
    bite_complex x = product(a, b_slope);
    bite_complex y = product(a_slope, b);
    bite_complex sum = {x.real + y.real, x.imaginary + y.imaginary};
    return sum;
}

void bite_wave_factors_at(const bite_arc_waves *waves, double turn, bite_wave_factors *factors,
                          bite_wave_factors *slope)
{
    bite_complex back = {cos(turn), -sin(turn)}; /* 1/mu */
    bite_complex delayed = {1.0 - back.real, -back.imaginary};
    bite_complex delayed_slope = {-back.imaginary, back.real}; /* i/mu */
    factors->to_come = delayed;
    if (slope != NULL) {
        slope->to_come = delayed_slope;
    }
    for (int m = 0; m < waves->modes; m++) {
        bite_complex conjugate = {waves->decay[m].real, -waves->decay[m].imaginary};
        bite_complex p_slope, q_slope, cosine, sine;
        bite_complex p = repeated(waves->decay[m], back, &p_slope);
        bite_complex q = repeated(conjugate, back, &q_slope);
        split(p, q, &cosine, &sine);
        factors->cosine[m] = product(delayed, cosine);
        factors->sine[m] = product(delayed, sine);
        if (slope != NULL) {
            bite_complex cosine_slope, sine_slope;
            split(p_slope, q_slope, &cosine_slope, &sine_slope);
            slope->cosine[m] = product_slope(delayed, delayed_slope, cosine, cosine_slope);
            slope->sine[m] = product_slope(delayed, delayed_slope, sine, sine_slope);
        }
    }
}

void bite_arc_matrix(const bite_arc_waves *waves, const bite_wave_factors *factors,
                     bite_complex *matrix)
{
    int entries = waves->count * waves->count;
    for (int k = 0; k < entries; k++) {
        matrix[k].real = factors->to_come.real * waves->to_come[k];
        matrix[k].imaginary = factors->to_come.imaginary * waves->to_come[k];
    }
    for (int m = 0; m < waves->modes; m++) {
        bite_complex cosine = factors->cosine[m];
        bite_complex sine = factors->sine[m];
        for (int k = 0; k < entries; k++) {
            double c = waves->cosine[m][k];
            double s = waves->sine[m][k];
            matrix[k].real += cosine.real * c + sine.real * s;
            matrix[k].imaginary += cosine.imaginary * c + sine.imaginary * s;
        }
    }
}

#define EACH_LANE(l) for (int l = 0; l < BITE_ARC_LANES; l++)

/* The factors of all lanes, with the load. */
typedef struct lane_factors {
    double real[2 * BITE_MODES_MAX + 1][BITE_ARC_LANES];
    double imaginary[2 * BITE_MODES_MAX + 1][BITE_ARC_LANES];
} lane_factors;

static void set_lanes(const bite_arc_waves *waves, const double *turn, const double *load,
                      lane_factors *lanes)
{
    EACH_LANE(l)
    {
        bite_wave_factors factors;
        bite_wave_factors_at(waves, turn[l], &factors, NULL);
        lanes->real[0][l] = -load[l] * factors.to_come.real;
        lanes->imaginary[0][l] = -load[l] * factors.to_come.imaginary;
        for (int m = 0; m < waves->modes; m++) {
            lanes->real[2 * m + 1][l] = -load[l] * factors.cosine[m].real;
            lanes->imaginary[2 * m + 1][l] = -load[l] * factors.cosine[m].imaginary;
            lanes->real[2 * m + 2][l] = -load[l] * factors.sine[m].real;
            lanes->imaginary[2 * m + 2][l] = -load[l] * factors.sine[m].imaginary;
        }
    }
}

/* The lanes of one number as a vector: in loops over lanes the compiler cannot know that rows do
 * not overlap, and computes lane by lane. Aligned as the doubles that it stands for. */
typedef double lane_vector __attribute__((vector_size(BITE_ARC_LANES * sizeof(double)),
                                          aligned(sizeof(double)), may_alias));

/* 1 - load A */
BITE_FORMULA void fill_lanes(const bite_arc_waves *waves, const lane_factors *lanes,
                             lane_vector *real, lane_vector *imaginary)
{
    int count = waves->count;
    int entries = count * count;
    const lane_vector *factor_real = (const lane_vector *)lanes->real;
    const lane_vector *factor_imaginary = (const lane_vector *)lanes->imaginary;
    for (int k = 0; k < entries; k++) {
        real[k] = factor_real[0] * waves->to_come[k];
        imaginary[k] = factor_imaginary[0] * waves->to_come[k];
    }
    for (int m = 0; m < waves->modes; m++) {
        lane_vector cosine_real = factor_real[2 * m + 1];
        lane_vector cosine_imaginary = factor_imaginary[2 * m + 1];
        lane_vector sine_real = factor_real[2 * m + 2];
        lane_vector sine_imaginary = factor_imaginary[2 * m + 2];
        for (int k = 0; k < entries; k++) {
            double c = waves->cosine[m][k];
            double s = waves->sine[m][k];
            real[k] += cosine_real * c + sine_real * s;
            imaginary[k] += cosine_imaginary * c + sine_imaginary * s;
        }
    }
    for (int i = 0; i < count; i++) {
        real[i * count + i] += 1.0;
    }
}

/* Gauss's elimination without a choice of rows, which would differ from lane to lane: the matrix
 * is 1 plus what mostly is smaller, and of the determinant only the phase matters. */
BITE_IN_LANES static void multiply_pivots(const bite_arc_waves *waves, const lane_factors *lanes,
                                          bite_determinant_room *room, double *of_real,
                                          double *of_imaginary)
{
    int count = waves->count;
    lane_vector *real = (lane_vector *)room->real;
    lane_vector *imaginary = (lane_vector *)room->imaginary;
    lane_vector total_real = *(lane_vector *)of_real;
    lane_vector total_imaginary = *(lane_vector *)of_imaginary;
    fill_lanes(waves, lanes, real, imaginary);
    for (int k = 0; k < count; k++) {
        const lane_vector *pivot_real = real + k * count;
        const lane_vector *pivot_imaginary = imaginary + k * count;
        lane_vector a = pivot_real[k];
        lane_vector b = pivot_imaginary[k];
        lane_vector over = 1.0 / (a * a + b * b);
        lane_vector was = total_real;
        total_real = was * a - total_imaginary * b;
        total_imaginary = was * b + total_imaginary * a;
        for (int i = k + 1; i < count; i++) {
            lane_vector *row_real = real + i * count;
            lane_vector *row_imaginary = imaginary + i * count;
            lane_vector c = row_real[k] * over;
            lane_vector d = row_imaginary[k] * over;
            lane_vector x = c * a + d * b; /* of the row over the pivot */
            lane_vector y = d * a - c * b;
            for (int j = k + 1; j < count; j++) {
                row_real[j] -= x * pivot_real[j] - y * pivot_imaginary[j];
                row_imaginary[j] -= x * pivot_imaginary[j] + y * pivot_real[j];
            }
        }
    }
    *(lane_vector *)of_real = total_real;
    *(lane_vector *)of_imaginary = total_imaginary;
}

void bite_arc_determinants(const bite_arc_waves *waves, const double *turn, const double *load,
                           bite_determinant_room *room, bite_complex *determinant)
{
    lane_factors lanes;
    double real[BITE_ARC_LANES];
    double imaginary[BITE_ARC_LANES];
    set_lanes(waves, turn, load, &lanes);
    EACH_LANE(l)
    {
        real[l] = 1.0;
        imaginary[l] = 0.0;
    }
    multiply_pivots(waves, &lanes, room, real, imaginary);
    EACH_LANE(l)
    {
        determinant[l].real = real[l];
        determinant[l].imaginary = imaginary[l];
    }
}
