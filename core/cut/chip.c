/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The chip of each tooth: the lower envelope of what the teeth before it have left, as pieces over the arc. */
#include "core/cut/chip.h"
#include <math.h>

/* What tooth j meets from the m-th tooth before it: h = m fz s + step, s = sin phi. */
typedef struct line {
    double slope;
    double step;
} line;

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

static void add_piece(bite_tooth *tooth, bite_arc arc, double enter, double leave, line of)
{
    enter = fmax(enter, arc.enter);
    leave = fmin(leave, arc.leave);
    if (!(leave > enter)) {
        return;
    }
    bite_piece piece = {enter, leave, of.slope, of.step};
    tooth->pieces[tooth->count++] = piece;
    tooth->arc += leave - enter;
    tooth->area += of.slope * (cos(enter) - cos(leave)) + of.step * (leave - enter);
    bite_arc part = {enter, leave};
    tooth->most = fmax(tooth->most, of.slope * bite_engage_sine_most(part) + of.step);
}

/* The lowest line at s; of equal ones the flatter, which stays lowest. Equal but for rounding counts as equal: two lines that meet
 * at s would else leave the steeper one standing. */
static int lowest(const line *lines, int count, double s)
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

/* Where a flatter line takes over from the current one, at s or after; above 1 where none does. The current line is the lowest at
 * s, so a crossing that lies before s does so by rounding alone and counts as s. */
static double next_change(const line *lines, int count, int now, double s, int *next)
{
    double at = 2.0;
    for (int m = 0; m < count; m++) {
        if (lines[m].slope < lines[now].slope) {
            double crossing = (lines[m].step - lines[now].step) / (lines[now].slope - lines[m].slope);
            crossing = fmax(crossing, s);
            if (crossing < at || (crossing == at && lines[m].slope < lines[*next].slope)) {
                at = crossing;
                *next = m;
            }
        }
    }
    return at;
}

/* Breaks of the envelope over s in 0..1; returns how many stretches there are, from[0] being where the tooth first touches. */
static int envelope(const line *lines, int count, double *from, int *which)
{
    double s = 0.0;
    for (int m = 0; m < count; m++) {
        s = fmax(s, -lines[m].step / lines[m].slope);
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

static void form_tooth(bite_tooth *tooth, bite_arc arc, const line *lines, int count)
{
    double from[BITE_TEETH_MOST + 1];
    int which[BITE_TEETH_MOST + 1];
    int stretches = envelope(lines, count, from, which);
    tooth->count = 0;
    tooth->most = 0.0;
    tooth->arc = 0.0;
    tooth->area = 0.0;
    for (int i = 0; i + 1 < stretches; i++) {
        add_piece(tooth, arc, asin(from[i]), asin(from[i + 1]), lines[which[i]]);
    }
    if (stretches > 0) {
        double last = asin(from[stretches - 1]);
        add_piece(tooth, arc, last, M_PI - last, lines[which[stretches - 1]]);
    }
    for (int i = stretches - 2; i >= 0; i--) {
        add_piece(tooth, arc, M_PI - asin(from[i + 1]), M_PI - asin(from[i]), lines[which[i]]);
    }
}

static void form_one(bite_chip *chip, int j, bite_arc arc, double tooth_feed, double runout)
{
    line lines[BITE_TEETH_MOST];
    int flutes = chip->alike ? 1 : chip->flutes;
    double turn = 2.0 * M_PI / chip->flutes;
    double lambda = 0.5 * M_PI - 0.5 * turn;
    double here = 0.5 * runout * cos(lambda - turn * j);
    for (int m = 1; m <= flutes; m++) {
        double before = 0.5 * runout * cos(lambda - turn * (j - m));
        lines[m - 1].slope = m * tooth_feed;
        lines[m - 1].step = m == chip->flutes || chip->alike ? 0.0 : here - before;
    }
    form_tooth(&chip->teeth[j], arc, lines, flutes);
}

void bite_chip_form(bite_chip *chip, bite_arc arc, double tooth_feed, int flutes, double runout, double least)
{
    chip->flutes = flutes;
    chip->alike = flutes == 1 || !(runout > 0.0);
    chip->most = 0.0;
    chip->arc = 0.0;
    int shown = chip->alike ? 1 : flutes;
    double times = chip->alike ? flutes : 1.0;
    for (int j = 0; j < shown; j++) {
        form_one(chip, j, arc, tooth_feed, runout);
        const bite_tooth *tooth = &chip->teeth[j];
        chip->most = fmax(chip->most, tooth->most);
        chip->arc += times * tooth->arc;
    }
    /* z fz shared out over the arc that is really cut: fz when all teeth cut alike, z fz when one does all of it. */
    double full = flutes * bite_engage_span(arc);
    chip->feed_real = chip->arc > 0.0 ? fmin(flutes * tooth_feed, tooth_feed * full / chip->arc) : tooth_feed;
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
