/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The intermediate results of a segment, stored with all the numbers that they depend on: if these
 * stay the same, as in draws of other inputs, the results are read from the cache. No digit of a
 * result depends on the contents of the cache.
 */
#ifndef BITE_CUT_SEGMENT_CACHE_H
#define BITE_CUT_SEGMENT_CACHE_H

#include "core/cut/block/limits_result.h"
#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/dynamics/semi_discretization.h"
#include "core/physics/dynamics/stability_lobes.h"
#include "core/physics/elastic/tool_deflection.h"
#include "core/physics/force/corner_radius_mill.h"
#include "core/physics/force/square_end_mill.h"
#include "core/physics/geometry/chip_thickness.h"
#include "core/physics/geometry/engagement.h"
#include <coolbite/coolbite.h>

/** The tool as a fin and as a vibrating rod: the same on the straight, in the corner and on the
 * entry move. */
typedef struct bite_fin_cache {
    bite_shaft shaft; /* of the fin; with conductivity and transfer its key */
    double conductivity;
    double transfer;
    double resistance; /* K/W */
    double air_share;
    bite_shaft rod; /* of the vibration; with modulus and density its key */
    double modulus;
    double density;
    double frequency; /* Hz */
} bite_fin_cache;

/** The edge integrals of a chip. */
typedef struct bite_edge_cache {
    double key[3]; /* depth, diameter, helix */
    bite_wall wall;
    bite_force force;
} bite_edge_cache;

/* Steps of the semi-discretization, good to 2 % in light side cuts; up to three modes may be
 * measured, and they are the same along both axes. */
#define BITE_SEGMENT_SEMIDISCRETE_STEPS 24
#define BITE_SEGMENT_MODES 6

/** A block of one cut and its limits. */
typedef struct bite_limits_room {
    bite_block block;
    bite_block_segment segment;
    bite_block_limits_result limits;
} bite_limits_room;

/** Working memory of a segment: reused by each computation in turn; its contents are never kept. */
typedef union bite_scratch {
    bite_round_turn turn;
    char
        limits[sizeof(bite_limits_room) + _Alignof(bite_limits_room)]; /* allocators do not align */
    double delay[BITE_SEMIDISCRETE_SIZE(BITE_SEGMENT_MODES, BITE_SEGMENT_SEMIDISCRETE_STEPS)];
} bite_scratch;

typedef struct bite_segment_cache {
    double chip_key[5];  /* arc, feed, flutes, runout */
    double roots_key[3]; /* arc, ratio */
    bite_direction_root roots[2];
    bite_fin_cache *fin; /* which several segments of one cut may share */
    bite_chip chip;
    bite_edge_cache *edges; /* an array of capacity */
    int capacity;
    int count; /* number of filled entries */
    int next;  /* index of the entry to be overwritten next */
    bite_scratch *scratch;
} bite_segment_cache;

/** Cache and working memory of the segments of many cuts, one after the other: some 100 KB, owned
 * by the caller, for one thread at a time. */
typedef struct bite_workspace {
    bite_fin_cache fin;
    bite_segment_cache cache;
    bite_edge_cache edges;
    bite_scratch scratch;
} bite_workspace;

/** Empties the cache. capacity: at least 1. Several segments may share fin and scratch as long as
 * one is computed after the other. Borrows all of them. */
void bite_segment_cache_init(bite_segment_cache *cache, bite_fin_cache *fin, bite_edge_cache *edges,
                             int capacity, bite_scratch *scratch);

/** The same for a workspace, whose cache has one set of edge integrals. */
void bite_workspace_init(bite_workspace *space);

/* Of all of these: cut has its defaults filled, and the returned pointer is borrowed until the next
 * call. */

/** The chips of a segment. feed: per tooth, m. */
const bite_chip *bite_segment_cache_chip(bite_segment_cache *cache, const bite_cut *cut,
                                         bite_arc arc, double feed);

/** The edge integrals of the chips in the cache, and the wall that they finish. */
bite_edge_cache *bite_segment_cache_edges(bite_segment_cache *cache, const bite_cut *cut,
                                          bite_arc arc);

/** Empties the edge integrals and lends the first of them as working memory. */
bite_force *bite_segment_cache_take_force(bite_segment_cache *cache);

const bite_direction_root *bite_segment_cache_roots(bite_segment_cache *cache, bite_arc arc,
                                                    double ratio);

/** The frequency, Hz, of the tool as it is bent by a force at its tip. */
double bite_fin_cache_frequency(bite_fin_cache *fin, const bite_cut *cut, const bite_shaft *shaft);

/** Fills the resistance and the air share of the tool as a fin. */
void bite_fin_cache_fill(bite_fin_cache *fin, const bite_cut *cut);

#endif
