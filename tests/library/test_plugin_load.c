/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plugin loading: good and broken plugins, what they supply, and files that are not plugins. */
#include "core/library/collection.h"
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "tests/library/private_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

START_TEST(a_table_without_plugin_is_a_plain_material)
{
    char path[700];
    (void)snprintf(path, sizeof path, "%s/acrylic.so", families);
    ck_assert_int_eq(unlink(path), 0);
    bite_library *library = open_private_library(NULL);
    const bite_material *material = NULL;
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, NULL), BITE_OK);
    ck_assert_ptr_null(material->family);
    ck_assert_ptr_null(bite_item_field(&material->record, "relaxing"));
    bite_library_close(library);
}
END_TEST

START_TEST(a_plugin_completes_its_grades)
{
    bite_library *library = open_private_library(NULL);
    const bite_material *material = NULL;
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, NULL), BITE_OK);
    const bite_field_value *relaxing = bite_item_field(&material->record, "relaxing");
    ck_assert_ptr_nonnull(relaxing);
    bite_assert_near(relaxing->value,
                     bite_item_field(&material->record, "transition")->value - 20.0, 1e-12);
    ck_assert_uint_eq(relaxing->grade, BITE_GRADE_ESTIMATE);
    bite_library_close(library);
}
END_TEST

static void expect_refused(bite_status status, const char *says)
{
    bite_library *library = open_private_library(NULL);
    const bite_material *material = NULL;
    for (int again = 0; again < 2; again++) {
        bite_error error = BITE_ERROR_INIT;
        bite_status got = bite_library_grade(library, "acrylic/cast", &material, &error);
        ck_assert_msg(got == status, "%s: %s", bite_status_name(got), error.message);
        ck_assert_msg(strstr(error.message, says) != NULL, "%s", error.message);
        ck_assert_uint_gt(strlen(error.file), 3);
    }
    ck_assert_int_eq(bite_library_grade(library, "aluminium", &material, NULL), BITE_OK);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 1);
    bite_library_close(library);
}

START_TEST(broken_plugins_are_left_out_with_the_reason)
{
    static const struct {
        const char *built;
        const char *says;
    } cases[] = {{"newer", "version 99"},
                 {"short", "shorter"},
                 {"none", "does not export bite_family_entry"},
                 {"null", "returns no family"},
                 {"named", "the name of its family is not the name of its file"},
                 {"unchecked", "its own check"},
                 {"unresolved", "cannot be opened"},
                 {"folder", "plain file name"},
                 {"table_escape", "plain file name"},
                 {"reason_escape", "two and two are \\x1b[31mfive\\xff"},
                 {"unfilled", "cannot complete"},
                 {"sourceless", "the source does not begin with a grade"},
                 {"absurd", "outside its possible range"},
                 {"source_bytes", "set density: the source has bytes in it that are not UTF-8"},
                 {"source_escape", "set density: the source has a control character in it"},
                 {"source_turned",
                  "set density: the source has a character in it that changes the direction"}};
    char built[200];
    (void)snprintf(built, sizeof built, "tests/plugins/.libs/%s.so", cases[_i].built);
    put_family(built, "acrylic");
    if (_i >= 10) { /* the plugin loads; completing its grades fails */
        bite_library *library = open_private_library(NULL);
        const bite_material *material = NULL;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, &error),
                         BITE_BAD_PLUGIN);
        ck_assert_msg(strstr(error.message, cases[_i].says) != NULL, "%s", error.message);
        ck_assert_int_eq(bite_library_grade(library, "aluminium", &material, NULL), BITE_OK);
        bite_library_close(library);
        return;
    }
    expect_refused(BITE_BAD_PLUGIN, cases[_i].says);
}
END_TEST

/* There is no answer, whether or not the plugin reports that its caution was refused. */
START_TEST(refused_cautions_leave_no_answer)
{
    static const struct {
        const char *built;
        const char *says;
    } cases[] = {{"caution_bytes", "caution toy: bytes in it that are not UTF-8"},
                 {"caution_escape", "caution toy: a control character in it"},
                 {"caution_ignored", "caution toy: a control character in it"},
                 {"caution_lines", "caution toy: a control character in it"},
                 {"caution_source", "caution toy: a character in it that changes the direction"}};
    char built[200];
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    (void)snprintf(built, sizeof built, "tests/plugins/.libs/%s.so", cases[_i].built);
    put_family(built, "acrylic");
    bite_library *library = open_private_library(NULL);
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "12000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "200mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, 0, 0.95, &answer, &error), BITE_BAD_PLUGIN);
    ck_assert_ptr_null(answer);
    ck_assert_msg(strstr(error.message, cases[_i].says) != NULL, "%s", error.message);
    ck_assert_ptr_nonnull(strstr(error.file, "/acrylic.so"));
    bite_request_free(request);
    bite_library_close(library);
}
END_TEST

/* The user may name a folder with any bytes; what is displayed must be plain text. */
START_TEST(paths_are_escaped_for_display)
{
    char odd[450];
    char path[700];
    bite_item item;
    const bite_material *material = NULL;
    bite_library *library = NULL;
    (void)snprintf(odd, sizeof odd, "%s/odd\x1b[31m\xff", private_root);
    ck_assert_int_eq(mkdir(odd, 0755), 0);
    (void)snprintf(path, sizeof path, "%s/families", odd);
    ck_assert_int_eq(rename(families, path), 0);
    (void)snprintf(private_shop.families, sizeof private_shop.families, "%s/families", odd);
    (void)snprintf(path, sizeof path, "%s/tables", odd);
    ck_assert_int_eq(rename(tables, path), 0);
    (void)snprintf(private_shop.tables, sizeof private_shop.tables, "%s/tables", odd);
    write_table("materials/toy.ini", "[format]\n");
    library = open_private_library(NULL);
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, NULL), BITE_OK);
    ck_assert_ptr_nonnull(material->family);
    ck_assert_ptr_nonnull(strstr(material->record.file, "/odd\\x1b[31m\\xff/tables/"));
    ck_assert_ptr_nonnull(strstr(material->plugin, "/odd\\x1b[31m\\xff/families/"));
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 1);
    ck_assert_int_eq(bite_library_item(library, BITE_LEFT_OUT, 0, &item, NULL), BITE_OK);
    ck_assert_ptr_nonnull(strstr(item.file, "/odd\\x1b[31m\\xff/tables/materials/toy.ini"));
    bite_library_close(library);
}
END_TEST

START_TEST(files_that_are_not_plugins_are_refused)
{
    char path[700];
    (void)snprintf(path, sizeof path, "%s/acrylic.so", families);
    bite_test_write(path, "not a program", 13);
    expect_refused(BITE_BAD_PLUGIN, "cannot be opened");
    bite_test_write(path, "", 0);
    expect_refused(BITE_BAD_PLUGIN, "cannot be opened");
    ck_assert_int_eq(unlink(path), 0);
    ck_assert_int_eq(symlink("/nonexistent/nowhere.so", path), 0);
    expect_refused(BITE_BAD_PLUGIN, "symbolic link to a file that does not exist");
    ck_assert_int_eq(unlink(path), 0);
    ck_assert_int_eq(mkdir(path, 0755), 0);
    expect_refused(BITE_BAD_PLUGIN, "folder");
}
END_TEST

START_TEST(files_that_others_can_write_are_refused)
{
    char path[700];
    (void)snprintf(path, sizeof path, "%s/acrylic.so", families);
    ck_assert_int_eq(chmod(path, 0666), 0);
    expect_refused(BITE_UNSAFE, "written by users other than its owner and root");
    ck_assert_int_eq(chmod(path, 0664), 0);
    expect_refused(BITE_UNSAFE, "written by users other than its owner and root");
    ck_assert_int_eq(chmod(path, 0644), 0);
    ck_assert_int_eq(chmod(families, 0777), 0);
    bite_library *library = open_private_library(NULL);
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, &error), BITE_UNSAFE);
    ck_assert_ptr_nonnull(strstr(error.message, "folder"));
    bite_library_close(library);
    ck_assert_int_eq(chmod(families, 0755), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("plugin loading");
    TCase *tests = tcase_create("plugin loading");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, a_table_without_plugin_is_a_plain_material);
    tcase_add_test(tests, a_plugin_completes_its_grades);
    tcase_add_loop_test(tests, broken_plugins_are_left_out_with_the_reason, 0, 16);
    tcase_add_loop_test(tests, refused_cautions_leave_no_answer, 0, 5);
    tcase_add_test(tests, paths_are_escaped_for_display);
    tcase_add_test(tests, files_that_are_not_plugins_are_refused);
    tcase_add_test(tests, files_that_others_can_write_are_refused);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
