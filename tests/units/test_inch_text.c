/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Metric quantities in a sentence, converted for a shop that measures in inches. */
#include "core/units/inch_text.h"
#include "tests/support/support.h"
#include "tests/support/test_locale.h"

/* Quantities are converted, and what only looks like one is not. */
START_TEST(quantities_in_a_sentence_become_inches)
{
    bite_test_set_locale(bite_test_locales[_i]);
    static const struct {
        const char *metric;
        const char *inch;
    } cases[] = {
        {"Mill 3 mm off.", "Mill 0.12 in off."},
        {"grooves of 2 to 5 mm, 25.4 mm at most", "grooves of 0.079 to 0.2 in, 1 in at most"},
        {"4 mm by 0.8 mm", "0.16 in by 0.031 in"},
        {"not over 50 degC", "not over 122 degF"},
        {"10 um, 30 m/min, 254 mm/min", "0.0004 in, 98 ft/min, 10 in/min"},
        {"1 to 5 um", "under 0.0001 to 0.0002 in"},
        {"", ""},
        {"the tool 3mm, em-3 mm, 4 mmol, 5 m, 2 bar (30 psi), x3 mm, 1.2.3 mm", NULL},
        {"60 degC: 3 tabs of 4 mm", "140 degF: 3 tabs of 0.16 in"},
        {"0 mm and 0.001 mm", "0 in and under 0.0001 in"},
        {"2 to the end, 3 and more, 4 by hand", NULL},
        {"3 mm.5, 3 mm_wide, 3 mm/tooth, 3 mmX", NULL},
        {"1e999 mm to 2 mm", "1e999 mm to 0.079 in"}, /* no number */
        {"2 to 1e999 mm", NULL},
        {"bore 5 mm.", "bore 0.2 in."},
        {"5 mm", "0.2 in"},
    };
    bite_arena *arena = bite_arena_new(bite_memory_default());
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *text = bite_text_inches(arena, cases[i].metric);
        ck_assert_str_eq(text, cases[i].inch == NULL ? cases[i].metric : cases[i].inch);
    }
    bite_arena_free(arena);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("inch_text");
    TCase *tests = tcase_create("inch_text");
    tcase_add_loop_test(tests, quantities_in_a_sentence_become_inches, 0, BITE_TEST_LOCALES);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
