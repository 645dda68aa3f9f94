/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Remarks in words: every template shows exactly the values of its definition, in the job's units,
 * and missing values leave no trace. */
#include "core/job/remarks.h"
#include "core/report/job/remark_text.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

START_TEST(every_template_shows_all_values_of_its_definition)
{
    for (uint32_t id = 0; id < BITE_REMARK_COUNT; id++) {
        const bite_remark_definition *definition = bite_remark_define(id);
        const char *template = bite_remark_template(id);
        ck_assert_msg(template != NULL && definition->name != NULL, "remark %u", id);
        ck_assert(definition->about[0] != 0);
        ck_assert_uint_le(definition->severity, BITE_DANGER);
        for (int i = 0; i < BITE_REMARK_VALUES_MAX; i++) {
            char place[16];
            (void)snprintf(place, sizeof place, "{%d}", i);
            int shown = strstr(template, place) != NULL;
            int defined = definition->values[i].kind != BITE_REMARK_NONE;
            ck_assert_msg(shown == defined, "%s: %s", definition->name, place);
            ck_assert_msg(!defined || definition->values[i].name != NULL, "%s", definition->name);
        }
        for (uint32_t other = 0; other < id; other++) {
            ck_assert_str_ne(definition->name, bite_remark_define(other)->name);
        }
    }
    ck_assert_ptr_null(bite_remark_template(BITE_REMARK_COUNT));
    ck_assert_ptr_null(bite_remark_define(BITE_REMARK_COUNT));
}
END_TEST

static void words_are(const bite_remark *remark, bite_units units, const char *expected)
{
    char text[BITE_REMARK_TEXT_MAX];
    ck_assert_str_eq(bite_remark_words(remark, units, text, sizeof text), expected);
}

START_TEST(quantities_follow_the_units_of_the_job)
{
    const bite_remark tabs = {
        BITE_REMARK_TABS, 0, "", {{NULL, 4.0}, {NULL, 6.35e-3}, {NULL, 2.54e-3}}};
    const bite_remark edge = {
        BITE_REMARK_LASER_EDGE, BITE_CARE, "", {{"ethanol", (double)NAN}, {NULL, 3e-3}}};
    const bite_remark cure = {BITE_REMARK_GLUE_CURE, 0, "", {{NULL, 50.8e-6}, {NULL, 120.0}}};
    words_are(&tabs, BITE_METRIC, "Leave 4 tabs of 6.35 mm by 2.54 mm on each part.");
    words_are(&tabs, BITE_INCH, "Leave 4 tabs of 0.25 in by 0.1 in on each part.");
    words_are(&edge, BITE_METRIC,
              "A laser-cut edge is under stress, and crazes several millimetres deep where "
              "ethanol touches it. Mill 3 mm off, or anneal first.");
    words_are(&edge, BITE_INCH,
              "A laser-cut edge is under stress, and crazes several millimetres deep where "
              "ethanol touches it. Mill 0.12 in off, or anneal first.");
    words_are(
        &cure, BITE_METRIC,
        "Across a gap of 0.051 mm the glue sets in about 2 min; it takes longer if the air is "
        "dry or cold, and far longer across twice the gap.");
}
END_TEST

START_TEST(parts_without_a_value_are_left_out)
{
    bite_remark fluid = {BITE_REMARK_FLUID_RISK,
                         BITE_CARE,
                         "",
                         {{"naphtha", (double)NAN},
                          {"cleaner", (double)NAN},
                          {"wax", (double)NAN},
                          {"", (double)NAN},
                          {NULL, (double)NAN},
                          {"", (double)NAN}}};
    words_are(&fluid, BITE_METRIC, "Risk: naphtha as cleaner on wax.");
    fluid.values[3].text = "it swells";
    fluid.values[4].quantity = 172800.0;
    words_are(&fluid, BITE_METRIC,
              "Risk: naphtha as cleaner on wax: it swells. Before shipping, watch the part for "
              "48 h: look along edges and holes in raking light.");
}
END_TEST

/* A text of the job may look like a place or a bracket, and may be longer than the buffer. */
START_TEST(texts_of_a_job_are_not_templates)
{
    const bite_remark odd = {BITE_REMARK_FLAMMABLE, BITE_DANGER, "", {{"{1}[x]", (double)NAN}}};
    const bite_remark accent = {
        BITE_REMARK_PARTING, BITE_CARE, "", {{"\xc3\xa4\xc3\xa4\xc3\xa4", (double)NAN}}};
    char text[BITE_REMARK_TEXT_MAX];
    char small[5];
    ck_assert_ptr_nonnull(
        strstr(bite_remark_words(&odd, BITE_METRIC, text, sizeof text), "{1}[x] is flammable"));
    ck_assert_str_eq(bite_remark_words(&accent, BITE_METRIC, small, sizeof small),
                     "\xc3\xa4\xc3\xa4");
    char cut[4];
    ck_assert_str_eq(bite_remark_words(&accent, BITE_METRIC, cut, sizeof cut), "\xc3\xa4");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("remark text");
    TCase *tests = tcase_create("remark text");
    tcase_add_test(tests, every_template_shows_all_values_of_its_definition);
    tcase_add_test(tests, quantities_follow_the_units_of_the_job);
    tcase_add_test(tests, parts_without_a_value_are_left_out);
    tcase_add_test(tests, texts_of_a_job_are_not_templates);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
