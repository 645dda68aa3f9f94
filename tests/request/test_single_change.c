/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The changes that are tried: which apply to a cut, and the numbers that an operator would enter.
 */
#include "core/names/registry.h"
#include "core/request/single_change.h"
#include "tests/request/request_pairs.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)

#define ACRYLIC                                                                                    \
    {                                                                                              \
        "material", "acrylic/cast"                                                                 \
    }
#define MILL                                                                                       \
    ACRYLIC, {"tool", "3mm"}, {"spindle_speed", "12000rpm"},                                       \
    {                                                                                              \
        "feed_rate", "333mm/min"                                                                   \
    }

static bite_cut cut_of(const char *const (*pairs)[2])
{
    bite_cut cut;
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = request_of_pairs(library, pairs, &error);
    ck_assert_msg(request != NULL, "%s: %s", error.key, error.message);
    ck_assert_msg(bite_request_cut(request, &cut, &error) == BITE_OK, "%s: %s", error.key,
                  error.message);
    bite_request_free(request);
    return cut;
}

/* Writes what all changes of an input make of it, in the unit of `scale`: "170 230 ". */
static void changes_of(const bite_cut *full, const char *name, double scale, char *text,
                       size_t size)
{
    text[0] = 0;
    for (size_t at = 0; at < bite_change_count(); at++) {
        bite_cut cut = *full;
        bite_change change = {BITE_NO_INPUT, 0, 0, 0, 0.0, 0.0, 0.0, 0.0};
        int applies = bite_change_apply(at, &cut, &change);
        const bite_input *input = bite_input_at(change.input);
        if (!applies) {
            ck_assert_mem_eq(&cut, full, sizeof cut); /* the cut stays as it was */
        }
        if (!applies || strcmp(input->name, name) != 0) {
            continue;
        }
        size_t used = strlen(text);
        if (input->words > 0) {
            ck_assert_uint_eq(*bite_input_choice(&cut, input), change.word);
            (void)snprintf(text + used, size - used, "%s ", bite_input_word(input, change.word));
        } else {
            double number = *bite_input_number(&cut, input);
            ck_assert_double_eq(number, change.to);
            ck_assert_double_ne(number, change.from);
            (void)snprintf(text + used, size - used, "%.6g ", number * scale);
        }
    }
}

START_TEST(changes_are_numbers_that_can_be_entered)
{
    static const struct {
        const char *pairs[REQUEST_PAIRS][2];
        const char *input;
        double scale;
        const char *changes;
    } cases[] = {
        {{MILL}, "feed_rate", 6e4, "170 230 500 670 "},
        {{MILL}, "spindle_speed", 60.0, "6000 8400 17000 24000 "},
        {{MILL, {"depth", "1mm"}}, "depth", 1e3, "0.7 0.5 0.3 "},
        {{MILL, {"width", "2mm"}}, "width", 1e3, "1.4 1 "},
        {{MILL, {"stickout", "20mm"}, {"flute_length", "12mm"}}, "stickout", 1e3, "14 "},
        {{MILL, {"stickout", "20mm"}, {"flute_length", "15mm"}}, "stickout", 1e3, ""},
        {{MILL}, "coolant", 1.0, "air "},
        {{MILL, {"coolant", "mist"}}, "coolant", 1.0, ""},
        {{MILL, {"runout", "12um"}}, "runout", 1e6, "3 "},
        {{MILL, {"runout", "3.2um"}}, "runout", 1e6, ""}, /* hardly better */
        {{MILL, {"flutes", "3"}}, "flutes", 1.0, "2 "},
        {{MILL, {"flutes", "1"}}, "flutes", 1.0, ""},
        {{MILL}, "side", 1.0, "conventional "},
        {{MILL, {"side", "conventional"}}, "side", 1.0, ""},
        {{MILL, {"helix", "30deg"}}, "helix", 1.0, "0 "},
        {{MILL, {"bond_area", "1200mm2"}}, "bond_area", 1e6, "2400 "},
        {{MILL}, "bond_area", 1e6, ""},
        {{MILL}, "entry_feed", 6e4, ""},
        {{MILL, {"entry", "ramp"}, {"entry_feed", "120mm/min"}}, "entry_feed", 6e4, "60 30 240 "},
        {{MILL, {"operation", "drill"}}, "entry_feed", 6e4, ""},
        {{ACRYLIC, {"tool", "cm-6-90"}, {"operation", "chamfer"}, {"depth", "1mm"}},
         "depth",
         1e3,
         ""},
        {{ACRYLIC, {"thread", "M3"}, {"spindle_speed", "600rpm"}}, "depth", 1e3, ""},
        {{ACRYLIC, {"thread", "M3"}, {"spindle_speed", "600rpm"}}, "feed_rate", 6e4, ""},
        {{ACRYLIC, {"thread", "M3"}, {"spindle_speed", "600rpm"}},
         "spindle_speed",
         60.0,
         "300 420 840 1200 "},
        {{ACRYLIC,
          {"tool", "6mm"},
          {"operation", "ream"},
          {"spindle_speed", "600rpm"},
          {"feed_rate", "100mm/min"},
          {"depth", "10mm"}},
         "depth",
         1e3,
         ""},
        {{ACRYLIC,
          {"tool", "6mm"},
          {"operation", "ream"},
          {"spindle_speed", "600rpm"},
          {"feed_rate", "100mm/min"}},
         "feed_rate",
         6e4,
         "50 70 150 200 "},
    };
    for (size_t i = 0; i < COUNT(cases); i++) {
        char text[200];
        bite_cut cut = cut_of(cases[i].pairs);
        changes_of(&cut, cases[i].input, cases[i].scale, text, sizeof text);
        ck_assert_msg(strcmp(text, cases[i].changes) == 0, "case %zu: %s becomes %s", i,
                      cases[i].input, text);
    }
}
END_TEST

/* A tap keeps to its pitch at another speed; another coolant cools as such. */
START_TEST(what_follows_from_a_change)
{
    static const char *const tap[REQUEST_PAIRS][2] = {
        ACRYLIC, {"thread", "M3"}, {"spindle_speed", "600rpm"}};
    static const char *const mill[REQUEST_PAIRS][2] = {MILL};
    bite_cut full = cut_of(tap);
    for (size_t at = 0; at < bite_change_count(); at++) {
        bite_cut cut = full;
        bite_change change = {BITE_NO_INPUT, 0, 0, 0, 0.0, 0.0, 0.0, 0.0};
        if (bite_change_apply(at, &cut, &change)) {
            bite_assert_near(cut.feed_rate, 0.5e-3 * cut.spindle_speed, 1e-12);
        }
    }
    full = cut_of(mill);
    ck_assert(isfinite(full.cooling));
    size_t cooled = 0;
    for (size_t at = 0; at < bite_change_count(); at++) {
        bite_cut cut = full;
        bite_change change = {BITE_NO_INPUT, 0, 0, 0, 0.0, 0.0, 0.0, 0.0};
        if (bite_change_apply(at, &cut, &change) && cut.coolant != full.coolant) {
            ck_assert_uint_eq(cut.coolant, BITE_COOLANT_AIR);
            ck_assert(isnan(cut.cooling) && isnan(cut.surface_cooling)); /* from the coolant */
            cooled++;
        }
    }
    ck_assert_uint_eq(cooled, 1);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("single_change");
    TCase *tests = tcase_create("single_change");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, changes_are_numbers_that_can_be_entered);
    tcase_add_test(tests, what_follows_from_a_change);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
