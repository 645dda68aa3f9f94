/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The choice against what shops run every day: a free choice of speed and feed must not be timid.
 * The recipes are common practice, recalled from shops and tool makers' charts; no source can be
 * named. It prints the ratios of the removal rates; the medians have floors. */
#include "core/request/answer.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { PLASTICS, METALS, KINDS };

static const struct everyday_recipe {
    const char *id;
    uint32_t kind;
    const char *grade;
    const char *tool;
    const char *flutes;
    const char *machine;
    const char *spindle;
    const char *feed;
    const char *depth;
    const char *width; /* NULL: slot */
    const char *coolant;
    const char *feature_depth; /* NULL: none */
} recipes[] = {
    {"R01", PLASTICS, "acrylic/cast", "1/32in", "2", "bench-24k", "20000rpm", "400mm/min", "0.4mm",
     NULL, "air", NULL},
    {"R03", PLASTICS, "acrylic/cast", "1/8in", "1", "gantry-router", "18000rpm", "1905mm/min",
     "3mm", NULL, "air", NULL},
    {"R04", PLASTICS, "acrylic/cast", "1/8in", "1", "gantry-router", "18000rpm", "1524mm/min",
     "3mm", NULL, "air", "6mm"},
    {"R06", PLASTICS, "acrylic/extruded", "1/8in", "1", "gantry-router", "18000rpm", "1905mm/min",
     "3mm", NULL, "air", NULL},
    {"R08", PLASTICS, "acrylic/cast", "1/4in", "2", "bench-24k", "18000rpm", "1500mm/min", "6mm",
     "0.25mm", "air", NULL},
    {"R09", PLASTICS, "pc", "1/8in", "1", "gantry-router", "18000rpm", "1778mm/min", "1.5mm", NULL,
     "air", NULL},
    {"R12", METALS, "6061", "1/8in", "2", "bench-24k", "18000rpm", "900mm/min", "0.5mm", NULL,
     "mist", NULL},
    {"R14", METALS, "6061", "1/4in", "3", "small-vmc", "10000rpm", "1524mm/min", "6.35mm", "2.5mm",
     "flood", NULL},
    {"R15", METALS, "6061", "1/4in", "3", "small-vmc", "10000rpm", "1143mm/min", "3.175mm", NULL,
     "flood", NULL},
    {"R16", METALS, "6061", "1mm", "2", "bench-24k", "24000rpm", "500mm/min", "0.25mm", NULL,
     "mist", NULL},
    {"R19", METALS, "brass/c360", "1/8in", "2", "bench-24k", "15000rpm", "600mm/min", "0.5mm", NULL,
     "none", NULL},
    {"R20", METALS, "brass/c360", "1/4in", "3", "small-vmc", "6000rpm", "762mm/min", "3mm", NULL,
     "none", NULL},
    {"R22", PLASTICS, "acetal", "1/8in", "2", "bench-24k", "18000rpm", "1800mm/min", "3mm", NULL,
     "air", NULL},
    {"R23", PLASTICS, "polyethylene/hdpe", "1/4in", "1", "gantry-router", "18000rpm", "4572mm/min",
     "6mm", NULL, "air", NULL},
    {"R28", METALS, "304", "1/4in", "4", "small-vmc", "3000rpm", "229mm/min", "3.0mm", NULL,
     "flood", NULL},
    {"R30", METALS, "titanium/6al-4v", "1/4in", "4", "small-vmc", "2400rpm", "190mm/min", "6.0mm",
     "2.0mm", "flood", NULL},
    {"R32", METALS, "1018", "1/4in", "4", "small-vmc", "4600rpm", "508mm/min", "3.0mm", NULL,
     "flood", NULL},
    {"R37", PLASTICS, "pc", "1mm", "2", "bench-24k", "15000rpm", "450mm/min", "0.4mm", NULL, "air",
     NULL},
    {"R40", METALS, "6061", "1/4in", "1", "gantry-router", "12000rpm", "635mm/min", "0.38mm", NULL,
     "none", NULL},
};

enum { RECIPES = sizeof recipes / sizeof *recipes };

static double ratios[KINDS][RECIPES];
static size_t counts[KINDS];

static void set(bite_request *request, const char *name, const char *text)
{
    ck_assert_int_eq(text == NULL ? BITE_OK : bite_request_set(request, name, text, NULL), BITE_OK);
}

static bite_request *request_of(const struct everyday_recipe *recipe)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, recipe->grade, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, recipe->tool, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, recipe->machine, NULL), BITE_OK);
    set(request, "flutes", recipe->flutes);
    set(request, "depth", recipe->depth);
    set(request, "width", recipe->width);
    set(request, "feature_depth", recipe->feature_depth);
    set(request, "coolant", recipe->coolant);
    return request;
}

static double removal_of(const bite_answer *answer)
{
    return bite_answer_result(answer)->values[BITE_REMOVAL_RATE].value;
}

static bite_choice *choose(const bite_request *request, uint32_t beyond_charts)
{
    bite_choice_options options = {.struct_size = (uint32_t)sizeof options,
                                   .goal = BITE_GOAL_FAST,
                                   .draws = 1024,
                                   .confidence = 0.90,
                                   .beyond_charts = beyond_charts};
    bite_choice *choice = NULL;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    return choice;
}

/* What restricts the choice, in one line. */
static void print_limits(const bite_choice *choice)
{
    bite_limit_id limit = BITE_LIMIT_COUNT;
    double gain = 0.0;
    for (size_t i = 0; bite_choice_active_limit(choice, i, &limit, &gain); i++) {
        printf("%s%s", i > 0 ? ", " : "",
               limit < BITE_LIMIT_COUNT ? bite_limit_name(limit) : "largest published feed");
    }
    printf("\n");
}

static void compare(const struct everyday_recipe *recipe)
{
    bite_request *request = request_of(recipe);
    bite_choice *choice = choose(request, 0);
    const bite_result *chosen = bite_answer_result(bite_choice_answer(choice));
    const bite_limit *proven = &chosen->limits[BITE_LIMIT_UNPROVEN];
    bite_answer *everyday = NULL;
    set(request, "spindle_speed", recipe->spindle);
    set(request, "feed_rate", recipe->feed);
    ck_assert_int_eq(bite_answer_new(request, 1024, 0.90, &everyday, NULL), BITE_OK);
    double ratio = removal_of(bite_choice_answer(choice)) / removal_of(everyday);
    ratios[recipe->kind][counts[recipe->kind]++] = ratio;
    printf("%s %-18s %-6s removal rate x %.2f, chance %.3f (recipe %.3f): ", recipe->id,
           recipe->grade, recipe->tool, ratio, chosen->chance,
           bite_answer_result(everyday)->chance);
    print_limits(choice);
    ck_assert(proven->applies &&
              1.5 * proven->utilization <= 1.02); /* rounded to what is entered */
    bite_answer_free(everyday);
    bite_choice_free(choice);
    bite_request_free(request);
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median_of(uint32_t kind)
{
    size_t count = counts[kind];
    qsort(ratios[kind], count, sizeof **ratios, ascending);
    return 0.5 * (ratios[kind][(count - 1) / 2] + ratios[kind][count / 2]);
}

START_TEST(choice_is_not_timid)
{
    for (size_t i = 0; i < RECIPES; i++) {
        compare(&recipes[i]);
    }
    printf("median of plastics %.2f, of metals %.2f\n", median_of(PLASTICS), median_of(METALS));
    for (uint32_t kind = 0; kind < KINDS; kind++) {
        ck_assert_double_ge(median_of(kind), 0.7);
        ck_assert_double_ge(ratios[kind][0], 0.5); /* none is far below its recipe */
    }
}
END_TEST

/* Feeds beyond the charts are chosen only if asked for. */
START_TEST(choice_exceeds_charts_only_if_asked)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "polycarbonate", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "1/4in", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "small-vmc", NULL), BITE_OK);
    set(request, "depth", "1mm");
    set(request, "charted_chip", "0.05mm");
    set(request, "charted_exponent", "0.7");
    bite_choice *within = choose(request, 0);
    bite_choice *beyond = choose(request, 1);
    double charted =
        bite_answer_result(bite_choice_answer(within))->limits[BITE_LIMIT_UNPROVEN].capacity / 1.5;
    double feed = bite_answer_result(bite_choice_answer(within))->values[BITE_CHIP_LOAD].value;
    ck_assert(feed <= 1.02 * charted && feed > 0.9 * charted);
    ck_assert_double_gt(
        bite_answer_result(bite_choice_answer(beyond))->values[BITE_CHIP_LOAD].value,
        1.5 * charted);
    bite_choice_free(within);
    bite_choice_free(beyond);
    bite_request_free(request);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("everyday");
    TCase *tests = tcase_create("everyday");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, choice_is_not_timid);
    tcase_add_test(tests, choice_exceeds_charts_only_if_asked);
    tcase_set_timeout(tests, 300);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
