/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chip of each tooth: the lower envelope of what the teeth before it have left, as pieces over
 * the arc. */
#include "core/physics/geometry/chip_thickness.h"
#include <math.h>

/* What tooth j meets from the m-th tooth before it: h = m fz s + step, s = sin phi. */
typedef struct chip_line {
    double slope;
    double step;
} chip_line;

double bite_chip_heavy(double tooth_feed, int flutes, double runout)
{
    double step = flutes > 1 ? runout * sin(M_PI / flutes) : 0.0;
    return fmin(flutes * tooth_feed, tooth_feed + step);
}

double bite_chip_light(double tooth_feed, int flutes, double runout)
{
    double step = flutes > 1 ? runout * sin(M_PI / flutes) : 0.0;
    return fmax(0.0, tooth_feed - step);
}

/* The arc with its ends' sines and cosines. */
typedef struct edge_sweep {
    bite_angle enter;
    bite_angle leave;
} edge_sweep;

/* What of a stretch lies in the arc. */
static void add_piece(bite_chip *chip, bite_tooth *tooth, const edge_sweep *arc, bite_angle enter,
                      bite_angle leave, chip_line line)
{
    enter = arc->enter.at > enter.at ? arc->enter : enter;
    leave = arc->leave.at < leave.at ? arc->leave : leave;
    if (!(leave.at > enter.at) ||
        chip->pieces_made == BITE_PIECES_MAX) { /* beyond the most, what rounding alone has made */
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

/* The lowest line at s; of equal ones the flatter, which stays lowest. Equal but for rounding
 * counts as equal: two lines that meet at s would else leave the steeper one standing. */
static int lowest(const chip_line *lines, int count, double s)
{
    int best = 0;
    double hair = 1e-12 * lines[count - 1].slope;
    for (int m = 1; m < count; m++) {
        double gap = (lines[m].slope - lines[best].slope) * s + (lines[m].step - lines[best].step);
        if (gap < -hair || (gap <= hair && lines[m].slope < lines[best].slope)) {
            best = m;
        }
    }
    return best;
}

/* Where a flatter line takes over from the current one, at s or after; above 1 where none does. The
 * current line is the lowest at s, so a crossing that lies before s does so by rounding alone and
 * counts as s. */
static double next_change(const chip_line *lines, int count, int now, double s, int *next)
{
    double at = 2.0;
    for (int m = 0; m < count; m++) {
        if (lines[m].slope < lines[now].slope) {
            double crossing =
                (lines[m].step - lines[now].step) / (lines[now].slope - lines[m].slope);
            crossing = crossing > s ? crossing : s;
            if (crossing < at || (crossing == at && lines[m].slope < lines[*next].slope)) {
                at = crossing;
                *next = m;
            }
        }
    }
    return at;
}

/* Breaks of the envelope over s in 0..1; returns how many stretches there are, from[0] being where
 * the tooth first touches. */
static int envelope(const chip_line *lines, int count, double *from, int *which)
{
    double s = 0.0;
    for (int m = 0; m < count; m++) {
        double touches = -lines[m].step / lines[m].slope;
        s = touches > s ? touches : s;
    }
    if (s >= 1.0) {
        return 0;
    }
    int stretches = 0;
    int now = lowest(lines, count, s);
    while (s < 1.0 && stretches <= count) {
        from[stretches] = s;
        which[stretches] = now;
        stretches++;
        int next = now;
        s = next_change(lines, count, now, s, &next);
        now = next;
    }
    return stretches;
}

static bite_angle angle_of_sine(double sine)
{
    bite_angle angle = {asin(sine), sine, sqrt((1.0 - sine) * (1.0 + sine))};
    return angle;
}

/* The same height of the arc on its other side. */
static bite_angle beyond(bite_angle base)
{
    bite_angle angle = {M_PI - base.at, base.sine, -base.cosine};
    return angle;
}

static void form_tooth(bite_chip *chip, bite_tooth *tooth, const edge_sweep *arc,
                       const chip_line *lines, int count)
{
    double from[BITE_TEETH_MAX + 1];
    int which[BITE_TEETH_MAX + 1];
    bite_angle angle[BITE_TEETH_MAX + 1];
    int stretches = envelope(lines, count, from, which);
    tooth->first = chip->pieces_made;
    tooth->count = 0;
    tooth->most = 0.0;
    tooth->arc = 0.0;
    tooth->area = 0.0;
    for (int i = 0; i < stretches; i++) {
        angle[i] = angle_of_sine(from[i]);
    }
    for (int i = 0; i + 1 < stretches; i++) {
        add_piece(chip, tooth, arc, angle[i], angle[i + 1], lines[which[i]]);
    }
    if (stretches > 0) {
        bite_angle last = angle[stretches - 1];
        add_piece(chip, tooth, arc, last, beyond(last), lines[which[stretches - 1]]);
    }
    for (int i = stretches - 2; i >= 0; i--) {
        add_piece(chip, tooth, arc, beyond(angle[i + 1]), beyond(angle[i]), lines[which[i]]);
    }
}

/* reach: by how much each tooth stands out. */
static void form_one(bite_chip *chip, int j, const edge_sweep *arc, double tooth_feed,
                     const double *reach)
{
    chip_line lines[BITE_TEETH_MAX];
    int flutes = chip->alike ? 1 : chip->flutes;
    for (int m = 1; m <= flutes; m++) {
        lines[m - 1].slope = m * tooth_feed;
        lines[m - 1].step = m == flutes ? 0.0 : reach[j] - reach[j >= m ? j - m : j - m + flutes];
    }
    form_tooth(chip, &chip->teeth[j], arc, lines, flutes);
}

static void fill_reach(const bite_chip *chip, double runout, double *reach)
{
    double turn = 2.0 * M_PI / chip->flutes;
    double lambda = 0.5 * M_PI - 0.5 * turn;
    for (int j = 0; !chip->alike && j < chip->flutes; j++) {
        reach[j] = 0.5 * runout * cos(lambda - turn * j);
    }
}

void bite_chip_init(bite_chip *chip, bite_arc arc, double tooth_feed, int flutes, double runout,
                    double least)
{
    chip->flutes = flutes;
    chip->alike = flutes == 1 || !(runout > 0.0);
    chip->most = 0.0;
    chip->arc = 0.0;
    chip->pieces_made = 0;
    int shown = chip->alike ? 1 : flutes;
    double times = chip->alike ? flutes : 1.0;
    double reach[BITE_TEETH_MAX];
    edge_sweep swept = {bite_angle_of(arc.enter), bite_angle_of(arc.leave)};
    fill_reach(chip, runout, reach);
    for (int j = 0; j < shown; j++) {
        form_one(chip, j, &swept, tooth_feed, reach);
        const bite_tooth *tooth = &chip->teeth[j];
        chip->most = fmax(chip->most, tooth->most);
        chip->arc += times * tooth->arc;
    }
    /* z fz shared out over the arc that is really cut: fz when all teeth cut alike, z fz when one
     * does all of it. */
    double full = flutes * bite_engagement_span(arc);
    chip->feed_real =
        chip->arc > 0.0 ? fmin(flutes * tooth_feed, tooth_feed * full / chip->arc) : tooth_feed;
    bite_chip_sort(chip, least);
}

void bite_chip_sort(bite_chip *chip, double least)
{
    int shown = chip->alike ? 1 : chip->flutes;
    double times = chip->alike ? chip->flutes : 1.0;
    chip->chip_arc = 0.0;
    chip->area = 0.0;
    chip->forming = 0;
    for (int j = 0; j < shown; j++) {
        bite_tooth *tooth = &chip->teeth[j];
        tooth->forms = tooth->most >= least;
        if (tooth->forms) {
            chip->chip_arc += times * tooth->arc;
            chip->area += times * tooth->area;
            chip->forming |= 1U << j;
        }
    }
}

const bite_tooth *bite_chip_tooth(const bite_chip *chip, int j)
{
    return &chip->teeth[chip->alike ? 0 : j];
}

const bite_piece *bite_chip_pieces(const bite_chip *chip, const bite_tooth *tooth)
{
    return chip->pieces + tooth->first;
}
