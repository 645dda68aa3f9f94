/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The check of displayable text, and the escapes for what fails it. */
#include "core/base/display_text.h"
#include "tests/support/support.h"
#include <stdio.h>
#include <string.h>

/* Each class of character: its fault, and how it is displayed. */
static const struct {
    const char *text;
    bite_text_fault fault;
    const char *shown;
} cases[] = {
    {"a", BITE_TEXT_SOUND, "a"},
    {"\\", BITE_TEXT_SOUND, "\\"},
    {"\xc2\xb5", BITE_TEXT_SOUND, "\xc2\xb5"},
    {"\xe2\x82\xac", BITE_TEXT_SOUND, "\xe2\x82\xac"},
    {"\xf0\x9f\x98\x80", BITE_TEXT_SOUND, "\xf0\x9f\x98\x80"},
    {"\xe2\x80\x8d", BITE_TEXT_SOUND, "\xe2\x80\x8d"}, /* zero width joiner */
    {"\xe0\xa4\x85", BITE_TEXT_SOUND, "\xe0\xa4\x85"},
    {"\xed\x9f\xbf", BITE_TEXT_SOUND, "\xed\x9f\xbf"}, /* the last before the surrogates */
    {"\xf4\x8f\xbf\xbd", BITE_TEXT_SOUND, "\xf4\x8f\xbf\xbd"},
    {"\x80", BITE_TEXT_MALFORMED, "\\x80"},
    {"\xe0\x9f\xbf", BITE_TEXT_MALFORMED, "\\xe0\\x9f\\xbf"}, /* overlong */
    {"\xf0\x8f\xbf\xbf", BITE_TEXT_MALFORMED, "\\xf0\\x8f\\xbf\\xbf"},
    {"\xf4\x90\x80\x80", BITE_TEXT_MALFORMED, "\\xf4\\x90\\x80\\x80"}, /* beyond U+10FFFF */
    {"\xe2\xc2\x80", BITE_TEXT_MALFORMED, "\\xe2\\u0080"},
    {"\xc0\xaf", BITE_TEXT_MALFORMED, "\\xc0\\xaf"},
    {"\xed\xa0\x80", BITE_TEXT_MALFORMED, "\\xed\\xa0\\x80"},
    {"\xe2\x82", BITE_TEXT_MALFORMED, "\\xe2\\x82"},
    {"\xf5\x80\x80\x80", BITE_TEXT_MALFORMED, "\\xf5\\x80\\x80\\x80"},
    {"\xc3", BITE_TEXT_MALFORMED, "\\xc3"},
    {"\x01", BITE_TEXT_CONTROL, "\\x01"},
    {"\x1b", BITE_TEXT_CONTROL, "\\x1b"},
    {"\t", BITE_TEXT_CONTROL, "\\x09"},
    {"\n", BITE_TEXT_CONTROL, "\\x0a"},
    {"\r", BITE_TEXT_CONTROL, "\\x0d"},
    {"\x7f", BITE_TEXT_CONTROL, "\\x7f"},
    {"\xc2\x9b", BITE_TEXT_CONTROL, "\\u009b"},
    {"\xe2\x80\xa8", BITE_TEXT_CONTROL, "\\u2028"},
    {"\xe2\x80\xa9", BITE_TEXT_CONTROL, "\\u2029"},
    {"\xd8\x9c", BITE_TEXT_DIRECTION, "\\u061c"},
    {"\xe2\x80\x8e", BITE_TEXT_DIRECTION, "\\u200e"},
    {"\xe2\x80\x8f", BITE_TEXT_DIRECTION, "\\u200f"},
    {"\xe2\x80\xaa", BITE_TEXT_DIRECTION, "\\u202a"},
    {"\xe2\x80\xab", BITE_TEXT_DIRECTION, "\\u202b"},
    {"\xe2\x80\xac", BITE_TEXT_DIRECTION, "\\u202c"},
    {"\xe2\x80\xad", BITE_TEXT_DIRECTION, "\\u202d"},
    {"\xe2\x80\xae", BITE_TEXT_DIRECTION, "\\u202e"},
    {"\xe2\x81\xa6", BITE_TEXT_DIRECTION, "\\u2066"},
    {"\xe2\x81\xa7", BITE_TEXT_DIRECTION, "\\u2067"},
    {"\xe2\x81\xa8", BITE_TEXT_DIRECTION, "\\u2068"},
    {"\xe2\x81\xa9", BITE_TEXT_DIRECTION, "\\u2069"},
    {"\xef\xbb\xbf", BITE_TEXT_NO_CHARACTER, "\\ufeff"},
    {"\xef\xbf\xbf", BITE_TEXT_NO_CHARACTER, "\\uffff"},
    {"\xf0\x9f\xbf\xbe", BITE_TEXT_NO_CHARACTER, "\\u1fffe"},
};
#define CASES (sizeof cases / sizeof *cases)

START_TEST(each_fault_is_found_and_escaped)
{
    for (size_t i = 0; i < CASES; i++) {
        char text[40];
        char shown[60];
        char wanted[60];
        size_t bad = 99;
        (void)snprintf(text, sizeof text, "ab%scd", cases[i].text);
        (void)snprintf(wanted, sizeof wanted, "ab%scd", cases[i].shown);
        bite_text_fault fault = bite_text_check(text, strlen(text), "", &bad);
        ck_assert_msg(fault == cases[i].fault, "case %zu: %u", i, (unsigned)fault);
        ck_assert_uint_eq(bad, fault == BITE_TEXT_SOUND ? 99 : 2);
        ck_assert_uint_eq(strlen(bite_text_fault_name(fault)) > 0, fault != BITE_TEXT_SOUND);
        ck_assert_uint_eq(bite_text_escape(text, shown, sizeof shown), strlen(wanted));
        ck_assert_str_eq(shown, wanted);
        ck_assert_uint_eq(bite_text_check(shown, strlen(shown), "", NULL), BITE_TEXT_SOUND);
    }
}
END_TEST

START_TEST(only_allowed_control_characters_pass)
{
    size_t bad = 0;
    ck_assert_uint_eq(bite_text_check("a\tb\n", 4, "\t\n", &bad), BITE_TEXT_SOUND);
    ck_assert_uint_eq(bite_text_check("a\tb\n", 4, "\t", &bad), BITE_TEXT_CONTROL);
    ck_assert_uint_eq(bad, 3);
    ck_assert_uint_eq(bite_text_check("a\0b", 3, "\t\n", &bad), BITE_TEXT_CONTROL);
    ck_assert_uint_eq(bad, 1);
    ck_assert_uint_eq(bite_text_check("", 0, "", &bad), BITE_TEXT_SOUND);
}
END_TEST

/* A short buffer ends before a character or an escape; the size needed is returned all the same. */
START_TEST(escapes_are_never_truncated_inside)
{
    static const char text[] = "a\x1b\xc2\xb5z"; /* a \x1b µ z: 1 + 4 + 2 + 1 bytes */
    static const char *const shown[] = {
        "", "", "a", "a", "a", "a", "a\\x1b", "a\\x1b", "a\\x1b\xc2\xb5"};
    char out[16];
    for (size_t size = 0; size < sizeof shown / sizeof *shown; size++) {
        memset(out, '#', sizeof out);
        ck_assert_uint_eq(bite_text_escape(text, size == 0 ? NULL : out, size), 8);
        ck_assert_int_eq(out[size], '#');
        if (size > 0) {
            ck_assert_str_eq(out, shown[size]);
        }
    }
    ck_assert_uint_eq(bite_text_escape(text, out, sizeof out), 8);
    ck_assert_str_eq(out, "a\\x1b\xc2\xb5z");
    ck_assert_uint_eq(bite_text_escape(NULL, out, sizeof out), 0);
    ck_assert_str_eq(out, "");
}
END_TEST

START_TEST(truncation_leaves_complete_characters)
{
    static const char text[] = "a\xc2\xb5\xe2\x82\xac\xf0\x9f\x98\x80";
    static const size_t whole[] = {0, 1, 1, 3, 3, 3, 6, 6, 6, 6, 10};
    for (size_t length = 0; length < sizeof whole / sizeof *whole; length++) {
        ck_assert_uint_eq(bite_text_complete_length(text, length), whole[length]);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("display_text");
    TCase *tests = tcase_create("display_text");
    tcase_add_test(tests, each_fault_is_found_and_escaped);
    tcase_add_test(tests, only_allowed_control_characters_pass);
    tcase_add_test(tests, escapes_are_never_truncated_inside);
    tcase_add_test(tests, truncation_leaves_complete_characters);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
