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
#include <stdint.h>

/** A sum of forces at one instant; N. */
typedef struct bite_load {
    double tangential;
    double x;
    double y;
    double lift; /* on the part, up is positive */
} bite_load;

#define BITE_LOADS 4 /* parts of a load, in the order of bite_load's members */

/** A load as level + rise phi + sine sin phi + cosine cos phi + sine2 sin 2 phi + cosine2 cos 2 phi, each for all its parts. */
typedef struct bite_waves {
    double level[BITE_LOADS];
    double rise[BITE_LOADS];
    double sine[BITE_LOADS];
    double cosine[BITE_LOADS];
    double sine2[BITE_LOADS];
    double cosine2[BITE_LOADS];
} bite_waves;

/** One piece of a tooth's chip. What the tooth has met from angle 0 on is, within the piece, level + the piece's antiderivative. */
typedef struct bite_force_piece {
    double enter;
    double leave;
    double cut_t; /* N/m on sin phi */
    double edge_t;
    double cut_r;
    double edge_r;
    double cut_a;
    double edge_a;
    double level[BITE_LOADS]; /* N rad / m */
    double after[BITE_LOADS]; /* met up to leave */
} bite_force_piece;

typedef struct bite_force_tooth {
    int count;
    double total[BITE_LOADS]; /* over the whole arc; N rad / m */
    bite_force_piece pieces[BITE_PIECES_MOST];
} bite_force_tooth;

/** An end of the integral along a tooth's edge, at the tip or at ap: it trails phi by an angle. */
typedef struct bite_force_end {
    double behind; /* rad */
    double sine;   /* of behind, and of twice it */
    double cosine;
    double sine2;
    double cosine2;
    double scale; /* +-R/tan(beta), m/rad */
} bite_force_end;

#define BITE_KINKS_MOST (2 * BITE_TEETH_MOST * (BITE_PIECES_MOST + 1) + 1)

/** A tip angle at which an end crosses the border of a piece: there the load bends. */
typedef struct bite_force_kink {
    double at;        /* rad, 0 to period */
    int16_t end;      /* -1: none */
    int16_t piece;    /* in which, or behind which, the end then stands; -1: before the first */
    int16_t inside;   /* 1: in it */
    int16_t turns;    /* how often the end has gone round then */
    double side_y[6]; /* the side force along y from here to the next kink: level, rise, sine, cosine, sine2, cosine2 */
} bite_force_kink;

/** Largest sum of tangential forces, largest |(Fx, Fy)|, and the lift of largest magnitude, over a turn. */
typedef struct bite_force_peaks {
    double tangential;
    double side;
    double lift;
} bite_force_peaks;

typedef struct bite_force {
    int flutes;
    int alike;
    int ends;      /* two a tooth */
    int kinks;     /* rising; the first is at 0 */
    double depth;  /* ap, m */
    double lag;    /* tan(beta)/R, rad/m; never 0 */
    double period; /* rad, after which the load repeats */
    bite_load mean;
    bite_force_peaks peaks;
    bite_force_end end[2 * BITE_TEETH_MOST];
    bite_force_kink kink[BITE_KINKS_MOST];
    bite_force_tooth teeth[BITE_TEETH_MOST];
} bite_force;

/** Prepares the forces of a chip: its means and peaks over a turn, and the spans between kinks. helix in rad; 0 is taken as the
 * straight flute's limit. */
void bite_force_form(bite_force *force, const bite_chip *chip, const bite_pressure *pressure, double depth, double diameter,
                     double helix);

/** Sum over the teeth when the tip of tooth 0 stands at phi. */
bite_load bite_force_at(const bite_force *force, double phi);

/** A stretch of tip angles between two kinks. */
typedef struct bite_force_span {
    int kink;    /* where it begins */
    double away; /* rad, whole periods */
    double end;  /* rad */
} bite_force_span;

/** The span that holds phi or begins there; any phi. */
bite_force_span bite_force_span_at(const bite_force *force, double phi);

/** The side force along y at phi, N, of a span that holds it or ends there. */
double bite_force_side_y(const bite_force *force, bite_force_span span, double phi);

#endif
