/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Temperature rise of the finished wall and floor when the next tooth arrives, and its duration.
 *
 * The flash under an edge decays within a tenth of a millisecond. The sustained rise is the sum
 * over many sweeps: a tooth that passes at a distance x before the wall is finished cuts at a
 * height x^2/2R above it, and its heat remains if it diffuses to the wall before that layer is
 * removed. Closed forms, fitted to finite differences (one-dimensional pulses with removed layers:
 * rms 14 %; the true circle in two dimensions: 6 to 9 % high).
 */
#ifndef BITE_PHYSICS_HEAT_WALL_HEAT_H
#define BITE_PHYSICS_HEAT_WALL_HEAT_H

typedef struct bite_wall_heat_case {
    double edge_energy;  /* J/m2, heat of one pass of the edge that stays in the workpiece */
    double layer;        /* m, depth of the layer that absorbs it */
    double feed_rate;    /* vf, m/s */
    double feed_real;    /* m: feed of a tooth that really cuts */
    double radius;       /* of the tool, m */
    double width;        /* ae, m */
    double spring_back;  /* m, height by which the surface springs back behind the edge */
    double rub_heat;     /* heat of a rub on the sprung-back surface / heat of a cut, 1 */
    double dish;         /* slope of the end teeth, 1; > 0 */
    double cooling;      /* W/(m2 K), on the finished surface */
    double conductivity; /* of the workpiece, W/(m K) */
    double diffusivity;  /* m2/s */
} bite_wall_heat_case;

typedef struct bite_wall_heat {
    double rise;  /* K, sustained from tooth to tooth */
    double dwell; /* s, time for which the surface stays warm */
    double cuts;  /* M: sweeps of the cut that add to the rise */
    double rubs;  /* N: rubs on the sprung-back surface */
} bite_wall_heat;

/** The wall beside the tool. */
bite_wall_heat bite_wall_heat_wall(const bite_wall_heat_case *heat_case);

/** The floor under the tool. */
bite_wall_heat bite_wall_heat_floor(const bite_wall_heat_case *heat_case);

/** Temperature rise, K, from earlier laps over the same place: a line source in a plate that is
 * cooled from both faces, summed over the laps. line_energy: heat_to_part/vf, J/m; volumetric: rho
 * c; thickness: of the material that remains, m; lap: s per lap; laps: count. Not checked against
 * measurements (estimate). */
double bite_wall_heat_soak(double line_energy, double volumetric, double diffusivity,
                           double thickness, double lap, double laps);

/** Temperature rise, K, of the flash under the edge itself, for information: E1/(rho c (d^1.8 +
 * (sqrt(pi a l/v)/2)^1.8)^(1/1.8)), within 6 % of the solution for the layer. contact: l_f/v, s. */
double bite_wall_heat_flash(double edge_energy, double layer, double volumetric, double diffusivity,
                            double contact);

#endif
