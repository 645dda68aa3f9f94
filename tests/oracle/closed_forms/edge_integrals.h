/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Integrals along the cutting edges of a square end mill: the geometry of its forces, independent
 * of the material.
 *
 * The force on an edge is linear in the constants of the material, dFt = (K h + Ke) dz and so on,
 * and so is any sum of such forces: six integrals over all edges in contact determine every force,
 * and they don't change if only the constants change. An edge at height zc has theta = phi_tip - zc
 * tan(beta)/R, so that dz = -(R/tan beta) dtheta, and the integral along a tooth's edge is the
 * difference of antiderivatives between clipped limits: no slices, and no noise from slicing
 * (Budak, Altintas and Armarego 1996; memory, re-derived).
 */
#ifndef BITE_TESTS_ORACLE_EDGE_INTEGRALS_H
#define BITE_TESTS_ORACLE_EDGE_INTEGRALS_H

#include "tests/oracle/closed_forms/chip_pieces.h"
#include <stdint.h>

/** The integrals along the edges: of h dz (m2) and of dz (m), each alone and multiplied by the sine
 * and by the cosine of the edge's own angle. */
enum {
    BITE_EDGE_AREA,
    BITE_EDGE_EDGE,
    BITE_EDGE_AREA_SINE,
    BITE_EDGE_AREA_COSINE,
    BITE_EDGE_EDGE_SINE,
    BITE_EDGE_EDGE_COSINE
};
#define BITE_EDGE_TERMS 6

/** The six integrals as trigonometric sums of an angle: constants first, then the coefficients of
 * the angle, of its cosine and sine, and of those of twice the angle. */
#define BITE_EDGE_HARMONICS 18
typedef struct bite_edge_harmonics {
    double coefficient[BITE_EDGE_HARMONICS];
} bite_edge_harmonics;

/** One piece of a tooth's chip. The integrals of the tooth from angle 0 to an angle within the
 * piece are level + the piece's antiderivative. */
typedef struct bite_edge_piece {
    bite_angle enter; /* in the tooth's own angle */
    bite_angle leave;
    double slope; /* m, on sin phi */
    double offset;
    double level[BITE_EDGE_TERMS]; /* integrals over the angle, before scaling: m rad, and rad */
    double after[BITE_EDGE_TERMS]; /* integrals from 0 to leave */
} bite_edge_piece;

typedef struct bite_edge_tooth {
    int first; /* index of its first piece in the array of all teeth */
    int count;
    double total[BITE_EDGE_TERMS]; /* over the whole arc */
} bite_edge_tooth;

/** One end of a tooth's edge, at the tip or at ap. Its angle is the tip angle less `behind`. */
typedef struct bite_edge_end {
    bite_angle behind;
    double scale; /* +-R/tan(beta), m/rad */
} bite_edge_end;

/* Both ends of an edge cross every border, of which a tooth has one more than pieces; and there is
 * one kink at 0. */
#define BITE_KINKS_MAX (2 * (BITE_PIECES_MAX + BITE_TEETH_MAX) + 1)

/** A tip angle at which an end of an edge crosses the border of a piece: the load has a kink there.
 */
typedef struct bite_edge_kink {
    bite_angle angle; /* 0 to period */
    int16_t end;      /* -1: none */
    int16_t piece;    /* the piece that the end is then in or behind; -1: before the first */
    int16_t inside;   /* 1: in the piece; 0: behind it */
    int16_t turns;    /* whole turns of the end by then */
} bite_edge_kink;

/** Samples of a turn: two for each kink, and as many as the smooth intervals need. */
#define BITE_SAMPLES_MAX (2 * BITE_KINKS_MAX + 22)
#define BITE_SAMPLE_WIDTH 8 /* samples fill whole SIMD blocks; the last one is repeated */

/** Eight samples, term by term: few of a turn's samples are ever used, and these stay adjacent in
 * memory. */
typedef struct bite_edge_sample_block {
    double term[BITE_EDGE_TERMS][BITE_SAMPLE_WIDTH];
} bite_edge_sample_block;

typedef struct bite_edge_integrals {
    int flutes;
    int alike;
    int ends;      /* two for each tooth */
    int kinks;     /* in rising order; the first is at 0 */
    int samples;   /* a multiple of BITE_SAMPLE_WIDTH */
    double depth;  /* ap, m */
    double lag;    /* tan(beta)/R, rad/m; never 0 */
    double period; /* rad, after which the integrals repeat */
    double mean[BITE_EDGE_TERMS];
    bite_edge_sample_block
        sample[BITE_SAMPLES_MAX / BITE_SAMPLE_WIDTH + 1]; /* over a period, in rising order */
    int middles;
    int16_t middle[BITE_SAMPLES_MAX / 2]; /* samples midway between their neighbours, within an
                                             interval without a kink */
    bite_edge_end end[2 * BITE_TEETH_MAX];
    bite_edge_kink kink[BITE_KINKS_MAX];
    bite_edge_harmonics
        span[BITE_KINKS_MAX]; /* from each kink to the next, as functions of the tip angle */
    bite_edge_tooth teeth[BITE_TEETH_MAX];
    bite_edge_piece piece[BITE_PIECES_MAX];
} bite_edge_integrals;

/** Computes the integrals of a chip's teeth: samples over a turn, their mean, and the harmonics
 * between kinks. helix in rad; 0 is computed as the limit of a small helix angle. */
void bite_edge_integrals_init(bite_edge_integrals *edges, const bite_chip *chip, double depth,
                              double diameter, double helix);

/** An interval of tip angles between two kinks. */
typedef struct bite_edge_span {
    int kink;    /* index of the kink at which it begins */
    double away; /* rad, whole periods */
    double end;  /* rad */
} bite_edge_span;

/** The span that contains phi or begins there, for any phi. */
bite_edge_span bite_edge_span_at(const bite_edge_integrals *edges, double phi);

/** The next span that is not empty; the last one of a period is followed by the first of the next.
 */
bite_edge_span bite_edge_span_next(const bite_edge_integrals *edges, bite_edge_span span);

/** The integrals at a tip angle within a span or at its end. angle: the tip angle less span.away.
 */
void bite_edge_within(const bite_edge_integrals *edges, bite_edge_span span,
                      const bite_angle *angle, double integrals[BITE_EDGE_TERMS]);

#endif
