/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of passes: as few tool changes as any order has, and none before its predecessors. */
#include "core/base/memory.h"
#include "core/job/pass_order.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <stdlib.h>
#include <string.h>

#define SMALL 7

/* Tries every order that respects `before`; *least: the fewest changes. */
typedef struct trying {
    size_t count;
    const unsigned char *before;
    const uint32_t *tools;
    int done[SMALL];
    uint32_t least;
    int found;
} trying;

static void try_on(trying *of, size_t placed, uint32_t changes, size_t last)
{
    if (placed == of->count) {
        of->least = !of->found || changes < of->least ? changes : of->least;
        of->found = 1;
        return;
    }
    for (size_t k = 0; k < of->count; k++) {
        int waits = of->done[k];
        for (size_t i = 0; i < of->count; i++) {
            waits |= of->before[i * of->count + k] && !of->done[i];
        }
        if (!waits) {
            of->done[k] = 1;
            try_on(of, placed + 1, changes + (placed > 0 && of->tools[k] != of->tools[last]), k);
            of->done[k] = 0;
        }
    }
}

static void check_order(size_t count, const unsigned char *before, const uint32_t *tools,
                        const uint32_t *order, uint32_t changes)
{
    unsigned char seen[BITE_PASSES_MAX] = {0};
    uint32_t counted = 0;
    for (size_t at = 0; at < count; at++) {
        size_t pass = order[at];
        ck_assert(pass < count && !seen[pass]);
        int ready = 1; /* Check notes every assertion in a file: one for all, not a million */
        for (size_t i = 0; i < count; i++) {
            ready &= !before[i * count + pass] || seen[i];
        }
        ck_assert(ready);
        seen[pass] = 1;
        counted += at > 0 && tools[pass] != tools[order[at - 1]];
    }
    ck_assert_uint_eq(counted, changes);
}

static void shuffle(uint64_t *seed, uint32_t *list, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        list[i] = (uint32_t)i;
    }
    for (size_t i = count; i > 1; i--) {
        size_t k = (size_t)bite_test_between(seed, 0.0, (double)i);
        uint32_t kept = list[i - 1];
        list[i - 1] = list[k];
        list[k] = kept;
    }
}

/* Precedences of this density, taken from a hidden permutation, so that an order exists. */
static void random_order(uint64_t *seed, size_t count, double density, unsigned char *before)
{
    uint32_t hidden[BITE_PASSES_MAX];
    shuffle(seed, hidden, count);
    memset(before, 0, count * count);
    for (size_t i = 0; i < count; i++) {
        for (size_t k = i + 1; k < count; k++) {
            before[hidden[i] * count + hidden[k]] = bite_test_between(seed, 0.0, 1.0) < density;
        }
    }
}

START_TEST(as_few_changes_as_any_order)
{
    uint64_t seed = 51;
    size_t beyond_tools = 0;
    for (int i = 0; i < 4000; i++) {
        unsigned char before[SMALL * SMALL];
        uint32_t tools[SMALL];
        uint32_t order[SMALL];
        uint32_t changes = 99;
        uint32_t kinds = 0;
        trying all = {0};
        size_t count = 1 + (size_t)bite_test_between(&seed, 0.0, SMALL);
        random_order(&seed, count, bite_test_between(&seed, 0.0, 0.7), before);
        for (size_t k = 0; k < count; k++) {
            tools[k] = 5u + (uint32_t)bite_test_between(&seed, 0.0, 1.0 + i % 4);
            kinds |= 1u << tools[k];
        }
        all.count = count;
        all.before = before;
        all.tools = tools;
        try_on(&all, 0, 0, 0);
        ck_assert(all.found);
        ck_assert_int_eq(
            bite_pass_order_find(bite_memory_default(), count, before, tools, order, &changes),
            BITE_OK);
        check_order(count, before, tools, order, changes);
        ck_assert_uint_eq(changes, all.least);
        beyond_tools += changes + 1u > (uint32_t)__builtin_popcount(kinds);
    }
    ck_assert_uint_gt(beyond_tools,
                      400); /* the difficult ones, in which a tool is used twice, were included */
}
END_TEST

/* The greedy order is not the best: tool 1 could do three passes first, but four after one of tool
 * 2. */
START_TEST(greedy_order_is_not_best)
{
    enum { N = 5 };
    unsigned char before[N * N] = {0};
    const uint32_t tools[N] = {1, 1, 2, 1, 2};
    uint32_t order[N];
    uint32_t changes = 99;
    before[2 * N + 3] = 1; /* pass 3 of tool 1 waits for pass 2 of tool 2 */
    before[3 * N + 4] = 1; /* pass 4 of tool 2 waits for it */
    ck_assert_int_eq(bite_pass_order_find(bite_memory_default(), N, before, tools, order, &changes),
                     BITE_OK);
    check_order(N, before, tools, order, changes);
    ck_assert_uint_eq(changes, 2); /* 2, then 1, then 2 again; starting with 1 it would be 3 */
}
END_TEST

START_TEST(cycles_are_refused)
{
    uint64_t seed = 52;
    for (int i = 0; i < 500; i++) {
        unsigned char before[SMALL * SMALL];
        uint32_t tools[SMALL];
        uint32_t order[SMALL];
        uint32_t changes = 99;
        uint32_t round[SMALL];
        size_t length = 2 + (size_t)bite_test_between(&seed, 0.0, SMALL - 2.0);
        random_order(&seed, SMALL, 0.2, before);
        shuffle(&seed, round, SMALL);
        for (size_t k = 0; k < length; k++) {
            before[round[k] * SMALL + round[(k + 1) % length]] = 1;
        }
        for (size_t k = 0; k < SMALL; k++) {
            tools[k] = (uint32_t)bite_test_between(&seed, 0.0, 3.0);
        }
        ck_assert_int_eq(
            bite_pass_order_find(bite_memory_default(), SMALL, before, tools, order, &changes),
            BITE_NO_ANSWER);
    }
}
END_TEST

/* The most passes that a job may have, with one tool and with many; none; more than allowed. */
START_TEST(least_and_most_passes_are_ordered)
{
    uint64_t seed = 53;
    static unsigned char before[(BITE_PASSES_MAX + 1) * (BITE_PASSES_MAX + 1)];
    static uint32_t tools[BITE_PASSES_MAX + 1];
    static uint32_t order[BITE_PASSES_MAX + 1];
    const size_t counts[] = {1, 63, 64, 65, 200, BITE_PASSES_MAX};
    uint32_t changes = 99;
    for (size_t i = 0; i < sizeof counts / sizeof *counts; i++) {
        for (uint32_t kinds = 1; kinds <= 256; kinds *= 4) {
            size_t count = counts[i];
            random_order(&seed, count, 0.02, before);
            for (size_t k = 0; k < count; k++) {
                tools[k] = (uint32_t)k % kinds;
            }
            ck_assert_int_eq(
                bite_pass_order_find(bite_memory_default(), count, before, tools, order, &changes),
                BITE_OK);
            check_order(count, before, tools, order, changes);
            ck_assert(kinds > 1 || changes == 0);
        }
    }
    ck_assert_int_eq(bite_pass_order_find(bite_memory_default(), 0, before, tools, order, &changes),
                     BITE_OK);
    ck_assert_uint_eq(changes, 0);
    ck_assert_int_eq(bite_pass_order_find(bite_memory_default(), BITE_PASSES_MAX + 1, before, tools,
                                          order, &changes),
                     BITE_NO_ANSWER);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("schedule");
    TCase *tests = tcase_create("schedule");
    tcase_add_test(tests, as_few_changes_as_any_order);
    tcase_add_test(tests, greedy_order_is_not_best);
    tcase_add_test(tests, cycles_are_refused);
    tcase_add_test(tests, least_and_most_passes_are_ordered);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
