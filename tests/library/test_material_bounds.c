/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Physical bounds of the figures of materials: each figure has one, its source is graded, and what
 * cannot be is refused with the value, the bound and what to do. */
#include "core/library/material.h"
#include "core/library/material_bounds.h"
#include "core/library/schema.h"
#include "core/tables/provenance.h"
#include "tests/library/private_library.h"
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#define SUBSTANCES 5

static const bite_field *field_of(const bite_field *fields, size_t count, const char *name)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(fields[i].name, name) == 0) {
            return &fields[i];
        }
    }
    return NULL;
}

/* Temperatures of plastics mean nothing for a metal or a mineral, where only the range of the key
 * holds. No figure has two rows of one substance. */
START_TEST(every_figure_has_a_bound_with_a_source)
{
    static const char *const partial[] = {"transition", "softening", "welding",
                                          "relaxing",   "annealing", "service_temperature"};
    bite_arena *arena = bite_arena_new(bite_memory_default());
    size_t count = 0;
    const bite_field *fields = bite_material_fields(arena, &count);
    for (size_t i = 0; i < count; i++) {
        uint32_t covered = 0;
        bool is_partial = false;
        if (fields[i].type != BITE_FIELD_FIGURE) {
            continue;
        }
        for (size_t k = 0; k < bite_material_bound_count; k++) {
            if (strcmp(bite_material_bound_table[k].key, fields[i].name) == 0) {
                ck_assert_uint_eq(covered & bite_material_bound_table[k].substances, 0);
                covered |= bite_material_bound_table[k].substances;
            }
        }
        for (size_t k = 0; k < sizeof partial / sizeof *partial; k++) {
            is_partial |= strcmp(partial[k], fields[i].name) == 0;
        }
        covered |= is_partial ? 1u << BITE_METAL | 1u << BITE_MINERAL | 1u << BITE_THERMOSET : 0;
        ck_assert_msg(covered == (1u << SUBSTANCES) - 1, "%s: %x", fields[i].name, covered);
    }
    for (size_t k = 0; k < bite_material_bound_count; k++) {
        const bite_material_bound *bound = &bite_material_bound_table[k];
        bite_source_grade grade = BITE_GRADE_NONE;
        const char *where = "";
        ck_assert_msg(field_of(fields, count, bound->key) != NULL, "%s", bound->key);
        ck_assert_msg(bound->least < bound->most, "%s", bound->key);
        ck_assert_msg(bite_source_read(bound->source, &grade, &where), "%s", bound->source);
    }
    for (size_t k = 0; k < bite_material_order_count; k++) {
        const bite_material_order *order = &bite_material_order_table[k];
        bite_source_grade grade = BITE_GRADE_NONE;
        const char *where = "";
        const bite_field *lower = field_of(fields, count, order->lower);
        const bite_field *upper = field_of(fields, count, order->upper);
        ck_assert(lower != NULL && upper != NULL && lower->kind == upper->kind);
        ck_assert(bite_source_read(order->source, &grade, &where));
    }
    bite_arena_free(arena);
}
END_TEST

START_TEST(what_cannot_be_is_refused)
{
    static const struct {
        const char *figures;
        uint32_t line;
        const char *says;
    } cases[] = {
        {"substance = amorphous\nconductivity = 400 W/m/K\n", 8, "conductivity of 400 W/m/K"},
        {"substance = amorphous\nconductivity = 0.2 W/m/K (0.1 .. 200)\n", 8,
         "conductivity of 200 W/m/K"},
        {"substance = metal\nconductivity = 0.2 W/m/K\n", 8, "what metal can have"},
        {"substance = amorphous\nsoftening = 120 degC\ntransition = 105 degC\n", 8,
         "softening of 120"},
        {"substance = crystalline\ntransition = 200 degC\nmelting = 180 degC\n", 8,
         "above melting of 180"},
        {"substance = metal\nwelding = 700 degC\nmelting = 600 degC\n", 8, "above melting"},
        {"substance = thermoset\nsoftening = 500 degC\n", 8, "decomposes"},
        {"substance = metal\npoisson = 0\n", 8, "above 0 to 0.5"},
        {"substance = metal\ndensity = 1200 kg/m3\n", 8, "density of 1200"},
        {"substance = amorphous\ndensity = 12000 kg/m3\n", 8, "kg/m3 to 4000 kg/m3"},
        {"substance = amorphous\nmodulus = 3300 MPa\ntensile_strength = 4 GPa\n", 9, "1 GPa"},
        {"substance = metal\ntensile_yield = 500 MPa\ntensile_strength = 300 MPa\n", 8,
         "tensile_strength of 300"},
        {"poisson = 0\n", 7, "a material can have"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[600];
        (void)snprintf(text, sizeof text,
                       "[format]\nkind = material\nversion = 1\n\n[grade.a]\nsource = memory\n%s",
                       cases[i].figures);
        write_table("materials/toy.ini", text);
        bite_library *library = open_private_library(NULL);
        const bite_material *material = NULL;
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(bite_library_grade(library, "toy", &material, &error) == BITE_BAD_FILE, "%s",
                      cases[i].figures);
        ck_assert_msg(strstr(error.message, cases[i].says) != NULL, "%s: %s", cases[i].figures,
                      error.message);
        ck_assert_msg(error.line == cases[i].line, "%s: line %u", cases[i].figures, error.line);
        ck_assert_msg(strncmp(error.key, "grade.a:", 8) == 0 && error.hint[0] != 0, "%s",
                      error.key);
        bite_library_close(library);
    }
}
END_TEST

/* Of one's own table over the project's, the own one is at fault, even if only both together are;
 * of a grade that is like one of another family, the own table. */
START_TEST(the_newer_table_is_at_fault)
{
    char own[600];
    char path[700];
    char both[1400];
    (void)snprintf(own, sizeof own, "%s/own", private_root);
    (void)snprintf(path, sizeof path, "%s/own/materials", private_root);
    ck_assert_int_eq(mkdir(own, 0755), 0);
    ck_assert_int_eq(mkdir(path, 0755), 0);
    (void)snprintf(both, sizeof both, "%s:%s", own, tables);
    static const char over[] = "[format]\nkind = material\nversion = 1\n[grade.cast]\n"
                               "transition = 75 degC\ntransition.source = memory\n";
    static const char like[] = "[format]\nkind = material\nversion = 1\n[grade.a]\n"
                               "like = acrylic/cast\nsubstance = metal\n";
    (void)snprintf(path, sizeof path, "%s/own/materials/acrylic.ini", private_root);
    bite_test_write(path, over, sizeof over - 1);
    (void)snprintf(path, sizeof path, "%s/own/materials/toy.ini", private_root);
    bite_test_write(path, like, sizeof like - 1);
    bite_library_options options = {sizeof options, NULL, families, both};
    bite_library *library = NULL;
    ck_assert_int_eq(bite_library_open(&options, &library, NULL), BITE_OK);
    const bite_material *material = NULL;
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(bite_library_grade(library, "acrylic/cast", &material, &error), BITE_OK);
    bite_item item;
    ck_assert_uint_eq(bite_library_count(library, BITE_LEFT_OUT), 2);
    ck_assert_int_eq(bite_library_item(library, BITE_LEFT_OUT, 0, &item, NULL), BITE_OK);
    ck_assert_msg(strstr(item.summary, "line 5, grade.cast:transition: ") != NULL &&
                      strstr(item.summary, "softening of 80 degC is above transition of 75") !=
                          NULL,
                  "%s", item.summary);
    ck_assert_int_eq(bite_library_grade(library, "toy", &material, &error), BITE_BAD_FILE);
    ck_assert_uint_eq(error.line, 6);
    ck_assert_str_eq(error.key, "grade.a:substance");
    bite_library_close(library);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("material bounds");
    TCase *tests = tcase_create("material bounds");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_test(tests, every_figure_has_a_bound_with_a_source);
    tcase_add_test(tests, what_cannot_be_is_refused);
    tcase_add_test(tests, the_newer_table_is_at_fault);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
