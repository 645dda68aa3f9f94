/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Workholding: loads of the cut on the workholding, and of the workholding on the part. SI units.
 */
#ifndef BITE_PHYSICS_HOLDING_WORKHOLDING_H
#define BITE_PHYSICS_HOLDING_WORKHOLDING_H

#include "core/base/lane_math.h"

/** Forces on a rigid part over a rectangular bond. */
typedef struct bite_workholding_load {
    double side;   /* N, in the direction of `along` */
    double lift;   /* N, up is positive */
    double height; /* m, of the side force above the bond */
    double arm;    /* m, of the side force about the middle of the bond, in its plane */
} bite_workholding_load;

/** Stresses in the bond, Pa. */
typedef struct bite_workholding_stress {
    double shear; /* F/A */
    double pull;  /* Fz max(1/A, 1/(b r)); 0 if the tool presses down */
    double tilt;  /* F H/b max(6/L^2, 2/r^2) at the edge, L along the force */
    double twist; /* T r/J at the corner */
} bite_workholding_stress;

/** Stresses in a bond of `along` by `across`, m. cleavage_length: r, of bite_bond_cleavage_length:
 * a plate that is stiff for its size distributes lift and tilt over the whole bond, a thin one
 * along r from its edge; infinite: rigid. */
BITE_FORMULA bite_workholding_stress bite_workholding_stresses(double along, double across,
                                                               const bite_workholding_load *load,
                                                               double cleavage_length)
{
    double area = along * across;
    double polar = area * (along * along + across * across) / 12.0;
    double cleaved = across * cleavage_length;
    double tilted = load->side * load->height;
    bite_workholding_stress stress;
    stress.shear = load->side / area;
    stress.pull = bite_larger(load->lift, 0.0) * bite_larger_known(1.0 / area, 1.0 / cleaved);
    stress.tilt =
        tilted * bite_larger_known(6.0 / (along * area), 2.0 / (cleavage_length * cleaved));
    stress.twist = load->side * load->arm * 0.5 * bite_length_of(along, across) / polar;
    return stress;
}

/** Utilization of the bond: sqrt((shear + twist)^2/shear_strength^2 + (pull +
 * tilt)^2/pull_strength^2); at most 1: the bond is strong enough. The form of the sphere of Yao and
 * others 2020 (memory). */
BITE_FORMULA double bite_workholding_use(const bite_workholding_stress *stress,
                                         double shear_strength, double pull_strength)
{
    return bite_length_of((stress->shear + stress->twist) / shear_strength,
                          (stress->pull + stress->tilt) / pull_strength);
}

/** Sag of a plate into a groove under vacuum: p g^4/(384 D), edges clamped. */
double bite_workholding_groove(double pressure, double groove, double rigidity);

/** How the workholding fails. */
typedef enum bite_workholding_way {
    BITE_WORKHOLDING_SLIP = 0, /* friction does not carry the side force */
    BITE_WORKHOLDING_LEVER,  /* the side force levers it out of the jaws, or off the plate under the
                                screws */
    BITE_WORKHOLDING_STRIP,  /* the threads strip out of the plate */
    BITE_WORKHOLDING_SHEAR,  /* the screws shear, if friction is not relied on */
    BITE_WORKHOLDING_CRUSH,  /* the part is crushed under the heads of the screws */
    BITE_WORKHOLDING_BREAK,  /* the tabs break */
    BITE_WORKHOLDING_STRETCH /* the screws yield as they are tightened */
} bite_workholding_way;

/** Utilization of the workholding by a load, and the mode that governs. */
typedef struct bite_workholding_share {
    double utilization; /* at most 1: it is strong enough; NaN: a strength is not known */
    bite_workholding_way mode;
} bite_workholding_share;

/** Two jaws on opposite faces. */
typedef struct bite_workholding_jaws {
    double force; /* N, of one jaw on the part */
    double friction;
    double width;        /* m, of the faces along the jaws */
    double depth;        /* m, of the faces up the jaws */
    double part_bearing; /* Pa, allowable pressure on the part between them; NaN: not known */
} bite_workholding_jaws;

/** load.height is above the middle of the faces, load.arm about it along the jaws. Along the jaws
 * the force is carried by the friction of both faces, 2 mu N, and so is its torque about the line
 * of the jaws, by evenly pressed faces: 2 mu N r, r the mean distance of the points of a face from
 * its middle; both are largest at a corner, so the shares add. Across the jaws the force acts on
 * one jaw, and its moments shift the pressure away from the middle, at most to an edge: F/N (1 + 2
 * H/depth), F/N (1 + 2 arm/width). The result is the worst of the two directions and of the
 * pressure on the faces (statics; derived here). */
bite_workholding_share bite_workholding_clamped(const bite_workholding_jaws *jaws,
                                                const bite_workholding_load *load);
/** Mean distance of the points of a rectangle from its middle. */
double bite_workholding_mean_radius(double along, double across);

/** Screws through a part into a plate. */
typedef struct bite_workholding_screws {
    double count;
    double force;        /* N, of each as tightened */
    double friction;     /* part on plate */
    double diameter;     /* m, of the thread */
    double engaged;      /* m, of thread in the plate */
    double apart;        /* m, from the first to the last */
    double plate_shear;  /* Pa, allowable shear stress of the plate */
    double screw_shear;  /* Pa, allowable shear stress of a screw */
    double part_bearing; /* Pa, allowable pressure on the part under a head and at a hole; NaN: not
                            known */
    double thickness;    /* m, of the part at the holes */
    double screw_yield;  /* Pa, of a screw in tension */
} bite_workholding_screws;

/** Slip: F (1 + arm/r) <= mu (n P - lift), r half of apart. Lever: lift/n + 2 F H/(n L) <= P, L the
 * bond's shorter side. Strip: P plus that tension <= pi/2 d l tau, half of the thread's
 * cylinder (Shigley's form, memory). Stretch: 1.3 P plus that tension over 0.7 of its circle, the
 * stress area, against the yield strength: half of the torque twists the shank as it is tightened,
 * sqrt(1 + 3 (tau/sigma)^2) = 1.3 with tau/sigma = 16 (T/2)/(pi s^3)/(P/(pi s^2/4)),
 * s = 0.84 d, T = 0.2 P d (von Mises; derived here). All forces are best estimates: how far a
 * torque's force scatters is the caller's. Shear: the worst screw's share of the side force over
 * that area. Crush: P under a head of 2.25 d less the hole, and the side force on d t. The part
 * shifts once it slips; shear and crush describe what follows. A single screw carries a torque by
 * the ring under its head alone, r = 0.75 d. along, across: of the area over which the screws are
 * spread. */
bite_workholding_share bite_workholding_screwed(const bite_workholding_screws *screws, double along,
                                                double across, const bite_workholding_load *load);

/** Tabs from a part to the sheet around it. */
typedef struct bite_workholding_tabs {
    double count;
    double width;    /* m, along the part's edge */
    double height;   /* m */
    double length;   /* m, across the gap: the tool's diameter */
    double strength; /* Pa, in tension */
} bite_workholding_tabs;

/** For each tab: the side force and its torque, with a lever of half of the shorter side, act as
 * shear, and as bending in the plane of the sheet along the part's edge; lift and tilt act as
 * bending out of that plane. Each is that of a beam clamped at both ends, 3 W l/(b h^2) and 3 V
 * l/(h b^2), with the maxima in the same corner; sqrt(bending^2 + 3 shear^2) <= strength (von
 * Mises). */
bite_workholding_share bite_workholding_tabbed(const bite_workholding_tabs *tabs, double along,
                                               double across, const bite_workholding_load *load);

/** Tension of a screw, N, tightened with a torque: T/(K d), K 0.2 for plain dry steel (common
 * practice). */
double bite_workholding_tightened(double torque, double diameter);
/** The torque, N m, that makes this tension. */
double bite_workholding_torque(double force, double diameter);

/** Force at which a plate between jaws buckles, N: pi^2 E h^2/(12 (1 - nu^2) L^2) x width x h, L
 * between the jaws. */
double bite_workholding_buckling(double modulus, double poisson, double thickness, double between,
                                 double width);

/** How much a plate is compressed between jaws, m, and expands again afterwards: F L/(E b h). */
double bite_workholding_squeeze(double force, double modulus, double thickness, double between,
                                double width);

/** Probability that a load exceeds a capacity, both lognormal about their best estimates: Phi(ln
 * utilization/scatter). scatter: standard deviation of the logarithm of their ratio, > 0. */
double bite_workholding_chance(double utilization, double scatter);

/** Cure of cyanoacrylate to handling, s, over the gap, m: 10 s without one, 600 s at 0.127 mm
 * (Handbook of Adhesive Technology, ethyl, steel on steel, no activator), linear in the logarithm
 * between and beyond, up to a day. */
double bite_workholding_cure(double gap);

#endif
