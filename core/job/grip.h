/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What cutting does to what holds the part, and what holding does to the part. SI. */
#ifndef BITE_JOB_GRIP_H
#define BITE_JOB_GRIP_H

/** Forces on a rigid part over a rectangular bond. */
typedef struct bite_grip_load {
    double side;   /* N, along `along` */
    double lift;   /* N, up is positive */
    double height; /* m, of the side force over the bond */
    double arm;    /* m, of the side force about the bond's middle, in its plane */
} bite_grip_load;

/** Stresses in the bond, Pa. */
typedef struct bite_grip_stress {
    double shear; /* F/A */
    double pull;  /* Fz/A; nothing where the tool presses down */
    double tilt;  /* 6 F H/(b L^2) at the edge, L along the force */
    double twist; /* T r/J at the corner */
} bite_grip_stress;

/** Of a bond `along` by `across`. */
bite_grip_stress bite_grip_stresses(double along, double across, const bite_grip_load *load);

/** Use of the bond: sqrt((shear + twist)^2/shear_strength^2 + (pull + tilt)^2/pull_strength^2) x safety; at most 1 holds. The form
 * of the sphere of Yao and others 2020 (memory). */
double bite_grip_use(const bite_grip_stress *stress, double shear_strength, double pull_strength, double safety);

/** Force on each width of the edge that is lifted, N/m: half of the lift, and of the tilting moment F H what a triangle of stress
 * over half the length carries, 3 F H/(2 L) (estimate). Tape gives way there first, by its peel. */
double bite_grip_peel(double along, double across, const bite_grip_load *load);

/** Side force that a vacuum plate holds by friction, N: mu (p A - lift); not under 0. */
double bite_grip_vacuum(double pressure, double area, double friction, double lift);

/** Sag of a plate over a groove that it is sucked into: p g^4/(384 D), edges clamped. */
double bite_grip_groove(double pressure, double groove, double rigidity);

/** Force at which a plate between jaws buckles, N: pi^2 E h^2/(12 (1 - nu^2) L^2) x width x h, L between the jaws. */
double bite_grip_buckling(double modulus, double poisson, double thickness, double between, double width);

/** How much a plate between jaws is pressed together, and grows back by: F L/(E b h). */
double bite_grip_squeeze(double force, double modulus, double thickness, double between, double width);

/** Slip at the edge of a part on a plate of another expansion: (a1 - a2) dT r, r from the middle. */
double bite_grip_slip(double expansion, double plate_expansion, double warmer, double from_middle);
/** Stress in the part where the bond does not slip: E (a1 - a2) dT/(1 - nu). */
double bite_grip_mismatch(double modulus, double poisson, double expansion, double plate_expansion, double warmer);

/** Share of its strength that a bond keeps when warm: all of it at the room's temperature, half at the limit above which it lets
 * go, straight between, a quarter at least (estimate: thermoplastic adhesives lose strength towards their limit; cyanoacrylate
 * keeps 40 to 70 % at 100 degC, memory). Temperatures in K; a NaN keeps all. */
double bite_grip_warm(double temperature, double room, double limit);

/** Cure of cyanoacrylate to handling, s, over the gap, m: 10 s without one, 600 s at 0.127 mm (Handbook of Adhesive Technology,
 * ethyl, steel on steel, no activator), straight in the logarithm between and beyond, up to a day. */
double bite_grip_cure(double gap);

#endif
