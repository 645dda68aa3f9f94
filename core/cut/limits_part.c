/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the part: size, corner, gap, finish, edges, thin sections, flatness and stock. */
#include "core/cut/limits_part.h"
#include "core/cut/gross_deflection.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/elastic/thin_plate.h"
#include "core/physics/elastic/warp.h"
#include <math.h>
#include <string.h>

const double bite_tolerance_default = 0.1e-3; /* m */

static int is_chamfer(const bite_limit_case *limit)
{
    return limit->cut->operation == BITE_CHAMFER;
}

/* Half of the tolerance is available to the cut; the rest is for the machine, the datum and the
 * gauge. */
static double tolerance_for_bending(const bite_limit_case *limit)
{
    return 0.5 * (limit->advisory ? bite_tolerance_default : limit->requested->tolerance);
}

void bite_limit_deflection(bite_limit_case *limit)
{
    limit->advisory = isnan(limit->requested->tolerance) ? 1U : 0U;
    bite_limit_set(limit, limit->segment->value[BITE_WALL_ERROR], tolerance_for_bending(limit));
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
}

/* A corner may come out larger than requested by the tolerance if one was given, else by nothing.
 */
void bite_limit_corner(bite_limit_case *limit)
{
    double more = isnan(limit->requested->tolerance) ? 0.0 : limit->requested->tolerance;
    bite_limit_set(limit,
                   is_chamfer(limit) ? bite_cut_cone(limit->cut).small
                                     : 0.5 * bite_cutting_diameter(limit->cut),
                   limit->cut->inside_radius + more);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
}

/* Width of a cone beside a wall: its small end on the side of the wall, and the large end on the
 * far side, whose edge is still there. */
static double cone_width(const bite_cut *cut)
{
    bite_cone cone = bite_cut_cone(cut);
    return cone.small + cone.large;
}

void bite_limit_gap(bite_limit_case *limit)
{
    bite_limit_set(
        limit,
        (is_chamfer(limit) ? cone_width(limit->cut) : bite_cutting_diameter(limit->cut)) +
            limit->cut->runout,
        limit->cut->gap);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
}

/* Marks of a parabola or a saw tooth: Ra is close to a quarter of their height. */
void bite_limit_finish(bite_limit_case *limit)
{
    const double *value = limit->segment->value;
    double worst = fmax(value[BITE_ROUGHNESS_FLOOR], value[BITE_ROUGHNESS_WALL]);
    limit->advisory = 0;
    bite_limit_set(limit, 0.25 * worst, limit->requested->finish);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
}

void bite_limit_edge_chip(bite_limit_case *limit)
{
    bite_limit_set(limit, limit->segment->heavy_chip, limit->cut->chip_edge);
    limit->advisory = 1;
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
}

/* ---- thin sections ---- */

/* A wall whose length is given is free at its end, or supported there by the other walls of a
 * pocket: then the middle of the wall counts. */
static double wall_alpha(const bite_cut *cut, double height)
{
    double ratio = isnan(cut->wall_length) ? INFINITY : cut->wall_length / height;
    if (cut->wall_ends == BITE_WALL_HELD) {
        return bite_plate_pocket_wall(ratio);
    }
    return isnan(cut->wall_length) ? bite_plate_wall_middle(ratio) : bite_plate_wall_end(ratio);
}

/* The finishing force on the wall is the force that bends the tool by the wall error. */
static double wall_bend(const bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    double height = isnan(cut->wall_height)
                        ? fmax(cut->depth, isnan(cut->feature_depth) ? 0.0 : cut->feature_depth)
                        : cut->wall_height;
    double force = limit->segment->wall_bend / limit->segment->compliance;
    return wall_alpha(cut, height) * force * height * height /
           bite_plate_rigidity(cut->modulus, cut->poisson, cut->wall_thickness);
}

static double floor_bend(const bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    double alpha =
        bite_plate_floor(isnan(cut->floor_length) ? INFINITY : cut->floor_length / cut->floor_span);
    double side =
        isnan(cut->floor_length) ? cut->floor_span : fmin(cut->floor_span, cut->floor_length);
    return alpha * fabs(limit->segment->value[BITE_FORCE_LIFT_PEAK]) * side * side /
           bite_plate_rigidity(cut->modulus, cut->poisson, cut->floor_thickness);
}

/* The whole side force acts at the middle of the strip, since the tool passes along all of it. If
 * no width is given, the strip is as wide as the pass is deep. */
static double bridge_bend(const bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    double width = isnan(cut->bridge_width) ? cut->depth : cut->bridge_width;
    return limit->segment->value[BITE_FORCE_SIDE_PEAK] *
           bite_plate_strip(cut->modulus, cut->poisson, cut->bridge_span, width,
                            cut->bridge_thickness);
}

typedef struct thin_section {
    int present;
    double bend;      /* m, 0 if not present */
    double thickness; /* m */
    double removed;   /* m, by the pass across the thickness */
} thin_section;

enum { THIN_WALL, THIN_FLOOR, THIN_BRIDGE, THIN_SECTIONS };

/* A drill presses on floors alone. Returns 0 if nothing is thin. */
static int find_thin_sections(const bite_limit_case *limit, thin_section sections[THIN_SECTIONS])
{
    const bite_cut *cut = limit->cut;
    double width = bite_gross_deflection_width(limit);
    int mills = cut->operation == BITE_MILL;
    int wall = !isnan(cut->wall_thickness) && mills;
    int open_floor = !isnan(cut->floor_span) && cut->floor_thickness > 0.0;
    int bridge = !isnan(cut->bridge_span) && !isnan(cut->bridge_thickness) && mills;
    const thin_section all[THIN_SECTIONS] = {
        [THIN_WALL] = {wall, wall ? wall_bend(limit) : 0.0, cut->wall_thickness, width},
        [THIN_FLOOR] = {open_floor, open_floor ? floor_bend(limit) : 0.0, cut->floor_thickness,
                        cut->depth},
        [THIN_BRIDGE] = {bridge, bridge ? bridge_bend(limit) : 0.0, cut->bridge_thickness, width},
    };
    memcpy(sections, all, sizeof all);
    return wall || open_floor || bridge;
}

/* NaN if any of them is NaN, which fmax would drop. */
static double sum_of_bends(const thin_section sections[THIN_SECTIONS])
{
    return sections[THIN_WALL].bend + sections[THIN_FLOOR].bend + sections[THIN_BRIDGE].bend;
}

static void omit_nothing_thin(bite_limit_case *limit)
{
    int cone = is_chamfer(limit) && !isnan(limit->cut->wall_thickness);
    bite_limit_omit(limit, cone ? BITE_WHY_CHAMFER : BITE_WHY_NOT_GIVEN);
}

/* The thin section that bends most counts. */
void bite_limit_part_bend(bite_limit_case *limit)
{
    thin_section sections[THIN_SECTIONS];
    int any = find_thin_sections(limit, sections);
    limit->advisory = isnan(limit->requested->tolerance) ? 1U : 0U;
    bite_limit_set(
        limit,
        fmax(fmax(sections[THIN_WALL].bend, sections[THIN_FLOOR].bend), sections[THIN_BRIDGE].bend),
        tolerance_for_bending(limit));
    bite_limit_require(limit, sum_of_bends(sections), BITE_WHY_NO_DATA);
    if (!any) {
        omit_nothing_thin(limit);
    }
}

/* Share of its thickness by which a thin section may bend (estimate): plate theory treats a plate
 * as flat up to a fifth of its thickness (memory). */
static const double bending_share = 0.2;

/* The section with the highest utilization counts. */
void bite_limit_part_gross_bend(bite_limit_case *limit)
{
    thin_section sections[THIN_SECTIONS];
    int any = find_thin_sections(limit, sections);
    for (int i = 0; i < THIN_SECTIONS; i++) {
        const thin_section *section = &sections[i];
        double capacity =
            bite_gross_deflection_capacity(section->thickness, bending_share, section->removed);
        /* not > of the opposite sides: the first section replaces the NaN of a new case */
        if (section->present && !(section->bend * limit->capacity <= limit->demand * capacity)) {
            bite_limit_set(limit, section->bend, capacity);
        }
    }
    bite_limit_require(limit, sum_of_bends(sections), BITE_WHY_NO_DATA);
    bite_gross_deflection_omit_if_toleranced(limit);
    if (!any) {
        omit_nothing_thin(limit);
    }
}

/* ---- flatness and stock ---- */

static double or_zero(double figure)
{
    return isnan(figure) ? 0.0 : figure;
}

/* Bow from stressed stock that was removed unevenly, and from one face that has grown more than the
 * other; both are assumed to bow the part the same way. */
void bite_limit_warp(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    double top = or_zero(cut->removed_top);
    double below = or_zero(cut->removed_below);
    double off = fabs(top - below);
    double left = fmax(cut->stock_thickness - top - below, 1e-5);
    double curvature = bite_warp_gradient(or_zero(cut->face_strain), left);
    if (off > 0.0) {
        curvature += bite_warp_layers(cut->modulus, cut->poisson, cut->skin_stress,
                                      cut->stock_thickness, off, 0.0);
    }
    bite_limit_set(limit, bite_warp_bow(curvature, cut->part_span), cut->flatness);
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
    bite_limit_require(limit, cut->flatness + cut->part_span + cut->stock_thickness,
                       BITE_WHY_NOT_GIVEN);
}

void bite_limit_stock_thickness(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    bite_limit_set(limit, cut->part_thickness + or_zero(cut->skim),
                   cut->stock_thickness - or_zero(cut->stock_tolerance));
    bite_limit_require(limit, limit->demand + limit->capacity, BITE_WHY_NOT_GIVEN);
}
