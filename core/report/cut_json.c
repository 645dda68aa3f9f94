/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut as JSON, schema 1: names are stable; the schema may grow but never changes meaning.
 */
#include "core/report/cut_json.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/names/own_limits.h"
#include "core/names/registry.h"
#include "core/report/json.h"
#include "core/report/style_check.h"
#include "core/request/answer.h"
#include "core/tables/provenance.h"
#include "core/units/format_quantity.h"
#include <math.h>

static const char *const severities[] = {"", "note", "care", "danger"};

static json_t *object_or_null(json_t *object, int failed)
{
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static int put_unit(json_t *object, const char *key, const char *unit_key, double si,
                    bite_kind kind, bite_units units)
{
    double number = (double)NAN;
    const char *unit = bite_unit_fixed(si, kind, units, &number);
    int failed = bite_json_put(object, key, bite_json_number(number));
    failed |= bite_json_text(object, unit_key, unit);
    return failed;
}

static json_t *enter_of(const bite_answer *answer, bite_units units)
{
    const bite_cut *cut = &answer->full;
    json_t *enter = json_object();
    if (enter == NULL) {
        return NULL;
    }
    int failed =
        put_unit(enter, "spindle", "spindle_unit", cut->spindle_speed, BITE_KIND_ROTATION, units);
    failed |= put_unit(enter, "feed", "feed_unit", cut->feed_rate, BITE_KIND_SPEED, units);
    failed |= put_unit(enter, "depth", "depth_unit", cut->depth, BITE_KIND_LENGTH, units);
    if (cut->operation == BITE_MILL && !isnan(cut->width)) {
        failed |= put_unit(enter, "width", "width_unit", cut->width, BITE_KIND_LENGTH, units);
    } else if (cut->operation == BITE_MILL) { /* a full slot */
        failed |= bite_json_put(enter, "width", json_null());
    }
    if (cut->operation == BITE_MILL && cut->entry != BITE_ENTRY_OUTSIDE) {
        failed |=
            bite_json_text(enter, "entry", bite_input_word(bite_input_find("entry"), cut->entry));
        failed |= put_unit(enter, "entry_feed", "entry_feed_unit", bite_answer_entry_feed(answer),
                           BITE_KIND_SPEED, units);
        if (cut->entry != BITE_ENTRY_PLUNGE) {
            failed |= put_unit(enter, "entry_angle", "entry_angle_unit", cut->ramp_angle,
                               BITE_KIND_ANGLE, units);
        }
    }
    return object_or_null(enter, failed);
}

static int put_source(json_t *object, const char *source)
{
    bite_source_grade grade = BITE_GRADE_NONE;
    const char *where = "";
    if (source == NULL || !bite_source_read(source, &grade, &where)) {
        where = source == NULL ? "" : source;
    }
    int failed = bite_json_text(object, "grade", bite_source_grade_name(grade));
    failed |= bite_json_text(object, "source", where);
    return failed;
}

static json_t *input_of(const bite_answer *answer, size_t index, bite_units units)
{
    const bite_input *input = bite_cut_input_at(&answer->full, index);
    const bite_provenance *provenance = &answer->provenance[index];
    json_t *object = json_object();
    if (object == NULL) {
        return NULL;
    }
    char text[64] = "";
    double value = (double)NAN;
    const char *shown = text;
    if (input->words > 0) {
        shown =
            bite_input_word(input, *bite_input_choice((bite_cut *)(uintptr_t)&answer->full, input));
    } else {
        size_t length = 0;
        value = *bite_input_number_of(&answer->full, input);
        if (bite_quantity_write(value, (bite_kind)input->kind, units, text, sizeof text, &length,
                                NULL) != BITE_OK) {
            text[0] = 0;
        }
    }
    double low = isnan(provenance->low) ? value : provenance->low;
    double high = isnan(provenance->high) ? value : provenance->high;
    int failed = bite_json_text(object, "name", input->name);
    failed |= bite_json_put(object, "value", bite_json_number(value));
    failed |= bite_json_put(object, "low", bite_json_number(low));
    failed |= bite_json_put(object, "high", bite_json_number(high));
    failed |= bite_json_text(object, "unit", input->unit);
    failed |= bite_json_text(object, "text", shown);
    failed |= bite_json_put(object, "given", json_boolean(provenance->origin == BITE_ORIGIN_USER));
    failed |= put_source(object, provenance->source);
    return object_or_null(object, failed);
}

static json_t *inputs_of(const bite_answer *answer, bite_units units)
{
    json_t *list = json_array();
    size_t count = bite_input_count() + BITE_OWN_FIGURES; /* with those of a plugin */
    for (size_t i = 0; list != NULL && i < count && i < BITE_INPUTS_MAX; i++) {
        if (answer->provenance[i].origin == BITE_ORIGIN_NONE) {
            continue;
        }
        json_t *object = input_of(answer, i, units);
        if (object == NULL || json_array_append_new(list, object) != 0) {
            return object_or_null(list, 1);
        }
    }
    return list;
}

static json_t *value_of(const bite_answer *answer, bite_value_id id)
{
    const bite_value *value = &answer->result.values[id];
    json_t *object = json_object();
    if (object == NULL) {
        return NULL;
    }
    int failed = bite_json_text(object, "name", bite_value_name(id));
    failed |= bite_json_put(object, "value", bite_json_number(value->value));
    failed |= bite_json_put(object, "low", bite_json_number(value->low));
    failed |= bite_json_put(object, "high", bite_json_number(value->high));
    failed |= bite_json_text(object, "unit", bite_value_unit(id));
    failed |= put_source(object, bite_answer_value_source(answer, id));
    return object_or_null(object, failed);
}

static json_t *limit_of(const bite_answer *answer, bite_limit_id id)
{
    const bite_limit *limit = &answer->result.limits[id];
    json_t *object = json_object();
    if (object == NULL) {
        return NULL;
    }
    int failed = bite_json_text(object, "name", bite_cut_limit_name(&answer->full, id));
    failed |= bite_json_put(object, "applies", json_boolean(limit->applies));
    failed |= bite_json_text(object, "why", limit->applies ? "" : bite_limit_why(limit->why));
    failed |= bite_json_put(object, "demand", bite_json_number(limit->demand));
    failed |= bite_json_put(object, "capacity", bite_json_number(limit->capacity));
    failed |= bite_json_put(object, "utilization", bite_json_number(limit->utilization));
    failed |= bite_json_put(object, "utilization_high", bite_json_number(limit->utilization_high));
    failed |= bite_json_put(object, "chance", bite_json_number(limit->chance));
    failed |= bite_json_text(object, "verdict", bite_verdict_name((bite_verdict)limit->verdict));
    failed |= bite_json_put(object, "advisory", json_boolean(limit->advisory));
    failed |= bite_json_put(object, "in_corner", json_boolean(limit->in_corner == 1));
    failed |= bite_json_put(object, "in_entry", json_boolean(limit->in_corner == 2));
    failed |= bite_json_text(object, "unit", bite_cut_limit_unit(&answer->full, id));
    failed |= bite_json_text(object, "advice", bite_answer_advice(answer, id));
    failed |= put_source(object, bite_answer_limit_source(answer, id));
    return object_or_null(object, failed);
}

static json_t *caution_of(const bite_worded_caution *worded, bite_units units)
{
    json_t *object = json_object();
    if (object == NULL) {
        return NULL;
    }
    uint32_t severity = worded->caution.severity < 4 ? worded->caution.severity : 0;
    int failed = bite_json_text(object, "name", worded->caution.name);
    failed |= bite_json_text(object, "severity", severities[severity]);
    failed |=
        bite_json_text(object, "text", units == BITE_INCH ? worded->inch : worded->caution.text);
    failed |= bite_json_text(object, "source", worded->caution.source);
    return object_or_null(object, failed);
}

static json_t *one_value(const bite_answer *answer, int index, bite_units units)
{
    (void)units;
    return value_of(answer, (bite_value_id)index);
}

static json_t *one_limit(const bite_answer *answer, int index, bite_units units)
{
    (void)units;
    return limit_of(answer, (bite_limit_id)index);
}

static json_t *list_of(const bite_answer *answer, int count,
                       json_t *(*one)(const bite_answer *answer, int index, bite_units units),
                       bite_units units)
{
    json_t *list = json_array();
    for (int i = 0; list != NULL && i < count; i++) {
        if (one == one_limit && bite_cut_limit(&answer->full, (bite_limit_id)i) == NULL) {
            continue; /* a place for a limit that the family does not have */
        }
        json_t *object = one(answer, i, units);
        if (object == NULL || json_array_append_new(list, object) != 0) {
            return object_or_null(list, 1);
        }
    }
    return list;
}

static json_t *one_caution(const bite_answer *answer, int index, bite_units units)
{
    return caution_of(&answer->cautions[index], units);
}

static json_t *shares_of(const bite_answer *answer)
{
    static const char *const names[] = {"chip", "tool", "part", "stored"};
    json_t *object = json_object();
    int failed = object == NULL;
    for (int i = 0; !failed && i < 4; i++) {
        failed = bite_json_put(object, names[i], bite_json_number(answer->result.heat_share[i]));
    }
    return object_or_null(object, failed);
}

void bite_change_quantity_text(double si, bite_kind kind, bite_units units, char *buffer,
                               size_t size)
{
    double number = 0.0;
    size_t length = 0;
    const char *unit = bite_unit_shop(si, kind, units, &number);
    if (unit[0] == 0) {
        (void)bite_number_write(number, 2, buffer, size);
        return;
    }
    if (bite_quantity_write_unit(si, kind, unit, 2, buffer, size, &length, NULL) != BITE_OK ||
        length >= size) {
        buffer[0] = 0;
    }
}

static json_t *change_of(const bite_answer *answer, bite_units units)
{
    const bite_change *change = &answer->change;
    const bite_input *input = bite_input_at(change->input);
    char text[64] = "";
    if (change->input == BITE_NO_INPUT || input == NULL) {
        return json_null();
    }
    json_t *object = json_object();
    if (object == NULL) {
        return NULL;
    }
    int failed = bite_json_text(object, "input", input->name);
    if (input->words > 0) {
        failed |= bite_json_text(object, "to", bite_input_word(input, change->word));
    } else {
        bite_change_quantity_text(change->to, (bite_kind)input->kind, units, text, sizeof text);
        failed |= bite_json_text(object, "to", text);
    }
    failed |= bite_json_text(object, "because",
                             bite_cut_limit_name(&answer->full, (bite_limit_id)change->limit));
    failed |= bite_json_put(object, "chance_before", bite_json_number(change->before));
    failed |= bite_json_put(object, "chance_after", bite_json_number(change->after));
    return object_or_null(object, failed);
}

static json_t *measure_first_of(const bite_answer *answer)
{
    json_t *list = json_array();
    for (int i = 0; list != NULL && i < 2; i++) {
        const bite_input *input = bite_cut_input_at(&answer->full, answer->result.widest[i]);
        if (input != NULL && json_array_append_new(list, json_string(input->name)) != 0) {
            return object_or_null(list, 1);
        }
    }
    return list;
}

/* The worst advisory limit, which the verdict does not count; null: no advisory limit is more
 * likely than not to be exceeded. */
static json_t *advice_of(const bite_answer *answer)
{
    const bite_result *result = &answer->result;
    uint32_t worst = bite_answer_worst_advisory(result);
    if (worst == BITE_LIMIT_COUNT) {
        return json_null();
    }
    json_t *object = json_object();
    int failed =
        bite_json_text(object, "name", bite_cut_limit_name(&answer->full, (bite_limit_id)worst));
    failed |=
        bite_json_put(object, "utilization", bite_json_number(result->limits[worst].utilization));
    failed |= bite_json_put(object, "chance", bite_json_number(result->limits[worst].chance));
    return object_or_null(object, failed);
}

/* Limits that were judged, that do not apply, and that could not be judged. */
static json_t *counts_of(const bite_result *result)
{
    json_t *object = json_object();
    int failed = bite_json_put(object, "judged", json_integer(result->judged));
    failed |= bite_json_put(object, "not_applicable", json_integer(result->not_applicable));
    failed |= bite_json_put(object, "not_judged", json_integer(result->not_judged));
    return object_or_null(object, failed);
}

/* The figures without which limits could not be judged. */
static json_t *missing_of(const bite_answer *answer)
{
    json_t *list = json_array();
    int failed = list == NULL;
    const char *figure = bite_answer_missing(answer, 0);
    for (size_t i = 1; figure != NULL; figure = bite_answer_missing(answer, i++)) {
        failed |= json_array_append_new(list, json_string(figure));
    }
    return object_or_null(list, failed);
}

/* What was taken from the shop's own set-up; null: nothing. */
static json_t *shop_of(const bite_answer *answer)
{
    const bite_shop *shop = answer->request.shop;
    if (shop == NULL || answer->request.shop_keys == 0) {
        return json_null();
    }
    json_t *object = json_object();
    json_t *list = json_array();
    int failed = object == NULL || list == NULL;
    failed |= bite_json_text(object, "file", shop->shown);
    for (int key = 0; key < BITE_SHOP_KEYS; key++) {
        const bite_field_value *value = bite_shop_value(shop, (bite_shop_key)key);
        if ((answer->request.shop_keys & 1u << key) != 0 && value != NULL) {
            json_t *entry = json_object();
            int bad = entry == NULL;
            bad |= bite_json_text(entry, "key", bite_shop_key_name((bite_shop_key)key));
            bad |= bite_json_text(entry, "text", value->text);
            bad |= bite_json_put(entry, "line", json_integer(value->line));
            failed |= bite_json_append(list, entry, bad);
        }
    }
    failed |= bite_json_put(object, "keys", list);
    return object_or_null(object, failed);
}

json_t *bite_answer_object(const bite_answer *answer, bite_units units)
{
    const bite_result *result = &answer->result;
    json_t *root = json_object();
    if (root == NULL) {
        return NULL;
    }
    int failed = bite_json_put(root, "schema", json_integer(1));
    failed |= bite_json_text(root, "coolbite", bite_version());
    failed |= bite_json_text(root, "verdict", bite_verdict_name((bite_verdict)result->verdict));
    failed |= bite_json_put(root, "chance", bite_json_number(result->chance));
    failed |= bite_json_put(root, "draws", json_integer(result->draws));
    failed |= bite_json_put(root, "counts", counts_of(result));
    failed |= bite_json_put(root, "missing", missing_of(answer));
    failed |= bite_json_put(root, "advice", advice_of(answer));
    failed |= bite_json_text(root, "material", answer->request.grade->record.name);
    failed |=
        bite_json_text(root, "material_named", bite_grade_match_word(answer->request.grade_match));
    failed |= bite_json_put(root, "shop", shop_of(answer));
    failed |= bite_json_put(root, "enter", enter_of(answer, units));
    failed |= bite_json_put(root, "inputs", inputs_of(answer, units));
    failed |= bite_json_put(root, "values", list_of(answer, BITE_VALUE_COUNT, one_value, units));
    failed |= bite_json_put(root, "limits", list_of(answer, BITE_LIMIT_COUNT, one_limit, units));
    failed |= bite_json_put(root, "heat_share", shares_of(answer));
    failed |= bite_json_put(root, "change_first", change_of(answer, units));
    failed |= bite_json_put(root, "measure_first", measure_first_of(answer));
    failed |= bite_json_put(root, "cautions",
                            list_of(answer, (int)answer->caution_count, one_caution, units));
    return object_or_null(root, failed);
}

bite_status bite_answer_json(const bite_answer *answer, const bite_style *style, bite_sink sink,
                             void *user, bite_error *error)
{
    return bite_json_write(bite_answer_object(answer, (bite_units)style->units),
                           bite_style_is_compact(style), sink, user, error);
}
