/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Forces of a square end mill, linear edge model, integrated along the helix in closed form.
 *
 * dFt = (K h + Ke) db and so on; Fx = -Ft cos - Fr sin, Fy = Ft sin - Fr cos, on the tool, phi from +y (Budak, Altintas and
 * Armarego 1996; memory, re-derived). An edge at height zc has phi = phi_tip - zc tan(beta)/R, so that db = -(R/tan beta) dphi and
 * the force of a tooth is the difference of antiderivatives between clipped limits: no slices, no slice noise.
 */
#ifndef BITE_CUT_FORCE_H
#define BITE_CUT_FORCE_H

#include "core/cut/chip.h"
#include "core/cut/pressure.h"

/** A sum of forces at one instant; N. */
typedef struct bite_load {
    double tangential;
    double x;
    double y;
    double lift; /* on the part, up is positive */
} bite_load;

/** The antiderivatives of one piece, ready to evaluate. */
typedef struct bite_force_piece {
    double enter;
    double leave;
    double cut_t; /* N/m on sin phi */
    double edge_t;
    double cut_r;
    double edge_r;
    double cut_a;
    double edge_a;
    bite_load before; /* of the pieces before this one, less the antiderivative at enter; N rad / m */
    bite_load after;  /* of all pieces up to and with this one */
} bite_force_piece;

typedef struct bite_force_tooth {
    int count;
    bite_load total; /* over the whole arc; N rad / m */
    bite_force_piece pieces[BITE_PIECES_MOST];
} bite_force_tooth;

typedef struct bite_force {
    int flutes;
    int alike;
    double depth; /* ap, m */
    double lag;   /* tan(beta)/R, rad/m; never 0 */
    bite_load mean;
    bite_force_tooth teeth[BITE_TEETH_MOST];
} bite_force;

/** Prepares the forces of a chip and computes the means over a turn. helix in rad; 0 is taken as the straight flute's limit. */
void bite_force_form(bite_force *force, const bite_chip *chip, const bite_pressure *pressure, double depth, double diameter,
                     double helix);

/** Sum over the teeth when the tip of tooth 0 stands at phi. */
bite_load bite_force_at(const bite_force *force, double phi);

/** Largest sum of tangential forces, largest |(Fx, Fy)|, and the lift of largest magnitude, over a turn. */
typedef struct bite_force_peaks {
    double tangential;
    double side;
    double lift;
} bite_force_peaks;
bite_force_peaks bite_force_peak(const bite_force *force);

#endif
