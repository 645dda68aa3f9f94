/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits: what a cut demands against the room there is. */
#include "core/cut/limits.h"
#include "core/cut/physics_inputs.h"
#include "core/cut/segment.h"
#include "core/physics/elastic/thin_plate.h"
#include "core/physics/elastic/warp.h"
#include <math.h>
#include <string.h>

/* The vocabulary's usual tolerance, which must not be taken into the cut: there NaN tells that none
 * was asked for. */
const double bite_tolerance_usual = 0.1e-3; /* m */

/* What a row function sees and says. */
typedef struct judged_limit {
    const bite_cut *requested; /* before defaults: NaN where nothing was given */
    const bite_cut *cut;
    const bite_segment *at;
    double demand;
    double capacity;
    double tight_from; /* use from which the row is tight */
    uint32_t why;
    uint32_t advisory;
} judged_limit;

static void set(judged_limit *judged, double demand, double capacity)
{
    judged->demand = demand;
    judged->capacity = capacity;
}

static void leave(judged_limit *judged, bite_why why)
{
    judged->why = why;
}

/* A row whose figures are missing: not given by the shop, or not in the tables. */
static void need(judged_limit *judged, double figure, bite_why why)
{
    if (isnan(figure)) {
        leave(judged, why);
    }
}

static int chamfers(const judged_limit *judged)
{
    return judged->cut->operation == BITE_CHAMFER;
}

static void spindle_fast(judged_limit *judged)
{
    judged->tight_from = 1.0; /* a mark on a plate: up to it there is nothing uncertain */
    set(judged, judged->cut->spindle_speed,
        fmin(judged->cut->spindle_fastest, judged->cut->tool_turn_limit));
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
}

static void spindle_slow(judged_limit *judged)
{
    set(judged, judged->cut->spindle_slowest, judged->cut->spindle_speed);
    judged->advisory = 1; /* who types a speed has it */
    judged->tight_from = 1.0;
    need(judged, judged->demand, BITE_WHY_NOT_GIVEN);
}

static void feed_fast(judged_limit *judged)
{
    set(judged, judged->cut->feed_rate, judged->cut->feed_fastest);
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
}

/* A tooth that is out of the cut for most of the turn bears more: 1.5 to 2 times in light radial
 * passes (memory; one maker's table has 1.48 at ae/D 0.05 falling to 1 at 0.5). */
static void edge_speed(judged_limit *judged)
{
    double light = 1.0 + 0.75 * (1.0 - fmin(1.0, judged->at->engaged / 0.5));
    set(judged, judged->at->value[BITE_SURFACE_SPEED], light * judged->cut->tool_speed_limit);
    need(judged, judged->capacity, BITE_WHY_NO_DATA);
}

static void power(judged_limit *judged)
{
    set(judged, judged->at->value[BITE_POWER_MEAN], judged->cut->power_limit);
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
    need(judged, judged->demand, BITE_WHY_NO_DATA);
}

/* A rotor of J that loses dw of its speed under its rated torque M answers with the time constant J
 * dw/M (estimate: 3e-4 kg m2, 120 rad/s, 0.9 N m of a router's spindle: 40 ms; a brushed router
 * motor twice that). */
static const double spindle_answers = 0.04; /* s */

/* What of a ripple that comes once a turn the motor feels: a lag of first order. */
static double ripple_felt(double speed)
{
    return 1.0 / hypot(1.0, 2.0 * M_PI * speed * spindle_answers);
}

/* A spindle rides out a peak on its inertia and stalls on the mean; a slow one feels more of the
 * peak. */
static void torque(judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    double mean = judged->at->torque_mean;
    double share = 1.0;
    if (!isnan(cut->torque_speed) && !isnan(cut->torque_exponent)) {
        share = fmin(1.0, pow(cut->spindle_speed / cut->torque_speed, cut->torque_exponent));
    }
    double above = judged->at->value[BITE_TORQUE_PEAK] - mean;
    set(judged, mean + ripple_felt(cut->spindle_speed) * above, cut->torque_limit * share);
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
    need(judged, judged->demand, BITE_WHY_NO_DATA);
}

static void rubbing(judged_limit *judged)
{
    set(judged, judged->at->value[BITE_CHIP_THICKNESS_LEAST],
        chamfers(judged) ? judged->at->thin_chip : judged->at->heavy_chip);
}

static void runout(judged_limit *judged)
{
    double step = judged->cut->runout * sin(M_PI / judged->cut->flutes);
    set(judged, step, judged->at->value[BITE_CHIP_LOAD]);
    judged->advisory = 1;
    if (judged->cut->flutes < 2.0) {
        leave(judged, BITE_WHY_ONE_FLUTE);
    }
}

static void tool_break(judged_limit *judged)
{
    set(judged, judged->at->value[BITE_TOOL_STRESS], judged->cut->tool_strength);
    need(judged, judged->demand, BITE_WHY_NO_DATA);
}

/* Half the tolerance is the cut's; the rest is for the machine, the datum and the gauge. */
static void deflection(judged_limit *judged)
{
    judged->advisory = isnan(judged->requested->tolerance) ? 1U : 0U;
    set(judged, fabs(judged->at->value[BITE_WALL_ERROR]),
        0.5 * (judged->advisory ? bite_tolerance_usual : judged->requested->tolerance));
    need(judged, judged->demand, BITE_WHY_NO_DATA);
}

/* What nobody would call to size where no tolerance was asked for: the general tolerance of class c
 * (ISO 2768-1), either way, of the sizes from here on, straight in between so that it has no steps.
 * m */
static const struct {
    double size;
    double away;
} coarse[] = {{0.5e-3, 0.2e-3}, {3e-3, 0.3e-3}, {6e-3, 0.5e-3}, {30e-3, 0.8e-3}};

static double coarse_at(double size)
{
    size_t last = sizeof coarse / sizeof *coarse - 1;
    for (size_t i = 1; i <= last; i++) {
        if (size < coarse[i].size) {
            double share =
                fmax(0.0, size - coarse[i - 1].size) / (coarse[i].size - coarse[i - 1].size);
            return coarse[i - 1].away + share * (coarse[i].away - coarse[i - 1].away);
        }
    }
    return coarse[last].away;
}

/* Shares of its own size, the tool's and the thin part's, by which it may bend (estimates): a tool
 * that bends by a tenth of its diameter is no slender rod on a rigid edge, and plates are reckoned
 * as flat up to a fifth of their thickness (memory). What springs away from all that the pass takes
 * is not cut by it at all; less than that the next pass finds, and takes as much as it was to. */
static const double tool_may = 0.1;
static const double part_may = 0.2;

static double sway_room(double size, double share, double taken)
{
    return fmin(fmin(share * size, coarse_at(size)), taken);
}

static double width_taken(const judged_limit *judged)
{
    return judged->at->engaged * bite_cutting_diameter(judged->cut);
}

/* A tolerance that was given says itself what is too much. */
static void unless_toleranced(judged_limit *judged)
{
    if (!isnan(judged->requested->tolerance)) {
        leave(judged, BITE_WHY_TOLERANCE);
    }
}

static void tool_sway(judged_limit *judged)
{
    set(judged, fabs(judged->at->value[BITE_WALL_ERROR]),
        sway_room(judged->cut->diameter, tool_may, width_taken(judged)));
    need(judged, judged->demand, BITE_WHY_NO_DATA);
    unless_toleranced(judged);
}

static void softening(judged_limit *judged)
{
    double start = judged->cut->room_temperature;
    set(judged, judged->at->value[BITE_SURFACE_TEMPERATURE] - start,
        judged->cut->softening - start);
    need(judged, judged->demand, BITE_WHY_NO_DATA);
    need(judged, judged->capacity, BITE_WHY_NO_DATA);
    if (judged->cut->substance == BITE_METAL) {
        leave(judged, BITE_WHY_METAL);
    }
}

/* Chips of metal in a slot that is closed at both ends have no way out but up: what falls back is
 * cut again (estimate: between all of the room and half of it; no published figure was found). A
 * blast, mist or flood takes them out. */
static const double closed_share = 0.7;

static double closes(const bite_cut *cut)
{
    return cut->substance == BITE_METAL && cut->blind == 1 && cut->coolant == BITE_COOLANT_NONE
               ? closed_share
               : 1.0;
}

/* Room in the flutes: shrinks with their number, grows with what blows or washes chips out
 * (estimate: one and two flutes, air and mist are fitted to public reports; flood by what makers of
 * carbide mills rate for slots: as deep as wide with two flutes in aluminium, half of that with
 * four in steel, memory). More than two go by the pocket that a tooth has for its chip: 46, 44, 39
 * and 36 % of the section, shared among 2, 3, 4 and 5 (memory: sections of makers' end mills are
 * 54, 56 and 61 % full; a maker's catalogue has the pockets of three nearly as large in all as
 * those of two, those of four small and for shallow slots). */
static double packing_room(const bite_cut *cut)
{
    static const double by_flutes[] = {1.0, 0.85, 0.54, 0.36, 0.27};
    static const double by_coolant[] = {1.0, 1.3, 1.4, 2.6};
    int flutes = (int)cut->flutes;
    uint32_t coolant = cut->coolant <= BITE_COOLANT_FLOOD ? cut->coolant : 0;
    return closes(cut) * cut->packing_limit * by_flutes[flutes > 5 ? 4 : flutes - 1] *
           by_coolant[coolant];
}

/* Metals: chips that stay, on a tool that is warm, sqrt(packing x warmth). Plastics: the film under
 * the edge. */
static void chip_weld(judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    double start = cut->room_temperature;
    if (isnan(cut->welding)) {
        leave(judged, BITE_WHY_DOES_NOT_WELD);
        return;
    }
    double capacity = cut->welding - start;
    if (cut->substance != BITE_METAL) {
        set(judged, judged->at->value[BITE_FILM_TEMPERATURE] - start, capacity);
    } else {
        double warmth = fmax(0.0, judged->at->value[BITE_TOOL_TEMPERATURE] - start) / capacity;
        set(judged, capacity * sqrt(judged->at->packing / packing_room(cut) * warmth), capacity);
    }
    need(judged, judged->demand, BITE_WHY_NO_DATA);
}

static void chip_packing(judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    set(judged, judged->at->packing, packing_room(cut));
    need(judged, judged->capacity, BITE_WHY_NO_DATA);
    /* glassy plastics in a blind slot without a blast: the trouble begins long before the flutes
     * are full */
    if (cut->substance == BITE_AMORPHOUS && cut->coolant == BITE_COOLANT_NONE && cut->blind == 1 &&
        judged->at->engaged >= 1.0) {
        judged->tight_from = 0.35;
    }
}

/* A corner may come out larger than asked by the tolerance that was given, by nothing where none
 * was. */
static void corner(judged_limit *judged)
{
    double more = isnan(judged->requested->tolerance) ? 0.0 : judged->requested->tolerance;
    judged->tight_from = 1.0; /* it goes in or it does not */
    set(judged, chamfers(judged) ? bite_cut_cone(judged->cut).small : 0.5 * judged->cut->diameter,
        judged->cut->inside_radius + more);
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
}

/* The pass must lie within the flutes, the feature within flutes and neck; a chamfer within the
 * cone, tip and all. */
static void reach(judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    double neck = isnan(cut->neck_length) || isnan(cut->neck_diameter) ? 0.0 : cut->neck_length;
    double flutes = fmin(cut->flute_length, cut->stickout);
    double whole = fmin(cut->flute_length + neck, cut->stickout);
    judged->tight_from = 1.0;
    set(judged, cut->depth, flutes);
    if (cut->operation == BITE_CHAMFER) {
        set(judged, cut->depth + cut->tip_below, flutes);
    } else if (!isnan(cut->feature_depth) && cut->feature_depth / whole > cut->depth / flutes) {
        set(judged, cut->feature_depth, whole);
    }
}

/* Marks of a parabola or a saw tooth: Ra is close to a quarter of their height. */
static void finish(judged_limit *judged)
{
    double worst =
        fmax(judged->at->value[BITE_ROUGHNESS_FLOOR], judged->at->value[BITE_ROUGHNESS_WALL]);
    judged->advisory = 0;
    set(judged, 0.25 * worst, judged->requested->finish);
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
}

/* Who has not measured a mode has no speed to blame: the worst one counts, as advice. */
static void chatter(judged_limit *judged)
{
    set(judged, judged->cut->depth, judged->at->value[BITE_STABILITY_DEPTH]);
    judged->advisory = bite_cut_has_measured_modes(judged->cut) ? 0U : 1U;
    need(judged, judged->capacity, BITE_WHY_NO_DATA);
}

static void edge_chip(judged_limit *judged)
{
    set(judged, judged->at->heavy_chip, judged->cut->chip_edge);
    judged->advisory = 1;
    need(judged, judged->capacity, BITE_WHY_NO_DATA);
}

/* Half-width of the temperatures over which a skin relaxes in the time that it is hot (estimate).
 */
static const double relaxing_width = 10.0;

/* A skin that relaxes while it is hot wants to shrink when it cools, and what lies under it holds
 * it: E alpha dT/(1 - nu). */
static void craze(judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    double relaxing = isnan(cut->relaxing) ? cut->transition - 20.0 : cut->relaxing;
    double share = (judged->at->value[BITE_SURFACE_TEMPERATURE] - relaxing + relaxing_width) /
                   (2.0 * relaxing_width);
    double whole =
        cut->modulus * cut->expansion * (relaxing - cut->room_temperature) / (1.0 - cut->poisson);
    /* not fmin, which would pass over a NaN */
    share = share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share;
    set(judged, share * whole, cut->crazing);
    need(judged, judged->demand, BITE_WHY_NO_DATA);
    need(judged, judged->capacity, BITE_WHY_NO_DATA);
    if (cut->substance == BITE_METAL) {
        leave(judged, BITE_WHY_DOES_NOT_CRAZE);
    }
}

static void bond_side(judged_limit *judged)
{
    set(judged, judged->at->value[BITE_FORCE_SIDE_PEAK],
        judged->cut->bond_area * judged->cut->bond_shear);
    need(judged, judged->demand, BITE_WHY_NO_DATA);
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
}

/* The side force stands over the bond and tilts the part: 6 F H/(b L^2) at the edge of a square
 * bond, b = L = sqrt(A). */
static void bond_lift(judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    double height = cut->depth + (isnan(cut->floor_thickness) ? 0.0 : cut->floor_thickness);
    double lift = judged->at->value[BITE_FORCE_LIFT_PEAK];
    double tilt = 6.0 * judged->at->value[BITE_FORCE_SIDE_PEAK] * height / sqrt(cut->bond_area);
    set(judged, (lift > 0.0 ? lift : 0.0) + tilt, cut->bond_area * cut->bond_pull);
    need(judged, judged->at->value[BITE_FORCE_SIDE_PEAK], BITE_WHY_NO_DATA);
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
}

static void bond_heat(judged_limit *judged)
{
    double start = judged->cut->room_temperature;
    set(judged, judged->at->value[BITE_PART_TEMPERATURE] - start, judged->cut->bond_limit - start);
    need(judged, judged->demand, BITE_WHY_NOT_GIVEN); /* no floor, no way for the heat */
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
}

/* A wall of a length is free at its end, or held there by the other walls of a pocket: then its
 * middle counts. */
static double wall_alpha(const bite_cut *cut, double height)
{
    double ratio = isnan(cut->wall_length) ? INFINITY : cut->wall_length / height;
    if (cut->wall_ends == BITE_WALL_HELD) {
        return bite_plate_pocket_wall(ratio);
    }
    return isnan(cut->wall_length) ? bite_plate_wall_middle(ratio) : bite_plate_wall_end(ratio);
}

/* The finishing force on the wall is what bends the tool by the wall's error. */
static double wall_bend(const judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    double height = isnan(cut->wall_height)
                        ? fmax(cut->depth, isnan(cut->feature_depth) ? 0.0 : cut->feature_depth)
                        : cut->wall_height;
    double force = fabs(judged->at->value[BITE_WALL_ERROR]) / judged->at->compliance;
    return wall_alpha(cut, height) * force * height * height /
           bite_plate_rigidity(cut->modulus, cut->poisson, cut->wall_thickness);
}

static double floor_bend(const judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    double alpha =
        bite_plate_floor(isnan(cut->floor_length) ? INFINITY : cut->floor_length / cut->floor_span);
    double side =
        isnan(cut->floor_length) ? cut->floor_span : fmin(cut->floor_span, cut->floor_length);
    return alpha * fabs(judged->at->value[BITE_FORCE_LIFT_PEAK]) * side * side /
           bite_plate_rigidity(cut->modulus, cut->poisson, cut->floor_thickness);
}

/* The whole side force at the middle of the strip: it passes along all of it. Where nothing is
 * said, as much of the strip stands free as the pass has cut. */
static double bridge_bend(const judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    double width = isnan(cut->bridge_width) ? cut->depth : cut->bridge_width;
    return judged->at->value[BITE_FORCE_SIDE_PEAK] * bite_plate_strip(cut->modulus, cut->poisson,
                                                                      cut->bridge_span, width,
                                                                      cut->bridge_thickness);
}

/* What of a part may be thin: how far it bends, 0 where there is none; its thickness, and what the
 * pass takes across it. */
typedef struct thin_part {
    int there;
    double bend;
    double thickness;
    double taken;
} thin_part;

enum { THIN_WALL, THIN_FLOOR, THIN_BRIDGE, THINS };

/* A drill pushes on floors alone. 0: nothing is thin. */
static int thins_of(const judged_limit *judged, thin_part parts[THINS])
{
    const bite_cut *cut = judged->cut;
    double width = width_taken(judged);
    int mills = cut->operation == BITE_MILL;
    int wall = !isnan(cut->wall_thickness) && mills;
    int open_floor = !isnan(cut->floor_span) && cut->floor_thickness > 0.0;
    int bridge = !isnan(cut->bridge_span) && !isnan(cut->bridge_thickness) && mills;
    const thin_part all[THINS] = {
        [THIN_WALL] = {wall, wall ? wall_bend(judged) : 0.0, cut->wall_thickness, width},
        [THIN_FLOOR] = {open_floor, open_floor ? floor_bend(judged) : 0.0, cut->floor_thickness,
                        cut->depth},
        [THIN_BRIDGE] = {bridge, bridge ? bridge_bend(judged) : 0.0, cut->bridge_thickness, width},
    };
    memcpy(parts, all, sizeof all);
    return wall || open_floor || bridge;
}

static double sum_of(const thin_part parts[THINS])
{
    return parts[THIN_WALL].bend + parts[THIN_FLOOR].bend +
           parts[THIN_BRIDGE].bend; /* NaN, which fmax passes over */
}

static void leave_thick(judged_limit *judged)
{
    int cone = chamfers(judged) && !isnan(judged->cut->wall_thickness);
    leave(judged, cone ? BITE_WHY_CHAMFER : BITE_WHY_NOT_GIVEN);
}

/* The softest of what is thin. */
static void part_bend(judged_limit *judged)
{
    thin_part parts[THINS];
    int any = thins_of(judged, parts);
    judged->advisory = isnan(judged->requested->tolerance) ? 1U : 0U;
    set(judged, fmax(fmax(parts[THIN_WALL].bend, parts[THIN_FLOOR].bend), parts[THIN_BRIDGE].bend),
        0.5 * (judged->advisory ? bite_tolerance_usual : judged->requested->tolerance));
    need(judged, sum_of(parts), BITE_WHY_NO_DATA);
    if (!any) {
        leave_thick(judged);
    }
}

/* The one of them that uses most of its own room. */
static void part_sway(judged_limit *judged)
{
    thin_part parts[THINS];
    int any = thins_of(judged, parts);
    for (int i = 0; i < THINS; i++) {
        double capacity = sway_room(parts[i].thickness, part_may, parts[i].taken);
        if (parts[i].there && !(parts[i].bend * judged->capacity <= judged->demand * capacity)) {
            set(judged, parts[i].bend, capacity);
        }
    }
    need(judged, sum_of(parts), BITE_WHY_NO_DATA);
    unless_toleranced(judged);
    if (!any) {
        leave_thick(judged);
    }
}

/* What of a cone must pass beside the wall: its small end, and the large one on the far side, whose
 * edge still stands. */
static double ends_of_cone(const bite_cut *cut)
{
    bite_cone cone = bite_cut_cone(cut);
    return cone.small + cone.large;
}

static void gap(judged_limit *judged)
{
    judged->tight_from = 1.0; /* it passes or it does not */
    set(judged,
        (chamfers(judged) ? ends_of_cone(judged->cut) : judged->cut->diameter) +
            judged->cut->runout,
        judged->cut->gap);
    need(judged, judged->capacity, BITE_WHY_NOT_GIVEN);
}

static void wear(judged_limit *judged)
{
    set(judged, judged->cut->path_length / judged->cut->feed_rate,
        judged->at->value[BITE_TOOL_LIFE]);
    need(judged, judged->capacity, BITE_WHY_NO_DATA);
    need(judged, judged->demand, BITE_WHY_NOT_GIVEN);
    if (isnan(judged->capacity) &&
        (judged->cut->substance == BITE_AMORPHOUS || judged->cut->substance == BITE_CRYSTALLINE)) {
        leave(judged, BITE_WHY_DOES_NOT_WEAR);
    }
}

static double or_none(double figure)
{
    return isnan(figure) ? 0.0 : figure;
}

/* What came off out of balance, and what one face has grown over the other, both to the worse side.
 */
static void warp(judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    double top = or_none(cut->removed_top);
    double below = or_none(cut->removed_below);
    double off = fabs(top - below);
    double left = fmax(cut->stock_thickness - top - below, 1e-5);
    double curvature = bite_warp_gradient(or_none(cut->face_strain), left);
    if (off > 0.0) {
        curvature += bite_warp_layers(cut->modulus, cut->poisson, cut->skin_stress,
                                      cut->stock_thickness, off, 0.0);
    }
    set(judged, bite_warp_bow(curvature, cut->part_span), cut->flatness);
    need(judged, judged->demand, BITE_WHY_NO_DATA);
    need(judged, cut->flatness + cut->part_span + cut->stock_thickness, BITE_WHY_NOT_GIVEN);
}

static void stock_thickness(judged_limit *judged)
{
    const bite_cut *cut = judged->cut;
    judged->tight_from = 1.0; /* the tolerance is in it already */
    set(judged, cut->part_thickness + or_none(cut->skim),
        cut->stock_thickness - or_none(cut->stock_tolerance));
    need(judged, judged->demand + judged->capacity, BITE_WHY_NOT_GIVEN);
}

static void (*const judges[BITE_LIMIT_COUNT])(judged_limit *judged) = {
    [BITE_LIMIT_SPINDLE_FAST] = spindle_fast,
    [BITE_LIMIT_SPINDLE_SLOW] = spindle_slow,
    [BITE_LIMIT_FEED_FAST] = feed_fast,
    [BITE_LIMIT_EDGE_SPEED] = edge_speed,
    [BITE_LIMIT_POWER] = power,
    [BITE_LIMIT_TORQUE] = torque,
    [BITE_LIMIT_RUBBING] = rubbing,
    [BITE_LIMIT_RUNOUT] = runout,
    [BITE_LIMIT_TOOL_BREAK] = tool_break,
    [BITE_LIMIT_DEFLECTION] = deflection,
    [BITE_LIMIT_SOFTENING] = softening,
    [BITE_LIMIT_CHIP_WELD] = chip_weld,
    [BITE_LIMIT_CHIP_PACKING] = chip_packing,
    [BITE_LIMIT_CORNER] = corner,
    [BITE_LIMIT_REACH] = reach,
    [BITE_LIMIT_FINISH] = finish,
    [BITE_LIMIT_CHATTER] = chatter,
    [BITE_LIMIT_EDGE_CHIP] = edge_chip,
    [BITE_LIMIT_CRAZE] = craze,
    [BITE_LIMIT_BOND_SIDE] = bond_side,
    [BITE_LIMIT_BOND_LIFT] = bond_lift,
    [BITE_LIMIT_BOND_HEAT] = bond_heat,
    [BITE_LIMIT_PART_BEND] = part_bend,
    [BITE_LIMIT_GAP] = gap,
    [BITE_LIMIT_WEAR] = wear,
    [BITE_LIMIT_WARP] = warp,
    [BITE_LIMIT_STOCK_THICKNESS] = stock_thickness,
    [BITE_LIMIT_TOOL_GROSS_DEFLECTION] = tool_sway,
    [BITE_LIMIT_PART_GROSS_DEFLECTION] = part_sway,
};

/* What a hole does not have. */
static int of_milling(bite_limit_id id)
{
    return id == BITE_LIMIT_DEFLECTION || id == BITE_LIMIT_CORNER || id == BITE_LIMIT_CHATTER ||
           id == BITE_LIMIT_GAP || id == BITE_LIMIT_FINISH ||
           id == BITE_LIMIT_TOOL_GROSS_DEFLECTION;
}

static bite_verdict verdict_of(double utilization, double tight_from, uint32_t advisory)
{
    if (utilization > 1.0) {
        return advisory ? BITE_TIGHT : BITE_OVER;
    }
    return utilization > tight_from ? BITE_TIGHT : BITE_CLEAR;
}

void bite_limit_evaluate(bite_limit_id id, const bite_cut *requested, const bite_cut *cut,
                         const bite_segment *segment, bite_limit *limit)
{
    judged_limit judged = {
        requested,        cut, segment, (double)NAN, (double)NAN, BITE_UTILIZATION_TIGHT,
        BITE_WHY_APPLIES, 0};
    bite_limit none = {(double)NAN,
                       (double)NAN,
                       (double)NAN,
                       (double)NAN,
                       (double)NAN,
                       BITE_NOT_JUDGED,
                       0,
                       0,
                       0,
                       0,
                       0};
    *limit = none;
    judges[id](&judged);
    if (cut->operation == BITE_DRILL_HOLE && of_milling(id)) {
        judged.why = BITE_WHY_DRILL;
    }
    limit->advisory = judged.advisory;
    limit->why = judged.why;
    if (judged.why != BITE_WHY_APPLIES) {
        return;
    }
    limit->applies = 1;
    limit->demand = judged.demand;
    limit->capacity = fmax(0.0, judged.capacity);
    limit->utilization = judged.capacity > 0.0
                             ? fmin(BITE_UTILIZATION_MAX, judged.demand / judged.capacity)
                             : BITE_UTILIZATION_MAX;
    limit->verdict = verdict_of(limit->utilization, judged.tight_from, judged.advisory);
}

bite_verdict bite_limits_verdict(const bite_limit *limits, uint32_t count, uint32_t *worst)
{
    uint32_t verdict = BITE_CLEAR;
    double utilization = -1.0;
    *worst = 0;
    for (uint32_t i = 0; i < count; i++) {
        if (limits[i].applies && !limits[i].advisory) {
            verdict = limits[i].verdict > verdict ? limits[i].verdict : verdict;
            if (limits[i].utilization > utilization) {
                utilization = limits[i].utilization;
                *worst = i;
            }
        }
    }
    return (bite_verdict)verdict;
}
