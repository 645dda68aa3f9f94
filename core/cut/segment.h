/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All numbers of one stretch of the path: the straight, or an inside corner. */
#ifndef BITE_CUT_SEGMENT_H
#define BITE_CUT_SEGMENT_H

#include "core/physics/dynamics/semi_discretization.h"
#include "core/physics/dynamics/stability_lobes.h"
#include "core/physics/elastic/tool_deflection.h"
#include "core/physics/force/corner_radius_mill.h"
#include "core/physics/force/square_end_mill.h"
#include "core/physics/geometry/chip_thickness.h"
#include "core/physics/geometry/engagement.h"
#include <coolbite/coolbite.h>

typedef struct bite_segment {
    double value[BITE_VALUE_COUNT]; /* SI; NaN: no data */
    double heat_share[4];           /* chip, tool, part, stored */
    double compliance;              /* of tool and machine at the load, m/N */
    double heavy_chip;              /* largest chip of the heavy tooth, m */
    double thin_chip;               /* of a chamfer: its largest chip near the thin end, m */
    double torque_mean;             /* N m */
    double engaged;                 /* ae/D, 1 in a slot; of a chamfer at its largest radius */
    double packing;                 /* ap/D x engagement share, before the limit */
    double heat_power;              /* W, by the heat model's own sums */
    double energy_gap; /* (power - chip - tool - part - stored)/power of the heat model */
} bite_segment;

/** The tool as a fin and as a rod that rings, each with all that it hangs on: the same on the
 * straight, in the corner and on the way in. */
typedef struct bite_fin_cache {
    bite_shaft shaft;
    double conductivity;
    double transfer;
    double resistance;
    double air_share;
    bite_shaft rod;
    double modulus;
    double density;
    double frequency; /* Hz */
} bite_fin_cache;

/** What a chip's edges meet, with all that it hangs on beside the chip: which teeth form may go to
 * and fro from draw to draw. */
typedef struct bite_edge_cache {
    double of[4]; /* depth, diameter, helix, which teeth form */
    bite_wall wall;
    bite_force force;
} bite_edge_cache;

/* Steps of the semi-discretization, good to 2 % in light side cuts; three modes may be measured,
 * alike along both axes. */
#define BITE_SEGMENT_SEMIDISCRETE_STEPS 24
#define BITE_SEGMENT_MODES 6

/** What a stretch works in beside what it keeps: one thing after the other, and nothing of it
 * stays. */
typedef union bite_scratch {
    bite_round_turn turn;
    double delay[BITE_SEMIDISCRETE_SIZE(BITE_SEGMENT_MODES, BITE_SEGMENT_SEMIDISCRETE_STEPS)];
} bite_scratch;

/** What a stretch has made, with all that it hangs on beside it: while that stays the same, in
 * draws of other inputs, it is taken as it is. No digit depends on what was kept. */
typedef struct bite_segment_cache {
    double chip_of[5];  /* arc, feed, flutes, runout */
    double roots_of[3]; /* arc, ratio */
    bite_chatter_roots roots;
    bite_fin_cache *fin; /* which several stretches of one cut may share */
    bite_chip chip;
    bite_edge_cache *edges; /* so many places */
    int capacity;
    int count; /* so many of them hold something */
    int next;  /* to be given up once all do */
    bite_scratch *scratch;
} bite_segment_cache;

/** What stretches keep and work in, of many cuts one after the other: some 100 KB, the caller's, of
 * one thread at a time. */
typedef struct bite_workspace {
    bite_fin_cache fin;
    bite_segment_cache kept;
    bite_edge_cache met;
    bite_scratch scratch;
} bite_workspace;

/** Nothing is kept yet. There is at least one place. fin and scratch several stretches may share,
 * as long as one is formed after the other. */
void bite_segment_cache_init(bite_segment_cache *cache, bite_fin_cache *fin, bite_edge_cache *edges,
                             int places, bite_scratch *scratch);

/** The same for a workspace, which keeps one place. */
void bite_workspace_init(bite_workspace *space);

/** All values NaN, all shares 0. */
void bite_segment_blank(bite_segment *segment);

/** Whether somebody measured a mode. */
int bite_cut_has_measured_modes(const bite_cut *cut);

/** What does not change between straight and corner is in cut, all defaults filled and checked.
 * Takes from kept what still holds, and keeps what it makes. */
void bite_segment_compute_cached(const bite_cut *cut, bite_arc arc, bite_segment_cache *cache,
                                 bite_segment *segment);

#endif
