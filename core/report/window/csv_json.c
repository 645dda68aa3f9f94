/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numbers of a window: CSV with a grid point on each line, JSON with a matrix for each limit.
 */
#include "core/report/window/csv_json.h"
#include "core/base/number.h"
#include "core/report/json.h"
#include "core/report/window/summary.h"
#include "core/search/operating_window.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <stdio.h>

#define DIGITS 8

static void number(bite_page *page, double value)
{
    char text[40] = "";
    if (isfinite(value)) {
        (void)bite_number_write(value, DIGITS, text, sizeof text);
    }
    bite_page_text(page, text);
}

/* Names with their units; they contain no commas, so that RFC 4180 requires no quotes. */
static void csv_head(const bite_window *window, bite_page *page)
{
    const bite_axis *axes[] = {&window->across, &window->up};
    for (int i = 0; i < 2; i++) {
        double ignored = 0.0;
        const char *unit =
            bite_unit_fixed(axes[i]->here, (bite_kind)axes[i]->input->kind, page->units, &ignored);
        char text[96];
        (void)snprintf(text, sizeof text, unit[0] == 0 ? "%s," : "%s [%s],", axes[i]->input->name,
                       unit);
        bite_page_text(page, text);
    }
    bite_page_text(page, "verdict,foremost");
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (window->applies[i]) {
            bite_page_text(page, ",");
            bite_page_text(page, bite_cut_limit_name(&window->answer->full, (bite_limit_id)i));
        }
    }
    bite_page_text(page, "\r\n");
}

/* The number of an axis at a grid point, in the unit of the head line. */
static void csv_axis(bite_page *page, const bite_axis *axis, size_t at)
{
    double value = 0.0;
    (void)bite_unit_fixed(bite_axis_at(axis, (double)at / (double)(axis->count - 1)),
                          (bite_kind)axis->input->kind, page->units, &value);
    number(page, value);
    bite_page_text(page, ",");
}

static void csv_place(const bite_window *window, bite_page *page, size_t across, size_t up)
{
    uint32_t limit = BITE_LIMIT_COUNT;
    (void)bite_window_worst(window, across, up, BITE_WINDOW_MARGIN, &limit);
    csv_axis(page, &window->across, across);
    csv_axis(page, &window->up, up);
    bite_page_text(page, bite_verdict_name(bite_window_verdict(window, across, up, 0)));
    bite_page_text(page, ",");
    bite_page_text(page, limit < BITE_LIMIT_COUNT
                             ? bite_cut_limit_name(&window->answer->full, (bite_limit_id)limit)
                             : "");
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (window->applies[i]) {
            bite_page_text(page, ",");
            number(page, bite_window_utilization(window, i, across, up));
        }
    }
    bite_page_text(page, "\r\n");
}

bite_status bite_window_csv(const bite_window *window, bite_page *page, bite_error *error)
{
    csv_head(window, page);
    for (size_t up = 0; up < window->up.count; up++) {
        for (size_t across = 0; across < window->across.count; across++) {
            csv_place(window, page, across, up);
        }
    }
    return bite_page_close(page, error);
}

static json_t *axis_of(const bite_axis *axis)
{
    json_t *object = json_object();
    json_t *list = json_array();
    int failed = object == NULL || list == NULL;
    for (size_t i = 0; !failed && i < axis->count; i++) {
        failed =
            json_array_append_new(list, bite_json_number(bite_axis_at(
                                            axis, (double)i / (double)(axis->count - 1)))) != 0;
    }
    failed |= bite_json_text(object, "name", axis->input->name);
    failed |= bite_json_text(object, "unit", axis->input->unit);
    failed |= bite_json_put(object, "here", bite_json_number(axis->here));
    failed |= bite_json_put(object, "at", list);
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

/* limit: BITE_LIMIT_COUNT for the verdicts. */
static json_t *matrix_of(const bite_window *window, uint32_t limit, int with_margin)
{
    json_t *matrix = json_array();
    for (size_t up = 0; matrix != NULL && up < window->up.count; up++) {
        json_t *line = json_array();
        int failed = line == NULL;
        for (size_t across = 0; !failed && across < window->across.count; across++) {
            double margin = with_margin ? bite_window_margin(window, limit, across, up) : 1.0;
            json_t *cell =
                limit == BITE_LIMIT_COUNT
                    ? json_string(bite_verdict_name(bite_window_verdict(window, across, up, 0)))
                    : bite_json_number(bite_window_utilization(window, limit, across, up) * margin);
            failed = cell == NULL || json_array_append_new(line, cell) != 0;
        }
        if (failed || json_array_append(matrix, line) != 0) {
            json_decref(line);
            json_decref(matrix);
            return NULL;
        }
        json_decref(line);
    }
    return matrix;
}

static json_t *limits_of(const bite_window *window)
{
    json_t *list = json_array();
    for (uint32_t i = 0; list != NULL && i < BITE_LIMIT_COUNT; i++) {
        if (!window->applies[i]) {
            continue;
        }
        json_t *object = json_object();
        int failed = object == NULL;
        failed |= bite_json_text(object, "name",
                                 bite_cut_limit_name(&window->answer->full, (bite_limit_id)i));
        failed |= bite_json_put(object, "advisory", json_boolean(!window->binds[i]));
        failed |= bite_json_put(object, "fixed", json_boolean(window->fixed[i] != 0));
        failed |= bite_json_put(object, "utilization", matrix_of(window, i, 0));
        failed |= bite_json_put(object, "utilization_high", matrix_of(window, i, 1));
        if (bite_json_append(list, object, failed) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}

/* Each matrix has a list for each step of the vertical axis, from its least value up. */
bite_status bite_window_json(const bite_window *window, bite_page *page, bite_error *error)
{
    const bite_result *result = &window->answer->result;
    json_t *root = json_object();
    char text[400];
    bite_window_point_text(page, window, text, sizeof text);
    int failed = root == NULL;
    failed |= bite_json_put(root, "schema", json_integer(1));
    failed |= bite_json_text(root, "coolbite", bite_version());
    failed |= bite_json_text(root, "says", text);
    failed |= bite_json_text(root, "verdict", bite_verdict_name((bite_verdict)result->verdict));
    failed |= bite_json_put(root, "chance", bite_json_number(result->chance));
    failed |= bite_json_put(root, "across", axis_of(&window->across));
    failed |= bite_json_put(root, "up", axis_of(&window->up));
    failed |= bite_json_put(root, "verdicts", matrix_of(window, BITE_LIMIT_COUNT, 0));
    failed |= bite_json_put(root, "limits", limits_of(window));
    if (failed) {
        json_decref(root);
        root = NULL;
    }
    return bite_json_write(root, page->compact, page->writer.sink, page->writer.user, error);
}
