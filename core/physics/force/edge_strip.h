/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An edge whose radius and arc of contact differ with the height, in strips: a corner radius, a
 * ball, a cone.
 *
 * `away` is the angle between the edge and the wall that the cut finishes: phi in conventional
 * milling, pi - phi in climb milling. An edge of radius r has gone r (1 - cos(away)) into the
 * stock. It is in contact if the stock is wider, w, and if sin(away) is not negative or, with
 * runout, at least that at which the tooth touches: the former is a margin that is smooth in the
 * height and found at both ends and in the middle of a strip, the latter an interval of angles.
 * The part of a strip between both is in contact, so that forces change continuously as an edge
 * enters or leaves. Over this part the angle is linear, and the products of its sine and cosine
 * have means in closed form, here in powers of half of the angle: with the margin's three values
 * the error is of the fourth order of the width of the strips. Derived here.
 *
 * On a corner radius rc, at the entering angle kappa (0 at the tip, pi/2 on the cylinder), the edge
 * has the radius r = R - rc + rc sin(kappa) and cuts a chip of h sin(kappa) over db =
 * dz/sin(kappa): dFt = (K h + Ke/sin kappa) dz. The force normal to the edge splits into a radial
 * part, times sin(kappa), and one that lifts the tool and presses on the part, times cos(kappa)
 * (Lee and Altintas 1996; memory, re-derived).
 */
#ifndef BITE_PHYSICS_FORCE_EDGE_STRIP_H
#define BITE_PHYSICS_FORCE_EDGE_STRIP_H

#include "core/base/lane_math.h"

/** Part of a strip, as fractions of it from its middle, -1/2 to 1/2; from > to: none. */
typedef struct bite_strip_part {
    double from;
    double to;
} bite_strip_part;

/** The part of a strip where sin(away) is at least that at which the tooth touches. middle: angle
 * of its middle, rad, whole turns more or less; per_turn: strips in a radian; reach: pi/2 less the
 * angle at which the tooth touches, rad. */
BITE_FORMULA bite_strip_part bite_strip_touching(double middle, double per_turn, double reach)
{
    double before = 0.5 * M_PI - middle;
    before -= 2.0 * M_PI * rint(before * (0.5 / M_PI));
    double centre = before * per_turn;
    double half = fabs(reach * per_turn);
    bite_strip_part part = {bite_larger(-0.5, centre - half), bite_smaller(0.5, centre + half)};
    return part;
}

/** Where a margin is 0 between its values at both ends of an interval, 0 to 1: by a straight line,
 * and from there by its bend, half of the second difference of three values of the interval's
 * length apart. */
BITE_FORMULA double bite_strip_zero(double from, double to, double bend)
{
    double per_fall = 1.0 / (from - to);
    double zero = from * per_fall;
    zero -= bend * zero * (1.0 - zero) * per_fall;
    return bite_within(zero, 0.0, 1.0);
}

/** The part of a strip where the margin of the width is not negative, from its values at the lower
 * end, in the middle and at the upper end. An edge that is within the stock in the middle alone
 * crosses the wall below or above it, where it stops touching, and leaves on the other side: above
 * the middle if the upper end is ahead. */
BITE_FORMULA bite_strip_part bite_strip_inside(double low, double middle, double high, double turn)
{
    double bend = 0.5 * (low + high) - middle;
    double across = low < 0.0 ? high : -high; /* not negative: one end is inside */
    double within = low < 0.0 ? -middle : middle;
    double side = across >= 0.0 ? within : turn;
    double from = side < 0.0 ? low : middle;
    double to = side < 0.0 ? middle : high;
    double zero = 0.5 * bite_strip_zero(from, to, bend) + (side < 0.0 ? -0.5 : 0.0);
    double below = across >= 0.0 ? -1.0 : turn;
    double above = across >= 0.0 ? 1.0 : turn;
    double start = below < 0.0 ? zero : -0.5;
    double end = above < 0.0 ? 0.5 : zero;
    double none = bite_larger(low, bite_larger(middle, high));
    start = low < 0.0 ? start : -0.5;
    bite_strip_part part = {none < 0.0 ? 0.5 : start, high < 0.0 ? end : 0.5};
    return part;
}

/** Means over a part of a strip. */
typedef struct bite_strip_means {
    double sine; /* of the angle */
    double cosine;
    double sine_sine;
    double sine_cosine;
    double middle; /* sine in the middle of the part */
} bite_strip_means;

/** sine, cosine: of the middle of the strip; turn: from there to the middle of the part, rad, less
 * than a quarter of a turn; half: half of the angle of the part, rad. */
BITE_FORMULA bite_strip_means bite_strip_means_of(double sine, double cosine, double turn,
                                                  double half)
{
    double square = turn * turn;
    double turn_sine = turn * (1.0 + square * (-1.0 / 6.0 + 1.0 / 120.0 * square));
    double turn_cosine = 1.0 + square * (-0.5 + square * (1.0 / 24.0 - 1.0 / 720.0 * square));
    double own_sine = sine * turn_cosine + cosine * turn_sine;
    double own_cosine = cosine * turn_cosine - sine * turn_sine;
    double wide = half * half;
    double one = 1.0 - 1.0 / 6.0 * wide;                 /* sin(half)/half */
    double two = wide * (1.0 / 3.0 - 1.0 / 15.0 * wide); /* (1 - sin(2 half)/(2 half))/2 */
    double squares = own_sine * own_sine;
    bite_strip_means means = {
        .sine = own_sine * one,
        .cosine = own_cosine * one,
        .sine_sine = squares + (own_cosine * own_cosine - squares) * two,
        .sine_cosine = own_sine * own_cosine * (1.0 - 2.0 * two),
        .middle = own_sine,
    };
    return means;
}

/** Share of a strip's integral that lies in a part of it, of a density that is linear along it.
 * rise: the density's increase over the strip, over its mean. */
BITE_FORMULA double bite_strip_share(double length, double middle, double rise)
{
    return length * (1.0 + rise * middle);
}

/** The chip of one hinge at a sine, from its constants in m; 0 below the sine `at`. */
BITE_FORMULA double bite_strip_chip(double slope, double offset, double at, double sine)
{
    double h = slope * sine + offset;
    return sine >= at ? h : 0.0;
}

/** The thickest chip that a tooth may cut where the geometric one is h, over h: bite_chip_peak. 1
 * where there is no chip. least: h_min, m. */
BITE_FORMULA double bite_strip_thicker(double h, double least)
{
    double factor = bite_larger(h, bite_smaller(h + least, 2.0 * least)) / h;
    return h > 0.0 ? factor : 1.0;
}

/** Largest sine over an arc that begins at the wall, from sin(span/2). */
BITE_FORMULA double bite_strip_sine_most(double half_sine)
{
    double square = bite_smaller(0.5, half_sine * half_sine);
    return 2.0 * sqrt(square * (1.0 - square));
}

#endif
