/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the edges of a square end mill meet at each instant, whatever presses on them: geometry
 * alone.
 *
 * The force on an edge is linear in the constants of the material, dFt = (K h + Ke) dz and so on,
 * and so is any sum of them: six integrals over all that is in contact tell every force, and stay
 * the same where only the constants change. An edge at height zc has theta = phi_tip - zc
 * tan(beta)/R, so that dz = -(R/tan beta) dtheta, and the integral along a tooth's edge is the
 * difference of antiderivatives between clipped limits: no slices, no slice noise (Budak, Altintas
 * and Armarego 1996; memory, re-derived).
 */
#ifndef BITE_PHYSICS_FORCE_EDGE_INTEGRALS_H
#define BITE_PHYSICS_FORCE_EDGE_INTEGRALS_H

#include "core/physics/geometry/chip_thickness.h"
#include <stdint.h>

/** The integrals along the edges: of h dz and of dz, each alone and times sine and cosine of the
 * edge's own angle. m2 and m. */
enum {
    BITE_EDGE_AREA,
    BITE_EDGE_EDGE,
    BITE_EDGE_AREA_SINE,
    BITE_EDGE_AREA_COSINE,
    BITE_EDGE_EDGE_SINE,
    BITE_EDGE_EDGE_COSINE
};
#define BITE_EDGE_TERMS 6

/** The six integrals as sums of waves of an angle: levels first, then what goes with the angle, its
 * cosine and sine, and those of twice the angle. */
#define BITE_EDGE_HARMONICS 18
typedef struct bite_edge_harmonics {
    double coefficient[BITE_EDGE_HARMONICS];
} bite_edge_harmonics;

/** One piece of a tooth's chip. What the tooth has met from angle 0 on is, within the piece, level
 * + the piece's antiderivative. */
typedef struct bite_edge_piece {
    bite_angle enter; /* in the tooth's own angle */
    bite_angle leave;
    double slope; /* m, on sin phi */
    double offset;
    double level[BITE_EDGE_TERMS]; /* for each m that the edge rises in a radian: m rad, and rad */
    double after[BITE_EDGE_TERMS]; /* met up to leave */
} bite_edge_piece;

typedef struct bite_edge_tooth {
    int first; /* of its pieces among those of all */
    int count;
    double total[BITE_EDGE_TERMS]; /* over the whole arc */
} bite_edge_tooth;

/** An end of the integral along a tooth's edge, at the tip or at ap: it trails phi by an angle. */
typedef struct bite_edge_end {
    bite_angle behind;
    double scale; /* +-R/tan(beta), m/rad */
} bite_edge_end;

/* Both ends of an edge cross every border, one more a tooth than it has pieces; and the one at 0.
 */
#define BITE_KINKS_MAX (2 * (BITE_PIECES_MAX + BITE_TEETH_MAX) + 1)

/** A tip angle at which an end crosses the border of a piece: there the load bends. */
typedef struct bite_edge_kink {
    bite_angle angle; /* 0 to period */
    int16_t end;      /* -1: none */
    int16_t piece;    /* in which, or behind which, the end then stands; -1: before the first */
    int16_t inside;   /* 1: in it */
    int16_t turns;    /* how often the end has gone round then */
} bite_edge_kink;

/** A turn's samples: two a kink, and as many as smooth stretches want. */
#define BITE_SAMPLES_MAX (2 * BITE_KINKS_MAX + 22)
#define BITE_SAMPLE_WIDTH 8 /* samples come in whole lanes; the last is repeated */

/** Eight samples side by side: few of a turn's places are ever used, and those lie together. */
typedef struct bite_edge_sample_block {
    double term[BITE_EDGE_TERMS][BITE_SAMPLE_WIDTH];
} bite_edge_sample_block;

typedef struct bite_edge_integrals {
    int flutes;
    int alike;
    int ends;      /* two a tooth */
    int kinks;     /* rising; the first is at 0 */
    int samples;   /* a multiple of the lanes */
    double depth;  /* ap, m */
    double lag;    /* tan(beta)/R, rad/m; never 0 */
    double period; /* rad, after which all repeats */
    double mean[BITE_EDGE_TERMS];
    bite_edge_sample_block
        sample[BITE_SAMPLES_MAX / BITE_SAMPLE_WIDTH + 1]; /* over a period, rising */
    int middles;
    int16_t middle[BITE_SAMPLES_MAX / 2]; /* samples that lie evenly between the one before and the
                                             next, on a stretch without a kink */
    bite_edge_end end[2 * BITE_TEETH_MAX];
    bite_edge_kink kink[BITE_KINKS_MAX];
    bite_edge_harmonics span[BITE_KINKS_MAX]; /* from each kink to the next, in the tip's angle */
    bite_edge_tooth teeth[BITE_TEETH_MAX];
    bite_edge_piece piece[BITE_PIECES_MAX];
} bite_edge_integrals;

/** Prepares what a chip's teeth meet: over a turn, its mean, and the spans between kinks. helix in
 * rad; 0 is taken as the straight flute's limit. */
void bite_edge_integrals_init(bite_edge_integrals *edges, const bite_chip *chip, double depth,
                              double diameter, double helix);

/** A stretch of tip angles between two kinks. */
typedef struct bite_edge_span {
    int kink;    /* where it begins */
    double away; /* rad, whole periods */
    double end;  /* rad */
} bite_edge_span;

/** The span that holds phi or begins there; any phi. */
bite_edge_span bite_edge_span_at(const bite_edge_integrals *edges, double phi);

/** The next one that is not empty, period by period. */
bite_edge_span bite_edge_span_next(const bite_edge_integrals *edges, bite_edge_span span);

/** The integrals at an angle that lies span.away before, of a span that holds it or ends there. */
void bite_edge_within(const bite_edge_integrals *edges, bite_edge_span span,
                      const bite_angle *angle, double met[BITE_EDGE_TERMS]);

#endif
