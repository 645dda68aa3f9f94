/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which changes count as help against a symptom, and in which order they are named: worked by hand
 * from utilizations and chances that are stated. */
#include "core/names/registry.h"
#include "core/request/answer.h"
#include "core/search/remedy_ranking.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <string.h>

enum { DRAWS = 400 };

static bite_answer answer;
static bite_diagnosis diagnosis;

/* A limit at 120 % and one at 60 %, one of which is exceeded in 60 % of the draws; a clear verdict
 * allows 10 %. */
static void set_up(void)
{
    memset(&answer, 0, sizeof answer);
    memset(&diagnosis, 0, sizeof diagnosis);
    answer.confidence = 0.9;
    diagnosis.answer = &answer;
    diagnosis.trouble = 0.6;
    diagnosis.suspect_count = 2;
    diagnosis.suspects[0] = (bite_suspect){"tool_break", BITE_LIMIT_TOOL_BREAK, 1, 0, 0, 1.2};
    diagnosis.suspects[1] = (bite_suspect){"deflection", BITE_LIMIT_DEFLECTION, 1, 0, 0, 0.6};
}

static uint32_t input_of(const char *name)
{
    return (uint32_t)bite_input_index(bite_input_find(name));
}

/* A change of an input that leaves this of the sum and of each suspect, and this chance. */
static bite_remedy remedy_of(const char *name, double left, double first, double second,
                             double trouble)
{
    bite_remedy remedy;
    memset(&remedy, 0, sizeof remedy);
    remedy.change.input = name == NULL ? BITE_NO_INPUT : input_of(name);
    remedy.left = left;
    remedy.after[0] = first;
    remedy.after[1] = second;
    remedy.trouble = trouble;
    remedy.merit = bite_remedy_merit(&remedy);
    return remedy;
}

/* The sum falls by 3 %, or a suspect of at least 50 % by a fifth while the sum does not grow. */
START_TEST(help_by_utilizations)
{
    static const struct {
        double left;
        double second; /* of the second suspect, from 60 % */
        int helps;
    } cases[] = {{0.96, 0.60, 1}, {0.98, 0.60, 0}, {0.99, 0.47, 1}, {0.99, 0.49, 0},
                 {1.00, 0.47, 1}, {1.01, 0.47, 0}, {1.30, 0.10, 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_remedy remedy = remedy_of("depth", cases[i].left, 1.2, cases[i].second, 0.6);
        ck_assert_msg(bite_remedy_helps(&diagnosis, &remedy, DRAWS) == cases[i].helps, "%zu", i);
    }
    diagnosis.suspects[1].share = 0.4; /* does not explain the symptom, so nothing is gained */
    bite_remedy remedy = remedy_of("depth", 0.99, 1.2, 0.1, 0.6);
    ck_assert_int_eq(bite_remedy_helps(&diagnosis, &remedy, DRAWS), 0);
}
END_TEST

/* A chance of 60 % that falls by a tenth and by more than two standard deviations of the
 * difference: of 400 draws, in which one is exceeded and the other is not, 2 sqrt(0.1 / 400) = 3.2
 * %; of draws that are others, as for an input that scatters, 2 sqrt(0.6 x 0.4 / 400) = 4.9 %, of
 * 25 draws 20 %. The sum may grow by 2 %. */
START_TEST(help_by_the_chance)
{
    static const struct {
        const char *input; /* NULL: another workholding */
        double left;
        double trouble;
        uint32_t draws;
        int helps;
    } cases[] = {
        {"depth", 1.00, 0.50, 400, 1},    {"depth", 1.00, 0.55, 400, 0},
        {"depth", 1.02, 0.50, 400, 1},    {"depth", 1.03, 0.50, 400, 0},
        {"depth", 1.00, 0.50, 0, 0},      {"depth", 1.00, 0.50, 25, 0},
        {"depth", 1.00, 0.46, 25, 0},     {"depth", 1.00, 0.42, 25, 1},
        {"depth", 1.00, 0.40, 100, 1},    {"stickout", 1.00, 0.50, 400, 1},
        {"stickout", 1.00, 0.53, 400, 1}, {"stickout", 1.00, 0.42, 25, 0},
        {"coolant", 1.00, 0.50, 400, 1},  {"coolant", 1.00, 0.42, 25, 0},
        {NULL, 1.00, 0.50, 400, 1},       {NULL, 1.00, 0.42, 25, 0},
        {NULL, 1.00, 0.55, 400, 0},
    };
    answer.spread_count = 1;
    answer.spreads[0].input = input_of("stickout");
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_remedy remedy = remedy_of(cases[i].input, cases[i].left, 1.2, 0.6, cases[i].trouble);
        ck_assert_msg(bite_remedy_helps(&diagnosis, &remedy, cases[i].draws) == cases[i].helps,
                      "case %zu", i);
    }
    /* a smaller change of the chance in many draws: 2 sqrt(0.07 / 4000) = 0.8 % */
    bite_remedy small = remedy_of("depth", 1.0, 1.2, 0.6, 0.53);
    ck_assert_int_eq(bite_remedy_helps(&diagnosis, &small, 4000), 1);
    diagnosis.trouble = 0.10; /* to 7 %: 2 sqrt(0.03 / 4000) = 0.5 %, 2 sqrt(0.03 / 100) = 3.5 % */
    small.trouble = 0.07;
    ck_assert_int_eq(bite_remedy_helps(&diagnosis, &small, 4000), 1);
    ck_assert_int_eq(bite_remedy_helps(&diagnosis, &small, 100), 0);
}
END_TEST

/* The first suspect that has a number must not grow by more than a tenth. */
START_TEST(first_suspect_is_not_made_worse)
{
    bite_remedy remedy = remedy_of("feed_rate", 0.8, 1.31, 0.3, 0.5);
    ck_assert_int_eq(bite_remedy_worsens_first(&diagnosis, &remedy), 0);
    remedy.after[0] = 1.33;
    ck_assert_int_eq(bite_remedy_worsens_first(&diagnosis, &remedy), 1);
    diagnosis.suspects[0].share = (double)NAN; /* does not apply: then the second is the first */
    ck_assert_int_eq(bite_remedy_worsens_first(&diagnosis, &remedy), 0);
    remedy.after[1] = 0.7;
    ck_assert_int_eq(bite_remedy_worsens_first(&diagnosis, &remedy), 1);
    diagnosis.suspects[1].share = (double)NAN;
    ck_assert_int_eq(bite_remedy_worsens_first(&diagnosis, &remedy), 0);
}
END_TEST

/* Of a value that is lacking, a third less of it is half as much more weight. */
START_TEST(what_is_lacking_weighs_more)
{
    diagnosis.suspects[0] = (bite_suspect){"chip_load", BITE_CHIP_LOAD, 0, 1, 0, 1.0};
    bite_remedy remedy = remedy_of("feed_rate", 0.8, 2.0 / 3.0, 0.3, 0.5);
    bite_assert_near(bite_suspect_weight(&diagnosis.suspects[0], 2.0 / 3.0), 0.75, 1e-12);
    ck_assert_int_eq(bite_remedy_worsens_first(&diagnosis, &remedy), 1);
    remedy.after[0] = 1.5;
    ck_assert_int_eq(bite_remedy_worsens_first(&diagnosis, &remedy), 0);
}
END_TEST

/* Up to 5 %, half of what is allowed, nothing counts; then what is more than the scatter of the
 * larger one, of 400 draws 2 sqrt(0.1 x 0.9 / 400) = 3 % at 10 %. */
START_TEST(chance_is_raised)
{
    static const struct {
        double before;
        double after;
        int raised;
    } cases[] = {{0.00, 0.049, 0}, {0.0, 0.051, 1}, {0.08, 0.10, 0}, {0.06, 0.10, 1},
                 {0.10, 0.10, 0},  {0.5, 0.10, 0},  {0.50, 0.54, 0}, {0.50, 0.56, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_msg(bite_remedy_raises_chance(&diagnosis, cases[i].before, cases[i].after,
                                                DRAWS) == cases[i].raised,
                      "%g to %g", cases[i].before, cases[i].after);
    }
}
END_TEST

START_TEST(merit_is_the_chance_and_a_little_of_the_sum)
{
    bite_remedy remedy = remedy_of("depth", 0.5, 1.0, 0.6, 0.2);
    bite_assert_near(remedy.merit, 0.21, 1e-12);
    remedy = remedy_of("depth", 7.0, 1.0, 0.6, 0.2); /* counts as double at most */
    bite_assert_near(remedy.merit, 0.24, 1e-12);
    remedy = remedy_of("depth", 7.0, 1.0, 0.6, (double)NAN);
    bite_assert_near(remedy.merit, 7.0, 1e-12);
}
END_TEST

static void insert(const char *input, uint32_t word, double trouble, double merit)
{
    bite_remedy remedy = remedy_of(input, 1.0, 1.0, 0.5, trouble);
    remedy.change.word = word;
    remedy.merit = merit;
    bite_remedy_insert(&diagnosis, &remedy);
}

static void check_list(const double *merits, uint32_t count)
{
    ck_assert_uint_eq(diagnosis.remedy_count, count);
    for (uint32_t i = 0; i < count; i++) {
        ck_assert_double_eq(diagnosis.remedies[i].merit, merits[i]);
    }
}

/* A larger change of the same input replaces the smaller one if it leaves less than 95 % of its
 * merit; if the trouble stays likely after the smaller one, if it leaves less at all. */
START_TEST(larger_change_has_to_be_worth_it)
{
    insert("depth", 0, 0.3, 0.30);
    insert("depth", 0, 0.29, 0.29);
    check_list((double[]){0.30}, 1);
    insert("depth", 0, 0.28, 0.28);
    check_list((double[]){0.28}, 1);
    insert("feed_rate", 0, 0.52, 0.52);
    insert("feed_rate", 0, 0.51, 0.52); /* not less */
    check_list((double[]){0.28, 0.52}, 2);
    ck_assert_double_eq(diagnosis.remedies[1].trouble, 0.52);
    insert("feed_rate", 0, 0.51, 0.51);
    check_list((double[]){0.28, 0.51}, 2);
    insert("feed_rate", 0, 0.2, 0.2); /* and moves up */
    check_list((double[]){0.2, 0.28}, 2);
    ck_assert_uint_eq(diagnosis.remedies[0].change.input, input_of("feed_rate"));
}
END_TEST

/* At most six, the best; of equal ones the earlier comes first. */
START_TEST(best_are_kept_in_order)
{
    static const char *const inputs[] = {"depth", "feed_rate",    "spindle_speed", "stickout",
                                         "width", "flute_length", "edge_radius",   "diameter"};
    static const double merits[] = {0.5, 0.2, 0.7, 0.2, 0.1, 0.6, 0.8, 0.3};
    for (int i = 0; i < 8; i++) {
        insert(inputs[i], 0, merits[i], merits[i]);
    }
    check_list((double[]){0.1, 0.2, 0.2, 0.3, 0.5, 0.6}, BITE_REMEDIES_MAX);
    ck_assert_uint_eq(diagnosis.remedies[1].change.input, input_of("feed_rate"));
    ck_assert_uint_eq(diagnosis.remedies[2].change.input, input_of("stickout"));
}
END_TEST

/* Air is listed beside one liquid; of two workholdings the better. */
START_TEST(air_beside_a_liquid)
{
    insert("coolant", BITE_COOLANT_AIR, 0.4, 0.4);
    insert("coolant", BITE_COOLANT_MIST, 0.3, 0.3);
    insert("coolant", BITE_COOLANT_FLOOD, 0.2, 0.2);
    check_list((double[]){0.2, 0.4}, 2);
    ck_assert_uint_eq(diagnosis.remedies[0].change.word, BITE_COOLANT_FLOOD);
    insert(NULL, 0, 0.35, 0.35);
    insert(NULL, 0, 0.25, 0.25);
    check_list((double[]){0.2, 0.25, 0.4}, 3);
    insert("depth", BITE_COOLANT_AIR, 0.3, 0.3); /* a word of another input is none of coolants */
    insert("depth", 0, 0.1, 0.1);
    check_list((double[]){0.1, 0.2, 0.25, 0.4}, 4);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("remedy ranking");
    TCase *tests = tcase_create("remedy ranking");
    tcase_add_checked_fixture(tests, set_up, NULL);
    tcase_add_test(tests, help_by_utilizations);
    tcase_add_test(tests, help_by_the_chance);
    tcase_add_test(tests, first_suspect_is_not_made_worse);
    tcase_add_test(tests, what_is_lacking_weighs_more);
    tcase_add_test(tests, chance_is_raised);
    tcase_add_test(tests, merit_is_the_chance_and_a_little_of_the_sum);
    tcase_add_test(tests, larger_change_has_to_be_worth_it);
    tcase_add_test(tests, best_are_kept_in_order);
    tcase_add_test(tests, air_beside_a_liquid);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
