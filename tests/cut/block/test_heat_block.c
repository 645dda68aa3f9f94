/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pressure and heat of a block of cuts: the same at every width, and the same as the formulas for
 * one cut after the other. */
#include "core/cut/block/heat_block.h"
#include "core/cut/block/pressure_block.h"
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/heat/cutting_heat.h"
#include "core/physics/heat/heat_recirculation.h"
#include "core/physics/heat/wall_heat.h"
#include "tests/oracle/closed_forms/cut_tools.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_formulas.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

#define BLOCKS 400
#define UNFILLED -7.25e11 /* of no result */

/* Land behind the edge in its radii, and the tangent of the dish of end teeth, as in the model. */
static const double land_in_radii = 2.0;
static const double dish = 0.034920769491747730;

/* Cuts of one kind: the same words, and the same inputs given. */
typedef struct cut_kind {
    uint32_t substance;
    uint32_t pressure;
    uint32_t operation;
    int groove;
    int has_curves;
    int has_path;
    int has_floor;
    int has_rake_slope;
    int has_stated;  /* radial and axial terms */
    int has_melting; /* a transition of a material that is not a polymer */
} cut_kind;

/* What the stages before these fill. */
typedef struct contact_case {
    bite_cut cut;
    double engaged;
    double removal_rate;
    double speed;
    double chip;
    double length;
    double teeth;
    double feed;
    double fin_resistance;
    double fin_air_share;
} contact_case;

#define MEMBER(member)                                                                             \
    {                                                                                              \
#member, offsetof(bite_block_segment, member), 0.0, 1e-12                                  \
    }
#define SHARE(index)                                                                               \
    {                                                                                              \
        "heat_share[" #index "]", offsetof(bite_block_segment, heat_share[index]), 1e-12, 1e-12    \
    }
#define VALUE(name)                                                                                \
    {                                                                                              \
#name, offsetof(bite_block_segment, value[name]), 0.0, 1e-12                               \
    }

/* What these stages fill. Sums of the heat balance are compared with the whole of it; a rise is the
 * difference of two temperatures of some hundred kelvins, and so are its roundings. */
static const struct {
    const char *name;
    size_t offset;
    double absolute; /* a deviation that is allowed at any size, SI */
    double relative;
} results[] = {
    MEMBER(tangential),
    MEMBER(radial),
    MEMBER(axial),
    MEMBER(edge_tangential),
    MEMBER(edge_radial),
    MEMBER(edge_axial),
    MEMBER(fracture),
    VALUE(BITE_CHIP_TEMPERATURE),
    VALUE(BITE_SURFACE_TEMPERATURE),
    VALUE(BITE_SURFACE_DWELL),
    VALUE(BITE_FLOW_TEMPERATURE),
    VALUE(BITE_FLASH_TEMPERATURE),
    VALUE(BITE_FILM_TEMPERATURE),
    VALUE(BITE_TOOL_TEMPERATURE),
    VALUE(BITE_PART_TEMPERATURE),
    VALUE(BITE_PREHEAT),
    VALUE(BITE_HEAT_TO_PART),
    SHARE(0),
    SHARE(1),
    SHARE(2),
    SHARE(3),
    {"chip_rise", offsetof(bite_block_segment, chip_rise), 4e-13, 1e-12},
    MEMBER(chip_mean),
    MEMBER(wall_rise),
    MEMBER(wall_dwell),
    MEMBER(floor_rise),
    MEMBER(floor_dwell),
    MEMBER(heat_power),
    {"energy_gap", offsetof(bite_block_segment, energy_gap), 1e-12, 0.0},
};
#define RESULTS (sizeof results / sizeof *results)

static double *row_of(bite_block_segment *segment, size_t result)
{
    return (double *)(void *)((char *)segment + results[result].offset);
}

static int flip(uint64_t *seed)
{
    return bite_test_between(seed, 0.0, 1.0) < 0.5;
}

static cut_kind random_kind(uint64_t *seed)
{
    static const uint32_t substances[] = {BITE_METAL, BITE_AMORPHOUS, BITE_CRYSTALLINE,
                                          BITE_THERMOSET};
    static const uint32_t forms[] = {BITE_PRESSURE_EDGE, BITE_PRESSURE_POWER,
                                     BITE_PRESSURE_STRENGTH};
    static const uint32_t operations[] = {BITE_MILL, BITE_DRILL_HOLE, BITE_CHAMFER, BITE_MILL};
    cut_kind kind = {
        .substance = substances[(int)bite_test_between(seed, 0.0, 4.0)],
        .pressure = forms[(int)bite_test_between(seed, 0.0, 3.0)],
        .operation = operations[(int)bite_test_between(seed, 0.0, 4.0)],
        .groove = flip(seed) & flip(seed),
        .has_curves = flip(seed),
        .has_path = flip(seed),
        .has_floor = flip(seed),
        .has_rake_slope = flip(seed),
        .has_stated = flip(seed),
        .has_melting = flip(seed),
    };
    return kind;
}

/* Falling strength and rising heat capacity: the same curves for all cuts of a block. */
static void set_curves(bite_cut *cut)
{
    cut->heat_capacity_curve.count = cut->strength_curve.count = 5;
    for (int i = 0; i < 5; i++) {
        cut->heat_capacity_curve.temperature[i] = 280.0 + 9.0 * i;
        cut->heat_capacity_curve.value[i] = 900.0 + 30.0 * i * i;
        cut->strength_curve.temperature[i] = 265.0 + 13.0 * i;
        cut->strength_curve.value[i] = 1.2 - 0.04 * i * i;
    }
    cut->strength_curve.value[5] = cut->heat_capacity_curve.value[5] = (double)NAN; /* not read */
}

static void set_material(bite_cut *cut, const cut_kind *kind, uint64_t *seed)
{
    int polymer = kind->substance == BITE_AMORPHOUS || kind->substance == BITE_CRYSTALLINE;
    double transition = bite_test_between(seed, 320.0, 520.0);
    cut->substance = kind->substance;
    cut->transition = polymer || kind->has_melting ? transition : (double)NAN;
    cut->wlf_c1 = cut->wlf_c2 = (double)NAN;
    if (kind->substance == BITE_AMORPHOUS) {
        cut->wlf_c1 = bite_test_between(seed, 10.0, 40.0);
        cut->wlf_c2 = bite_test_between(seed, 30.0, 120.0);
    }
    cut->pressure = kind->pressure;
    cut->pressure_exponent = bite_test_between(seed, 0.1, 0.4);
    cut->shear_strength = bite_test_decades(seed, 30e6, 600e6);
    cut->yield = bite_test_decades(seed, 30e6, 800e6);
    cut->friction = bite_test_between(seed, 0.05, 0.9);
    cut->fracture_energy = bite_test_decades(seed, 100.0, 5000.0);
    if (kind->has_rake_slope) {
        cut->pressure_rake = bite_test_between(seed, 0.1, 3.0);
    }
    if (kind->has_stated) {
        cut->pressure_r = bite_test_decades(seed, 1e7, 1e9);
        cut->pressure_a = bite_test_decades(seed, 1e7, 1e9);
        cut->edge_r = bite_test_decades(seed, 1e2, 1e4);
        cut->edge_a = bite_test_decades(seed, 1e2, 1e4);
    }
    if (kind->has_curves) {
        set_curves(cut);
    }
}

static contact_case random_case(const cut_kind *kind, uint64_t *seed)
{
    contact_case at = {.cut = bite_test_cut(seed)};
    bite_cut *cut = &at.cut;
    set_material(cut, kind, seed);
    cut->operation = kind->operation;
    cut->flutes = 2.0;
    cut->side = cut->coolant = 0;
    if (kind->operation != BITE_DRILL_HOLE && (kind->groove || kind->operation == BITE_CHAMFER)) {
        cut->taper = bite_test_between(seed, 0.2, 1.0);
        cut->depth = 0.1 * cut->diameter;
    }
    double path = bite_test_decades(seed, 1e-3, 10.0);
    cut->path_length = kind->has_path ? path : (double)NAN;
    double thick = bite_test_decades(seed, 0.1e-3, 20e-3);
    double left = bite_test_between(seed, 0.0, 1.0) < 0.3 ? 0.0 : thick;
    cut->floor_thickness = kind->has_floor ? left : (double)NAN;
    bite_defaults_fill(cut);
    double feed = cut->feed_rate / (cut->spindle_speed * cut->flutes);
    at.engaged = bite_test_decades(seed, 0.02, 1.0);
    at.speed = M_PI * cut->diameter * cut->spindle_speed;
    at.chip =
        flip(seed) & flip(seed) & flip(seed) ? 0.0 : feed * bite_test_between(seed, 0.05, 0.9);
    at.length = cut->depth * bite_test_between(seed, 1.0, 1.6);
    at.teeth = bite_test_decades(seed, 0.02, 2.0);
    at.feed = feed * bite_test_between(seed, 1.0, 2.0);
    at.removal_rate = cut->depth * at.engaged * cut->diameter * cut->feed_rate;
    at.fin_resistance = bite_test_decades(seed, 1.0, 1000.0);
    at.fin_air_share = bite_test_between(seed, 0.0, 1.0);
    return at;
}

static void set_lane(bite_block *block, bite_block_segment *segment, const contact_case *at, int k)
{
    const double *number = &at->cut.spindle_speed;
    for (size_t i = 0; i < BITE_BLOCK_ROWS; i++) {
        block->number[i][k] = number[i];
    }
    segment->diameter[k] = bite_cutting_diameter(&at->cut);
    segment->edge_radius[k] = bite_cut_edge_radius(&at->cut);
    segment->engaged[k] = at->engaged;
    segment->contact_speed[k] = at->speed;
    segment->contact_chip[k] = at->chip;
    segment->contact_length[k] = at->length;
    segment->contact_teeth[k] = at->teeth;
    segment->contact_feed[k] = at->feed;
    segment->fin_resistance[k] = at->fin_resistance;
    segment->fin_air_share[k] = at->fin_air_share;
    segment->value[BITE_REMOVAL_RATE][k] = at->removal_rate;
    segment->value[BITE_SURFACE_SPEED][k] = at->speed;
    segment->value[BITE_CHIP_THICKNESS_MEAN][k] = at->chip;
    segment->value[BITE_CHIP_THICKNESS_LEAST][k] = bite_cut_least_chip(&at->cut);
}

/* Runs the stages over the first cuts. */
static void run(const contact_case *cases, int count, bite_block_segment *segment)
{
    static bite_block block;
    block.cut = &cases[0].cut;
    block.flutes = 2;
    block.lanes = (count + BITE_LANE_STEP - 1) / BITE_LANE_STEP * BITE_LANE_STEP;
    for (size_t i = 0; i < RESULTS; i++) {
        for (int k = 0; k < block.lanes; k++) {
            row_of(segment, i)[k] = UNFILLED;
        }
    }
    for (int k = 0; k < block.lanes; k++) {
        set_lane(&block, segment, &cases[k < count ? k : count - 1], k);
    }
    ck_assert(bite_block_pressure(&block, segment));
    bite_block_heat(&block, segment);
}

static bite_pressure plain_pressure(const contact_case *at)
{
    bite_pressure pressure;
    double chip = fmax(at->chip, bite_cut_least_chip(&at->cut));
    ck_assert(bite_cut_pressure(&at->cut, chip / at->speed, &pressure));
    return pressure;
}

static void set_tool(const contact_case *at, bite_heat_case *heat)
{
    const bite_cut *cut = &at->cut;
    double room = cut->room_temperature;
    double holder = cut->holder_temperature;
    double warm = 1.0;
    if (!isnan(cut->path_length)) {
        double diffusivity = cut->tool_conductivity / (cut->tool_density * cut->tool_heat_capacity);
        double constant = 4.0 * cut->stickout * cut->stickout / (M_PI * M_PI * diffusivity);
        warm = 1.0 - exp(-cut->path_length / cut->feed_rate / constant);
        if (warm < 0.1) { /* few digits are left */
            warm = -expm1(-cut->path_length / cut->feed_rate / constant);
        }
    }
    heat->resistance = warm * at->fin_resistance;
    heat->sink = room + warm * (holder + at->fin_air_share * (room - holder) - room);
    heat->tool_conductivity = cut->tool_conductivity;
    heat->tool_effusivity =
        sqrt(cut->tool_conductivity * cut->tool_density * cut->tool_heat_capacity);
}

static bite_heat plain_heat(const contact_case *at, const bite_pressure *pressure)
{
    const bite_cut *cut = &at->cut;
    double volumetric = bite_cut_volumetric_heat(cut);
    double diffusivity = cut->conductivity / volumetric;
    double diameter = bite_cutting_diameter(cut);
    double radius = bite_cut_edge_radius(cut);
    double chip = fmax(at->chip, bite_cut_least_chip(cut));
    double loss = cut->floor_thickness == 0.0
                      ? 0.0
                      : bite_recirculation_floor(cut->feed_rate, cut->depth, diffusivity);
    double met =
        bite_recirculation_share(bite_recirculation_peclet(cut->feed_rate, 0.5 * diameter,
                                                           at->engaged * diameter, diffusivity),
                                 loss);
    bite_heat_case heat_case = {
        .speed = at->speed,
        .chip = chip,
        .depth = at->length,
        .teeth_chip = at->teeth * at->chip / chip,
        .teeth_edge = at->teeth,
        .pressure = pressure->tangential,
        .edge = pressure->edge_tangential - pressure->fracture,
        .fracture = pressure->fracture,
        .volumetric = volumetric,
        .conductivity = cut->conductivity,
        .chip_ratio = cut->chip_ratio,
        .rake = cut->rake,
        .heat_share = cut->heat_share,
        .friction_share = cut->friction_share,
        .sublayer_share = cut->sublayer_share,
        .edge_born = cut->edge_share * cut->sublayer_share,
        .transition = cut->transition,
        .flank_land = land_in_radii * radius,
        .skin = cut->skin_depth * radius,
        .start = cut->room_temperature,
        .removal_rate = at->removal_rate,
        .share_met = fmin(1.0, cut->walk_share * met),
        .share_deep = bite_recirculation_surface(diffusivity / (cut->feed_rate * at->feed)),
    };
    bite_heat heat;
    set_tool(at, &heat_case);
    bite_heat_shape shape = bite_heat_shape_of(&heat_case);
    bite_heat_solve_shape(&heat_case, &shape, &heat);
    return heat;
}

static bite_wall_heat_case plain_surface(const contact_case *at, double edge_energy)
{
    const bite_cut *cut = &at->cut;
    double radius = bite_cut_edge_radius(cut);
    bite_wall_heat_case surface = {
        .edge_energy = cut->wall_heat * edge_energy,
        .layer = cut->skin_depth * radius,
        .feed_rate = cut->feed_rate,
        .feed_real = at->feed,
        .radius = 0.5 * bite_cutting_diameter(cut),
        .width = at->engaged * bite_cutting_diameter(cut),
        .spring_back = cut->spring_back * radius,
        .rub_heat = cut->rub_heat,
        .dish = dish,
        .cooling = cut->surface_cooling,
        .conductivity = cut->conductivity,
        .diffusivity = cut->conductivity / bite_cut_volumetric_heat(cut),
    };
    return surface;
}

/* A polymer does not get hotter than it flows within the time. */
static double flows_at(const bite_cut *cut, double time)
{
    bite_softening_law law = bite_cut_softening(cut);
    return bite_softening_temperature(&law, time, 0.0);
}

static double capped(const bite_cut *cut, double temperature, double time)
{
    double flow = flows_at(cut, time);
    return isnan(flow) ? temperature : fmin(temperature, flow);
}

static void plain_temperatures(const contact_case *at, const bite_heat *heat, int k,
                               bite_block_segment *segment)
{
    const bite_cut *cut = &at->cut;
    double volumetric = bite_cut_volumetric_heat(cut);
    double start = cut->room_temperature;
    double contact = land_in_radii * bite_cut_edge_radius(cut) / at->speed;
    bite_wall_heat_case surface = plain_surface(at, heat->edge_energy);
    bite_wall_heat wall = bite_wall_heat_wall(&surface);
    bite_wall_heat under = bite_wall_heat_floor(&surface);
    if (cut->operation != BITE_MILL || cut->floor_thickness == 0.0) {
        under.rise = (double)NAN;
    }
    bite_wall_heat warmer = under.rise > wall.rise ? under : wall;
    double flash = bite_wall_heat_flash(heat->edge_energy, surface.layer, volumetric,
                                        surface.diffusivity, contact);
    segment->wall_rise[k] = wall.rise;
    segment->wall_dwell[k] = wall.dwell;
    segment->floor_rise[k] = under.rise;
    segment->floor_dwell[k] = under.dwell;
    segment->value[BITE_SURFACE_DWELL][k] = warmer.dwell;
    segment->value[BITE_FLOW_TEMPERATURE][k] = flows_at(cut, warmer.dwell);
    segment->value[BITE_SURFACE_TEMPERATURE][k] = capped(cut, start + warmer.rise, warmer.dwell);
    segment->value[BITE_FLASH_TEMPERATURE][k] = capped(cut, start + flash, contact);
    segment->value[BITE_CHIP_TEMPERATURE][k] =
        capped(cut, heat->chip, segment->chip_mean[k] / at->speed);
    double thickness = cut->floor_thickness;
    segment->value[BITE_PART_TEMPERATURE][k] = (double)NAN;
    if (thickness > 0.0) {
        double away = 0.5 * (bite_cutting_diameter(cut) + thickness);
        double bond =
            start + bite_conduction_plate_peak(heat->to_part, cut->feed_rate, thickness,
                                               cut->conductivity, surface.diffusivity, away);
        segment->value[BITE_PART_TEMPERATURE][k] =
            fmin(bond, segment->value[BITE_SURFACE_TEMPERATURE][k]);
    }
}

/* The formulas, for one cut. */
static void plain(const contact_case *at, int k, bite_block_segment *segment)
{
    bite_pressure pressure = plain_pressure(at);
    bite_heat heat = plain_heat(at, &pressure);
    segment->tangential[k] = pressure.tangential;
    segment->radial[k] = pressure.radial;
    segment->axial[k] = pressure.axial;
    segment->edge_tangential[k] = pressure.edge_tangential;
    segment->edge_radial[k] = pressure.edge_radial;
    segment->edge_axial[k] = pressure.edge_axial;
    segment->fracture[k] = pressure.fracture;
    segment->chip_mean[k] = fmax(at->chip, bite_cut_least_chip(&at->cut));
    segment->chip_rise[k] = heat.chip - at->cut.room_temperature;
    segment->value[BITE_FILM_TEMPERATURE][k] = heat.film;
    segment->value[BITE_TOOL_TEMPERATURE][k] = heat.tool;
    segment->value[BITE_PREHEAT][k] = heat.preheat;
    segment->value[BITE_HEAT_TO_PART][k] = heat.to_part;
    segment->heat_share[0][k] = heat.to_chip / heat.power;
    segment->heat_share[1][k] = heat.to_tool / heat.power;
    segment->heat_share[2][k] = heat.to_part / heat.power;
    segment->heat_share[3][k] = heat.stored / heat.power;
    segment->heat_power[k] = heat.power;
    segment->energy_gap[k] = 0.0;
    plain_temperatures(at, &heat, k, segment);
}

/* Compares one lane of a segment with one of another. */
static void compare(bite_block_segment *segment, int k, bite_block_segment *expected, int lane,
                    const char *what)
{
    for (size_t i = 0; i < RESULTS; i++) {
        double a = row_of(segment, i)[k];
        double b = row_of(expected, i)[lane];
        double allowed = results[i].absolute + results[i].relative * fmax(fabs(a), fabs(b));
        ck_assert_msg(a != UNFILLED && ((isnan(a) && isnan(b)) || fabs(a - b) <= allowed),
                      "%s of lane %d, %s: %.17g instead of %.17g", results[i].name, k, what, a, b);
    }
}

START_TEST(lanes_agree_with_the_formulas_at_every_width)
{
    static bite_block_segment wide, narrow, one, expected;
    contact_case cases[BITE_LANES];
    uint64_t seed = 41;
    for (int block = 0; block < BLOCKS; block++) {
        cut_kind kind = random_kind(&seed);
        for (int k = 0; k < BITE_LANES; k++) {
            cases[k] = random_case(&kind, &seed);
            plain(&cases[k], k, &expected);
        }
        run(cases, BITE_LANES, &wide);
        run(cases, 5, &narrow);
        for (int k = 0; k < BITE_LANES; k++) {
            compare(&wide, k, &expected, k, "16 cuts against one");
            run(&cases[k], 1, &one);
            compare(&one, 0, &wide, k, "one cut against 16");
        }
        for (int k = 0; k < 5; k++) {
            compare(&narrow, k, &wide, k, "5 cuts against 16");
        }
        compare(&narrow, 7, &wide, 4, "behind the last cut of 5");
    }
}
END_TEST

/* Without one of its figures a form of the pressure is not known, and no row is written. */
START_TEST(a_pressure_without_its_figures_is_not_known)
{
    static const struct {
        uint32_t form;
        size_t figure;
    } needed[] = {
        {BITE_PRESSURE_EDGE, offsetof(bite_cut, pressure_t)},
        {BITE_PRESSURE_EDGE, offsetof(bite_cut, edge_t)},
        {BITE_PRESSURE_POWER, offsetof(bite_cut, pressure_t)},
        {BITE_PRESSURE_POWER, offsetof(bite_cut, pressure_exponent)},
        {BITE_PRESSURE_STRENGTH, offsetof(bite_cut, shear_strength)},
        {BITE_PRESSURE_STRENGTH, offsetof(bite_cut, friction)},
        {BITE_PRESSURE_STRENGTH, offsetof(bite_cut, fracture_energy)},
        {BITE_PRESSURE_STRENGTH, offsetof(bite_cut, yield)},
        {BITE_PRESSURE_NONE, offsetof(bite_cut, reserved)},
    };
    static bite_block block;
    static bite_block_segment segment;
    uint64_t seed = 43;
    cut_kind kind = {.substance = BITE_METAL, .operation = BITE_MILL};
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++) {
        kind.pressure = needed[i].form;
        contact_case at = random_case(&kind, &seed);
        double missing = (double)NAN;
        block.cut = &at.cut;
        block.lanes = BITE_LANE_STEP;
        if (needed[i].form != BITE_PRESSURE_NONE) {
            set_lane(&block, &segment, &at, 0);
            ck_assert(bite_block_pressure(&block, &segment));
            memcpy((char *)&at.cut + needed[i].figure, &missing, sizeof missing);
        }
        set_lane(&block, &segment, &at, 0);
        segment.tangential[0] = segment.edge_axial[0] = UNFILLED;
        ck_assert(!bite_block_pressure(&block, &segment));
        ck_assert(segment.tangential[0] == UNFILLED && segment.edge_axial[0] == UNFILLED);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("heat_block");
    TCase *tests = tcase_create("heat_block");
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, lanes_agree_with_the_formulas_at_every_width);
    tcase_add_test(tests, a_pressure_without_its_figures_is_not_known);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
