/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions: the family and the plausibility checks word them; the places in braces are filled here
 * with this case's numbers, their units and bands. */
#include "core/request/cautions.h"
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/plugin.h"
#include "core/names/own_limits.h"
#include "core/request/answer.h"
#include "core/request/hole_cautions.h"
#include "core/request/plausibility.h"
#include "core/units/format_quantity.h"
#include "core/units/inch_text.h"
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define CAUTION_MOST 2000 /* bytes of one text with its places filled */
#define NAME_MOST 64

/* Without a width a mill cuts a full slot: a condition on it must not fail for want of a number. */
static double view_number(void *user, const char *name)
{
    const bite_answer *answer = user;
    bite_kind kind;
    double low;
    double high;
    double number = bite_answer_number(answer, name, &kind, &low, &high);
    bool slot = isnan(number) && strcmp(name, "width") == 0 && answer->full.operation == BITE_MILL;
    return slot ? answer->full.diameter : number;
}

static const char *view_choice(void *user, const char *name)
{
    return bite_answer_word(user, name);
}

static bite_kind view_kind(void *user, const char *name)
{
    bite_kind kind;
    double low;
    double high;
    (void)bite_answer_number(user, name, &kind, &low, &high);
    return kind;
}

/* A length that a control shows to two digits is written as it shows it; finer ones, such as chips,
 * in um or thou. */
static bool write_number(double si, bite_kind kind, bite_units units, char *to, size_t capacity,
                         size_t *used)
{
    char text[48];
    if (kind == BITE_KIND_LENGTH && fabs(si) >= 10.0 * bite_control_step(units)) {
        bite_control_length_write(si, units, text, sizeof text);
        *used = strlen(text);
        (void)snprintf(to, capacity, "%s", text);
        return isfinite(si) && *used < capacity;
    }
    return bite_quantity_write(si, kind, units, to, capacity, used, NULL) == BITE_OK &&
           *used < capacity;
}

/* A number with its unit, and its band where there is one: "78 degC (61 degC to 95 degC)". */
static size_t write_place(const bite_answer *answer, const char *name, bite_units units, char *to,
                          size_t capacity)
{
    bite_kind kind;
    double low;
    double high;
    double value = bite_answer_number(answer, name, &kind, &low, &high);
    size_t used = 0;
    if (isnan(value) || !write_number(value, kind, units, to, capacity, &used)) {
        static const char unknown[] = "(not known)";
        used = sizeof unknown - 1 < capacity ? sizeof unknown - 1 : 0;
        memcpy(to, unknown, used);
        return used;
    }
    char band[2][48];
    size_t size[2];
    if (low < high && write_number(low, kind, units, band[0], sizeof band[0], &size[0]) &&
        write_number(high, kind, units, band[1], sizeof band[1], &size[1]) &&
        used + size[0] + size[1] + 8 < capacity) {
        memcpy(to + used, " (", 2);
        memcpy(to + used + 2, band[0], size[0]);
        memcpy(to + used + 2 + size[0], " to ", 4);
        memcpy(to + used + 6 + size[0], band[1], size[1]);
        to[used + 6 + size[0] + size[1]] = ')';
        used += 7 + size[0] + size[1];
    }
    return used;
}

/* The text with its places filled. A brace that opens no name is copied as it is. */
static char *fill_places(bite_answer *answer, const char *text, bite_units units)
{
    char out[CAUTION_MOST];
    size_t used = 0;
    while (*text != 0 && used + 1 < sizeof out) {
        const char *close = *text == '{' ? strchr(text, '}') : NULL;
        if (close == NULL || close - text > NAME_MOST) {
            out[used++] = *text++;
            continue;
        }
        char name[NAME_MOST];
        size_t length = (size_t)(close - text) - 1;
        memcpy(name, text + 1, length);
        name[length] = 0;
        used += write_place(answer, name, units, out + used, sizeof out - used - 1);
        text = close + 1;
    }
    return bite_arena_text(answer->arena, out,
                           *text == 0 ? used : bite_text_complete_length(out, used));
}

static int reserve_caution(bite_answer *answer)
{
    if (answer->caution_count < answer->caution_capacity) {
        return 1;
    }
    size_t capacity = answer->caution_capacity == 0 ? 16 : 2 * answer->caution_capacity;
    bite_worded_caution *fresh = bite_arena_alloc(answer->arena, capacity, sizeof *fresh);
    if (fresh == NULL) {
        return 0;
    }
    if (answer->caution_count > 0) {
        memcpy(fresh, answer->cautions, answer->caution_count * sizeof *fresh);
    }
    answer->cautions = fresh;
    answer->caution_capacity = capacity;
    return 1;
}

/* Whether a caution says what another one has said. If both the table and the plugin give it, the
 * more severe word counts; cautions of one name that differ in what they say are both kept. */
static int is_repeated(bite_answer *answer, const bite_caution *fresh)
{
    for (size_t i = 0; i < answer->caution_count; i++) {
        const bite_caution *other = &answer->cautions[i].caution;
        if (strcmp(other->text, fresh->text) != 0) {
            continue;
        }
        if (other->severity >= fresh->severity) {
            return 1;
        }
        memmove(&answer->cautions[i], &answer->cautions[i + 1],
                (answer->caution_count - i - 1) * sizeof *answer->cautions);
        answer->caution_count--;
        return 0;
    }
    return 0;
}

static int view_caution(void *user, const char *name, uint32_t severity, const char *text,
                        const char *source)
{
    bite_answer *answer = user;
    if (!reserve_caution(answer)) {
        return 0;
    }
    bite_worded_caution fresh;
    fresh.caution.name = bite_arena_text(answer->arena, name, strlen(name));
    fresh.caution.text = fill_places(answer, text, BITE_METRIC);
    fresh.caution.source = bite_arena_text(answer->arena, source, strlen(source));
    fresh.caution.severity = severity;
    fresh.caution.reserved = 0;
    char *filled = fill_places(answer, text, BITE_INCH);
    fresh.inch = filled == NULL ? NULL : bite_text_inches(answer->arena, filled);
    if (fresh.caution.name == NULL || fresh.caution.text == NULL || fresh.caution.source == NULL ||
        fresh.inch == NULL) {
        return 0;
    }
    if (is_repeated(answer, &fresh.caution)) {
        return 1;
    }
    /* danger first, otherwise in the order of arrival */
    size_t at = answer->caution_count++;
    while (at > 0 && answer->cautions[at - 1].caution.severity < severity) {
        answer->cautions[at] = answer->cautions[at - 1];
        at--;
    }
    answer->cautions[at] = fresh;
    return 1;
}

/* Limits of the plugin that it gave no usable number for. */
static int caution_unknown_limits(bite_answer *answer, const bite_case_view *view)
{
    int good = 1;
    for (bite_limit_id id = BITE_LIMIT_OWN_1; id <= BITE_LIMIT_OWN_4 && good; id++) {
        const bite_definition *limit = bite_cut_limit(&answer->full, id);
        char text[CAUTION_MOST / 2];
        if (limit == NULL || answer->result.limits[id].why != BITE_WHY_BAD_NUMBER) {
            continue;
        }
        (void)snprintf(text, sizeof text,
                       "The plugin of this family gave no usable number for its limit %s, which "
                       "requires that %s: %s. A figure that the grade does not state may be the "
                       "reason.",
                       limit->name, limit->summary,
                       answer->result.limits[id].advisory
                           ? "the cut is judged without it"
                           : "the cut is not judged by it, and so not clear");
        good = view->caution(view->user, limit->name, BITE_CARE, text, "common-practice");
    }
    return good;
}

bite_status bite_answer_collect_cautions(bite_answer *answer, bite_error *error)
{
    bite_case_view view = {answer, view_number, view_choice, view_kind, view_caution};
    if (!bite_plausibility_check(answer, &view) || !bite_hole_cautions(answer, &view) ||
        !caution_unknown_limits(answer, &view)) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for the cautions");
    }
    return bite_material_cautions(answer->request.grade, &view, error);
}
