/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Materials and tables: names, overrides, cautions, threads, and no memory. */
#include "core/library/collection.h"
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "tests/library/private_library.h"
#include <dirent.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

START_TEST(a_material_is_found_by_each_of_its_names)
{
    static const struct {
        const char *name;
        const char *grade;
    } cases[] = {
        {"acrylic/cast", "acrylic/cast"},   {"Acrylic/CAST", "acrylic/cast"},
        {"pmma/cast", "acrylic/cast"},      {"acrylic", "acrylic/extruded"},
        {"pc", "polycarbonate/sheet"},      {"aluminum/6061-T6", "aluminium/6061-t6"},
        {"6061-T6", "aluminium/6061-t6"},   {"7075", "aluminium/7075-t6"},
        {"aluminium", "aluminium/6061-t6"}, {"aluminium/tooling-plate", "aluminium/cast-plate"}};
    bite_library *library = open_private_library(NULL);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const bite_material *material = NULL;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(bite_library_grade(library, cases[i].name, &material, &error) == BITE_OK,
                      "%s: %s", cases[i].name, error.message);
        ck_assert_str_eq(material->record.name, cases[i].grade);
        ck_assert_ptr_nonnull(material->family);
    }
    static const struct {
        const char *name;
        const char *hint;
    } unknown[] = {{"acrilic/cast", "acrylic"},
                   {"acrylic/csat", "acrylic/cast"},
                   {"unobtainium", "list materials"},
                   {"", ""},
                   {"/", ""}};
    for (size_t i = 0; i < sizeof unknown / sizeof *unknown; i++) {
        const bite_material *material = NULL;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_int_eq(bite_library_grade(library, unknown[i].name, &material, &error),
                         BITE_UNKNOWN_NAME);
        ck_assert_msg(strstr(error.hint, unknown[i].hint) != NULL, "%s: %s", unknown[i].name,
                      error.hint);
        ck_assert_ptr_null(material);
    }
    bite_library_close(library);
}
END_TEST

/* Designations of the trade and of standards, however they are separated. */
START_TEST(a_material_is_found_by_its_designations)
{
    static const struct {
        const char *name;
        const char *grade;
        bite_grade_match match;
    } cases[] = {{"pmma", "acrylic/extruded", BITE_MATCH_FAMILY},
                 {"PMMA GS", "acrylic/cast", BITE_MATCH_GRADE},
                 {"POM-C", "acetal/copolymer", BITE_MATCH_GRADE},
                 {"pom", "acetal/copolymer", BITE_MATCH_FAMILY},
                 {"PA6", "nylon/6", BITE_MATCH_GRADE},
                 {"PA 6.6", "nylon/66", BITE_MATCH_GRADE},
                 {"pe-hd", "polyethylene/hdpe", BITE_MATCH_GRADE},
                 {"EN AW-6082", "aluminium/6082-t6", BITE_MATCH_GRADE},
                 {"EN AW-6082 T651", "aluminium/6082-t6", BITE_MATCH_GRADE},
                 {"AlSi1MgMn", "aluminium/6082-t6", BITE_MATCH_GRADE},
                 {"6061", "aluminium/6061-t6", BITE_MATCH_GRADE},
                 {"en_aw-7075", "aluminium/7075-t6", BITE_MATCH_GRADE},
                 {"AlMg3", "aluminium/5052-h32", BITE_MATCH_NEAR},
                 {"ti", "titanium/6al-4v", BITE_MATCH_FAMILY},
                 {"Ti6Al4V", "titanium/6al-4v", BITE_MATCH_GRADE},
                 {"Grade 5", "titanium/6al-4v", BITE_MATCH_GRADE},
                 {"MS58", "brass/c360", BITE_MATCH_NEAR},
                 {"CuZn39Pb3", "brass/c360", BITE_MATCH_NEAR},
                 {"CW614N", "brass/c360", BITE_MATCH_NEAR},
                 {"CW603N", "brass/c360", BITE_MATCH_GRADE},
                 {"1.4301", "stainless/304", BITE_MATCH_GRADE},
                 {"V2A", "stainless/304", BITE_MATCH_NEAR},
                 {"stainless/v4a", "stainless/316", BITE_MATCH_NEAR},
                 {"C 45", "steel/1045", BITE_MATCH_GRADE},
                 {"1045", "steel/1045", BITE_MATCH_GRADE},
                 {"S235JR", "steel/1018", BITE_MATCH_NEAR},
                 {"42CrMo4", "steel/4140", BITE_MATCH_NEAR},
                 {"EN-GJL-250", "cast-iron/gray", BITE_MATCH_GRADE},
                 {"FR-4", "glass-laminate/g10", BITE_MATCH_FAMILY},
                 {"MDF", "wood/mdf", BITE_MATCH_GRADE},
                 {"glass laminate/G 10", "glass-laminate/g10", BITE_MATCH_GRADE}};
    bite_library *library = open_private_library(NULL);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const bite_material *material = NULL;
        bite_grade_match match = BITE_MATCH_GRADE;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(bite_library_grade_match(library, cases[i].name, &material, &match, &error) ==
                          BITE_OK,
                      "%s: %s", cases[i].name, error.message);
        ck_assert_str_eq(material->record.name, cases[i].grade);
        ck_assert_msg(match == cases[i].match, "%s is a match of kind %d", cases[i].name,
                      (int)match);
    }
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "sheet", &material, &error), BITE_UNKNOWN_NAME);
    ck_assert_str_eq(error.hint, "write abs/sheet, petg/sheet or polycarbonate/sheet");
    bite_library_close(library);
}
END_TEST

/* No designation of the shipped tables stands for two grades. */
START_TEST(no_designation_is_ambiguous)
{
    static const char *const keys[] = {"also", "near"};
    bite_library *library = open_private_library(NULL);
    size_t names = 0;
    for (size_t i = 0; i < bite_library_count(library, BITE_GRADES); i++) {
        bite_item item;
        const bite_material *material = NULL;
        ck_assert_int_eq(bite_library_item(library, BITE_GRADES, i, &item, NULL), BITE_OK);
        ck_assert_int_eq(bite_library_grade(library, item.name, &material, NULL), BITE_OK);
        for (size_t k = 0; k < sizeof keys / sizeof *keys; k++) {
            char list[1024];
            char *rest = list;
            (void)snprintf(list, sizeof list, "%s", bite_item_text(&material->record, keys[k]));
            for (char *name; (name = strtok_r(rest, ", ", &rest)) != NULL; names++) {
                const bite_material *found = NULL;
                bite_grade_match match = BITE_MATCH_GRADE;
                bite_error error = BITE_ERROR_INIT;
                ck_assert_msg(bite_library_grade_match(library, name, &found, &match, &error) ==
                                  BITE_OK,
                              "%s: %s", name, error.message);
                ck_assert_msg(match == BITE_MATCH_FAMILY || found == material, "%s of %s is %s",
                              name, item.name, found->record.name);
                ck_assert(match == BITE_MATCH_FAMILY || (match == BITE_MATCH_NEAR) == (k == 1));
            }
        }
    }
    ck_assert_uint_gt(names, 150);
    bite_library_close(library);
}
END_TEST

/* Every shipped figure has a source with its grade, and every grade can be cut. */
START_TEST(shipped_figures_have_sources)
{
    bite_library *library = open_private_library(NULL);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 0);
    ck_assert_uint_eq(bite_library_count(library, BITE_FAMILIES), 32);
    ck_assert_uint_eq(bite_library_count(library, BITE_GRADES), 71);
    ck_assert_uint_eq(bite_library_count(library, BITE_MACHINES), 7);
    for (size_t i = 0; i < bite_library_count(library, BITE_GRADES); i++) {
        bite_item item;
        const bite_material *material = NULL;
        ck_assert_int_eq(bite_library_item(library, BITE_GRADES, i, &item, NULL), BITE_OK);
        ck_assert_int_eq(bite_library_grade(library, item.name, &material, NULL), BITE_OK);
        for (size_t k = 0; k < material->record.value_count; k++) {
            const bite_field_value *field_value = &material->record.values[k];
            if (field_value->field->type == BITE_FIELD_FIGURE ||
                field_value->field->type == BITE_FIELD_CURVE) {
                ck_assert_msg(field_value->grade != BITE_GRADE_NONE, "%s: %s has no source",
                              item.name, field_value->field->name);
            }
        }
        ck_assert_ptr_nonnull(bite_item_field(&material->record, "density"));
        ck_assert_uint_gt(material->rule_count, 1);
    }
    bite_library_close(library);
}
END_TEST

static double figure(const bite_library *library, const char *grade, const char *name)
{
    const bite_material *material = NULL;
    ck_assert_int_eq(bite_library_grade(library, grade, &material, NULL), BITE_OK);
    const bite_field_value *field_value = bite_item_field(&material->record, name);
    return field_value == NULL ? (double)NAN : field_value->value;
}

/* The softening limit of a thermoset is for the moment of the cut: between its long-term service
 * temperature and the temperature that decomposes it (305 degC). Worktop sheet is stiffer, heavier
 * and a better conductor than the acrylic in it, softens with it, and is not clear. */
START_TEST(softening_of_thermosets_and_worktop_sheet)
{
    bite_library *library = open_private_library(NULL);
    static const char *const boards[] = {"glass-laminate/g10", "glass-laminate/copper-clad"};
    for (size_t i = 0; i < sizeof boards / sizeof *boards; i++) {
        ck_assert_double_gt(figure(library, boards[i], "softening"),
                            figure(library, boards[i], "service_temperature") + 50.0);
        ck_assert_double_lt(figure(library, boards[i], "softening"), 305.0 + 273.15);
    }
    static const char *const more[] = {"density", "modulus", "conductivity",
                                       "compressive_strength"};
    for (size_t i = 0; i < sizeof more / sizeof *more; i++) {
        ck_assert_double_gt(figure(library, "acrylic/filled", more[i]),
                            figure(library, "acrylic/cast", more[i]));
    }
    ck_assert_double_eq(figure(library, "acrylic/filled", "softening"),
                        figure(library, "acrylic/cast", "softening"));
    ck_assert(isnan(figure(library, "acrylic/filled", "refraction")));
    bite_library_close(library);
}
END_TEST

START_TEST(first_on_the_path_wins_by_section)
{
    char own[600];
    char path[700];
    (void)snprintf(own, sizeof own, "%s/own", private_root);
    ck_assert_int_eq(mkdir(own, 0755), 0);
    (void)snprintf(path, sizeof path, "%s/machines.ini", own);
    const char *text =
        "[format]\nkind = machines\nversion = 1\n[machine.bench-24k]\nspindle_fastest = 20000 "
        "rpm\nspindle_fastest.source = memory\n";
    bite_test_write(path, text, strlen(text));
    ck_assert_int_eq(setenv("COOLBITE_TABLE_PATH", own, 1), 0);
    bite_library_options options = {sizeof options, NULL, families, NULL};
    bite_library *library = NULL;
    char both[1300];
    (void)snprintf(both, sizeof both, "%s:%s", own, tables);
    options.table_path = both;
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    const bite_item_record *record = NULL;
    ck_assert_int_eq(bite_library_record(library, BITE_MACHINES, "bench-24k", &record, NULL),
                     BITE_OK);
    ck_assert_str_eq(record->file, path);
    bite_assert_near(bite_item_field(record, "spindle_fastest")->value, 20000.0 / 60.0, 1e-12);
    ck_assert_ptr_null(
        bite_item_field(record, "power_limit")); /* a section replaces the whole section */
    ck_assert_int_eq(bite_library_record(library, BITE_MACHINES, "small-vmc", &record, NULL),
                     BITE_OK);
    bite_library_close(library);
}
END_TEST

/* 30 folders, with those of the user and the installed one 33: the installed tables would be left
 * out without a word. */
START_TEST(too_many_folders_are_refused)
{
    char many[30 * 3 + 1] = "";
    for (int i = 0; i < 30; i++) {
        (void)strcat(many, "/x:");
    }
    ck_assert_int_eq(setenv("XDG_CONFIG_HOME", private_root, 1), 0);
    ck_assert_int_eq(setenv("XDG_DATA_HOME", private_root, 1), 0);
    bite_library_options options = {sizeof options, NULL, families, NULL};
    bite_library *library = NULL;
    bite_error error = BITE_ERROR_INIT;
    options.table_path = many;
    ck_assert_int_eq(bite_library_open(&options, &library, &error), BITE_OUT_OF_RANGE);
    ck_assert_ptr_null(library);
    ck_assert_str_eq(error.message, "more than 32 folders to search");
    ck_assert_str_eq(error.key, "COOLBITE_TABLE_PATH");
    many[29 * 3] = 0; /* one less */
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    bite_library_close(library);
}
END_TEST

START_TEST(a_broken_table_is_left_out)
{
    write_table("materials/acrylic.ini", "[format]\nkind = material\nversion = 1\n[family]\nname = "
                                         "acrylic\n[grade.cast]\ndensty = 3\n");
    write_table("machines.ini", "[format\n");
    bite_library *library = open_private_library(NULL);
    const bite_material *material = NULL;
    const bite_item_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, &error), BITE_BAD_FILE);
    ck_assert_uint_eq(error.line, 7);
    ck_assert_ptr_nonnull(strstr(error.hint, "density"));
    ck_assert_int_eq(bite_library_grade(library, "aluminium", &material, &error), BITE_OK);
    ck_assert_int_eq(bite_library_record(library, BITE_MACHINES, "bench-24k", &record, &error),
                     BITE_BAD_FILE);
    ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, "em-0.8-2", &record, &error),
                     BITE_OK);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 2);
    bite_item item;
    ck_assert_int_eq(bite_library_item(library, BITE_LEFT_OUT, 0, &item, NULL), BITE_OK);
    ck_assert_uint_gt(strlen(item.summary), 20);
    bite_library_close(library);
}
END_TEST

/* A family whose last table others may write is refused, a list of machines is left out. */
START_TEST(tables_that_others_may_write_are_refused)
{
    char path[700];
    for (int k = 0; k < 2; k++) {
        (void)snprintf(path, sizeof path, "%s/%s", tables,
                       k == 0 ? "materials/acrylic.ini" : "machines.ini");
        ck_assert_int_eq(chmod(path, 0666), 0);
    }
    bite_library *library = open_private_library(NULL);
    const bite_material *material = NULL;
    const bite_item_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, &error), BITE_UNSAFE);
    ck_assert_ptr_nonnull(strstr(error.file, "/materials/acrylic.ini"));
    ck_assert_ptr_nonnull(strstr(error.hint, "chmod go-w"));
    ck_assert_int_eq(bite_library_grade(library, "aluminium", &material, &error), BITE_OK);
    ck_assert_int_eq(bite_library_record(library, BITE_MACHINES, "bench-24k", &record, &error),
                     BITE_BAD_FILE); /* it may be in the table that was left out */
    ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, "em-0.8-2", &record, &error),
                     BITE_OK);
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 2);
    bite_library_close(library);
}
END_TEST

START_TEST(cautions_are_checked_when_read)
{
    static const struct {
        const char *body;
        const char *says;
    } cases[] = {
        {"severity = care\nwhen = surface_temperatur above softening\ntext = x\nsource = memory\n",
         "did you mean surface_temperature"},
        {"severity = care\nwhen = surface_temperature above 12mm\ntext = x\nsource = memory\n",
         "length"},
        {"severity = care\nwhen = surface_temperature hotter softening\ntext = x\nsource = "
         "memory\n",
         "above|below|at least|at most"},
        {"severity = care\nwhen = colour is red\ntext = x\nsource = memory\n",
         "is not a word of a judged cut"},
        {"severity = care\ntext = \"x {nothing}\"\nsource = memory\n", "braces"},
        {"severity = care\ntext = \"x {depth\"\nsource = memory\n", "not closed"},
        {"severity = care\ntext = x\n", "source"},
        {"severity = grave\ntext = x\nsource = memory\n", "note, care, danger"},
        {"text = x\nsource = memory\n", "severity"}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[600];
        (void)snprintf(text, sizeof text,
                       "[format]\nkind = material\nversion = 1\n[family]\nname = "
                       "toy\n[grade.a]\ndensity = 1000 kg/m3\nsource = "
                       "memory\n[caution.c]\n%s",
                       cases[i].body);
        write_table("materials/toy.ini", text);
        bite_library *library = open_private_library(NULL);
        const bite_material *material = NULL;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_int_eq(bite_library_grade(library, "toy", &material, &error), BITE_BAD_FILE);
        ck_assert_msg(strstr(error.message, cases[i].says) != NULL ||
                          strstr(error.hint, cases[i].says) != NULL,
                      "case %zu: %s (%s)", i, error.message, error.hint);
        ck_assert_uint_ge(error.line, 9);
        bite_library_close(library);
    }
}
END_TEST

/* ---- threads and memory ---- */

static void *open_in_thread(void *user)
{
    const bite_material *material = NULL;
    return bite_library_grade(user, "acrylic/cast", &material, NULL) == BITE_OK
               ? (void *)(uintptr_t)material
               : NULL;
}

START_TEST(threads_open_the_same_grade)
{
    bite_library *library = open_private_library(NULL);
    pthread_t threads[8];
    void *grades[8];
    for (int i = 0; i < 8; i++) {
        ck_assert_int_eq(pthread_create(&threads[i], NULL, open_in_thread, library), 0);
    }
    for (int i = 0; i < 8; i++) {
        ck_assert_int_eq(pthread_join(threads[i], &grades[i]), 0);
        ck_assert_ptr_nonnull(grades[i]);
        ck_assert_ptr_eq(grades[i], grades[0]);
    }
    bite_library_close(library);
}
END_TEST

/* From opening a library to a judged answer, with the n-th allocation failing, for every n: the
 * failure is reported and nothing leaks. */
START_TEST(every_failed_allocation_is_reported)
{
    for (size_t n = 1; n < 400; n++) {
        bite_test_memory memory = {.fail_at = n};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_library_options options = {sizeof options, &allocator, families, tables};
        bite_error error = BITE_ERROR_INIT;
        bite_library *library = NULL;
        bite_request *request = NULL;
        bite_answer *answer = NULL;
        bite_status status = bite_library_open(&options, &library, &error);
        status = status != BITE_OK ? status : bite_request_new(library, &request, &error);
        status = status != BITE_OK ? status
                                   : bite_request_use(request, BITE_GRADES, "acrylic/cast", &error);
        status =
            status != BITE_OK ? status : bite_request_use(request, BITE_TOOLS, "0.8mm", &error);
        status = status != BITE_OK ? status
                                   : bite_request_set(request, "spindle_speed", "12000rpm", &error);
        status = status != BITE_OK ? status
                                   : bite_request_set(request, "feed_rate", "200mm/min", &error);
        status = status != BITE_OK ? status : bite_answer_new(request, 0, 0.95, &answer, &error);
        bite_answer_free(answer);
        bite_request_free(request);
        bite_library_close(library);
        ck_assert_msg(memory.held == 0, "call %zu: %zu bytes are held", n, memory.held);
        if (status == BITE_OK) {
            ck_assert_uint_gt(n, 10);
            return;
        }
        ck_assert_msg(status == BITE_NO_MEMORY, "call %zu: %s: %s", n, bite_status_name(status),
                      error.message);
    }
    ck_abort_msg("400 failed allocations did not reach the end");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("library");
    TCase *tests = tcase_create("library");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, a_material_is_found_by_each_of_its_names);
    tcase_add_test(tests, a_material_is_found_by_its_designations);
    tcase_add_test(tests, no_designation_is_ambiguous);
    tcase_add_test(tests, shipped_figures_have_sources);
    tcase_add_test(tests, softening_of_thermosets_and_worktop_sheet);
    tcase_add_test(tests, first_on_the_path_wins_by_section);
    tcase_add_test(tests, too_many_folders_are_refused);
    tcase_add_test(tests, a_broken_table_is_left_out);
    tcase_add_test(tests, tables_that_others_may_write_are_refused);
    tcase_add_test(tests, cautions_are_checked_when_read);
    tcase_add_test(tests, threads_open_the_same_grade);
    tcase_add_test(tests, every_failed_allocation_is_reported);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
