/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Heat of a pass: temperatures of chip, tool and skin, and the heat into the part, in closed form.
 *
 * Weiner's partition divides the shear heat between chip and work; rake face and flank are contacts
 * with an impedance on either side; the tool is a stepped fin; and the work is preheated by the
 * heat that the teeth before have left in it. For a given share s of the friction heat that a
 * softened face still makes, all of this is linear: one equation for the preheat, no iteration. s
 * itself is where a falling line and a rising line cross.
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
    double edge;       /* Ke, N/m, the part of the edge force from ploughing */
    double fracture;   /* N/m, the part of the edge force that makes new surface: spent in the craze
                          ahead of the edge, it leaves with the chip */
    /* material */
    double density;
    double heat_capacity;
    double conductivity;
    double chip_ratio;     /* chip thickness after / before */
    double rake;           /* rad */
    double heat_share;     /* share of the plastic work that turns into heat */
    double friction_share; /* share of K that is friction on the rake face */
    double sublayer_share; /* share of the rake friction heat that reaches the interface */
    double edge_born;      /* share of the edge energy that is generated at the flank interface */
    double transition;     /* K; NaN: friction is not limited by softening */
    /* tool */
    double edge_radius;       /* m */
    double flank_land;        /* l_f, m, in contact behind the edge */
    double skin;              /* d_p, m, depth of the layer that the work of the edge heats */
    double tool_conductivity; /* W/(m K) */
    double tool_effusivity;   /* W s^0.5/(m2 K) */
    double resistance;        /* of the tool from the edge outwards, K/W */
    double sink;              /* K, temperature of the tool without a cut */
    /* work */
    double start;        /* K */
    double removal_rate; /* Q, m3/s */
    double share_met;    /* r: share of the heat in the work that leaves with the chips of the next
                            teeth */
    double share_deep;   /* g: share of the preheat that reaches the finished surface */
    int endless_chip; /* 1: the heat capacity of the chip does not limit the heat into the rake face
                         (the limit of a thick chip) */
} bite_heat_case;

typedef struct bite_heat {
    double work_share;  /* Gamma of the shear heat, 1 */
    double shear;       /* K, of the chip as it leaves the shear plane */
    double chip;        /* K, its mean, friction included */
    double tool;        /* K, body at the edge */
    double rake;        /* K, interface */
    double skin;        /* K, of the finished surface */
    double film;        /* K, under the edge */
    double edge_energy; /* J/m2, heat of one pass of the edge that stays in the workpiece */
    double preheat;     /* K, rise of the work ahead of the next tooth */
    double friction;    /* s: share of the friction heat that a softened face still makes */
    double power;       /* W */
    double to_chip;     /* W, including the heat that leaves with the chips of the next teeth */
    double to_tool;     /* W */
    double to_part;     /* W, that stays in the part */
    double stored; /* W, work that does not heat tool or skin: stored cold work and fracture; it
                      leaves with the chip */
} bite_heat;

/** Solves the case. All members are finite, except that transition may be NaN; speeds, lengths and
 * properties are > 0. */
void bite_heat_solve(const bite_heat_case *heat_case, bite_heat *heat);

#endif
