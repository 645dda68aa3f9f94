/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The chip of a tooth as a sum of hinge functions of the sine of its angle.
 *
 * The chip that a tooth cuts is the lowest of the lines of core/physics/geometry/runout_envelope.h:
 * a concave function of s = sin phi that consists of straight pieces. Such a function is a sum of
 * terms that are 0 up to a point and a straight line from there on:
 *
 *     h(s) = sum over i of (slope_i fz s + offset_i TIR), for s >= at_i TIR/fz
 *
 * All lines are proportional to fz or to TIR, so that slopes, offsets and points depend on the
 * number of flutes alone. They are computed once; a cut only scales them. Every cut then has the
 * same number of terms, whatever its runout, and a term has one interval of angles, symmetric about
 * pi/2, where a piece has two.
 */
#ifndef BITE_PHYSICS_GEOMETRY_CHIP_HINGES_H
#define BITE_PHYSICS_GEOMETRY_CHIP_HINGES_H

#include "core/base/lane_math.h"
#include "core/physics/geometry/chip_thickness.h"

typedef struct bite_chip_hinge {
    double at;
    double slope;
    double offset;
} bite_chip_hinge;

/** The hinges of all teeth. The first hinge of a tooth is where it first touches the work. */
typedef struct bite_chip_hinges {
    int flutes;                    /* 0: not filled yet */
    int alike;                     /* 1: without runout, or of one flute */
    int teeth;                     /* that differ: 1 if all cut alike */
    int longest;                   /* the tooth that reaches farthest and finishes the walls */
    int first[BITE_TEETH_MAX + 1]; /* of each tooth, and the total */
    bite_chip_hinge hinge[BITE_TEETH_MAX * BITE_TEETH_MAX];
} bite_chip_hinges;

/** Fills the hinges for a number of flutes, 1 to BITE_TEETH_MAX. alike: without runout, so that all
 * teeth cut alike: one tooth stands for all of them. */
void bite_chip_hinges_init(bite_chip_hinges *hinges, int flutes, int alike);

/** An angle with its sine and cosine, as bite_angle. */
typedef struct bite_turned {
    double at; /* rad */
    double sine;
    double cosine;
} bite_turned;

/** The sum of two angles, by the addition theorems. */
BITE_FORMULA bite_turned bite_turned_sum(bite_turned a, bite_turned b)
{
    bite_turned sum = {a.at + b.at, a.sine * b.cosine + a.cosine * b.sine,
                       a.cosine * b.cosine - a.sine * b.sine};
    return sum;
}

/** The angle, or the end of the interval that it lies beyond. */
BITE_FORMULA bite_turned bite_turned_within(bite_turned angle, bite_turned low, bite_turned high)
{
    int below = angle.at < low.at;
    int above = angle.at > high.at;
    bite_turned within = {below   ? low.at
                          : above ? high.at
                                  : angle.at,
                          below   ? low.sine
                          : above ? high.sine
                                  : angle.sine,
                          below   ? low.cosine
                          : above ? high.cosine
                                  : angle.cosine};
    return within;
}

/** The angle, 0 to pi/2, from which a hinge counts. ratio: TIR/fz. A hinge that is never reached
 * starts at pi/2, where its interval is empty. */
BITE_FORMULA bite_turned bite_chip_hinge_start(double at, double ratio)
{
    double sine = bite_smaller(1.0, at * ratio);
    bite_turned start = {asin(sine), sine, sqrt((1.0 - sine) * (1.0 + sine))};
    return start;
}

/** The chip of one hinge at a sine; 0 before it. feed: fz, m; runout: TIR, m. */
BITE_FORMULA double bite_chip_hinge_thickness(bite_chip_hinge hinge, double feed, double runout,
                                              double sine)
{
    double h = hinge.slope * feed * sine + hinge.offset * runout;
    return sine * feed >= hinge.at * runout ? h : 0.0;
}

#endif
