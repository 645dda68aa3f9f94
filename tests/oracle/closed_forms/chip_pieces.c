/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chip of each tooth as pieces over the arc, from the runout envelope. */
#include "tests/oracle/closed_forms/chip_pieces.h"
#include <math.h>

/* The arc with the sines and cosines of its ends. */
typedef struct edge_sweep {
    bite_angle enter;
    bite_angle leave;
} edge_sweep;

/* Adds the part of a piece that lies in the arc. */
static void add_piece(bite_chip *chip, bite_tooth *tooth, const edge_sweep *arc, bite_angle enter,
                      bite_angle leave, bite_runout_line line)
{
    enter = arc->enter.at > enter.at ? arc->enter : enter;
    leave = arc->leave.at < leave.at ? arc->leave : leave;
    if (!(leave.at > enter.at) ||
        chip->pieces_made ==
            BITE_PIECES_MAX) { /* more than the maximum are made by rounding alone */
        return;
    }
    bite_piece piece = {enter.at,   leave.at,     line.slope, line.step,
                        enter.sine, enter.cosine, leave.sine, leave.cosine};
    double higher = enter.sine > leave.sine ? enter.sine : leave.sine;
    double sine = enter.at <= 0.5 * M_PI && leave.at >= 0.5 * M_PI ? 1.0 : higher;
    double most = line.slope * sine + line.step;
    chip->pieces[chip->pieces_made++] = piece;
    tooth->count++;
    tooth->arc += leave.at - enter.at;
    tooth->area += line.slope * (enter.cosine - leave.cosine) + line.step * (leave.at - enter.at);
    tooth->most = most > tooth->most ? most : tooth->most;
}

static bite_angle angle_of_sine(double sine)
{
    bite_angle angle = {asin(sine), sine, sqrt((1.0 - sine) * (1.0 + sine))};
    return angle;
}

/* The angle with the same sine on the other side of pi/2. */
static bite_angle mirrored(bite_angle base)
{
    bite_angle angle = {M_PI - base.at, base.sine, -base.cosine};
    return angle;
}

static void form_tooth(bite_chip *chip, bite_tooth *tooth, const edge_sweep *arc,
                       const bite_runout_line *lines, int count)
{
    double from[BITE_TEETH_MAX + 1];
    int which[BITE_TEETH_MAX + 1];
    bite_angle angle[BITE_TEETH_MAX + 1];
    int pieces = bite_runout_envelope(lines, count, from, which);
    tooth->first = chip->pieces_made;
    tooth->count = 0;
    tooth->most = 0.0;
    tooth->arc = 0.0;
    tooth->area = 0.0;
    for (int i = 0; i < pieces; i++) {
        angle[i] = angle_of_sine(from[i]);
    }
    for (int i = 0; i + 1 < pieces; i++) {
        add_piece(chip, tooth, arc, angle[i], angle[i + 1], lines[which[i]]);
    }
    if (pieces > 0) {
        bite_angle last = angle[pieces - 1];
        add_piece(chip, tooth, arc, last, mirrored(last), lines[which[pieces - 1]]);
    }
    for (int i = pieces - 2; i >= 0; i--) {
        add_piece(chip, tooth, arc, mirrored(angle[i + 1]), mirrored(angle[i]), lines[which[i]]);
    }
}

static void form_one(bite_chip *chip, int j, const edge_sweep *arc, double tooth_feed,
                     const double *reach)
{
    bite_runout_line lines[BITE_TEETH_MAX];
    int count = bite_runout_lines(j, chip->alike ? 1 : chip->flutes, tooth_feed, reach, lines);
    form_tooth(chip, &chip->teeth[j], arc, lines, count);
}

void bite_chip_init(bite_chip *chip, bite_arc arc, double tooth_feed, int flutes, double runout)
{
    chip->flutes = flutes;
    chip->alike = flutes == 1 || !(runout > 0.0);
    chip->most = 0.0;
    chip->arc = 0.0;
    chip->area = 0.0;
    chip->pieces_made = 0;
    int shown = chip->alike ? 1 : flutes;
    double times = chip->alike ? flutes : 1.0;
    double reach[BITE_TEETH_MAX];
    edge_sweep swept = {bite_angle_of(arc.enter), bite_angle_of(arc.leave)};
    if (!chip->alike) {
        bite_runout_reach(flutes, runout, reach);
    }
    for (int j = 0; j < shown; j++) {
        form_one(chip, j, &swept, tooth_feed, reach);
        const bite_tooth *tooth = &chip->teeth[j];
        chip->most = fmax(chip->most, tooth->most);
        chip->arc += times * tooth->arc;
        chip->area += times * tooth->area;
    }
    /* z fz divided over the arc that is really cut: fz if all teeth cut alike, z fz if one tooth
     * cuts all of it. */
    double full = flutes * bite_engagement_span(arc);
    chip->feed_real =
        chip->arc > 0.0 ? fmin(flutes * tooth_feed, tooth_feed * full / chip->arc) : tooth_feed;
}

const bite_tooth *bite_chip_tooth(const bite_chip *chip, int j)
{
    return &chip->teeth[chip->alike ? 0 : j];
}

const bite_piece *bite_chip_pieces(const bite_chip *chip, const bite_tooth *tooth)
{
    return chip->pieces + tooth->first;
}
