/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing of the shop whole: every figure with its band, unit, source, grade and file. */
#include "core/base/error.h"
#include "core/base/table.h"
#include "core/base/unit.h"
#include "core/library/thing.h"
#include "core/sheet/json.h"
#include "core/sheet/page.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static void figure_text(bite_page *page, const bite_cell *cell, char *to, size_t size)
{
    char value[48];
    char low[48];
    char high[48];
    bite_kind kind = (bite_kind)cell->field->kind;
    bite_page_quantity(page, cell->value, kind, value, sizeof value);
    if (cell->low < cell->high) {
        bite_page_quantity(page, cell->low, kind, low, sizeof low);
        bite_page_quantity(page, cell->high, kind, high, sizeof high);
        (void)snprintf(to, size, "%s (%s to %s)", value, low, high);
    } else {
        (void)snprintf(to, size, "%s", value);
    }
}

static void curve_text(bite_page *page, const bite_cell *cell, char *to, size_t size)
{
    to[0] = 0;
    for (uint32_t i = 0; i < cell->curve.count; i++) {
        char at[48];
        char value[48];
        size_t used = strlen(to);
        bite_page_quantity(page, cell->curve.temperature[i], BITE_KIND_TEMPERATURE, at, sizeof at);
        bite_page_quantity(page, cell->curve.value[i], (bite_kind)cell->field->kind, value, sizeof value);
        (void)snprintf(to + used, size - used, "%s%s at %s", used > 0 ? ", " : "", value, at);
    }
}

static void cell_line(bite_page *page, const bite_cell *cell, int sources)
{
    char text[600];
    char first[48];
    switch (cell->field->type) {
    case BITE_FIELD_FIGURE:
        figure_text(page, cell, text, sizeof text);
        break;
    case BITE_FIELD_CURVE:
        curve_text(page, cell, text, sizeof text);
        break;
    case BITE_FIELD_WORD:
        (void)snprintf(text, sizeof text, "%s", cell->field->words[cell->word]);
        break;
    default:
        (void)snprintf(text, sizeof text, "%s", cell->text);
        break;
    }
    (void)snprintf(first, sizeof first, "  %-21s ", cell->field->name);
    bite_page_wrap(page, first, "                        ", text);
    if (sources && cell->source != NULL && cell->source[0] != 0) {
        bite_page_wrap(page, "      ", "        ", cell->source);
    }
}

static json_t *cell_json(const bite_cell *cell)
{
    json_t *object = json_object();
    if (object == NULL) {
        return NULL;
    }
    bite_source_grade grade = (bite_source_grade)cell->grade;
    const char *where = cell->source == NULL ? "" : cell->source;
    (void)bite_source_read(where, &grade, &where);
    int figure = cell->field->type == BITE_FIELD_FIGURE;
    int failed = bite_json_text(object, "name", cell->field->name);
    failed |= bite_json_put(object, "value", bite_json_number(figure ? cell->value : (double)NAN));
    failed |= bite_json_put(object, "low", bite_json_number(figure ? cell->low : (double)NAN));
    failed |= bite_json_put(object, "high", bite_json_number(figure ? cell->high : (double)NAN));
    failed |= bite_json_text(object, "unit",
                             figure || cell->field->type == BITE_FIELD_CURVE ? bite_unit_si((bite_kind)cell->field->kind) : "");
    failed |= bite_json_text(object, "text", cell->field->type == BITE_FIELD_WORD ? cell->field->words[cell->word] : cell->text);
    failed |= bite_json_text(object, "grade", bite_source_grade_name(grade));
    failed |= bite_json_text(object, "source", where);
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static bite_status thing_json(const bite_thing *thing, const bite_grade_card *card, bite_sink sink, void *user, bite_error *error)
{
    json_t *root = json_object();
    json_t *cells = json_array();
    int failed = root == NULL || cells == NULL;
    for (size_t i = 0; !failed && i < thing->cell_count; i++) {
        json_t *cell = cell_json(&thing->cells[i]);
        failed = cell == NULL || json_array_append_new(cells, cell) != 0;
    }
    if (!failed) {
        failed |= bite_json_text(root, "name", thing->name);
        failed |= bite_json_text(root, "title", thing->title);
        failed |= bite_json_text(root, "summary", thing->summary);
        failed |= bite_json_text(root, "file", thing->file);
        failed |= bite_json_text(root, "plugin", card == NULL ? "" : card->plugin);
        failed |= bite_json_put(root, "figures", json_incref(cells));
    }
    json_decref(cells);
    if (failed) {
        json_decref(root);
        root = NULL;
    }
    return bite_json_write(root, sink, user, error);
}

static void thing_text(bite_page *page, const bite_thing *thing, const bite_grade_card *card, int sources)
{
    bite_page_tint(page, 4, thing->name);
    bite_page_wrap(page, "  ", "    ", thing->summary == NULL ? "" : thing->summary);
    bite_page_wrap(page, "  from ", "    ", thing->file);
    if (card != NULL && card->plugin != NULL && card->plugin[0] != 0) {
        bite_page_wrap(page, "  plugin ", "    ", card->plugin);
    }
    for (size_t i = 0; i < thing->cell_count; i++) {
        cell_line(page, &thing->cells[i], sources);
    }
    for (size_t i = 0; card != NULL && i < card->rule_count; i++) {
        char first[80];
        static const char *const severities[] = {"", "note", "care", "danger"};
        (void)snprintf(first, sizeof first, "  caution %s (%s): ", card->rules[i].name, severities[card->rules[i].severity & 3]);
        bite_page_wrap(page, first, "    ", card->rules[i].text);
        bite_page_wrap(page, "    when ", "      ", card->rules[i].when[0] == 0 ? "always" : card->rules[i].when);
    }
}

bite_status bite_library_show(const bite_library *library, bite_shelf shelf, const char *name, const bite_style *style,
                              bite_sink sink, void *user, bite_error *error)
{
    bite_error_clear(error);
    bite_page page;
    const bite_grade_card *card = NULL;
    const bite_thing *thing = NULL;
    if (library == NULL || name == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an open library and a name were expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    bite_status status = BITE_OK;
    if (shelf == BITE_GRADES || shelf == BITE_FAMILIES) {
        status = bite_library_grade(library, name, &card, error);
        thing = status == BITE_OK ? &card->thing : NULL;
    } else {
        status = bite_library_thing(library, shelf, name, &thing, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    if (style != NULL && style->format == BITE_JSON) {
        return thing_json(thing, card, sink, user, error);
    }
    thing_text(&page, thing, card, style == NULL || style->sources != 0);
    return bite_page_close(&page, error);
}
