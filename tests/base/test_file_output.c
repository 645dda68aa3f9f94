/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file that is written in pieces: the old text stays until the new one is kept, also where it is
 * dropped, refused, or cannot be put in its place. */
#include "tests/support/support.h"
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char root[400];
static char path[500];

static void make_root(void)
{
    bite_test_folder(root, sizeof root);
    (void)snprintf(path, sizeof path, "%s/settings.txt", root);
    bite_test_write(path, "old", 3);
}

static void remove_root(void)
{
    bite_test_remove(root);
}

static bite_file_output *open_output(const char *at)
{
    bite_file_output *output = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_file_output_open(at, &output, &error) == BITE_OK, "%s", error.message);
    return output;
}

START_TEST(pieces_take_their_place_at_once)
{
    bite_file_output *output = open_output(path);
    ck_assert_int_eq(bite_file_output_write(output, "depth ", 6, NULL), BITE_OK);
    ck_assert_int_eq(bite_file_output_write(output, NULL, 0, NULL), BITE_OK);
    ck_assert_int_eq(bite_file_output_write(output, "0.4 mm\n", 7, NULL), BITE_OK);
    bite_test_expect_file(path, "old");
    ck_assert_int_eq(bite_file_output_keep(output, NULL), BITE_OK);
    bite_test_expect_file(path, "depth 0.4 mm\n");
}
END_TEST

START_TEST(what_is_dropped_leaves_the_old_text)
{
    bite_file_output *output = open_output(path);
    ck_assert_int_eq(bite_file_output_write(output, "half", 4, NULL), BITE_OK);
    bite_file_output_drop(output);
    bite_file_output_drop(NULL);
    bite_test_expect_file(path, "old");
    char fresh[500];
    (void)snprintf(fresh, sizeof fresh, "%s/new.txt", root);
    bite_file_output_drop(open_output(fresh));
    ck_assert_int_ne(access(fresh, F_OK), 0);
}
END_TEST

START_TEST(wrong_arguments_are_refused)
{
    bite_file_output *output = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_file_output_open(NULL, &output, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "a path and a place were expected");
    ck_assert_int_eq(bite_file_output_open(path, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_file_output_write(NULL, "x", 1, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "an output and a text were expected");
    ck_assert_int_eq(bite_file_output_keep(NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "an output was expected");
    output = open_output(path);
    ck_assert_int_eq(bite_file_output_write(output, NULL, 1, &error), BITE_BAD_ARGUMENT);
    bite_file_output_drop(output);
    ck_assert_int_eq(bite_file_write(NULL, "x", 1, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_file_write(path, NULL, 1, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "a path and a text were expected");
    bite_test_expect_file(path, "old");
    ck_assert_int_eq(bite_file_write(path, NULL, 0, &error), BITE_OK); /* an empty file */
    bite_test_expect_file(path, "");
}
END_TEST

START_TEST(a_folder_that_is_not_there_is_refused)
{
    char nowhere[500];
    bite_file_output *output = NULL;
    bite_error error = BITE_ERROR_INIT;
    (void)snprintf(nowhere, sizeof nowhere, "%s/none/settings.txt", root);
    ck_assert_int_eq(bite_file_output_open(nowhere, &output, &error), BITE_CANNOT_WRITE);
    ck_assert_str_eq(error.file, nowhere);
    ck_assert_uint_gt(strlen(error.message), 0);
    ck_assert_ptr_null(output);
    ck_assert_int_eq(bite_file_output_open(root, &output, &error), BITE_CANNOT_WRITE);
    ck_assert_int_eq(bite_file_output_open("", &output, &error), BITE_CANNOT_WRITE);
    ck_assert_ptr_null(output);
}
END_TEST

/* The target became a folder meanwhile: it cannot be replaced, and nothing is left beside it. */
START_TEST(a_target_that_cannot_be_replaced)
{
    char file[600];
    bite_error error = BITE_ERROR_INIT;
    bite_file_output *output = open_output(path);
    ck_assert_int_eq(bite_file_output_write(output, "new", 3, NULL), BITE_OK);
    ck_assert_int_eq(unlink(path), 0);
    ck_assert_int_eq(mkdir(path, 0700), 0);
    (void)snprintf(file, sizeof file, "%s/kept", path);
    bite_test_write(file, "kept", 4);
    ck_assert_int_eq(bite_file_output_keep(output, &error), BITE_CANNOT_WRITE);
    ck_assert_str_eq(error.file, path);
    bite_test_expect_file(file, "kept");
    ck_assert_int_eq(unlink(file), 0);
    ck_assert_int_eq(rmdir(path), 0);
    ck_assert_int_eq(rmdir(root), 0); /* empty: the draft is gone */
    ck_assert_int_eq(mkdir(root, 0700), 0);
}
END_TEST

/* A number of a descriptor has no sign, no leading zero and no more digits than any process has. */
START_TEST(only_open_descriptors_are_written)
{
    static const char *const refused[] = {"/dev/fd/01",           "/dev/fd/-1",
                                          "/dev/fd/x1",           "/dev/fd/12345678901",
                                          "/proc/self/fd/987654", "/dev/fd/"};
    char text[600];
    for (size_t i = 0; i < sizeof refused / sizeof *refused; i++) {
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(bite_file_write(refused[i], "x", 1, &error) == BITE_CANNOT_WRITE, "%s",
                      refused[i]);
        ck_assert_uint_gt(strlen(error.message), 0);
    }
    int reading = open(path, O_RDONLY);
    ck_assert_int_ge(reading, 0);
    (void)snprintf(text, sizeof text, "/dev/fd/%d", reading);
    ck_assert_int_eq(bite_file_write(text, "x", 1, NULL), BITE_CANNOT_WRITE);
    ck_assert_int_eq(close(reading), 0);
    int writing = open(path, O_WRONLY | O_TRUNC);
    ck_assert_int_ge(writing, 0);
    (void)snprintf(text, sizeof text, "/dev/fd/%d", writing);
    bite_file_output *output = open_output(text);
    ck_assert_int_eq(bite_file_output_write(output, "through", 7, NULL), BITE_OK);
    ck_assert_int_eq(bite_file_output_keep(output, NULL), BITE_OK);
    ck_assert_int_eq(close(writing), 0); /* it stayed open */
    bite_test_expect_file(path, "through");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("file_output");
    TCase *tests = tcase_create("file_output");
    tcase_add_checked_fixture(tests, make_root, remove_root);
    tcase_add_test(tests, pieces_take_their_place_at_once);
    tcase_add_test(tests, what_is_dropped_leaves_the_old_text);
    tcase_add_test(tests, wrong_arguments_are_refused);
    tcase_add_test(tests, a_folder_that_is_not_there_is_refused);
    tcase_add_test(tests, a_target_that_cannot_be_replaced);
    tcase_add_test(tests, only_open_descriptors_are_written);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
