/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ASCII text is the same in every locale. */
#include "core/base/text.h"
#include "tests/support/support.h"
#include "tests/support/test_locale.h"
#include <string.h>

START_TEST(text_does_not_depend_on_the_locale)
{
    bite_test_set_locale(bite_test_locales[_i]);
    ck_assert(bite_text_equals("INCH", "inch"));
    ck_assert(bite_text_equals("I", "i"));
    ck_assert(!bite_text_equals("inch", "inches"));
    ck_assert_uint_eq(bite_text_columns("\xc2\xb5m", 3), 2);
    ck_assert_uint_eq(bite_text_columns("a\xcc\x81", 3), 1);
    ck_assert_uint_eq(bite_text_columns("a\xcd\xaf", 3), 1); /* U+036F, the last that combines */
    ck_assert_uint_eq(bite_text_columns("a\xcd\xb0", 3), 2); /* U+0370, a letter */
    ck_assert_uint_eq(bite_text_columns("a\xcd", 2), 2);     /* cut off: a character of its own */
}
END_TEST

START_TEST(blanks_are_trimmed_at_both_ends)
{
    const char *text = " \t a b\t";
    ck_assert_uint_eq(bite_text_trim(&text, 7), 3);
    ck_assert_mem_eq(text, "a b", 3);
    text = "  ";
    ck_assert_uint_eq(bite_text_trim(&text, 2), 0);
}
END_TEST

START_TEST(separators_of_a_designation_do_not_count)
{
    static const struct {
        const char *a;
        const char *b;
        bool same;
    } cases[] = {{"EN AW-6082", "en-aw-6082", true},
                 {"PA 6.6", "pa66", true},
                 {"1.4301", "1 4301", true},
                 {"ti_6al-4v", "Ti6Al4V", true},
                 {"6082", "608", false},
                 {"608", "6082", false},
                 {"pa6", "pa66", false},
                 {"c45", "c45e", false},
                 {"a/b", "ab", false},
                 {"-", "", false},
                 {"-", ".", false},
                 {"-", "-", true},
                 {"", "", true},
                 {"\xc3\xa9", "\xc3\xa9", true},
                 {"a\n", "a", false}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_msg(bite_text_same_designation(cases[i].a, cases[i].b) == cases[i].same,
                      "%s and %s", cases[i].a, cases[i].b);
    }
    ck_assert(bite_text_same_designation_part("pa6, pa66", 3, "PA-6"));
}
END_TEST

/* Words are whole, whatever separates them; an empty list has none. */
START_TEST(lists_of_words)
{
    static const char *const lists[] = {"pin plug gauge", ",pin,plug , gauge,",
                                        "  pin, plug gauge "};
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        const char *rest = lists[i];
        size_t length = 0;
        ck_assert_int_eq(strncmp(bite_text_next_word(&rest, &length), "pin", 3), 0);
        ck_assert_uint_eq(length, 3);
        ck_assert(bite_text_list_has(lists[i], "PLUG", bite_text_equals_part));
        ck_assert(bite_text_list_has(lists[i], "gauge", bite_text_equals_part));
        ck_assert(!bite_text_list_has(lists[i], "plu", bite_text_equals_part));
        ck_assert(!bite_text_list_has(lists[i], "pin plug", bite_text_equals_part));
        ck_assert(!bite_text_list_has(lists[i], "", bite_text_equals_part));
    }
    ck_assert(!bite_text_list_has("", "pin", bite_text_equals_part));
    ck_assert(!bite_text_list_has(" , ", "", bite_text_equals_part));
    ck_assert(bite_text_list_has("en-aw-6082", "EN AW 6082", bite_text_same_designation_part));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("text");
    TCase *tests = tcase_create("text");
    tcase_add_loop_test(tests, text_does_not_depend_on_the_locale, 0, BITE_TEST_LOCALES);
    tcase_add_test(tests, blanks_are_trimmed_at_both_ends);
    tcase_add_test(tests, lists_of_words);
    tcase_add_test(tests, separators_of_a_designation_do_not_count);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
