/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What probably caused a symptom, and which single change helps first. */
#include "core/search/diagnosis.h"
#include "core/base/error.h"
#include "core/cut/pass.h"
#include "core/library/collection.h"
#include "core/names/registry.h"
#include "core/request/judge.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* A change that reduces the sum over the suspects by less than this does not count. */
static const double helps_least = 0.03;

/* Nor does one that reduces a single suspect by less than this. */
static const double helps_one_least = 0.2;

/* The chance of the suspects is unchanged if it falls by less than this share. */
static const double chance_least = 0.1;

/* A change that lowers the chance may raise the sum over the suspects by this factor. */
static const double sum_most = 1.02;

/* A suspect that grows by up to this factor does not count as worse. */
static const double worse_most = 1.1;

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

double bite_suspect_weight(const bite_suspect *suspect, double share)
{
    return suspect->is_limit ? share
                             : BITE_EXPLAINS_FROM * (suspect->lacking ? 1.0 / share : share);
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

/* Whether one suspect that counts is much reduced while the sum of all does not grow. */
static int helps_one(const bite_diagnosis *diagnosis, const bite_remedy *remedy)
{
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        double before = bite_suspect_weight(suspect, suspect->share);
        if (before >= BITE_EXPLAINS_FROM &&
            bite_suspect_weight(suspect, remedy->after[i]) < (1.0 - helps_one_least) * before) {
            return remedy->left <= 1.0;
        }
    }
    return 0;
}

/* Whether a change makes the first suspect worse, which must not happen for the sake of a later
 * one: after a tool broke, nobody doubles the feed. */
static int worsens_first(const bite_diagnosis *diagnosis, const bite_remedy *remedy)
{
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        if (!isnan(suspect->share)) {
            return bite_suspect_weight(suspect, remedy->after[i]) >
                   worse_most * bite_suspect_weight(suspect, suspect->share);
        }
    }
    return 0;
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

/* Keeps the best remedies, at most one for each input. */
static void insert_remedy(bite_diagnosis *diagnosis, const bite_remedy *remedy)
{
    for (uint32_t i = 0; i < diagnosis->remedy_count; i++) {
        if (diagnosis->remedies[i].change.input == remedy->change.input) {
            if (remedy->left >= diagnosis->remedies[i].left) {
                return;
            }
            memmove(&diagnosis->remedies[i], &diagnosis->remedies[i + 1],
                    (diagnosis->remedy_count - i - 1) * sizeof *remedy);
            diagnosis->remedy_count--;
            break;
        }
    }
    uint32_t at = diagnosis->remedy_count;
    while (at > 0 && diagnosis->remedies[at - 1].left > remedy->left) {
        at--;
    }
    if (at >= BITE_REMEDIES_MAX) {
        return;
    }
    uint32_t count = diagnosis->remedy_count < BITE_REMEDIES_MAX ? diagnosis->remedy_count
                                                                 : BITE_REMEDIES_MAX - 1;
    memmove(&diagnosis->remedies[at + 1], &diagnosis->remedies[at], (count - at) * sizeof *remedy);
    diagnosis->remedies[at] = *remedy;
    diagnosis->remedy_count = count + 1;
}

/* Two standard deviations of a chance estimated from this number of draws. */
static double scatter_of(double chance, uint32_t draws)
{
    return 2.0 * sqrt(chance * (1.0 - chance) / draws);
}

static int raises_chance(const bite_change *change, uint32_t draws)
{
    return change->after > change->before + scatter_of(fmax(change->before, change->after), draws);
}

/* The highest chance among the suspected limits; 0: none of them is exceeded in any draw. */
static double chance_of_suspects(const bite_diagnosis *diagnosis, const bite_result *result)
{
    double most = 0.0;
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_limit *limit = &result->limits[diagnosis->suspects[i].id];
        most = diagnosis->suspects[i].is_limit && limit->applies ? fmax(most, limit->chance) : most;
    }
    return most;
}

/* Whether the draws show a gain that the best estimates hide: more feed cools an edge that moves
 * too slowly and heats one that does not, and a melted edge points to the former. */
static int lowers_chance(const bite_diagnosis *diagnosis, const bite_result *result)
{
    double before = chance_of_suspects(diagnosis, &diagnosis->answer->result);
    double left = chance_of_suspects(diagnosis, result);
    return result->draws > 0 && left < (1.0 - chance_least) * before &&
           left < before - scatter_of(before, result->draws);
}

static bite_status try_change(bite_diagnosis *diagnosis, size_t at, bite_error *error)
{
    bite_remedy remedy;
    bite_cut cut = diagnosis->answer->full;
    bite_result result;
    memset(&remedy, 0, sizeof remedy);
    memset(&result, 0, sizeof result);
    result.struct_size = (uint32_t)sizeof result;
    if (!bite_change_apply(at, &cut, &remedy.change)) {
        return BITE_OK;
    }
    bite_status status =
        bite_cut_pass_with(&diagnosis->answer->request.allocator, &cut, &result, NULL);
    if (status != BITE_OK) {
        return status == BITE_NO_MEMORY
                   ? bite_error_set(error, BITE_NO_MEMORY, "no memory for a diagnosis")
                   : BITE_OK; /* a change that cannot be computed is not offered */
    }
    result.values[BITE_TIP_FREQUENCY].value =
        bite_tool_first_frequency(&cut); /* not part of a pass without draws */
    weigh(diagnosis, &remedy, &result);
    if (worsens_first(diagnosis, &remedy) || breaks_another(diagnosis, &result)) {
        return BITE_OK;
    }
    int by_utilization = remedy.left < 1.0 - helps_least || helps_one(diagnosis, &remedy);
    status = bite_change_judge(diagnosis->answer, &remedy.change, &result, error);
    int by_chance = remedy.left <= sum_most && lowers_chance(diagnosis, &result);
    if (status == BITE_OK && (by_utilization || by_chance) &&
        !raises_chance(&remedy.change, result.draws)) {
        insert_remedy(diagnosis, &remedy);
    }
    return status;
}

static bite_status try_changes(bite_diagnosis *diagnosis, bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; i < bite_change_count() && status == BITE_OK; i++) {
        status = try_change(diagnosis, i, error);
    }
    return status;
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
        bite_library_record(answer->request.library, BITE_SYMPTOMS, symptom, &record, error);
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
