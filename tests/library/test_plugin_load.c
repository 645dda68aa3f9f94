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

/* What the table of acrylic says about its plugin. */
static void state_need(const char *line)
{
    static const char title[] = "name = acrylic\n";
    char path[700];
    char text[60000];
    bite_test_source(path, sizeof path, "tables/materials/acrylic.ini");
    FILE *file = fopen(path, "rb");
    ck_assert_ptr_nonnull(file);
    size_t size = fread(text, 1, sizeof text - 100, file);
    (void)fclose(file);
    text[size] = 0;
    char *at = strstr(text, title);
    ck_assert_ptr_nonnull(at);
    at += sizeof title - 1;
    memmove(at + strlen(line), at, strlen(at) + 1);
    memcpy(at, line, strlen(line));
    write_table("materials/acrylic.ini", text);
}

/* Without its plugin the table works alone, and says why. */
static void expect_alone(const char *says, size_t left_out)
{
    bite_library *library = open_private_library(NULL);
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_caution caution = {0};
    int told = 0;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "12000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "200mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, 0, 0.95, &answer, NULL), BITE_OK);
    for (size_t i = 0; i < bite_answer_caution_count(answer); i++) {
        ck_assert_int_eq(bite_answer_caution(answer, i, &caution, NULL), BITE_OK);
        if (strcmp(caution.name, "plugin_missing") == 0) {
            told++;
            ck_assert_msg(strstr(caution.text, says) != NULL, "%s", caution.text);
        }
    }
    ck_assert_int_eq(told, says[0] != 0);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), left_out);
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
}

START_TEST(a_required_plugin_must_be_there)
{
    char path[700];
    (void)snprintf(path, sizeof path, "%s/acrylic.so", families);
    state_need("plugin = required\n");
    expect_alone("", 0); /* it is there */
    ck_assert_int_eq(unlink(path), 0);
    bite_library *library = open_private_library(NULL);
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, &error),
                     BITE_BAD_PLUGIN);
    ck_assert_ptr_nonnull(strstr(error.message, "requires the plugin acrylic.so"));
    ck_assert_str_eq(error.key, "family:plugin");
    ck_assert_ptr_nonnull(strstr(error.file, "acrylic.ini"));
    ck_assert_uint_gt(error.line, 0);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 1);
    bite_library_close(library);
}
END_TEST

START_TEST(a_table_works_alone_with_a_remark)
{
    char path[700];
    (void)snprintf(path, sizeof path, "%s/acrylic.so", families);
    put_family("tests/plugins/.libs/newer.so", "acrylic");
    expect_alone("it was built for version 99", 1);
    state_need("plugin = optional\n");
    expect_alone("it was built for version 99", 1);
    ck_assert_int_eq(unlink(path), 0);
    expect_alone("acrylic.so, is in no folder of plugins", 0);
    state_need("");
    expect_alone("", 0);
}
END_TEST

/* A folder of the user's own comes after those of the caller and the environment. */
START_TEST(the_user_has_a_folder_of_plugins)
{
    char own[500];
    char from[700];
    char to[700];
    bite_library_options options = {sizeof options, NULL, NULL, tables};
    bite_library *library = NULL;
    const bite_material *material = NULL;
    (void)snprintf(own, sizeof own, "%s/data", private_root);
    ck_assert_int_eq(mkdir(own, 0755), 0);
    (void)setenv("XDG_DATA_HOME", own, 1);
    (void)snprintf(own, sizeof own, "%s/data/coolbite", private_root);
    ck_assert_int_eq(mkdir(own, 0755), 0);
    (void)snprintf(own, sizeof own, "%s/data/coolbite/plugins", private_root);
    ck_assert_int_eq(rename(families, own), 0);
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, NULL), BITE_OK);
    ck_assert_ptr_nonnull(material->family);
    ck_assert_ptr_nonnull(strstr(material->plugin, "/data/coolbite/plugins/acrylic.so"));
    bite_library_close(library);
    /* the environment's folder comes first */
    ck_assert_int_eq(mkdir(families, 0755), 0);
    (void)snprintf(from, sizeof from, "%s/acrylic.so", own);
    (void)snprintf(to, sizeof to, "%s/acrylic.so", families);
    ck_assert_int_eq(rename(from, to), 0);
    (void)setenv("COOLBITE_FAMILY_PATH", families, 1);
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, NULL), BITE_OK);
    ck_assert_ptr_nonnull(strstr(material->plugin, "/families/acrylic.so"));
    bite_library_close(library);
    /* one that others may write is refused, and the table works alone */
    ck_assert_int_eq(chmod(own, 0777), 0);
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    ck_assert_int_eq(bite_library_grade(library, "aluminium", &material, NULL), BITE_OK);
    ck_assert_ptr_null(material->family);
    ck_assert_ptr_nonnull(strstr(material->remark, "can be written by users other than its owner"));
    bite_library_close(library);
}
END_TEST

static void expect_refused(bite_status status, const char *says)
{
    state_need("plugin = required\n");
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
    state_need("plugin = required\n");
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
    tcase_add_test(tests, a_required_plugin_must_be_there);
    tcase_add_test(tests, a_table_works_alone_with_a_remark);
    tcase_add_test(tests, the_user_has_a_folder_of_plugins);
    tcase_add_loop_test(tests, broken_plugins_are_left_out_with_the_reason, 0, 16);
    tcase_add_loop_test(tests, refused_cautions_leave_no_answer, 0, 5);
    tcase_add_test(tests, paths_are_escaped_for_display);
    tcase_add_test(tests, files_that_are_not_plugins_are_refused);
    tcase_add_test(tests, files_that_others_can_write_are_refused);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
