/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged record as JSON, schema 1: SI throughout, null for what is missing. */
#include "core/report/json.h"
#include "core/inspection/reading_value.h"
#include "core/report/inspection/json.h"
#include "core/report/inspection/words.h"
#include <math.h>

static int put_number(json_t *object, const char *key, double value)
{
    return bite_json_put(object, key, bite_json_number(value));
}

static int put_count(json_t *object, const char *key, size_t count)
{
    return bite_json_put(object, key, json_integer((json_int_t)count));
}

static int put_flag(json_t *object, const char *key, int flag)
{
    return bite_json_put(object, key, json_boolean(flag));
}

/* A text, or null if it is not stated. */
static int put_text(json_t *object, const char *key, const char *text)
{
    return bite_json_put(object, key, text[0] == 0 ? json_null() : json_string(text));
}

static int put_finding(json_t *object, uint32_t finding)
{
    return bite_json_text(object, "finding", bite_finding_word(finding));
}

/* A time as in the record; null if there is none. */
static int put_time(json_t *object, const char *key, double seconds)
{
    return put_text(object, key, isfinite(seconds) ? bite_moment_text(seconds).text : "");
}

/* The object, or null in its place if there is nothing to show. */
static json_t *unless_failed(json_t *object, int failed)
{
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static json_t *head_of(const struct bite_record *record)
{
    const struct {
        const char *key;
        const char *text;
    } texts[] = {{"job", record->job},
                 {"part_name", record->part_name},
                 {"part_number", record->part_number},
                 {"revision", record->revision},
                 {"serial", record->serial},
                 {"drawing", record->drawing},
                 {"material", record->material},
                 {"lot", record->lot},
                 {"machine", record->machine},
                 {"organization", record->organization},
                 {"customer", record->customer},
                 {"order", record->order},
                 {"report_number", record->report_number},
                 {"certificate", record->certificate},
                 {"note", record->note}};
    json_t *object = json_object();
    int failed = 0;
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        failed |= put_text(object, texts[i].key, texts[i].text);
    }
    failed |= put_number(object, "count", record->count);
    failed |= bite_json_text(object, "units", record->units == BITE_INCH ? "inch" : "metric");
    return unless_failed(object, failed);
}

static json_t *counts_of(const bite_inspection *inspection)
{
    const size_t *found = inspection->found;
    json_t *object = json_object();
    int failed = put_count(object, "parts", inspection->part_count);
    failed |= put_count(object, "conform", found[BITE_FINDING_CONFORMS]);
    failed |= put_count(object, "not_complete", found[BITE_FINDING_INCOMPLETE]);
    failed |= put_count(object, "not_proven", found[BITE_FINDING_NOT_PROVEN]);
    failed |= put_count(object, "do_not_conform", found[BITE_FINDING_DOES_NOT]);
    failed |= put_count(object, "readings", inspection->stands);
    failed |= put_count(object, "corrected", inspection->replaced);
    failed |= put_count(object, "withdrawn", inspection->withdrawn);
    failed |= put_count(object, "skipped", inspection->skipped);
    failed |= put_count(object, "missing", inspection->missing);
    failed |= put_count(object, "unsettled", inspection->unsettled);
    return unless_failed(object, failed);
}

static json_t *environment_of(const bite_inspection *inspection)
{
    json_t *object = json_object();
    int failed = put_number(object, "coldest", inspection->coldest);
    failed |= put_number(object, "warmest", inspection->warmest);
    failed |= put_number(object, "temperature_uncertainty",
                         isnan(inspection->coldest)
                             ? (double)NAN
                             : bite_reading_temperature_uncertainty(inspection->record));
    failed |= put_time(object, "first", inspection->first_time);
    failed |= put_time(object, "last", inspection->last_time);
    return unless_failed(object, failed);
}

static json_t *index_of(const bite_capability_index *index)
{
    json_t *object = json_object();
    int failed = put_number(object, "value", index->value);
    failed |= put_number(object, "low", isnan(index->value) ? index->value : index->low);
    failed |= put_number(object, "high", isnan(index->value) ? index->value : index->high);
    return unless_failed(object, failed);
}

static json_t *capability_of(const bite_characteristic_result *result)
{
    const bite_capability *capability = &result->capability;
    if (!result->has_capability) {
        return json_null();
    }
    json_t *object = json_object();
    int failed = put_count(object, "parts", capability->count);
    failed |= bite_json_text(object, "order", result->by_time ? "time" : "part number");
    failed |= put_number(object, "confidence", BITE_PROOF_CONFIDENCE);
    failed |= put_number(object, "within", capability->within);
    failed |= put_number(object, "overall", capability->overall);
    failed |= bite_json_put(object, "cp", index_of(&capability->cp));
    failed |= bite_json_put(object, "cpk", index_of(&capability->cpk));
    failed |= bite_json_put(object, "pp", index_of(&capability->pp));
    failed |= bite_json_put(object, "ppk", index_of(&capability->ppk));
    return unless_failed(object, failed);
}

static json_t *risk_of(const bite_characteristic_result *result)
{
    if (!result->has_risk) {
        return json_null();
    }
    json_t *object = json_object();
    int failed = put_number(object, "outside", result->risk.outside);
    failed |= put_number(object, "consumer", result->risk.false_accept);
    failed |= put_number(object, "producer", result->risk.false_reject);
    failed |= put_number(object, "accepted", result->risk.accepted);
    return unless_failed(object, failed);
}

static json_t *component_of(const bite_variance_component *component)
{
    json_t *object = json_object();
    int failed = put_number(object, "variance", component->estimate);
    failed |= put_number(object, "deviation", component->deviation);
    failed |= put_number(object, "share", component->share);
    return unless_failed(object, failed);
}

static json_t *study_of(const bite_gauge_study *study)
{
    const struct {
        const char *key;
        const bite_variance_component *component;
    } components[] = {{"repeatability", &study->repeatability},
                      {"interaction", &study->interaction},
                      {"persons", &study->persons},
                      {"reproducibility", &study->reproducibility},
                      {"gauge", &study->gauge},
                      {"parts", &study->parts},
                      {"total", &study->total}};
    json_t *object = json_object();
    int failed = put_flag(object, "pooled", study->pooled);
    failed |= put_count(object, "distinct_categories", study->categories);
    for (size_t i = 0; i < sizeof components / sizeof *components; i++) {
        failed |= bite_json_put(object, components[i].key, component_of(components[i].component));
    }
    return unless_failed(object, failed);
}

static json_t *gauge_of(const bite_gauge_result *gauge)
{
    json_t *object = json_object();
    int studied = gauge->state == BITE_GAUGE_STUDIED;
    int failed = put_text(object, "none_because", bite_gauge_reason(gauge->state));
    failed |= put_number(object, "persons", studied ? (double)gauge->persons : (double)NAN);
    failed |= put_number(object, "parts", studied ? (double)gauge->parts : (double)NAN);
    failed |= put_number(object, "trials", studied ? (double)gauge->trials : (double)NAN);
    failed |=
        bite_json_put(object, "by_variance", studied ? study_of(&gauge->variance) : json_null());
    failed |= bite_json_put(object, "by_ranges",
                            studied && gauge->has_ranges ? study_of(&gauge->ranges) : json_null());
    return unless_failed(object, failed);
}

static json_t *offset_of(const bite_wear_offset *offset)
{
    static const char *const matches[] = {"unknown", "within", "beyond", "unclear"};
    if (offset->kind == BITE_OFFSET_NONE) {
        return json_null();
    }
    json_t *object = json_object();
    int failed = put_number(object, "target", offset->target);
    failed |= put_number(object, "deviation", offset->deviation);
    failed |= put_number(object, "uncertainty", offset->uncertainty);
    failed |= put_number(object, "left", offset->left);
    failed |= put_number(object, "spread", offset->spread);
    failed |= put_number(object, "parts_spread", offset->parts_spread);
    failed |= put_number(object, "drift", offset->drift);
    failed |= put_number(object, "drift_uncertainty", offset->drift_uncertainty);
    failed |= put_flag(object, "drifts", offset->drifts != 0);
    failed |= put_number(object, "expected", offset->expected);
    failed |= bite_json_text(object, "prediction", matches[offset->match]);
    failed |= put_number(object, "unexplained", offset->unexplained);
    failed |= put_flag(object, "corrects", offset->corrects != 0);
    failed |= put_number(object, "radius_wear", offset->radius);
    failed |= put_number(object, "diameter_wear", offset->diameter);
    failed |= put_number(object, "length_wear", offset->length);
    return unless_failed(object, failed);
}

/* ---- a characteristic ---- */

static json_t *parts_of(const bite_characteristic_result *result)
{
    json_t *list = json_array();
    int failed = list == NULL;
    for (size_t i = 0; i < result->part_count && !failed; i++) {
        const bite_part_value *part = &result->parts[i];
        json_t *object = json_object();
        int bad = put_count(object, "part", part->part);
        bad |= put_count(object, "readings", part->count);
        bad |= put_number(object, "value", part->value);
        bad |= put_number(object, "least", part->least);
        bad |= put_number(object, "most", part->most);
        bad |= put_number(object, "uncertainty", part->uncertainty);
        bad |= put_finding(object, part->finding);
        bad |= put_number(object, "chance", part->chance);
        bad |= put_number(object, "chance_with_spread", part->chance_known);
        failed = bite_json_append(list, object, bad);
    }
    return unless_failed(list, failed);
}

static json_t *reading_of(const bite_reading *reading, const bite_reading_result *result)
{
    json_t *object = json_object();
    int failed = bite_json_put(object, "line", json_integer((json_int_t)reading->line));
    failed |= put_count(object, "part", reading->part);
    failed |= put_count(object, "trial", reading->trial);
    failed |= bite_json_text(object, "state", bite_reading_state_word(reading->state));
    failed |= put_text(object, "person", reading->person);
    failed |= put_text(object, "note", reading->note);
    failed |= put_time(object, "time", reading->time);
    failed |= put_text(object, "read", reading->text);
    failed |= put_number(object, "value", reading->value);
    failed |= put_number(object, "temperature", reading->temperature);
    failed |= put_flag(object, "corrected", reading->corrected != 0);
    failed |= put_number(object, "value_20", reading->value_20);
    failed |= put_number(object, "uncertainty", reading->uncertainty_20);
    failed |= put_finding(object, result->finding);
    failed |= put_number(object, "chance", result->chance);
    failed |= put_number(object, "chance_with_spread", result->chance_known);
    failed |= bite_json_put(object, "replaces",
                            reading->replaces == 0 ? json_null()
                                                   : json_integer((json_int_t)reading->replaces));
    return unless_failed(object, failed);
}

static json_t *readings_of(const bite_inspection *inspection, size_t characteristic)
{
    const struct bite_record *record = inspection->record;
    json_t *list = json_array();
    int failed = list == NULL;
    for (size_t i = 0; i < record->reading_count && !failed; i++) {
        if (record->readings[i].characteristic == characteristic) {
            json_t *object = reading_of(&record->readings[i], &inspection->readings[i]);
            failed = object == NULL || json_array_append_new(list, object) != 0;
        }
    }
    return unless_failed(list, failed);
}

static int put_plan(json_t *object, const bite_characteristic *characteristic)
{
    int failed = put_count(object, "number", characteristic->number);
    failed |= bite_json_text(object, "what", characteristic->what);
    failed |= put_text(object, "zone", characteristic->zone);
    failed |= put_text(object, "designator", characteristic->designator);
    failed |= put_text(object, "measures", bite_measures_word(characteristic->measures));
    failed |= put_flag(object, "judged", characteristic->judged != 0);
    failed |= put_number(object, "nominal", characteristic->nominal);
    failed |= put_number(object, "lower", characteristic->lower);
    failed |= put_number(object, "upper", characteristic->upper);
    failed |= put_text(object, "limits_from", characteristic->limits_from);
    failed |= put_text(object, "instrument", characteristic->instrument);
    failed |= put_number(object, "instrument_uncertainty", characteristic->uncertainty);
    failed |= put_number(object, "resolution", characteristic->resolution);
    failed |= put_number(object, "pressed", characteristic->pressed);
    failed |= put_count(object, "every", characteristic->every);
    failed |= bite_json_put(
        object, "pass",
        characteristic->pass == 0 ? json_null() : json_integer((json_int_t)characteristic->pass));
    failed |= put_text(object, "pass_title", characteristic->pass_title);
    failed |= put_text(object, "tool", characteristic->tool);
    failed |= put_number(object, "wall_error", characteristic->wall_error);
    failed |= put_number(object, "wall_error_low", characteristic->wall_error_low);
    failed |= put_number(object, "wall_error_high", characteristic->wall_error_high);
    return failed;
}

static json_t *characteristic_of(const bite_inspection *inspection, size_t index)
{
    const bite_characteristic_result *result = &inspection->characteristics[index];
    char line[BITE_SENTENCE_MAX];
    json_t *object = json_object();
    bite_observation_line(inspection, index, line);
    int failed = put_plan(object, &inspection->record->characteristics[index]);
    failed |= put_finding(object, result->finding);
    failed |= put_count(object, "planned", result->planned);
    failed |= put_count(object, "missing", result->missing);
    failed |= put_count(object, "readings_standing", result->stands);
    failed |= put_count(object, "readings_corrected", result->replaced);
    failed |= put_count(object, "readings_withdrawn", result->withdrawn);
    failed |= put_count(object, "readings_skipped", result->skipped);
    failed |= put_number(object, "uncertainty", result->uncertainty);
    failed |= put_number(object, "guard", result->guard);
    failed |= put_number(object, "ratio", result->ratio);
    failed |= put_number(object, "mean", result->moments.mean);
    failed |= put_number(object, "deviation", result->moments.deviation);
    failed |= put_number(object, "least", result->moments.least);
    failed |= put_number(object, "most", result->moments.most);
    failed |= put_text(object, "spread_unknown_because", bite_spread_reason(result->spread));
    failed |= bite_json_put(object, "risk", risk_of(result));
    failed |= bite_json_put(object, "capability", capability_of(result));
    failed |= bite_json_put(object, "gauge_study", gauge_of(&result->gauge));
    failed |= bite_json_put(object, "next_cut", offset_of(&result->offset));
    failed |= put_text(object, "observation", line);
    failed |= bite_json_put(object, "parts", parts_of(result));
    failed |= bite_json_put(object, "readings", readings_of(inspection, index));
    return unless_failed(object, failed);
}

/* ---- the whole ---- */

static json_t *characteristics_of(const bite_inspection *inspection)
{
    json_t *list = json_array();
    int failed = list == NULL;
    for (size_t i = 0; i < inspection->record->characteristic_count && !failed; i++) {
        json_t *object = characteristic_of(inspection, i);
        failed = object == NULL || json_array_append_new(list, object) != 0;
    }
    return unless_failed(list, failed);
}

static json_t *all_parts_of(const bite_inspection *inspection)
{
    json_t *list = json_array();
    int failed = list == NULL;
    for (size_t i = 0; i < inspection->part_count && !failed; i++) {
        const bite_part_result *part = &inspection->parts[i];
        json_t *object = json_object();
        int bad = put_count(object, "part", part->part);
        bad |= put_finding(object, part->finding);
        bad |= put_count(object, "measured", part->measured);
        bad |= put_count(object, "missing", part->missing);
        failed = bite_json_append(list, object, bad);
    }
    return unless_failed(list, failed);
}

static json_t *persons_of(const bite_inspection *inspection)
{
    json_t *list = json_array();
    int failed = list == NULL;
    for (size_t i = 0; i < inspection->person_count && !failed; i++) {
        failed = json_array_append_new(list, json_string(inspection->persons[i])) != 0;
    }
    return unless_failed(list, failed);
}

static json_t *root_of(const bite_inspection *inspection)
{
    json_t *root = json_object();
    int failed = put_count(root, "schema", 1);
    failed |= bite_json_text(root, "coolbite", bite_version());
    failed |= put_finding(root, inspection->finding);
    failed |= bite_json_text(root, "decided_by", "ISO 14253-1");
    failed |= put_number(root, "confidence", BITE_PROOF_CONFIDENCE);
    failed |= bite_json_put(root, "record", head_of(inspection->record));
    failed |= bite_json_put(root, "counts", counts_of(inspection));
    failed |= bite_json_put(root, "environment", environment_of(inspection));
    failed |= bite_json_put(root, "persons", persons_of(inspection));
    failed |= bite_json_put(root, "parts", all_parts_of(inspection));
    failed |= bite_json_put(root, "characteristics", characteristics_of(inspection));
    return unless_failed(root, failed);
}

bite_status bite_inspection_json(const bite_inspection *inspection, bool compact, bite_sink sink,
                                 void *user, bite_error *error)
{
    return bite_json_write(root_of(inspection), compact, sink, user, error);
}
