/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What probably caused a symptom, and which single change helps first. */
#include "core/base/error.h"
#include "core/cut/pass.h"
#include "core/library/alias.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include "core/names/registry.h"
#include "core/request/judge.h"
#include "core/search/remedy.h"
#include "core/search/remedy_ranking.h"
#include "core/search/request_change.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* A value has no capacity, so it is compared with itself; a temperature by its rise. */
static double value_of(const bite_answer *answer, const bite_result *result, uint32_t id)
{
    double value = result->values[id].value;
    return bite_value_kind((bite_value_id)id) == BITE_KIND_TEMPERATURE
               ? value - answer->full.room_temperature
               : fabs(value);
}

/* The utilization of a limit, or the value relative to the cut as it is. NaN: does not apply, or no
 * number. bite_suspect_weight inverts a value that is lacking, since more of it is better. */
static double share_of(const bite_diagnosis *diagnosis, const bite_suspect *suspect,
                       const bite_result *result)
{
    if (suspect->is_limit) {
        const bite_limit *limit = &result->limits[suspect->id];
        return limit->applies ? limit->utilization : (double)NAN;
    }
    return value_of(diagnosis->answer, result, suspect->id) /
           value_of(diagnosis->answer, &diagnosis->answer->result, suspect->id);
}

static bite_status read_suspect(bite_diagnosis *diagnosis, const char *name, const char *key,
                                bite_error *error)
{
    bite_suspect *suspect = &diagnosis->suspects[diagnosis->suspect_count];
    const bite_definition *definition = bite_registry_find(name, &suspect->id, &suspect->is_limit);
    suspect->lacking = strcmp(key, "lacking") == 0;
    if (definition == NULL || (suspect->lacking && suspect->is_limit)) {
        bite_error_set(error, BITE_BAD_FILE, "%.48s is not a %s", name,
                       suspect->lacking ? "value" : "limit or a value");
        bite_error_key(error, "symptom.%.48s:%s", diagnosis->symptom->name, key);
        return BITE_BAD_FILE;
    }
    suspect->name = definition->name;
    suspect->share = share_of(diagnosis, suspect, &diagnosis->answer->result);
    suspect->why = suspect->is_limit ? diagnosis->answer->result.limits[suspect->id].why
                                     : (uint32_t)BITE_WHY_APPLIES;
    diagnosis->suspect_count++;
    return BITE_OK;
}

/* The names in one key, separated by blanks. */
static bite_status read_suspects(bite_diagnosis *diagnosis, const char *key, bite_error *error)
{
    const char *names = bite_item_text(diagnosis->symptom, key);
    bite_status status = BITE_OK;
    while (*names != 0 && status == BITE_OK) {
        char name[48];
        size_t length = strcspn(names, " ");
        if (length >= sizeof name || diagnosis->suspect_count == BITE_SUSPECTS_MAX) {
            break;
        }
        memcpy(name, names, length);
        name[length] = 0;
        status = read_suspect(diagnosis, name, key, error);
        names += length;
        names += strspn(names, " ");
    }
    return status;
}

/* The causes that no setting shows. A name without its section is a fault of the table. */
static bite_status read_causes(bite_diagnosis *diagnosis, bite_error *error)
{
    const char *names = bite_item_text(diagnosis->symptom, "causes");
    bite_status status = BITE_OK;
    while (*names != 0 && status == BITE_OK && diagnosis->cause_count < BITE_CAUSES_MAX) {
        char name[48];
        size_t length = strcspn(names, " ");
        (void)snprintf(name, sizeof name, "%.*s", (int)length, names);
        status = bite_library_cause(diagnosis->answer->request.library, name,
                                    &diagnosis->causes[diagnosis->cause_count++], error);
        if (status == BITE_UNKNOWN_NAME) {
            status = bite_error_set(error, BITE_BAD_FILE, "there is no [cause.%s]", name);
            bite_error_place(error, diagnosis->symptom->file, 0, 0);
            bite_error_key(error, "symptom.%.48s:causes", diagnosis->symptom->name);
        }
        names += length;
        names += strspn(names, " ");
    }
    return status;
}

/* The limit with the highest utilization; a value only if no limit has a number. */
static void find_foremost(bite_diagnosis *diagnosis)
{
    double most = -1.0;
    diagnosis->foremost = diagnosis->suspect_count;
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        double weight = suspect->is_limit ? suspect->share : 1e-3;
        if (!isnan(weight) && weight > most) {
            most = weight;
            diagnosis->foremost = i;
        }
    }
}

/* Suspects are summed by the cube of their weight: the worst counts most, but a change that helps
 * only the next one counts too (estimate). */
static double cube(double weight)
{
    return weight * weight * weight;
}

/* The sum over the suspects after a change, relative to before; 1: unchanged. */
static double left_by(const bite_diagnosis *diagnosis, const double *shares)
{
    double before = 0.0;
    double left = 0.0;
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        if (!isnan(suspect->share)) {
            before += cube(bite_suspect_weight(suspect, suspect->share));
            left += isnan(shares[i]) ? 0.0 : cube(bite_suspect_weight(suspect, shares[i]));
        }
    }
    return before > 0.0 ? cbrt(left / before) : 1.0;
}

static void weigh(const bite_diagnosis *diagnosis, bite_remedy *remedy, const bite_result *result)
{
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        double share = share_of(diagnosis, suspect, result);
        remedy->after[i] = isnan(share) && !suspect->is_limit
                               ? suspect->share
                               : share; /* an unknown value counts as unchanged */
    }
    remedy->left = left_by(diagnosis, remedy->after);
}

/* Whether a change exceeds a limit that was kept before, which it must not. */
static int breaks_another(const bite_diagnosis *diagnosis, const bite_result *result)
{
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        const bite_limit *before_change = &diagnosis->answer->result.limits[i];
        if (limit->applies && !limit->advisory && limit->utilization > 1.0 &&
            before_change->applies && limit->utilization > 1.02 * before_change->utilization) {
            return 1;
        }
    }
    return 0;
}

/* The time for the same volume, relative to before, where the removal rate changes. */
static double time_of(const bite_diagnosis *diagnosis, const bite_result *result)
{
    double before = diagnosis->answer->result.values[BITE_REMOVAL_RATE].value;
    double ratio = before / result->values[BITE_REMOVAL_RATE].value;
    return fabs(ratio - 1.0) < 1e-3 ? (double)NAN : ratio;
}

/* The pass with a change. BITE_NO_ANSWER: it does not apply, or cannot be computed. */
static bite_status run_change(const bite_diagnosis *diagnosis, size_t at, bite_change *change,
                              bite_result *result)
{
    bite_cut cut = diagnosis->answer->full;
    memset(result, 0, sizeof *result);
    result->struct_size = (uint32_t)sizeof *result;
    if (!bite_change_apply(at, &cut, change) ||
        bite_input_at(change->input) == bite_input_find("coolant")) {
        return BITE_NO_ANSWER; /* the scatter of another coolant is that of its table */
    }
    bite_status status =
        bite_cut_pass_with(&diagnosis->answer->request.allocator, &cut, result, NULL);
    if (status != BITE_OK) {
        return status == BITE_NO_MEMORY ? BITE_NO_MEMORY : BITE_NO_ANSWER;
    }
    result->values[BITE_TIP_FREQUENCY].value =
        bite_tool_first_frequency(&cut); /* not part of a pass without draws */
    return BITE_OK;
}

static bite_status try_change(bite_diagnosis *diagnosis, size_t at, bite_error *error)
{
    bite_remedy remedy;
    bite_result result;
    memset(&remedy, 0, sizeof remedy);
    bite_status status = run_change(diagnosis, at, &remedy.change, &result);
    if (status != BITE_OK) { /* a change that cannot be computed is not offered */
        return status == BITE_NO_MEMORY
                   ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a diagnosis")
                   : BITE_OK;
    }
    weigh(diagnosis, &remedy, &result);
    remedy.time = time_of(diagnosis, &result);
    if (bite_remedy_worsens_first(diagnosis, &remedy) || breaks_another(diagnosis, &result)) {
        return BITE_OK;
    }
    status = bite_change_judge(diagnosis->answer, &remedy.change, diagnosis->wanted,
                               &remedy.trouble, &result, error);
    remedy.merit = bite_remedy_merit(&remedy);
    int worse =
        bite_remedy_raises_chance(diagnosis, remedy.change.before, remedy.change.after,
                                  result.draws) ||
        bite_remedy_raises_chance(diagnosis, diagnosis->trouble, remedy.trouble, result.draws);
    if (status == BITE_OK && bite_remedy_helps(diagnosis, &remedy, result.draws) && !worse) {
        bite_remedy_insert(diagnosis, &remedy);
    }
    return status;
}

/* The chance of the trouble at the settings as they are, from the draws with which the changes are
 * judged. */
static bite_status judge_as_it_is(bite_diagnosis *diagnosis, bite_error *error)
{
    bite_result result;
    bite_change none;
    memset(&none, 0, sizeof none);
    none.input = BITE_NO_INPUT;
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        if (suspect->is_limit) {
            diagnosis->wanted[suspect->id] = 1;
        }
    }
    return bite_change_judge(diagnosis->answer, &none, diagnosis->wanted, &diagnosis->trouble,
                             &result, error);
}

/* Whether a workholding can be proposed: one that is released with a solvent is for metals only,
 * which bear it. */
static int is_proposable(const bite_diagnosis *diagnosis, const bite_item_record *hold)
{
    return bite_item_text(hold, "solvent")[0] == 0 ||
           diagnosis->answer->full.substance == BITE_METAL;
}

/* Judges the cut of a request that differs in one thing, with the scatter of what it then has, and
 * keeps the remedy if it helps. applies: a limit that has to apply as before; BITE_LIMIT_COUNT:
 * none. */
static bite_status try_request(bite_diagnosis *diagnosis, bite_request *request,
                               bite_remedy *remedy, bite_limit_id applies, bite_error *error)
{
    const bite_change none = {BITE_NO_INPUT, 0,           0,           0,
                              (double)NAN,   (double)NAN, (double)NAN, (double)NAN};
    bite_change as_it_is = none;
    bite_answer *answer = NULL;
    bite_result result;
    size_t draws = diagnosis->answer->result.draws;
    request->skip_change = 1;
    bite_status status = bite_answer_new(request, draws == 0 ? BITE_DRAWS_NONE : draws,
                                         diagnosis->answer->confidence, &answer, error);
    if (status != BITE_OK) { /* what cannot be judged is not offered */
        return status == BITE_NO_MEMORY ? status : BITE_OK;
    }
    if (applies == BITE_LIMIT_COUNT || answer->result.limits[applies].applies) {
        weigh(diagnosis, remedy, &answer->result);
        status = bite_change_judge(answer, &as_it_is, diagnosis->wanted, &remedy->trouble, &result,
                                   error);
        remedy->change.before = diagnosis->answer->result.chance;
        remedy->change.after = answer->result.chance;
        remedy->time = (double)NAN;
        remedy->merit = bite_remedy_merit(remedy);
        if (status == BITE_OK && bite_remedy_helps(diagnosis, remedy, result.draws) &&
            !bite_remedy_worsens_first(diagnosis, remedy) &&
            !breaks_another(diagnosis, &answer->result) &&
            !bite_remedy_raises_chance(diagnosis, diagnosis->trouble, remedy->trouble,
                                       result.draws)) {
            bite_remedy_insert(diagnosis, remedy);
        }
    }
    bite_answer_free(answer);
    return status;
}

/* The cut on another workholding that is judged by the same limit, as bonds and vacuum are. */
static bite_status try_hold(bite_diagnosis *diagnosis, const bite_item_record *hold,
                            bite_error *error)
{
    bite_request request = diagnosis->answer->request;
    bite_request_change changed;
    bite_remedy remedy;
    memset(&remedy, 0, sizeof remedy);
    remedy.change.input = BITE_NO_INPUT;
    remedy.hold = hold;
    return is_proposable(diagnosis, hold) && bite_request_change_hold(hold, &request, &changed)
               ? try_request(diagnosis, &request, &remedy, BITE_LIMIT_HOLD, error)
               : BITE_OK;
}

/* The cut with each coolant that is stronger than its own. */
static bite_status try_coolants(bite_diagnosis *diagnosis, bite_error *error)
{
    bite_status status = BITE_OK;
    for (uint32_t word = BITE_COOLANT_AIR; status == BITE_OK && word <= BITE_COOLANT_FLOOD;
         word++) {
        bite_request request = diagnosis->answer->request;
        bite_request_change changed;
        bite_remedy remedy;
        memset(&remedy, 0, sizeof remedy);
        remedy.change.input = (uint32_t)bite_input_index(bite_input_find("coolant"));
        remedy.change.word = word;
        if (bite_request_change_coolant(word, diagnosis->answer, &request, &changed)) {
            status = try_request(diagnosis, &request, &remedy, BITE_LIMIT_COUNT, error);
        }
    }
    return status;
}

/* Other workholdings, where the bond or the vacuum is suspected. */
static bite_status try_holds(bite_diagnosis *diagnosis, bite_error *error)
{
    const bite_library *library = diagnosis->answer->request.library;
    size_t count = 0;
    if (!diagnosis->wanted[BITE_LIMIT_HOLD] || diagnosis->answer->request.hold == NULL ||
        !diagnosis->answer->result.limits[BITE_LIMIT_HOLD].applies) {
        return BITE_OK;
    }
    bite_status status = bite_library_size(library, BITE_HOLDS, &count, error);
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        bite_item item;
        const bite_item_record *hold = NULL;
        status = bite_library_item(library, BITE_HOLDS, i, &item, error);
        status = status != BITE_OK
                     ? status
                     : bite_library_record(library, BITE_HOLDS, item.name, &hold, error);
        status = status != BITE_OK ? status : try_hold(diagnosis, hold, error);
    }
    return status;
}

static bite_status try_changes(bite_diagnosis *diagnosis, bite_error *error)
{
    bite_status status = judge_as_it_is(diagnosis, error);
    for (size_t i = 0; i < bite_change_count() && status == BITE_OK; i++) {
        status = try_change(diagnosis, i, error);
    }
    status = status != BITE_OK ? status : try_coolants(diagnosis, error);
    return status != BITE_OK ? status : try_holds(diagnosis, error);
}

bite_status bite_diagnosis_new(const bite_answer *answer, const char *symptom,
                               bite_diagnosis **diagnosis, bite_error *error)
{
    bite_error_clear(error);
    if (answer == NULL || symptom == NULL || diagnosis == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an answer, a symptom, and a place for the diagnosis were expected");
    }
    const bite_item_record *record = NULL;
    bite_status status =
        bite_library_record_also(answer->request.library, BITE_SYMPTOMS, symptom, &record, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_diagnosis *fresh = bite_memory_new(&answer->request.allocator, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a diagnosis");
    }
    fresh->allocator = answer->request.allocator;
    fresh->answer = answer;
    fresh->symptom = record;
    fresh->beyond = bite_item_text(record, "beyond");
    status = read_suspects(fresh, "limits", error);
    status = status != BITE_OK ? status : read_suspects(fresh, "lacking", error);
    status = status != BITE_OK ? status : read_causes(fresh, error);
    if (status == BITE_OK) {
        find_foremost(fresh);
        status = try_changes(fresh, error);
    }
    if (status != BITE_OK) {
        bite_diagnosis_free(fresh);
        return status;
    }
    *diagnosis = fresh;
    return BITE_OK;
}

void bite_diagnosis_free(bite_diagnosis *diagnosis)
{
    if (diagnosis != NULL) {
        bite_allocator allocator = diagnosis->allocator;
        bite_memory_free(&allocator, diagnosis);
    }
}
