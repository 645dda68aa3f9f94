/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a plugin declares of figures and limits of its own: each member that is wrong is refused by
 * name, whatever the others are. */
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "core/library/plugin_own.h"
#include "core/names/own_limits.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)
#define LONG_NAME "a2345678901234567890123456789012"

static enum bite_family_status judge(size_t count, const double *const *numbers, double *demand,
                                     double *capacity)
{
    (void)numbers;
    for (size_t i = 0; i < count; i++) {
        demand[i] = capacity[i] = 1.0;
    }
    return BITE_FAMILY_OK;
}

static char too_long[600];

static const struct bite_family_figure good_figure = {
    sizeof(struct bite_family_figure), 0, "grain", "length", "size of the grain", 1e-9, 1e-3};
static const char *const good_numbers[] = {"depth", "chip_load",        "operation:drill",
                                           "grain", "tensile_strength", NULL};
static const struct bite_family_limit good_limit = {sizeof(struct bite_family_limit),
                                                    0,
                                                    "pull_out",
                                                    "length",
                                                    "the chip is thicker than the grain",
                                                    "grain / chip",
                                                    "memory",
                                                    "Cut thicker chips.",
                                                    good_numbers,
                                                    judge};

/* The fault of a plugin with these figures and limits, which end with NULL; NULL: it is taken. */
static const char *fault_of(const struct bite_family_figure *const *figures,
                            const struct bite_family_limit *const *limits)
{
    static char fault[BITE_OWN_FAULT_MAX];
    struct bite_family family = {
        .struct_size = sizeof family, .figures = figures, .limits = limits};
    const struct bite_plugin_own *own = bite_plugin_own_read(library, &family, fault);
    ck_assert((own == NULL) == (fault[0] != 0));
    return own == NULL ? fault : NULL;
}

static const char *fault_of_figure(const struct bite_family_figure *figure)
{
    const struct bite_family_figure *const figures[] = {figure, NULL};
    return fault_of(figures, NULL);
}

static const char *fault_of_limit(const struct bite_family_limit *limit)
{
    const struct bite_family_figure *const figures[] = {&good_figure, NULL};
    const struct bite_family_limit *const limits[] = {limit, NULL};
    return fault_of(figures, limits);
}

static void expect(const char *fault, const char *says, const char *of)
{
    ck_assert_msg(fault != NULL, "%s is taken", of == NULL ? "(no name)" : of);
    ck_assert_msg(strstr(fault, says) != NULL, "%s: %s", of == NULL ? "(no name)" : of, fault);
}

/* A name of a figure or limit that is refused. */
static const struct {
    const char *name;
    const char *says;
} names[] = {{NULL, "(no name): a name begins with a letter"},
             {"", ": a name begins with a letter"},
             {"Grain", "Grain: a name begins with a letter"},
             {"2grain", "2grain: a name begins with a letter"},
             {"gra-in", "gra-in: a name begins with a letter"},
             {"graiN", "graiN: a name begins with a letter"},
             {"gra{in", "gra{in: a name begins with a letter"},
             {"gr\x1b[31m", "gr\\x1b[31m: a name begins with a letter"},
             {LONG_NAME, "fewer than 32"},
             {"depth", "depth: the library has this name already"},
             {"chip_load", "chip_load: the library has this name already"},
             {"deflection", "deflection: the library has this name already"},
             {"tensile_strength", "tensile_strength: the library has this name already"}};

START_TEST(figures_with_a_wrong_member)
{
    ck_assert_ptr_null(fault_of_figure(&good_figure));
    for (size_t i = 0; i < COUNT(names); i++) {
        struct bite_family_figure figure = good_figure;
        figure.name = names[i].name;
        expect(fault_of_figure(&figure), names[i].says, names[i].name);
    }
    const char *const quantities[] = {NULL, "", "weight", "a length", "len"};
    for (size_t i = 0; i < COUNT(quantities); i++) {
        struct bite_family_figure figure = good_figure;
        figure.quantity = quantities[i];
        expect(fault_of_figure(&figure), "its figure grain: it measures no quantity",
               quantities[i]);
    }
    const char *const summaries[] = {NULL, "", too_long, "two\nlines", "red \x1b[31m"};
    for (size_t i = 0; i < COUNT(summaries); i++) {
        struct bite_family_figure figure = good_figure;
        figure.summary = summaries[i];
        expect(fault_of_figure(&figure), "its figure grain: it has no summary of one line",
               summaries[i]);
    }
    const double ranges[][2] = {
        {(double)NAN, 1.0}, {0.0, (double)NAN}, {0.0, (double)INFINITY}, {1.0, 1.0}, {1.0, 0.0}};
    for (size_t i = 0; i < COUNT(ranges); i++) {
        struct bite_family_figure figure = good_figure;
        figure.least = ranges[i][0];
        figure.most = ranges[i][1];
        expect(fault_of_figure(&figure), "its figure grain: its range is not one", "range");
    }
    struct bite_family_figure figure = good_figure;
    figure.struct_size -= 8;
    expect(fault_of_figure(&figure), "struct_size is shorter than a figure", "struct_size");
}
END_TEST

START_TEST(limits_with_a_wrong_member)
{
    ck_assert_ptr_null(fault_of_limit(&good_limit));
    for (size_t i = 0; i < COUNT(names); i++) {
        struct bite_family_limit limit = good_limit;
        limit.name = names[i].name;
        expect(fault_of_limit(&limit), names[i].says, names[i].name);
    }
    const char *const texts[] = {NULL, "", too_long, "two\nlines"};
    for (size_t i = 0; i < COUNT(texts); i++) {
        for (size_t k = 0; k < 4; k++) {
            struct bite_family_limit limit = good_limit;
            const char **const members[] = {&limit.summary, &limit.equation, &limit.remedy,
                                            &limit.source};
            *members[k] = texts[i];
            expect(fault_of_limit(&limit),
                   "its limit pull_out: it needs a summary, an equation, a source and a remedy",
                   texts[i]);
        }
    }
    struct bite_family_limit limit = good_limit;
    limit.source = "hearsay";
    expect(fault_of_limit(&limit), "its source does not begin with a grade", "source");
    limit = good_limit;
    limit.judge = NULL;
    expect(fault_of_limit(&limit), "its limit pull_out: it has no function", "judge");
    limit = good_limit;
    limit.name = "grain";
    expect(fault_of_limit(&limit), "grain: another figure of the plugin has this name", "grain");
    limit = good_limit;
    limit.quantity = "weight";
    expect(fault_of_limit(&limit), "its limit pull_out: it measures no quantity", "weight");
    limit = good_limit;
    limit.struct_size -= 8;
    expect(fault_of_limit(&limit), "struct_size is shorter than a limit", "struct_size");
}
END_TEST

START_TEST(numbers_that_a_limit_cannot_read)
{
    static const struct {
        const char *name;
        const char *says;
    } cases[] = {{"no_such", "it reads no_such, which is no number of a cut"},
                 {"operation:fly", "it reads operation:fly, which is no number"},
                 {"operation:", "it reads operation:, which is no number"},
                 {":drill", "it reads :drill, which is no number"},
                 {"depth:drill", "it reads depth:drill, which is no number"},
                 {LONG_NAME ":drill", "which is no number of a cut"},
                 {"side", "it reads side, which is no number"},
                 {"deflection", "it reads deflection, which is no number"},
                 {"tip_frequency", "it reads tip_frequency, which is no number"},
                 {"title", "it reads title, which is no number"},
                 {"\x1b", "it reads \\x1b, which is no number"}};
    for (size_t i = 0; i < COUNT(cases); i++) {
        const char *const numbers[] = {"depth", cases[i].name, NULL};
        struct bite_family_limit limit = good_limit;
        limit.numbers = numbers;
        expect(fault_of_limit(&limit), cases[i].says, cases[i].name);
    }
    const char *many[BITE_FAMILY_NUMBERS_MAX + 2] = {NULL};
    struct bite_family_limit limit = good_limit;
    for (size_t i = 0; i < BITE_FAMILY_NUMBERS_MAX; i++) {
        many[i] = "depth";
    }
    limit.numbers = many;
    ck_assert_ptr_null(fault_of_limit(&limit));
    many[BITE_FAMILY_NUMBERS_MAX] = "depth";
    expect(fault_of_limit(&limit), "it reads more than 16 numbers", "many");
    limit.numbers = NULL; /* it reads none */
    ck_assert_ptr_null(fault_of_limit(&limit));
}
END_TEST

START_TEST(a_plugin_has_so_many_figures_and_limits)
{
    static const char *const own[] = {"aa", "ab", "ac", "ad", "ae", "af", "ag", "ah", "ai",
                                      "aj", "ak", "al", "am", "an", "ao", "ap", "aq"};
    struct bite_family_figure figures[COUNT(own)];
    struct bite_family_limit limits[BITE_FAMILY_LIMITS_MAX + 1];
    const struct bite_family_figure *figure_list[COUNT(own) + 1] = {NULL};
    const struct bite_family_limit *limit_list[BITE_FAMILY_LIMITS_MAX + 2] = {NULL};
    for (size_t i = 0; i < BITE_FAMILY_FIGURES_MAX; i++) {
        figures[i] = good_figure;
        figures[i].name = own[i];
        figure_list[i] = &figures[i];
    }
    ck_assert_ptr_null(fault_of(figure_list, NULL));
    figures[16] = good_figure;
    figures[16].name = own[16];
    figure_list[16] = &figures[16];
    expect(fault_of(figure_list, NULL), "its figure aq: a plugin has at most 16 figures", "aq");
    figures[1].name = "aa";
    expect(fault_of(figure_list, NULL), "its figure aa: another figure of the plugin", "aa");
    for (size_t i = 0; i < BITE_FAMILY_LIMITS_MAX; i++) {
        limits[i] = good_limit;
        limits[i].name = own[i];
        limits[i].numbers = NULL;
        limit_list[i] = &limits[i];
    }
    ck_assert_ptr_null(fault_of(NULL, limit_list));
    limits[4] = limits[0];
    limits[4].name = "ae";
    limit_list[4] = &limits[4];
    expect(fault_of(NULL, limit_list), "its limit ae: a plugin has at most 4 limits", "ae");
    limits[1].name = "aa";
    expect(fault_of(NULL, limit_list), "its limit aa: another limit of the plugin", "aa");
    ck_assert_ptr_null(fault_of(NULL, NULL));
}
END_TEST

/* A cut has room for eight figures; the same one read by several limits takes one place. */
START_TEST(a_cut_has_room_for_so_many_figures)
{
    static const char *const first[] = {"tensile_strength", "tensile_yield",    "hardness_ball",
                                        "annealing",        "tensile_strength", NULL};
    static const char *const second[] = {"annealing", "water_uptake",  "sheet_stress",
                                         "speed_hss", "speed_carbide", NULL};
    static const char *const third[] = {"hardness_ball", "service_temperature", NULL};
    const struct bite_family_limit *list[4] = {NULL};
    struct bite_family_limit limits[3];
    const char *const *numbers[] = {first, second, third};
    static const char *const own_names[] = {"aa", "ab", "ac"};
    char fault[BITE_OWN_FAULT_MAX];
    const bite_material *found = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &found, NULL), BITE_OK);
    for (size_t count = 1; count <= COUNT(limits); count++) {
        limits[count - 1] = good_limit;
        limits[count - 1].name = own_names[count - 1];
        limits[count - 1].numbers = numbers[count - 1];
        list[count - 1] = &limits[count - 1];
        struct bite_family family = {.struct_size = sizeof family, .limits = list};
        const struct bite_plugin_own *own = bite_plugin_own_read(library, &family, fault);
        ck_assert_msg(own != NULL, "%s", fault);
        bite_material material = *found;
        material.own = NULL;
        bite_status status = bite_plugin_own_limits(library, own, &material, &error);
        ck_assert_int_eq(status, count < 3 ? BITE_OK : BITE_BAD_PLUGIN);
        ck_assert((material.own != NULL) == (count < 3));
        if (count < 3) {
            ck_assert_uint_eq(material.own->figure_count, count == 1 ? 4 : 8);
            ck_assert_str_eq(material.own->figures[3].name, "annealing");
            ck_assert_ptr_eq(material.own_values[0],
                             bite_item_field(&material.record, "tensile_strength"));
        } else {
            ck_assert_str_eq(error.message,
                             "the limits of the plugin read more than 8 figures of a grade");
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("own descriptor");
    TCase *tests = tcase_create("own descriptor");
    memset(too_long, 'x', 501);
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, figures_with_a_wrong_member);
    tcase_add_test(tests, limits_with_a_wrong_member);
    tcase_add_test(tests, numbers_that_a_limit_cannot_read);
    tcase_add_test(tests, a_plugin_has_so_many_figures_and_limits);
    tcase_add_test(tests, a_cut_has_room_for_so_many_figures);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
