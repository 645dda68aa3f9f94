/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The passes in the order of work: which must come before which, and the fewest tool changes. */
#include "core/job/pass_sequence.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/job_file.h"
#include "core/job/pass_order.h"
#include "core/job/setup_plan.h"
#include "core/library/collection.h"
#include <string.h>

/* Common practice: faces first, walls finished after all is roughed, the outline after what is
 * inside it, while the stock around it still stiffens its walls, cut free last; a setup after the
 * one before it. */
static int comes_before(const bite_planned_pass *a, const bite_planned_pass *b)
{
    if (a->setup != b->setup) {
        return a->setup < b->setup;
    }
    if (a->work == b->work) {
        return 0;
    }
    if (a->work == BITE_WORK_FACE || b->work == BITE_WORK_FREE) {
        return 1;
    }
    if (b->work == BITE_WORK_FACE || a->work == BITE_WORK_FREE) {
        return 0;
    }
    int opens = a->work == BITE_WORK_ROUGH || a->work == BITE_WORK_POCKET ||
                a->work == BITE_WORK_SLOT || a->work == BITE_WORK_CONTOUR ||
                a->work == BITE_WORK_BORE;
    int ends = b->work == BITE_WORK_FINISH || b->work == BITE_WORK_CHAMFER;
    int roughs = a->work == BITE_WORK_ROUGH && a->stage != BITE_STAGE_CORNERS &&
                 a->stage != BITE_STAGE_MIDDLE;
    int outline = a->work != BITE_WORK_CONTOUR && b->work == BITE_WORK_CONTOUR;
    return (opens && (ends || outline)) || (roughs && b->work == BITE_WORK_POCKET) ||
           (a->work == BITE_WORK_DRILL && b->work == BITE_WORK_CHAMFER);
}

/* Which passes must come before which, directly and indirectly. A set has a bit for each pass. */
typedef struct pass_precedence {
    size_t count;
    size_t words;          /* of each set */
    unsigned char *before; /* count x count, as for bite_pass_order_find */
    uint64_t *then;        /* for each pass, the set of those that come after it, also indirectly */
    uint64_t *first;       /* likewise, before it */
    uint64_t *had;         /* working memory, a set */
} pass_precedence;

static uint64_t *set_of(const pass_precedence *precedence, uint64_t *sets, size_t pass)
{
    return sets + pass * precedence->words;
}

static void put(uint64_t *set, size_t pass)
{
    set[pass / 64] |= (uint64_t)1 << (pass % 64);
}

static int reaches(const pass_precedence *precedence, size_t from, size_t to)
{
    return (int)(set_of(precedence, precedence->then, from)[to / 64] >> (to % 64) & 1u);
}

/* Adds `added` and its set to the sets of `to` and of all beyond it, except of those that have it:
 * they have its set too. */
static void extend(const pass_precedence *precedence, uint64_t *sets, const uint64_t *beyond,
                   const uint64_t *have, size_t to, size_t added)
{
    const uint64_t *adds = set_of(precedence, sets, added);
    for (size_t k = 0; k < precedence->words; k++) {
        uint64_t lack = (beyond[k] | (k == to / 64 ? (uint64_t)1 << (to % 64) : 0)) & ~have[k];
        for (; lack != 0; lack &= lack - 1) {
            size_t pass = 64 * k + (size_t)__builtin_ctzll(lack);
            uint64_t *set = set_of(precedence, sets, pass);
            for (size_t i = 0; i < precedence->words; i++) {
                set[i] |= adds[i];
            }
            put(set, added);
        }
    }
}

static void put_before(pass_precedence *precedence, size_t first, size_t then)
{
    precedence->before[first * precedence->count + then] = 1;
    if (reaches(precedence, first, then)) {
        return;
    }
    uint64_t *after_first = set_of(precedence, precedence->then, first);
    memcpy(precedence->had, after_first, precedence->words * sizeof *after_first);
    extend(precedence, precedence->then, set_of(precedence, precedence->first, first),
           set_of(precedence, precedence->first, then), first, then);
    extend(precedence, precedence->first, set_of(precedence, precedence->then, then),
           precedence->had, then, first);
}

/* The holes for the screws must exist before the screws carry any load. */
static int holes_first(const bite_job *job, const bite_planned_pass *a, const bite_planned_pass *b)
{
    const bite_item_record *hold = bite_plan_hold_of(job, a->setup)->hold;
    int screws =
        hold != NULL && bite_item_word(hold, "clamp", BITE_CLAMP_NONE) == BITE_CLAMP_SCREWS;
    return screws && a->setup == b->setup && a->work == BITE_WORK_DRILL &&
           b->work != BITE_WORK_DRILL && b->work != BITE_WORK_FACE;
}

static void put_named_before(const bite_job *job, pass_precedence *precedence, size_t then)
{
    const char *made_by = job->passes[then].hole.made_by;
    for (size_t i = 0; i < precedence->count && made_by != NULL; i++) {
        if (bite_text_equals(job->passes[i].name, made_by)) {
            put_before(precedence, i, then); /* there is no thread without its hole */
        }
    }
    const char *after = bite_job_file_text(job->file_data.passes[then], "after");
    char name[64];
    for (size_t n = 0; bite_job_file_name(after, n, name, sizeof name); n++) {
        for (size_t i = 0; i < precedence->count; i++) {
            if (bite_text_equals(job->passes[i].name, name)) {
                put_before(precedence, i, then);
            }
        }
    }
}

/* The order in the job file takes precedence; common practice that contradicts it is left out. */
static void fill_before(const bite_job *job, pass_precedence *precedence)
{
    for (size_t k = 0; k < precedence->count; k++) {
        put_named_before(job, precedence, k);
        for (size_t i = 0; i < precedence->count; i++) {
            if (job->file_data.passes[i] == job->file_data.passes[k] &&
                job->passes[i].stage < job->passes[k].stage) {
                put_before(precedence, i, k);
            }
        }
    }
    for (int practice = 0; practice < 2;
         practice++) { /* setups first, because the job file states them too */
        for (size_t i = 0; i < precedence->count; i++) {
            for (size_t k = 0; k < precedence->count; k++) {
                const bite_planned_pass *first = &job->passes[i];
                const bite_planned_pass *then = &job->passes[k];
                if ((first->setup == then->setup) == practice &&
                    (comes_before(first, then) || holes_first(job, first, then)) &&
                    !reaches(precedence, k, i)) {
                    put_before(precedence, i, k);
                }
            }
        }
    }
}

/* Puts the passes and their sections into the order of work, and the tools into that of use. */
static bite_status rearrange(bite_job *job, bite_arena *scratch, const uint32_t *order)
{
    bite_planned_pass *passes = bite_arena_alloc(job->arena, job->pass_count, sizeof *passes);
    bite_planned_tool *tools = bite_arena_alloc(job->arena, job->tool_count, sizeof *tools);
    const bite_section **sections = bite_arena_alloc(scratch, job->pass_count, sizeof *sections);
    uint32_t *place = bite_arena_alloc(scratch, job->tool_count, sizeof *place);
    uint32_t used = 0;
    if (passes == NULL || tools == NULL || sections == NULL || place == NULL) {
        return BITE_NO_MEMORY;
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        passes[i] = job->passes[order[i]];
        sections[i] = job->file_data.passes[order[i]];
        if (place[passes[i].tool] == 0) {
            place[passes[i].tool] = ++used;
            tools[used - 1] = job->tools[passes[i].tool];
            tools[used - 1].place = used;
        }
        passes[i].tool = place[passes[i].tool] - 1;
        tools[passes[i].tool].passes++;
    }
    memcpy(job->file_data.passes, sections, job->pass_count * sizeof *sections);
    job->passes = passes;
    job->tools = tools;
    job->tool_count = used;
    return BITE_OK;
}

/* The order of work. BITE_NO_ANSWER: the passes wait for each other. */
static bite_status find_order(const bite_job *job, bite_arena *scratch, uint32_t **order,
                              uint32_t *changes)
{
    size_t count = job->pass_count;
    size_t words = (count + 63) / 64;
    pass_precedence precedence = {
        count,
        words,
        bite_arena_alloc(scratch, count * count, 1),
        bite_arena_alloc(scratch, count * words, sizeof(uint64_t)),
        bite_arena_alloc(scratch, count * words, sizeof(uint64_t)),
        bite_arena_alloc(scratch, words, sizeof(uint64_t)),
    };
    uint32_t *tools = bite_arena_alloc(scratch, count, sizeof *tools);
    *order = bite_arena_alloc(scratch, count, sizeof **order);
    if (precedence.before == NULL || precedence.then == NULL || precedence.first == NULL ||
        precedence.had == NULL || tools == NULL || *order == NULL) {
        return BITE_NO_MEMORY;
    }
    fill_before(job, &precedence);
    for (size_t i = 0; i < count; i++) {
        tools[i] = job->passes[i].tool;
    }
    return bite_pass_order_find(&job->allocator, count, precedence.before, tools, *order, changes);
}

static bite_status order_passes(bite_job *job, bite_arena *scratch)
{
    uint32_t *order = NULL;
    bite_status status = find_order(job, scratch, &order, &job->time.tool_changes);
    return status == BITE_OK ? rearrange(job, scratch, order) : status;
}

bite_status bite_plan_count_changes(const bite_job *job, uint32_t *changes)
{
    bite_arena *scratch = bite_arena_new(&job->allocator);
    uint32_t *order = NULL;
    bite_status status =
        scratch == NULL ? BITE_NO_MEMORY : find_order(job, scratch, &order, changes);
    bite_arena_free(scratch);
    return status;
}

bite_status bite_plan_pass_order(bite_job *job, bite_error *error)
{
    bite_arena *scratch = bite_arena_new(&job->allocator);
    bite_status status = scratch == NULL ? BITE_NO_MEMORY : order_passes(job, scratch);
    bite_arena_free(scratch);
    if (status == BITE_NO_MEMORY) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    if (status != BITE_OK) {
        return bite_error_set(error, BITE_FAULT,
                              "the passes wait for each other although the job file has no cycle");
    }
    return BITE_OK;
}
