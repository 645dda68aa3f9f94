/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The passes in the order of work: which must come before which, and the fewest tool changes. */
#include "core/job/pass_sequence.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/job_file.h"
#include "core/job/pass_order.h"
#include "core/library/collection.h"
#include <string.h>

/* Common practice: faces first, walls finished after they are roughed, cut free last; a setup after
 * the one before it. */
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
    return (opens && ends) || (a->work == BITE_WORK_ROUGH && b->work == BITE_WORK_POCKET) ||
           (a->work == BITE_WORK_DRILL && b->work == BITE_WORK_CHAMFER);
}

/* Which passes must come before which, directly and indirectly. */
typedef struct pass_precedence {
    size_t count;
    unsigned char *before; /* count x count, as for bite_pass_order_find */
    uint64_t reach[BITE_PASSES_MAX][BITE_PASSES_MAX / 64]; /* for each pass, those that come after
                                                              it, also indirectly */
} pass_precedence;

static int reaches(const pass_precedence *precedence, size_t from, size_t to)
{
    return (int)(precedence->reach[from][to / 64] >> (to % 64) & 1u);
}

static void put_before(pass_precedence *precedence, size_t first, size_t then)
{
    precedence->before[first * precedence->count + then] = 1;
    for (size_t i = 0; i < precedence->count; i++) {
        if ((i == first || reaches(precedence, i, first)) && !reaches(precedence, i, then)) {
            for (size_t k = 0; k < BITE_PASSES_MAX / 64; k++) {
                precedence->reach[i][k] |= precedence->reach[then][k];
            }
            precedence->reach[i][then / 64] |= (uint64_t)1 << (then % 64);
        }
    }
}

/* The holes for the screws must exist before the screws carry any load. */
static int holes_first(const bite_job *job, const bite_planned_pass *a, const bite_planned_pass *b)
{
    const bite_item_record *hold = job->hold.hold;
    return hold != NULL && bite_item_word(hold, "clamp", BITE_CLAMP_NONE) == BITE_CLAMP_SCREWS &&
           a->setup == b->setup && a->work == BITE_WORK_DRILL && b->work != BITE_WORK_DRILL &&
           b->work != BITE_WORK_FACE;
}

/* The order in the job file takes precedence; common practice that contradicts it is left out. */
static void fill_before(const bite_job *job, pass_precedence *precedence)
{
    char name[64];
    for (size_t k = 0; k < precedence->count; k++) {
        const char *after = bite_job_file_text(job->file_data.passes[k], "after");
        for (size_t n = 0; bite_job_file_name(after, n, name, sizeof name); n++) {
            for (size_t i = 0; i < precedence->count; i++) {
                if (bite_text_equals(job->passes[i].name, name)) {
                    put_before(precedence, i, k);
                }
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
static bite_status rearrange(bite_job *job, const uint32_t *order, bite_error *error)
{
    bite_planned_pass *passes = bite_arena_alloc(job->arena, job->pass_count, sizeof *passes);
    bite_planned_tool *tools = bite_arena_alloc(job->arena, job->tool_count, sizeof *tools);
    const bite_section *sections[BITE_PASSES_MAX];
    uint32_t place[BITE_PASSES_MAX] = {0};
    uint32_t used = 0;
    if (passes == NULL || tools == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
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

bite_status bite_plan_pass_order(bite_job *job, bite_error *error)
{
    size_t count = job->pass_count;
    pass_precedence *precedence = bite_arena_alloc(job->arena, 1, sizeof *precedence);
    unsigned char *before = bite_arena_alloc(job->arena, count * count, 1);
    uint32_t tools[BITE_PASSES_MAX];
    uint32_t order[BITE_PASSES_MAX];
    if (precedence == NULL || before == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    precedence->count = count;
    precedence->before = before;
    fill_before(job, precedence);
    for (size_t i = 0; i < count; i++) {
        tools[i] = job->passes[i].tool;
    }
    bite_status status =
        bite_pass_order_find(&job->allocator, count, before, tools, order, &job->time.tool_changes);
    if (status == BITE_NO_MEMORY) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a plan");
    }
    if (status != BITE_OK) {
        return bite_error_set(error, BITE_FAULT,
                              "the passes wait for each other although the job file has no cycle");
    }
    return rearrange(job, order, error);
}
