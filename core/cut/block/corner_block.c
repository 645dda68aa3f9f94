/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The corner radius of a block of tools, in strips and slices of even angles of slope. */
#include "core/cut/block/corner_block.h"
#include "core/physics/force/edge_strip.h"
#include "core/physics/force/edge_terms.h"
#include "core/physics/geometry/chip_thickness.h"
#include <string.h>

/* What the stages below hand to each other. */
typedef struct corner_lanes {
    bite_lanes reach; /* rad, the largest kappa within the depth */
    bite_lanes width; /* m, of the stock across the feed */
    bite_lanes sine;  /* of kappa, of the node or slice in hand */
    bite_lanes cosine;
    bite_lanes half;   /* sine of half of the span */
    bite_lanes radius; /* m */
    bite_lanes chip;   /* m */
} corner_lanes;

BITE_IN_LANES static void start(const bite_block *restrict block,
                                const bite_block_segment *restrict segment,
                                bite_strip_work *restrict work, corner_lanes *restrict corner)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict radius = BITE_ROW(block, corner_radius);
    const double *restrict diameter = BITE_ROW(block, diameter);
    BITE_EACH_LANE(k, block)
    {
        double share = depth[k] < radius[k] ? depth[k] / radius[k] : 1.0;
        corner->reach[k] = acos(1.0 - share);
        corner->width[k] = segment->engaged[k] * diameter[k];
        work->above[k] = bite_larger(0.0, depth[k] - radius[k]);
    }
}

/* Sine and cosine of an angle kappa that is a share of the reach; the span at its radius: the stock
 * left by a pass of the same tool is equally wide at every height. */
BITE_IN_LANES static void turn_sine(const bite_block *restrict block, double share,
                                    corner_lanes *restrict corner)
{
    BITE_EACH_LANE(k, block)
    {
        corner->sine[k] = sin(share * corner->reach[k]);
    }
}

BITE_IN_LANES static void turn_cosine(const bite_block *restrict block, double share,
                                      double *restrict radius, corner_lanes *restrict corner)
{
    const double *restrict rounded = BITE_ROW(block, corner_radius);
    const double *restrict diameter = BITE_ROW(block, diameter);
    BITE_EACH_LANE(k, block)
    {
        double own = 0.5 * diameter[k] - rounded[k] * (1.0 - corner->sine[k]);
        double width = corner->width[k];
        double part = width / (2.0 * own);
        corner->cosine[k] = cos(share * corner->reach[k]);
        radius[k] = own;
        corner->half[k] = width >= 2.0 * own * (1.0 - 1e-12) ? 1.0 : sqrt(part);
    }
}

/* ---- strips, for the peaks ---- */

BITE_IN_LANES static void fill_lag(const bite_block *restrict block, double sense,
                                   const corner_lanes *restrict corner,
                                   bite_strip_node *restrict node)
{
    const double *restrict rounded = BITE_ROW(block, corner_radius);
    const double *restrict diameter = BITE_ROW(block, diameter);
    const double *restrict helix = BITE_ROW(block, helix);
    BITE_EACH_LANE(k, block)
    {
        double height = rounded[k] * (1.0 - corner->cosine[k]);
        node->height[k] = height;
        node->width[k] = corner->width[k];
        node->ahead[k] = -sense * height * tan(helix[k]) / (0.5 * diameter[k]);
    }
}

BITE_IN_LANES static void take_chip(const bite_block *restrict block,
                                    const corner_lanes *restrict corner,
                                    bite_block_segment *restrict segment)
{
    BITE_EACH_LANE(k, block)
    {
        segment->heavy_chip[k] =
            bite_larger(corner->chip[k] * corner->sine[k], segment->heavy_chip[k]);
    }
}

static void fill_node(const bite_block *block, const bite_block_chip *chip, double share,
                      bite_strip_work *work, corner_lanes *corner, bite_strip_node *node,
                      bite_block_segment *segment)
{
    turn_sine(block, share, corner);
    turn_cosine(block, share, node->radius, corner);
    fill_lag(block, work->sense, corner, node);
    bite_strips_chip_most(block, chip, work, corner->half, corner->chip);
    take_chip(block, corner, segment);
}

/* The middle of a strip is in hand, with its sine, cosine and chip. Integrals over a strip of the
 * half width d about kappa: sin: 2 d' sin kappa with d' = sin d; sin2: d - sin(2 d) cos(2 kappa)/2;
 * sin cos: sin(2 d) sin(2 kappa)/2. */
BITE_IN_LANES static void fill_strip(const bite_block *restrict block,
                                     const bite_block_segment *restrict segment,
                                     const corner_lanes *restrict corner, int strips,
                                     bite_strip *restrict strip)
{
    const double *restrict rounded = BITE_ROW(block, corner_radius);
    const double *restrict least = BITE_ROW(block, minimum_chip);
    BITE_EACH_LANE(k, block)
    {
        double half = 0.5 / strips * corner->reach[k];
        double square = half * half;
        /* sin d and sin(2 d)/2 by series: d is below 0.4 */
        double short_sine = half * (1.0 - square / 6.0 * (1.0 - square / 20.0));
        double long_sine = half * (1.0 - 2.0 / 3.0 * square * (1.0 - square / 5.0));
        double sine = corner->sine[k];
        double cosine = corner->cosine[k];
        double radius = rounded[k];
        double factor =
            bite_strip_thicker(corner->chip[k] * sine, least[k] * segment->edge_radius[k]);
        double rise = 2.0 * radius * short_sine * sine;
        double rise_sine = radius * (half - long_sine * (1.0 - 2.0 * sine * sine));
        double rise_cosine = 2.0 * radius * long_sine * sine * cosine;
        double length = 2.0 * radius * half;
        double length_cosine = 2.0 * radius * short_sine * cosine;
        strip->tangential[k] = factor * segment->tangential[k] * rise;
        strip->radial[k] = factor * segment->radial[k] * rise_sine;
        strip->lift[k] = factor * (segment->axial[k] * rise - segment->radial[k] * rise_cosine);
        strip->edge_tangential[k] = segment->edge_tangential[k] * length;
        strip->edge_radial[k] = segment->edge_radial[k] * rise;
        strip->edge_lift[k] =
            segment->edge_axial[k] * length - segment->edge_radial[k] * length_cosine;
        strip->rise[k] = 2.0 * half * cosine / sine;
    }
}

static void fill_strips(const bite_block *block, const bite_block_chip *chip,
                        bite_block_segment *segment, bite_strip_work *work, corner_lanes *corner)
{
    memset(segment->heavy_chip, 0, sizeof segment->heavy_chip);
    for (int i = 0; i <= work->strips; i++) {
        fill_node(block, chip, (double)i / work->strips, work, corner, &work->node[i], segment);
    }
    for (int i = 0; i < work->strips; i++) {
        double share = (i + 0.5) / work->strips;
        turn_sine(block, share, corner);
        turn_cosine(block, share, corner->radius, corner);
        bite_strips_chip_most(block, chip, work, corner->half, corner->chip);
        fill_strip(block, segment, corner, work->strips, &work->strip[i]);
    }
}

/* ---- slices, for the means ---- */

BITE_IN_LANES static void fill_slice(const bite_block *restrict block, double weight,
                                     const corner_lanes *restrict corner,
                                     bite_strip_slice *restrict slice)
{
    const double *restrict rounded = BITE_ROW(block, corner_radius);
    BITE_EACH_LANE(k, block)
    {
        double length = rounded[k] * corner->reach[k] * weight;
        slice->sine[k] = corner->sine[k];
        slice->cosine[k] = corner->cosine[k];
        slice->reach[k] = corner->half[k];
        slice->length[k] = length;
        slice->rise[k] = length * corner->sine[k];
    }
}

static void add_means(const bite_block *block, const bite_block_chip *chip,
                      const bite_block_segment *segment, bite_strip_work *work,
                      corner_lanes *corner, bite_block_force *force)
{
    for (int i = 0; i < BITE_GAUSS_LEGENDRE_POINTS; i++) {
        double share = 0.5 * (1.0 + bite_gauss_legendre_point[i]);
        turn_sine(block, share, corner);
        turn_cosine(block, share, work->slice.radius, corner);
        fill_slice(block, 0.5 * bite_gauss_legendre_weight[i], corner, &work->slice);
        bite_strips_add_mean(block, chip, segment, work, force);
    }
}

/* ---- the cylinder ---- */

BITE_IN_LANES static void fill_cylinder(const bite_block *restrict block,
                                        const bite_block_chip *restrict chip,
                                        const bite_block_segment *restrict segment,
                                        const corner_lanes *restrict corner,
                                        bite_strip_work *restrict work)
{
    const bite_strip_node *restrict low = &work->node[work->strips];
    bite_strip_node *restrict high = &work->node[work->strips + 1];
    bite_strip_slice *restrict slice = &work->slice;
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict diameter = BITE_ROW(block, diameter);
    const double *restrict helix = BITE_ROW(block, helix);
    const double *restrict least = BITE_ROW(block, minimum_chip);
    double sense = work->sense;
    BITE_EACH_LANE(k, block)
    {
        double above = work->above[k];
        double width = corner->width[k] / diameter[k];
        double part = sqrt(width);
        double half = width >= 1.0 - 1e-12 ? 1.0 : part;
        double lag = sense * bite_edge_lag(above, diameter[k], helix[k]);
        high->height[k] = depth[k];
        high->radius[k] = 0.5 * diameter[k];
        high->width[k] = corner->width[k];
        high->ahead[k] = low->ahead[k] - (above > 0.0 ? lag : 0.0);
        slice->rise[k] = slice->length[k] = above;
        slice->radius[k] = 0.5 * diameter[k];
        slice->sine[k] = 1.0;
        slice->cosine[k] = 0.0;
        slice->reach[k] = half;
        work->thicker[k] = bite_strip_thicker(chip->most[k], least[k] * segment->edge_radius[k]);
    }
}

BITE_IN_LANES static void take_cylinder_chip(const bite_block *restrict block,
                                             const bite_block_chip *restrict chip,
                                             const bite_strip_work *restrict work,
                                             bite_block_segment *restrict segment)
{
    BITE_EACH_LANE(k, block)
    {
        double heavy = segment->heavy_chip[k];
        segment->heavy_chip[k] = work->above[k] > 0.0 ? bite_larger(chip->most[k], heavy) : heavy;
    }
}

static int has_cylinder(const bite_block *block, const bite_strip_work *work)
{
    for (int k = 0; k < block->lanes; k++) {
        if (work->above[k] > 0.0) {
            return 1;
        }
    }
    return 0;
}

static void add_cylinder(const bite_block *block, const bite_block_chip *chip,
                         bite_block_segment *segment, bite_strip_work *work,
                         const corner_lanes *corner, bite_block_force *force)
{
    work->cylinder = has_cylinder(block, work);
    if (work->cylinder) {
        fill_cylinder(block, chip, segment, corner, work);
        take_cylinder_chip(block, chip, work, segment);
        bite_strips_add_mean(block, chip, segment, work, force);
    }
}

/* ---- walls ---- */

/* Heights of the cylinder at which its wall is looked at. */
#define WALL_HEIGHTS 2

/* The edge is a small angle inside the arc, where it still cuts. */
static const double inset = 1e-9; /* rad */

BITE_IN_LANES static void set_wall(const bite_block *restrict block,
                                   const bite_strip_node *restrict low,
                                   const bite_strip_node *restrict high, double share, double away,
                                   double *restrict height, bite_strip_work *restrict work)
{
    BITE_EACH_LANE(k, block)
    {
        work->tip.at[k] = away - low->ahead[k] - share * (high->ahead[k] - low->ahead[k]);
        height[k] = low->height[k] + share * (high->height[k] - low->height[k]);
    }
}

/* sign: of the force on the tool that leaves stock on this wall. kept: 1 for the lanes whose edge
 * cuts wall and not floor at this height. */
BITE_IN_LANES static void take_wall(const bite_block *restrict block, double sign,
                                    const double *restrict kept, const double *restrict height,
                                    const bite_strip_work *restrict work,
                                    const bite_block_segment *restrict segment,
                                    double *restrict wall)
{
    BITE_EACH_LANE(k, block)
    {
        double bend = segment->compliance[k] + segment->slope[k] * (segment->load[k] - height[k]);
        double left = sign * work->load.y[k] * bend;
        /* the first one replaces a NaN */
        double worse = fabs(left) <= fabs(wall[k]) ? wall[k] : left;
        wall[k] = kept[k] > 0.0 ? worse : wall[k];
    }
}

/* If all of the edge cuts floor, its upper end counts. */
BITE_IN_LANES static void fill_kept(const bite_block *restrict block, double share, int cylinder,
                                    const corner_lanes *restrict corner,
                                    const bite_strip_work *restrict work, double *restrict kept)
{
    const double steep = M_PI / 6.0;
    BITE_EACH_LANE(k, block)
    {
        double own = share * corner->reach[k] >= steep * (1.0 - 1e-12) ? 1.0 : 0.0;
        double upper = work->above[k] > 0.0 ? 1.0 : 0.0;
        kept[k] = cylinder ? upper : share == 1.0 ? 1.0 : own;
    }
}

static int any_kept(const bite_block *block, const double *kept)
{
    for (int k = 0; k < block->lanes; k++) {
        if (kept[k] > 0.0) {
            return 1;
        }
    }
    return 0;
}

static void look_at_wall(const bite_block *block, const bite_block_chip *chip,
                         const bite_block_segment *segment, int node, double share, double away,
                         double sign, const double *kept, bite_strip_work *work, double *wall)
{
    int upper = node < work->strips + work->cylinder ? node + 1 : node;
    bite_lanes height;
    set_wall(block, &work->node[node], &work->node[upper], share, away, height, work);
    bite_strips_load_at(block, chip, segment, work);
    take_wall(block, sign, kept, height, work, segment, wall);
}

/* One wall, where the edge stands at an angle `away`. */
static void find_wall(const bite_block *block, const bite_block_chip *chip,
                      const bite_block_segment *segment, double away, double sign,
                      const corner_lanes *corner, bite_strip_work *work, double *wall)
{
    bite_lanes kept;
    for (int i = 0; i <= work->strips; i++) {
        fill_kept(block, (double)i / work->strips, 0, corner, work, kept);
        if (any_kept(block, kept)) {
            look_at_wall(block, chip, segment, i, 0.0, away, sign, kept, work, wall);
        }
    }
    for (int i = 1; work->cylinder && i <= WALL_HEIGHTS; i++) {
        fill_kept(block, 1.0, 1, corner, work, kept);
        look_at_wall(block, chip, segment, work->strips, (double)i / WALL_HEIGHTS, away, sign, kept,
                     work, wall);
    }
}

static int is_slot(const bite_block_segment *segment, int k)
{
    return segment->engaged[k] >= 1.0 - 1e-9;
}

static void find_walls(const bite_block *block, const bite_block_chip *chip,
                       const bite_block_segment *segment, const corner_lanes *corner,
                       bite_strip_work *work, bite_block_force *force)
{
    int climbs = work->sense < 0.0;
    double *own = climbs ? force->wall_climb : force->wall_conventional;
    double *other = climbs ? force->wall_conventional : force->wall_climb;
    int slots = 0;
    for (int k = 0; k < block->lanes; k++) {
        own[k] = other[k] = (double)NAN;
        slots += is_slot(segment, k);
    }
    find_wall(block, chip, segment, inset, -work->sense, corner, work, own);
    if (slots > 0) {
        find_wall(block, chip, segment, M_PI - inset, work->sense, corner, work, other);
    }
    for (int k = 0; k < block->lanes; k++) {
        other[k] = is_slot(segment, k) ? other[k] : (double)NAN;
    }
}

BITE_IN_LANES static void fill_removal(const bite_block *restrict block,
                                       const bite_strip_work *restrict work,
                                       bite_block_segment *restrict segment)
{
    const double *restrict feed_rate = BITE_ROW(block, feed_rate);
    BITE_EACH_LANE(k, block)
    {
        segment->value[BITE_REMOVAL_RATE][k] = work->section[k] * feed_rate[k];
    }
}

/* What a cut is computed by must not depend on the other cuts of its block: not even on their
 * largest corner. */
#define STRIPS 8

void bite_block_corner_radius(const bite_block *block, const bite_block_chip *chip,
                              bite_block_segment *segment, bite_strip_work *work,
                              bite_block_force *force)
{
    corner_lanes corner;
    memset(force, 0, sizeof *force);
    bite_strips_start(block, chip, work);
    start(block, segment, work, &corner);
    work->strips = STRIPS;
    fill_strips(block, chip, segment, work, &corner);
    add_means(block, chip, segment, work, &corner, force);
    add_cylinder(block, chip, segment, work, &corner, force);
    bite_strips_fill_nodes(block, work);
    bite_strips_peaks(block, chip, segment, work, force);
    find_walls(block, chip, segment, &corner, work, force);
    bite_strips_contact(block, chip, work, force, segment);
    fill_removal(block, work, segment);
}
