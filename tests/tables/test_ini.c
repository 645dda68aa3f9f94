/* SPDX-License-Identifier: GPL-3.0-or-later */
/* INI files: what the check before iniparser refuses, what is read of a faulty file, and the
 * private copy that iniparser reads. */
#include "core/base/private_file.h"
#include "core/tables/ini.h"
#include "core/tables/ini_load.h"
#include "tests/support/support.h"
#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

typedef struct heard {
    int count;
    bite_error faults[16];
} heard;

static void hear(void *user, const bite_error *fault)
{
    heard *all = user;
    if (all->count < 16) {
        all->faults[all->count] = *fault;
    }
    all->count++;
}

static bite_status parse(const char *text, heard *all, bite_ini **ini, bite_error *error)
{
    all->count = 0;
    *ini = NULL;
    return bite_ini_parse(bite_memory_default(), text, strlen(text), "toy.ini", hear, all, ini,
                          error);
}

static void assert_value(const bite_ini *ini, const char *section, const char *key,
                         const char *value, uint32_t line, uint32_t column)
{
    const bite_ini_entry *entry = bite_ini_find(ini, section, key);
    ck_assert_msg(entry != NULL, "no %s:%s", section, key);
    if (value == NULL) {
        ck_assert_ptr_null(entry->value);
    } else {
        ck_assert_str_eq(entry->value, value);
    }
    ck_assert_uint_eq(entry->line, line);
    ck_assert_uint_eq(entry->column, column);
}

START_TEST(values_lines_and_columns)
{
    heard all;
    bite_ini *ini;
    bite_error error = BITE_ERROR_INIT;
    const char *text = "# a remark; with = and [signs]\r\n[a]\r\nbare = 1 .. 2 \r\n"
                       "\tquoted\t= \" ; # = [x] 'y' \"\nempty =\nnone = \"\"\n"
                       "\n[b-1.c]\nbare = b's = own\nlast = \xc3\xa0";
    ck_assert_int_eq(parse(text, &all, &ini, &error), BITE_OK);
    ck_assert_uint_eq(bite_ini_count(ini), 8);
    assert_value(ini, "a", "bare", "1 .. 2", 3, 8);
    assert_value(ini, "a", "quoted", " ; # = [x] 'y' ", 4, 12);
    assert_value(ini, "a", "empty", "", 5, 8);
    assert_value(ini, "a", "none", "", 6, 9);
    assert_value(ini, "b-1.c", "bare", "b's = own", 9, 8);
    assert_value(ini, "b-1.c", "last", "\xc3\xa0", 10, 8);
    ck_assert_ptr_null(bite_ini_find(ini, "a", "last"));
    bite_ini_free(ini);
}
END_TEST

/* Each refused line is reported, and the others are read as if it did not exist. */
START_TEST(rest_of_a_faulty_file_is_read)
{
    heard all;
    bite_ini *ini;
    bite_error error = BITE_ERROR_INIT;
    const char *text = "\xef\xbb\xbf[a]\nfirst = 1\nfirst = 2\nwrong = a;b\n# joins \\\nnext = 3\n"
                       "[bad name]\nfirst = 4\n[b]\nfirst = 5\n[a]\nlate = 6\nnext = 7\n";
    static const uint32_t lines[] = {1, 3, 4, 5, 7, 11, 13};
    ck_assert_int_eq(parse(text, &all, &ini, &error), BITE_BAD_FILE);
    ck_assert_uint_eq(error.faults, sizeof lines / sizeof *lines);
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        ck_assert_msg(all.faults[i].line == lines[i], "fault %zu in line %u: %s", i,
                      all.faults[i].line, all.faults[i].message);
        ck_assert_uint_gt(all.faults[i].column, 0);
    }
    ck_assert_ptr_nonnull(strstr(all.faults[3].message, "backslash"));
    ck_assert_uint_eq(all.faults[1].column, 1);
    ck_assert_uint_eq(all.faults[2].column, 10);
    ck_assert_uint_eq(all.faults[3].column, 9);
    assert_value(ini, "a", "first", "1", 2, 9);
    assert_value(ini, "a", "wrong", NULL, 4, 9);
    assert_value(ini, "a", "next", "3", 6, 8);
    assert_value(ini, "a", "late", "6", 12, 8);
    assert_value(ini, "b", "first", "5", 10, 9);
    ck_assert(bite_ini_has_unread_sections(ini));
    bite_ini_free(ini);
}
END_TEST

/* iniparser truncates the name section:key at 1024 bytes. */
START_TEST(long_names_are_refused)
{
    heard all;
    bite_ini *ini;
    bite_error error = BITE_ERROR_INIT;
    char name[BITE_INI_NAME_MAX + 2] = "";
    char text[1000];
    memset(name, 'n', BITE_INI_NAME_MAX);
    (void)snprintf(text, sizeof text, "[%s]\n%s = 1\n", name, name);
    ck_assert_int_eq(parse(text, &all, &ini, &error), BITE_OK);
    assert_value(ini, name, name, "1", 2, BITE_INI_NAME_MAX + 4);
    bite_ini_free(ini);
    memset(name, 'n', BITE_INI_NAME_MAX + 1);
    (void)snprintf(text, sizeof text, "[a]\n%s = 1\n[%s]\nkey = 1\n", name, name);
    ck_assert_int_eq(parse(text, &all, &ini, &error), BITE_BAD_FILE);
    ck_assert_int_eq(all.count, 2);
    ck_assert_uint_eq(all.faults[0].line, 2);
    ck_assert_uint_eq(all.faults[1].line, 3);
    bite_ini_free(ini);
}
END_TEST

static size_t files_in(const char *folder)
{
    DIR *open = opendir(folder);
    size_t count = 0;
    ck_assert_ptr_nonnull(open);
    while (readdir(open) != NULL) {
        count++;
    }
    (void)closedir(open);
    return count - 2;
}

/* A separate folder for temporary files; undone by drop_folder. */
static char *usual_folder;

static void take_folder(char *folder, size_t size)
{
    const char *before = getenv("TMPDIR");
    bite_test_folder(folder, size);
    usual_folder = before == NULL ? NULL : strdup(before);
    ck_assert_int_eq(setenv("TMPDIR", folder, 1), 0);
}

static void drop_folder(const char *folder)
{
    ck_assert_uint_eq(files_in(folder), 0);
    bite_test_remove(folder);
    ck_assert_int_eq(usual_folder == NULL ? unsetenv("TMPDIR") : setenv("TMPDIR", usual_folder, 1),
                     0);
    free(usual_folder);
}

static const unsigned ways[] = {BITE_PRIVATE_ALL, BITE_PRIVATE_BY_PROC, 0};

/* In memory, by /proc only, and as a named file: iniparser reads the same, and no file is left. */
START_TEST(every_private_copy_reads_the_same)
{
    static const char text[] = "[a]\nkey = value\n";
    char folder[256];
    struct stat about;
    bite_private_file made;
    take_folder(folder, sizeof folder);
    bite_error error = BITE_ERROR_INIT;
    mode_t before = umask(0777);
    bite_status status = bite_private_file_make(text, strlen(text), ways[_i], &made, &error);
    (void)umask(before);
    ck_assert_int_eq(status, BITE_OK);
    ck_assert(ways[_i] != 0 || made.named);
    ck_assert_uint_eq(files_in(folder), made.named);
    ck_assert_int_eq(fstat(made.file, &about), 0);
    ck_assert(!made.named || (about.st_mode & 07777) == 0600);
    ck_assert_int_ne(fcntl(made.file, F_GETFD) & FD_CLOEXEC, 0);
    dictionary *read = iniparser_load(made.path);
    ck_assert_ptr_nonnull(read);
    ck_assert_str_eq(iniparser_getstring(read, "a:key", ""), "value");
    iniparser_freedict(read);
    bite_private_file_remove(&made);
    drop_folder(folder);
}
END_TEST

/* A full disk is reported as such, and the partial file is removed. */
START_TEST(full_disk_is_reported)
{
    static const char text[] = "[a]\nkey = value\n";
    char folder[256];
    bite_private_file made;
    const struct rlimit few = {8, 8};
    take_folder(folder, sizeof folder);
    ck_assert(signal(SIGXFSZ, SIG_IGN) != SIG_ERR);
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &few), 0);
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_private_file_make(text, strlen(text), ways[_i], &made, &error), BITE_IO);
    ck_assert_ptr_nonnull(strstr(error.hint, "TMPDIR"));
    drop_folder(folder);
}
END_TEST

START_TEST(default_folder_is_used_if_tmpdir_is_invalid)
{
    char folder[256];
    bite_private_file made;
    bite_error error = BITE_ERROR_INIT;
    take_folder(folder, sizeof folder);
    ck_assert_int_eq(setenv("TMPDIR", "/nowhere/at/all", 1), 0);
    ck_assert_int_eq(bite_private_file_make("", 0, 0, &made, &error), BITE_OK);
    ck_assert_int_eq(strncmp(made.path, "/tmp/", 5), 0);
    ck_assert_int_eq(access(made.path, F_OK), 0);
    bite_private_file_remove(&made);
    ck_assert_int_ne(access(made.path, F_OK), 0);
    drop_folder(folder);
}
END_TEST

/* Captures stderr from here on. */
static int catch_stderr(void)
{
    char path[] = "/tmp/bite-test-XXXXXX";
    int file = mkstemp(path);
    ck_assert_int_ge(file, 0);
    ck_assert_int_eq(unlink(path), 0);
    ck_assert_int_eq(dup2(file, STDERR_FILENO), STDERR_FILENO);
    return file;
}

static size_t caught(int file)
{
    struct stat about;
    ck_assert_int_eq(fflush(stderr), 0);
    ck_assert_int_eq(fstat(file, &about), 0);
    return (size_t)about.st_size;
}

#ifndef HAVE_INIPARSER_LOAD_FILE
/* With no free descriptor, and with only one, so that the copy is made but cannot be opened. */
START_TEST(missing_descriptors_are_reported)
{
    heard all;
    bite_ini *ini;
    bite_error error = BITE_ERROR_INIT;
    int file = catch_stderr();
    int next = dup(file);
    struct rlimit usual;
    ck_assert_int_eq(getrlimit(RLIMIT_NOFILE, &usual), 0);
    const struct rlimit few = {(rlim_t)next + (rlim_t)_i, usual.rlim_max};
    ck_assert_int_eq(close(next), 0);
    ck_assert_int_eq(setrlimit(RLIMIT_NOFILE, &few), 0);
    bite_status status = parse("[a]\nkey = value\n", &all, &ini, &error);
    ck_assert_int_eq(setrlimit(RLIMIT_NOFILE, &usual), 0); /* a sanitizer needs files at the end */
    ck_assert_int_eq(status, BITE_IO);
    ck_assert_ptr_null(ini);
    ck_assert_str_eq(error.file, "toy.ini");
    ck_assert_ptr_nonnull(strstr(error.message, "many"));
    ck_assert_uint_eq(caught(file), 0);
}
END_TEST
#endif

/* Our own loads print nothing; other users of iniparser in this process still get its messages. */
START_TEST(other_users_of_iniparser_get_its_messages)
{
    heard all;
    bite_ini *ini;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(parse("[a]\nkey = value\n", &all, &ini, &error), BITE_OK);
    bite_ini_free(ini);
    int file = catch_stderr();
    ck_assert_ptr_null(iniparser_load("/nowhere/at/all.ini"));
    ck_assert_uint_gt(caught(file), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("ini");
    TCase *tests = tcase_create("ini");
    tcase_add_test(tests, values_lines_and_columns);
    tcase_add_test(tests, rest_of_a_faulty_file_is_read);
    tcase_add_test(tests, long_names_are_refused);
    tcase_add_loop_test(tests, every_private_copy_reads_the_same, 0, 3);
    tcase_add_test(tests, default_folder_is_used_if_tmpdir_is_invalid);
    tcase_add_test(tests, other_users_of_iniparser_get_its_messages);
    suite_add_tcase(suite, tests);
    /* in a single process their limits would remain for the following tests */
    if (getenv("CK_FORK") == NULL || strcmp(getenv("CK_FORK"), "no") != 0) {
        tcase_add_loop_test(tests, full_disk_is_reported, 0, 3);
#ifndef HAVE_INIPARSER_LOAD_FILE
        tcase_add_loop_test(tests, missing_descriptors_are_reported, 0, 2);
#endif
    }
    return bite_test_run(suite);
}
