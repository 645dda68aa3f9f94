/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice, shown: its answer, and beside it the passes, what holds it back, and the next best
 * tool. */
#include "core/search/choice.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/report/choice.h"
#include "core/report/cut.h"
#include "core/report/cut_json.h"
#include "core/report/cut_text.h"
#include "core/report/json.h"
#include "core/report/text_page.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* What more of the goal is called. */
static const char *const more_of[BITE_GOAL_COUNT] = {"cooler", "gentler", "finer", "faster"};

static const char *holding_name(const bite_active_limit *held)
{
    return held->limit < BITE_LIMIT_COUNT          ? bite_limit_name((bite_limit_id)held->limit)
           : held->limit == BITE_ACTIVE_TOOTH_FEED ? bite_value_name(BITE_CHIP_LOAD)
                                                   : "goal";
}

static void append(char *to, size_t size, const char *text)
{
    size_t used = strlen(to);
    if (used + strlen(text) < size) {
        memcpy(to + used, text, strlen(text) + 1);
    }
}

/* "2 passes down of 0.3 mm, 3 across of 0.1 mm": of a feature with a width. */
static void pairs_text(bite_page *page, const bite_candidate *candidate, const char *depth,
                       char *to, size_t size)
{
    char width[40];
    bite_page_quantity(page, candidate->width, BITE_KIND_LENGTH, width, sizeof width);
    (void)snprintf(to, size, "%u pass%s down of %s, %u across of %s", candidate->passes,
                   candidate->passes > 1 ? "es" : "", depth, candidate->side_passes, width);
}

/* "2 passes of 0.3 mm" or nothing. */
static void passes_text(bite_page *page, const bite_choice *choice, const bite_candidate *candidate,
                        char *to, size_t size)
{
    char depth[40];
    bite_page_quantity(page, candidate->depth, BITE_KIND_LENGTH, depth, sizeof depth);
    to[0] = 0;
    if (!isnan(candidate->width)) {
        pairs_text(page, candidate, depth, to, size);
    } else if (candidate->passes > 1) {
        const char *what = choice->answer->full.operation == BITE_DRILL_HOLE ? "pecks" : "passes";
        (void)snprintf(to, size, "%u %s of %s", candidate->passes, what, depth);
    }
}

static void binding_text(const bite_choice *choice, char *to, size_t size)
{
    to[0] = 0;
    for (uint32_t i = 0; i < choice->active_count; i++) {
        const bite_active_limit *held = &choice->active[i];
        char part[120];
        char gain[24];
        append(to, size, i > 0 ? ", " : "");
        append(to, size, holding_name(held));
        if (!isnan(held->gain) && held->gain >= 0.05) {
            (void)bite_number_write(held->gain, 2, gain, sizeof gain);
            (void)snprintf(part, sizeof part, " (1 %% more room: %s %% %s)", gain,
                           more_of[choice->gain]);
            append(to, size, part);
        }
    }
}

void bite_choice_text_lines(bite_page *page, const bite_choice *choice)
{
    char line[500];
    char part[300];
    char spindle[40];
    char feed[40];
    passes_text(page, choice, &choice->best, part, sizeof part);
    (void)snprintf(line, sizeof line, "%s%s%s", part, part[0] != 0 ? "; " : "",
                   choice->active_count > 0 ? "" : "no limit holds it back");
    binding_text(choice, part, sizeof part);
    if (choice->active_count > 0) {
        append(line, sizeof line,
               choice->best.clear_of_limits ? "held back by " : "nothing is clear; in conflict: ");
        append(line, sizeof line, part);
    }
    char first[80];
    (void)snprintf(first, sizeof first, "Chosen to be %s%s: ", bite_goal_name(choice->goal),
                   choice->gain != choice->goal ? ", and then fast" : "");
    bite_page_wrap(page, first, "  ", line);
    if (choice->second.tool[0] != 0) {
        passes_text(page, choice, &choice->second, part, sizeof part);
        bite_page_quantity(page, choice->second.spindle, BITE_KIND_ROTATION, spindle,
                           sizeof spindle);
        bite_page_quantity(page, choice->second.feed, BITE_KIND_SPEED, feed, sizeof feed);
        (void)snprintf(line, sizeof line, "%s at about %s, %s%s%s%s", choice->second.tool, spindle,
                       feed, part[0] != 0 ? ", " : "", part,
                       choice->second.clear_of_limits ? "" : " (over its limits)");
        bite_page_wrap(page, "Next best tool: ", "  ", line);
    }
}

static json_t *candidate_of(const bite_candidate *candidate)
{
    json_t *object = candidate->tool[0] == 0 ? json_null() : json_object();
    if (object == NULL || candidate->tool[0] == 0) {
        return object;
    }
    int failed = bite_json_text(object, "tool", candidate->tool);
    failed |= bite_json_put(object, "spindle", bite_json_number(60.0 * candidate->spindle));
    failed |= bite_json_text(object, "spindle_unit", "rpm");
    failed |= bite_json_put(object, "feed", bite_json_number(candidate->feed));
    failed |= bite_json_text(object, "feed_unit", "m/s");
    failed |= bite_json_put(object, "depth", bite_json_number(candidate->depth));
    failed |= bite_json_text(object, "depth_unit", "m");
    failed |= bite_json_put(object, "width", bite_json_number(candidate->width));
    failed |= bite_json_text(object, "width_unit", "m");
    failed |= bite_json_put(object, "passes", json_integer(candidate->passes));
    failed |= bite_json_put(object, "side_passes", json_integer(candidate->side_passes));
    failed |= bite_json_put(object, "clear", json_boolean(candidate->clear_of_limits));
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static json_t *binding_of(const bite_choice *choice)
{
    json_t *list = json_array();
    for (uint32_t i = 0; list != NULL && i < choice->active_count; i++) {
        json_t *object = json_object();
        int failed = object == NULL;
        failed |= bite_json_text(object, "name", holding_name(&choice->active[i]));
        failed |= bite_json_put(object, "relax", bite_json_number(choice->active[i].gain));
        if (bite_json_append(list, object, failed) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}

static json_t *choice_object(const bite_choice *choice, bite_units units)
{
    json_t *root = bite_answer_object(choice->answer, units);
    if (root == NULL) {
        return NULL;
    }
    int failed = bite_json_text(root, "goal", bite_goal_name(choice->goal));
    failed |= bite_json_put(root, "clear", json_boolean(choice->clear));
    failed |= bite_json_put(root, "passes", json_integer(choice->best.passes));
    failed |= bite_json_put(root, "side_passes", json_integer(choice->best.side_passes));
    failed |= bite_json_put(root, "binding",
                            choice->best.clear_of_limits ? binding_of(choice) : json_array());
    failed |= bite_json_put(root, "conflict",
                            choice->best.clear_of_limits ? json_array() : binding_of(choice));
    failed |= bite_json_put(root, "next_best", candidate_of(&choice->second));
    if (failed) {
        json_decref(root);
        return NULL;
    }
    return root;
}

bite_status bite_choice_write(const bite_choice *choice, const bite_style *style, bite_sink sink,
                              void *user, bite_error *error)
{
    bite_error_clear(error);
    bite_page page;
    if (choice == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a choice was expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    if (style != NULL && style->format == BITE_JSON) {
        return bite_json_write(choice_object(choice, page.units), sink, user, error);
    }
    return bite_answer_text(choice->answer, choice, style, sink, user, error);
}
