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
    tcase_add_test(tests, other_files_are_not_judged);
    tcase_add_test(tests, wrong_arguments_are_refused);
    tcase_add_test(tests, memory_may_run_out);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
