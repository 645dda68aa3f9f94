/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The order of passes with the fewest tool changes.
 *
 * A tool in the spindle makes all passes that it can make at that point: they cost no tool change
 * and only enable more passes, so an order that makes them later is never better. An order is
 * therefore a sequence of tools. It is searched depth first: with as many tools as are still
 * needed, then with one more, until all passes are made; a branch ends if fewer tools may follow
 * than still have passes. If a job has too many sequences, the tool that makes the most passes is
 * used at each step.
 */
#include "core/job/pass_order.h"
#include "core/base/memory.h"
#include <string.h>

/* Tool uses that are tried, for up to so many passes; of more passes fewer, so that a job with many
 * sequences is not held up. */
#define STEPS_MOST 200000
#define STEPS_FOR 256

/* A set of passes has a bit for each. */
typedef uint64_t passes;

/* A number of tools used so far. */
typedef struct level {
    size_t at;     /* passes that are made */
    uint32_t next; /* of its list */
    uint32_t listed;
} level;

typedef struct pass_sequence {
    size_t count;
    size_t words; /* of each set */
    const uint32_t *tools;
    passes *required;  /* for each pass, those that come before it */
    size_t tool_count; /* tools are identified by the first pass of each */
    uint32_t *firsts;  /* of each tool: where its passes begin in by_tool; and of the end */
    uint32_t *by_tool; /* passes, those of one tool after those of another */
    uint32_t *order;
    long steps_left;
    passes *done;     /* for each level, those that are made */
    level *levels;    /* one more than tools may be used */
    uint32_t *lists;  /* for each level, the tools that may follow */
    uint32_t *places; /* of list_tools */
} pass_sequence;

static int has(const passes *set, size_t pass)
{
    return (int)(set[pass / 64] >> (pass % 64) & 1u);
}

static void put(passes *set, size_t pass)
{
    set[pass / 64] |= (uint64_t)1 << (pass % 64);
}

/* Nonzero: all that a pass requires is made. */
static int is_free(const pass_sequence *sequence, const passes *done, size_t pass)
{
    const passes *required = sequence->required + pass * sequence->words;
    uint64_t left = 0;
    for (size_t i = 0; i < sequence->words; i++) {
        left |= required[i] & ~done[i];
    }
    return left == 0;
}

/* Makes all passes that a tool can make at this point; returns how many passes are made by then. */
static size_t use_tool(const pass_sequence *sequence, uint32_t tool, passes *done, size_t at)
{
    int again = 1;
    while (again) {
        again = 0;
        for (uint32_t k = sequence->firsts[tool]; k < sequence->firsts[tool + 1]; k++) {
            uint32_t pass = sequence->by_tool[k];
            if (!has(done, pass) && is_free(sequence, done, pass)) {
                put(done, pass);
                sequence->order[at++] = pass;
                again = 1;
            }
        }
    }
    return at;
}

/* The first pass of the tool that is not made, so that tools come in the order of their passes;
 * sequence->count: none. */
static size_t next_of(const pass_sequence *sequence, const passes *done, size_t tool)
{
    uint32_t k = sequence->firsts[tool];
    while (k < sequence->firsts[tool + 1] && has(done, sequence->by_tool[k])) {
        k++;
    }
    return k < sequence->firsts[tool + 1] ? sequence->by_tool[k] : sequence->count;
}

/* The tools that still have passes, ordered by the first pass of each that is not made. */
static uint32_t list_tools(const pass_sequence *sequence, const passes *done, uint32_t *list)
{
    uint32_t *places = sequence->places;
    uint32_t count = 0;
    for (uint32_t i = 0; i < sequence->tool_count; i++) {
        size_t index = next_of(sequence, done, i);
        uint32_t at = count;
        if (index == sequence->count) {
            continue;
        }
        for (; at > 0 && places[at - 1] > index; at--) {
            places[at] = places[at - 1];
            list[at] = list[at - 1];
        }
        places[at] = (uint32_t)index;
        list[at] = i;
        count++;
    }
    return count;
}

static passes *done_at(const pass_sequence *sequence, size_t depth)
{
    return sequence->done + depth * sequence->words;
}

/* Lists the tools that may be used next, none if they are more than may follow. */
static void enter(pass_sequence *sequence, size_t depth, size_t more)
{
    level *here = &sequence->levels[depth];
    here->next = here->listed = 0;
    if (more > 0 && sequence->steps_left-- > 0) {
        uint32_t count = list_tools(sequence, done_at(sequence, depth),
                                    sequence->lists + depth * sequence->tool_count);
        here->listed = count > more ? 0 : count;
    }
}

/* Whether all passes can be made with at most this many tools. */
static int search(pass_sequence *sequence, size_t most)
{
    size_t depth = 0;
    memset(sequence->done, 0, sequence->words * sizeof *sequence->done);
    sequence->levels[0].at = 0;
    enter(sequence, 0, most);
    for (;;) {
        level *here = &sequence->levels[depth];
        if (here->at == sequence->count) {
            return 1;
        }
        if (here->next == here->listed) {
            if (depth == 0) {
                return 0;
            }
            depth--;
            continue;
        }
        uint32_t tool = sequence->lists[depth * sequence->tool_count + here->next++];
        passes *next = done_at(sequence, depth + 1);
        memcpy(next, done_at(sequence, depth), sequence->words * sizeof *next);
        size_t then = use_tool(sequence, tool, next, here->at);
        if (then > here->at) {
            depth++;
            sequence->levels[depth].at = then;
            enter(sequence, depth, then == sequence->count ? 0 : most - depth);
        }
    }
}

/* Uses the tool that makes the most passes at each step. done: three sets. */
static int greedy(pass_sequence *sequence, passes *sets, uint32_t *list)
{
    const size_t size = sequence->words * sizeof *sets;
    passes *done = sets;
    passes *tried = sets + sequence->words;
    size_t at = 0;
    memset(done, 0, size);
    while (at < sequence->count) {
        uint32_t count = list_tools(sequence, done, list);
        size_t most = at;
        uint32_t best = 0;
        for (uint32_t i = 0; i < count; i++) {
            memcpy(tried, done, size);
            size_t then = use_tool(sequence, list[i], tried, at);
            best = then > most ? list[i] : best;
            most = then > most ? then : most;
        }
        if (most == at) {
            return 0; /* no pass can be made: a cycle */
        }
        at = use_tool(sequence, best, done, at);
    }
    return 1;
}

static uint32_t changes_of(const pass_sequence *sequence)
{
    uint32_t changes = 0;
    for (size_t i = 1; i < sequence->count; i++) {
        changes += sequence->tools[sequence->order[i]] != sequence->tools[sequence->order[i - 1]];
    }
    return changes;
}

/* Sorts the passes by their tools, which are numbered in the order of their first passes. of_pass:
 * working memory, the number of the tool of each pass. */
static void sort_by_tool(pass_sequence *sequence, uint32_t *of_pass)
{
    uint32_t *first_pass = sequence->places; /* of each tool */
    for (size_t i = 0; i < sequence->count; i++) {
        uint32_t tool = 0;
        while (tool < sequence->tool_count &&
               sequence->tools[first_pass[tool]] != sequence->tools[i]) {
            tool++;
        }
        if (tool == sequence->tool_count) {
            first_pass[sequence->tool_count++] = (uint32_t)i;
        }
        of_pass[i] = tool;
    }
    uint32_t used = 0;
    for (uint32_t tool = 0; tool < sequence->tool_count; tool++) {
        sequence->firsts[tool] = used;
        for (uint32_t i = first_pass[tool]; i < sequence->count; i++) {
            if (of_pass[i] == tool) {
                sequence->by_tool[used++] = i;
            }
        }
    }
    sequence->firsts[sequence->tool_count] = used;
}

static void require(pass_sequence *sequence, const unsigned char *before)
{
    for (size_t k = 0; k < sequence->count; k++) {
        for (size_t i = 0; i < sequence->count; i++) {
            if (before[k * sequence->count + i]) {
                put(sequence->required + i * sequence->words, k);
            }
        }
    }
}

/* Searches with as many tools as there are, then with one more, up to those of the greedy order.
 * BITE_NO_MEMORY. */
static bite_status improve(pass_sequence *sequence, bite_arena *arena, uint32_t greedy_changes,
                           int *exact)
{
    size_t levels = (size_t)greedy_changes + 2;
    sequence->done = bite_arena_alloc(arena, levels * sequence->words, sizeof *sequence->done);
    sequence->levels = bite_arena_alloc(arena, levels, sizeof *sequence->levels);
    sequence->lists = bite_arena_alloc(arena, levels * sequence->tool_count, sizeof(uint32_t));
    if (sequence->done == NULL || sequence->levels == NULL || sequence->lists == NULL) {
        return BITE_NO_MEMORY;
    }
    for (size_t steps = sequence->tool_count;
         steps < levels - 1 && !*exact && sequence->steps_left > 0; steps++) {
        *exact = search(sequence, steps);
    }
    return BITE_OK;
}

/* The order with the fewest changes. BITE_NO_ANSWER: the passes wait for each other. */
static bite_status find(pass_sequence *sequence, bite_arena *arena, const unsigned char *before,
                        uint32_t *changes)
{
    size_t count = sequence->count;
    uint32_t *list = bite_arena_alloc(arena, count, sizeof *list);
    passes *sets = bite_arena_alloc(arena, 2 * sequence->words, sizeof *sets);
    sequence->required = bite_arena_alloc(arena, count * sequence->words, sizeof(passes));
    sequence->by_tool = bite_arena_alloc(arena, count, sizeof *sequence->by_tool);
    sequence->firsts = bite_arena_alloc(arena, count + 1, sizeof *sequence->firsts);
    sequence->places = bite_arena_alloc(arena, count, sizeof *sequence->places);
    if (list == NULL || sets == NULL || sequence->required == NULL || sequence->by_tool == NULL ||
        sequence->firsts == NULL || sequence->places == NULL) {
        return BITE_NO_MEMORY;
    }
    require(sequence, before);
    sort_by_tool(sequence, list);
    if (!greedy(sequence, sets, list)) {
        return BITE_NO_ANSWER;
    }
    int exact = 0;
    bite_status status = improve(sequence, arena, changes_of(sequence), &exact);
    if (status == BITE_OK && !exact) {
        (void)greedy(sequence, sets, list);
    }
    *changes = changes_of(sequence);
    return status;
}

bite_status bite_pass_order_find(const bite_allocator *allocator, size_t count,
                                 const unsigned char *before, const uint32_t *tools,
                                 uint32_t *order, uint32_t *changes)
{
    *changes = 0;
    if (count > BITE_PASSES_MAX) {
        return BITE_NO_ANSWER;
    }
    if (count == 0) {
        return BITE_OK;
    }
    bite_arena *arena = bite_arena_new(allocator);
    if (arena == NULL) {
        return BITE_NO_MEMORY;
    }
    size_t sized = count > STEPS_FOR ? count : STEPS_FOR;
    pass_sequence sequence = {.count = count,
                              .words = (count + 63) / 64,
                              .tools = tools,
                              .order = order,
                              .steps_left = STEPS_MOST * STEPS_FOR / (long)sized};
    bite_status status = find(&sequence, arena, before, changes);
    bite_arena_free(arena);
    return status;
}
