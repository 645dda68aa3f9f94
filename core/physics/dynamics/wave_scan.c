/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Count of the growing waves at several loads. */
#include "core/physics/dynamics/wave_scan.h"
#include <math.h>

#define LANES BITE_WAVE_LANES

static void add_turn(double *turn, int *count, double angle)
{
    double rest = fabs(angle - 2.0 * M_PI * rint(angle / (2.0 * M_PI)));
    int i = (*count)++;
    for (; i > 0 && turn[i - 1] > rest; i--) {
        turn[i] = turn[i - 1];
    }
    turn[i] = rest;
}

void bite_wave_scan_set(const bite_wave_source *source, bite_wave_scan *scan)
{
    const bite_arc_waves *waves = source->waves;
    static const double widths[] = {-2.5, -0.8, 0.8, 2.5};
    double turn[BITE_WAVE_TURNS_MAX];
    int count = 0;
    for (int i = 0; i <= 8; i++) {
        add_turn(turn, &count, 0.125 * M_PI * i);
    }
    for (int m = 0; m < waves->modes; m++) {
        for (size_t k = 0; k < sizeof widths / sizeof *widths; k++) {
            add_turn(turn, &count,
                     waves->natural[m] * waves->period * (1.0 + waves->damping[m] * widths[k]));
        }
    }
    bite_wave_turns_set(waves, turn, count, scan->turn);
    scan->count = count;
    scan->last = count - 1;
    for (int i = 0; i < count; i++) {
        scan->next[i] = i + 1 < count ? i + 1 : -1;
    }
}

/* Integers of all lanes, -1 for true: what comparisons of vectors give. */
typedef long long lane_truth __attribute__((vector_size(LANES * sizeof(long long))));

/* Whether the phase between two determinants is less than 1.2 rad at each load, so that it is that
 * and not a turn more. */
BITE_FORMULA bool is_resolved(const bite_lane_vector *a, const bite_lane_vector *b)
{
    bite_lane_vector along = 2.57 * (a[0] * b[0] + a[1] * b[1]);
    bite_lane_vector across = a[0] * b[1] - a[1] * b[0];
    lane_truth resolved = (across < along) & (-across < along);
    return ((resolved[0] & resolved[1]) & (resolved[2] & resolved[3])) != 0;
}

/* Adds the turns that the phase gains if the line from a to b crosses the negative real numbers, at
 * which it is cut: 1 or -1. */
BITE_FORMULA void add_turns(const bite_lane_vector *a, const bite_lane_vector *b, lane_truth *turns)
{
    bite_lane_vector across = a[0] * b[1] - a[1] * b[0];
    lane_truth up = (a[1] < 0.0) & (b[1] >= 0.0) & (across < 0.0);
    lane_truth down = (a[1] >= 0.0) & (b[1] < 0.0) & (across > 0.0);
    *turns += up - down;
}

/* Follows the phase from one turn on, and returns the last turn to which it can be followed.
 * forced: to follow it to the next one in any case. */
BITE_IN_LANES static int follow_phase(const bite_wave_scan *scan, int from, bool forced,
                                      lane_truth *turns)
{
    lane_truth sum = *turns;
    int i = from;
    for (int k = scan->next[i]; k >= 0; k = scan->next[i]) {
        if (!forced && !is_resolved(scan->value[i], scan->value[k])) {
            break;
        }
        add_turns(scan->value[i], scan->value[k], &sum);
        forced = false;
        i = k;
    }
    *turns = sum;
    return i;
}

/* The determinants at the turns from one on, at the scan's loads, times a positive number. */
static void fill_values(const bite_wave_source *source, int from, bite_wave_scan *scan)
{
    if (source->polynomial != NULL) {
        bite_wave_determinants(scan->coefficient, source->polynomial->powers, scan->turn + from,
                               scan->count - from, scan->value + from);
        return;
    }
    double load[LANES];
    for (int l = 0; l < LANES; l++) {
        load[l] = scan->load[l] * source->unit;
    }
    for (int i = from; i < scan->count; i++) {
        const bite_complex *poles = &scan->turn[i].poles;
        double size = poles->real * poles->real + poles->imaginary * poles->imaginary;
        double turn[LANES] = {scan->turn[i].turn, scan->turn[i].turn, scan->turn[i].turn,
                              scan->turn[i].turn};
        bite_lane_complex value;
        bite_wave_exact(source->waves, turn, load, source->matrices, &value);
        scan->value[i][0] = size * value.real;
        scan->value[i][1] = size * value.imaginary;
    }
}

/* Adds a turn in the middle between one and the next; false: the memory for turns is full. */
static bool insert_turn(const bite_wave_source *source, int at, bite_wave_scan *scan)
{
    if (scan->count == BITE_SCAN_TURNS) {
        return false;
    }
    int new = scan->count++;
    bite_wave_turn_between(source->waves, &scan->turn[at], &scan->turn[scan->next[at]],
                           &scan->turn[new]);
    fill_values(source, new, scan);
    scan->next[new] = scan->next[at];
    scan->next[at] = new;
    return true;
}

/* The determinant is real at no turn and at half a turn. */
static void make_ends_real(int last, bite_wave_scan *scan)
{
    scan->value[0][1] = 0.0 * scan->value[0][1];
    scan->value[last][1] = 0.0 * scan->value[last][1];
}

void bite_wave_scan_count(const bite_wave_source *source, bite_wave_scan *scan)
{
    const double close = 1e-4 * M_PI;
    lane_truth turns = {0, 0, 0, 0};
    if (source->polynomial != NULL) {
        bite_wave_polynomial_load(source->polynomial, scan->load, scan->coefficient);
    }
    fill_values(source, 0, scan);
    make_ends_real(scan->last, scan);
    int i = follow_phase(scan, 0, false, &turns);
    while (scan->next[i] >= 0) {
        double low = scan->turn[i].turn;
        double high = scan->turn[scan->next[i]].turn;
        bool forced = !(high - low > close) || !insert_turn(source, i, scan);
        i = follow_phase(scan, i, forced, &turns);
    }
    for (int l = 0; l < LANES; l++) {
        int half_turns = 2 * (int)turns[l] + (scan->value[i][0][l] < 0.0);
        scan->growing[l] = half_turns < 0 ? -half_turns : half_turns;
    }
}

bool bite_wave_scan_is_close(const bite_wave_scan *scan, double least_load, double share)
{
    double square = share * share;
    for (int i = 1; i < scan->count; i++) {
        const bite_complex *poles = &scan->turn[i].poles;
        double size = poles->real * poles->real + poles->imaginary * poles->imaginary;
        bite_lane_vector close = scan->value[i][0] * scan->value[i][0] +
                                 scan->value[i][1] * scan->value[i][1] - square * size * size +
                                 0.0 * scan->value[i][0];
        for (int l = 0; l < LANES; l++) {
            if (close[l] < 0.0 && scan->load[l] < least_load) {
                return true;
            }
        }
    }
    return false;
}
