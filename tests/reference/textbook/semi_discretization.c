/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stability of milling by semi-discretization: the growth of a disturbance from tooth to tooth, and
 * the depth at which that growth is 1. */
#include "tests/reference/textbook/semi_discretization.h"
#include "tests/reference/textbook/vibration.h"
#include <gsl/gsl_eigen.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define ALL_MODES_MAX (2 * BITE_MODES_MAX)
#define STATES_MAX                                                                                 \
    (2 * ALL_MODES_MAX) /* a displacement and a velocity of each mode of both axes                 \
                         */
#define ITERATIONS_MAX 400
#define BRACKET_STEPS_MAX 40

typedef struct matrix {
    double at[STATES_MAX][STATES_MAX];
} matrix;

/* The modes of the x axis, then those of the y axis. The displacement of the tool along an axis is
 * the sum over the modes of that axis. */
typedef struct mode_list {
    int count;
    int axis[ALL_MODES_MAX];
    const bite_mode *mode[ALL_MODES_MAX];
    double scale; /* rad/s, natural frequency of the first mode: time is in units of 1/scale */
} mode_list;

/* The transition matrices of the time steps of one tooth period. Each gives the new state from the
 * old state (size x size) and from the displacements one tooth period ago, at the beginning and at
 * the end of the step, interpolated linearly in between (size x 2 each). */
typedef struct step_matrices {
    int count;
    int size;
    double *at;
} step_matrices;

static double *step_at(const step_matrices *steps, int n)
{
    return steps->at + (size_t)n * (size_t)(steps->size * (steps->size + 4));
}

static mode_list list_modes(const bite_chatter_case *problem)
{
    const bite_axis_modes *axes[] = {&problem->x, &problem->y};
    mode_list modes = {.count = 0, .scale = 1.0};
    for (int axis = 0; axis < 2; axis++) {
        for (int i = 0; i < axes[axis]->count; i++) {
            modes.axis[modes.count] = axis;
            modes.mode[modes.count++] = &axes[axis]->modes[i];
        }
    }
    if (modes.count > 0) {
        modes.scale = modes.mode[0]->natural;
    }
    return modes;
}

static void multiply(const matrix *a, const matrix *b, int size, matrix *product)
{
    for (int i = 0; i < size; i++) {
        for (int j = 0; j < size; j++) {
            double sum = 0.0;
            for (int k = 0; k < size; k++) {
                sum += a->at[i][k] * b->at[k][j];
            }
            product->at[i][j] = sum;
        }
    }
}

/* Computes exp(a t), the integral of exp(a (t - s)) ds over 0..t and that of exp(a (t - s)) s ds:
 * power series over t / 2^n, then n doublings. */
static void exponential(const matrix *a, int size, double time, matrix *transition,
                        matrix *integral, matrix *ramp_integral)
{
    int doublings = 0;
    double norm = 0.0;
    for (int i = 0; i < size; i++) {
        double row = 0.0;
        for (int j = 0; j < size; j++) {
            row += fabs(a->at[i][j]) * time;
        }
        norm = fmax(norm, row);
    }
    /* the entries of a row differ in units: the caller scales time so that the norm is meaningful
     */
    for (; norm > 0.5 && doublings < 1000; norm *= 0.5) {
        doublings++;
    }
    double interval = ldexp(time, -doublings);
    matrix term;
    matrix more;
    for (int i = 0; i < size; i++) {
        for (int j = 0; j < size; j++) {
            term.at[i][j] = transition->at[i][j] = i == j;
            integral->at[i][j] = i == j ? interval : 0.0;
            ramp_integral->at[i][j] = i == j ? 0.5 * interval * interval : 0.0;
        }
    }
    for (int order = 1; order <= 9; order++) {
        multiply(&term, a, size, &more);
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                term.at[i][j] = more.at[i][j] * (interval / order);
                transition->at[i][j] += term.at[i][j];
                integral->at[i][j] += term.at[i][j] * interval / (order + 1);
                ramp_integral->at[i][j] +=
                    term.at[i][j] * interval * interval / ((order + 1) * (order + 2));
            }
        }
    }
    for (int n = 0; n < doublings; n++) {
        multiply(transition, ramp_integral, size, &more);
        multiply(transition, integral, size, &term);
        for (int i = 0; i < size; i++) {
            for (int j = 0; j < size; j++) {
                ramp_integral->at[i][j] += more.at[i][j] + interval * integral->at[i][j];
                integral->at[i][j] += term.at[i][j];
            }
        }
        multiply(transition, transition, size, &more);
        *transition = more;
        interval *= 2.0;
    }
}

/* Mean directional coefficients between two angles of the leading tooth, summed over all teeth in
 * the arc of contact. */
static void mean_directions(const bite_chatter_case *problem, double from, double to, double *mean)
{
    memset(mean, 0, 4 * sizeof *mean);
    double pitch = 2.0 * M_PI / problem->teeth;
    for (int tooth = 0; tooth < (int)problem->teeth; tooth++) {
        for (int turn = -1; turn <= 1; turn++) {
            double shift = pitch * tooth + 2.0 * M_PI * turn;
            bite_arc interval = {fmax(from + shift, problem->arc.enter),
                                 fmin(to + shift, problem->arc.leave), 0.0};
            double direction[4];
            if (interval.leave > interval.enter) {
                textbook_chatter_directions(interval, problem->ratio, direction);
                for (int i = 0; i < 4; i++) {
                    mean[i] += direction[i] / (to - from);
                }
            }
        }
    }
}

/* Matrices of one step. For each mode q'' + 2 zeta wn q' + wn^2 q = (wn^2/k) depth/2 K [direction]
 * (x - x one tooth ago), where x is the sum of the modes of an axis. Time is in units of 1/scale.
 */
static void make_step(const bite_chatter_case *problem, const mode_list *modes, double depth,
                      double time, const double *mean, double *out)
{
    int count = modes->count;
    int size = 2 * count;
    double scale = modes->scale;
    double *delayed = out + (size_t)(size * size);
    matrix a;
    matrix transition;
    matrix integral;
    matrix ramp_integral;
    double drive[ALL_MODES_MAX][2];
    memset(&a, 0, sizeof a);
    for (int i = 0; i < count; i++) {
        const bite_mode *mode = modes->mode[i];
        double frequency = mode->natural / scale;
        double gain = 0.5 * depth * problem->tangential * mode->alpha / (scale * scale);
        a.at[i][i + count] = 1.0;
        a.at[i + count][i + count] = -2.0 * mode->damping * frequency;
        for (int j = 0; j < 2; j++) {
            drive[i][j] = gain * mean[2 * modes->axis[i] + j];
        }
        for (int j = 0; j < count; j++) {
            a.at[i + count][j] = drive[i][modes->axis[j]] - (i == j ? frequency * frequency : 0.0);
        }
    }
    exponential(&a, size, time * scale, &transition, &integral, &ramp_integral);
    for (int i = 0; i < size; i++) {
        memcpy(out + (size_t)(i * size), transition.at[i], (size_t)size * sizeof *out);
        for (int j = 0; j < 2; j++) {
            double total = 0.0;
            double at_end = 0.0;
            for (int k = 0; k < count; k++) {
                total -= integral.at[i][k + count] * drive[k][j];
                at_end -= ramp_integral.at[i][k + count] * drive[k][j] / (time * scale);
            }
            delayed[2 * i + j] = total - at_end;
            delayed[2 * (size + i) + j] = at_end;
        }
    }
}

/* The state, and the displacements along both axes over the last tooth period, newest first. */
typedef struct delay_history {
    double state[STATES_MAX];
    double (*past)[2];
} delay_history;

/* Advances by one tooth period. past[k]: displacements k steps ago. Those of `count` and `count -
 * 1` steps ago act on a step. */
static void advance_tooth_period(const step_matrices *matrices, const mode_list *modes,
                                 const delay_history *from, delay_history *to)
{
    int size = matrices->size;
    int count = matrices->count;
    double state[STATES_MAX] = {0.0};
    memcpy(state, from->state, sizeof state);
    for (int n = 0; n < count; n++) {
        double next[STATES_MAX];
        /* displacements one tooth period ago, at the beginning and at the end of this step */
        const double *begin = from->past[count - n];
        const double *end = from->past[count - n - 1];
        const double *transition = step_at(matrices, n);
        const double *first = transition + (size_t)(size * size);
        const double *last = first + (size_t)(2 * size);
        for (int i = 0; i < size; i++) {
            next[i] = first[2 * i] * begin[0] + first[2 * i + 1] * begin[1] + last[2 * i] * end[0] +
                      last[2 * i + 1] * end[1];
            for (int k = 0; k < size; k++) {
                next[i] += transition[i * size + k] * state[k];
            }
        }
        memcpy(state, next, (size_t)size * sizeof *state);
        double *displacement = to->past[count - 1 - n];
        displacement[0] = displacement[1] = 0.0;
        for (int i = 0; i < modes->count; i++) {
            displacement[modes->axis[i]] += state[i];
        }
    }
    memcpy(to->state, state, sizeof state);
    to->past[count][0] = from->past[0][0];
    to->past[count][1] = from->past[0][1];
}

static void copy_history(const delay_history *from, delay_history *to, int count)
{
    memcpy(to->state, from->state, sizeof to->state);
    memcpy(to->past, from->past, (size_t)(count + 1) * sizeof *to->past);
}

static double inner_product(const delay_history *a, const delay_history *b, int count)
{
    double sum = 0.0;
    for (int i = 0; i < STATES_MAX; i++) { /* the states of absent modes are 0 */
        sum += a->state[i] * b->state[i];
    }
    for (int n = 0; n <= count; n++) {
        sum += a->past[n][0] * b->past[n][0] + a->past[n][1] * b->past[n][1];
    }
    return sum;
}

static void scale_history(delay_history *history, int count, double by)
{
    for (int i = 0; i < STATES_MAX; i++) {
        history->state[i] *= by;
    }
    for (int n = 0; n <= count; n++) {
        history->past[n][0] *= by;
        history->past[n][1] *= by;
    }
}

/* The growth per tooth: the larger |root| of q^2 = p q + r fitted to three successive states, which
 * is the leading pair of eigenvalues, complex or real. */
static double leading_growth(const delay_history *first, const delay_history *second,
                             const delay_history *third, int count)
{
    double aa = inner_product(second, second, count);
    double ab = inner_product(second, first, count);
    double bb = inner_product(first, first, count);
    double ac = inner_product(second, third, count);
    double bc = inner_product(first, third, count);
    double determinant = aa * bb - ab * ab;
    if (!(determinant > 1e-13 * aa * bb)) {
        return sqrt(aa / bb); /* the states are parallel: a single real eigenvalue dominates */
    }
    double p = (ac * bb - bc * ab) / determinant;
    double r = (bc * aa - ac * ab) / determinant;
    double discriminant = 0.25 * p * p + r;
    return discriminant < 0.0 ? sqrt(-r) : fabs(0.5 * p) + sqrt(discriminant);
}

/* The requested number of steps, or as many as fit into the workspace. */
static int steps_that_fit(size_t capacity, int size, int steps)
{
    size_t each = (size_t)(size * (size + 4)) + 6;
    size_t most = capacity < 6 + each ? 1 : (capacity - 6) / each;
    return size == 0 ? 1 : (size_t)steps < most ? steps : (int)most;
}

/* An arbitrary initial history that contains a component of every motion. */
static void start_history(const bite_chatter_case *problem, int count, delay_history *first)
{
    memset(first->state, 0, sizeof first->state);
    for (int n = 0; n <= count; n++) {
        first->past[n][0] = problem->x.count > 0 ? 1.0 + 0.3 * sin(1.7 * n) : 0.0;
        first->past[n][1] = problem->y.count > 0 ? 0.7 + 0.4 * cos(2.3 * n) : 0.0;
    }
}

double textbook_semidiscrete_growth(const bite_chatter_case *problem, double depth, double speed,
                                    int steps, double precision,
                                    textbook_semidiscrete_room workspace)
{
    step_matrices matrices;
    delay_history states[3];
    double pitch = 2.0 * M_PI / problem->teeth;
    mode_list modes = list_modes(problem);
    matrices.size = 2 * modes.count;
    matrices.at = workspace.numbers;
    int count = matrices.count = steps_that_fit(workspace.count, matrices.size, steps);
    double time = 1.0 / (problem->teeth * speed * count);
    for (int n = 0; n < count; n++) {
        double mean[4];
        mean_directions(problem, pitch * n / count, pitch * (n + 1) / count, mean);
        make_step(problem, &modes, depth, time, mean, step_at(&matrices, n));
    }
    for (int i = 0; i < 3; i++) {
        states[i].past = (double(*)[2])(step_at(&matrices, count) + 2 * i * (count + 1));
    }
    start_history(problem, count, &states[0]);
    double growth = 0.0;
    double previous = -1.0;
    int converged = 0;
    for (int iteration = 0; iteration < ITERATIONS_MAX && converged < 2; iteration++) {
        advance_tooth_period(&matrices, &modes, &states[0], &states[1]);
        advance_tooth_period(&matrices, &modes, &states[1], &states[2]);
        growth = leading_growth(&states[0], &states[1], &states[2], count);
        converged = fabs(growth - previous) < precision * growth ? converged + 1 : 0;
        previous = growth;
        copy_history(&states[2], &states[0], count);
        scale_history(&states[0], count,
                      1.0 / sqrt(fmax(1e-300, inner_product(&states[0], &states[0], count))));
    }
    return growth;
}

double textbook_semidiscrete_limit(const bite_chatter_case *problem, double guess, double speed,
                                   int steps, double precision,
                                   textbook_semidiscrete_room workspace)
{
    double low = guess;
    double high = guess;
    double low_log =
        log(textbook_semidiscrete_growth(problem, guess, speed, steps, precision, workspace));
    double high_log = low_log;
    for (int i = 0; i < BRACKET_STEPS_MAX && low_log > 0.0; i++) {
        high = low;
        high_log = low_log;
        low *= 0.7;
        low_log =
            log(textbook_semidiscrete_growth(problem, low, speed, steps, precision, workspace));
    }
    for (int i = 0; i < BRACKET_STEPS_MAX && high_log <= 0.0; i++) {
        low = high;
        low_log = high_log;
        high *= 1.4;
        high_log =
            log(textbook_semidiscrete_growth(problem, high, speed, steps, precision, workspace));
    }
    for (int i = 0; i < 30 && high - low > 100.0 * precision * high; i++) {
        /* linear interpolation, but at least a tenth of the interval away from either end */
        double share = fmin(0.9, fmax(0.1, low_log / (low_log - high_log)));
        double middle = low + share * (high - low);
        double log_growth =
            log(textbook_semidiscrete_growth(problem, middle, speed, steps, precision, workspace));
        if (log_growth > 0.0) {
            high = middle;
            high_log = log_growth;
        } else {
            low = middle;
            low_log = log_growth;
        }
    }
    return 0.5 * (low + high);
}

/* What one column of the map from tooth to tooth starts from, and where it ends. */
typedef struct growth_map {
    step_matrices matrices;
    mode_list modes;
    int kept_count;
    int *kept; /* the past displacements that act on a step in which a tooth cuts */
    delay_history from;
    delay_history to;
} growth_map;

static void set_steps(const bite_chatter_case *problem, double depth, double speed, growth_map *map)
{
    int count = map->matrices.count;
    double pitch = 2.0 * M_PI / problem->teeth;
    double time = 1.0 / (problem->teeth * speed * count);
    map->kept_count = 0;
    for (int n = count - 1; n >= 0; n--) {
        double mean[4];
        mean_directions(problem, pitch * n / count, pitch * (n + 1) / count, mean);
        make_step(problem, &map->modes, depth, time, mean, step_at(&map->matrices, n));
        if (mean[0] != 0.0 || mean[1] != 0.0) {
            for (int k = count - n - 1; k <= count - n; k++) {
                if (map->kept_count == 0 || map->kept[map->kept_count - 1] < k) {
                    map->kept[map->kept_count++] = k;
                }
            }
        }
    }
}

static void fill_column(growth_map *map, int column, gsl_matrix *out)
{
    int size = map->matrices.size;
    int modes = map->modes.count;
    memset(map->from.state, 0, sizeof map->from.state);
    memset(map->from.past, 0, (size_t)(map->matrices.count + 1) * sizeof *map->from.past);
    if (column < size) {
        map->from.state[column] = 1.0;
        if (column < modes && (map->kept_count == 0 || map->kept[0] != 0)) {
            map->from.past[0][map->modes.axis[column]] = 1.0;
        }
    } else {
        map->from.past[map->kept[(column - size) / 2]][(column - size) % 2] = 1.0;
    }
    advance_tooth_period(&map->matrices, &map->modes, &map->from, &map->to);
    for (int i = 0; i < size; i++) {
        gsl_matrix_set(out, (size_t)i, (size_t)column, map->to.state[i]);
    }
    for (int k = 0; k < map->kept_count; k++) {
        for (int axis = 0; axis < 2; axis++) {
            gsl_matrix_set(out, (size_t)(size + 2 * k + axis), (size_t)column,
                           map->to.past[map->kept[k]][axis]);
        }
    }
}

static double largest_eigenvalue(gsl_matrix *map_matrix)
{
    size_t order = map_matrix->size1;
    double largest = 0.0;
    gsl_vector_complex *values = gsl_vector_complex_alloc(order);
    gsl_eigen_nonsymm_workspace *workspace = gsl_eigen_nonsymm_alloc(order);
    gsl_eigen_nonsymm_params(0, 1, workspace);
    if (gsl_eigen_nonsymm(map_matrix, values, workspace) != 0) {
        largest = NAN;
    }
    for (size_t i = 0; i < order; i++) {
        gsl_complex value = gsl_vector_complex_get(values, i);
        largest = fmax(largest, hypot(GSL_REAL(value), GSL_IMAG(value)));
    }
    gsl_eigen_nonsymm_free(workspace);
    gsl_vector_complex_free(values);
    return largest;
}

double textbook_semidiscrete_radius(const bite_chatter_case *problem, double depth, double speed,
                                    int steps)
{
    growth_map map = {.modes = list_modes(problem)};
    int size = map.matrices.size = 2 * map.modes.count;
    map.matrices.count = steps;
    map.matrices.at =
        malloc(TEXTBOOK_SEMIDISCRETE_SIZE((size_t)map.modes.count, steps) * sizeof(double));
    map.kept = malloc((size_t)(steps + 1) * sizeof *map.kept);
    map.from.past = calloc((size_t)(steps + 1), sizeof *map.from.past);
    map.to.past = calloc((size_t)(steps + 1), sizeof *map.to.past);
    double radius = NAN;
    if (map.matrices.at != NULL && map.kept != NULL && map.from.past != NULL &&
        map.to.past != NULL) {
        set_steps(problem, depth, speed, &map);
        size_t order = (size_t)(size + 2 * map.kept_count);
        gsl_matrix *map_matrix = gsl_matrix_alloc(order, order);
        for (int column = 0; column < (int)order; column++) {
            fill_column(&map, column, map_matrix);
        }
        radius = largest_eigenvalue(map_matrix);
        gsl_matrix_free(map_matrix);
    }
    free(map.matrices.at);
    free(map.kept);
    free(map.from.past);
    free(map.to.past);
    return radius;
}
