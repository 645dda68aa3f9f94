/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes of one input of a request that a shop can make, of any size. */
#include "core/search/request_change.h"
#include "core/base/number.h"
#include "core/library/collection.h"
#include "core/names/registry.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The inputs, each in one direction. Settings that nobody gave are chosen by the search anyway, and
 * what nobody asked of the part restricts nothing, so of both only given ones can be changed; tools
 * and their clamping have defaults. */
static const struct {
    const char *input;
    double direction;
    int with_default; /* 1: also if it was not given */
} levers[] = {
    {"stickout", -1.0, 1},      {"flute_length", 1.0, 1},     {"neck_length", 1.0, 1},
    {"runout", -1.0, 1},        {"edge_radius", -1.0, 0},     {"flutes", -1.0, 1},
    {"feed_rate", -1.0, 0},     {"feed_rate", 1.0, 0},        {"spindle_speed", -1.0, 0},
    {"spindle_speed", 1.0, 0},  {"depth", -1.0, 0},           {"width", -1.0, 0},
    {"entry_feed", -1.0, 0},    {"path_length", -1.0, 0},     {"load_time", -1.0, 0},
    {"bond_area", 1.0, 0},      {"feature_depth", -1.0, 0},   {"tolerance", 1.0, 0},
    {"finish", 1.0, 0},         {"inside_radius", 1.0, 0},    {"gap", 1.0, 0},
    {"wall_thickness", 1.0, 0}, {"wall_height", -1.0, 0},     {"floor_thickness", 1.0, 0},
    {"floor_span", -1.0, 0},    {"bridge_thickness", 1.0, 0}, {"bridge_span", -1.0, 0},
    {"flatness", 1.0, 0},       {"stock_thickness", 1.0, 0},
};

/* Two digits are easily entered; three if two would make the change so much larger. */
static const double rounded_most = 0.02;

size_t bite_request_change_count(void)
{
    return sizeof levers / sizeof *levers;
}

/* Nonzero: the tool is a record of the table, which states this input. */
static int stated_by_tool(const bite_request *request, const char *input)
{
    return request->tool != NULL && bite_item_field(request->tool, input) != NULL;
}

/* A value rounded up or down to so many significant digits, unless it has no more than them. */
static double round_away(double number, double direction, int digits)
{
    double step = pow(10.0, floor(log10(number)) - digits + 1);
    double steps = number / step;
    double near = round(steps);
    return step * (fabs(steps - near) < 1e-6 ? near : direction > 0.0 ? ceil(steps) : floor(steps));
}

/* The text to enter for a value that is changed in the direction; "": it would be zero. */
static void entered(double si, bite_kind kind, bite_units units, double direction, int whole,
                    char *text, size_t size)
{
    double number = si;
    const char *unit = bite_unit_shop(si, kind, units, &number);
    double rounded = round_away(number, direction, 2);
    text[0] = 0;
    if (whole) {
        rounded = direction > 0.0 ? ceil(number - 1e-9) : floor(number + 1e-9);
    } else if (fabs(log(rounded / number)) > rounded_most) {
        rounded = round_away(number, direction, 3);
    }
    if (rounded > 0.0) {
        char digits[32];
        (void)bite_number_write(rounded, 6, digits, sizeof digits);
        (void)snprintf(text, size, "%s%s%s", digits, unit[0] == 0 ? "" : " ", unit);
    }
}

/* A number and where it comes from, as it was given: a feed may be one per tooth. 0: it is not for
 * the shop to change, since the search chooses it, or it is not there. */
static int read_number(const bite_input *input, int with_default, const bite_request *asked,
                       const bite_answer *answer, const bite_request *request,
                       bite_request_change *change)
{
    const size_t index = bite_input_index(input);
    const bite_typed_input *typed = &request->typed[index];
    double full = *bite_input_number_of(&answer->full, input);
    memset(change, 0, sizeof *change);
    change->what = input->name;
    change->by_default = !asked->typed[index].given;
    change->kind = typed->given ? typed->kind : input->kind;
    change->from = typed->given ? typed->value : full;
    change->size = (double)NAN;
    return (with_default || !change->by_default) && change->from > 0.0;
}

/* The collet must not clamp on the flutes or the neck. */
static int clamps_on_shank(const bite_answer *answer, const bite_request_change *change)
{
    const bite_cut *full = &answer->full;
    double least = full->flute_length + (full->neck_length > 0.0 ? full->neck_length : 0.0);
    return strcmp(change->what, "stickout") != 0 || change->to >= least;
}

int bite_request_change_number(size_t at, double size, const bite_request *asked, bite_units units,
                               const bite_answer *answer, bite_request *request,
                               bite_request_change *change)
{
    const bite_input *input = bite_input_find(levers[at].input);
    if (!read_number(input, levers[at].with_default, asked, answer, request, change) ||
        (strcmp(input->name, "flutes") == 0 && stated_by_tool(request, input->name))) {
        return 0;
    }
    bite_typed_input *typed = &request->typed[bite_input_index(input)];
    const bite_typed_input before = *typed;
    double to = change->from * exp(levers[at].direction * size);
    bite_error error = BITE_ERROR_INIT;
    entered(to, (bite_kind)change->kind, units, levers[at].direction, (int)input->whole,
            change->to_word, sizeof change->to_word);
    if (change->to_word[0] == 0 ||
        bite_request_set(request, input->name, change->to_word, &error) != BITE_OK) {
        *typed = before;
        return 0;
    }
    change->to = typed->value;
    change->size = fmax(-1e-9, levers[at].direction * log(change->to / change->from));
    int changes = change->size > 1e-9 || (change->by_default && change->size > -1e-9);
    change->size = fmax(0.0, change->size);
    if (typed->kind != change->kind || !changes || !clamps_on_shank(answer, change)) {
        *typed = before;
        return 0;
    }
    return 1;
}

static void name_words(const char *what, const char *from, const char *to,
                       bite_request_change *change)
{
    memset(change, 0, sizeof *change);
    change->what = what;
    change->kind = BITE_KIND_COUNT;
    change->from = change->to = change->size = (double)NAN;
    (void)snprintf(change->from_word, sizeof change->from_word, "%s", from);
    (void)snprintf(change->to_word, sizeof change->to_word, "%s", to);
}

int bite_request_change_coolant(uint32_t word, const bite_answer *answer, bite_request *request,
                                bite_request_change *change)
{
    const bite_input *input = bite_input_find("coolant");
    bite_typed_input *typed = &request->typed[bite_input_index(input)];
    if (word <= answer->full.coolant || word >= input->words) {
        return 0;
    }
    name_words(input->name, bite_input_word(input, answer->full.coolant),
               bite_input_word(input, word), change);
    change->by_default = !typed->given;
    typed->given = 1;
    typed->word = word;
    return 1;
}

int bite_request_change_hold(const bite_item_record *hold, bite_request *request,
                             bite_request_change *change)
{
    if (request->hold == NULL || strcmp(hold->name, request->hold->name) == 0) {
        return 0;
    }
    name_words("hold", request->hold->name, hold->name, change);
    request->hold = hold;
    return 1;
}

static double relative(double to, double from)
{
    return to > 0.0 && from > 0.0 ? fabs(log(to / from)) : 0.0;
}

int bite_request_change_tool(const bite_item_record *tool, const bite_answer *answer,
                             bite_request *request, bite_request_change *change)
{
    const bite_cut *full = &answer->full;
    double size = relative(bite_item_figure(tool, "diameter"), full->diameter) +
                  relative(bite_item_figure(tool, "flutes"), full->flutes) +
                  relative(bite_item_figure(tool, "flute_length"), full->flute_length);
    if (full->operation != BITE_MILL || bite_item_field(tool, "taper") != NULL ||
        !isnan(full->taper) || !(size > 1e-9)) {
        return 0; /* a hole is as wide as its drill, and a cone gives the cut its form */
    }
    name_words("tool", request->tool_name, tool->name, change);
    change->size = size;
    for (size_t i = 0; i < tool->value_count; i++) {
        const bite_input *input = bite_input_find(tool->values[i].field->name);
        if (input != NULL) {
            request->typed[bite_input_index(input)].given = 0;
        }
    }
    return bite_request_use(request, BITE_TOOLS, tool->name, NULL) == BITE_OK;
}
