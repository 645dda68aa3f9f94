/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Grades that are like others, tables of one's own over those of the project, and what happens if
 * one of them is at fault. */
#include "core/library/material.h"
#include "core/tables/provenance.h"
#include "tests/library/private_library.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#define HEAD "[format]\nkind = material\nversion = 1\n"

static char own[600]; /* a folder of tables that comes first on the search path */

static void setup(void)
{
    char folder[700];
    private_setup();
    (void)snprintf(own, sizeof own, "%s/own", private_root);
    (void)snprintf(folder, sizeof folder, "%s/materials", own);
    ck_assert_int_eq(mkdir(own, 0755), 0);
    ck_assert_int_eq(mkdir(folder, 0755), 0);
}

static void write_own(const char *family, const char *text)
{
    char path[800];
    char whole[8000];
    (void)snprintf(path, sizeof path, "%s/materials/%s.ini", own, family);
    (void)snprintf(whole, sizeof whole, HEAD "%s", text);
    bite_test_write(path, whole, strlen(whole));
}

static bite_library *open_both(void)
{
    char both[1400];
    bite_library *library = NULL;
    (void)snprintf(both, sizeof both, "%s:%s", own, tables);
    bite_library_options options = {sizeof options, NULL, families, both};
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    return library;
}

static const bite_material *grade(const bite_library *library, const char *name)
{
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_library_grade(library, name, &material, &error) == BITE_OK, "%s: %s (%s)",
                  name, error.message, error.hint);
    return material;
}

static const bite_field_value *value(const bite_library *library, const char *name, const char *key)
{
    const bite_field_value *found = bite_item_field(&grade(library, name)->record, key);
    ck_assert_msg(found != NULL, "%s has no %s", name, key);
    return found;
}

static const bite_caution_rule *rule(const bite_material *material, const char *name)
{
    for (size_t i = 0; i < material->rule_count; i++) {
        if (strcmp(material->rules[i].name, name) == 0) {
            return &material->rules[i];
        }
    }
    return NULL;
}

/* One's own figure with its band and source, the rest from the parent, which is named. */
START_TEST(figures_are_taken_from_a_grade_of_another_family)
{
    write_own("plexi", "[family]\ndefault = blue\n"
                       "[grade.clear]\nlike = acrylic/extruded\ndensity = 1185 kg/m3 (1180 .. "
                       "1190)\ndensity.source = memory: scales\n"
                       "[grade.blue]\nlike = clear\ncrazing = 4 MPa\ncrazing.source = memory\n");
    bite_library *library = open_both();
    const bite_field_value *density = value(library, "plexi/clear", "density");
    bite_assert_near(density->low, 1180.0, 1e-12);
    bite_assert_near(density->high, 1190.0, 1e-12);
    ck_assert_str_eq(density->source, "memory: scales");
    ck_assert_ptr_null(density->from);
    /* two steps up, and the place that states it is named, not the one in between */
    const bite_field_value *softening = value(library, "plexi/blue", "softening");
    bite_assert_near(softening->value, 273.15 + 70.0, 1e-12);
    ck_assert_str_eq(softening->from, "acrylic/extruded");
    ck_assert_ptr_nonnull(strstr(softening->source, "; from acrylic/extruded"));
    ck_assert_ptr_nonnull(strstr(softening->file, "/tables/materials/acrylic.ini"));
    ck_assert_str_eq(value(library, "plexi/blue", "density")->source,
                     "memory: scales; from plexi/clear");
    ck_assert_str_eq(value(library, "plexi/blue", "speed_diamond")->source,
                     "memory: from acrylic/cast");
    bite_assert_near(value(library, "plexi", "crazing")->value, 4e6, 1e-12);
    ck_assert_ptr_null(value(library, "plexi", "crazing")->from);
    /* what names a grade is its own */
    ck_assert_str_eq(grade(library, "plexi/blue")->record.title, "blue");
    ck_assert_ptr_null(bite_item_field(&grade(library, "plexi/blue")->record, "also"));
    bite_library_close(library);
}
END_TEST

/* The cautions and the plugin of the parent come along, and so do the ratings of fluids. */
START_TEST(cautions_plugin_and_fluids_come_along)
{
    write_own("plexi", "[grade.clear]\nlike = acrylic/extruded\n"
                       "[caution.film]\nseverity = note\ntext = mine\nsource = memory\n");
    bite_library *library = open_both();
    const bite_material *material = grade(library, "plexi");
    ck_assert_str_eq(rule(material, "film")->text, "mine");
    ck_assert_ptr_null(rule(material, "film")->as_grade);
    ck_assert_str_eq(rule(material, "extruded")->as_grade, "extruded");
    ck_assert_str_eq(rule(material, "fumes")->as_family, "acrylic");
    ck_assert_ptr_nonnull(material->family);
    ck_assert_str_eq(material->family->name, "acrylic");
    ck_assert_uint_eq(material->kin_count, 2);
    bite_compatibility rated = {0};
    rated.struct_size = (uint32_t)sizeof rated;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_compatibility_find(library, "isopropanol", "plexi", &rated, &error),
                     BITE_OK);
    ck_assert_uint_eq(rated.machined, BITE_RATED_NO);
    bite_library_close(library);
}
END_TEST

START_TEST(a_family_is_like_another_family)
{
    write_own("plexi", "[family]\nlike = acrylic\ntitle = mine\n"
                       "[grade.cast]\ndensity = 1181 kg/m3\ndensity.source = memory\n"
                       "[grade.mirror]\ncrazing = 4 MPa\ncrazing.source = memory\n");
    write_own("one", "[family]\nlike = acrylic/cast\n"
                     "[grade.thin]\ncrazing = 4 MPa\ncrazing.source = memory\n"
                     "[grade.soft]\nlike = acrylic/extruded\n");
    bite_library *library = open_both();
    bite_assert_near(value(library, "plexi/cast", "density")->value, 1181.0, 1e-12);
    bite_assert_near(value(library, "plexi/cast", "softening")->value, 273.15 + 80.0, 1e-12);
    ck_assert_str_eq(value(library, "plexi/filled", "modulus")->from, "acrylic/filled");
    ck_assert_str_eq(value(library, "plexi/mirror", "softening")->from, "acrylic/extruded");
    ck_assert_str_eq(grade(library, "plexi")->record.name, "plexi/extruded"); /* its default */
    ck_assert_ptr_nonnull(rule(grade(library, "plexi/filled"), "fumes"));
    ck_assert_str_eq(value(library, "one/thin", "softening")->from, "acrylic/cast");
    ck_assert_str_eq(value(library, "one/soft", "softening")->from, "acrylic/extruded");
    /* names of the other family stay its own, whatever was read before */
    ck_assert_str_eq(grade(library, "pmma")->record.name, "acrylic/extruded");
    ck_assert_str_eq(grade(library, "solid-surface")->record.name, "acrylic/filled");
    ck_assert_str_eq(grade(library, "filled")->record.name, "acrylic/filled");
    bite_library_close(library);
}
END_TEST

/* A table of one's own over the project's: key by key, for grades that are like it too. */
START_TEST(a_table_of_the_same_name_is_merged_key_by_key)
{
    write_own("acrylic", "[grade.cast]\ndensity = 1188 kg/m3\ndensity.source = memory: scales\n"
                         "[grade.mirror]\nlike = cast\ntitle = mirror\n"
                         "[caution.film]\nseverity = note\ntext = mine\nsource = memory\n");
    bite_library *library = open_both();
    bite_assert_near(value(library, "acrylic/cast", "density")->value, 1188.0, 1e-12);
    ck_assert_ptr_nonnull(strstr(value(library, "acrylic/cast", "density")->file, own));
    bite_assert_near(value(library, "acrylic/cast", "softening")->value, 273.15 + 80.0, 1e-12);
    ck_assert_ptr_null(value(library, "acrylic/cast", "softening")->from);
    ck_assert_ptr_null(strstr(value(library, "acrylic/cast", "softening")->file, own));
    ck_assert_str_eq(grade(library, "acrylic/cast")->record.title, "cast");
    ck_assert_str_eq(value(library, "acrylic/extruded", "density")->from, "acrylic/cast");
    bite_assert_near(value(library, "acrylic/extruded", "density")->value, 1188.0, 1e-12);
    bite_assert_near(value(library, "acrylic/mirror", "density")->value, 1188.0, 1e-12);
    ck_assert_str_eq(grade(library, "acrylic")->record.name, "acrylic/extruded");
    ck_assert_str_eq(rule(grade(library, "acrylic/mirror"), "film")->text, "mine");
    ck_assert_ptr_nonnull(rule(grade(library, "acrylic/mirror"), "fumes"));
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 0);
    bite_library_close(library);
}
END_TEST

/* What others may write is left out alone, however valid: it could take a caution away. */
START_TEST(a_table_that_others_may_write_is_left_out)
{
    char folder[700];
    char file[800];
    (void)snprintf(folder, sizeof folder, "%s/materials", own);
    (void)snprintf(file, sizeof file, "%s/acrylic.ini", folder);
    const struct {
        const char *what;
        mode_t mode;
    } cases[] = {{file, 0646}, {file, 0664}, {folder, 0777}, {folder, 01777}, {own, 0775}};
    write_own("acrylic", "[caution.fumes]\nseverity = note\ntext = nothing to fear\n"
                         "source = memory\n");
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_library *library = open_both();
        ck_assert_str_eq(rule(grade(library, "acrylic/cast"), "fumes")->text, "nothing to fear");
        bite_library_close(library);
        ck_assert_int_eq(chmod(cases[i].what, cases[i].mode), 0);
        library = open_both();
        const bite_material *material = grade(library, "acrylic/cast");
        ck_assert_str_ne(rule(material, "fumes")->text, "nothing to fear");
        ck_assert_ptr_nonnull(rule(material, "table_left_out"));
        ck_assert_ptr_nonnull(
            strstr(rule(material, "table_left_out")->text, "can be written by users other than"));
        bite_item item;
        ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 1);
        ck_assert_int_eq(bite_library_item(library, BITE_LEFT_OUT, 0, &item, NULL), BITE_OK);
        ck_assert_ptr_nonnull(strstr(item.summary, "can be written by users other than"));
        bite_library_close(library);
        ck_assert_int_eq(chmod(cases[i].what, strcmp(cases[i].what, file) == 0 ? 0644 : 0755), 0);
    }
}
END_TEST

/* One slip in one's own table: it is left out alone, and the answer says so. */
START_TEST(a_faulty_table_is_left_out_alone)
{
    static const struct {
        const char *text;
        const char *says;
    } cases[] = {
        {"[grade.cast]\ndensty = 1188 kg/m3\n[grade.mirror]\nlike = cast\n", "density"},
        {"[grade.cast]\ndensity = 1188 kg/m3\n[grade.mirror]\nlike = cast\n", "no source"},
        {"[grade.mirror]\nlike = cats\n", "did you mean acrylic/cast?"},
        {"[grade.mirror]\nlike = acrylik/cast\n", "did you mean acrylic?"},
        {"[grade.mirror]\nlike = aluminium/9999\n", "aluminium has no grade 9999"},
        {"[grade.mirror]\nlike = mirror\n", "cycle: acrylic/mirror, acrylic/mirror"},
        {"[grade.cast]\nlike = mirror\n[grade.mirror]\nlike = extruded\n", "cycle"},
        {"[family]\nlike = acrylic\n[grade.mirror]\nlike = cast\n", "cycle"},
        {"[caution.film]\nseverity = note\ntext = \"{nothing}\"\nsource = memory\n"
         "[grade.mirror]\nlike = cast\n",
         "braces"},
        {"[grade.mirror\nlike = cast\n", "closed"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        write_own("acrylic", cases[i].text);
        bite_library *library = open_both();
        bite_assert_near(value(library, "acrylic/cast", "density")->value, 1190.0, 1e-12);
        const bite_caution_rule *left = rule(grade(library, "acrylic/extruded"), "table_left_out");
        ck_assert_ptr_nonnull(left);
        ck_assert_msg(strstr(left->text, cases[i].says) != NULL || cases[i].says[0] == 'b',
                      "case %zu: %s", i, left->text);
        ck_assert_ptr_nonnull(strstr(left->text, own));
        bite_item item;
        ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 1);
        ck_assert_int_eq(bite_library_item(library, BITE_LEFT_OUT, 0, &item, NULL), BITE_OK);
        ck_assert_msg(strstr(item.summary, cases[i].says) != NULL, "case %zu: %s", i, item.summary);
        ck_assert_msg(strncmp(item.summary, "line ", 5) == 0, "case %zu: %s", i, item.summary);
        /* a grade that may be in it is not just unknown */
        const bite_material *material = NULL;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_int_eq(bite_library_grade(library, "acrylic/mirror", &material, &error),
                         BITE_BAD_FILE);
        ck_assert_ptr_nonnull(strstr(error.file, "acrylic.ini"));
        bite_library_close(library);
    }
}
END_TEST

/* The last table of the path is what the others rest on: with it the family goes, because its
 * cautions would be missing. */
START_TEST(a_family_without_its_last_table_is_not_used)
{
    write_table("materials/acrylic.ini", HEAD "[grade.cast]\ndensty = 3\n");
    write_own("acrylic", "[grade.cast]\ndensity = 1188 kg/m3\ndensity.source = memory\n");
    write_own("plexi", "[grade.clear]\nlike = acrylic/cast\n");
    bite_library *library = open_both();
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, &error), BITE_BAD_FILE);
    ck_assert_uint_eq(error.line, 5);
    ck_assert_int_eq(bite_library_grade(library, "plexi", &material, &error), BITE_BAD_FILE);
    ck_assert_msg(strstr(error.message, "the table of acrylic") != NULL, "%s", error.message);
    ck_assert_uint_eq(error.line, 5);
    ck_assert_str_eq(error.key, "grade.clear:like");
    bite_library_close(library);
}
END_TEST

/* A loop through two families is a fault of both of one's own tables, whichever is read first; the
 * project's family stays. */
START_TEST(a_loop_through_two_families_is_refused)
{
    for (int first = 0; first < 2; first++) {
        write_own("acrylic", "[grade.x]\nlike = plexi/y\n");
        write_own("plexi", "[grade.y]\nlike = acrylic/cast\n");
        bite_library *library = open_both();
        const bite_material *material = NULL;
        bite_error error = BITE_ERROR_INIT;
        const char *names[] = {"acrylic/cast", "plexi/y"};
        ck_assert_int_eq(bite_library_grade(library, names[first], &material, &error),
                         first == 0 ? BITE_OK : BITE_BAD_FILE);
        ck_assert_int_eq(bite_library_grade(library, names[1 - first], &material, &error),
                         first == 0 ? BITE_BAD_FILE : BITE_OK);
        ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 2);
        for (size_t i = 0; i < 2; i++) {
            bite_item item;
            ck_assert_int_eq(bite_library_item(library, BITE_LEFT_OUT, i, &item, NULL), BITE_OK);
            ck_assert_msg(strstr(item.summary, "cycle") != NULL, "%s", item.summary);
            ck_assert_ptr_nonnull(strstr(item.file, own));
        }
        bite_library_close(library);
    }
}
END_TEST

/* Writes a chain of families f00, f01, ..., each like the one before it. */
static void write_chain(int families_count)
{
    for (int i = 0; i < families_count; i++) {
        char name[16];
        char text[200];
        (void)snprintf(name, sizeof name, "f%02d", i);
        (void)snprintf(text, sizeof text, "[grade.a]\nlike = f%02d/a\n", i - 1);
        write_own(name, i == 0 ? "[grade.a]\nlike = acrylic/cast\n" : text);
    }
}

/* A chain has a bounded length, counted from its top, so that it does not matter where reading
 * begins; and no number of tables exhausts the stack. */
START_TEST(a_chain_has_a_bounded_length)
{
    write_chain(60);
    for (int down = 0; down < 2; down++) {
        bite_library *library = open_both();
        for (int i = 0; i < 20; i++) {
            char name[16];
            const bite_material *material = NULL;
            bite_error error = BITE_ERROR_INIT;
            int at = down ? 19 - i : i;
            (void)snprintf(name, sizeof name, "f%02d", at);
            bite_status status = bite_library_grade(library, name, &material, &error);
            ck_assert_msg((status == BITE_OK) == (at < 15), "%s from %d: %s", name, down,
                          error.message);
        }
        bite_library_close(library);
    }
    bite_library *library = open_both();
    const bite_material *material = NULL;
    ck_assert_int_eq(bite_library_grade(library, "f59", &material, NULL), BITE_BAD_FILE);
    bite_library_close(library);
}
END_TEST

/* Thousands of grades in one chain are refused at once, and thousands like one grade are read. */
START_TEST(hostile_chains_end)
{
    char *text = malloc(400000);
    ck_assert_ptr_nonnull(text);
    for (int star = 0; star < 2; star++) {
        char *to = stpcpy(text, HEAD "[grade.g0]\ndensity = 1000 kg/m3\nsource = memory\n");
        for (int i = 1; i < 5000; i++) {
            to += sprintf(to, "[grade.g%d]\nlike = g%d\n", i, star ? 0 : i - 1);
        }
        write_table("materials/toy.ini", text);
        bite_library *library = open_private_library(NULL);
        const bite_material *material = NULL;
        bite_error error = BITE_ERROR_INIT;
        bite_status status = bite_library_grade(library, "toy/g4999", &material, &error);
        ck_assert_int_eq(status, star ? BITE_OK : BITE_BAD_FILE);
        ck_assert_msg(star || strstr(error.message, "chain of more than") != NULL, "%s",
                      error.message);
        bite_library_close(library);
    }
    free(text);
}
END_TEST

/* The n-th allocation fails, for every n: it is reported, and nothing leaks. */
START_TEST(every_failed_allocation_is_reported)
{
    char both[1400];
    write_own("acrylic", "[grade.cast]\ndensity = 1188 kg/m3\ndensity.source = memory\n");
    write_own("plexi", "[family]\nlike = acrylic\n[grade.blue]\nlike = acrylic/extruded\n"
                       "[grade.cast]\ndensty = 3\n");
    write_own("one", "[family]\nlike = acrylic\n[grade.blue]\nlike = acrylic/extruded\n");
    (void)snprintf(both, sizeof both, "%s:%s", own, tables);
    for (size_t n = 1; n < 2000; n++) {
        bite_test_memory memory = {.fail_at = n};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_library_options options = {sizeof options, &allocator, families, both};
        bite_library *library = NULL;
        bite_error error = BITE_ERROR_INIT;
        const bite_material *material = NULL;
        bite_status status = bite_library_open(&options, &library, &error);
        status =
            status != BITE_OK ? status : bite_library_grade(library, "one/blue", &material, &error);
        if (status == BITE_OK) {
            bite_status other = bite_library_grade(library, "plexi/cast", &material, &error);
            status = other == BITE_NO_MEMORY ? other : status;
        }
        bite_library_close(library);
        ck_assert_msg(memory.held == 0, "call %zu: %zu bytes are held", n, memory.held);
        if (status == BITE_OK) {
            ck_assert_uint_gt(n, 20);
            return;
        }
        ck_assert_msg(status == BITE_NO_MEMORY, "call %zu: %s", n, error.message);
    }
    ck_abort_msg("2000 failed allocations did not reach the end");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("inheritance");
    TCase *tests = tcase_create("inheritance");
    tcase_add_checked_fixture(tests, setup, private_teardown);
    tcase_add_test(tests, figures_are_taken_from_a_grade_of_another_family);
    tcase_add_test(tests, cautions_plugin_and_fluids_come_along);
    tcase_add_test(tests, a_family_is_like_another_family);
    tcase_add_test(tests, a_table_of_the_same_name_is_merged_key_by_key);
    tcase_add_test(tests, a_table_that_others_may_write_is_left_out);
    tcase_add_test(tests, a_faulty_table_is_left_out_alone);
    tcase_add_test(tests, a_family_without_its_last_table_is_not_used);
    tcase_add_test(tests, a_loop_through_two_families_is_refused);
    tcase_add_test(tests, a_chain_has_a_bounded_length);
    tcase_add_test(tests, hostile_chains_end);
    tcase_add_test(tests, every_failed_allocation_is_reported);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
