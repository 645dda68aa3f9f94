/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The thickness of the chip of each tooth as pieces over the arc, runout included.
 *
 * h_j(phi) = max(0, min over m = 1..z of [m fz sin phi + R_j - R_(j-m)]), R_j = R + TIR/2
 * cos(lambda - 2 pi j/z), lambda placed for the worst pair of neighbours (Kline and DeVor 1983;
 * memory). Over the arc this is a chain of pieces h = slope sin phi + offset.
 */
#ifndef BITE_TESTS_ORACLE_CHIP_PIECES_H
#define BITE_TESTS_ORACLE_CHIP_PIECES_H

#include "core/physics/geometry/chip_thickness.h"
#include "core/physics/geometry/engagement.h"
#include "core/physics/geometry/runout_envelope.h"
#include "tests/oracle/closed_forms/angle_sum.h"
#include "tests/support/test_engagement.h"

/* Pieces of all teeth together. Line m of a tooth is the surface that the m-th tooth before it has
 * left. As sin phi grows, teeth that did not touch begin to, and never cease; each then replaces
 * another in the chip of exactly one tooth, the next behind it that touches. So all teeth have at
 * most 2 z - 1 lines, and a tooth of n lines has 2 n - 1 pieces, mirrored over the arc: 3 z - 2.
 * Two more are for ties that rounding decides both ways. */
#define BITE_PIECES_MAX (3 * BITE_TEETH_MAX)

typedef struct bite_piece {
    double enter; /* phi, rad */
    double leave;
    double slope;  /* m, on sin phi */
    double offset; /* m */
    double enter_sine;
    double enter_cosine;
    double leave_sine;
    double leave_cosine;
} bite_piece;

typedef struct bite_tooth {
    int first;   /* of its pieces among the chip's */
    int count;   /* pieces; 0: this tooth is never in contact */
    double most; /* largest chip thickness, m */
    double arc;  /* angle over which it touches, rad */
    double area; /* integral of h over phi, m rad */
} bite_tooth;

typedef struct bite_chip {
    int flutes;
    int alike;   /* 1: all teeth cut the same (no runout, or one flute): teeth[0] represents all */
    double most; /* of the heavy tooth, m */
    double arc;  /* sum over teeth, rad */
    double area; /* integral of h over phi, of all teeth, m rad */
    double feed_real; /* m: feed of a tooth that really cuts, between fz and z fz */
    int pieces_made;  /* of all teeth, tooth by tooth */
    bite_tooth teeth[BITE_TEETH_MAX];
    bite_piece pieces[BITE_PIECES_MAX];
} bite_chip;

/** Fills chip. 1 <= flutes <= BITE_TEETH_MAX, tooth_feed > 0, runout >= 0. */
void bite_chip_init(bite_chip *chip, bite_arc arc, double tooth_feed, int flutes, double runout);

/** Tooth j (0 to flutes - 1). */
const bite_tooth *bite_chip_tooth(const bite_chip *chip, int j);

/** The pieces of one of its teeth, tooth->count of them, rising. */
const bite_piece *bite_chip_pieces(const bite_chip *chip, const bite_tooth *tooth);

#endif
