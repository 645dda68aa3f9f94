/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What went wrong, and which single change helps first. */
#include "core/job/after.h"
#include "core/base/error.h"
#include "core/base/vocabulary.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define DRAWS_JUDGING 512
#define SEED_JUDGING 20261128

/* A change that helps by less is none. */
static const double helps_least = 0.05;

/* Values without a room are told by what becomes of them; temperatures by their rise. */
static double value_of(const bite_answer *answer, const bite_result *result, uint32_t id)
{
    double value = result->values[id].value;
    return bite_value_kind((bite_value_id)id) == BITE_KIND_TEMPERATURE ? value - answer->full.room_temperature : fabs(value);
}

static double share_of(const bite_after *after, const bite_suspect *suspect, const bite_result *result)
{
    if (suspect->is_row) {
        const bite_row *row = &result->rows[suspect->id];
        return row->applies ? row->use : (double)NAN;
    }
    return value_of(after->answer, result, suspect->id) / value_of(after->answer, &after->answer->result, suspect->id);
}

static bite_status read_suspects(bite_after *after, bite_error *error)
{
    const char *names = bite_thing_text(after->symptom, "limits");
    while (*names != 0) {
        char name[48];
        size_t length = strcspn(names, " ");
        if (length >= sizeof name || after->suspect_count == BITE_SUSPECTS_MOST) {
            break;
        }
        memcpy(name, names, length);
        name[length] = 0;
        bite_suspect *suspect = &after->suspects[after->suspect_count];
        const bite_meaning *meaning = bite_vocabulary_find(name, &suspect->id, &suspect->is_row);
        if (meaning == NULL) {
            bite_error_set(error, BITE_BAD_FILE, "%.48s is no limit and no value", name);
            bite_error_key(error, "symptom.%.48s:limits", after->symptom->name);
            return BITE_BAD_FILE;
        }
        suspect->name = meaning->name;
        suspect->share = share_of(after, suspect, &after->answer->result);
        after->suspect_count++;
        names += length;
        names += strspn(names, " ");
    }
    return BITE_OK;
}

/* A limit counts by its use; a value stands in only where no limit has a number. */
static void find_foremost(bite_after *after)
{
    double most = -1.0;
    after->foremost = after->suspect_count;
    for (uint32_t i = 0; i < after->suspect_count; i++) {
        const bite_suspect *suspect = &after->suspects[i];
        double weight = suspect->is_row ? suspect->share : 1e-3 * suspect->share;
        if (!isnan(weight) && weight > most) {
            most = weight;
            after->foremost = i;
        }
    }
}

/* What a change leaves of the suspects: the largest of them, limits before values. */
static double left_by(const bite_after *after, const bite_result *result)
{
    double most = 0.0;
    int rows = after->suspects[after->foremost].is_row != 0;
    for (uint32_t i = 0; i < after->suspect_count; i++) {
        const bite_suspect *suspect = &after->suspects[i];
        double share = share_of(after, suspect, result);
        if (!isnan(share) && !isnan(suspect->share) && (suspect->is_row != 0) == rows) {
            most = fmax(most, share);
        }
    }
    return most;
}

/* No limit that holds may be broken for it. */
static int breaks_another(const bite_after *after, const bite_result *result)
{
    for (uint32_t i = 0; i < BITE_ROW_COUNT; i++) {
        const bite_row *row = &result->rows[i];
        const bite_row *was = &after->answer->result.rows[i];
        if (row->applies && !row->advisory && row->use > 1.0 && was->applies && row->use > 1.02 * was->use) {
            return 1;
        }
    }
    return 0;
}

/* The best so many, each input once. */
static void keep(bite_after *after, const bite_remedy *remedy)
{
    for (uint32_t i = 0; i < after->remedy_count; i++) {
        if (after->remedies[i].change.input == remedy->change.input) {
            if (remedy->share_after >= after->remedies[i].share_after) {
                return;
            }
            memmove(&after->remedies[i], &after->remedies[i + 1], (after->remedy_count - i - 1) * sizeof *remedy);
            after->remedy_count--;
            break;
        }
    }
    uint32_t at = after->remedy_count;
    while (at > 0 && after->remedies[at - 1].share_after > remedy->share_after) {
        at--;
    }
    if (at >= BITE_REMEDIES_MOST) {
        return;
    }
    uint32_t count = after->remedy_count < BITE_REMEDIES_MOST ? after->remedy_count : BITE_REMEDIES_MOST - 1;
    memmove(&after->remedies[at + 1], &after->remedies[at], (count - at) * sizeof *remedy);
    after->remedies[at] = *remedy;
    after->remedy_count = count + 1;
}

static void try_changes(bite_after *after)
{
    const bite_answer *answer = after->answer;
    double before = left_by(after, &answer->result);
    for (size_t i = 0; i < bite_change_count(); i++) {
        bite_remedy remedy;
        bite_cut cut = answer->full;
        bite_result result;
        memset(&remedy, 0, sizeof remedy);
        memset(&result, 0, sizeof result);
        result.struct_size = (uint32_t)sizeof result;
        if (!bite_change_try(i, &cut, &remedy.change) || bite_cut_pass(&cut, &result, NULL) != BITE_OK) {
            continue;
        }
        remedy.share_after = left_by(after, &result);
        if (remedy.share_after < (1.0 - helps_least) * before && !breaks_another(after, &result)) {
            keep(after, &remedy);
        }
    }
}

static bite_status judge_remedies(bite_after *after, bite_error *error)
{
    bite_status status = BITE_OK;
    for (uint32_t i = 0; i < after->remedy_count && status == BITE_OK; i++) {
        status = bite_change_judge(after->answer, &after->remedies[i].change, DRAWS_JUDGING, SEED_JUDGING, error);
    }
    return status;
}

bite_status bite_after_new(const bite_answer *answer, const char *symptom, bite_after **after, bite_error *error)
{
    bite_error_clear(error);
    if (answer == NULL || symptom == NULL || after == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an answer, a symptom, and a place for what comes of it were expected");
    }
    const bite_thing *thing = NULL;
    bite_status status = bite_library_thing(answer->ask.library, BITE_SYMPTOMS, symptom, &thing, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_after *fresh = bite_memory_new(&answer->ask.allocator, 1, sizeof *fresh);
    if (fresh == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for what comes after");
    }
    fresh->allocator = answer->ask.allocator;
    fresh->answer = answer;
    fresh->symptom = thing;
    fresh->beyond = bite_thing_text(thing, "beyond");
    status = read_suspects(fresh, error);
    if (status == BITE_OK) {
        find_foremost(fresh);
        if (fresh->foremost < fresh->suspect_count) {
            try_changes(fresh);
            status = judge_remedies(fresh, error);
        }
    }
    if (status != BITE_OK) {
        bite_after_free(fresh);
        return status;
    }
    *after = fresh;
    return BITE_OK;
}

void bite_after_free(bite_after *after)
{
    if (after != NULL) {
        bite_allocator allocator = after->allocator;
        bite_memory_free(&allocator, after);
    }
}
