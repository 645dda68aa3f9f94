/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts that pages are made of: plain text in ASCII and colours, bars and shares, markup,
 * times, and fields of CSV. */
#include "core/report/csv.h"
#include "core/report/html.h"
#include "core/report/text_page.h"
#include "tests/report/report_output.h"
#include "tests/support/support.h"
#include <math.h>
#include <string.h>

static report_output output;
static bite_page page;

static void begin(uint32_t columns, uint32_t ascii, uint32_t colour)
{
    bite_style style = report_style(BITE_TEXT, BITE_METRIC);
    style.columns = columns;
    style.ascii = ascii;
    style.colour = colour;
    report_output_free(&output);
    ck_assert(bite_page_open(&page, &style, report_output_add, &output, NULL));
}

static void is(const char *expected)
{
    ck_assert_int_eq(bite_page_close(&page, NULL), BITE_OK);
    ck_assert_str_eq(output.text, expected);
    report_output_free(&output);
}

START_TEST(ascii_has_a_mark_for_each_other_character)
{
    begin(80, 1, 0);
    bite_page_wrap(&page, "- ", "  ",
                   "M\xc3\xbcller \xe2\x82\xac"
                   "5 na\xc3\xafve");
    is("- M?ller ?5 na?ve\n");
    begin(80, 0, 0);
    bite_page_wrap(&page, "- ", "  ",
                   "M\xc3\xbcller \xe2\x82\xac"
                   "5");
    is("- M\xc3\xbcller \xe2\x82\xac"
       "5\n");
}
END_TEST

START_TEST(colours_are_those_of_a_verdict)
{
    static const char *const expected[] = {
        "x", "\033[32mx\033[0m", "\033[33mx\033[0m", "\033[31mx\033[0m", "\033[1mx\033[0m", "x"};
    for (int tint = 0; tint < 6; tint++) {
        begin(80, 0, 1);
        bite_page_tint(&page, tint, "x");
        is(expected[tint]);
        begin(80, 0, 0);
        bite_page_tint(&page, tint, "x");
        is("x");
    }
    begin(80, 0, 1);
    bite_page_tint(&page, -1, "x");
    is("x");
}
END_TEST

/* Twelve cells, nine of them the capacity. */
START_TEST(bars)
{
    static const struct {
        double used;
        double high;
        const char *bar;
    } cases[] = {{0.0, NAN, ".........|   "}, {0.5, NAN, "#####....|   "},
                 {0.5, 0.8, "#####==..|   "}, {1.0, 1.2, "#########|== "},
                 {1.2, NAN, "#########|## "}, {9.0, NAN, "#########|###"},
                 {0.5, 9.0, "#####====|==="}, {-1.0, NAN, ".........|   "}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        begin(80, 1, 0);
        bite_page_bar(&page, cases[i].used, cases[i].high, 12);
        is(cases[i].bar);
    }
}
END_TEST

START_TEST(shares)
{
    static const struct {
        double share;
        const char *percent;
        const char *html;
    } cases[] = {{0.0, "0", "under 0.1 %"}, {1e-28, "0", "under 0.1 %"}, {0.0049, "0.5", "0.5 %"},
                 {0.5, "50", "50 %"},       {0.0149, "1", "1 %"},        {12.344, "1234", "1234 %"},
                 {1e9, "99999", "99999 %"}};
    char text[40];
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_uint_eq(bite_page_percent(cases[i].share, text, sizeof text),
                          strlen(cases[i].percent));
        ck_assert_str_eq(text, cases[i].percent);
        ck_assert_str_eq(bite_html_percent(cases[i].share).text, cases[i].html);
    }
    ck_assert_str_eq(bite_html_percent((double)NAN).text, "-");
    ck_assert_uint_eq(bite_page_percent((double)NAN, text, sizeof text), 1);
    ck_assert_str_eq(text, "-");
}
END_TEST

START_TEST(times_as_a_shop_plans)
{
    static const struct {
        double seconds;
        const char *text;
    } cases[] = {{0.4, "0 s"},       {59.6, "60 s"},     {119.4, "119 s"},
                 {126.0, "2.1 min"}, {3600.0, "60 min"}, {10799.0, "180 min"},
                 {12600.0, "4 h"},   {86400.0, "24 h"},  {172800.0, "2 days"},
                 {1e6, "12 days"},   {(double)NAN, "-"}, {(double)INFINITY, "-"}};
    begin(80, 0, 0);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_str_eq(bite_html_time(&page, cases[i].seconds).text, cases[i].text);
    }
}
END_TEST

START_TEST(short_texts)
{
    static const struct {
        const char *text;
        size_t columns;
        const char *expected;
    } cases[] = {{NULL, 10, ""},
                 {"", 10, ""},
                 {"\xff", 10, ""},
                 {"pocket", 6, "pocket"},
                 {"pockets", 6, "pock.."},
                 {"ta\xc3\xbc\xc3\xbc\xc3\xbcx", 5, "ta\xc3\xbc.."}, /* no half of a character */
                 {"pocket", 2, ".."},
                 {"a text that is longer than any place that a drawing of a setup has for one, or "
                  "more",
                  200, "a text that is longer than any place that a drawing of a setup has f.."}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_str_eq(bite_html_short(cases[i].text, cases[i].columns).text, cases[i].expected);
    }
    ck_assert_str_eq(bite_html_plain(NULL).text, "");
    ck_assert_str_eq(bite_html_plain("feed_rate").text, "feed rate");
    ck_assert_str_eq(bite_html_count(2.6).text, "3");
    ck_assert_str_eq(bite_html_count((double)NAN).text, "-");
}
END_TEST

START_TEST(markup)
{
    const char *volatile nothing = NULL;
    begin(80, 0, 0);
    bite_html_put(&page, "<p a=\"%s\">100 %% %s%s", "<&>\"'", nothing,
                  "\x1b\xff"
                  "b");
    is("<p a=\"&lt;&amp;&gt;&quot;&#39;\">100 % b");
    begin(80, 0, 0);
    bite_html_box(&page, 1.0, (double)NAN, -3.0, 2.04, "a");
    is("<rect x=\"1\" y=\"0\" width=\"0\" height=\"2\" class=\"a\"/>\n");
    begin(80, 0, 0);
    bite_html_figure(&page, 0.0125, BITE_KIND_LENGTH);
    bite_html_figure(&page, 3.0, BITE_KIND_NUMBER);
    is("<span class=\"q\"><b>12.5</b> mm</span><span class=\"q\"><b>3</b></span>");
}
END_TEST

/* What begins as a formula does gets an apostrophe; signed numbers with a unit do not. */
START_TEST(formulas)
{
    static const struct {
        const char *text;
        int formula;
    } cases[] = {{"", 0},
                 {"a", 0},
                 {"=1", 1},
                 {"@a", 1},
                 {"\tx", 1},
                 {"-3", 0},
                 {"+3.5", 0},
                 {"-.5", 0},
                 {"-", 1},
                 {"-a", 1},
                 {"-.", 1},
                 {"+1e-5", 0},
                 {"-1E+5 mm", 0},
                 {"-1e5", 0},
                 {"-1e-5-1", 1},
                 {"-3 mm", 0},
                 {"-3 m m", 1},
                 {"+5%", 0},
                 {"-3+1", 1},
                 {"-3*A1", 1},
                 {"-5 \xc2\xb0"
                  "C",
                  0},
                 {"+1(2)", 1},
                 {"\xc3\xa4", 0}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_msg(bite_csv_is_formula(cases[i].text) == (cases[i].formula == 1), "%s",
                      cases[i].text);
    }
    begin(80, 0, 0);
    bite_csv_field(&page, 1, "=a");
    bite_csv_field(&page, 0, "=\"a\",b");
    bite_csv_field(&page, 0, "two\nlines");
    bite_csv_end(&page);
    is("'=a,\"'=\"\"a\"\",b\",\"two\nlines\"\r\n");
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("page");
    tcase_add_test(tests, ascii_has_a_mark_for_each_other_character);
    tcase_add_test(tests, colours_are_those_of_a_verdict);
    tcase_add_test(tests, bars);
    tcase_add_test(tests, shares);
    tcase_add_test(tests, times_as_a_shop_plans);
    tcase_add_test(tests, short_texts);
    tcase_add_test(tests, markup);
    tcase_add_test(tests, formulas);
    Suite *suite = suite_create("page");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
