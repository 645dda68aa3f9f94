/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Count of the waves that grow from tooth to tooth at several loads at once: the half turns of the
 * determinant while the turn runs from 0 to pi (the argument principle).
 */
#ifndef BITE_PHYSICS_DYNAMICS_WAVE_SCAN_H
#define BITE_PHYSICS_DYNAMICS_WAVE_SCAN_H

#include "core/physics/dynamics/wave_polynomial.h"
#include <stdbool.h>

#define BITE_SCAN_TURNS 160

/** What the determinants are computed from. */
typedef struct bite_wave_source {
    const bite_arc_waves *waves;
    const bite_wave_polynomial *polynomial; /* NULL: the matrices themselves */
    double unit;                            /* of the loads, N/m */
    bite_lane_matrices *matrices;           /* working memory */
} bite_wave_source;

/** Determinants along the turns from 0 to pi at BITE_WAVE_LANES loads, in the unit. */
typedef struct bite_wave_scan {
    int count;
    int last; /* the turn of half a turn */
    bite_wave_turn turn[BITE_SCAN_TURNS];
    int next[BITE_SCAN_TURNS];                  /* the turn that follows; -1: none */
    bite_lane_vector value[BITE_SCAN_TURNS][2]; /* times |poles|^2 */
    bite_lane_vector coefficient[BITE_WAVE_POWERS];
    double load[BITE_WAVE_LANES];
    int growing[BITE_WAVE_LANES]; /* waves, or pairs of them count as two */
} bite_wave_scan;

/** Turns to begin with: a few, and some about the resonance of each mode. */
void bite_wave_scan_set(const bite_wave_source *source, bite_wave_scan *scan);

/** Counts at the scan's loads. Turns are added where the phase of a determinant changes too fast to
 * be followed; where it cannot be followed even between close ones, two waves are at their limit.
 */
void bite_wave_scan_count(const bite_wave_source *source, bite_wave_scan *scan);

/** Whether at some load below one the determinant, which is 1 without a load, is smaller than a
 * share somewhere. */
bool bite_wave_scan_is_close(const bite_wave_scan *scan, double least_load, double share);

#endif
