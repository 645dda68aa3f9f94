/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Path trust: owner and mode of a plugin or a table, of each folder and of each link on its path.
 */
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "core/library/path_trust.h"
#include "tests/support/test_tables.h"
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define PATH_ROOM 700
#define NOBODY 65534

static bite_test_shop shop;
static bite_arena *arena;
static char above[PATH_ROOM - 100]; /* ROOT/above/folder/acrylic.so */
static char folder[PATH_ROOM - 50];
static char plugin[PATH_ROOM];

static void setup(void)
{
    bite_test_shop_make(&shop);
    arena = bite_arena_new(bite_memory_default());
    ck_assert_ptr_nonnull(arena);
    (void)snprintf(above, sizeof above, "%s/above", shop.root);
    (void)snprintf(folder, sizeof folder, "%s/folder", above);
    (void)snprintf(plugin, sizeof plugin, "%s/acrylic.so", folder);
    ck_assert_int_eq(mkdir(above, 0755), 0);
    ck_assert_int_eq(mkdir(folder, 0755), 0);
    ck_assert_int_eq(chmod(above, 0755) | chmod(folder, 0755), 0);
    char built[PATH_ROOM];
    (void)snprintf(built, sizeof built, "%s/acrylic.so", shop.families);
    ck_assert_int_eq(link(built, plugin), 0);
}

static void teardown(void)
{
    bite_arena_free(arena);
    bite_test_remove(shop.root);
}

/* Fails the test unless the check has this status and names this file. */
static void expect(const char *path, bite_status status, const char *file, const char *says)
{
    char *real = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_status got =
        bite_path_trust_check(bite_memory_default(), arena, BITE_TRUST_PLUGIN, path, &real, &error);
    ck_assert_msg(got == status, "%s: %s: %s: %s", path, bite_status_name(got), error.file,
                  error.message);
    if (status == BITE_OK) {
        ck_assert_str_eq(real, file);
        return;
    }
    ck_assert_ptr_null(real);
    ck_assert_str_eq(error.file, file);
    ck_assert_msg(strstr(error.message, says) != NULL, "%s", error.message);
}

static const char others[] = "can be written by users other than its owner and root";
static const char foreign[] = "belongs to another user";

START_TEST(writable_files_and_folders_are_refused)
{
    static const struct {
        const char *what;
        mode_t mode;
        bite_status status;
    } cases[] = {
        {plugin, 0644, BITE_OK},      {plugin, 0755, BITE_OK},      {plugin, 0664, BITE_UNSAFE},
        {plugin, 0646, BITE_UNSAFE},  {plugin, 0666, BITE_UNSAFE},  {folder, 0700, BITE_OK},
        {folder, 0755, BITE_OK},      {folder, 0775, BITE_UNSAFE},  {folder, 0757, BITE_UNSAFE},
        {folder, 01777, BITE_UNSAFE}, {folder, 01775, BITE_UNSAFE}, {above, 0755, BITE_OK},
        {above, 0700, BITE_OK},       {above, 0775, BITE_UNSAFE},   {above, 0757, BITE_UNSAFE},
        {above, 0777, BITE_UNSAFE},   {above, 01777, BITE_OK},      {above, 01775, BITE_OK},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct stat before;
        ck_assert_int_eq(stat(cases[i].what, &before), 0);
        ck_assert_int_eq(chmod(cases[i].what, cases[i].mode), 0);
        expect(plugin, cases[i].status, cases[i].status == BITE_OK ? plugin : cases[i].what,
               others);
        ck_assert_int_eq(chmod(cases[i].what, before.st_mode & 07777), 0);
    }
}
END_TEST

/* Only root can give files away. If another user runs the tests, the owner of the temporary folder
 * (root) is the only other owner. */
START_TEST(foreign_owners_are_refused)
{
    const char *const all[] = {plugin, folder, above, shop.root};
    if (geteuid() != 0) {
        expect(plugin, BITE_OK, plugin, "");
        return;
    }
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        ck_assert_int_eq(chown(all[i], NOBODY, 0), 0);
        expect(plugin, BITE_UNSAFE, all[i], foreign);
        ck_assert_int_eq(chown(all[i], 0, NOBODY),
                         0); /* a group without write permission is no danger */
        expect(plugin, BITE_OK, plugin, "");
    }
}
END_TEST

/* The whole path through a link is checked, and the returned path has no link in it. */
START_TEST(links_are_followed_and_checked)
{
    char elsewhere[PATH_ROOM - 100];
    char link_path[PATH_ROOM];
    char through[PATH_ROOM + 20];
    (void)snprintf(elsewhere, sizeof elsewhere, "%s/elsewhere", shop.root);
    (void)snprintf(link_path, sizeof link_path, "%s/families", elsewhere);
    (void)snprintf(through, sizeof through, "%s/acrylic.so", link_path);
    ck_assert_int_eq(mkdir(elsewhere, 0755), 0);
    ck_assert_int_eq(symlink("../above/./folder/../folder", link_path), 0);
    expect(through, BITE_OK, plugin, "");
    ck_assert_int_eq(chmod(elsewhere, 0775), 0);
    expect(through, BITE_UNSAFE, elsewhere, others);
    ck_assert_int_eq(chmod(elsewhere, 01777), 0);
    expect(through, BITE_OK, plugin, "");
    if (geteuid() == 0) {
        ck_assert_int_eq(lchown(link_path, NOBODY, NOBODY), 0);
        expect(through, BITE_UNSAFE, link_path, foreign);
    }
    ck_assert_int_eq(unlink(link_path), 0);
    ck_assert_int_eq(symlink(folder, link_path), 0);
    expect(through, BITE_OK, plugin, "");
    ck_assert_int_eq(chmod(above, 0775), 0);
    expect(through, BITE_UNSAFE, above, others);
    ck_assert_int_eq(unlink(link_path), 0);
    ck_assert_int_eq(symlink("families", link_path), 0);
    expect(through, BITE_BAD_PLUGIN, link_path, "cannot be followed");
}
END_TEST

/* As many links as the system itself follows, and no path longer than it allows. */
START_TEST(long_chains_and_paths_are_refused)
{
    char link_path[PATH_ROOM];
    char last[PATH_ROOM];
    (void)snprintf(last, sizeof last, "%s", plugin);
    for (int i = 0; i < 60; i++) {
        (void)snprintf(link_path, sizeof link_path, "%s/link-%d", folder, i);
        ck_assert_int_eq(symlink(last, link_path), 0);
        (void)snprintf(last, sizeof last, "link-%d", i);
        if (i == 9) {
            expect(link_path, BITE_OK, plugin, "");
        }
    }
    char *real = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_path_trust_check(bite_memory_default(), arena, BITE_TRUST_PLUGIN,
                                           link_path, &real, &error),
                     BITE_BAD_PLUGIN);
    ck_assert_str_eq(error.message, "the links to the plugin cannot be followed");
    ck_assert_ptr_null(real);
    static char longer[PATH_MAX + 100];
    size_t used = (size_t)snprintf(longer, sizeof longer, "%s", folder);
    while (used < sizeof longer - 3) {
        used += (size_t)snprintf(longer + used, sizeof longer - used, "/.");
    }
    ck_assert_int_eq(bite_path_trust_check(bite_memory_default(), arena, BITE_TRUST_PLUGIN, longer,
                                           &real, &error),
                     BITE_BAD_PLUGIN);
    ck_assert_str_eq(error.message, "the path to the plugin is too long");
    ck_assert_ptr_null(real);
}
END_TEST

START_TEST(relative_paths_are_checked_from_the_root)
{
    ck_assert_int_eq(chdir(above), 0);
    expect("folder/acrylic.so", BITE_OK, plugin, "");
    expect("../above//folder/./acrylic.so", BITE_OK, plugin, "");
    ck_assert_int_eq(chmod(above, 0777), 0);
    expect("folder/acrylic.so", BITE_UNSAFE, above, others);
    ck_assert_int_eq(chdir("/"), 0);
}
END_TEST

/* A missing plugin is not a fault, whoever can write to the folder: the next folder is searched. */
START_TEST(files_that_are_not_plugins)
{
    char path[PATH_ROOM + 50];
    (void)snprintf(path, sizeof path, "%s/none.so", folder);
    ck_assert_int_eq(chmod(above, 0777), 0);
    expect(path, BITE_NOT_FOUND, path, "no such plugin");
    (void)snprintf(path, sizeof path, "%s/acrylic.so/acrylic.so", folder);
    expect(path, BITE_NOT_FOUND, path, "no such plugin");
    ck_assert_int_eq(chmod(above, 0755), 0);
    (void)snprintf(path, sizeof path, "%s/pipe.so", folder);
    ck_assert_int_eq(mkfifo(path, 0600), 0);
    expect(path, BITE_BAD_PLUGIN, path, "this is not a regular file; a plugin was expected");
    expect(folder, BITE_BAD_PLUGIN, folder, "this is a folder; a plugin was expected");
    expect("/", BITE_BAD_PLUGIN, "/", "the path to the plugin cannot be examined");
}
END_TEST

/* Two libraries and two paths to one file: one plugin, known by its real path. */
START_TEST(a_plugin_is_loaded_once)
{
    char link_path[PATH_ROOM];
    (void)snprintf(link_path, sizeof link_path, "%s/link", shop.root);
    ck_assert_int_eq(symlink(folder, link_path), 0);
    const char *const folders[] = {shop.families, folder, link_path};
    enum bite_family_status (*fill[3])(const struct bite_host *host, struct bite_grade *grade);
    for (size_t i = 0; i < 3; i++) {
        bite_library_options options = {sizeof options, NULL, folders[i], shop.tables};
        const bite_material *material = NULL;
        bite_library *library = NULL;
        ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
        ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, NULL), BITE_OK);
        ck_assert_ptr_nonnull(material->family);
        fill[i] = material->family->fill; /* of the plugin; the descriptor is copied */
        ck_assert_str_eq(strrchr(material->plugin, '/'), "/acrylic.so");
        ck_assert_int_eq(strncmp(material->plugin, shop.root, strlen(shop.root)), 0);
        bite_library_close(library);
    }
    ck_assert(fill[0] != NULL && fill[0] == fill[1] && fill[0] == fill[2]);
}
END_TEST

/* The same walk, with words of its own. */
START_TEST(tables_are_checked_alike)
{
    const char *const all[] = {plugin, folder, above};
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(
        bite_path_trust_check(bite_memory_default(), NULL, BITE_TRUST_TABLE, plugin, NULL, &error),
        BITE_OK);
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        ck_assert_int_eq(chmod(all[i], 0775), 0);
        bite_error_clear(&error);
        ck_assert_int_eq(bite_path_trust_check(bite_memory_default(), NULL, BITE_TRUST_TABLE,
                                               plugin, NULL, &error),
                         BITE_UNSAFE);
        ck_assert_str_eq(error.file, all[i]);
        ck_assert_ptr_null(strstr(error.message, "plugin"));
        ck_assert_ptr_nonnull(strstr(error.hint, "copy the tables"));
        ck_assert_int_eq(chmod(all[i], 0755), 0);
    }
    ck_assert_int_eq(
        bite_path_trust_check(bite_memory_default(), NULL, BITE_TRUST_TABLE, folder, NULL, &error),
        BITE_NOT_FOUND);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("path trust");
    TCase *tests = tcase_create("path trust");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_add_test(tests, writable_files_and_folders_are_refused);
    tcase_add_test(tests, foreign_owners_are_refused);
    tcase_add_test(tests, links_are_followed_and_checked);
    tcase_add_test(tests, long_chains_and_paths_are_refused);
    tcase_add_test(tests, relative_paths_are_checked_from_the_root);
    tcase_add_test(tests, files_that_are_not_plugins);
    tcase_add_test(tests, a_plugin_is_loaded_once);
    tcase_add_test(tests, tables_are_checked_alike);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
