/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One thing of the shop whole, or two side by side: every figure with its band, unit, source, grade and file. */
#include "core/base/error.h"
#include "core/tables/typed_table.h"
#include "core/units/quantity.h"
#include "core/library/item.h"
#include "core/report/json.h"
#include "core/report/text_page.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* "105 degC (101 to 110)": the unit once, where all three have the same. */
static void figure_text(bite_page *page, const bite_cell *cell, char *to, size_t size)
{
    char value[48];
    char low[48];
    char high[48];
    bite_kind kind = (bite_kind)cell->field->kind;
    bite_page_quantity(page, cell->value, kind, value, sizeof value);
    if (!(cell->low < cell->high)) {
        (void)snprintf(to, size, "%s", value);
        return;
    }
    bite_page_quantity(page, cell->low, kind, low, sizeof low);
    bite_page_quantity(page, cell->high, kind, high, sizeof high);
    size_t units[3] = {strcspn(value, " %"), strcspn(low, " %"), strcspn(high, " %")};
    int same = strcmp(value + units[0], low + units[1]) == 0 && strcmp(value + units[0], high + units[2]) == 0;
    (void)snprintf(to, size, "%s (%.*s to %.*s)", value, (int)(same ? units[1] : sizeof low), low,
                   (int)(same ? units[2] : sizeof high), high);
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

static void cell_text(bite_page *page, const bite_cell *cell, char *to, size_t size)
{
    switch (cell->field->type) {
    case BITE_FIELD_FIGURE:
        figure_text(page, cell, to, size);
        break;
    case BITE_FIELD_CURVE:
        curve_text(page, cell, to, size);
        break;
    case BITE_FIELD_WORD:
        (void)snprintf(to, size, "%s", cell->field->words[cell->word]);
        break;
    default:
        (void)snprintf(to, size, "%s", cell->text);
        break;
    }
}

static void cell_line(bite_page *page, const bite_cell *cell, int sources)
{
    char text[600];
    char first[48];
    cell_text(page, cell, text, sizeof text);
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

/* NULL: no memory. */
static json_t *thing_object(const bite_thing *thing, const bite_grade_card *card)
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
    return root;
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

/* A thing of any shelf; card stays NULL for what is no grade. */
static bite_status find(const bite_library *library, bite_shelf shelf, const char *name, const bite_thing **thing,
                        const bite_grade_card **card, bite_error *error)
{
    *card = NULL;
    if (shelf != BITE_GRADES && shelf != BITE_FAMILIES) {
        return bite_library_thing(library, shelf, name, thing, error);
    }
    bite_status status = bite_library_grade(library, name, card, error);
    *thing = status == BITE_OK ? &(*card)->thing : NULL;
    return status;
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
    bite_status status = find(library, shelf, name, &thing, &card, error);
    if (status != BITE_OK) {
        return status;
    }
    if (style != NULL && style->format == BITE_JSON) {
        return bite_json_write(thing_object(thing, card), sink, user, error);
    }
    thing_text(&page, thing, card, style == NULL || style->sources != 0);
    return bite_page_close(&page, error);
}

/* ---- two side by side ---- */

#define NAME_COLUMNS 23

/* How many bytes of text stand on the next line of so many columns: whole words where they fit. */
static size_t line_of(const char *text, size_t columns)
{
    size_t best = 0;
    for (size_t at = 0; text[at] != 0;) {
        size_t word = at + strcspn(text + at, " ");
        if (bite_text_columns(text, word) > columns) {
            break;
        }
        best = word;
        at = word + strspn(text + word, " ");
    }
    if (best > 0 || text[0] == 0) {
        return best;
    }
    /* a word that is too long is cut, but not within a sign */
    return bite_text_columns(text, columns) == columns ? columns : strcspn(text, " ");
}

static void pair_lines(bite_page *page, const char *name, const char *first, const char *second)
{
    size_t columns = (page->columns - NAME_COLUMNS - 1) / 2;
    do {
        char part[600];
        size_t a = line_of(first, columns);
        size_t b = line_of(second, columns);
        (void)snprintf(part, sizeof part, "%.*s", (int)a, first);
        bite_page_pad(page, name, NAME_COLUMNS);
        if (b == 0) {
            bite_page_line(page, part);
        } else {
            bite_page_pad(page, part, columns);
            (void)snprintf(part, sizeof part, " %.*s", (int)b, second);
            bite_page_line(page, part);
        }
        first += a + strspn(first + a, " ");
        second += b + strspn(second + b, " ");
        name = "";
    } while (*first != 0 || *second != 0);
}

static const char *source_of(const bite_cell *cell)
{
    return cell == NULL || cell->source == NULL ? "" : cell->source;
}

static void pair_cells(bite_page *page, const bite_cell *first, const bite_cell *second, int sources)
{
    char a[600] = "-";
    char b[600] = "-";
    char name[48];
    const bite_cell *any = first != NULL ? first : second;
    if (first != NULL) {
        cell_text(page, first, a, sizeof a);
    }
    if (second != NULL) {
        cell_text(page, second, b, sizeof b);
    }
    (void)snprintf(name, sizeof name, "%s %s", strcmp(a, b) == 0 ? " " : "*", any->field->name);
    pair_lines(page, name, a, b);
    if (sources && strcmp(source_of(first), source_of(second)) == 0) {
        bite_page_wrap(page, "      both: ", "        ", source_of(first));
    } else if (sources) {
        bite_page_wrap(page, "      first: ", "        ", source_of(first));
        bite_page_wrap(page, "      second: ", "        ", source_of(second));
    }
}

static const bite_cell *same_cell(const bite_thing *thing, const bite_cell *cell)
{
    for (size_t i = 0; i < thing->cell_count; i++) {
        if (strcmp(thing->cells[i].field->name, cell->field->name) == 0) {
            return &thing->cells[i];
        }
    }
    return NULL;
}

static void pair_text(bite_page *page, const bite_thing *first, const bite_thing *second, int sources)
{
    pair_lines(page, "* differs", first->name, second->name);
    for (size_t i = 0; i < first->cell_count; i++) {
        pair_cells(page, &first->cells[i], same_cell(second, &first->cells[i]), sources);
    }
    for (size_t i = 0; i < second->cell_count; i++) {
        if (same_cell(first, &second->cells[i]) == NULL) {
            pair_cells(page, NULL, &second->cells[i], sources);
        }
    }
}

static json_t *pair_object(json_t *first, json_t *second)
{
    json_t *root = json_object();
    int failed = root == NULL;
    failed |= bite_json_put(root, "first", first);
    failed |= bite_json_put(root, "second", second);
    if (failed) {
        json_decref(root);
        root = NULL;
    }
    return root;
}

bite_status bite_library_compare(const bite_library *library, bite_shelf shelf, const char *first, const char *second,
                                 const bite_style *style, bite_sink sink, void *user, bite_error *error)
{
    bite_error_clear(error);
    bite_page page;
    const bite_thing *things[2] = {NULL, NULL};
    const bite_grade_card *cards[2] = {NULL, NULL};
    if (library == NULL || first == NULL || second == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an open library and two names were expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    bite_status status = find(library, shelf, first, &things[0], &cards[0], error);
    status = status != BITE_OK ? status : find(library, shelf, second, &things[1], &cards[1], error);
    if (status != BITE_OK) {
        return status;
    }
    if (style != NULL && style->format == BITE_JSON) {
        json_t *pair = pair_object(thing_object(things[0], cards[0]), thing_object(things[1], cards[1]));
        return bite_json_write(pair, sink, user, error);
    }
    pair_text(&page, things[0], things[1], style == NULL || style->sources != 0);
    return bite_page_close(&page, error);
}
