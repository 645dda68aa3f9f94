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

#define STEPS_MOST 200000
#define WORDS (BITE_PASSES_MAX / 64)

/* A set of passes. */
typedef struct passes {
    uint64_t bits[WORDS];
} passes;

typedef struct pass_sequence {
    size_t count;
    size_t words; /* of each set that are in use */
    const uint32_t *tools;
    passes required[BITE_PASSES_MAX]; /* for each pass, those that come before it */
    passes by_tool[BITE_PASSES_MAX];  /* for each tool, the passes that use it */
    uint32_t firsts[BITE_PASSES_MAX];
    size_t tool_count; /* tools are identified by the first pass of each */
    uint32_t *order;
    long steps_left;
    uint16_t places[BITE_PASSES_MAX];                /* of list_tools */
    uint8_t lists[BITE_PASSES_MAX][BITE_PASSES_MAX]; /* of search, by the tools that may follow:
                                                        it calls itself as often as there are tools,
                                                        so its frame is small */
} pass_sequence;

static int has(const passes *set, size_t pass)
{
    return (int)(set->bits[pass / 64] >> (pass % 64) & 1u);
}

static void put(passes *set, size_t pass)
{
    set->bits[pass / 64] |= (uint64_t)1 << (pass % 64);
}

/* Whether a is a subset of b. */
static int within(const pass_sequence *sequence, const passes *a, const passes *b)
{
    uint64_t left = 0;
    for (size_t i = 0; i < sequence->words; i++) {
        left |= a->bits[i] & ~b->bits[i];
    }
    return left == 0;
}

static int is_free(const pass_sequence *sequence, const passes *done, size_t pass)
{
    return within(sequence, &sequence->required[pass], done);
}

/* Makes all passes that a tool can make at this point; returns how many passes are made by then. */
static size_t use_tool(const pass_sequence *sequence, uint32_t tool, passes *done, size_t at)
{
    int again = 1;
    while (again) {
        again = 0;
        for (size_t i = sequence->firsts[tool]; i < sequence->count; i++) {
            if (has(&sequence->by_tool[tool], i) && !has(done, i) && is_free(sequence, done, i)) {
                put(done, i);
                sequence->order[at++] = (uint32_t)i;
                again = 1;
            }
        }
    }
    return at;
}

static size_t tools_left(const pass_sequence *sequence, const passes *done)
{
    size_t left = 0;
    for (size_t i = 0; i < sequence->tool_count; i++) {
        left += !within(sequence, &sequence->by_tool[i], done);
    }
    return left;
}

/* The first pass of the tool that is not made, so that tools come in the order of their passes;
 * sequence->count: none. */
static size_t next_of(const pass_sequence *sequence, const passes *done, size_t tool)
{
    size_t i = sequence->firsts[tool];
    while (i < sequence->count && (!has(&sequence->by_tool[tool], i) || has(done, i))) {
        i++;
    }
    return i;
}

/* The tools that still have passes, ordered by the first pass of each that is not made. */
static size_t list_tools(pass_sequence *sequence, const passes *done, uint8_t *list)
{
    uint16_t *places = sequence->places;
    size_t count = 0;
    for (size_t i = 0; i < sequence->tool_count; i++) {
        size_t index = next_of(sequence, done, i);
        size_t at = count;
        if (index == sequence->count) {
            continue;
        }
        for (; at > 0 && places[at - 1] > index; at--) {
            places[at] = places[at - 1];
            list[at] = list[at - 1];
        }
        places[at] = (uint16_t)index;
        list[at] = (uint8_t)i;
        count++;
    }
    return count;
}

/* Whether all passes can be made with at most this many more tools, BITE_PASSES_MAX or fewer. */
static int search(pass_sequence *sequence, const passes *done, size_t at, size_t more)
{
    if (at == sequence->count) {
        return 1;
    }
    if (more == 0 || sequence->steps_left-- <= 0 || tools_left(sequence, done) > more) {
        return 0;
    }
    uint8_t *list = sequence->lists[more - 1];
    size_t count = list_tools(sequence, done, list);
    for (size_t i = 0; i < count; i++) {
        passes next = *done;
        size_t then = use_tool(sequence, list[i], &next, at);
        if (then > at && search(sequence, &next, then, more - 1)) {
            return 1;
        }
    }
    return 0;
}

/* Uses the tool that makes the most passes at each step. */
static int greedy(pass_sequence *sequence)
{
    uint8_t list[BITE_PASSES_MAX];
    passes done = {{0}};
    size_t at = 0;
    while (at < sequence->count) {
        size_t count = list_tools(sequence, &done, list);
        size_t most = at;
        uint32_t best = 0;
        for (size_t i = 0; i < count; i++) {
            passes tried = done;
            size_t then = use_tool(sequence, list[i], &tried, at);
            best = then > most ? list[i] : best;
            most = then > most ? then : most;
        }
        if (most == at) {
            return 0; /* no pass can be made: a cycle */
        }
        at = use_tool(sequence, best, &done, at);
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

static void set_up(pass_sequence *sequence, const unsigned char *before)
{
    for (size_t i = 0; i < sequence->count; i++) {
        size_t tool = 0;
        for (size_t k = 0; k < sequence->count; k++) {
            if (before[k * sequence->count + i]) {
                put(&sequence->required[i], k);
            }
        }
        while (tool < sequence->tool_count &&
               sequence->tools[sequence->firsts[tool]] != sequence->tools[i]) {
            tool++;
        }
        if (tool == sequence->tool_count) {
            sequence->firsts[sequence->tool_count++] = (uint32_t)i;
        }
        put(&sequence->by_tool[tool], i);
    }
}

/* The order with the fewest changes. 0: the passes wait for each other. */
static int find(pass_sequence *sequence, uint32_t *changes)
{
    if (!greedy(sequence)) {
        return 0;
    }
    if (sequence->count > 0) {
        const passes none = {{0}};
        uint32_t greedy_changes = changes_of(sequence);
        int exact = 0;
        for (size_t steps = sequence->tool_count;
             steps < (size_t)greedy_changes + 1 && !exact && sequence->steps_left > 0; steps++) {
            exact = search(sequence, &none, 0, steps);
        }
        if (!exact) {
            (void)greedy(sequence);
        }
        *changes = changes_of(sequence);
    }
    return 1;
}

bite_status bite_pass_order_find(const bite_allocator *allocator, size_t count,
                                 const unsigned char *before, const uint32_t *tools,
                                 uint32_t *order, uint32_t *changes)
{
    *changes = 0;
    if (count > BITE_PASSES_MAX) {
        return BITE_NO_ANSWER;
    }
    pass_sequence *sequence = bite_memory_new(allocator, 1, sizeof *sequence);
    if (sequence == NULL) {
        return BITE_NO_MEMORY;
    }
    sequence->count = count;
    sequence->words = (count + 63) / 64;
    sequence->tools = tools;
    sequence->order = order;
    sequence->steps_left = STEPS_MOST;
    set_up(sequence, before);
    int found = find(sequence, changes);
    bite_memory_free(allocator, sequence);
    return found ? BITE_OK : BITE_NO_ANSWER;
}
