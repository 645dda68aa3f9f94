/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nearest name: edits are counted, and only a near name is proposed. */
#include "core/base/nearest_name.h"
#include "tests/support/support.h"
#include "tests/support/test_locale.h"
#include <string.h>

START_TEST(edits_are_counted_without_locale)
{
    bite_test_set_locale(bite_test_locales[_i]);
    ck_assert_uint_eq(bite_text_distance("acrilic", "acrylic", 3), 1);
    ck_assert_uint_eq(bite_text_distance("acrylci", "acrylic", 3), 1);
    ck_assert_uint_eq(bite_text_distance("", "abc", 2), 3);
    ck_assert_uint_eq(bite_text_distance("ACRYLIC", "acrylic", 3), 0);
}
END_TEST

static const char *name_at(size_t at, const void *list)
{
    return ((const char *const *)list)[at];
}

START_TEST(only_a_near_name_is_proposed)
{
    static const char *const names[] = {"depth", NULL,     "width", "feed_rate",
                                        "flute", "flutes", "m",     "mm"};
    const size_t count = sizeof names / sizeof *names;
    static const struct {
        const char *word;
        const char *nearest;
    } cases[] = {{"dpeth", "depth"},   {"widht", "width"},    {"FEEDRATE", "feed_rate"},
                 {"flutes", "flutes"}, {"flutess", "flutes"}, {"colour", NULL},
                 {"", NULL},           {"x", NULL},           {"n", NULL},
                 {"M", "m"},           {"xm", "m"},           {"mmm", "mm"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *found = bite_text_nearest(cases[i].word, count, name_at, names);
        if (cases[i].nearest == NULL) {
            ck_assert_msg(found == NULL, "%s: %s", cases[i].word, found);
        } else {
            ck_assert_str_eq(found, cases[i].nearest);
        }
    }
    char longer[100];
    memset(longer, 'd', sizeof longer - 1);
    longer[sizeof longer - 1] = 0;
    ck_assert_ptr_null(bite_text_nearest(longer, count, name_at, names));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("nearest");
    TCase *tests = tcase_create("nearest");
    tcase_add_loop_test(tests, edits_are_counted_without_locale, 0, BITE_TEST_LOCALES);
    tcase_add_test(tests, only_a_near_name_is_proposed);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
