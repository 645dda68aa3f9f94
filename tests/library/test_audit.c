/* SPDX-License-Identifier: GPL-3.0-or-later */
/* bite_audit_file as a program calls it: what it judges, where faults go, what it refuses; it
 * leaves nothing behind, also where memory runs out. */
#include "tests/library/private_library.h"
#include <stdio.h>
#include <string.h>

#define HEAD "[format]\nkind = material\nversion = 1\n[grade.a]\nlike = acrylic/cast\n"

static int told;
static int stages;
static bite_error last;
static char path[512];

static void tell(void *user, const bite_error *fault)
{
    (void)user;
    last = *fault;
    told++;
}

static void hear(void *user, const char *doing)
{
    (void)user;
    ck_assert_ptr_nonnull(doing);
    stages++;
}

/* Puts a table beside the others' folder, not among them. */
static void put_table(const char *name, const char *text)
{
    (void)snprintf(path, sizeof path, "%s/%s", private_root, name);
    bite_test_write(path, text, strlen(text));
}

static bite_status audit(const bite_allocator *allocator, bite_audit *result, bite_error *error)
{
    bite_library_options where;
    bite_audit_options options;
    bite_library_options_init(&where);
    bite_audit_options_init(&options);
    bite_audit_init(result);
    where.allocator = allocator;
    where.table_path = tables;
    where.family_path = families;
    options.library = &where;
    options.fault = tell;
    options.stage = hear;
    told = 0;
    stages = 0;
    return bite_audit_file(path, &options, result, error);
}

START_TEST(a_sound_table_is_tried)
{
    bite_audit result;
    bite_error error = BITE_ERROR_INIT;
    put_table("toy.ini", HEAD);
    ck_assert_int_eq(audit(NULL, &result, &error), BITE_OK);
    ck_assert_int_eq(told, 0);
    ck_assert_int_ge(stages, 3);
    ck_assert_uint_eq(result.kind, BITE_AUDIT_TABLE);
    ck_assert_uint_eq(result.grades, 1);
    ck_assert_uint_eq(result.cuts, 4);
    ck_assert_uint_eq(result.unfinished, 0);
}
END_TEST

START_TEST(every_fault_is_told)
{
    bite_audit result;
    bite_error error = BITE_ERROR_INIT;
    put_table("toy.ini", HEAD "density = 5\nconductivity = 1 kg\n[caution.x]\nseverity = care\n");
    ck_assert_int_eq(audit(NULL, &result, &error), BITE_BAD_FILE);
    ck_assert_int_eq(told, 3);
    ck_assert_uint_eq(error.faults, 3);
    ck_assert_uint_eq(error.line, 6);
    ck_assert_str_eq(error.file, path);
    ck_assert_str_eq(last.file, path);
    ck_assert_str_eq(last.key, "caution.x:text");
}
END_TEST

/* A grade that is like nothing there is told once, also where others are like it; each other one
 * that is wrong is told too. */
START_TEST(what_several_grades_are_like_is_told_once)
{
    bite_audit result;
    bite_error error = BITE_ERROR_INIT;
    put_table("toy.ini", HEAD "[grade.b]\nlike = nowhere/soft\n[grade.c]\nlike = b\n[grade.d]\n"
                              "like = c\n[grade.e]\nlike = f\n[grade.f]\nlike = e\n"
                              "[grade.g]\nlike = acrylic/molten\n");
    ck_assert_int_eq(audit(NULL, &result, &error), BITE_BAD_FILE);
    ck_assert_uint_eq(error.faults, 4); /* either key of the cycle may be the wrong one */
    ck_assert_int_eq(told, 4);
    ck_assert_str_eq(error.key, "grade.b:like");
    ck_assert_str_eq(last.key, "grade.g:like");
}
END_TEST

/* Writes a table of tools of 6 mm with these names and further lines. */
static void put_tools(const char *const (*tools)[2], size_t count)
{
    char text[2000] = "[format]\nkind = tools\nversion = 1\n";
    for (size_t i = 0; i < count; i++) {
        size_t used = strlen(text);
        (void)snprintf(text + used, sizeof text - used,
                       "[tool.%s]\nsource = memory\ndiameter = 6 mm\n%s", tools[i][0], tools[i][1]);
    }
    put_table("tools.ini", text);
}

/* Each tool is tried at what it is made for; one that cannot be is told with what is wrong. */
START_TEST(tools_of_each_kind_are_tried)
{
    static const char *const sound[][2] = {
        {"mill", ""},
        {"drill", "operation = drill\n"},
        {"point", "point_angle = 118 deg\n"},
        {"reamer", "operation = ream\n"},
        {"tap", "operation = tap\n"},
        {"cone", "taper = 45 deg\ntip_diameter = 0.2 mm\n"},
        {"edge", "operation = chamfer\ntaper = 45 deg\ntip_diameter = 0.2 mm\n"},
        {"vee", "taper = 30 deg\nengraves = yes\ntip_diameter = 0.1 mm\n"},
        {"threads", "thread_mill = yes\npitch_least = 1 mm\npitch_most = 1 mm\n"}};
    static const char *const faulty[][2] = {{"good", ""}, {"round", "corner_radius = 4 mm\n"}};
    bite_audit result;
    bite_error error = BITE_ERROR_INIT;
    put_tools(sound, sizeof sound / sizeof *sound);
    bite_status status = audit(NULL, &result, &error);
    ck_assert_msg(status == BITE_OK, "%s: %s", last.key, last.message);
    ck_assert_int_eq(told, 0);
    ck_assert_uint_eq(result.kind, BITE_AUDIT_TABLE);
    put_tools(faulty, sizeof faulty / sizeof *faulty);
    ck_assert_int_eq(audit(NULL, &result, &error), BITE_BAD_FILE);
    ck_assert_int_eq(told, 1);
    ck_assert_str_eq(last.key, "round:corner_radius");
    ck_assert_uint_gt(strlen(last.message), 10);
}
END_TEST

START_TEST(a_file_that_does_not_say_what_it_is)
{
    static const struct {
        const char *name;
        const char *text;
        const char *says;
        const char *hint;
        uint32_t line;
    } cases[] = {
        {"toy.ini", "[format]\nkind = materiel\nversion = 1\n", "no kind of table named materiel",
         "did you mean material?", 2},
        {"toy.ini", "[format]\nkind = zebra\nversion = 1\n", "no kind of table named zebra",
         "a table begins with [format]", 2},
        {"toy.ini", "# a remark\n[format]\nversion = 1\n", "does not say which kind of table",
         "a table begins with [format]", 2},
        {"toy.ini", "[grade.a]\nlike = acrylic/cast\n", "does not say which kind of table",
         "a table begins with [format]", 1},
        {"toy.ini",
         "[format]\nkind = material\nversion = 1\n[grade.a]\nlike = toy/b\ndensity = 1\n",
         "1 is a bare number", "write 1kg/m3", 6},
        {"Toy.ini", HEAD, "no library finds this one", "rename the file", 0},
        {"toy.ini",
         "[format]\nkind = material\nversion = 1\n[grade.a]\nlike = acrylic/kast\ndensity = 1\n",
         "acrylic has no grade named kast", "did you mean acrylic/cast?", 5},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_audit result;
        bite_error error = BITE_ERROR_INIT;
        put_table(cases[i].name, cases[i].text);
        ck_assert_msg(audit(NULL, &result, &error) == BITE_BAD_FILE, "case %zu", i);
        ck_assert_msg(strstr(last.message, cases[i].says) != NULL, "case %zu: %s", i, last.message);
        ck_assert_msg(strstr(last.hint, cases[i].hint) != NULL, "case %zu: %s", i, last.hint);
        ck_assert_uint_eq(last.line, cases[i].line);
        ck_assert_str_eq(last.file, path);
    }
}
END_TEST

START_TEST(other_files_are_not_judged)
{
    bite_audit result;
    bite_error error = BITE_ERROR_INIT;
    put_table("a.ini", "[format]\nkind = job\nversion = 1\n");
    ck_assert_int_eq(audit(NULL, &result, &error), BITE_OK);
    ck_assert_uint_eq(result.kind, BITE_AUDIT_OTHER);
    ck_assert_int_eq(told, 0);
    (void)snprintf(path, sizeof path, "%s/nothing.ini", private_root);
    ck_assert_int_eq(audit(NULL, &result, &error), BITE_NOT_FOUND);
    (void)snprintf(path, sizeof path, "%s/nothing.so", private_root);
    ck_assert_int_eq(audit(NULL, &result, &error), BITE_NOT_FOUND);
    ck_assert_int_eq(told, 0);
}
END_TEST

START_TEST(wrong_arguments_are_refused)
{
    bite_audit result;
    bite_audit_options options;
    bite_error error = BITE_ERROR_INIT;
    bite_audit_init(&result);
    bite_audit_options_init(&options);
    put_table("toy.ini", HEAD);
    ck_assert_int_eq(bite_audit_file(NULL, NULL, &result, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_audit_file("", NULL, &result, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_audit_file(path, NULL, NULL, &error), BITE_BAD_ARGUMENT);
    options.struct_size = 3;
    ck_assert_int_eq(bite_audit_file(path, &options, &result, &error), BITE_BAD_ARGUMENT);
    result.struct_size = 1;
    ck_assert_int_eq(bite_audit_file(path, NULL, &result, NULL), BITE_BAD_ARGUMENT);
}
END_TEST

static bite_test_memory memory;

static bite_status audit_once(void *with, bite_error *error)
{
    bite_audit result;
    bite_allocator allocator = bite_test_allocator(&memory);
    (void)with;
    bite_status status = audit(&allocator, &result, error);
    ck_assert_int_eq(told, 0); /* no memory is no fault of the table */
    return status;
}

START_TEST(memory_may_run_out)
{
    put_table("toy.ini", HEAD);
    bite_test_fail_allocations(&memory, 8, 50, audit_once, NULL);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("audit");
    TCase *tests = tcase_create("audit");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, a_sound_table_is_tried);
    tcase_add_test(tests, every_fault_is_told);
    tcase_add_test(tests, what_several_grades_are_like_is_told_once);
    tcase_add_test(tests, tools_of_each_kind_are_tried);
    tcase_add_test(tests, a_file_that_does_not_say_what_it_is);
    tcase_add_test(tests, other_files_are_not_judged);
    tcase_add_test(tests, wrong_arguments_are_refused);
    tcase_add_test(tests, memory_may_run_out);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
