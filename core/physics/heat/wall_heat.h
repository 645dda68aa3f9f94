/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How warm the finished wall and floor still are when the next tooth comes, and for how long.
 *
 * The flash under an edge is gone within a tenth of a millisecond. What matters is the heat of many
 * sweeps: a tooth that passes at a distance x before the wall is finished cuts at a height x^2/2R
 * above it, and its heat stays if it soaks to the wall before that layer leaves. Closed forms,
 * fitted to finite differences (one-dimensional pulses with removed layers: rms 14 %; the true
 * circle in two dimensions: 6 to 9 % high).
 */
#ifndef BITE_PHYSICS_HEAT_WALL_HEAT_H
#define BITE_PHYSICS_HEAT_WALL_HEAT_H

typedef struct bite_wall_heat_case {
    double edge_energy;  /* J/m2, heat of one pass of the edge that stays in the work */
    double layer;        /* m, depth of the layer that takes it */
    double feed_rate;    /* vf, m/s */
    double feed_real;    /* m, feed of a tooth that really cuts */
    double radius;       /* of the tool, m */
    double width;        /* ae, m */
    double spring_back;  /* m, by which the surface springs back behind the edge */
    double rub_heat;     /* heat of a rub of the sprung-back surface over that of a cut, 1 */
    double dish;         /* slope of the end teeth, 1; > 0 */
    double cooling;      /* W/(m2 K), on the finished surface */
    double conductivity; /* of the work, W/(m K) */
    double diffusivity;  /* m2/s */
} bite_wall_heat_case;

typedef struct bite_wall_heat {
    double rise;  /* K, sustained from tooth to tooth */
    double dwell; /* s, for which it stays warm */
    double cuts;  /* M: sweeps of the cut that count */
    double rubs;  /* N: rubs on the surface that springs back */
} bite_wall_heat;

/** The wall beside the tool. */
bite_wall_heat bite_wall_heat_wall(const bite_wall_heat_case *heat_case);

/** The floor under the tool. */
bite_wall_heat bite_wall_heat_floor(const bite_wall_heat_case *heat_case);

/** Rise, K, that laps over the same place add: a line source in a plate of thickness b, cooled from
 * both faces, lap after lap. line_energy: heat_to_part/vf, J/m; volumetric: rho c; thickness of
 * what stays, m; lap: s a lap; laps: count. Not tested against anything (estimate). */
double bite_wall_heat_soak(double line_energy, double volumetric, double diffusivity,
                           double thickness, double lap, double laps);

/** Temperature rise, K, of the flash under the edge itself, for what it is worth: E1/(rho c (d^1.8
 * + (sqrt(pi a l/v)/2)^1.8)^(1/1.8)), within 6 % of the layer's solution. contact: l_f/v, s. */
double bite_wall_heat_flash(double edge_energy, double layer, double volumetric, double diffusivity,
                            double contact);

#endif
