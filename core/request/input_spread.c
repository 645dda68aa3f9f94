/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which inputs of a request are uncertain. */
#include "core/request/input_spread.h"
#include "core/base/error.h"
#include "core/cut/chatter_depth.h"
#include "core/cut/physics_inputs.h"
#include "core/library/collection.h"
#include "core/names/own_limits.h"
#include "core/names/registry.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

/* The word of a shape that is normal, with low and high stated as differences rather than factors:
 * for temperatures and angles, whose zero is arbitrary. */
enum { SHAPE_SHIFT = BITE_SHAPE_LOGNORMAL + 1 };

/* The band of the input's own record if it states one, otherwise the factors or differences of the
 * model's table. */
static int make_spread(const bite_item_record *record, size_t index, double best,
                       const bite_provenance *provenance, bite_spread *spread)
{
    const bite_field_value *shape = bite_item_field(record, "shape");
    int banded = provenance->origin == BITE_ORIGIN_TABLE && provenance->low < provenance->high;
    spread->input = (uint32_t)index;
    spread->shape = shape == NULL ? 0 : shape->word;
    spread->group = (uint32_t)bite_item_figure_or(record, "group", 0.0);
    spread->reserved = 0;
    spread->together = bite_item_figure_or(record, "together", 0.0);
    spread->low = banded ? provenance->low : best * bite_item_figure_or(record, "low", 1.0);
    spread->high = banded ? provenance->high : best * bite_item_figure_or(record, "high", 1.0);
    if (spread->shape == SHAPE_SHIFT) {
        spread->shape = BITE_SHAPE_NORMAL;
        spread->low = banded ? provenance->low : best - bite_item_figure_or(record, "minus", 0.0);
        spread->high = banded ? provenance->high : best + bite_item_figure_or(record, "plus", 0.0);
    }
    return spread->shape != 0 && spread->low <= best && best <= spread->high &&
           spread->low < spread->high &&
           (spread->shape != BITE_SHAPE_LOGNORMAL || spread->low > 0.0);
}

/* ---- inputs that a cut does not read ---- */

static int is_polymer(const bite_cut *full)
{
    return full->substance == BITE_AMORPHOUS || full->substance == BITE_CRYSTALLINE;
}

static int mills_metal(const bite_cut *full)
{
    return full->substance == BITE_METAL && full->operation == BITE_MILL;
}

static int mills(const bite_cut *full)
{
    return !bite_cut_is_axial(full);
}

static int has_cone(const bite_cut *full)
{
    return full->operation == BITE_CHAMFER || bite_cut_is_groove(full);
}

static int has_bond(const bite_cut *full)
{
    return !isnan(full->bond_area + full->bond_shear + full->bond_pull);
}

static int has_bond_heat(const bite_cut *full)
{
    return !isnan(full->bond_temperature) || full->floor_thickness > 0.0;
}

static int has_flatness(const bite_cut *full)
{
    return !isnan(full->flatness + full->part_span);
}

static int crazes(const bite_cut *full)
{
    return full->substance != BITE_METAL && !isnan(full->crazing);
}

static int has_elastic_part(const bite_cut *full)
{
    int thin =
        !isnan(full->wall_thickness) || !isnan(full->floor_span) || !isnan(full->bridge_span);
    return crazes(full) || thin || has_bond(full) || has_flatness(full);
}

/* The modes of frame, spindle and tool that stand in for measured ones. */
static int has_class_modes(const bite_cut *full)
{
    return mills(full) && !bite_cut_has_measured_modes(full);
}

static int has_mode(const bite_cut *full)
{
    return mills(full) && !isnan(full->mode_frequency);
}

static int has_mode2(const bite_cut *full)
{
    return mills(full) && !isnan(full->mode2_frequency);
}

static int has_mode3(const bite_cut *full)
{
    return mills(full) && !isnan(full->mode3_frequency);
}

static int welds_by_temperature(const bite_cut *full)
{
    return !is_polymer(full);
}

static int softens_by_temperature(const bite_cut *full)
{
    return !is_polymer(full) && full->substance != BITE_METAL;
}

/* The strength form states no edge radius of a test. */
static int states_edge_force(const bite_cut *full)
{
    return full->pressure != BITE_PRESSURE_STRENGTH;
}

static int has_torque_curve(const bite_cut *full)
{
    return !isnan(full->torque_limit + full->torque_speed);
}

static int plunges(const bite_cut *full)
{
    return mills(full) && full->entry == BITE_ENTRY_PLUNGE;
}

static int taps(const bite_cut *full)
{
    return full->operation == BITE_TAP;
}

static int never(const bite_cut *full)
{
    (void)full;
    return 0;
}

#define WHEN(member, condition)                                                                    \
    {                                                                                              \
        offsetof(bite_cut, member), condition                                                      \
    }

/* The cuts that read an input. Those that are not here are read by every cut, or their best
 * estimate is NaN in the cuts that do not read them. */
static const struct {
    size_t offset;
    int (*reads)(const bite_cut *full);
} readers[] = {
    WHEN(acceleration, never), /* the time of a job reads it, which is outside of the draws */
    WHEN(tip_diameter, has_cone),
    WHEN(torque_exponent, has_torque_curve),
    WHEN(edge_reference, states_edge_force),
    WHEN(welding, welds_by_temperature),
    WHEN(softening, softens_by_temperature),
    WHEN(tack_decades, is_polymer),
    WHEN(recutting, is_polymer),
    WHEN(tap_drag, taps),
    WHEN(chip_bulk, mills_metal),
    WHEN(expansion, crazes),
    WHEN(modulus, has_elastic_part),
    WHEN(poisson, has_elastic_part),
    WHEN(skin_stress, has_flatness),
    WHEN(bond_shear, has_bond),
    WHEN(bond_pull, has_bond),
    WHEN(bond_force, has_bond),
    WHEN(bond_limit, has_bond_heat),
    WHEN(stable_share, mills),
    WHEN(plunge_share, plunges),
    WHEN(frame_share, has_class_modes),
    WHEN(frame_frequency, has_class_modes),
    WHEN(frame_damping, has_class_modes),
    WHEN(spindle_frequency, has_class_modes),
    WHEN(spindle_damping, has_class_modes),
    WHEN(tool_frequency_share, has_class_modes),
    WHEN(tool_damping, has_class_modes),
    WHEN(mode_damping, has_mode),
    WHEN(mode2_damping, has_mode2),
    WHEN(mode3_damping, has_mode3),
};

int bite_spread_is_unused(const bite_input *input, const bite_cut *full)
{
    for (size_t i = 0; i < sizeof readers / sizeof *readers; i++) {
        if (readers[i].offset == input->offset) {
            return !readers[i].reads(full) && !bite_own_limits_read(full->own, input->offset);
        }
    }
    return 0;
}

static bite_status refuse_more(const bite_input *input, bite_error *error)
{
    bite_error_set(
        error, BITE_OUT_OF_RANGE,
        "more than %d inputs of this cut are uncertain; the draws have no dimension left",
        BITE_SPREAD_MAX);
    bite_error_key(error, "%s", input->name);
    bite_error_hint(error,
                    "give some of them, for example %s, or take their spreads out of the "
                    "tables",
                    input->name);
    return BITE_OUT_OF_RANGE;
}

/* A figure of a plugin scatters in the band of its table: in the logarithm, as most figures of
 * materials do, or evenly where that is not possible. */
static bite_status collect_own(const bite_cut *full, const bite_provenance *provenance,
                               bite_spread *spreads, size_t *count, bite_error *error)
{
    for (size_t slot = 0; full->own != NULL && slot < full->own->figure_count; slot++) {
        size_t index = bite_input_count() + slot;
        double low = provenance[index].low;
        double high = provenance[index].high;
        if (provenance[index].origin != BITE_ORIGIN_TABLE || !(low < high)) {
            continue;
        }
        if (*count == BITE_SPREAD_MAX) {
            return refuse_more(&full->own->figures[slot], error);
        }
        bite_spread spread = {(uint32_t)index,
                              low > 0.0 ? BITE_SHAPE_LOGNORMAL : BITE_SHAPE_LEVEL,
                              0,
                              0,
                              low,
                              high,
                              0.0};
        spreads[(*count)++] = spread;
    }
    return BITE_OK;
}

bite_status bite_spreads_collect(const bite_request *request, const bite_cut *full,
                                 bite_provenance *provenance, bite_spread *spreads, size_t *count,
                                 bite_error *error)
{
    *count = 0;
    for (size_t i = 0; i < bite_input_count() && i < BITE_INPUTS_MAX; i++) {
        const bite_input *input = bite_input_at(i);
        const bite_item_record *record = NULL;
        if (input->words > 0 || provenance[i].origin == BITE_ORIGIN_USER ||
            provenance[i].origin == BITE_ORIGIN_SHOP || provenance[i].origin == BITE_ORIGIN_NONE ||
            bite_spread_is_unused(input, full)) {
            continue;
        }
        double best = *bite_input_number_of(full, input);
        /* most inputs have no spread: no hint is needed */
        bite_status status = bite_library_spread(request->library, input->name, &record, NULL);
        if (status != BITE_OK && status != BITE_UNKNOWN_NAME) {
            status = bite_library_spread(request->library, input->name, &record, error);
        }
        if (status == BITE_UNKNOWN_NAME) {
            continue;
        }
        if (status != BITE_OK) {
            return status;
        }
        bite_spread spread;
        if (isnan(best) || !make_spread(record, i, best, &provenance[i], &spread)) {
            continue;
        }
        if (*count == BITE_SPREAD_MAX) {
            return refuse_more(input, error);
        }
        provenance[i].low = spread.low;
        provenance[i].high = spread.high;
        spreads[(*count)++] = spread;
    }
    bite_error_clear(error);
    return collect_own(full, provenance, spreads, count, error);
}

size_t bite_spreads_except(const bite_spread *spreads, size_t count, const bite_input *input,
                           bite_spread *remaining)
{
    int of_coolant = strcmp(input->name, "coolant") == 0;
    const bite_input *follows = of_coolant ? bite_input_find("cooling") : NULL;
    const bite_input *follows_too = of_coolant ? bite_input_find("surface_cooling") : NULL;
    size_t left = 0;
    for (size_t i = 0; i < count; i++) {
        const bite_input *scatters = bite_input_entry(spreads[i].input);
        if (scatters != input && scatters != follows && scatters != follows_too) {
            remaining[left++] = spreads[i];
        }
    }
    return left;
}
