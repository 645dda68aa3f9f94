/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Heat of a pass: chip, tool, skin and what goes into the part, in closed form.
 *
 * Shear heat is shared between chip and work by Weiner's partition, rake and flank are contacts
 * with an impedance on either side, the tool is a stepped fin, and the work that comes is warmed by
 * what the teeth before left in it. For a given share s of the friction heat that a soft face still
 * makes, all of it is linear: one equation for the preheat, no loop. s itself is the root of a
 * falling line and a rising one.
 */
#ifndef BITE_PHYSICS_HEAT_CUTTING_HEAT_H
#define BITE_PHYSICS_HEAT_CUTTING_HEAT_H

typedef struct bite_heat_case {
    /* contact */
    double speed;      /* vc, m/s */
    double chip;       /* mean h over the arc, m; > 0 */
    double depth;      /* b = ap, m */
    double teeth_chip; /* teeth in contact that form a chip, mean over a turn; 0: none does */
    double teeth_edge; /* teeth in contact, mean over a turn */
    double pressure;   /* K, Pa */
    double edge;       /* Ke, N/m, what ploughing makes of it */
    double fracture;   /* N/m, what making new surface takes of it: spent in the craze ahead of the
                          edge, leaves with the chip */
    /* material */
    double density;
    double heat_capacity;
    double conductivity;
    double chip_ratio;     /* chip thickness after / before */
    double rake;           /* rad */
    double heat_share;     /* of plastic work that turns into heat */
    double friction_share; /* of K that is rake friction */
    double sublayer_share; /* of rake friction heat that reaches the interface */
    double edge_born;      /* of edge energy that is born at the flank's interface */
    double transition;     /* K; NaN: friction is not limited by softening */
    /* tool */
    double edge_radius;       /* m */
    double flank_land;        /* l_f, m, in contact behind the edge */
    double skin;              /* d_p, m, depth in which the edge's work is left */
    double tool_conductivity; /* W/(m K) */
    double tool_effusivity;   /* W s^0.5/(m2 K) */
    double resistance;        /* of the tool from the edge outwards, K/W */
    double sink;              /* K, of the tool without a cut */
    /* work */
    double start;        /* K */
    double removal_rate; /* Q, m3/s */
    double share_met;    /* r: of its own heat that the cutter meets again */
    double share_deep;   /* g: of the preheat that the staying surface feels */
    int endless_chip;    /* 1: the chip's own heat capacity does not limit what the rake takes (the
                            limit of a thick chip) */
} bite_heat_case;

typedef struct bite_heat {
    double work_share; /* Gamma of the shear heat, 1 */
    double shear;      /* K, of the chip as it leaves the shear plane */
    double chip;       /* K, its mean, friction included */
    double tool;       /* K, body at the edge */
    double rake;       /* K, interface */
    double skin;       /* K, of the surface that stays */
    double film;       /* K, under the edge */
    double preheat;    /* K, rise that the next tooth meets */
    double friction; /* s: share of friction heat that a soft face still brings to the interface */
    double power;    /* W */
    double to_chip;  /* W, what the cutter meets again included */
    double to_tool;  /* W */
    double to_part;  /* W, what stays */
    double stored; /* W, work that is no heat at tool or skin: stored cold work and fracture, leaves
                      with the chip */
} bite_heat;

/** Solves the case. All members finite but transition; speeds, lengths and properties > 0. */
void bite_heat_solve(const bite_heat_case *heat_case, bite_heat *heat);

#endif
