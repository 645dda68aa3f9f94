/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Names that are looked up: states of grades, ambiguous and missing names, collections that do not
 * exist, folders of tables that are odd or closed. */
#include "core/library/alias.h"
#include "core/library/collection.h"
#include "core/library/library.h"
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "core/library/search_path.h"
#include "tests/library/private_library.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define COUNT(list) (sizeof list / sizeof *list)
#define HEAD "[format]\nkind = material\nversion = 1\n"
#define GRADE(name) "[grade." name "]\nsource = memory\ndensity = 1000 kg/m3\n"

typedef struct lookup {
    const char *name;
    bite_status status;
    const char *is; /* the grade, or a part of the message */
    const char *hint;
} lookup;

static void look_up(const bite_library *library, const lookup *cases, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const bite_material *material = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_status status = bite_library_grade(library, cases[i].name, &material, &error);
        ck_assert_msg(status == cases[i].status, "%.80s: %s: %s", cases[i].name,
                      bite_status_name(status), error.message);
        const char *is = status == BITE_OK ? material->record.name : error.message;
        ck_assert_msg(strstr(is, cases[i].is) != NULL, "%.80s: %s", cases[i].name, is);
        ck_assert_msg(strstr(error.hint, cases[i].hint) != NULL, "%.80s: %s", cases[i].name,
                      error.hint);
        ck_assert_msg(cases[i].hint[0] != 0 || error.hint[0] == 0, "%.80s: %s", cases[i].name,
                      error.hint);
    }
}

START_TEST(a_grade_in_a_state_is_found_by_its_state)
{
    static const lookup cases[] = {
        {"toy/six@wet", BITE_OK, "toy/six-wet", ""},
        {"toy@dry", BITE_OK, "toy/six-dry", ""}, /* of the default grade */
        {"toy/@wet", BITE_OK, "toy/six-wet", ""},
        {"toy/six@hot", BITE_UNKNOWN_NAME, "toy/six has no state hot",
         "its states are six@dry, six@wet"},
        {"toy/six@", BITE_UNKNOWN_NAME, "toy/six has no state ", "its states are"},
        {"toy/plain@wet", BITE_UNKNOWN_NAME, "toy/plain has no state wet", "its table states none"},
        {"toy/six@odd", BITE_UNKNOWN_NAME, "toy/six has no state odd", "six@dry, six@wet"},
        {"toy/none@wet", BITE_UNKNOWN_NAME, "toy has no grade named none", ""},
        {"toy/"
         "a-grade-that-is-longer-than-any-grade-of-any-table-could-ever-be-called-by-anybody-in-"
         "any-shop-anywhere@wet",
         BITE_UNKNOWN_NAME, "toy has no grade named a-grade-that", ""},
        {"toy/six@a-state-that-is-longer-than-any-grade-of-any-table-could-ever-be-called-by-"
         "anybody-in-any-shop",
         BITE_UNKNOWN_NAME, "has no state a-state", "six@dry, six@wet"},
    };
    write_table("materials/toy.ini",
                HEAD "[family]\nname = toy\ndefault = six\n" GRADE("six") GRADE(
                    "six-dry") "state = dry\n" GRADE("six-wet") "state = wet\n" GRADE("six-odd")
                    GRADE("plain"));
    bite_library *library = open_private_library(NULL);
    look_up(library, cases, COUNT(cases));
    bite_library_close(library);
}
END_TEST

START_TEST(a_name_of_several_families_names_them_all)
{
    static const lookup cases[] = {
        {"best", BITE_UNKNOWN_NAME, "more than one family has a grade named best",
         "write ant/best, bee/best or cow/best"},
        {"bee/best", BITE_OK, "bee/best", ""},
        {"good", BITE_UNKNOWN_NAME, "more than one family has a grade named good",
         "write ant/good or cow/good"},
    };
    static const char *const families_of_best[] = {"ant", "bee", "cow"};
    for (size_t i = 0; i < COUNT(families_of_best); i++) {
        char name[60];
        char text[600];
        (void)snprintf(name, sizeof name, "materials/%s.ini", families_of_best[i]);
        (void)snprintf(text, sizeof text, HEAD "[family]\nname = %s\n" GRADE("best") "%s",
                       families_of_best[i], i == 1 ? "" : GRADE("good"));
        write_table(name, text);
    }
    /* what a family has of another one is found there */
    write_table("materials/dog.ini", HEAD "[family]\nname = dog\nlike = ant\n" GRADE("own"));
    bite_library *library = open_private_library(NULL);
    look_up(library, cases, COUNT(cases));
    bite_library_close(library);
}
END_TEST

/* A table with figures of a plugin that is not there works alone, and says so. */
START_TEST(figures_of_a_plugin_that_is_missing)
{
    write_table("materials/toy.ini",
                HEAD "[family]\nname = toy\n" GRADE("a") "own.grain = 5\n" GRADE("b"));
    bite_library *library = open_private_library(NULL);
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_library_grade(library, "toy/a", &material, &error) == BITE_OK, "%s",
                  error.message);
    ck_assert_ptr_nonnull(strstr(material->remark, "toy.so, is in no folder of plugins"));
    ck_assert_int_eq(bite_library_grade(library, "toy/b", &material, NULL), BITE_OK);
    ck_assert_str_eq(material->remark, "");
    bite_library_close(library);
}
END_TEST

START_TEST(families_without_grades_and_parents_that_are_none)
{
    static const lookup cases[] = {
        {"bare", BITE_UNKNOWN_NAME, "the table of bare has no grades", ""},
        {"bare/any", BITE_UNKNOWN_NAME, "bare has no grade named any", ""},
        {"heir", BITE_BAD_FILE, "bare has no grades to be like", "list materials"},
        {"near", BITE_BAD_FILE, "there is no family and no grade brsas", "did you mean brass?"},
        {"lost", BITE_BAD_FILE, "there is no family and no grade unobtainium",
         "list materials shows the names"},
        {"own", BITE_BAD_FILE, "own has no grade frist to be like", "did you mean own/first?"},
        {"other", BITE_BAD_FILE, "acrylic has no grade kast to be like",
         "did you mean acrylic/cast?"},
        {"like", BITE_BAD_FILE, "brass has no grade ms58 to be like",
         "list materials shows the names"}, /* a near one only */
    };
    static const char *const parents[][2] = {{"heir", "bare"},          {"near", "brsas"},
                                             {"lost", "unobtainium/x"}, {"own", "frist"},
                                             {"other", "acrylic/kast"}, {"like", "brass/ms58"}};
    write_table("materials/bare.ini", HEAD "[family]\nname = bare\n");
    for (size_t i = 0; i < COUNT(parents); i++) {
        char name[60];
        char text[600];
        (void)snprintf(name, sizeof name, "materials/%s.ini", parents[i][0]);
        (void)snprintf(text, sizeof text,
                       HEAD "[family]\nname = %s\n[grade.a]\nlike = %s\n" GRADE("first"),
                       parents[i][0], parents[i][1]);
        write_table(name, text);
    }
    bite_library *library = open_private_library(NULL);
    look_up(library, cases, COUNT(cases));
    bite_library_close(library);
}
END_TEST

START_TEST(without_tables_of_materials_the_hint_says_where_they_are_looked_for)
{
    static const lookup cases[] = {
        {"acrylic", BITE_UNKNOWN_NAME, "there is no material named acrylic",
         "set COOLBITE_TABLE_PATH to the folder of the tables"},
        {"a-name-that-is-longer-than-any-family-of-any-table-could-ever-be-called-by-anybody-in-"
         "any-shop-anywhere",
         BITE_UNKNOWN_NAME, "there is no material named a-name", "COOLBITE_TABLE_PATH"},
    };
    bite_library *library = NULL;
    bite_library_options options = {sizeof options, NULL, families, private_root};
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    if (bite_library_count(library, BITE_FAMILIES) == 0) { /* unless some are installed */
        look_up(library, cases, COUNT(cases));
    }
    bite_library_close(library);
}
END_TEST

/* Files that are no tables of families are passed over; a folder that cannot be read is told, since
 * it may hold some. */
START_TEST(odd_files_and_closed_folders_of_materials)
{
    static const char *const odd[] = {
        ".ini",     "Toy.ini",
        "to_y.ini", "toy.txt",
        "toy.ini~", "a1234567890123456789012345678901234567890123456789012345678901234.ini"};
    for (size_t i = 0; i < COUNT(odd); i++) {
        char name[120];
        (void)snprintf(name, sizeof name, "materials/%s", odd[i]);
        write_table(name, "no table\n");
        ck_assert_uint_eq(bite_library_family_length(odd[i]), 0);
    }
    ck_assert_uint_eq(bite_library_family_length("pa-6.ini"), 4);
    bite_library *library = open_private_library(NULL);
    size_t shipped = bite_library_count(library, BITE_FAMILIES);
    ck_assert_uint_eq(shipped, 32);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 0);
    bite_library_close(library);

    char own[600];
    char both[1300];
    (void)snprintf(own, sizeof own, "%s/own", private_root);
    ck_assert_int_eq(mkdir(own, 0755), 0);
    (void)snprintf(both, sizeof both, "%s/materials", own);
    ck_assert_int_eq(symlink("materials", both), 0); /* to itself */
    (void)snprintf(both, sizeof both, "::%s::%s:", own, tables);
    bite_library_options options = {sizeof options, NULL, families, both};
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    ck_assert_uint_eq(bite_library_count(library, BITE_FAMILIES), shipped);
    bite_item item;
    ck_assert_uint_ge(bite_library_count(library, BITE_LEFT_OUT), 1);
    ck_assert_int_eq(bite_library_item(library, BITE_LEFT_OUT, 0, &item, NULL), BITE_OK);
    ck_assert_str_eq(item.name, "materials");
    ck_assert_ptr_nonnull(strstr(item.summary, "this folder of tables cannot be read"));
    ck_assert_ptr_nonnull(strstr(item.file, "/own/materials"));
    size_t left = 0;
    ck_assert_int_eq(bite_library_left_out(library, BITE_GRADES, &left, NULL), BITE_OK);
    ck_assert_uint_eq(left, 1);
    ck_assert_int_eq(bite_library_left_out(library, BITE_TOOLS, &left, NULL), BITE_OK);
    ck_assert_uint_eq(left, 0);
    bite_library_close(library);
}
END_TEST

START_TEST(collections_and_indices_that_do_not_exist)
{
    bite_library *library = open_private_library(NULL);
    bite_item item = {"kept", "", "", ""};
    bite_error error = BITE_ERROR_INIT;
    const bite_item_record *record = NULL;
    size_t count = 77;
    const bite_collection unknown = (bite_collection)99;
    ck_assert_uint_eq(bite_library_count(NULL, BITE_TOOLS), 0);
    ck_assert_uint_eq(bite_library_count(library, unknown), 0);
    ck_assert_int_eq(bite_library_item(NULL, BITE_TOOLS, 0, &item, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_item(library, BITE_TOOLS, 0, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_item(library, unknown, 0, &item, &error), BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message,
                     "an open library, a collection, and a place for the item were expected");
    ck_assert_int_eq(bite_library_item(library, BITE_TOOLS, 100000, &item, &error),
                     BITE_BAD_ARGUMENT);
    ck_assert_str_eq(error.message, "the index is not less than the count of the collection");
    ck_assert_str_eq(item.name, "kept");
    ck_assert_int_eq(bite_library_left_out(NULL, BITE_TOOLS, &count, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_left_out(library, BITE_TOOLS, NULL, &error), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_left_out(library, unknown, &count, &error), BITE_BAD_ARGUMENT);
    ck_assert_uint_eq(count, 77);
    const bite_collection unnamed[] = {BITE_GRADES, BITE_FAMILIES, BITE_LEFT_OUT, unknown};
    for (size_t i = 0; i < COUNT(unnamed); i++) {
        ck_assert_int_eq(bite_library_record(library, unnamed[i], "acrylic", &record, &error),
                         BITE_BAD_ARGUMENT);
        ck_assert_str_eq(error.message, "the records of this collection are not found by name");
    }
    ck_assert_ptr_null(record);
    bite_library_close(library);
}
END_TEST

START_TEST(records_are_found_by_other_names_or_the_nearest_is_named)
{
    static const struct {
        bite_collection collection;
        const char *name;
        const char *found; /* NULL: none */
        const char *hint;
    } cases[] = {{BITE_FLUIDS, "isopropanol", "isopropanol", ""},
                 {BITE_FLUIDS, "Isopropyl_Alcohol", "isopropanol", ""},
                 {BITE_FLUIDS, "isopropyl\talcohol", "isopropanol", ""},
                 {BITE_FLUIDS, "isoproponal", NULL, "did you mean isopropanol?"},
                 {BITE_FLUIDS, "x", NULL, "coolbite list shows the names"},
                 {BITE_TOOLS, "em-3-22", NULL, "did you mean em-3-2?"},
                 {BITE_TOOLS, "drill-3.33", NULL, "did you mean drill-3.3?"},
                 {BITE_TOOLS, "3.3", NULL, ""},
                 {BITE_TOOLS, ".3", NULL, ""},
                 {BITE_DRILLS, "drill-3.3", "drill-3.3", ""},
                 {BITE_THREADS, "#6-32", "no6-32", ""}};
    bite_library *library = open_private_library(NULL);
    for (size_t i = 0; i < COUNT(cases); i++) {
        bite_error error = BITE_ERROR_INIT;
        const bite_item_record *record = NULL;
        bite_status status =
            bite_library_record_also(library, cases[i].collection, cases[i].name, &record, &error);
        ck_assert_msg((status == BITE_OK) == (cases[i].found != NULL), "%s: %s", cases[i].name,
                      error.message);
        ck_assert_msg(strstr(error.hint, cases[i].hint) != NULL, "%s: %s", cases[i].name,
                      error.hint);
        if (status == BITE_OK) {
            ck_assert_str_eq(record->name, cases[i].found);
            ck_assert_str_eq(error.message, "");
        } else {
            ck_assert_int_eq(status, BITE_UNKNOWN_NAME);
            ck_assert_ptr_nonnull(strstr(error.message, "there is no "));
        }
    }
    bite_library_close(library);
}
END_TEST

/* Times that a shop recorded: what a list shows of one without a summary, a title or a number. */
START_TEST(a_recorded_time_is_summed_up)
{
    static const char *const summaries[] = {"Lens cover: planned 12.5 min, took 14 min",
                                            "planned 90 s, took -", "planned -, took 2 min",
                                            "as it was"};
    write_table("times.ini",
                "[format]\nkind = times\nversion = 1\n"
                "[time.a]\nsource = memory\ntitle = Lens cover\nplanned = 12.5 min\ntook = 14 min\n"
                "[time.b]\nsource = memory\nplanned = 90 s\n"
                "[time.c]\nsource = memory\ntook = 2 min\n"
                "[time.d]\nsource = memory\nsummary = as it was\ntook = 2 min\n");
    bite_library *library = open_private_library(NULL);
    ck_assert_uint_eq(bite_library_count(library, BITE_TIMES), COUNT(summaries));
    for (size_t i = 0; i < COUNT(summaries); i++) {
        bite_item item;
        ck_assert_int_eq(bite_library_item(library, BITE_TIMES, i, &item, NULL), BITE_OK);
        ck_assert_str_eq(item.summary, summaries[i]);
    }
    bite_library_close(library);
}
END_TEST

/* Folders of the environment count if they are absolute; empty parts of a list name none, and a
 * list may be longer than anybody needs. */
START_TEST(folders_are_searched_in_their_order)
{
    static const struct {
        const char *config;
        const char *data;
        const char *home;
        size_t machines;
    } cases[] = {{"config", NULL, NULL, 1},
                 {NULL, "data", NULL, 1},
                 {"config", "data", NULL, 2},
                 {NULL, NULL, "home", 2},
                 {NULL, NULL, NULL, 0}};
    static const char *const folders[] = {"config",       "data",        "home",
                                          "home/.config", "home/.local", "home/.local/share"};
    static const char *const bases[] = {"config", "data", "home/.config", "home/.local/share"};
    char path[700];
    char text[300];
    for (size_t i = 0; i < COUNT(folders); i++) {
        (void)snprintf(path, sizeof path, "%s/%s", private_root, folders[i]);
        ck_assert_int_eq(mkdir(path, 0755), 0);
    }
    for (size_t i = 0; i < COUNT(bases); i++) {
        (void)snprintf(path, sizeof path, "%s/%s/coolbite", private_root, bases[i]);
        ck_assert_int_eq(mkdir(path, 0755), 0);
        (void)snprintf(path, sizeof path, "%s/%s/coolbite/tables", private_root, bases[i]);
        ck_assert_int_eq(mkdir(path, 0755), 0);
        (void)snprintf(path, sizeof path, "%s/%s/coolbite/tables/machines.ini", private_root,
                       bases[i]);
        (void)snprintf(text, sizeof text,
                       "[format]\nkind = machines\nversion = 1\n[machine.own-%zu]\n"
                       "spindle_fastest = 9000 rpm\nspindle_fastest.source = memory\n",
                       i);
        bite_test_write(path, text, strlen(text));
    }
    bite_library_options options = {sizeof options, NULL, NULL, NULL};
    for (size_t i = 0; i < COUNT(cases); i++) {
        const char *const names[] = {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "HOME"};
        const char *const values[] = {cases[i].config, cases[i].data, cases[i].home};
        for (size_t k = 0; k < COUNT(names); k++) {
            (void)snprintf(path, sizeof path, "%s/%s", private_root,
                           values[k] == NULL ? "" : values[k]);
            /* a relative one is as none */
            ck_assert_int_eq(setenv(names[k], values[k] == NULL ? "here" : path, 1), 0);
        }
        bite_library *library = NULL;
        const bite_item_record *record = NULL;
        size_t own = 0;
        ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
        for (size_t k = 0; k < COUNT(bases); k++) {
            (void)snprintf(text, sizeof text, "own-%zu", k);
            own += bite_library_record(library, BITE_MACHINES, text, &record, NULL) == BITE_OK;
        }
        ck_assert_msg(own == cases[i].machines, "case %zu: %zu", i, own);
        bite_library_close(library);
    }
    char many[400] = ":"; /* folders that do not exist, and empty names between them */
    for (size_t i = 0; i < 20; i++) {
        (void)snprintf(many + strlen(many), sizeof many - strlen(many), "/nowhere/%zu::", i);
    }
    options.table_path = many;
    bite_library *library = NULL;
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    ck_assert_uint_eq(bite_library_count(library, BITE_MACHINES), 0);
    bite_library_close(library);
}
END_TEST

/* Where a shop's own set-up and tables are, and what is said where there is no place for them. */
START_TEST(a_user_without_a_home)
{
    bite_arena *arena = bite_arena_new(bite_memory_default());
    const char *folder = NULL;
    const char *setup = "kept";
    bool named = true;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(unsetenv("COOLBITE_CONFIG"), 0);
    ck_assert_int_eq(setenv("HOME", "/home/u", 1), 0);
    ck_assert_int_eq(bite_search_path_user_data(arena, &folder, &error), BITE_OK);
    ck_assert_str_eq(folder, "/home/u/.local/share/coolbite/tables");
    ck_assert_int_eq(bite_search_path_user_setup(arena, &setup, &named, &error), BITE_OK);
    ck_assert_str_eq(setup, "/home/u/.config/coolbite/coolbite.ini");
    ck_assert(!named);
    const char *const homes[] = {NULL, "", "u"};
    for (size_t i = 0; i < COUNT(homes); i++) {
        ck_assert_int_eq(homes[i] == NULL ? unsetenv("HOME") : setenv("HOME", homes[i], 1), 0);
        folder = NULL;
        ck_assert_int_eq(bite_search_path_user_data(arena, &folder, &error), BITE_NOT_FOUND);
        ck_assert_str_eq(error.message,
                         "neither XDG_DATA_HOME nor HOME names a folder for your own tables");
        ck_assert_ptr_null(folder);
        ck_assert_int_eq(bite_search_path_user_setup(arena, &setup, &named, &error), BITE_OK);
        ck_assert_ptr_null(setup);
    }
    ck_assert_int_eq(setenv("COOLBITE_CONFIG", "", 1), 0); /* as none */
    ck_assert_int_eq(setenv("XDG_CONFIG_HOME", "/etc/u", 1), 0);
    ck_assert_int_eq(bite_search_path_user_setup(arena, &setup, &named, &error), BITE_OK);
    ck_assert_str_eq(setup, "/etc/u/coolbite/coolbite.ini");
    ck_assert_int_eq(unsetenv("COOLBITE_CONFIG"), 0);
    bite_arena_free(arena);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("lookup");
    TCase *tests = tcase_create("lookup");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, a_grade_in_a_state_is_found_by_its_state);
    tcase_add_test(tests, a_name_of_several_families_names_them_all);
    tcase_add_test(tests, figures_of_a_plugin_that_is_missing);
    tcase_add_test(tests, families_without_grades_and_parents_that_are_none);
    tcase_add_test(tests, without_tables_of_materials_the_hint_says_where_they_are_looked_for);
    tcase_add_test(tests, odd_files_and_closed_folders_of_materials);
    tcase_add_test(tests, collections_and_indices_that_do_not_exist);
    tcase_add_test(tests, records_are_found_by_other_names_or_the_nearest_is_named);
    tcase_add_test(tests, a_recorded_time_is_summed_up);
    tcase_add_test(tests, folders_are_searched_in_their_order);
    tcase_add_test(tests, a_user_without_a_home);
    tcase_set_timeout(tests, 60);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
