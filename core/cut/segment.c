/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All values of one segment of the path: kinematics, chips, forces, heat, bending and finish, each
 * from a file of core/physics. */
#include "core/cut/segment.h"
#include "core/cut/chatter_depth.h"
#include "core/cut/physics_inputs.h"
#include "core/cut/segment_heat.h"
#include "core/physics/elastic/tool_deflection.h"
#include "core/physics/force/chamfer_mill.h"
#include "core/physics/force/corner_radius_mill.h"
#include "core/physics/force/square_end_mill.h"
#include "core/physics/force/twist_drill.h"
#include "core/physics/geometry/chip_thickness.h"
#include "core/physics/geometry/kinematics.h"
#include "core/physics/geometry/surface_finish.h"
#include <math.h>
#include <string.h>

/* End teeth are dished by about two degrees (memory). */
static const double dish = 0.034906585039886591;

/* Taylor tool life, s, from the speed at which the edge lasts a minute. */
static double tool_life(const bite_cut *cut, double speed)
{
    return 60.0 * pow(cut->taylor_speed / speed, 1.0 / cut->taylor_exponent);
}

static void fill_motion(const bite_cut *cut, bite_arc arc, const bite_chip *chip,
                        bite_segment *segment)
{
    double *value = segment->value;
    int flutes = (int)cut->flutes;
    double diameter = bite_cutting_diameter(cut);
    double effective = bite_kinematics_effective_diameter(
        diameter, isnan(cut->corner_radius) ? 0.0 : cut->corner_radius, cut->depth);
    double feed = bite_kinematics_tooth_feed(cut->feed_rate, cut->spindle_speed, cut->flutes);
    double width = 0.5 * diameter * (1.0 - cos(bite_engagement_span(arc)));
    value[BITE_SURFACE_SPEED] = bite_kinematics_surface_speed(effective, cut->spindle_speed);
    value[BITE_SPINDLE_SPEED] = cut->spindle_speed;
    value[BITE_FEED_RATE] = cut->feed_rate;
    value[BITE_CHIP_LOAD] = feed;
    value[BITE_CHIP_LOAD_HEAVY] = bite_chip_heavy(feed, flutes, cut->runout);
    value[BITE_CHIP_LOAD_LIGHT] = bite_chip_light(feed, flutes, cut->runout);
    value[BITE_CHIP_THICKNESS_MAX] = feed * bite_engagement_sine_most(arc);
    value[BITE_CHIP_THICKNESS_MEAN] = feed * bite_engagement_sine_mean(arc);
    value[BITE_CHIP_THICKNESS_LEAST] = bite_cut_least_chip(cut);
    value[BITE_ENGAGEMENT] = bite_engagement_span(arc);
    value[BITE_REMOVAL_RATE] = bite_kinematics_removal_rate(cut->depth, width, cut->feed_rate);
    value[BITE_TOOL_LIFE] = isnan(cut->taylor_speed) || isnan(cut->taylor_exponent)
                                ? (double)NAN
                                : tool_life(cut, value[BITE_SURFACE_SPEED]);
    segment->heavy_chip = chip->most;
    segment->engaged = width / diameter;
}

static bite_edge_contact contact_of_chip(const bite_cut *cut, const bite_chip *chip)
{
    double thick = chip->arc > 0.0 ? chip->area / chip->arc : 0.0;
    bite_edge_contact contact = {bite_kinematics_surface_speed(cut->diameter, cut->spindle_speed),
                                 thick, cut->depth, chip->arc / (2.0 * M_PI), chip->feed_real};
    return contact;
}

/* The speed is the one at which the mean force makes the mean power, so that heat and force agree.
 */
static bite_edge_contact contact_of_mill(const bite_cut *cut, const bite_corner_mill *mill,
                                         const bite_chip *chip)
{
    double speed = 2.0 * M_PI * cut->spindle_speed * mill->torque_mean / mill->mean.tangential;
    bite_edge_contact contact = {speed, mill->chip_mean, mill->edge_length, mill->teeth_edge,
                                 chip->feed_real};
    return contact;
}

static void fill_loads(const bite_cut *cut, const bite_pressure *pressure,
                       const bite_force_peaks *peaks, const bite_load *mean, double torque_peak,
                       double torque_mean, bite_segment *segment)
{
    double *value = segment->value;
    value[BITE_FORCE_TANGENTIAL_PEAK] = peaks->tangential;
    value[BITE_FORCE_SIDE_PEAK] = peaks->side;
    value[BITE_FORCE_SIDE_MEAN] = hypot(mean->x, mean->y);
    value[BITE_FORCE_LIFT_PEAK] = peaks->lift;
    value[BITE_TORQUE_PEAK] = torque_peak;
    value[BITE_POWER_MEAN] = 2.0 * M_PI * cut->spindle_speed * torque_mean;
    value[BITE_SPECIFIC_ENERGY] = value[BITE_POWER_MEAN] / value[BITE_REMOVAL_RATE];
    value[BITE_EDGE_LOAD] =
        pressure->tangential * bite_chip_peak(segment->heavy_chip, bite_cut_least_chip(cut)) +
        pressure->edge_tangential;
    segment->torque_mean = torque_mean;
}

static void fill_bending(const bite_cut *cut, bite_arc arc, const bite_pressure *pressure,
                         const bite_tool_deflection *deflection, bite_segment_cache *cache,
                         bite_segment *segment)
{
    bite_tool_body tool = bite_cut_tool_body(cut);
    double *value = segment->value;
    segment->compliance = deflection->compliance;
    bite_segment_fill_chatter(cut, arc, pressure, deflection, cache, segment);
    value[BITE_DEFLECTION_TIP] =
        value[BITE_FORCE_SIDE_PEAK] * bite_tool_deflection_at(deflection, 0.0);
    value[BITE_TOOL_STRESS] =
        bite_tool_stress(&tool, value[BITE_FORCE_SIDE_PEAK], value[BITE_TORQUE_PEAK]);
}

/* The pressure for the peaks: at the thickest chip that a tooth may cut. */
static bite_pressure peak_pressure(const bite_cut *cut, const bite_pressure *pressure, double h)
{
    double factor = h > 0.0 ? bite_chip_peak(h, bite_cut_least_chip(cut)) / h : 1.0;
    return bite_pressure_thicker(pressure, factor);
}

/* With runout the tool cuts a width of D + TIR: half of the runout is removed from each wall. */
static void fill_walls(const bite_cut *cut, bite_wall_errors bends, bite_segment *segment)
{
    double *value = segment->value;
    value[BITE_WALL_CLIMB] = bends.climb - 0.5 * cut->runout;
    value[BITE_WALL_CONVENTIONAL] = bends.conventional - 0.5 * cut->runout;
    /* fmax ignores the NaN of a wall that does not exist */
    value[BITE_WALL_ERROR] =
        fmax(fabs(value[BITE_WALL_CLIMB]), fabs(value[BITE_WALL_CONVENTIONAL]));
    segment->wall_bend = fmax(fabs(bends.climb), fabs(bends.conventional));
}

/* A square tool: peak and mean forces, and deflection, stress and wall error from them. */
static bite_edge_contact fill_square(const bite_cut *cut, bite_arc arc,
                                     const bite_pressure *pressure, bite_segment_cache *cache,
                                     bite_segment *segment)
{
    double radius = 0.5 * cut->diameter;
    bite_edge_cache *edge = bite_segment_cache_edges(cache, cut, arc);
    bite_force *force = &edge->force;
    bite_pressure peak = peak_pressure(cut, pressure, segment->heavy_chip);
    bite_force_set_pressure(force, pressure, &peak);
    fill_loads(cut, pressure, &force->peaks, &force->mean, force->peaks.tangential * radius,
               force->mean.tangential * radius, segment);
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    fill_bending(cut, arc, pressure, &deflection, cache, segment);
    fill_walls(
        cut,
        bite_tool_deflection_wall_errors(&deflection, pressure, &force->edges, arc, &edge->wall),
        segment);
    return contact_of_chip(cut, &cache->chip);
}

/* The same for a tool with a corner radius. */
static bite_edge_contact fill_corner_radius(const bite_cut *cut, bite_arc arc,
                                            const bite_pressure *pressure,
                                            bite_segment_cache *cache, bite_segment *segment)
{
    bite_corner_mill mill;
    bite_corner_tool corner = bite_cut_corner_tool(cut);
    bite_corner_mill_forces(&corner, segment->engaged * cut->diameter,
                            segment->value[BITE_CHIP_LOAD], pressure, &cache->scratch->turn,
                            bite_segment_cache_take_force(cache), &mill);
    segment->value[BITE_REMOVAL_RATE] = mill.section * cut->feed_rate;
    segment->heavy_chip = mill.heavy_chip;
    fill_loads(cut, pressure, &mill.peaks, &mill.mean, mill.torque_peak, mill.torque_mean, segment);
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    fill_bending(cut, arc, pressure, &deflection, cache, segment);
    bite_wall_errors bends = {
        mill.wall_force[1] * bite_tool_deflection_at(&deflection, mill.wall_height[1]),
        mill.wall_force[0] * bite_tool_deflection_at(&deflection, mill.wall_height[0])};
    fill_walls(cut, bends, segment);
    return contact_of_mill(cut, &mill, &cache->chip);
}

/* The side force that runout leaves unbalanced pushes the point towards the centre, and vanishes
 * once it is there: the cut, of stiffness S/runout, and the drill, in series, share the runout
 * (derived here; a long drill centres itself, a rigid one breaks). */
static double side_of_drill(const bite_cut *cut, const bite_drill *drill,
                            const bite_tool_deflection *deflection)
{
    double compliance_ratio =
        cut->flutes > 1.0 && cut->runout > 0.0
            ? drill->side * bite_tool_deflection_at(deflection, 0.0) / cut->runout
            : 0.0;
    return drill->side / (1.0 + compliance_ratio);
}

/* A drill: forces on its lips; its only side force is the one from runout. */
static bite_edge_contact fill_drill(const bite_cut *cut, const bite_pressure *pressure,
                                    bite_segment *segment)
{
    double *value = segment->value;
    double feed = value[BITE_CHIP_LOAD];
    bite_drill drill;
    bite_drill_shape shape = bite_cut_drill_shape(cut);
    bite_drill_forces(&shape, feed, pressure, &drill);
    value[BITE_CHIP_THICKNESS_MAX] = value[BITE_CHIP_THICKNESS_MEAN] = drill.chip;
    value[BITE_REMOVAL_RATE] = 0.25 * M_PI * cut->diameter * cut->diameter * cut->feed_rate;
    value[BITE_ROUGHNESS_FLOOR] = value[BITE_ROUGHNESS_WALL] = value[BITE_HAZE] = (double)NAN;
    segment->heavy_chip = drill.heavy_chip;
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    drill.side = side_of_drill(cut, &drill, &deflection);
    bite_force_peaks peaks = {drill.tangential, drill.side, -drill.thrust};
    bite_load mean = {drill.tangential, 0.0, 0.0, -drill.thrust};
    fill_loads(cut, pressure, &peaks, &mean, drill.torque, drill.torque, segment);
    double core = cut->core_share * cut->diameter;
    segment->compliance = deflection.compliance;
    value[BITE_DEFLECTION_TIP] = drill.side * bite_tool_deflection_at(&deflection, 0.0);
    value[BITE_TOOL_STRESS] = bite_tool_stress(&tool, drill.side, drill.torque) +
                              drill.thrust / (0.25 * M_PI * core * core);
    bite_edge_contact contact = {M_PI * cut->diameter * cut->spindle_speed * 0.5, drill.chip,
                                 drill.lip, cut->flutes, feed};
    return contact;
}

/* Chips on a cone are thinner by the slope of the edge; feed marks are highest where the cone is
 * thinnest: across the face it is curved like a circle of r/cos(taper). A quarter of the face may
 * be burnished rather than cut (estimate): the chip of the thin end is computed at that height. */
static const double thin_end = 0.25;

static void fill_cone(const bite_cut *cut, bite_arc arc, const bite_chip *chip,
                      bite_segment *segment)
{
    bite_chamfer_shape shape = bite_cut_chamfer_shape(cut);
    bite_cone cone = bite_chamfer_cone_in(&shape, arc);
    double *value = segment->value;
    value[BITE_CHIP_THICKNESS_MAX] *= cone.sine;
    value[BITE_CHIP_THICKNESS_MEAN] *= cone.sine;
    value[BITE_REMOVAL_RATE] = bite_chamfer_section(&cone) * cut->feed_rate;
    value[BITE_SURFACE_SPEED_SMALL] =
        bite_kinematics_surface_speed(2.0 * cone.small, cut->spindle_speed);
    value[BITE_ROUGHNESS_WALL] =
        bite_finish_wall(value[BITE_CHIP_LOAD_HEAVY], 2.0 * cone.small / cone.sine);
    value[BITE_ROUGHNESS_FLOOR] = value[BITE_HAZE] = (double)NAN;
    segment->heavy_chip = bite_chamfer_chip(&cone, chip, (bite_side)cut->side, 1.0);
    segment->thin_chip = bite_chamfer_chip(&cone, chip, (bite_side)cut->side, thin_end);
}

/* Over the whole depth the arc is assumed to be as long as at the upper end, and the yielding of
 * the tool along its axis is left out: both are on the safe side. A sideways deflection of the face
 * changes the width of the chamfer by the same amount. */
static bite_edge_contact fill_chamfer(const bite_cut *cut, bite_arc arc, const bite_chip *chip,
                                      const bite_pressure *pressure, bite_segment_cache *cache,
                                      bite_segment *segment)
{
    bite_corner_mill sum;
    bite_chamfer_tool mill = bite_cut_chamfer_tool(cut);
    bite_chamfer_forces(&mill, arc, chip, pressure, &sum);
    fill_loads(cut, pressure, &sum.peaks, &sum.mean, sum.torque_peak, sum.torque_mean, segment);
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    fill_bending(cut, arc, pressure, &deflection, cache, segment);
    bite_wall_errors bends = {sum.wall_force[1] * deflection.compliance,
                              sum.wall_force[0] * deflection.compliance};
    fill_walls(cut, bends, segment);
    return contact_of_mill(cut, &sum, chip);
}

/* Chips and feed marks of a groove that is engraved with a conical tool: the chip is thinner by the
 * inclination of the edge, and feed marks are highest at the tip. */
static void fill_groove_shape(const bite_cut *cut, bite_segment *segment)
{
    bite_groove groove = bite_cut_groove(cut);
    double *value = segment->value;
    value[BITE_CHIP_THICKNESS_MAX] *= cos(cut->taper);
    value[BITE_CHIP_THICKNESS_MEAN] *= cos(cut->taper);
    value[BITE_REMOVAL_RATE] = bite_groove_mean_diameter(&groove) * cut->depth * cut->feed_rate;
    value[BITE_ROUGHNESS_WALL] =
        bite_finish_wall(value[BITE_CHIP_LOAD_HEAVY], cut->tip_diameter / cos(cut->taper));
    segment->heavy_chip *= cos(cut->taper);
}

/* Forces as for a square tool of the diameter at half of the depth, at the pressure on the inclined
 * edge (core/physics/force/v_groove.h). Each wall is assumed to be finished under the load at half
 * of the depth. The stress in the thin tip is computed from the load distributed along it. */
static bite_edge_contact fill_groove(const bite_cut *cut, bite_arc arc, const bite_chip *chip,
                                     const bite_pressure *pressure, bite_segment_cache *cache,
                                     bite_segment *segment)
{
    bite_groove groove = bite_cut_groove(cut);
    bite_cut square = *cut;
    square.diameter = bite_groove_mean_diameter(&groove);
    double radius = 0.5 * square.diameter;
    bite_edge_cache *edge = bite_segment_cache_edges(cache, &square, arc);
    bite_force *force = &edge->force;
    bite_pressure inclined = bite_groove_pressure(pressure, cut->taper);
    bite_pressure peak = peak_pressure(cut, &inclined, segment->heavy_chip);
    bite_force_set_pressure(force, &inclined, &peak);
    fill_loads(cut, &inclined, &force->peaks, &force->mean, force->peaks.tangential * radius,
               force->mean.tangential * radius, segment);
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    fill_bending(cut, arc, pressure, &deflection, cache, segment);
    double *value = segment->value;
    value[BITE_TOOL_STRESS] = fmax(
        value[BITE_TOOL_STRESS],
        bite_groove_tip_stress(&groove, cut->diameter, cut->core_share, value[BITE_FORCE_SIDE_PEAK],
                               value[BITE_TORQUE_PEAK], cut->tool_material == BITE_TOOL_HSS));
    bite_tool_deflection even = deflection;
    even.slope = 0.0;
    fill_walls(cut,
               bite_tool_deflection_wall_errors(&even, &inclined, &force->edges, arc, &edge->wall),
               segment);
    bite_edge_contact contact = contact_of_chip(&square, chip);
    contact.chip *= cos(cut->taper);
    contact.length = cut->depth / cos(cut->taper);
    return contact;
}

static void fill_finish(const bite_cut *cut, bite_segment *segment)
{
    /* with runout the heavy tooth finishes the surface, with marks at its own feed */
    double feed = segment->value[BITE_CHIP_LOAD_HEAVY];
    segment->value[BITE_ROUGHNESS_WALL] = bite_finish_wall(feed, cut->diameter);
    segment->value[BITE_ROUGHNESS_FLOOR] = bite_finish_floor(feed, cut->corner_radius, dish);
    segment->value[BITE_HAZE] = bite_finish_haze(segment->value[BITE_ROUGHNESS_FLOOR],
                                                 cut->refraction); /* NaN: not transparent */
}

/* The flutes of a drill lift chips that would stay in a slot: a peck may be this many times deeper
 * (estimate: pecks of three diameters are common practice). */
static const double drill_packing_share = 3.0;

/* Chips have no exit from a slot; a side cut throws them out (estimate: fitted to public reports).
 */
static double packing_share(double engaged)
{
    double share = 0.15 + 0.85 * (engaged - 0.3) / 0.7;
    return fmin(1.0, fmax(0.15, share));
}

/* Share of a tool's section that all the pockets of its teeth have together, by flutes (memory:
 * sections of makers' end mills). */
static const double pocket_shares[] = {0.46, 0.46, 0.44, 0.39, 0.36};

/* Volume of a tooth's chips / volume of its pocket: chip_bulk times the section that one tooth
 * removes, fz ae, times z, over the share of the section that the pockets have. */
static double pocket_filled(const bite_cut *cut, double tooth_feed, double engaged)
{
    int flutes = (int)cut->flutes;
    double diameter = bite_cutting_diameter(cut);
    return cut->chip_bulk * tooth_feed * engaged * diameter * cut->flutes /
           (pocket_shares[flutes > 5 ? 4 : flutes - 1] * 0.25 * M_PI * diameter * diameter);
}

void bite_segment_blank(bite_segment *segment)
{
    memset(segment, 0, sizeof *segment);
    for (int i = 0; i < BITE_VALUE_COUNT; i++) {
        segment->value[i] = (double)NAN;
    }
    for (int i = 0; i < 4; i++) {
        segment->heat_share[i] = (double)NAN;
    }
    segment->torque_mean = (double)NAN;
    segment->heat_power = (double)NAN;
    segment->energy_gap = (double)NAN;
    segment->compliance = (double)NAN;
    segment->chip_rise = segment->wall_bend = (double)NAN;
    segment->wall.rise = segment->floor.rise = (double)NAN;
}

void bite_segment_compute_cached(const bite_cut *cut, bite_arc arc, bite_segment_cache *cache,
                                 bite_segment *segment)
{
    bite_segment_blank(segment);
    double feed = bite_kinematics_tooth_feed(cut->feed_rate, cut->spindle_speed, cut->flutes);
    const bite_chip *chip = bite_segment_cache_chip(cache, cut, arc, feed);
    fill_motion(cut, arc, chip, segment);
    fill_finish(cut, segment);
    segment->packing = cut->depth / bite_cutting_diameter(cut) * packing_share(segment->engaged);
    segment->pocket = pocket_filled(cut, feed, segment->engaged);
    if (cut->operation == BITE_DRILL_HOLE) {
        segment->packing = cut->depth / cut->diameter / drill_packing_share;
    }
    if (cut->operation == BITE_CHAMFER) {
        fill_cone(cut, arc, chip, segment);
    }
    if (bite_cut_is_groove(cut)) {
        fill_groove_shape(cut, segment);
    }
    bite_pressure pressure;
    double shear_time =
        fmax(segment->value[BITE_CHIP_THICKNESS_MEAN], segment->value[BITE_CHIP_THICKNESS_LEAST]) /
        segment->value[BITE_SURFACE_SPEED];
    if (bite_cut_pressure(cut, shear_time, &pressure)) {
        bite_edge_contact at =
            cut->operation == BITE_DRILL_HOLE ? fill_drill(cut, &pressure, segment)
            : cut->operation == BITE_CHAMFER
                ? fill_chamfer(cut, arc, chip, &pressure, cache, segment)
            : bite_cut_is_groove(cut)  ? fill_groove(cut, arc, chip, &pressure, cache, segment)
            : cut->corner_radius > 0.0 ? fill_corner_radius(cut, arc, &pressure, cache, segment)
                                       : fill_square(cut, arc, &pressure, cache, segment);
        bite_segment_fill_heat(cut, &at, &pressure, cache->fin, segment);
    }
}
