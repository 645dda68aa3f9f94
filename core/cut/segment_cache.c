/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The intermediate results of a segment that stay the same from one cut to the next. */
#include "core/cut/segment_cache.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/dynamics/tool_modes.h"
#include "core/physics/elastic/shaft_fin.h"
#include <math.h>
#include <string.h>

/* Whether the key is the same as before; stores it. An empty cache has NaN in its key, which equals
 * nothing. */
static int same_key(double *key, const double *now, int count)
{
    int same = 1;
    for (int i = 0; i < count; i++) {
        same &= key[i] == now[i];
        key[i] = now[i];
    }
    return same;
}

static void clear_edges(bite_segment_cache *cache)
{
    cache->count = 0;
    cache->next = 0;
}

void bite_segment_cache_init(bite_segment_cache *cache, bite_fin_cache *fin, bite_edge_cache *edges,
                             int capacity, bite_scratch *scratch)
{
    cache->scratch = scratch;
    cache->edges = edges;
    cache->capacity = capacity;
    clear_edges(cache);
    cache->fin = fin;
    fin->conductivity = fin->modulus = (double)NAN;
    cache->chip_key[0] = cache->roots_key[0] = (double)NAN;
}

void bite_workspace_init(bite_workspace *space)
{
    bite_segment_cache_init(&space->cache, &space->fin, &space->edges, 1, &space->scratch);
}

const bite_chip *bite_segment_cache_chip(bite_segment_cache *cache, const bite_cut *cut,
                                         bite_arc arc, double feed)
{
    const double now[] = {arc.enter, arc.leave, feed, cut->flutes, cut->runout};
    if (!same_key(cache->chip_key, now, sizeof now / sizeof *now)) {
        bite_chip_init(&cache->chip, arc, feed, (int)cut->flutes, cut->runout);
        clear_edges(cache);
    }
    return &cache->chip;
}

bite_edge_cache *bite_segment_cache_edges(bite_segment_cache *cache, const bite_cut *cut,
                                          bite_arc arc)
{
    const double now[] = {cut->depth, cut->diameter, cut->helix};
    for (int i = 0; i < cache->count; i++) {
        if (memcmp(cache->edges[i].key, now, sizeof now) == 0) {
            return &cache->edges[i];
        }
    }
    bite_edge_cache *edge = &cache->edges[cache->next];
    cache->next = (cache->next + 1) % cache->capacity;
    cache->count += cache->count < cache->capacity;
    memcpy(edge->key, now, sizeof now);
    bite_edge_integrals_init(&edge->force.edges, &cache->chip, cut->depth, cut->diameter,
                             cut->helix);
    bite_wall_init(&edge->wall, &edge->force.edges, arc);
    return edge;
}

bite_force *bite_segment_cache_take_force(bite_segment_cache *cache)
{
    clear_edges(cache);
    return &cache->edges[0].force;
}

const bite_direction_root *bite_segment_cache_roots(bite_segment_cache *cache, bite_arc arc,
                                                    double ratio)
{
    const double now[] = {arc.enter, arc.leave, ratio};
    if (!same_key(cache->roots_key, now, sizeof now / sizeof *now)) {
        bite_mode_roots(arc, ratio, cache->roots);
    }
    return cache->roots;
}

static int same_shaft(const bite_shaft *a, const bite_shaft *b)
{
    return a->count == b->count && memcmp(a->steps, b->steps, a->count * sizeof *a->steps) == 0;
}

double bite_fin_cache_frequency(bite_fin_cache *fin, const bite_cut *cut, const bite_shaft *shaft)
{
    if (fin->modulus != cut->tool_modulus || fin->density != cut->tool_density ||
        !same_shaft(&fin->rod, shaft)) {
        fin->modulus = cut->tool_modulus;
        fin->density = cut->tool_density;
        fin->rod = *shaft;
        fin->frequency = bite_tool_mode_bent(shaft, cut->tool_modulus, cut->tool_density);
    }
    return fin->frequency;
}

void bite_fin_cache_fill(bite_fin_cache *fin, const bite_cut *cut)
{
    bite_shaft shaft;
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_shaft_init(&tool, cut->core_share, &shaft);
    if (fin->conductivity == cut->tool_conductivity && fin->transfer == cut->cooling &&
        same_shaft(&fin->shaft, &shaft)) {
        return;
    }
    fin->conductivity = cut->tool_conductivity;
    fin->transfer = cut->cooling;
    fin->shaft = shaft;
    bite_fin of_shaft =
        bite_shaft_fin(&shaft, bite_tool_cylinders(tool.conical), fin->conductivity, fin->transfer);
    fin->resistance = of_shaft.resistance;
    fin->air_share = of_shaft.air_share;
}
