/* SPDX-License-Identifier: GPL-3.0-or-later */
/* INI files and typed tables: what is read, what is refused and where, and what happens without
 * memory. */
#include "core/tables/provenance.h"
#include "core/tables/typed_table.h"
#include "tests/support/support.h"
#include "tests/support/test_locale.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const words[] = {"soft", "hard", NULL};
static const bite_field fields[] = {
    {"title", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"like", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"state", BITE_FIELD_WORD, 0, 0, 0, words},
    {"density", BITE_FIELD_FIGURE, BITE_KIND_DENSITY, 100, 25000, NULL},
    {"heat_capacity", BITE_FIELD_FIGURE, BITE_KIND_HEAT_CAPACITY, 50, 6000, NULL},
    {"share", BITE_FIELD_FIGURE, BITE_KIND_NUMBER, 0, 1, NULL},
    {"strength.at", BITE_FIELD_CURVE, BITE_KIND_STRESS, 1e3, 1e10, NULL},
    {"uptake", BITE_FIELD_FIGURE, BITE_KIND_FRACTION, 0, 0.5, NULL},
};
static const bite_section_schema sections[] = {
    {"grade.", fields, sizeof fields / sizeof *fields, 1, 1}};
static const bite_table_schema schema = {"toys", 1, sections, 1, 0};

#define HEAD "[format]\nkind = toys\nversion = 1\n"

typedef struct fault_list {
    int count;
    bite_error faults[64];
} fault_list;

static void record_fault(void *user, const bite_error *fault)
{
    fault_list *list = user;
    if (list->count < 64) {
        list->faults[list->count] = *fault;
    }
    list->count++;
}

static bite_status parse(const char *text, fault_list *list, bite_table **table, bite_error *error)
{
    list->count = 0;
    return bite_table_parse(bite_memory_default(), text, strlen(text), "toy.ini", &schema,
                            record_fault, list, table, error);
}

START_TEST(figures_curves_and_words_are_read)
{
    bite_test_set_locale(bite_test_locales[_i]);
    fault_list list;
    bite_table *table = NULL;
    bite_error error = BITE_ERROR_INIT;
    const char *text =
        HEAD "# remark\n[grade.a-1]\r\ntitle = \"a; b # c\"\nstate = Hard\nsource = memory\n"
             "density = 1.19e3 kg/m3 (1.17 g/cm3 .. 1.2E3)\n density.source = paper: Someone 2001, "
             "table 2\n"
             "heat_capacity\t=\t1466 J/kg/K (1380 .. 1520)\nshare = 0.5 (0.25 .. 0.75)\n"
             "uptake = 0.5 % (0.25 .. 2 %)\n"
             "strength.at = -40degC 110MPa, 23degC 80MPa, 70degC 40MPa\n"
             "[grade.b]\nlike = a-1\nshare = 0.1\nshare.source = common-practice\n";
    ck_assert_msg(parse(text, &list, &table, &error) == BITE_OK, "%s:%u:%u %s %s", error.file,
                  error.line, error.column, error.key, error.message);
    const bite_section *a = bite_table_find(table, "grade.a-1");
    ck_assert_ptr_nonnull(a);
    ck_assert_str_eq(a->tail, "a-1");
    ck_assert_str_eq(bite_section_value(a, "title")->text, "a; b # c");
    ck_assert_uint_eq(bite_section_value(a, "state")->word, 1);
    const bite_field_value *density = bite_section_value(a, "density");
    bite_assert_near(density->value, 1190.0, 1e-12);
    bite_assert_near(density->low, 1170.0, 1e-12);
    bite_assert_near(density->high, 1200.0, 1e-12);
    ck_assert_uint_eq(density->grade, BITE_GRADE_PAPER);
    ck_assert_uint_eq(bite_section_value(a, "share")->grade, BITE_GRADE_MEMORY);
    bite_assert_near(bite_section_value(a, "heat_capacity")->high, 1520.0, 1e-12);
    bite_assert_near(bite_section_value(a, "uptake")->low, 0.0025, 1e-12); /* per cent, too */
    bite_assert_near(bite_section_value(a, "uptake")->high, 0.02, 1e-12);
    const bite_field_value *curve = bite_section_value(a, "strength.at");
    ck_assert_uint_eq(curve->curve.count, 3);
    bite_assert_near(curve->curve.temperature[0], 233.15, 1e-12);
    bite_assert_near(curve->curve.value[2], 40e6, 1e-12);
    const bite_section *b = bite_table_find(table, "grade.b");
    bite_assert_near(bite_section_value(b, "density")->value, 1190.0, 1e-12);
    bite_assert_near(bite_section_value(b, "share")->value, 0.1, 1e-12);
    ck_assert_ptr_null(bite_section_value(b, "title"));
    bite_table_free(table);
}
END_TEST

START_TEST(grades_of_sources_have_words)
{
    static const char *const names[] = {"",       "standard",  "handbook",
                                        "paper",  "datasheet", "common-practice",
                                        "memory", "estimate",  ""};
    for (int i = 0; i < (int)(sizeof names / sizeof *names); i++) {
        ck_assert_str_eq(bite_source_grade_name((bite_source_grade)i), names[i]);
    }
}
END_TEST

START_TEST(each_fault_names_its_place_and_a_remedy)
{
    static const struct {
        const char *text;
        uint32_t line;
        const char *says;
    } cases[] = {
        {"", 0, "empty"},
        {"\n\n# only remarks\n", 0, "empty"},
        {"key = 1\n", 1, "before the first section"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3\n", 5, "no source"},
        {HEAD "[grade.a]\ndensity = 1190\ndensity.source = memory\n", 5, "bare number"},
        {HEAD "[grade.a]\ndensity = 1,190 kg/m3\nsource = memory\n", 5, "comma"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3 (1200 .. 1300)\nsource = memory\n", 5, "band"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3 (1100 - 1300)\nsource = memory\n", 5, "two points"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3 (1100 .. 1300\nsource = memory\n", 5, "bracket"},
        {HEAD "[grade.a]\ndensity = 1 kg/m3\nsource = memory\n", 5, "outside"},
        {HEAD "[grade.a]\ndensty = 1190 kg/m3\nsource = memory\n", 5, "did you mean density"},
        {HEAD "[grade.a]\nshare.source = memory\n", 5, "this source has no figure"},
        {HEAD "[grade.a]\nshrae.source = memory\n", 5, "did you mean share?"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3 (1/ .. 1300)\nsource = memory\n", 5,
         "/ is not a unit"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3 (1e .. 1300)\nsource = memory\n", 5,
         "e is not a unit"},
        {HEAD "[grade.a]\ndensity = 2380/2 kg/m3 (2200/2 .. 1189)\nsource = memory\n", 5,
         "not within its band"},
        {HEAD "[grade.a]\nshare = 0.5\nshare.source = hearsay: a friend\n", 6, "grade"},
        {HEAD "[grade.a]\nshare = 0.5\nshare.source = paper\n", 6, "grade"},
        {HEAD "[grade.a]\nstate = liquid\n", 5, "soft, hard"},
        {HEAD "[grade.a]\nstrength.at = 23degC 80MPa\nsource = memory\n", 5, "two points"},
        {HEAD "[grade.a]\nstrength.at = 70degC 80MPa, 23degC 90MPa\nsource = memory\n", 5, "rise"},
        {HEAD "[grade.a]\nstrength.at = 2K 80MPa, 23degC 90MPa\nsource = memory\n", 5,
         "a temperature of the curve"},
        {HEAD "[grade.a]\nstrength.at = 23degC 80MPa, 6000K 90MPa\nsource = memory\n", 5,
         "not plausible as a temperature"},
        {HEAD "[grade.a]\nstrength.at = 23degC 80MPa, 4000K 90MPa\nsource = memory\n", 5,
         "a temperature of the curve"},
        {HEAD "[grade.a]\nstrength.at = 23degC 80MPa, 90degC 1Pa\nsource = memory\n", 5,
         "a point of the curve is outside"},
        {HEAD "[grade.a]\nstrength.at = 23degC 80MPa, 90degC 90GPa\nsource = memory\n", 5,
         "a point of the curve is outside"},
        {HEAD "[grade.a]\nstrength.at = 23degC 80MPa, 90degC\nsource = memory\n", 5,
         "a temperature, a blank and a figure"},
        {HEAD "[grade.a]\nstrength.at = 23mm 80MPa, 90degC 70MPa\nsource = memory\n", 5,
         "is a length; a temperature was expected"},
        {HEAD
         "[grade.a]\nstrength.at = 1degC 9MPa, 2degC 9MPa, 3degC 9MPa, 4degC 9MPa, 5degC 9MPa, "
         "6degC 9MPa, 7degC 9MPa, 8degC 9MPa, 9degC 9MPa\nsource = memory\n",
         5, "more than eight points"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3 (1100 .. 1300 kg)\nsource = memory\n", 5,
         "kg is not a unit of a density"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3 (a .. 1300)\nsource = memory\n", 5,
         "does not begin with a number"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3 (1100 .. 30000)\nsource = memory\n", 5,
         "outside 100 kg/m3 to 25000 kg/m3"},
        {HEAD "[grade.a]\ndensity = 1190 kg/m3 (\nsource = memory\n", 5, "not closed"},
        {HEAD "[grade.a]\nlike = b\n", 5, "no section"},
        {HEAD "[grade.a]\nlike = b\n[grade.b]\nlike = a\n", 7, "cycle"},
        {HEAD "[grad.a]\n", 4, "no section"},
        {HEAD "[grade.a]\n[grade.a]\n", 5, "stood before"},
        {HEAD "[grade.a]\nshare = 0.5\nshare = 0.6\nsource = memory\n", 6, "before already"},
        {HEAD "[grade.a\n", 4, "not closed"},
        {HEAD "[grade.a] # x\n", 4, "behind the section"},
        {HEAD "[Grade.A]\n", 4, "no section's name"},
        {HEAD "[grade.a]\nShare = 1\n", 5, "no key's name"},
        {HEAD "[grade.a]\ntitle = a # b\n", 5, "quotes"},
        {HEAD "[grade.a]\ntitle = \"a\n", 5, "not closed"},
        {HEAD "[grade.a]\ntitle = \"a\" b\n", 5, "behind the quoted"},
        {HEAD "[grade.a]\ntitle = a\\\n", 5, "backslash"},
        {HEAD "[grade.a]\ntitle = 'a'\n", 5, "single quote"},
        {HEAD "[grade.a]\ntitle =\n", 5, "no value after the equals sign"},
        {HEAD "[grade.a]\njust words\n", 5, "none that a table knows"},
        {HEAD "[grade.a]\ntitle = \x01\n", 5, "control"},
        {HEAD "[grade.a]\ntitle = \xff\n", 5, "UTF-8"},
        {HEAD "[grade.a]\ntitle = \xc2\x9b"
              "31m\n",
         5, "control"},
        {HEAD "[grade.a]\ntitle = \xe2\x80\xae"
              "cba\n",
         5, "direction of writing"},
        {HEAD "[grade.a]\n# \xe2\x81\xa6\n", 5, "direction of writing"},
        {HEAD "[grade.a]\ntitle = a\tb\n", 5, "tab"},
        {HEAD "[grade.a]\ntitle = \"a\tb\"\n", 5, "tab"},
        {"\xef\xbb\xbf" HEAD, 1, "byte order mark"},
        {"[format]\nkind = toys\n", 1, "[format]"},
        {"[format]\nkind = joys\nversion = 1\n", 2, "joys"},
        {"[format]\nkind = toys\nversion = 2\n", 3, "newer"},
        {"[format]\nkind = toys\nversion = one\n", 3, "version"},
        {"[grade.a]\nshare = 1\nsource = memory\n", 0, "[format]"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        fault_list list;
        bite_table *table = NULL;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(parse(cases[i].text, &list, &table, &error) == BITE_BAD_FILE, "case %zu: %s",
                      i, cases[i].text);
        ck_assert_ptr_null(table);
        ck_assert_str_eq(error.file, "toy.ini");
        ck_assert_msg(error.line == cases[i].line, "case %zu: line %u: %s", i, error.line,
                      error.message);
        ck_assert_msg(strstr(error.message, cases[i].says) != NULL ||
                          strstr(error.hint, cases[i].says) != NULL,
                      "case %zu: %s (%s)", i, error.message, error.hint);
        ck_assert_int_ge(list.count, 1);
    }
}
END_TEST

START_TEST(all_faults_of_a_file_are_reported)
{
    fault_list list;
    bite_table *table = NULL;
    bite_error error = BITE_ERROR_INIT;
    const char *text = HEAD "[grade.a]\ndensty = 1 kg/m3\nshare = 2\nshare.source = "
                            "memory\ndensity = 1190 kg/m3\nstate = odd\n[grae.b]\n";
    ck_assert_int_eq(parse(text, &list, &table, &error), BITE_BAD_FILE);
    ck_assert_int_eq(list.count, 5);
    ck_assert_uint_eq(error.faults, 5);
    ck_assert_uint_eq(error.line, list.faults[0].line);
    for (int i = 0; i < list.count; i++) {
        ck_assert_uint_gt(list.faults[i].line, 3);
        ck_assert_uint_gt(strlen(list.faults[i].key), 3);
    }
}
END_TEST

START_TEST(long_lines_and_too_many_keys_are_refused)
{
    fault_list list;
    bite_table *table = NULL;
    bite_error error = BITE_ERROR_INIT;
    size_t size = (size_t)1 << 20;
    char *text = malloc(size + 200);
    ck_assert_ptr_nonnull(text);
    strcpy(text, HEAD "[grade.a]\ntitle = ");
    size_t head = strlen(text);
    memset(text + head, 'x', size - head - 20);
    strcpy(text + size - 20, "\n");
    ck_assert_int_eq(parse(text, &list, &table, &error), BITE_BAD_FILE);
    ck_assert_ptr_nonnull(strstr(error.message, "too long"));
    ck_assert_uint_eq(error.line, 5);
    memset(text, 'x', size + 100);
    text[size + 100] = 0;
    ck_assert_int_eq(parse(text, &list, &table, &error), BITE_BAD_FILE);
    ck_assert_ptr_nonnull(strstr(error.message, "larger"));
    char *to = stpcpy(text, HEAD);
    for (int i = 0; i < 16100; i++) {
        to += sprintf(to, "[grade.n%d]\n", i);
    }
    ck_assert_int_eq(parse(text, &list, &table, &error), BITE_BAD_FILE);
    ck_assert_ptr_nonnull(strstr(error.message, "more keys"));
    free(text);
}
END_TEST

/* A line of exactly 1000 bytes is accepted, and iniparser reads the same text. */
START_TEST(the_longest_line_is_read)
{
    fault_list list;
    bite_table *table = NULL;
    bite_error error = BITE_ERROR_INIT;
    char text[1400];
    char *to = stpcpy(text, HEAD "[grade.a]\ntitle = ");
    memset(to, 'x', 1000 - strlen("title = "));
    to[1000 - strlen("title = ")] = 0;
    ck_assert_int_eq(parse(text, &list, &table, &error), BITE_OK);
    ck_assert_uint_eq(strlen(bite_section_value(bite_table_find(table, "grade.a"), "title")->text),
                      1000 - strlen("title = "));
    bite_table_free(table);
}
END_TEST

/* The n-th allocation fails, for every n: it is reported, and no memory is leaked. */
START_TEST(each_failing_allocation_is_reported)
{
    const char *text =
        HEAD "[grade.a]\ndensity = 1190 kg/m3\nsource = memory\n[grade.b]\nlike = a\n";
    for (size_t n = 1; n < 200; n++) {
        bite_test_memory memory = {.fail_at = n};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_table *table = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_status status = bite_table_parse(&allocator, text, strlen(text), "toy.ini", &schema,
                                              NULL, NULL, &table, &error);
        if (status == BITE_OK) {
            bite_table_free(table);
            ck_assert_uint_eq(memory.held, 0);
            ck_assert_uint_gt(n, 3);
            return;
        }
        ck_assert_int_eq(status, BITE_NO_MEMORY);
        ck_assert_ptr_null(table);
        ck_assert_uint_eq(memory.held, 0);
    }
    ck_abort_msg("200 allocations are not enough for a small table");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("table");
    TCase *tests = tcase_create("table");
    tcase_add_loop_test(tests, figures_curves_and_words_are_read, 0, BITE_TEST_LOCALES);
    tcase_add_test(tests, grades_of_sources_have_words);
    tcase_add_test(tests, each_fault_names_its_place_and_a_remedy);
    tcase_add_test(tests, all_faults_of_a_file_are_reported);
    tcase_add_test(tests, long_lines_and_too_many_keys_are_refused);
    tcase_add_test(tests, the_longest_line_is_read);
    tcase_add_test(tests, each_failing_allocation_is_reported);
    tcase_set_timeout(tests, 60);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
