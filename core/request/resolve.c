/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a request to flat numbers: tables first, what was typed over them, what is usual behind them, with an account of each. */
#include "core/base/error.h"
#include "core/names/registry.h"
#include "core/physics/force/chamfer_mill.h"
#include "core/cut/defaults.h"
#include "core/physics/geometry/kinematics.h"
#include "core/request/consistency.h"
#include "core/request/request.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* Taken where no machine, tool material or coolant was named. */
static const char usual_machine[] = "bench-24k";

typedef struct settling {
    const bite_ask *ask;
    bite_cut *cut;
    bite_account *account;
} settling;

static void note(settling *of, const bite_input *input, bite_origin origin, const bite_cell *cell, const char *file)
{
    bite_account *account = &of->account[bite_input_index(input)];
    account->origin = origin;
    account->grade = cell == NULL ? BITE_GRADE_NONE : cell->grade;
    account->low = cell == NULL ? (double)NAN : cell->low;
    account->high = cell == NULL ? (double)NAN : cell->high;
    account->source = cell == NULL || cell->source == NULL ? "" : cell->source;
    account->file = file == NULL ? "" : file;
}

static void take_cell(settling *of, const char *name, const bite_cell *cell, const char *file)
{
    const bite_input *input = bite_input_find(name);
    if (input == NULL) {
        return;
    }
    if (input->words > 0 && cell->field->type == BITE_FIELD_WORD) {
        for (uint32_t i = 0; i < input->words; i++) {
            if (strcmp(bite_input_word(input, i), cell->field->words[cell->word]) == 0) {
                *bite_input_choice(of->cut, input) = i;
                note(of, input, BITE_FROM_TABLE, cell, file);
            }
        }
    } else if (input->words == 0 && cell->field->type == BITE_FIELD_FIGURE) {
        *bite_input_number(of->cut, input) = cell->value;
        note(of, input, BITE_FROM_TABLE, cell, file);
    }
}

static void take_thing(settling *of, const bite_thing *thing)
{
    for (size_t i = 0; thing != NULL && i < thing->cell_count; i++) {
        take_cell(of, thing->cells[i].field->name, &thing->cells[i], thing->file);
    }
}

/* A bond is as strong as its weakest layer, in each way that it is asked. */
static bite_status take_layers(settling *of, const bite_cell *layers, bite_error *error)
{
    static const char *const keys[] = {"bond_shear", "bond_pull", "bond_limit"};
    const bite_cell *least[sizeof keys / sizeof *keys] = {NULL};
    const char *files[sizeof keys / sizeof *keys] = {NULL};
    const char *at = layers->text;
    while (*at != 0) {
        char name[BITE_TYPED_MOST];
        const bite_thing *layer = NULL;
        size_t length = strcspn(at, " ");
        (void)snprintf(name, sizeof name, "%.*s", (int)length, at);
        bite_status status = length == 0 ? BITE_OK : bite_library_layer(of->ask->library, name, &layer, error);
        if (status != BITE_OK) {
            return status;
        }
        for (size_t i = 0; layer != NULL && i < sizeof keys / sizeof *keys; i++) {
            const bite_cell *cell = bite_thing_cell(layer, keys[i]);
            if (cell != NULL && (least[i] == NULL || cell->value < least[i]->value)) {
                least[i] = cell;
                files[i] = layer->file;
            }
        }
        at += length;
        at += *at == ' ';
    }
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        if (least[i] != NULL) {
            take_cell(of, keys[i], least[i], files[i]);
        }
    }
    return BITE_OK;
}

static bite_status take_hold(settling *of, bite_error *error)
{
    const bite_cell *layers = of->ask->hold == NULL ? NULL : bite_thing_cell(of->ask->hold, "layers");
    bite_status status = layers == NULL ? BITE_OK : take_layers(of, layers, error);
    take_thing(of, of->ask->hold); /* what the hold states itself goes before its layers */
    return status;
}

static void take_curve(bite_curve *curve, const bite_thing *thing, const char *key)
{
    const bite_cell *cell = bite_thing_cell(thing, key);
    if (cell != NULL && cell->field->type == BITE_FIELD_CURVE) {
        *curve = cell->curve;
    }
}

/* The speed that the edge bears depends on what it is made of. */
static void take_edge_speed(settling *of, const bite_thing *grade)
{
    static const char *const keys[] = {"speed_carbide", "speed_hss", "speed_diamond"};
    if (of->cut->tool_material < sizeof keys / sizeof *keys) {
        const bite_cell *cell = bite_thing_cell(grade, keys[of->cut->tool_material]);
        if (cell != NULL) {
            take_cell(of, "tool_speed_limit", cell, grade->file);
        }
    }
}

static void take_typed(settling *of)
{
    size_t count = bite_input_count();
    for (size_t i = 0; i < count && i < BITE_INPUTS_MOST; i++) {
        const bite_typed *typed = &of->ask->typed[i];
        const bite_input *input = bite_input_at(i);
        if (!typed->given) {
            continue;
        }
        note(of, input, BITE_FROM_USER, NULL, NULL);
        if (input->words > 0) {
            *bite_input_choice(of->cut, input) = typed->word;
        } else if (typed->kind == input->kind) {
            *bite_input_number(of->cut, input) = typed->value;
        }
    }
}

static const bite_typed *typed_as(const bite_ask *ask, const char *name, bite_kind kind)
{
    const bite_typed *typed = &ask->typed[bite_input_index(bite_input_find(name))];
    return typed->given && typed->kind == (uint32_t)kind ? typed : NULL;
}

/* A chamfer's surface speed is that of its upper end. */
static double turning_diameter(const bite_cut *cut)
{
    if (cut->operation != BITE_CHAMFER) {
        return cut->diameter;
    }
    bite_cut full = *cut;
    bite_defaults_fill(&full);
    return bite_cutting_diameter(&full);
}

/* A surface speed or a feed per tooth becomes revolutions and a feed rate, now that diameter and flutes are known. */
static void settle_speeds(settling *of)
{
    bite_cut *cut = of->cut;
    const bite_typed *speed = typed_as(of->ask, "spindle_speed", BITE_KIND_SURFACE_SPEED);
    if (speed != NULL) {
        cut->spindle_speed = bite_motion_spindle_speed(turning_diameter(cut), speed->value);
    }
    const bite_typed *feed = typed_as(of->ask, "feed_rate", BITE_KIND_TOOTH_FEED);
    if (feed != NULL) {
        double flutes = isnan(cut->flutes) ? bite_input_find("flutes")->fallback : cut->flutes;
        cut->feed_rate = bite_motion_feed_rate(feed->value, cut->spindle_speed, flutes);
    }
}

static void default_depth(settling *of)
{
    bite_cut *cut = of->cut;
    if (isnan(cut->depth)) {
        const bite_input *input = bite_input_find("depth");
        double share = cut->operation == BITE_DRILL_HOLE ? 1.0
                       : cut->operation == BITE_CHAMFER  ? 0.1
                       : cut->substance == BITE_METAL    ? 0.15
                                                         : 0.5;
        int whole = cut->operation == BITE_CHAMFER && !isnan(cut->feature_depth);                  /* in one pass */
        cut->depth = whole ? cut->feature_depth : fmin(share * cut->diameter, cut->feature_depth); /* fmin passes over NaN */
        note(of, input, BITE_FROM_DEFAULT, NULL, NULL);
        of->account[bite_input_index(input)].source =
            "common-practice: half the diameter, 0.15 of it in metals; a drill's peck, its diameter; a chamfer, a tenth of it";
        of->account[bite_input_index(input)].grade = BITE_GRADE_COMMON_PRACTICE;
    }
}

static bite_status need_things(const bite_ask *ask, bite_error *error)
{
    if (ask->grade == NULL) {
        bite_error_set(error, BITE_MISSING, "no material was named");
        bite_error_key(error, "material");
        bite_error_hint(error, "for example acrylic/cast; list materials shows what there is");
        return BITE_MISSING;
    }
    if (ask->tool == NULL && !ask->typed[bite_input_index(bite_input_find("diameter"))].given) {
        bite_error_set(error, BITE_MISSING, "no tool was named");
        bite_error_key(error, "tool");
        bite_error_hint(error, "a diameter such as 0.8mm or 1/32in, or a name; list tools shows what there is");
        return BITE_MISSING;
    }
    return BITE_OK;
}

/* tool_material's word, settled before its table is asked. */
static bite_status take_tool_material(settling *of, bite_error *error)
{
    const bite_input *input = bite_input_find("tool_material");
    const bite_typed *typed = &of->ask->typed[bite_input_index(input)];
    uint32_t word = typed->given ? typed->word : of->cut->tool_material;
    of->cut->tool_material = word;
    const bite_thing *thing = NULL;
    bite_status status = bite_library_tool_material(of->ask->library, bite_input_word(input, word), &thing, error);
    if (status == BITE_OK) {
        take_thing(of, thing);
    } else if (status == BITE_UNKNOWN_NAME) {
        status = BITE_OK; /* no table of it: the physics has its own usual figures */
    }
    return status;
}

static bite_status take_coolant(settling *of, bite_error *error)
{
    const bite_input *input = bite_input_find("coolant");
    const bite_typed *typed = &of->ask->typed[bite_input_index(input)];
    const bite_thing *thing = NULL;
    bite_status status =
        bite_library_thing(of->ask->library, BITE_COOLANTS, bite_input_word(input, typed->given ? typed->word : 0), &thing, error);
    if (status == BITE_OK) {
        take_thing(of, thing);
    } else if (status == BITE_UNKNOWN_NAME) {
        status = BITE_OK;
    }
    return status;
}

static bite_status take_machine(settling *of, bite_error *error)
{
    const bite_thing *machine = of->ask->machine;
    bite_status status = BITE_OK;
    if (machine == NULL) {
        status = bite_library_thing(of->ask->library, BITE_MACHINES, usual_machine, &machine, error);
        status = status == BITE_UNKNOWN_NAME ? BITE_OK : status;
    }
    if (status == BITE_OK) {
        take_thing(of, machine);
    }
    return status;
}

static void take_grade(settling *of)
{
    const bite_thing *grade = &of->ask->grade->thing;
    take_thing(of, grade);
    take_curve(&of->cut->heat_capacity_curve, grade, "heat_capacity.at");
    take_curve(&of->cut->strength_curve, grade, "strength.at");
    take_edge_speed(of, grade);
}

static void note_defaults(settling *of, const bite_cut *before)
{
    size_t count = bite_input_count();
    for (size_t i = 0; i < count && i < BITE_INPUTS_MOST; i++) {
        const bite_input *input = bite_input_at(i);
        bite_account *account = &of->account[i];
        if (account->origin != BITE_FROM_NOWHERE) {
            continue;
        }
        int taken =
            input->words > 0 || (isnan(*bite_input_number_of(before, input)) && !isnan(*bite_input_number_of(of->cut, input)));
        if (taken) {
            const char *where;
            bite_source_grade grade = BITE_GRADE_NONE;
            const char *source = bite_defaults_source(input->name);
            note(of, input, BITE_FROM_DEFAULT, NULL, NULL);
            account->source = source;
            if (bite_source_read(source, &grade, &where)) {
                account->grade = grade;
            }
        }
    }
}

/* A cone leaves no wall: the tool table's chamfer mills cut chamfers alone. */
static bite_status check_cone(const bite_ask *ask, const bite_cut *asked, bite_error *error)
{
    if (ask->tool == NULL || bite_thing_cell(ask->tool, "taper") == NULL || asked->operation == BITE_CHAMFER) {
        return BITE_OK;
    }
    bite_error_set(error, BITE_OUT_OF_RANGE, "%.60s is a chamfer mill: it cuts chamfers alone", ask->tool->name);
    bite_error_key(error, "tool");
    bite_error_hint(error, "operation chamfer, or another tool");
    return BITE_OUT_OF_RANGE;
}

bite_status bite_ask_settle(const bite_ask *ask, bite_cut *asked, bite_cut *full, bite_account *account, bite_error *error)
{
    bite_status status = need_things(ask, error);
    if (status != BITE_OK) {
        return status;
    }
    settling of = {ask, asked, account};
    bite_account empty = {BITE_FROM_NOWHERE, BITE_GRADE_NONE, (double)NAN, (double)NAN, "", ""};
    for (size_t i = 0; i < BITE_INPUTS_MOST; i++) {
        account[i] = empty;
    }
    bite_cut_init(asked);
    status = take_machine(&of, error);
    if (status != BITE_OK) {
        return status;
    }
    take_thing(&of, ask->holder);
    status = take_hold(&of, error);
    if (status != BITE_OK) {
        return status;
    }
    take_thing(&of, ask->tool);
    status = take_tool_material(&of, error);
    if (status == BITE_OK) {
        status = take_coolant(&of, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    take_grade(&of);
    take_typed(&of);
    status = check_cone(ask, asked, error);
    status = status != BITE_OK ? status : bite_ask_agree(ask, asked, error);
    if (status != BITE_OK) {
        return status;
    }
    default_depth(&of);
    settle_speeds(&of);
    *full = *asked;
    bite_defaults_fill(full);
    of.cut = full;
    note_defaults(&of, asked);
    return BITE_OK;
}
