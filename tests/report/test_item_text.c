/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record of the library in full, and two side by side, on pages of any width. */
#include "tests/report/report_output.h"
#include "tests/support/test_tables.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static bite_test_shop shop;
static bite_library *library;
static report_output output;

/* Texts that are hard to wrap: long words, characters of several bytes, blanks at their start. */
static const char holders[] =
    "[format]\nkind = holders\nversion = 1\n"
    "[holder.plain]\ntitle = plain\nsummary = a collet that is as usual as collets are\n"
    "runout = 15 um (5 .. 25)\nrunout.source = memory\n"
    "[holder.odd]\ntitle = \" \xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9 "
    "x\"\n"
    "summary = \xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad\xe4\xb8\xad"
    "Donaudampfschifffahrtsgesellschaftskapit\xc3\xa4n\n"
    "runout = 15 um (5 .. 25)\nrunout.source = \"estimate: of ours\"\n"
    "holder_diameter = 30 mm\nholder_diameter.source = memory\n";

static void open_own(void)
{
    char path[600];
    bite_test_shop_make(&shop);
    (void)snprintf(path, sizeof path, "%s/holders.ini", shop.tables);
    bite_test_write(path, holders, sizeof holders - 1);
    library = bite_test_shop_open(&shop, NULL);
}

static void close_own(void)
{
    report_output_free(&output);
    bite_library_close(library);
    bite_test_remove(shop.root);
}

static void compare(const char *first, const char *second, uint32_t columns, uint32_t sources)
{
    bite_style style = report_style(BITE_TEXT, BITE_METRIC);
    style.columns = columns;
    style.sources = sources;
    report_output_free(&output);
    ck_assert_int_eq(bite_library_compare(library, BITE_HOLDERS, first, second, &style,
                                          report_output_add, &output, NULL),
                     BITE_OK);
}

START_TEST(two_records_on_pages_of_any_width)
{
    static const uint32_t widths[] = {30, 31, 33, 40, 57, 80, 400};
    for (size_t i = 0; i < sizeof widths / sizeof *widths; i++) {
        compare("odd", "plain", widths[i], 0);
        ck_assert_ptr_nonnull(strstr(output.text, "* differs"));
        ck_assert_ptr_nonnull(strstr(output.text, "* holder_diameter"));
        ck_assert_ptr_nonnull(strstr(output.text, "  runout"));
        compare("plain", "odd", widths[i], 1);
    }
    report_output_has(&output, "* differs plain odd ");
    report_output_has(&output, "* title plain \xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9\xc3\xa9\xc3"
                               "\xa9\xc3\xa9 x ");
    report_output_has(&output, "runout 15 um (5 to 25) 15 um (5 to 25) first: memory second: "
                               "estimate: of ours ");
    report_output_has(&output, "* holder_diameter - 30 mm ");
    compare("plain", "plain", 80, 1);
    report_output_has(&output, "both: memory ");
    report_output_lacks(&output, "first:");
}
END_TEST

START_TEST(one_record)
{
    static const struct {
        bite_collection collection;
        const char *name;
        const char *says;
    } cases[] = {{BITE_HOLDERS, "plain", "plain a collet that is as usual as collets are file "},
                 {BITE_FLUIDS, "IPA", "on a material: coolbite show isopropanol --material NAME "},
                 {BITE_GRADES, "acrylic/cast", " fluids NO: "},
                 {BITE_SYMPTOMS, "melted-edge", "melted-edge "}};
    bite_error error = BITE_ERROR_INIT;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_style style = report_style(BITE_TEXT, BITE_METRIC);
        report_output_free(&output);
        ck_assert_int_eq(bite_library_show(library, cases[i].collection, cases[i].name, &style,
                                           report_output_add, &output, NULL),
                         BITE_OK);
        report_output_has(&output, cases[i].says);
        report_output_lacks(&output, "]memory");
        style.format = BITE_JSON;
        report_output_free(&output);
        ck_assert_int_eq(bite_library_show(library, cases[i].collection, cases[i].name, &style,
                                           report_output_add, &output, NULL),
                         BITE_OK);
        json_t *root = report_output_json(&output);
        ck_assert_ptr_nonnull(report_text(root, "figures.0.name"));
        json_decref(root);
        style.format = BITE_SVG;
        ck_assert_int_eq(bite_library_show(library, cases[i].collection, cases[i].name, &style,
                                           report_output_add, &output, &error),
                         BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.key, "style.format");
    }
    ck_assert_int_eq(
        bite_library_show(library, BITE_HOLDERS, "plian", NULL, report_output_add, &output, &error),
        BITE_UNKNOWN_NAME);
    ck_assert_msg(strstr(error.hint, "plain") != NULL, "%s", error.hint);
    ck_assert_int_eq(bite_library_compare(library, BITE_HOLDERS, "plain", "plian", NULL,
                                          report_output_add, &output, &error),
                     BITE_UNKNOWN_NAME);
    ck_assert_int_eq(
        bite_library_compare(library, BITE_HOLDERS, "plain", "odd", NULL, NULL, NULL, &error),
        BITE_BAD_ARGUMENT);
}
END_TEST

/* What an answer was made without is said on its short page too, however many other cautions there
 * are. */
START_TEST(a_table_that_was_left_out)
{
    static const char broken[] =
        "[format]\nkind = material\nversion = 1\n[grade.own]\nno_such = 1\n";
    bite_library_options options;
    bite_library *left = NULL;
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    char own[500];
    char name[600];
    char tables[1100];
    (void)snprintf(own, sizeof own, "%s/own", shop.root);
    ck_assert_int_eq(mkdir(own, 0700), 0);
    (void)snprintf(name, sizeof name, "%s/materials", own);
    ck_assert_int_eq(mkdir(name, 0700), 0);
    (void)snprintf(name, sizeof name, "%s/materials/acrylic.ini", own);
    bite_test_write(name, broken, sizeof broken - 1);
    (void)snprintf(tables, sizeof tables, "%s:%s", own, shop.tables);
    bite_library_options_init(&options);
    options.family_path = shop.families;
    options.table_path = tables;
    ck_assert_int_eq(bite_library_open(&options, &left, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_new(left, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "15000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "600mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "0.5mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, BITE_DRAWS_NONE, 0.9, &answer, NULL), BITE_OK);
    bite_style style = report_style(BITE_TEXT, BITE_METRIC);
    style.columns = 40; /* a page that is full before its cautions */
    report_output_free(&output);
    ck_assert_int_eq(bite_answer_write(answer, &style, report_output_add, &output, NULL), BITE_OK);
    report_output_has(&output,
                      "own/materials/acrylic.ini has a fault and was left out, so nothing in "
                      "it counts here: ");
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(left);
}
END_TEST

int main(void)
{
    TCase *tests = tcase_create("item_text");
    tcase_add_unchecked_fixture(tests, open_own, close_own);
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, two_records_on_pages_of_any_width);
    tcase_add_test(tests, one_record);
    tcase_add_test(tests, a_table_that_was_left_out);
    Suite *suite = suite_create("item_text");
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
