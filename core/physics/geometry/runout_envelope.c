/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The runout envelope: the lower envelope of the surfaces that the teeth before one have left. */
#include "core/physics/geometry/runout_envelope.h"
#include <math.h>

void bite_runout_reach(int flutes, double runout, double *reach)
{
    double turn = 2.0 * M_PI / flutes;
    double lambda = 0.5 * M_PI - 0.5 * turn;
    for (int j = 0; j < flutes; j++) {
        reach[j] = 0.5 * runout * cos(lambda - turn * j);
    }
}

int bite_runout_lines(int j, int flutes, double tooth_feed, const double *reach,
                      bite_runout_line *lines)
{
    for (int m = 1; m <= flutes; m++) {
        lines[m - 1].slope = m * tooth_feed;
        lines[m - 1].step = m == flutes ? 0.0 : reach[j] - reach[j >= m ? j - m : j - m + flutes];
    }
    return flutes;
}

/* The lowest line at s; of equal lines the flatter one, which stays lowest. Lines that differ by
 * rounding alone count as equal: otherwise the steeper of two lines that intersect at s might be
 * chosen. */
static int lowest(const bite_runout_line *lines, int count, double s)
{
    int best = 0;
    double tolerance = 1e-12 * lines[count - 1].slope;
    for (int m = 1; m < count; m++) {
        double gap = (lines[m].slope - lines[best].slope) * s + (lines[m].step - lines[best].step);
        if (gap < -tolerance || (gap <= tolerance && lines[m].slope < lines[best].slope)) {
            best = m;
        }
    }
    return best;
}

/* Where a flatter line falls below the current one, at s or after; above 1 if none does. The
 * current line is the lowest at s, so a crossing before s is due to rounding alone and counts as s.
 */
static double next_change(const bite_runout_line *lines, int count, int now, double s, int *next)
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

int bite_runout_envelope(const bite_runout_line *lines, int count, double *from, int *which)
{
    double s = 0.0;
    for (int m = 0; m < count; m++) {
        double touches = -lines[m].step / lines[m].slope;
        s = touches > s ? touches : s;
    }
    if (s >= 1.0) {
        return 0;
    }
    int pieces = 0;
    int now = lowest(lines, count, s);
    while (s < 1.0 && pieces <= count) {
        from[pieces] = s;
        which[pieces] = now;
        pieces++;
        int next = now;
        s = next_change(lines, count, now, s, &next);
        now = next;
    }
    return pieces;
}
