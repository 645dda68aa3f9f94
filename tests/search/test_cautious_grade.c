/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A family alone means its default grade. That grade must be the cautious one: settings chosen for
 * it are clear for every other grade of the family, or no other grade would do better. */
#include "core/request/answer.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { GRADES_MAX = 64, DRAWS = 1024 };

/* A chance at the confidence of 90 %, and what sampling with this many draws may add. */
static const double clear_chance = 0.10;
static const double sampling = 0.01;

/* The two cuts: a slot, and a side cut of a tenth of the diameter. */
static const struct cut {
    const char *tool;
    const char *depth;
    const char *width;
} cuts[] = {{"3mm", "0.5mm", NULL}, {"6mm", "3mm", "0.6mm"}};
enum { CUTS = sizeof cuts / sizeof *cuts };

/* Worktop sheet is sold under names of its own (solid surface), not as acrylic. */
static bool has_own_name(const char *grade)
{
    return strcmp(grade, "acrylic/filled") == 0;
}

static bite_request *request_of(const char *material, const struct cut *cut)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, material, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, cut->tool, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", cut->depth, NULL), BITE_OK);
    if (cut->width != NULL) {
        ck_assert_int_eq(bite_request_set(request, "width", cut->width, NULL), BITE_OK);
    }
    return request;
}

/* The chance that a grade exceeds a limit at given settings. */
static double chance_at(const char *grade, const struct cut *cut, double spindle, double feed)
{
    bite_request *request = request_of(grade, cut);
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_set_number(request, "spindle_speed", spindle, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set_number(request, "feed_rate", feed, NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, DRAWS, 0.90, &answer, NULL), BITE_OK);
    double chance = bite_answer_result(answer)->chance;
    bite_answer_free(answer);
    bite_request_free(request);
    return chance;
}

/* The largest chance of another grade at the settings that are chosen for a grade. *of: it. */
static double worst_of_others(const char *grade, char grades[][64], size_t count, const char **of)
{
    double worst = 0.0;
    for (size_t c = 0; c < CUTS; c++) {
        bite_request *request = request_of(grade, &cuts[c]);
        bite_choice_options options = {.struct_size = (uint32_t)sizeof options,
                                       .goal = BITE_GOAL_FAST,
                                       .draws = DRAWS,
                                       .confidence = 0.90};
        bite_choice *choice = NULL;
        ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
        const bite_answer *best = bite_choice_answer(choice);
        for (size_t i = 0; i < count; i++) {
            if (strcmp(grades[i], grade) == 0 || has_own_name(grades[i])) {
                continue;
            }
            double chance =
                chance_at(grades[i], &cuts[c], best->full.spindle_speed, best->full.feed_rate);
            if (!(chance <= worst)) { /* also NaN: nothing may be unknown */
                worst = chance;
                *of = grades[i];
            }
        }
        bite_choice_free(choice);
        bite_request_free(request);
    }
    return worst;
}

static size_t grades_of(const char *family, char grades[GRADES_MAX][64])
{
    size_t length = strlen(family);
    size_t count = 0;
    for (size_t i = 0; i < bite_library_count(library, BITE_GRADES); i++) {
        bite_item item;
        ck_assert_int_eq(bite_library_item(library, BITE_GRADES, i, &item, NULL), BITE_OK);
        if (strncmp(item.name, family, length) == 0 && item.name[length] == '/') {
            ck_assert_uint_lt(count, GRADES_MAX);
            (void)snprintf(grades[count++], 64, "%s", item.name);
        }
    }
    return count;
}

START_TEST(default_grades_are_cautious)
{
    size_t compared = 0;
    for (size_t f = 0; f < bite_library_count(library, BITE_FAMILIES); f++) {
        char grades[GRADES_MAX][64];
        bite_item family;
        ck_assert_int_eq(bite_library_item(library, BITE_FAMILIES, f, &family, NULL), BITE_OK);
        size_t count = grades_of(family.name, grades);
        if (count < 2) {
            continue;
        }
        bite_request *request = request_of(family.name, &cuts[0]);
        const char *usual = request->grade->record.name;
        const char *of = "";
        double worst = worst_of_others(usual, grades, count, &of);
        printf("%-28s settings of the default: %s fails with a chance of %.3f\n", usual, of, worst);
        for (size_t i = 0; i < count && !(worst <= clear_chance + sampling); i++) {
            const char *other = "";
            double chance = worst_of_others(grades[i], grades, count, &other);
            ck_assert_msg(has_own_name(grades[i]) || chance >= worst - sampling,
                          "%s is more cautious than %s: %.3f of %s, %.3f of %s", grades[i], usual,
                          chance, other, worst, of);
        }
        ck_assert(!isnan(worst));
        bite_request_free(request);
        compared++;
    }
    ck_assert_uint_ge(compared, 15);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("cautious grade");
    TCase *tests = tcase_create("cautious grade");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, default_grades_are_cautious);
    tcase_set_timeout(tests, 600);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
