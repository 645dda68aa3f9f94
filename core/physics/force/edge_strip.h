/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An edge whose radius and arc of contact differ with the height, in strips: a corner radius, a
 * ball, a cone.
 *
 * `away` is the angle between the edge and the wall that the cut finishes: phi in conventional
 * milling, pi - phi in climb milling. An edge of radius r has gone r (1 - cos(away)) into the
 * stock, and is in contact if the stock is wider, w, and if sin(away) is not negative or, with
 * runout, at least that at which the tooth touches. Both are margins, that of the width linear in
 * the height of a cone; within a strip they are taken to be linear, so that a strip is in contact
 * between two fractions of it, and forces change continuously as an edge enters or leaves. The
 * error is proportional to the square of the width of the strips, and 0 for a cone without helix.
 * Derived here.
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

/** Part of a strip, as fractions of it from its lower end; from > to: none. */
typedef struct bite_strip_part {
    double from;
    double to;
} bite_strip_part;

/** The part of a strip where a margin is not negative, from its values at both ends. */
BITE_FORMULA bite_strip_part bite_strip_part_of(double low, double high)
{
    double zero = bite_within(low / (low - high), 0.0, 1.0);
    bite_strip_part part = {low < 0.0 ? zero : 0.0, high < 0.0 ? zero : 1.0};
    return part;
}

/** Share of a strip's integral that lies in a part of it, of a density that is linear along it.
 * rise: the density's increase over the strip, over its mean. */
BITE_FORMULA double bite_strip_share(double length, double middle, double rise)
{
    return length * (1.0 + rise * (middle - 0.5));
}

/** The sine and cosine between two ends of a strip are interpolated linearly, and so too small by
 * the chord's distance from the arc: the factor that corrects their mean over a part. bow: the
 * square of the angle between the ends, over 24. */
BITE_FORMULA double bite_strip_bow(double bow, double length, double middle)
{
    return 1.0 + bow * (12.0 * middle * (1.0 - middle) - length * length);
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
