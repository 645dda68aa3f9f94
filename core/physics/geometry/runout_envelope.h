/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The runout envelope of a tooth: which of the teeth before it left the surface that it cuts.
 *
 * With radial runout tooth j has the radius R_j = R + TIR/2 cos(lambda - 2 pi j/z), lambda placed
 * for the worst pair of neighbours (Kline and DeVor 1983; memory). Seen from tooth j, the m-th
 * tooth before it left the line h = m fz s + R_j - R_(j-m), s = sin phi; the chip is the lowest of
 * these lines, and 0 where that is negative.
 */
#ifndef BITE_PHYSICS_GEOMETRY_RUNOUT_ENVELOPE_H
#define BITE_PHYSICS_GEOMETRY_RUNOUT_ENVELOPE_H

/** h = slope s + step. m */
typedef struct bite_runout_line {
    double slope;
    double step;
} bite_runout_line;

/** Fills by how much each tooth's radius differs from the mean, m. runout: TIR, m. */
void bite_runout_reach(int flutes, double runout, double *reach);

/** Fills the lines of tooth j */
int bite_runout_lines(int j, int flutes, double tooth_feed, const double *reach,
                      bite_runout_line *lines);

/** The pieces of the envelope over s in 0..1: from[i], at which s it begins, and which[i], its
 * line. Returns their count, at most count + 1; from[0] is where the tooth first touches. 0: it
 * never does. */
int bite_runout_envelope(const bite_runout_line *lines, int count, double *from, int *which);

#endif
