/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a square end mill from what its edges meet. */
#include "core/physics/force/square_end_mill.h"
#include <math.h>
#include <string.h>

static inline bite_load load_of(const bite_pressure *other, double area, double edge,
                                double area_sine, double area_cosine, double edge_sine,
                                double edge_cosine)
{
    double tangential_sine = other->tangential * area_sine + other->edge_tangential * edge_sine;
    double tangential_cosine =
        other->tangential * area_cosine + other->edge_tangential * edge_cosine;
    double radial_sine = other->radial * area_sine + other->edge_radial * edge_sine;
    double radial_cosine = other->radial * area_cosine + other->edge_radial * edge_cosine;
    bite_load load = {other->tangential * area + other->edge_tangential * edge,
                      -tangential_cosine - radial_sine, tangential_sine - radial_cosine,
                      other->axial * area + other->edge_axial * edge};
    return load;
}

bite_load bite_force_of(const bite_pressure *pressure, const double met[BITE_EDGE_TERMS])
{
    return load_of(pressure, met[BITE_EDGE_AREA], met[BITE_EDGE_EDGE], met[BITE_EDGE_AREA_SINE],
                   met[BITE_EDGE_AREA_COSINE], met[BITE_EDGE_EDGE_SINE],
                   met[BITE_EDGE_EDGE_COSINE]);
}

/* What peaks are looked for in, at all samples of a period. */
typedef struct turn_load {
    double tangential[BITE_SAMPLES_MAX];
    double side[BITE_SAMPLES_MAX]; /* squared */
    double lift[BITE_SAMPLES_MAX];
} turn_load;

/* The largest so far in each lane. */
typedef struct summits {
    double tangential[BITE_SAMPLE_WIDTH];
    double side[BITE_SAMPLE_WIDTH];
    double up[BITE_SAMPLE_WIDTH];   /* of the lift */
    double down[BITE_SAMPLE_WIDTH]; /* of the lift turned over */
} summits;

static void press_lanes(const bite_pressure *pressure, const bite_edge_integrals *edges, int from,
                        turn_load *turn, summits *most)
{
    const bite_pressure here = *pressure;
    const bite_edge_sample_block *met = &edges->sample[from / BITE_SAMPLE_WIDTH];
    double tangential[BITE_SAMPLE_WIDTH];
    double side[BITE_SAMPLE_WIDTH];
    double lift[BITE_SAMPLE_WIDTH];
    for (int k = 0; k < BITE_SAMPLE_WIDTH; k++) {
        bite_load load =
            load_of(&here, met->term[BITE_EDGE_AREA][k], met->term[BITE_EDGE_EDGE][k],
                    met->term[BITE_EDGE_AREA_SINE][k], met->term[BITE_EDGE_AREA_COSINE][k],
                    met->term[BITE_EDGE_EDGE_SINE][k], met->term[BITE_EDGE_EDGE_COSINE][k]);
        tangential[k] = load.tangential;
        side[k] = load.x * load.x + load.y * load.y;
        lift[k] = load.lift;
    }
    for (int k = 0; k < BITE_SAMPLE_WIDTH; k++) {
        most->tangential[k] =
            tangential[k] > most->tangential[k] ? tangential[k] : most->tangential[k];
        most->side[k] = side[k] > most->side[k] ? side[k] : most->side[k];
        most->up[k] = lift[k] > most->up[k] ? lift[k] : most->up[k];
        most->down[k] = -lift[k] > most->down[k] ? -lift[k] : most->down[k];
    }
    memcpy(turn->tangential + from, tangential, sizeof tangential);
    memcpy(turn->side + from, side, sizeof side);
    memcpy(turn->lift + from, lift, sizeof lift);
}

static double most_of(const double lanes[BITE_SAMPLE_WIDTH])
{
    double most = lanes[0];
    for (int k = 1; k < BITE_SAMPLE_WIDTH; k++) {
        most = lanes[k] > most ? lanes[k] : most;
    }
    return most;
}

/* The top of the parabola through three values at equal steps where it lies between the outer two
 * and above `best`; else best. */
static inline double top_over(double best, double left, double middle, double right)
{
    double slope = 0.5 * (right - left);
    /* a top between them is no higher than this */
    if (!(middle + 0.5 * fabs(slope) > best)) {
        return best;
    }
    double bend = left - 2.0 * middle + right;
    if (!(bend < 0.0) || fabs(slope) >= -bend) {
        return best;
    }
    double top = middle - 0.5 * slope * slope / bend;
    return top > best ? top : best;
}

static void find_peaks(const bite_edge_integrals *edges, const turn_load *turn, const summits *most,
                       bite_force_peaks *peaks)
{
    double tangential = most_of(most->tangential);
    double side = most_of(most->side);
    double up = most_of(most->up);
    double down = most_of(most->down);
    for (int i = 0; i < edges->middles; i++) {
        int k = edges->middle[i];
        const double *lift = turn->lift + k;
        tangential = top_over(tangential, turn->tangential[k - 1], turn->tangential[k],
                              turn->tangential[k + 1]);
        side = top_over(side, turn->side[k - 1], turn->side[k], turn->side[k + 1]);
        up = top_over(up, lift[-1], lift[0], lift[1]);
        down = top_over(down, -lift[-1], -lift[0], -lift[1]);
    }
    peaks->tangential = tangential;
    peaks->side = sqrt(side);
    peaks->lift = up >= down ? up : -down;
}

void bite_force_set_pressure(bite_force *force, const bite_pressure *pressure,
                             const bite_pressure *peak)
{
    turn_load turn;
    summits most;
    force->pressure = *pressure;
    force->mean = bite_force_of(pressure, force->edges.mean);
    for (int k = 0; k < BITE_SAMPLE_WIDTH; k++) {
        most.tangential[k] = most.side[k] = most.up[k] = most.down[k] = 0.0;
    }
    for (int k = 0; k < force->edges.samples; k += BITE_SAMPLE_WIDTH) {
        press_lanes(peak, &force->edges, k, &turn, &most);
    }
    find_peaks(&force->edges, &turn, &most, &force->peaks);
}

void bite_force_init(bite_force *force, const bite_chip *chip, const bite_pressure *pressure,
                     const bite_pressure *peak, double depth, double diameter, double helix)
{
    bite_edge_integrals_init(&force->edges, chip, depth, diameter, helix);
    bite_force_set_pressure(force, pressure, peak);
}
