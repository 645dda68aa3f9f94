/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole cuts of named materials against independent models of heat and mechanics, and against
 * measured forces. */
#include "core/base/memory.h"
#include "core/cut/defaults.h"
#include "core/cut/pass.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/dynamics/mode_stability.h"
#include "core/physics/heat/chip_recutting.h"
#include "core/physics/heat/softening_time.h"
#include "core/physics/heat/wall_heat.h"
#include "core/physics/holding/bond.h"
#include "tests/oracle/closed_forms/cut_tools.h"
#include "tests/reference/check.h"
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_engagement.h"
#include "tests/support/test_physics.h"
#include "tests/support/test_segment.h"
#include <math.h>

#define IN(name) bite_in(given, name)

static void use(bite_request *request, bite_collection collection, const char *name)
{
    bite_error error = BITE_ERROR_INIT;
    if (name != NULL && bite_request_use(request, collection, name, &error) != BITE_OK) {
        bite_test_stop("%s: %s", name, error.message);
    }
}

/* A request of the row's words, and of its numbers that are inputs. */
static bite_request *request_of(const bite_given *given)
{
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    if (bite_request_new(library, &request, &error) != BITE_OK) {
        bite_test_stop("%s", error.message);
    }
    use(request, BITE_GRADES, bite_in_word(given, "grade"));
    use(request, BITE_MACHINES, bite_in_word(given, "machine"));
    for (size_t i = 0; i < given->words; i++) {
        if (bite_input_find(given->word_names[i]) != NULL &&
            bite_request_set(request, given->word_names[i], given->word_values[i], &error) !=
                BITE_OK) {
            bite_test_stop("%s: %s", given->word_names[i], error.message);
        }
    }
    for (size_t i = 0; i < given->count; i++) {
        if (bite_input_find(given->names[i]) != NULL &&
            bite_request_set_number(request, given->names[i], given->values[i], &error) !=
                BITE_OK) {
            bite_test_stop("%s: %s", given->names[i], error.message);
        }
    }
    return request;
}

/* Checks also run outside of a test, where Check's assertions do not work. */
static bite_result pass_of(const bite_cut *cut)
{
    bite_error error = BITE_ERROR_INIT;
    bite_result result = {.struct_size = (uint32_t)sizeof result};
    if (bite_cut_pass_with(bite_memory_default(), cut, &result, &error) != BITE_OK) {
        bite_test_stop("%s", error.message);
    }
    return result;
}

static bite_pressure pressure_of(const bite_cut *cut, const bite_segment *segment)
{
    bite_pressure pressure;
    double chip =
        fmax(segment->value[BITE_CHIP_THICKNESS_MEAN], segment->value[BITE_CHIP_THICKNESS_LEAST]);
    if (!bite_cut_pressure(cut, chip / segment->value[BITE_SURFACE_SPEED], &pressure)) {
        bite_test_stop("the material has no cutting pressure");
    }
    return pressure;
}

/* The cut with all defaults, and its only segment. */
static bite_cut cut_of(const bite_given *given, bite_segment *segment)
{
    bite_error error = BITE_ERROR_INIT;
    bite_cut cut;
    bite_request *request = request_of(given);
    bite_cut_init(&cut);
    if (bite_request_cut(request, &cut, &error) != BITE_OK) {
        bite_test_stop("%s", error.message);
    }
    bite_request_free(request);
    bite_defaults_fill(&cut);
    bite_test_segment(&cut, bite_engagement_straight(cut.diameter, cut.width, (bite_side)cut.side),
                      segment);
    return cut;
}

/* What the stages of the evaluation of a cut hand on: forces, edge contact. Borrowed until the next
 * call. */
static const bite_block_space *evaluate(const bite_cut *cut)
{
    static bite_block_space space;
    static bite_checked_cut checked;
    checked.requested = checked.full = *cut;
    bite_block_space_init(&space);
    bite_block_start(&space, &checked, NULL, 0);
    bite_block_evaluate(&space, 1, NULL);
    return &space;
}

static double celsius(double kelvin)
{
    return kelvin - 273.15;
}

/* The heat that one pass of the edge leaves in the work, from the flash under it. */
static double edge_energy(const bite_cut *cut, const bite_segment *segment)
{
    double volumetric = bite_cut_volumetric_heat(cut);
    double radius = bite_cut_edge_radius(cut);
    double speed = M_PI * cut->diameter * cut->spindle_speed;
    double unit = bite_wall_heat_flash(1.0, cut->skin_depth * radius, volumetric,
                                       cut->conductivity / volumetric, 2.0 * radius / speed);
    return (segment->value[BITE_FLASH_TEMPERATURE] - cut->room_temperature) / unit;
}

/* The sweeps that add to the rise of the wall. */
static bite_wall_sweeps sweeps_of(const bite_cut *cut, const bite_segment *segment)
{
    bite_wall_heat_case wall = {
        .layer = cut->skin_depth * bite_cut_edge_radius(cut),
        .feed_rate = cut->feed_rate,
        .feed_real = evaluate(cut)->straight.contact_feed[0],
        .radius = 0.5 * cut->diameter,
        .width = segment->engaged * cut->diameter,
        .spring_back = cut->spring_back * bite_cut_edge_radius(cut),
        .diffusivity = cut->conductivity / bite_cut_volumetric_heat(cut),
    };
    return bite_wall_heat_wall_sweeps(&wall);
}

static int model_heat(const bite_given *given, double *out)
{
    bite_segment segment;
    bite_cut cut = cut_of(given, &segment);
    bite_softening_law law = bite_cut_softening(&cut);
    bite_wall_sweeps sweeps = sweeps_of(&cut, &segment);
    bite_result result = pass_of(&cut);
    const bite_limit *limits = result.limits;
    double skin = cut.room_temperature + segment.wall_rise;
    out[0] = edge_energy(&cut, &segment);
    out[1] = 1e6 * segment.wall_dwell * cut.feed_rate / (sweeps.cuts + sweeps.rubs);
    out[2] = sweeps.cuts;
    out[3] = sweeps.rubs;
    out[4] = 1e3 * segment.wall_dwell;
    out[5] = segment.wall_rise;
    out[6] = segment.floor_rise;
    out[7] = celsius(bite_softening_temperature(&law, segment.wall_dwell, 0.0));
    out[8] = limits[BITE_LIMIT_SOFTENING].utilization;
    out[9] = bite_softening_relaxed_share(&law, skin, segment.wall_dwell);
    out[10] = limits[BITE_LIMIT_CRAZE].applies ? limits[BITE_LIMIT_CRAZE].utilization : 0.0;
    out[11] = 1e-6 * pressure_of(&cut, &segment).tangential;
    out[12] = celsius(bite_softening_temperature(&law, 1.0 / cut.spindle_speed, cut.tack_decades));
    out[13] = limits[BITE_LIMIT_CHIP_PACKING].utilization;
    out[14] = celsius(segment.value[BITE_FLASH_TEMPERATURE]);
    return 15;
}

/* The rise of a chip that is cut again in packed flutes, as chip_weld has it. */
static double chip_rise(const bite_cut *cut, const bite_segment *segment, double packing)
{
    bite_recutting_case chips = {
        .rise = segment->chip_rise,
        .packing = packing,
        .again = cut->recutting,
        .cooling = cut->surface_cooling,
        .chip = segment->chip_mean,
        .turns = cut->spindle_speed,
        .volumetric = bite_cut_volumetric_heat(cut),
        .warming = 0.0033,
    };
    return bite_recutting_rise(&chips);
}

static int model_chip(const bite_given *given, double *out)
{
    bite_segment segment;
    bite_cut cut = cut_of(given, &segment);
    bite_result result = pass_of(&cut);
    out[0] = chip_rise(&cut, &segment, result.limits[BITE_LIMIT_CHIP_PACKING].utilization);
    out[1] = celsius(segment.value[BITE_TOOL_TEMPERATURE]);
    out[2] = result.limits[BITE_LIMIT_CHIP_WELD].utilization;
    return 3;
}

/* A depth in mm as the rows state it: 999 where the cut never chatters. */
static double stated_depth(double depth)
{
    return isfinite(depth) ? fmin(999.0, 1e3 * depth) : 999.0;
}

/* The depths at which frame, spindle and tool chatter, each alone. */
static void fill_stable(const bite_given *given, const bite_cut *cut, const bite_segment *segment,
                        double *out)
{
    bite_direction_root roots[2];
    bite_pressure pressure = pressure_of(cut, segment);
    bite_arc arc = bite_engagement_straight(cut->diameter, cut->width, (bite_side)cut->side);
    bite_excitation excitation = {
        .teeth = cut->flutes,
        .speed = cut->spindle_speed,
        .tangential = pressure.tangential,
        .span = bite_engagement_span(arc),
        .surface_speed = segment->value[BITE_SURFACE_SPEED],
        .edge_radius = bite_cut_edge_radius(cut),
    };
    double stiffness = cut->machine_stiffness;
    const bite_vibration_mode modes[] = {
        {cut->frame_frequency, stiffness / cut->frame_share, cut->frame_damping},
        {cut->spindle_frequency, stiffness / (1.0 - cut->frame_share), cut->spindle_damping},
        {cut->tool_frequency_share * IN("tool_f"), IN("tool_k"), cut->tool_damping}};
    bite_mode_roots(arc, bite_pressure_ratio(cut->pressure_r, &pressure), roots);
    for (int i = 0; i < 3; i++) {
        double plain = bite_test_mode_depth(roots, &modes[i], &excitation);
        out[i] =
            stated_depth(cut->stable_share * bite_mode_damped_depth(plain, &modes[i], &excitation));
    }
}

static int model_mechanics(const bite_given *given, double *out)
{
    const double creep = 0.2; /* of a tape */
    bite_segment segment;
    bite_cut cut = cut_of(given, &segment);
    bite_result result = pass_of(&cut);
    const bite_limit *limits = result.limits;
    out[0] = 1e6 * segment.heavy_chip;
    out[1] = 1e6 * bite_chip_peak(segment.heavy_chip, bite_cut_least_chip(&cut));
    out[2] = limits[BITE_LIMIT_RUBBING].utilization;
    out[3] = limits[BITE_LIMIT_RUNOUT].utilization;
    out[4] = limits[BITE_LIMIT_CHIP_PACKING].utilization;
    out[5] = segment.pocket;
    fill_stable(given, &cut, &segment, out + 6);
    double in_cut = cut.flutes * segment.value[BITE_ENGAGEMENT] / (2.0 * M_PI);
    out[9] = bite_bond_steady_share(creep, in_cut);
    return 10;
}

static int model_force(const bite_given *given, double *out)
{
    bite_segment segment;
    bite_cut cut = cut_of(given, &segment);
    const bite_block_force *force = &evaluate(&cut)->work.force;
    out[0] = segment.value[BITE_POWER_MEAN];
    out[1] = force->mean_x[0];
    out[2] = force->mean_y[0];
    return 3;
}

static int model_tooth(const bite_given *given, double *out)
{
    bite_segment segment;
    bite_cut cut = cut_of(given, &segment);
    bite_result result = pass_of(&cut);
    out[0] = 1e-3 * segment.value[BITE_EDGE_LOAD];
    out[1] = result.limits[BITE_LIMIT_FEED_TOOTH].utilization;
    return 2;
}

/* Whether a measured mean force lies in the band of the draws, and its ratio to the best estimate.
 */
static int measured_force(const bite_given *given, double *out)
{
    const size_t draws = 1024;
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = NULL;
    bite_request *request = request_of(given);
    if (bite_answer_new(request, draws, 0.9, &answer, &error) != BITE_OK) {
        bite_test_stop("%s", error.message);
    }
    bite_value force = bite_answer_result(answer)->values[BITE_FORCE_SIDE_MEAN];
    bite_answer_free(answer);
    bite_request_free(request);
    out[0] = IN("F") >= force.low && IN("F") <= force.high;
    out[1] = IN("F") / force.value;
    return 2;
}

const bite_check bite_checks_model[] = {
    {"model_heat", model_heat, "bite_cut_pass_with"},
    {"model_chip", model_chip, "bite_cut_pass_with"},
    {"model_mechanics", model_mechanics, "bite_cut_pass_with"},
    {"model_force", model_force, "bite_block_evaluate"},
    {"model_tooth", model_tooth, "bite_cut_pass_with"},
    {"measured_force", measured_force, "bite_answer_new"},
};
const size_t bite_checks_model_count = BITE_COUNT(bite_checks_model);
