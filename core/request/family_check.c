/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Self-tests of a family: each [case.NAME] of its tables is judged as a request would be, and what
 * comes out is compared with what it expects. */
#include "core/request/family_check.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/case_fields.h"
#include "core/library/material.h"
#include "core/request/answer.h"
#include "core/tables/section.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* One check: the cases of a family, and what they told. */
typedef struct check {
    const bite_library *library;
    const char *family;
    bite_fault_sink fault;
    void *user;
    bite_error first;
    uint32_t faults;
} check;

static void tell(check *of, const bite_section *section, const bite_field_value *at,
                 const char *file, bite_error *error)
{
    error->status = BITE_BAD_FILE;
    bite_error_place(error, at == NULL || at->file == NULL ? file : at->file,
                     at == NULL ? section->line : at->line, at == NULL ? 0 : at->column);
    bite_error_key(error, "%s%s%s", section->name, at == NULL ? "" : ":",
                   at == NULL ? "" : at->field->name);
    if (of->faults == 0) {
        of->first = *error;
    }
    of->faults++;
    if (of->fault != NULL) {
        of->fault(of->user, error);
    }
}

/* The keys that name a thing of a collection; -1: another key. */
static int collection_of(const char *key)
{
    static const struct {
        const char *key;
        bite_collection collection;
    } keys[] = {{"tool", BITE_TOOLS},
                {"holder", BITE_HOLDERS},
                {"machine", BITE_MACHINES},
                {"hold", BITE_HOLDS}};
    for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) {
        if (strcmp(keys[i].key, key) == 0) {
            return (int)keys[i].collection;
        }
    }
    return -1;
}

/* Sets what a key of the case states; what is expected is not set. */
static bite_status set_value(bite_request *request, const bite_field_value *value,
                             bite_error *error)
{
    const char *key = value->field->name;
    int collection = collection_of(key);
    if (collection >= 0) {
        return bite_request_use(request, (bite_collection)collection, value->text, error);
    }
    if (bite_input_find(key) == NULL || strcmp(key, "grade") == 0) {
        return BITE_OK;
    }
    return value->field->type == BITE_FIELD_WORD
               ? bite_request_set(request, key, value->field->words[value->word], error)
               : bite_request_set_number(request, key, value->value, error);
}

/* The request of a case. BITE_BAD_FILE: told. */
static bite_status fill_request(check *of, const bite_section *section, const char *file,
                                bite_request *request)
{
    const bite_field_value *grade = bite_section_value(section, "grade");
    bite_error error = BITE_ERROR_INIT;
    char name[200];
    (void)snprintf(name, sizeof name, "%s%s%s", of->family, grade == NULL ? "" : "/",
                   grade == NULL ? "" : grade->text);
    bite_status status = bite_request_use(request, BITE_GRADES, name, &error);
    const bite_field_value *at = grade;
    for (uint32_t i = 0; i < section->value_count && status == BITE_OK; i++) {
        at = &section->values[i];
        status = set_value(request, at, &error);
    }
    if (status != BITE_OK && status != BITE_NO_MEMORY) {
        tell(of, section, at, file, &error);
        status = BITE_BAD_FILE;
    }
    return status;
}

static void write_number(double si, bite_kind kind, char *text, size_t size)
{
    size_t length = 0;
    if (bite_quantity_write(si, kind, BITE_METRIC, text, size, &length, NULL) != BITE_OK) {
        (void)snprintf(text, size, "not known");
    }
}

/* What a figure must lie between: its band, or the share of it that the case allows. */
static void bounds_of(const bite_section *section, const bite_field_value *expected, double *low,
                      double *high)
{
    const bite_field_value *within = bite_section_value(section, "within");
    double margin = within == NULL ? 0.0 : within->value * fabs(expected->value);
    *low = expected->banded ? expected->low : expected->value - margin;
    *high = expected->banded ? expected->high : expected->value + margin;
}

static void compare_number(check *of, const bite_section *section, const char *file,
                           const bite_answer *answer, const bite_field_value *expected)
{
    bite_error error = BITE_ERROR_INIT;
    bite_kind kind;
    double ends[2];
    double found = bite_answer_number(answer, expected->field->name + strlen(BITE_CASE_EXPECT),
                                      &kind, &ends[0], &ends[1]);
    char is[48];
    char low[48];
    char high[48];
    bounds_of(section, expected, &ends[0], &ends[1]);
    if (found >= ends[0] && found <= ends[1]) {
        return;
    }
    kind = (bite_kind)expected->field->kind;
    write_number(found, kind, is, sizeof is);
    write_number(ends[0], kind, low, sizeof low);
    write_number(ends[1], kind, high, sizeof high);
    bite_error_set(&error, BITE_BAD_FILE, "%s is %s; %s to %s was expected",
                   expected->field->name + strlen(BITE_CASE_EXPECT), is, low, high);
    bite_error_hint(&error, "check the figures of the grade, then the case");
    tell(of, section, expected, file, &error);
}

static void compare_verdict(check *of, const bite_section *section, const char *file,
                            const bite_answer *answer, const bite_field_value *expected)
{
    bite_error error = BITE_ERROR_INIT;
    const char *found = bite_verdict_name(bite_answer_result(answer)->verdict);
    const char *wanted = expected->field->words[expected->word];
    if (!bite_text_equals(found, wanted)) {
        bite_error_set(&error, BITE_BAD_FILE, "the verdict is %s; %s was expected", found, wanted);
        bite_error_hint(&error, "check the figures of the grade, then the case");
        tell(of, section, expected, file, &error);
    }
}

static bite_status run_case(check *of, const bite_section *section, const char *file,
                            bite_error *error)
{
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_error fault = BITE_ERROR_INIT;
    bite_status status = bite_request_new(of->library, &request, error);
    if (status == BITE_OK) {
        status = fill_request(of, section, file, request);
    }
    if (status == BITE_OK) {
        status = bite_answer_new(request, 0, 0.9, &answer, &fault);
        if (status != BITE_OK && status != BITE_NO_MEMORY) {
            tell(of, section, NULL, file, &fault);
            status = BITE_BAD_FILE;
        }
    }
    for (uint32_t i = 0; answer != NULL && i < section->value_count; i++) {
        const bite_field_value *value = &section->values[i];
        bool expects = strncmp(value->field->name, BITE_CASE_EXPECT, strlen(BITE_CASE_EXPECT)) == 0;
        if (expects && value->field->type == BITE_FIELD_WORD) {
            compare_verdict(of, section, file, answer, value);
        } else if (expects) {
            compare_number(of, section, file, answer, value);
        }
    }
    bite_answer_free(answer);
    bite_request_free(request);
    return status == BITE_NO_MEMORY
               ? bite_error_set(error, BITE_NO_MEMORY, "no memory to judge a case")
               : BITE_OK;
}

bite_status bite_library_check_family(const bite_library *library, const char *family,
                                      bite_fault_sink fault, void *user, size_t *cases,
                                      bite_error *error)
{
    bite_error_clear(error);
    if (library == NULL || family == NULL || cases == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an open library, the name of a family and a place for the number of "
                              "cases were expected");
    }
    const bite_family_case *all = NULL;
    size_t count = 0;
    check of = {library, NULL, fault, user, BITE_ERROR_INIT, 0};
    bite_status status =
        bite_library_family_cases(library, family, &of.family, &all, &count, error);
    for (size_t i = 0; i < count && status == BITE_OK; i++) {
        status = run_case(&of, all[i].section, all[i].file, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    *cases = count;
    if (of.faults > 0 && error != NULL) {
        *error = of.first;
        error->faults = of.faults;
    }
    return of.faults > 0 ? BITE_BAD_FILE : BITE_OK;
}
