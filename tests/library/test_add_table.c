/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables from memory: found before those of folders, checked as those are, and told by name. */
#include "core/library/collection.h"
#include "core/library/material.h"
#include "tests/library/private_library.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define HEAD "[format]\nkind = material\nversion = 1\n"

static int told;

static void tell(void *user, const bite_error *fault)
{
    (void)user;
    ck_assert_str_eq(fault->file, "materials/toy.ini");
    told++;
}

static bite_status add(bite_library *library, const char *name, const char *text, bite_error *error)
{
    return bite_library_add_table(library, name, text, strlen(text), tell, NULL, error);
}

static double density(const bite_library *library, const char *name)
{
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_library_grade(library, name, &material, &error) == BITE_OK, "%s: %s", name,
                  error.message);
    return bite_item_figure(&material->record, "density");
}

START_TEST(tables_are_found_before_folders)
{
    bite_library *library = open_private_library(NULL);
    bite_error error = BITE_ERROR_INIT;
    const bite_item_record *record = NULL;
    ck_assert_int_eq(add(library, "materials/toy.ini",
                         HEAD "[grade.a]\nlike = acrylic/cast\ndensity = 1111 "
                              "kg/m3\ndensity.source = memory\n",
                         &error),
                     BITE_OK);
    ck_assert_int_eq(add(library, "materials/acrylic.ini",
                         HEAD "[grade.cast]\ndensity = 1181 kg/m3\ndensity.source = memory\n",
                         &error),
                     BITE_OK);
    ck_assert_int_eq(add(library, "materials/acrylic.ini",
                         HEAD "[grade.cast]\ndensity = 1182 kg/m3\ndensity.source = memory\n",
                         &error),
                     BITE_OK);
    ck_assert_int_eq(add(library, "machines.ini",
                         "[format]\nkind = machines\nversion = 1\n[machine.bench-24k]\n"
                         "spindle_fastest = 20000 rpm\nsource = memory\n",
                         &error),
                     BITE_OK);
    bite_assert_near(density(library, "toy"), 1111.0, 1e-12);
    bite_assert_near(density(library, "acrylic/cast"), 1182.0, 1e-12);
    bite_assert_near(density(library, "acrylic/extruded"), 1182.0, 1e-12);
    ck_assert_int_eq(bite_library_record(library, BITE_MACHINES, "bench-24k", &record, &error),
                     BITE_OK);
    ck_assert_str_eq(record->file, "machines.ini");
    ck_assert_int_eq(bite_library_record(library, BITE_MACHINES, "small-vmc", &record, &error),
                     BITE_OK);
    ck_assert_uint_eq(bite_library_count(library, BITE_FAMILIES), 33);
    /* what has been read stays as it is */
    ck_assert_int_eq(add(library, "materials/toy.ini", HEAD "[grade.b]\nlike = a\n", &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(add(library, "machines.ini",
                         "[format]\nkind = machines\nversion = 1\n[machine.x]\n", &error),
                     BITE_BAD_ARGUMENT);
    bite_library_close(library);
}
END_TEST

START_TEST(faults_are_told_with_the_name)
{
    bite_library *library = open_private_library(NULL);
    bite_error error = BITE_ERROR_INIT;
    told = 0;
    ck_assert_int_eq(add(library, "materials/toy.ini",
                         HEAD "[grade.a]\ndensty = 3\nmodulus = 3 kg\nsource = memory\n", &error),
                     BITE_BAD_FILE);
    ck_assert_int_eq(told, 2);
    ck_assert_str_eq(error.file, "materials/toy.ini");
    ck_assert_uint_eq(error.line, 5);
    ck_assert_str_eq(error.key, "grade.a:densty");
    ck_assert_int_eq(add(library, "materials/toy.ini",
                         HEAD "[caution.a]\nseverity = note\ntext = x\nsource = memory\nwhen = "
                              "depht above 1mm\n",
                         &error),
                     BITE_BAD_FILE);
    ck_assert_uint_eq(error.line, 8);
    ck_assert_uint_eq(error.column, 8);
    ck_assert_int_eq(told, 3);
    /* nothing of it was taken */
    const bite_material *material = NULL;
    ck_assert_int_eq(bite_library_grade(library, "toy", &material, &error), BITE_UNKNOWN_NAME);
    bite_library_close(library);
}
END_TEST

START_TEST(wrong_arguments_are_refused)
{
    static const char *const names[] = {"",
                                        "toy.ini",
                                        "materials/",
                                        "materials/.ini",
                                        "materials/../x.ini",
                                        "materials/Toy.ini",
                                        "materials/toy",
                                        "/tools.ini",
                                        "tool.ini"};
    bite_library *library = open_private_library(NULL);
    bite_error error = BITE_ERROR_INIT;
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        ck_assert_msg(add(library, names[i], HEAD, &error) == BITE_BAD_ARGUMENT, "%s", names[i]);
        ck_assert_uint_gt(strlen(error.hint), 0);
    }
    ck_assert_ptr_nonnull(strstr(error.hint, "tools.ini"));
    ck_assert_int_eq(add(NULL, "tools.ini", "", &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(add(library, NULL, "", &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_add_table(library, "tools.ini", NULL, 3, NULL, NULL, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_add_table(library, "tools.ini", NULL, 0, NULL, NULL, NULL),
                     BITE_BAD_FILE);
    /* of one name there is a bounded number */
    for (int i = 0; i < 9; i++) {
        ck_assert_int_eq(add(library, "materials/toy.ini", HEAD "[grade.a]\n", &error),
                         i < 8 ? BITE_OK : BITE_BAD_ARGUMENT);
    }
    bite_library_close(library);
}
END_TEST

/* The n-th allocation fails, for every n. */
START_TEST(every_failed_allocation_is_reported)
{
    static const char text[] = HEAD "[grade.a]\nlike = acrylic/cast\n";
    for (size_t n = 1; n < 2000; n++) {
        bite_test_memory memory = {.fail_at = n};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_library_options options = {sizeof options, &allocator, families, tables};
        bite_library *library = NULL;
        const bite_material *material = NULL;
        bite_status status = bite_library_open(&options, &library, NULL);
        status = status != BITE_OK ? status
                                   : bite_library_add_table(library, "materials/toy.ini", text,
                                                            sizeof text - 1, NULL, NULL, NULL);
        status = status != BITE_OK ? status : bite_library_grade(library, "toy", &material, NULL);
        bite_library_close(library);
        ck_assert_uint_eq(memory.held, 0);
        if (status == BITE_OK) {
            return;
        }
        ck_assert_int_eq(status, BITE_NO_MEMORY);
    }
    ck_abort_msg("2000 failed allocations did not reach the end");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tables from memory");
    TCase *tests = tcase_create("tables from memory");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, tables_are_found_before_folders);
    tcase_add_test(tests, faults_are_told_with_the_name);
    tcase_add_test(tests, wrong_arguments_are_refused);
    tcase_add_test(tests, every_failed_allocation_is_reported);
    tcase_set_timeout(tests, 60);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
