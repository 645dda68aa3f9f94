/* SPDX-License-Identifier: GPL-3.0-or-later */
/* All values of one segment of the path: kinematics, chips, forces, heat, bending and finish, each
 * from a file of core/physics. */
#include "core/cut/segment.h"
#include "core/cut/physics_inputs.h"
#include "core/cut/segment_heat.h"
#include "core/physics/dynamics/semi_discretization.h"
#include "core/physics/dynamics/tool_modes.h"
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

/* Below this width over diameter the zero-order solution errs by a tenth and more. */
static const double light_width = 0.4;
static const double delay_precision = 1e-4;

int bite_cut_has_measured_modes(const bite_cut *cut)
{
    return !isnan(cut->mode_frequency) || !isnan(cut->mode2_frequency) ||
           !isnan(cut->mode3_frequency);
}

/* The measured modes, taken as alike along both axes. */
static bite_axis_modes measured_modes(const bite_cut *cut)
{
    const double measured[][3] = {{cut->mode_frequency, cut->mode_stiffness, cut->mode_damping},
                                  {cut->mode2_frequency, cut->mode2_stiffness, cut->mode2_damping},
                                  {cut->mode3_frequency, cut->mode3_stiffness, cut->mode3_damping}};
    bite_axis_modes axis = {.count = 0};
    for (size_t i = 0; i < sizeof measured / sizeof *measured; i++) {
        if (!isnan(measured[i][0])) {
            double stiffness = isnan(measured[i][1]) ? cut->machine_stiffness : measured[i][1];
            axis.modes[axis.count++] = bite_mode_plain(measured[i][0], stiffness, measured[i][2]);
        }
    }
    return axis;
}

/* The mode of the tool itself: its damping over that of machine and part (memory: solid tools in
 * collets 0.5 to 3 %), and the amplitude from which a shop calls it chatter: as high as the chip is
 * thick, so that teeth leave the cut, or 10 um either way (estimate). */
static const double tool_damping_share = 0.5;
static const double chatter_amplitude = 10e-6;

/* Depth that the modes of the machine and of the tool allow; by_stiffness: depth for each N/m of
 * stiffness; slope: share/damping. Small tools vibrate at many kHz: their waves are short, and the
 * flank rubs on them, which damps. The waves of a long tool are not short. */
static double stability_of_both(const bite_cut *cut, bite_arc arc,
                                const bite_tool_deflection *deflection, double slope,
                                double by_stiffness, bite_segment_cache *cache,
                                const bite_segment *segment)
{
    double stiff = tool_damping_share / deflection->tool;
    double machine = isnan(cut->mode_stiffness) ? cut->machine_stiffness : cut->mode_stiffness;
    double most = machine * by_stiffness;
    if (stiff >= machine) {
        return most;
    }
    bite_ripple waves = {segment->value[BITE_SURFACE_SPEED] /
                             bite_fin_cache_frequency(cache->fin, cut, &deflection->shaft),
                         fmin(chatter_amplitude, 0.5 * segment->value[BITE_CHIP_THICKNESS_MAX]),
                         cut->edge_radius};
    return fmin(most, stiff * by_stiffness * bite_chatter_damped_by_flank(&waves, arc, slope));
}

/* If no mode was measured, no frequency can be trusted: the worst speed counts, for the mode of the
 * machine and for that of the tool. */
static double stability_unmeasured(const bite_cut *cut, bite_arc arc, const bite_pressure *pressure,
                                   double ratio, const bite_tool_deflection *deflection,
                                   bite_segment_cache *cache, const bite_segment *segment)
{
    double share =
        bite_chatter_share(bite_segment_cache_roots(cache, arc, ratio), cut->mode_damping);
    return stability_of_both(cut, arc, deflection, share / cut->mode_damping,
                             share / (cut->flutes * pressure->tangential), cache, segment);
}

/* Depth above which the cut chatters, m. */
static double stability(const bite_cut *cut, bite_arc arc, const bite_pressure *pressure,
                        const bite_tool_deflection *deflection, bite_segment_cache *cache,
                        const bite_segment *segment)
{
    double radial_share =
        cut->operation == BITE_CHAMFER || bite_cut_is_groove(cut)
            ? cos(cut->taper)
            : 1.0; /* share of the normal force on a cone that acts across the axis */
    double ratio = radial_share * bite_pressure_ratio(cut->pressure_r, pressure);
    if (!bite_cut_has_measured_modes(cut)) {
        return stability_unmeasured(cut, arc, pressure, ratio, deflection, cache, segment);
    }
    bite_chatter_case problem = {
        .arc = arc, .teeth = cut->flutes, .tangential = pressure->tangential, .ratio = ratio};
    problem.x = problem.y = measured_modes(cut);
    double depth = bite_chatter_at(&problem, cut->spindle_speed);
    bite_semidiscrete_room room = {cache->scratch->delay,
                                   sizeof cache->scratch->delay / sizeof *cache->scratch->delay};
    return segment->engaged < light_width && isfinite(depth)
               ? bite_semidiscrete_limit(&problem, depth, cut->spindle_speed,
                                         BITE_SEGMENT_SEMIDISCRETE_STEPS, delay_precision, room)
               : depth;
}

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
static bite_edge_contact contact_of_round(const bite_cut *cut, const bite_corner_mill *mill,
                                          const bite_chip *chip)
{
    double speed = 2.0 * M_PI * cut->spindle_speed * mill->torque_mean / mill->mean.tangential;
    bite_edge_contact contact = {speed, mill->chip_mean, mill->edge_length, mill->teeth_edge,
                                 chip->feed_real};
    return contact;
}

static void fill_loads(const bite_cut *cut, const bite_force_peaks *peaks, const bite_load *mean,
                       double torque_peak, double torque_mean, bite_segment *segment)
{
    double *value = segment->value;
    value[BITE_FORCE_TANGENTIAL_PEAK] = peaks->tangential;
    value[BITE_FORCE_SIDE_PEAK] = peaks->side;
    value[BITE_FORCE_SIDE_MEAN] = hypot(mean->x, mean->y);
    value[BITE_FORCE_LIFT_PEAK] = peaks->lift;
    value[BITE_TORQUE_PEAK] = torque_peak;
    value[BITE_POWER_MEAN] = 2.0 * M_PI * cut->spindle_speed * torque_mean;
    value[BITE_SPECIFIC_ENERGY] = value[BITE_POWER_MEAN] / value[BITE_REMOVAL_RATE];
    segment->torque_mean = torque_mean;
}

static void fill_bending(const bite_cut *cut, bite_arc arc, const bite_pressure *pressure,
                         const bite_tool_deflection *deflection, bite_segment_cache *cache,
                         bite_segment *segment)
{
    bite_tool_body tool = bite_cut_tool_body(cut);
    double *value = segment->value;
    segment->compliance = deflection->compliance;
    value[BITE_STABILITY_DEPTH] = stability(cut, arc, pressure, deflection, cache, segment);
    value[BITE_DEFLECTION_TIP] =
        value[BITE_FORCE_SIDE_PEAK] * bite_tool_deflection_at(deflection, 0.0);
    value[BITE_TOOL_STRESS] =
        bite_tool_stress(&tool, value[BITE_FORCE_SIDE_PEAK], value[BITE_TORQUE_PEAK]);
}

/* Of the peaks: at the thickest chip that a tooth may meet. */
static bite_pressure peak_pressure(const bite_cut *cut, const bite_pressure *pressure, double h)
{
    double factor = h > 0.0 ? bite_chip_peak(h, bite_cut_least_chip(cut)) / h : 1.0;
    return bite_pressure_thicker(pressure, factor);
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
    fill_loads(cut, &force->peaks, &force->mean, force->peaks.tangential * radius,
               force->mean.tangential * radius, segment);
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    fill_bending(cut, arc, pressure, &deflection, cache, segment);
    segment->value[BITE_WALL_ERROR] =
        bite_tool_deflection_wall_error(&deflection, pressure, &force->edges, arc, &edge->wall);
    return contact_of_chip(cut, &cache->chip);
}

/* The same for a tool with rounded corners. */
static bite_edge_contact fill_round(const bite_cut *cut, bite_arc arc,
                                    const bite_pressure *pressure, bite_segment_cache *cache,
                                    bite_segment *segment)
{
    bite_corner_mill mill;
    bite_corner_tool corner = bite_cut_corner_tool(cut);
    bite_corner_mill_forces(&corner, segment->engaged * cut->diameter,
                            segment->value[BITE_CHIP_LOAD], pressure, &cache->scratch->turn,
                            bite_segment_cache_take_force(cache), &mill);
    segment->value[BITE_REMOVAL_RATE] = mill.section * cut->feed_rate;
    segment->heavy_chip = mill.heavy_chip;
    fill_loads(cut, &mill.peaks, &mill.mean, mill.torque_peak, mill.torque_mean, segment);
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    fill_bending(cut, arc, pressure, &deflection, cache, segment);
    segment->value[BITE_WALL_ERROR] =
        mill.wall_force * bite_tool_deflection_at(&deflection, mill.wall_height);
    return contact_of_round(cut, &mill, &cache->chip);
}

/* The side force that runout leaves unbalanced pushes the point towards the centre, and vanishes
 * once it is there: the cut, of stiffness S/runout, and the drill, in series, share the runout
 * (derived here; a long drill centres itself, a rigid one breaks). */
static double side_of_drill(const bite_cut *cut, const bite_drill *drill,
                            const bite_tool_deflection *deflection)
{
    double yields = cut->flutes > 1.0 && cut->runout > 0.0
                        ? drill->side * bite_tool_deflection_at(deflection, 0.0) / cut->runout
                        : 0.0;
    return drill->side / (1.0 + yields);
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
    fill_loads(cut, &peaks, &mean, drill.torque, drill.torque, segment);
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
 * be burnished rather than cut (estimate): the chip of the thin end is taken at that height. */
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

/* Over the whole depth the arc is taken to be as long as at the upper end, and the yielding of the
 * tool along its axis is left out: both are on the safe side. A sideways deflection of the face
 * changes the width of the chamfer by the same amount. */
static bite_edge_contact fill_chamfer(const bite_cut *cut, bite_arc arc, const bite_chip *chip,
                                      const bite_pressure *pressure, bite_segment_cache *cache,
                                      bite_segment *segment)
{
    bite_corner_mill sum;
    bite_chamfer_tool mill = bite_cut_chamfer_tool(cut);
    bite_chamfer_forces(&mill, arc, chip, pressure, &sum);
    fill_loads(cut, &sum.peaks, &sum.mean, sum.torque_peak, sum.torque_mean, segment);
    bite_tool_body tool = bite_cut_tool_body(cut);
    bite_tool_deflection deflection = bite_tool_deflection_init(&tool);
    fill_bending(cut, arc, pressure, &deflection, cache, segment);
    segment->value[BITE_WALL_ERROR] = sum.wall_force * deflection.compliance;
    return contact_of_round(cut, &sum, chip);
}

/* Chips and marks of a groove that a cone cuts: the chip is thinner by the slope of the edge, and
 * feed marks are highest at the tip. */
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

/* Forces as a square tool of the diameter at half of the depth has them, at a pressure that leans
 * (core/physics/force/v_groove.h). Each wall is taken to be finished by the load at half of the
 * depth. The thin tip is judged under the load as it lies along it. */
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
    bite_pressure leaning = bite_groove_pressure(pressure, cut->taper);
    bite_pressure peak = peak_pressure(cut, &leaning, segment->heavy_chip);
    bite_force_set_pressure(force, &leaning, &peak);
    fill_loads(cut, &force->peaks, &force->mean, force->peaks.tangential * radius,
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
    value[BITE_WALL_ERROR] =
        bite_tool_deflection_wall_error(&even, &leaning, &force->edges, arc, &edge->wall);
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
    segment->value[BITE_ROUGHNESS_FLOOR] = cut->corner_radius > 0.0
                                               ? bite_finish_corner(feed, cut->corner_radius)
                                               : bite_finish_dished(feed, dish);
    segment->value[BITE_HAZE] = bite_finish_haze(segment->value[BITE_ROUGHNESS_FLOOR],
                                                 cut->refraction); /* NaN: not transparent */
}

/* The flutes of a drill lift chips that would stay in a slot: a peck may be so many times deeper
 * (estimate: pecks of three diameters are common practice). */
static const double drill_packing_share = 3.0;

/* Chips have no exit from a slot; a side cut throws them out (estimate: fitted to public reports).
 */
static double packing_share(double engaged)
{
    double share = 0.15 + 0.85 * (engaged - 0.3) / 0.7;
    return fmin(1.0, fmax(0.15, share));
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
    segment->chip_rise = (double)NAN;
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
            : cut->corner_radius > 0.0 ? fill_round(cut, arc, &pressure, cache, segment)
                                       : fill_square(cut, arc, &pressure, cache, segment);
        bite_segment_fill_heat(cut, &at, &pressure, cache->fin, segment);
    }
}
