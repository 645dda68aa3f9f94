/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Errors: their texts can be displayed, whatever they contain; every status has a name. */
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "tests/support/support.h"
#include <stdio.h>
#include <string.h>

/* An error can be displayed whatever it contains and wherever its texts are truncated. */
START_TEST(errors_can_be_displayed)
{
    char text[1500];
    for (size_t length = 0; length < sizeof text; length += 7) {
        bite_error error = BITE_ERROR_INIT;
        for (size_t i = 0; i < length; i++) {
            text[i] = "\xc2\xb5\x1b\xe2\x80\xae\xff/"[i % 8];
        }
        text[length] = 0;
        bite_error_set(&error, BITE_FAULT, "about %s", text);
        bite_error_key(&error, "%s", text);
        bite_error_hint(&error, "%s", text);
        bite_error_place(&error, text, 1, 1);
        const char *const all[] = {error.message, error.key, error.hint, error.file};
        for (size_t i = 0; i < 4; i++) {
            ck_assert_uint_eq(bite_text_check(all[i], strlen(all[i]), "", NULL), BITE_TEXT_SOUND);
        }
    }
}
END_TEST

START_TEST(errors_show_escapes_and_the_end_of_a_path)
{
    bite_error error = BITE_ERROR_INIT;
    char path[900];
    bite_error_set(&error, BITE_UNKNOWN_NAME, "there is no %s", "\x1b[31m");
    bite_error_place(&error, "/a\xffz/\xe2\x80\xae.ini", 0, 0);
    ck_assert_str_eq(error.message, "there is no \\x1b[31m");
    ck_assert_str_eq(error.file, "/a\\xffz/\\u202e.ini");
    memset(path, '\x1b', sizeof path);
    (void)snprintf(path + sizeof path - 5, 5, "/end");
    bite_error_place(&error, path, 0, 0);
    ck_assert_str_eq(error.file + strlen(error.file) - 8, "\\x1b/end"); /* the front is dropped */
}
END_TEST

START_TEST(long_texts_end_with_a_complete_character)
{
    bite_error error = BITE_ERROR_INIT;
    char longer[600] = "";
    for (int i = 0; i < 150; i++) {
        strcat(longer, "\xe2\x82\xac");
    }
    bite_error_set(&error, BITE_IO, "%s", longer);
    ck_assert_uint_eq(strlen(error.message) % 3, 0);
    ck_assert_uint_le(strlen(error.message), 255);
    bite_error_place(&error, longer, 1, 2);
    ck_assert_uint_eq(strlen(error.file) % 3, 0);
}
END_TEST

START_TEST(every_status_has_a_name_and_a_text)
{
    for (int i = 0; i <= BITE_FAULT; i++) {
        ck_assert_str_ne(bite_status_name((bite_status)i), "BITE_UNKNOWN");
        ck_assert_uint_gt(strlen(bite_status_text((bite_status)i)), 3);
    }
}
END_TEST

START_TEST(a_small_or_missing_error_is_not_written)
{
    bite_error small = {8, 0, 0, 0, 0, 0, "", "", "", ""};
    ck_assert_int_eq(bite_error_set(&small, BITE_IO, "not taken"), BITE_IO);
    ck_assert_str_eq(small.message, "");
    ck_assert_int_eq(bite_error_set(NULL, BITE_IO, "nowhere"), BITE_IO);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("error");
    TCase *tests = tcase_create("error");
    tcase_add_test(tests, errors_can_be_displayed);
    tcase_add_test(tests, errors_show_escapes_and_the_end_of_a_path);
    tcase_add_test(tests, long_texts_end_with_a_complete_character);
    tcase_add_test(tests, every_status_has_a_name_and_a_text);
    tcase_add_test(tests, a_small_or_missing_error_is_not_written);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
