/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice as text or JSON: its answer, its passes, the limits that restrict it, and the next best
 * tool. */
#include "core/search/choice.h"
#include "core/base/error.h"
#include "core/report/choice_text.h"
#include "core/report/cut_json.h"
#include "core/report/cut_text.h"
#include "core/report/json.h"
#include "core/report/text_page.h"

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
        failed |=
            bite_json_text(object, "name", bite_active_limit_name(choice, &choice->active[i]));
        failed |= bite_json_put(object, "relax", bite_json_number(choice->active[i].gain));
        if (bite_json_append(list, object, failed) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}

/* A change that makes a request clear; a number is in SI and, as "enter", in the unit of a shop. */
static json_t *freeing_of(const bite_freeing_change *freeing)
{
    const bite_request_change *change = &freeing->change;
    json_t *object = json_object();
    int words = change->kind == BITE_KIND_COUNT;
    int failed = bite_json_text(object, "input", change->what);
    failed |= bite_json_put(
        object, "from", words ? json_string(change->from_word) : bite_json_number(change->from));
    failed |= bite_json_put(object, "to",
                            words ? json_string(change->to_word) : bite_json_number(change->to));
    failed |= bite_json_text(object, "enter", change->to_word);
    failed |= bite_json_put(object, "given", json_boolean(!change->by_default));
    failed |= bite_json_put(object, "size", bite_json_number(change->size));
    failed |= bite_json_put(object, "chance", bite_json_number(freeing->chance));
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

/* Those that were found: the smallest first, and then one of words. */
static json_t *freeing_list(const bite_choice *choice)
{
    json_t *list = json_array();
    for (int i = 0; list != NULL && i < BITE_FREEING_MAX; i++) {
        if (choice->freeing[i].change.what != NULL &&
            bite_json_append(list, freeing_of(&choice->freeing[i]), 0) != 0) {
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
    failed |= bite_json_put(root, "freed_by", freeing_list(choice));
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
        return bite_json_write(choice_object(choice, page.units), page.compact, sink, user, error);
    }
    return bite_answer_text(choice->answer, choice, style, sink, user, error);
}
