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

/* The slope of the edge at a node, and the thickest chip that a tooth may cut there, over the
 * largest geometric one before the slope reduces it. */
typedef struct edge_slope {
    bite_lanes sine; /* of kappa */
    bite_lanes cosine;
    bite_lanes thick;
} edge_slope;

BITE_IN_LANES static void take_chip(const bite_block *restrict block,
                                    const corner_lanes *restrict corner,
                                    bite_block_segment *restrict segment,
                                    edge_slope *restrict slope)
{
    const double *restrict least = BITE_ROW(block, minimum_chip);
    BITE_EACH_LANE(k, block)
    {
        double chip = corner->chip[k];
        double sine = corner->sine[k];
        double shortest = least[k] * segment->edge_radius[k] / chip;
        double thick = bite_chip_peak(sine, shortest);
        slope->sine[k] = sine;
        slope->cosine[k] = corner->cosine[k];
        slope->thick[k] = chip > 0.0 ? thick : sine;
        segment->heavy_chip[k] = bite_larger(chip * sine, segment->heavy_chip[k]);
    }
}

static void fill_node(const bite_block *block, const bite_block_chip *chip, double share,
                      bite_strip_work *work, corner_lanes *corner, bite_strip_node *node,
                      bite_block_segment *segment, edge_slope *slope)
{
    turn_sine(block, share, corner);
    turn_cosine(block, share, node->radius, corner);
    fill_lag(block, work->sense, corner, node);
    bite_strips_chip_most(block, chip, work, corner->half, corner->chip);
    take_chip(block, corner, segment, slope);
}

/* Integrals over a strip by Simpson's rule, from the slopes at its lower end, in its middle and at
 * its upper end. */
BITE_IN_LANES static void fill_strip(const bite_block *restrict block,
                                     const bite_block_segment *restrict segment,
                                     const corner_lanes *restrict corner,
                                     const edge_slope *restrict slope, bite_strip *restrict strip)
{
    const double *restrict rounded = BITE_ROW(block, corner_radius);
    const edge_slope *restrict low = &slope[0];
    const edge_slope *restrict middle = &slope[1];
    const edge_slope *restrict high = &slope[2];
    BITE_EACH_LANE(k, block)
    {
        double length = rounded[k] * corner->reach[k] / BITE_STRIPS;
        double sixth = length / 6.0;
        double most = 4.0 * middle->thick[k];
        double chip = sixth * (low->thick[k] + most + high->thick[k]);
        double chip_sine = sixth * (low->thick[k] * low->sine[k] + most * middle->sine[k] +
                                    high->thick[k] * high->sine[k]);
        double chip_cosine = sixth * (low->thick[k] * low->cosine[k] + most * middle->cosine[k] +
                                      high->thick[k] * high->cosine[k]);
        double sine = sixth * (low->sine[k] + 4.0 * middle->sine[k] + high->sine[k]);
        double cosine = sixth * (low->cosine[k] + 4.0 * middle->cosine[k] + high->cosine[k]);
        strip->tangential[k] = segment->tangential[k] * chip;
        strip->radial[k] = segment->radial[k] * chip_sine;
        strip->lift[k] = segment->axial[k] * chip - segment->radial[k] * chip_cosine;
        strip->edge_tangential[k] = segment->edge_tangential[k] * length;
        strip->edge_radial[k] = segment->edge_radial[k] * sine;
        strip->edge_lift[k] = segment->edge_axial[k] * length - segment->edge_radial[k] * cosine;
        strip->rise[k] = (high->thick[k] - low->thick[k]) * length / chip;
    }
}

static void fill_strips(const bite_block *block, const bite_block_chip *chip,
                        bite_block_segment *segment, bite_strip_work *work, corner_lanes *corner)
{
    edge_slope slope[BITE_STRIP_TOP + 1];
    memset(segment->heavy_chip, 0, sizeof segment->heavy_chip);
    for (int i = 0; i <= BITE_STRIP_TOP; i++) {
        double share = (double)i / BITE_STRIP_TOP;
        fill_node(block, chip, share, work, corner, &work->node[i], segment, &slope[i]);
    }
    for (int i = 0; i < BITE_STRIPS; i++) {
        fill_strip(block, segment, corner, &slope[2 * i], &work->strip[i]);
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
    const bite_strip_node *restrict low = &work->node[BITE_STRIP_TOP];
    bite_strip_node *restrict high = &work->node[BITE_STRIP_TOP + 1];
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
        /* without a cylinder, the upper end of the corner once more */
        high->radius[k] = above > 0.0 ? 0.5 * diameter[k] : low->radius[k];
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

/* The edge cuts a wall where it is this steep; below, it cuts floor. If all of it cuts floor, its
 * upper end counts; if there is a cylinder, that alone. */
static const double steep = M_PI / 6.0; /* rad, kappa */

BITE_IN_LANES static void set_walls(const bite_block *restrict block,
                                    const bite_block_segment *restrict segment,
                                    bite_strip_work *restrict work)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict rounded = BITE_ROW(block, corner_radius);
    double flat = 1.0 - cos(steep);
    bite_strip_walls *restrict walls = &work->walls;
    BITE_EACH_LANE(k, block)
    {
        double floor = bite_smaller(flat * rounded[k], depth[k]);
        walls->from[k] = work->above[k] > 0.0 ? rounded[k] : floor;
        walls->to[k] = depth[k];
        walls->bend[k] = segment->compliance[k] + segment->slope[k] * segment->load[k];
        walls->fall[k] = segment->slope[k];
    }
}

static int is_slot(const bite_block_segment *segment, int k)
{
    return segment->engaged[k] >= 1.0 - 1e-9;
}

static void start_walls(const bite_block *block, const bite_block_segment *segment,
                        bite_strip_work *work, bite_block_force *force)
{
    set_walls(block, segment, work);
    work->walls.other = 0;
    for (int k = 0; k < block->lanes; k++) {
        work->walls.across[k] = is_slot(segment, k) ? M_PI : 0.0;
        work->walls.other |= is_slot(segment, k);
    }
    bite_strips_fill_walls(block, work, force);
}

/* A cut has the other wall if it is a slot. */
static void finish_walls(const bite_block *block, const bite_block_segment *segment,
                         const bite_strip_work *work, bite_block_force *force)
{
    double *other = work->sense < 0.0 ? force->wall_conventional : force->wall_climb;
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

void bite_block_corner_radius(const bite_block *block, const bite_block_chip *chip,
                              bite_block_segment *segment, bite_strip_work *work,
                              bite_block_force *force)
{
    corner_lanes corner;
    memset(force, 0, sizeof *force);
    bite_strips_start(block, chip, work);
    start(block, segment, work, &corner);
    fill_strips(block, chip, segment, work, &corner);
    add_means(block, chip, segment, work, &corner, force);
    add_cylinder(block, chip, segment, work, &corner, force);
    bite_strips_fill_nodes(block, work);
    start_walls(block, segment, work, force);
    bite_strips_peaks(block, chip, segment, work, force);
    finish_walls(block, segment, work, force);
    bite_strips_contact(block, chip, work, force, segment);
    fill_removal(block, work, segment);
}
