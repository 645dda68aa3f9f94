/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trial cuts of an audit: light and heavy ones, so that figures, conditions of cautions and the
 * code of a plugin are used before somebody relies on them. */
#include "core/request/audit_cuts.h"
#include "core/base/error.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define INPUTS_MAX 8

/** One trial: inputs as a shop types them. */
typedef struct trial {
    const char *inputs[INPUTS_MAX][2];
} trial;

static const trial trials[] = {
    {{{"diameter", "3mm"},
      {"flutes", "2"},
      {"spindle_speed", "12000rpm"},
      {"feed_rate", "600mm/min"},
      {"depth", "1mm"}}},
    {{{"diameter", "0.5mm"},
      {"flutes", "2"},
      {"spindle_speed", "24000rpm"},
      {"feed_rate", "100mm/min"},
      {"depth", "0.05mm"},
      {"coolant", "air"}}},
    {{{"diameter", "10mm"},
      {"flutes", "3"},
      {"spindle_speed", "3000rpm"},
      {"feed_rate", "900mm/min"},
      {"depth", "8mm"},
      {"width", "2mm"},
      {"coolant", "flood"}}},
    {{{"operation", "drill"},
      {"diameter", "5mm"},
      {"flutes", "2"},
      {"spindle_speed", "2000rpm"},
      {"feed_rate", "150mm/min"},
      {"depth", "3mm"},
      {"feature_depth", "10mm"},
      {"tool_material", "hss"}}},
};

/* FNV-1a over bytes. */
static uint64_t sum_bytes(uint64_t sum, const void *data, size_t size)
{
    const unsigned char *bytes = data;
    for (size_t i = 0; i < size; i++) {
        sum = (sum ^ bytes[i]) * 0x100000001b3u;
    }
    return sum;
}

/* All that a plugin has a part in: numbers, limits and cautions. */
static bite_status sum_answer(const bite_answer *answer, uint64_t *sum, bite_error *error)
{
    const bite_result *result = bite_answer_result(answer);
    bite_status status = BITE_OK;
    *sum = sum_bytes(0xcbf29ce484222325u, result->values, sizeof result->values);
    *sum = sum_bytes(*sum, result->limits, sizeof result->limits);
    for (size_t i = 0; i < bite_answer_caution_count(answer) && status == BITE_OK; i++) {
        bite_caution caution;
        status = bite_answer_caution(answer, i, &caution, error);
        if (status == BITE_OK) {
            *sum = sum_bytes(*sum, caution.name, strlen(caution.name) + 1);
            *sum = sum_bytes(*sum, caution.text, strlen(caution.text) + 1);
        }
    }
    return status;
}

/* Whether a status is that of a cut that cannot be judged for want of a figure, which is an answer
 * to somebody who asks for it. */
static bool is_open(bite_status status)
{
    return status == BITE_MISSING || status == BITE_NO_ANSWER;
}

static bite_status set_trial(bite_request *request, const trial *of, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < INPUTS_MAX && of->inputs[i][0] != NULL && status == BITE_OK; i++) {
        status = bite_request_set(request, of->inputs[i][0], of->inputs[i][1], error);
    }
    return status;
}

/* Judges a cut. *sum: over its answer. */
static bite_status judge(bite_audit_run *run, const bite_request *request, uint64_t *sum,
                         bite_error *error)
{
    bite_answer *answer = NULL;
    *sum = 0;
    bite_status status = bite_answer_new(request, BITE_DRAWS_NONE, 0.0, &answer, error);
    if (status == BITE_OK) {
        status = sum_answer(answer, sum, error);
        run->audit->cuts++;
    }
    bite_answer_free(answer);
    return status;
}

static void tell_error(bite_audit_run *run, bite_error *error, const char *grade)
{
    if (error->key[0] == 0) {
        bite_error_key(error, "grade.%s", grade);
    }
    bite_audit_tell(run, error);
}

/* Judges one trial cut of a grade, or that cut twice. */
static bite_status try_cut(bite_audit_run *run, const bite_library *library, const char *name,
                           const trial *of, int twice, bite_error *error)
{
    bite_request *request = NULL;
    uint64_t first = 0;
    uint64_t second = 0;
    bite_status status = bite_request_new(library, &request, error);
    status = status == BITE_OK ? bite_request_use(request, BITE_GRADES, name, error) : status;
    status = status == BITE_OK ? set_trial(request, of, error) : status;
    status = status == BITE_OK ? judge(run, request, &first, error) : status;
    if (status == BITE_OK && twice) {
        status = judge(run, request, &second, error);
        if (status == BITE_OK && first != second) {
            status = bite_error_set(error, BITE_BAD_PLUGIN, "the same cut of %.60s has two answers",
                                    name);
            bite_error_hint(error, "functions of a plugin must keep no state");
        }
    }
    bite_request_free(request);
    return is_open(status) ? BITE_OK : status;
}

static bite_status try_grade(bite_audit_run *run, const bite_library *library, const char *name,
                             int twice, bite_error *error)
{
    bite_error wrong = BITE_ERROR_INIT;
    bite_request *request = NULL;
    bite_status status = bite_request_new(library, &request, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_audit_begin(run, "completing", name);
    status = bite_request_use(request, BITE_GRADES, name, &wrong);
    run->audit->grades += status == BITE_OK;
    bite_request_free(request);
    bite_audit_begin(run, "judging cuts of", name);
    uint32_t before = run->audit->cuts;
    for (size_t i = 0; i < sizeof trials / sizeof *trials && status == BITE_OK; i++) {
        status = try_cut(run, library, name, &trials[i], twice, &wrong);
    }
    if (status == BITE_NO_MEMORY) {
        bite_error_copy(error, &wrong, 0);
        return status;
    }
    run->audit->unfinished += status == BITE_OK && run->audit->cuts == before;
    if (status != BITE_OK) {
        tell_error(run, &wrong, strchr(name, '/') + 1);
    }
    return BITE_OK;
}

bite_status bite_audit_try_grades(bite_audit_run *run, const bite_library *library,
                                  const char *family, int twice, bite_error *error)
{
    size_t length = strlen(family);
    size_t count = bite_library_count(library, BITE_GRADES);
    bite_status status = BITE_OK;
    for (size_t i = 0; i < count && status == BITE_OK; i++) {
        bite_item item;
        status = bite_library_item(library, BITE_GRADES, i, &item, error);
        if (status == BITE_OK && strncmp(item.name, family, length) == 0 &&
            item.name[length] == '/') {
            status = try_grade(run, library, item.name, twice, error);
        }
    }
    return status;
}

/* ---- records ---- */

/* A gentle cut with one record. */
static const trial record_trial = {
    {{"spindle_speed", "6000rpm"}, {"feed_rate", "60mm/min"}, {"depth", "0.05mm"}}};

/* What a tool is for, as its record says or shows; NULL: a thread mill, which cuts no single pass.
 */
static const char *operation_of(const bite_library *library, bite_collection collection,
                                const char *name)
{
    const bite_item_record *record = NULL;
    if (collection != BITE_TOOLS ||
        bite_library_record(library, collection, name, &record, NULL) != BITE_OK) {
        return "mill";
    }
    if (bite_item_is_yes(record, "thread_mill")) {
        return NULL;
    }
    const bite_field_value *made = bite_item_field(record, "operation");
    if (made != NULL) {
        return made->field->words[made->word];
    }
    bool cone = bite_item_field(record, "taper") != NULL && !bite_item_is_yes(record, "engraves");
    return bite_item_field(record, "point_angle") != NULL ? "drill" : cone ? "chamfer" : "mill";
}

static bite_status try_record(bite_audit_run *run, const bite_library *library,
                              bite_collection collection, const char *name, bite_error *error)
{
    bite_request *request = NULL;
    bite_error wrong = BITE_ERROR_INIT;
    uint64_t sum = 0;
    const char *operation = operation_of(library, collection, name);
    bite_status status = operation == NULL ? BITE_OK : bite_request_new(library, &request, error);
    if (status != BITE_OK || operation == NULL) {
        return status;
    }
    status = bite_request_use(request, BITE_GRADES, "acrylic/cast", &wrong);
    status = is_open(status) || status == BITE_UNKNOWN_NAME ? BITE_OK : status;
    if (status == BITE_OK && collection != BITE_TOOLS) {
        status = bite_request_set(request, "diameter", "1mm", &wrong);
    }
    status = status == BITE_OK ? bite_request_use(request, collection, name, &wrong) : status;
    status = status == BITE_OK ? bite_request_set(request, "operation", operation, &wrong) : status;
    status = status == BITE_OK ? set_trial(request, &record_trial, &wrong) : status;
    status = status == BITE_OK ? judge(run, request, &sum, &wrong) : status;
    bite_request_free(request);
    if (status == BITE_NO_MEMORY) {
        bite_error_copy(error, &wrong, 0);
        return status;
    }
    if (status != BITE_OK && !is_open(status)) {
        char key[128];
        (void)snprintf(key, sizeof key, "%s", wrong.key);
        bite_error_key(&wrong, "%s%s%s", name, key[0] == 0 ? "" : ":", key);
        bite_audit_tell(run, &wrong);
    }
    return BITE_OK;
}

bite_status bite_audit_try_records(bite_audit_run *run, const bite_library *library,
                                   bite_error *error)
{
    static const bite_collection tried[] = {BITE_TOOLS, BITE_MACHINES, BITE_HOLDERS, BITE_HOLDS};
    bite_status status = BITE_OK;
    for (size_t k = 0; k < sizeof tried / sizeof *tried; k++) {
        size_t count = bite_library_count(library, tried[k]);
        for (size_t i = 0; i < count && status == BITE_OK; i++) {
            bite_item item;
            status = bite_library_item(library, tried[k], i, &item, error);
            if (status == BITE_OK && strcmp(item.file, run->name) == 0) {
                status = try_record(run, library, tried[k], item.name, error);
            }
        }
    }
    return status;
}
