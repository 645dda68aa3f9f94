/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a square end mill from its edge integrals: their means, and their peaks over a turn. */
#include "tests/oracle/closed_forms/square_end_mill.h"
#include <math.h>
#include <string.h>

static inline bite_load load_of(const bite_pressure *pressure, double area, double edge,
                                double area_sine, double area_cosine, double edge_sine,
                                double edge_cosine)
{
    double tangential_sine =
        pressure->tangential * area_sine + pressure->edge_tangential * edge_sine;
    double tangential_cosine =
        pressure->tangential * area_cosine + pressure->edge_tangential * edge_cosine;
    double radial_sine = pressure->radial * area_sine + pressure->edge_radial * edge_sine;
    double radial_cosine = pressure->radial * area_cosine + pressure->edge_radial * edge_cosine;
    bite_load load = {pressure->tangential * area + pressure->edge_tangential * edge,
                      -tangential_cosine - radial_sine, tangential_sine - radial_cosine,
                      pressure->axial * area + pressure->edge_axial * edge};
    return load;
}

bite_load bite_force_of(const bite_pressure *pressure, const double integrals[BITE_EDGE_TERMS])
{
    return load_of(pressure, integrals[BITE_EDGE_AREA], integrals[BITE_EDGE_EDGE],
                   integrals[BITE_EDGE_AREA_SINE], integrals[BITE_EDGE_AREA_COSINE],
                   integrals[BITE_EDGE_EDGE_SINE], integrals[BITE_EDGE_EDGE_COSINE]);
}

/* The quantities whose peaks are sought, at all samples of a period. */
typedef struct turn_load {
    double tangential[BITE_SAMPLES_MAX];
    double side[BITE_SAMPLES_MAX]; /* squared */
    double lift[BITE_SAMPLES_MAX];
} turn_load;

/* The largest values so far, in each SIMD lane. */
typedef struct lane_maxima {
    double tangential[BITE_SAMPLE_WIDTH];
    double side[BITE_SAMPLE_WIDTH];
    double up[BITE_SAMPLE_WIDTH];   /* of the lift */
    double down[BITE_SAMPLE_WIDTH]; /* of the lift with its sign reversed */
} lane_maxima;

static void evaluate_lanes(const bite_pressure *pressure, const bite_edge_integrals *edges,
                           int from, turn_load *turn, lane_maxima *most)
{
    const bite_pressure here = *pressure;
    const bite_edge_sample_block *integrals = &edges->sample[from / BITE_SAMPLE_WIDTH];
    double tangential[BITE_SAMPLE_WIDTH];
    double side[BITE_SAMPLE_WIDTH];
    double lift[BITE_SAMPLE_WIDTH];
    for (int k = 0; k < BITE_SAMPLE_WIDTH; k++) {
        bite_load load = load_of(
            &here, integrals->term[BITE_EDGE_AREA][k], integrals->term[BITE_EDGE_EDGE][k],
            integrals->term[BITE_EDGE_AREA_SINE][k], integrals->term[BITE_EDGE_AREA_COSINE][k],
            integrals->term[BITE_EDGE_EDGE_SINE][k], integrals->term[BITE_EDGE_EDGE_COSINE][k]);
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

static double largest_lane(const double lanes[BITE_SAMPLE_WIDTH])
{
    double most = lanes[0];
    for (int k = 1; k < BITE_SAMPLE_WIDTH; k++) {
        most = lanes[k] > most ? lanes[k] : most;
    }
    return most;
}

/* The peak of the parabola through three equally spaced values, if it lies between the outer two
 * and above `best`; else best. */
static inline double peak_of_parabola(double best, double left, double middle, double right)
{
    double slope = 0.5 * (right - left);
    /* upper bound of a peak between the outer two */
    if (!(middle + 0.5 * fabs(slope) > best)) {
        return best;
    }
    double curvature = left - 2.0 * middle + right;
    if (!(curvature < 0.0) || fabs(slope) >= -curvature) {
        return best;
    }
    double peak = middle - 0.5 * slope * slope / curvature;
    return peak > best ? peak : best;
}

static void find_peaks(const bite_edge_integrals *edges, const turn_load *turn,
                       const lane_maxima *most, bite_force_peaks *peaks)
{
    double tangential = largest_lane(most->tangential);
    double side = largest_lane(most->side);
    double up = largest_lane(most->up);
    double down = largest_lane(most->down);
    for (int i = 0; i < edges->middles; i++) {
        int k = edges->middle[i];
        const double *lift = turn->lift + k;
        tangential = peak_of_parabola(tangential, turn->tangential[k - 1], turn->tangential[k],
                                      turn->tangential[k + 1]);
        side = peak_of_parabola(side, turn->side[k - 1], turn->side[k], turn->side[k + 1]);
        up = peak_of_parabola(up, lift[-1], lift[0], lift[1]);
        down = peak_of_parabola(down, -lift[-1], -lift[0], -lift[1]);
    }
    peaks->tangential = tangential;
    peaks->side = sqrt(side);
    peaks->lift = up >= down ? up : -down;
}

void bite_force_set_pressure(bite_force *force, const bite_pressure *pressure,
                             const bite_pressure *peak)
{
    turn_load turn;
    lane_maxima most;
    force->pressure = *pressure;
    force->mean = bite_force_of(pressure, force->edges.mean);
    for (int k = 0; k < BITE_SAMPLE_WIDTH; k++) {
        most.tangential[k] = most.side[k] = most.up[k] = most.down[k] = 0.0;
    }
    for (int k = 0; k < force->edges.samples; k += BITE_SAMPLE_WIDTH) {
        evaluate_lanes(peak, &force->edges, k, &turn, &most);
    }
    find_peaks(&force->edges, &turn, &most, &force->peaks);
}

void bite_force_init(bite_force *force, const bite_chip *chip, const bite_pressure *pressure,
                     const bite_pressure *peak, double depth, double diameter, double helix)
{
    bite_edge_integrals_init(&force->edges, chip, depth, diameter, helix);
    bite_force_set_pressure(force, pressure, peak);
}
