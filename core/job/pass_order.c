/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The order of passes with the fewest changes of tool.
 *
 * With a tool in the spindle all that it can do now is done: it costs no change and only frees others, so an order that does it
 * later is never better. What is left is a sequence of tools. It is sought by depth: first with as many tools as are still needed,
 * then one more, until all passes are done; a branch ends where fewer tools are left than still have work. A job whose sequences
 * are too many takes the tool that does most at each step.
 */
#include "core/job/plan_steps.h"
#include <string.h>

#define LOOKS_MOST 200000
#define WORDS (BITE_PASSES_MOST / 64)

/* A set of passes. */
typedef struct passes {
    uint64_t bits[WORDS];
} passes;

typedef struct sequence {
    size_t count;
    size_t words; /* of a set that are in use */
    const uint32_t *tools;
    passes waits[BITE_PASSES_MOST]; /* of each pass: those that come before it */
    passes made[BITE_PASSES_MOST];  /* by each tool */
    uint32_t firsts[BITE_PASSES_MOST];
    size_t tool_count; /* tools by the first pass of each */
    uint32_t *order;
    long looks;
} sequence;

static int has(const passes *set, size_t pass)
{
    return (int)(set->bits[pass / 64] >> (pass % 64) & 1u);
}

static void put(passes *set, size_t pass)
{
    set->bits[pass / 64] |= (uint64_t)1 << (pass % 64);
}

/* Everything of a that is not in b is nothing. */
static int within(const sequence *of, const passes *a, const passes *b)
{
    uint64_t left = 0;
    for (size_t i = 0; i < of->words; i++) {
        left |= a->bits[i] & ~b->bits[i];
    }
    return left == 0;
}

static int is_free(const sequence *of, const passes *done, size_t pass)
{
    return within(of, &of->waits[pass], done);
}

/* Does all that a tool can do; returns how many passes in all are done then. */
static size_t work_with(const sequence *of, uint32_t tool, passes *done, size_t at)
{
    int again = 1;
    while (again) {
        again = 0;
        for (size_t i = of->firsts[tool]; i < of->count; i++) {
            if (has(&of->made[tool], i) && !has(done, i) && is_free(of, done, i)) {
                put(done, i);
                of->order[at++] = (uint32_t)i;
                again = 1;
            }
        }
    }
    return at;
}

static size_t tools_left(const sequence *of, const passes *done)
{
    size_t left = 0;
    for (size_t i = 0; i < of->tool_count; i++) {
        left += !within(of, &of->made[i], done);
    }
    return left;
}

/* Its first pass that is not done, so that tools are taken up in the order of their work; of->count: none. */
static size_t next_of(const sequence *of, const passes *done, size_t tool)
{
    size_t i = of->firsts[tool];
    while (i < of->count && (!has(&of->made[tool], i) || has(done, i))) {
        i++;
    }
    return i;
}

/* The tools that still have work, by the first pass of each that is not done. */
static size_t list_tools(const sequence *of, const passes *done, uint8_t *list)
{
    uint16_t places[BITE_PASSES_MOST];
    size_t count = 0;
    for (size_t i = 0; i < of->tool_count; i++) {
        size_t place = next_of(of, done, i);
        size_t at = count;
        if (place == of->count) {
            continue;
        }
        for (; at > 0 && places[at - 1] > place; at--) {
            places[at] = places[at - 1];
            list[at] = list[at - 1];
        }
        places[at] = (uint16_t)place;
        list[at] = (uint8_t)i;
        count++;
    }
    return count;
}

/* All passes done with at most so many more tools? */
static int search(sequence *of, const passes *done, size_t at, size_t more)
{
    uint8_t list[BITE_PASSES_MOST]; /* a search goes as deep as there are tools: small */
    if (at == of->count) {
        return 1;
    }
    if (more == 0 || of->looks-- <= 0 || tools_left(of, done) > more) {
        return 0;
    }
    size_t count = list_tools(of, done, list);
    for (size_t i = 0; i < count; i++) {
        passes next = *done;
        size_t then = work_with(of, list[i], &next, at);
        if (then > at && search(of, &next, then, more - 1)) {
            return 1;
        }
    }
    return 0;
}

/* The tool that does most at each step. */
static int greedy(sequence *of)
{
    uint8_t list[BITE_PASSES_MOST];
    passes done = {{0}};
    size_t at = 0;
    while (at < of->count) {
        size_t count = list_tools(of, &done, list);
        size_t most = at;
        uint32_t best = 0;
        for (size_t i = 0; i < count; i++) {
            passes tried = done;
            size_t then = work_with(of, list[i], &tried, at);
            best = then > most ? list[i] : best;
            most = then > most ? then : most;
        }
        if (most == at) {
            return 0; /* nothing is free: a circle */
        }
        at = work_with(of, best, &done, at);
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

static void set_up(sequence *of, const unsigned char *before)
{
    for (size_t i = 0; i < of->count; i++) {
        size_t tool = 0;
        for (size_t k = 0; k < of->count; k++) {
            if (before[k * of->count + i]) {
                put(&of->waits[i], k);
            }
        }
        while (tool < of->tool_count && of->tools[of->firsts[tool]] != of->tools[i]) {
            tool++;
        }
        if (tool == of->tool_count) {
            of->firsts[of->tool_count++] = (uint32_t)i;
        }
        put(&of->made[tool], i);
    }
}

int bite_schedule(size_t count, const unsigned char *before, const uint32_t *tools, uint32_t *order, uint32_t *changes)
{
    sequence of;
    *changes = 0;
    if (count > BITE_PASSES_MOST) {
        return 0;
    }
    memset(&of, 0, sizeof of);
    of.count = count;
    of.words = (count + 63) / 64;
    of.tools = tools;
    of.order = order;
    of.looks = LOOKS_MOST;
    set_up(&of, before);
    int found = greedy(&of);
    if (found && count > 0) {
        const passes none = {{0}};
        uint32_t greedy_changes = changes_of(&of);
        int exact = 0;
        for (size_t steps = of.tool_count; steps < (size_t)greedy_changes + 1 && !exact && of.looks > 0; steps++) {
            exact = search(&of, &none, 0, steps);
        }
        if (!exact) {
            (void)greedy(&of);
        }
        *changes = changes_of(&of);
    }
    return found;
}
