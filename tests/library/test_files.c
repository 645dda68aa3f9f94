/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The files that belong to a library, so that no output overwrites them. */
#include "tests/support/open_library.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static int has(const char *name)
{
    char path[800];
    (void)snprintf(path, sizeof path, "%s/%s", shop.root, name);
    return bite_library_has_file(library, path);
}

START_TEST(tables_and_plugins_are_recognized_by_any_path)
{
    static const char *const own[] = {"tables/tools.ini",
                                      "tables/uncertainty.ini",
                                      "tables/fluids.ini",
                                      "tables/../tables//materials/steel.ini",
                                      "families/acrylic.so",
                                      "link",
                                      "hard"};
    static const char *const others[] = {"tables",
                                         "tables/none.ini",
                                         "tables/times.ini",
                                         "families/steel.so",
                                         "copy.ini",
                                         "tables/notes.txt",
                                         "",
                                         "none/tools.ini"};
    char path[800];
    char hard[800];
    (void)snprintf(path, sizeof path, "%s/link", shop.root);
    ck_assert_int_eq(symlink("tables/materials/brass.ini", path), 0);
    (void)snprintf(path, sizeof path, "%s/holders.ini", shop.tables);
    (void)snprintf(hard, sizeof hard, "%s/hard", shop.root);
    ck_assert_int_eq(link(path, hard), 0);
    (void)snprintf(path, sizeof path, "%s/copy.ini", shop.root);
    bite_test_write(path, "x", 1);
    (void)snprintf(path, sizeof path, "%s/notes.txt", shop.tables);
    bite_test_write(path, "x", 1);
    for (size_t i = 0; i < sizeof own / sizeof *own; i++) {
        ck_assert_msg(has(own[i]) == 1, "%s", own[i]);
    }
    for (size_t i = 0; i < sizeof others / sizeof *others; i++) {
        ck_assert_msg(has(others[i]) == 0, "%s", others[i]);
    }
    ck_assert_int_eq(bite_library_has_file(library, NULL), 0);
    ck_assert_int_eq(bite_library_has_file(NULL, path), 0);
    ck_assert_int_eq(bite_library_has_file(library, "/dev/null"), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("files");
    TCase *tests = tcase_create("files");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, tables_and_plugins_are_recognized_by_any_path);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
