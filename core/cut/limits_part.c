/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the part: size, corner, gap, finish, edges, thin sections, flatness and stock. */
#include "core/cut/limits_part.h"
#include "core/cut/gross_deflection.h"
#include "core/physics/elastic/thin_plate.h"
#include "core/physics/elastic/warp.h"
#include "core/physics/force/chamfer_cone.h"
#include <math.h>

const double bite_tolerance_default = 0.1e-3; /* m */

static int is_chamfer(const bite_block *block)
{
    return block->cut->operation == BITE_CHAMFER;
}

/* Half of the tolerance is available to the cut; the rest is for the machine, the datum and the
 * gauge. */
BITE_FORMULA double tolerance_for_bending(double requested)
{
    return 0.5 * bite_or(requested, bite_tolerance_default);
}

BITE_IN_LANES void bite_limit_deflection(const bite_block *block, const bite_block_segment *segment,
                                         double *restrict demand, double *restrict capacity)
{
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->value[BITE_WALL_ERROR][k];
        capacity[k] = tolerance_for_bending(block->tolerance[k]);
    }
}

/* The cone of a chamfer along a straight edge. */
BITE_FORMULA bite_cone cone_at(const bite_block *block, int k)
{
    bite_chamfer_shape shape = {BITE_ROW(block, depth)[k], BITE_ROW(block, taper)[k],
                                BITE_ROW(block, tip_diameter)[k], BITE_ROW(block, tip_below)[k]};
    return bite_chamfer_cone(&shape);
}

/* A corner may come out larger than requested by the tolerance if one was given, else by nothing.
 */
BITE_IN_LANES void bite_limit_corner(const bite_block *block, const bite_block_segment *segment,
                                     double *restrict demand, double *restrict capacity)
{
    const double *inside = BITE_ROW(block, inside_radius);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = 0.5 * segment->diameter[k];
        capacity[k] = inside[k] + bite_or(block->tolerance[k], 0.0);
    }
    if (is_chamfer(block)) {
        BITE_EACH_LANE(k, block)
        {
            demand[k] = cone_at(block, k).small;
        }
    }
}

/* A cone beside a wall is as wide as its small end on the side of the wall, and its large end on
 * the far side, whose edge is still there. */
BITE_IN_LANES void bite_limit_gap(const bite_block *block, const bite_block_segment *segment,
                                  double *restrict demand, double *restrict capacity)
{
    const double *runout = BITE_ROW(block, runout);
    const double *gap = BITE_ROW(block, gap);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->diameter[k] + runout[k];
        capacity[k] = gap[k];
    }
    if (is_chamfer(block)) {
        BITE_EACH_LANE(k, block)
        {
            bite_cone cone = cone_at(block, k);
            demand[k] = cone.small + cone.large + runout[k];
        }
    }
}

/* Marks of a parabola or a saw tooth: Ra is close to a quarter of their height. */
BITE_IN_LANES void bite_limit_finish(const bite_block *block, const bite_block_segment *segment,
                                     double *restrict demand, double *restrict capacity)
{
    BITE_EACH_LANE(k, block)
    {
        demand[k] = 0.25 * bite_larger_known(segment->value[BITE_ROUGHNESS_FLOOR][k],
                                             segment->value[BITE_ROUGHNESS_WALL][k]);
        capacity[k] = block->finish[k];
    }
}

BITE_IN_LANES void bite_limit_edge_chip(const bite_block *block, const bite_block_segment *segment,
                                        double *restrict demand, double *restrict capacity)
{
    const double *least = BITE_ROW(block, chip_edge);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->heavy_chip[k];
        capacity[k] = least[k];
    }
}

/* ---- thin sections ---- */

/* A wall whose length is given is free at its end, or supported there by the other walls of a
 * pocket: then the middle of the wall counts. ratio: length/height, INFINITY if no length is given.
 */
BITE_FORMULA void fill_wall_alpha(const bite_block *block, const double *restrict ratio,
                                  double *restrict alpha)
{
    if (block->cut->wall_ends == BITE_WALL_HELD) {
        BITE_EACH_LANE(k, block)
        {
            alpha[k] = bite_plate_pocket_wall(ratio[k]);
        }
    } else if (bite_is_given(BITE_ROW(block, wall_length))) {
        BITE_EACH_LANE(k, block)
        {
            alpha[k] = bite_plate_wall_end(ratio[k]);
        }
    } else {
        BITE_EACH_LANE(k, block)
        {
            alpha[k] = bite_plate_wall_middle(ratio[k]);
        }
    }
}

/* The finishing force on the wall is the force that bends the tool by the wall error. tool: lanes,
 * m, by which it does: in the first lap, or in the last of spring passes. */
BITE_FORMULA void fill_wall_bend(const bite_block *block, const bite_block_segment *segment,
                                 const double *restrict tool, double *restrict bend)
{
    const double *depth = BITE_ROW(block, depth);
    const double *feature = BITE_ROW(block, feature_depth);
    const double *given = BITE_ROW(block, wall_height);
    const double *length = BITE_ROW(block, wall_length);
    const double *modulus = BITE_ROW(block, modulus);
    const double *poisson = BITE_ROW(block, poisson);
    const double *thickness = BITE_ROW(block, wall_thickness);
    bite_lanes height;
    bite_lanes ratio;
    bite_lanes alpha;
    BITE_EACH_LANE(k, block)
    {
        height[k] = bite_or(given[k], bite_larger(feature[k], depth[k]));
        ratio[k] = bite_or(length[k] / height[k], (double)INFINITY);
    }
    fill_wall_alpha(block, ratio, alpha);
    BITE_EACH_LANE(k, block)
    {
        double force = tool[k] / segment->compliance[k];
        bend[k] = alpha[k] * force * height[k] * height[k] /
                  bite_plate_rigidity(modulus[k], poisson[k], thickness[k]);
    }
}

/* A floor that the tool cuts through does not bend. */
BITE_FORMULA void fill_floor_bend(const bite_block *block, const bite_block_segment *segment,
                                  double *restrict bend)
{
    const double *length = BITE_ROW(block, floor_length);
    const double *span = BITE_ROW(block, floor_span);
    const double *modulus = BITE_ROW(block, modulus);
    const double *poisson = BITE_ROW(block, poisson);
    const double *thickness = BITE_ROW(block, floor_thickness);
    BITE_EACH_LANE(k, block)
    {
        double alpha = bite_plate_floor(bite_or(length[k] / span[k], (double)INFINITY));
        double side = bite_smaller(length[k], span[k]);
        double floor = alpha * fabs(segment->value[BITE_FORCE_LIFT_PEAK][k]) * side * side /
                       bite_plate_rigidity(modulus[k], poisson[k], thickness[k]);
        bend[k] = thickness[k] > 0.0 ? floor : 0.0;
    }
}

/* The whole side force acts at the middle of the strip, since the tool passes along all of it. If
 * no width is given, the strip is as wide as the pass is deep. */
BITE_FORMULA void fill_bridge_bend(const bite_block *block, const bite_block_segment *segment,
                                   double *restrict bend)
{
    const double *depth = BITE_ROW(block, depth);
    const double *width = BITE_ROW(block, bridge_width);
    const double *span = BITE_ROW(block, bridge_span);
    const double *modulus = BITE_ROW(block, modulus);
    const double *poisson = BITE_ROW(block, poisson);
    const double *thickness = BITE_ROW(block, bridge_thickness);
    BITE_EACH_LANE(k, block)
    {
        bend[k] = segment->value[BITE_FORCE_SIDE_PEAK][k] *
                  bite_plate_strip(modulus[k], poisson[k], span[k], bite_or(width[k], depth[k]),
                                   thickness[k]);
    }
}

/* ---- which of them there are: a drill presses on floors alone ---- */

static int has_wall(const bite_block *block)
{
    return block->cut->operation == BITE_MILL && bite_is_given(BITE_ROW(block, wall_thickness));
}

static int has_open_floor(const bite_block *block)
{
    const double *thickness = BITE_ROW(block, floor_thickness);
    int thick = 0;
    for (int k = 0; k < block->lanes; k++) {
        thick |= thickness[k] > 0.0;
    }
    return thick && bite_is_given(BITE_ROW(block, floor_span));
}

static int has_bridge(const bite_block *block)
{
    return block->cut->operation == BITE_MILL && bite_is_given(BITE_ROW(block, bridge_span)) &&
           bite_is_given(BITE_ROW(block, bridge_thickness));
}

bite_why bite_limit_part_bend_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    if (has_wall(block) || has_open_floor(block) || has_bridge(block)) {
        return BITE_WHY_APPLIES;
    }
    return is_chamfer(block) && bite_is_given(BITE_ROW(block, wall_thickness)) ? BITE_WHY_CHAMFER
                                                                               : BITE_WHY_NOT_GIVEN;
}

bite_why bite_limit_part_gross_bend_omit(const bite_block *block, const bite_block_segment *segment)
{
    bite_why why = bite_limit_part_bend_omit(block, segment);
    if (why != BITE_WHY_APPLIES) {
        return why;
    }
    return bite_is_given(block->tolerance) ? BITE_WHY_TOLERANCE : BITE_WHY_APPLIES;
}

void bite_wall_gives(const bite_block *block, const bite_block_segment *segment, double *bend)
{
    BITE_EACH_LANE(k, block)
    {
        bend[k] = 0.0;
    }
    if (has_wall(block)) {
        fill_wall_bend(block, segment, segment->finish_bend, bend);
    }
}

/* ---- their limits ---- */

/* The larger one; NaN if one of them is NaN: what is not known may bend most. */
BITE_FORMULA void take_larger(const bite_block *block, const double *restrict bend,
                              double *restrict most)
{
    BITE_EACH_LANE(k, block)
    {
        double larger = bite_larger(bend[k], most[k]);
        most[k] = bend[k] == bend[k] ? larger : bend[k];
    }
}

/* The thin section that bends most counts. */
BITE_IN_LANES void bite_limit_part_bend(const bite_block *block, const bite_block_segment *segment,
                                        double *restrict demand, double *restrict capacity)
{
    bite_lanes bend;
    BITE_EACH_LANE(k, block)
    {
        demand[k] = 0.0;
        capacity[k] = tolerance_for_bending(block->tolerance[k]);
    }
    if (has_wall(block)) {
        fill_wall_bend(block, segment, segment->finish_bend, bend);
        take_larger(block, bend, demand);
    }
    if (has_open_floor(block)) {
        fill_floor_bend(block, segment, bend);
        take_larger(block, bend, demand);
    }
    if (has_bridge(block)) {
        fill_bridge_bend(block, segment, bend);
        take_larger(block, bend, demand);
    }
}

/* Share of its thickness by which a thin section may bend (estimate): plate theory treats a plate
 * as flat up to a fifth of its thickness (memory). */
static const double bending_share = 0.2;

/* What a section may bend, m; the pass removes its width from walls and bridges, across their
 * thickness. */
BITE_FORMULA void fill_bend_of_side(const bite_block *block, const bite_block_segment *segment,
                                    const double *restrict thickness, double *restrict most)
{
    BITE_EACH_LANE(k, block)
    {
        most[k] = bite_gross_deflection_capacity(thickness[k], bending_share,
                                                 segment->engaged[k] * segment->diameter[k]);
    }
}

/* The same of a floor, from which the pass removes its depth. */
BITE_FORMULA void fill_bend_of_floor(const bite_block *block, double *restrict most)
{
    const double *thickness = BITE_ROW(block, floor_thickness);
    const double *depth = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        most[k] = bite_gross_deflection_capacity(thickness[k], bending_share, depth[k]);
    }
}

/* The section with the highest utilization counts, one that is not known most. */
BITE_FORMULA void take_worse(const bite_block *block, const double *restrict bend,
                             const double *restrict most, double *restrict demand,
                             double *restrict capacity)
{
    bite_lanes worse;
    BITE_EACH_LANE(k, block)
    {
        worse[k] = bend[k] == bend[k] ? 0.0 : 1.0;
    }
    BITE_EACH_LANE(k, block)
    {
        worse[k] = bend[k] * capacity[k] > demand[k] * most[k] ? 1.0 : worse[k];
    }
    bite_take_where(block, worse, bend, demand);
    bite_take_where(block, worse, most, capacity);
}

BITE_IN_LANES void bite_limit_part_gross_bend(const bite_block *block,
                                              const bite_block_segment *segment,
                                              double *restrict demand, double *restrict capacity)
{
    bite_lanes bend;
    bite_lanes most;
    BITE_EACH_LANE(k, block)
    {
        demand[k] = -1.0; /* less than any */
        capacity[k] = 1.0;
    }
    if (has_wall(block)) {
        fill_wall_bend(block, segment, segment->wall_bend, bend);
        fill_bend_of_side(block, segment, BITE_ROW(block, wall_thickness), most);
        take_worse(block, bend, most, demand, capacity);
    }
    if (has_open_floor(block)) {
        fill_floor_bend(block, segment, bend);
        fill_bend_of_floor(block, most);
        take_worse(block, bend, most, demand, capacity);
    }
    if (has_bridge(block)) {
        fill_bridge_bend(block, segment, bend);
        fill_bend_of_side(block, segment, BITE_ROW(block, bridge_thickness), most);
        take_worse(block, bend, most, demand, capacity);
    }
}

/* ---- flatness and stock ---- */

/* Bow from stressed stock that was removed unevenly, and from one face that has grown more than the
 * other; both are assumed to bow the part the same way. */
BITE_IN_LANES void bite_limit_warp(const bite_block *block, const bite_block_segment *segment,
                                   double *restrict demand, double *restrict capacity)
{
    const double *removed_top = BITE_ROW(block, removed_top);
    const double *removed_below = BITE_ROW(block, removed_below);
    const double *stock = BITE_ROW(block, stock_thickness);
    const double *strain = BITE_ROW(block, face_strain);
    const double *modulus = BITE_ROW(block, modulus);
    const double *poisson = BITE_ROW(block, poisson);
    const double *stress = BITE_ROW(block, skin_stress);
    const double *span = BITE_ROW(block, part_span);
    const double *flatness = BITE_ROW(block, flatness);
    (void)segment;
    BITE_EACH_LANE(k, block)
    {
        double top = bite_or(removed_top[k], 0.0);
        double below = bite_or(removed_below[k], 0.0);
        double off = fabs(top - below);
        double left = bite_larger(stock[k] - top - below, 1e-5);
        double layers = bite_warp_layers(modulus[k], poisson[k], stress[k], stock[k], off, 0.0);
        double curvature = bite_warp_gradient(bite_or(strain[k], 0.0), left);
        curvature += off > 0.0 ? layers : 0.0; /* stress that is not known does not matter */
        demand[k] = bite_warp_bow(curvature, span[k]);
        capacity[k] = flatness[k];
    }
}

bite_why bite_limit_warp_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    return bite_is_given(BITE_ROW(block, flatness)) && bite_is_given(BITE_ROW(block, part_span)) &&
                   bite_is_given(BITE_ROW(block, stock_thickness))
               ? BITE_WHY_APPLIES
               : BITE_WHY_NOT_GIVEN;
}

BITE_IN_LANES void bite_limit_stock_thickness(const bite_block *block,
                                              const bite_block_segment *segment,
                                              double *restrict demand, double *restrict capacity)
{
    const double *part = BITE_ROW(block, part_thickness);
    const double *skim = BITE_ROW(block, skim);
    const double *stock = BITE_ROW(block, stock_thickness);
    const double *tolerance = BITE_ROW(block, stock_tolerance);
    (void)segment;
    BITE_EACH_LANE(k, block)
    {
        demand[k] = part[k] + bite_or(skim[k], 0.0);
        capacity[k] = stock[k] - bite_or(tolerance[k], 0.0);
    }
}
