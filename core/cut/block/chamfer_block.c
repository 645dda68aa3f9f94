/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cone of a block of chamfer mills, in strips, and in slices of the square
 * root of the height, as which the arc of contact begins. */
#include "core/cut/block/chamfer_block.h"
#include "core/physics/force/chamfer_cone.h"
#include "core/physics/force/edge_strip.h"
#include "core/physics/geometry/kinematics.h"
#include "core/physics/geometry/surface_finish.h"
#include <string.h>

/* The cones, and what the stages below hand to each other. */
typedef struct cone_lanes {
    int corners; /* whether these are inside corners */
    bite_lanes slope;
    bite_lanes sine;
    bite_lanes cosine;
    bite_lanes small;
    bite_lanes inside;
    bite_lanes from; /* m, interval of heights */
    bite_lanes to;
    bite_lanes border;
    bite_lanes high;
    bite_lanes half; /* sine of half of a span */
    bite_lanes chip;
    bite_lanes height;
} cone_lanes;

BITE_FORMULA bite_cone cone_of(const bite_block *block, const cone_lanes *cones, int k)
{
    bite_cone cone = {
        .depth = BITE_ROW(block, depth)[k],
        .slope = cones->slope[k],
        .sine = cones->sine[k],
        .cosine = cones->cosine[k],
        .small = cones->small[k],
        .inside = cones->inside[k],
    };
    return cone;
}

BITE_IN_LANES static void fill_cones(const bite_block *restrict block, cone_lanes *restrict cones)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict taper = BITE_ROW(block, taper);
    const double *restrict tip = BITE_ROW(block, tip_diameter);
    const double *restrict below = BITE_ROW(block, tip_below);
    BITE_EACH_LANE(k, block)
    {
        bite_chamfer_shape shape = {depth[k], taper[k], tip[k], below[k]};
        bite_cone cone = bite_chamfer_cone(&shape);
        cones->slope[k] = cone.slope;
        cones->sine[k] = cone.sine;
        cones->cosine[k] = cone.cosine;
        cones->small[k] = cone.small;
    }
}

BITE_IN_LANES static void fill_inside(const bite_block *restrict block,
                                      const double *restrict inside_radius,
                                      cone_lanes *restrict cones)
{
    const double *restrict depth = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        cones->inside[k] = inside_radius[k] - depth[k] * cones->slope[k];
    }
}

static void start(const bite_block *block, const double *inside_radius, cone_lanes *cones)
{
    cones->corners = inside_radius != NULL;
    fill_cones(block, cones);
    if (cones->corners) {
        fill_inside(block, inside_radius, cones);
    } else {
        memset(cones->inside, 0, sizeof cones->inside);
    }
}

/* sin(span/2) at a height, which may be the same array. */
BITE_IN_LANES static void fill_half_straight(const bite_block *restrict block,
                                             const cone_lanes *restrict cones,
                                             const double *restrict height, double *restrict half)
{
    BITE_EACH_LANE(k, block)
    {
        bite_cone cone = cone_of(block, cones, k);
        half[k] = bite_cone_half_sine_straight(&cone, height[k]);
    }
}

BITE_IN_LANES static void fill_half_in_corner(const bite_block *restrict block,
                                              const cone_lanes *restrict cones,
                                              const double *restrict height, double *restrict half)
{
    BITE_EACH_LANE(k, block)
    {
        bite_cone cone = cone_of(block, cones, k);
        half[k] = bite_cone_half_sine_in_corner(&cone, height[k]);
    }
}

static void fill_half(const bite_block *block, const cone_lanes *cones, const double *height,
                      double *half)
{
    if (cones->corners) {
        fill_half_in_corner(block, cones, height, half);
    } else {
        fill_half_straight(block, cones, height, half);
    }
}

BITE_IN_LANES static void fill_height(const bite_block *restrict block, double share,
                                      double *restrict height)
{
    const double *restrict depth = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        height[k] = share * depth[k];
    }
}

/* ---- shape ---- */

/* Largest chip at a share of the depth. */
static void find_chip(const bite_block *block, const bite_block_chip *chip, double share,
                      const bite_strip_work *work, cone_lanes *cones, double *most)
{
    fill_height(block, share, cones->height);
    fill_half(block, cones, cones->height, cones->half);
    bite_strips_chip_most(block, chip, work, cones->half, most);
    for (int k = 0; k < block->lanes; k++) {
        most[k] *= cones->sine[k];
    }
}

BITE_IN_LANES static void add_section(const bite_block *restrict block, double weight,
                                      const cone_lanes *restrict cones, double *restrict section)
{
    const double *restrict depth = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        double radius = cones->small[k] + cones->height[k] * cones->slope[k];
        double half = cones->half[k];
        section[k] += 2.0 * radius * half * half * 0.5 * depth[k] * weight;
    }
}

static void fill_section(const bite_block *block, cone_lanes *cones, double *section)
{
    memset(section, 0, sizeof(bite_lanes));
    for (int i = 0; i < BITE_GAUSS_LEGENDRE_POINTS; i++) {
        fill_height(block, 0.5 * (1.0 + bite_gauss_legendre_point[i]), cones->height);
        fill_half(block, cones, cones->height, cones->half);
        add_section(block, bite_gauss_legendre_weight[i], cones, section);
    }
}

/* Feed marks are highest where the cone is thinnest: across the face it is curved like a circle of
 * r/cos(taper). */
BITE_IN_LANES static void fill_shape(const bite_block *restrict block,
                                     const cone_lanes *restrict cones,
                                     const double *restrict section,
                                     bite_block_segment *restrict segment)
{
    const double *restrict feed_rate = BITE_ROW(block, feed_rate);
    const double *restrict spindle = BITE_ROW(block, spindle_speed);
    BITE_EACH_LANE(k, block)
    {
        double small = 2.0 * cones->small[k];
        double feed = segment->value[BITE_CHIP_LOAD_HEAVY][k];
        segment->value[BITE_CHIP_THICKNESS_MAX][k] *= cones->sine[k];
        segment->value[BITE_CHIP_THICKNESS_MEAN][k] *= cones->sine[k];
        segment->value[BITE_REMOVAL_RATE][k] = section[k] * feed_rate[k];
        segment->value[BITE_SURFACE_SPEED_SMALL][k] =
            bite_kinematics_surface_speed(small, spindle[k]);
        segment->value[BITE_ROUGHNESS_WALL][k] = bite_finish_wall(feed, small / cones->sine[k]);
        segment->value[BITE_ROUGHNESS_FLOOR][k] = segment->value[BITE_HAZE][k] = (double)NAN;
    }
}

/* A quarter of the face may be burnished rather than cut (estimate): the chip of the thin end is
 * computed at that height. */
static const double thin_end = 0.25;

void bite_block_cone(const bite_block *block, const bite_block_chip *chip,
                     const double *inside_radius, bite_block_segment *segment,
                     bite_strip_work *work)
{
    cone_lanes cones;
    bite_lanes section;
    bite_strips_start(block, chip, work);
    start(block, inside_radius, &cones);
    fill_section(block, &cones, section);
    fill_shape(block, &cones, section, segment);
    find_chip(block, chip, 1.0, work, &cones, segment->heavy_chip);
    find_chip(block, chip, thin_end, work, &cones, segment->thin_chip);
}

/* ---- strips, for the peaks ---- */

BITE_IN_LANES static void fill_node(const bite_block *restrict block, double sense,
                                    const cone_lanes *restrict cones,
                                    bite_strip_node *restrict node)
{
    const double *restrict diameter = BITE_ROW(block, diameter);
    const double *restrict helix = BITE_ROW(block, helix);
    BITE_EACH_LANE(k, block)
    {
        double height = node->height[k];
        node->radius[k] = cones->small[k] + height * cones->slope[k];
        node->ahead[k] = -sense * height * tan(helix[k]) / (0.5 * diameter[k]);
    }
}

BITE_IN_LANES static void fill_width_straight(const bite_block *restrict block,
                                              const cone_lanes *restrict cones,
                                              bite_strip_node *restrict node)
{
    BITE_EACH_LANE(k, block)
    {
        node->width[k] = node->height[k] * cones->slope[k];
    }
}

BITE_IN_LANES static void fill_width_in_corner(const bite_block *restrict block,
                                               const cone_lanes *restrict cones,
                                               bite_strip_node *restrict node)
{
    BITE_EACH_LANE(k, block)
    {
        bite_cone cone = cone_of(block, cones, k);
        node->width[k] = bite_cone_width_in_corner(&cone, node->height[k]);
    }
}

BITE_IN_LANES static void fill_strip(const bite_block *restrict block, double share,
                                     const bite_block_segment *restrict segment,
                                     const cone_lanes *restrict cones, bite_strip *restrict strip)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict least = BITE_ROW(block, minimum_chip);
    BITE_EACH_LANE(k, block)
    {
        double rise = depth[k] * share;
        double sine = cones->sine[k];
        double cosine = cones->cosine[k];
        double length = rise / sine;
        double cut =
            rise * bite_strip_thicker(segment->heavy_chip[k], least[k] * segment->edge_radius[k]);
        strip->tangential[k] = segment->tangential[k] * cut;
        strip->radial[k] = segment->radial[k] * sine * cut;
        strip->lift[k] = (segment->axial[k] - segment->radial[k] * cosine) * cut;
        strip->edge_tangential[k] = segment->edge_tangential[k] * length;
        strip->edge_radial[k] = segment->edge_radial[k] * sine * length;
        strip->edge_lift[k] = (segment->edge_axial[k] - segment->edge_radial[k] * cosine) * length;
        strip->rise[k] = 0.0;
    }
}

/* Strips are thinner near the lower end, where the arc of contact changes fastest: by this share of
 * their mean, at most. */
static const double thinning = 0.3;

/* Share of the depth up to the lower end of a strip. */
static double end_of(int strip)
{
    double share = (double)strip / BITE_STRIPS;
    return share * (1.0 - thinning + thinning * share);
}

static void fill_strips(const bite_block *block, const bite_block_segment *segment,
                        cone_lanes *cones, bite_strip_work *work)
{
    for (int i = 0; i <= BITE_STRIP_TOP; i++) {
        bite_strip_node *node = &work->node[i];
        fill_height(block, 0.5 * (end_of(i / 2) + end_of((i + 1) / 2)), node->height);
        fill_node(block, work->sense, cones, node);
        if (cones->corners) {
            fill_width_in_corner(block, cones, node);
        } else {
            fill_width_straight(block, cones, node);
        }
    }
    for (int i = 0; i < BITE_STRIPS; i++) {
        fill_strip(block, end_of(i + 1) - end_of(i), segment, cones, &work->strip[i]);
    }
    bite_strips_fill_nodes(block, work);
}

/* ---- slices, for the means ---- */

/* A slice at a Gauss point of the square root of the height, from one end of the interval. */
BITE_IN_LANES static void fill_slice(const bite_block *restrict block, double root, double weight,
                                     cone_lanes *restrict cones, bite_strip_slice *restrict slice)
{
    BITE_EACH_LANE(k, block)
    {
        double extent = cones->to[k] - cones->from[k];
        double height = cones->from[k] + extent * root * root;
        double rise = fabs(extent) * root * weight;
        cones->height[k] = height;
        slice->rise[k] = rise;
        slice->length[k] = rise / cones->sine[k];
        slice->radius[k] = cones->small[k] + height * cones->slope[k];
        slice->sine[k] = cones->sine[k];
        slice->cosine[k] = cones->cosine[k];
    }
}

static void add_interval(const bite_block *block, const bite_block_chip *chip, int hinge,
                         const bite_block_segment *segment, cone_lanes *cones,
                         bite_strip_work *work, bite_block_force *force)
{
    for (int i = 0; i < BITE_GAUSS_LEGENDRE_POINTS; i++) {
        fill_slice(block, 0.5 * (1.0 + bite_gauss_legendre_point[i]), bite_gauss_legendre_weight[i],
                   cones, &work->slice);
        fill_half(block, cones, cones->height, work->slice.reach);
        bite_strips_add_hinge_mean(block, chip, hinge, segment, work, force);
    }
}

/* The heights from which a hinge counts, and the interval from there to the upper end. */
BITE_IN_LANES static void set_straight(const bite_block *restrict block,
                                       const bite_turned_lanes *restrict start_angle,
                                       cone_lanes *restrict cones)
{
    const double *restrict depth = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        bite_cone cone = cone_of(block, cones, k);
        double half = start_angle->sine[k] / sqrt(2.0 + 2.0 * start_angle->cosine[k]);
        cones->from[k] = bite_within(bite_cone_height_straight(&cone, half), 0.0, depth[k]);
        cones->to[k] = depth[k];
    }
}

BITE_IN_LANES static void set_in_corner(const bite_block *restrict block,
                                        const bite_turned_lanes *restrict start_angle,
                                        cone_lanes *restrict cones)
{
    const double *restrict depth = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        bite_cone cone = cone_of(block, cones, k);
        double half = start_angle->sine[k] / sqrt(2.0 + 2.0 * start_angle->cosine[k]);
        double third = sin(start_angle->at[k] / 6.0); /* bite_engagement_dead_corner */
        double moving = bite_cone_height_moving(&cone, half);
        double stopped = bite_cone_height_straight(&cone, third);
        double low = bite_within(cone.inside > cone.small ? moving : stopped, 0.0, depth[k]);
        double border = bite_within(bite_cone_change_height(&cone), low, depth[k]);
        cones->from[k] = low;
        cones->to[k] = 0.5 * (low + border);
        cones->border[k] = border;
    }
}

/* An interval whose arc ends as a square root is integrated from its upper end downwards. */
static void add_hinge(const bite_block *block, const bite_block_chip *chip, int hinge,
                      const bite_block_segment *segment, cone_lanes *cones, bite_strip_work *work,
                      bite_block_force *force)
{
    if (!cones->corners) {
        set_straight(block, &work->start[hinge], cones);
        add_interval(block, chip, hinge, segment, cones, work, force);
        return;
    }
    set_in_corner(block, &work->start[hinge], cones);
    add_interval(block, chip, hinge, segment, cones, work, force);
    memcpy(cones->from, cones->border, sizeof cones->from);
    add_interval(block, chip, hinge, segment, cones, work, force);
    fill_height(block, 1.0, cones->to);
    add_interval(block, chip, hinge, segment, cones, work, force);
}

static void add_means(const bite_block *block, const bite_block_chip *chip,
                      const bite_block_segment *segment, cone_lanes *cones, bite_strip_work *work,
                      bite_block_force *force)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    for (int i = 0; i < hinges->first[hinges->teeth]; i++) {
        add_hinge(block, chip, i, segment, cones, work, force);
    }
    const double *depth = BITE_ROW(block, depth);
    for (int k = 0; k < block->lanes; k++) {
        work->edge_length[k] = depth[k] / cones->sine[k];
    }
}

/* ---- the face ---- */

/* All of the edge finishes it, and the force at its centroid bends the tool: the tilt of the tool
 * is left out. */
BITE_IN_LANES static void set_face(const bite_block *restrict block,
                                   const bite_block_segment *restrict segment,
                                   bite_strip_work *restrict work)
{
    const double *restrict depth = BITE_ROW(block, depth);
    bite_strip_walls *restrict walls = &work->walls;
    BITE_EACH_LANE(k, block)
    {
        walls->from[k] = 0.0;
        walls->to[k] = depth[k];
        walls->bend[k] = segment->compliance[k];
        walls->fall[k] = 0.0;
        walls->across[k] = 0.0;
    }
    work->walls.other = 0;
    work->thick_end = BITE_STRIP_TOP / 2;
}

void bite_block_chamfer(const bite_block *block, const bite_block_chip *chip,
                        const double *inside_radius, bite_block_segment *segment,
                        bite_strip_work *work, bite_block_force *force)
{
    cone_lanes cones;
    memset(force, 0, sizeof *force);
    bite_strips_start(block, chip, work);
    start(block, inside_radius, &cones);
    fill_strips(block, segment, &cones, work);
    add_means(block, chip, segment, &cones, work, force);
    set_face(block, segment, work);
    bite_strips_fill_walls(block, work, force);
    bite_strips_peaks(block, chip, segment, work, force);
    bite_strips_contact(block, chip, work, force, segment);
}
