/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The order of passes with the fewest changes of tool.
 *
 * With a tool in the spindle all that it can do now is done: it costs no change and only frees others, so an order that does it
 * later is never better. What is left is a sequence of tools. It is sought by depth: first with as many tools as are still needed,
 * then one more, until all passes are done; a branch ends where fewer tools are left than still have work. A job whose sequences
 * are too many takes the tool that does most at each step.
 */
#include "core/base/memory.h"
#include "core/job/plan_parts.h"
#include <string.h>

#define LOOKS_MOST 200000

typedef struct sequence {
    size_t count;
    const unsigned char *before;
    const uint32_t *tools;
    uint32_t *order;
    long looks;
} sequence;

static int is_free(const sequence *of, const unsigned char *done, size_t pass)
{
    for (size_t i = 0; i < of->count; i++) {
        if (of->before[i * of->count + pass] && !done[i]) {
            return 0;
        }
    }
    return 1;
}

/* Does all that a tool can do; returns how many passes in all are done then. */
static size_t work_with(const sequence *of, uint32_t tool, unsigned char *done, size_t at)
{
    int again = 1;
    while (again) {
        again = 0;
        for (size_t i = 0; i < of->count; i++) {
            if (!done[i] && of->tools[i] == tool && is_free(of, done, i)) {
                done[i] = 1;
                of->order[at++] = (uint32_t)i;
                again = 1;
            }
        }
    }
    return at;
}

/* Whether a pass before this one has the same tool and is not done either: each tool is looked at once. */
static int is_first_of_tool(const sequence *of, const unsigned char *done, size_t pass)
{
    for (size_t i = 0; i < pass; i++) {
        if (!done[i] && of->tools[i] == of->tools[pass]) {
            return 0;
        }
    }
    return 1;
}

static size_t tools_left(const sequence *of, const unsigned char *done)
{
    size_t left = 0;
    for (size_t i = 0; i < of->count; i++) {
        left += !done[i] && is_first_of_tool(of, done, i);
    }
    return left;
}

static int can_start(const sequence *of, const unsigned char *done, uint32_t tool)
{
    for (size_t i = 0; i < of->count; i++) {
        if (!done[i] && of->tools[i] == tool && is_free(of, done, i)) {
            return 1;
        }
    }
    return 0;
}

/* All passes done with at most so many more tools? done is of->count x (depth + 1) bytes, its first row the present state. */
static int search(sequence *of, unsigned char *done, size_t at, size_t more)
{
    if (at == of->count) {
        return 1;
    }
    if (more == 0 || tools_left(of, done) > more || of->looks-- <= 0) {
        return 0;
    }
    unsigned char *next = done + of->count;
    for (size_t i = 0; i < of->count; i++) {
        if (!done[i] && is_first_of_tool(of, done, i) && can_start(of, done, of->tools[i])) {
            memcpy(next, done, of->count);
            size_t then = work_with(of, of->tools[i], next, at);
            if (search(of, next, then, more - 1)) {
                return 1;
            }
        }
    }
    return 0;
}

/* The tool that does most at each step. */
static int greedy(sequence *of, unsigned char *done, unsigned char *tried)
{
    size_t at = 0;
    memset(done, 0, of->count);
    while (at < of->count) {
        size_t best = of->count;
        size_t most = at;
        for (size_t i = 0; i < of->count; i++) {
            if (!done[i] && is_first_of_tool(of, done, i)) {
                memcpy(tried, done, of->count);
                size_t then = work_with(of, of->tools[i], tried, at);
                best = then > most ? i : best;
                most = then > most ? then : most;
            }
        }
        if (best == of->count) {
            return 0; /* nothing is free: a circle */
        }
        at = work_with(of, of->tools[best], done, at);
    }
    return 1;
}

static uint32_t changes_of(const sequence *of)
{
    uint32_t changes = 0;
    for (size_t i = 1; i < of->count; i++) {
        changes += of->tools[of->order[i]] != of->tools[of->order[i - 1]];
    }
    return changes;
}

int bite_schedule(size_t count, const unsigned char *before, const uint32_t *tools, uint32_t *order, uint32_t *changes)
{
    const bite_allocator *memory = bite_memory_usual();
    sequence of = {count, before, tools, order, LOOKS_MOST};
    *changes = 0;
    unsigned char *done = bite_memory_new(memory, count * (count + 2), 1);
    if (done == NULL || count == 0) {
        bite_memory_free(memory, done);
        return done != NULL;
    }
    int found = greedy(&of, done, done + count);
    if (found) {
        uint32_t greedy_changes = changes_of(&of);
        memset(done, 0, count);
        size_t least = tools_left(&of, done);
        int exact = 0;
        for (size_t steps = least; steps < (size_t)greedy_changes + 1 && !exact && of.looks > 0; steps++) {
            memset(done, 0, count);
            exact = search(&of, done, 0, steps);
        }
        if (!exact) {
            (void)greedy(&of, done, done + count);
        }
        *changes = changes_of(&of);
    }
    bite_memory_free(memory, done);
    return found;
}
