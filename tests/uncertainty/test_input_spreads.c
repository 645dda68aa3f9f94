/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every input that is known within a band is drawn: no uncertainty that a table or a default states
 * is forgotten. */
#include "core/cut/defaults.h"
#include "core/names/registry.h"
#include "tests/reference/csv.h"
#include "tests/support/support.h"
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Whether the line is "NAME = ... (LOW .. HIGH)". */
static int states_band(const char *line, const char *name)
{
    size_t length = strlen(name);
    const char *end = strchr(line, '\n');
    const char *dots = strstr(line, " .. ");
    return strncmp(line, name, length) == 0 && strncmp(line + length, " = ", 3) == 0 &&
           dots != NULL && (end == NULL || dots < end);
}

static int text_states_band(const char *text, const char *name)
{
    for (const char *line = text; line != NULL && *line != 0;) {
        if (states_band(line, name)) {
            return 1;
        }
        line = strchr(line, '\n');
        line = line == NULL ? NULL : line + 1;
    }
    return 0;
}

static char *table_text(const char *name)
{
    char path[4096];
    char below[400];
    (void)snprintf(below, sizeof below, "tables/%s", name);
    bite_test_source(path, sizeof path, below);
    return bite_csv_text(path);
}

/* Whether uncertainty.ini has a section of the input; an exact one counts, for it was decided. */
static int has_row(const char *model, const char *name)
{
    char section[80];
    (void)snprintf(section, sizeof section, "\n[spread.%s]\n", name);
    return strstr(model, section) != NULL;
}

static void check_table(const char *table, const char *model)
{
    char *text = table_text(table);
    for (size_t i = 0; i < bite_input_count(); i++) {
        const char *name = bite_input_at(i)->name;
        ck_assert_msg(!text_states_band(text, name) || has_row(model, name),
                      "%s states a band of %s, which uncertainty.ini does not draw", table, name);
    }
    free(text);
}

START_TEST(bands_of_tables_are_drawn)
{
    static const char *const plain[] = {"tools.ini", "holders.ini", "machines.ini", "coolants.ini",
                                        "workholding.ini"};
    char path[4096];
    char *model = table_text("uncertainty.ini");
    for (size_t i = 0; i < sizeof plain / sizeof *plain; i++) {
        check_table(plain[i], model);
    }
    bite_test_source(path, sizeof path, "tables/materials");
    DIR *folder = opendir(path);
    ck_assert_ptr_nonnull(folder);
    int seen = 0;
    for (struct dirent *entry = readdir(folder); entry != NULL; entry = readdir(folder)) {
        if (strstr(entry->d_name, ".ini") != NULL) {
            char name[300];
            (void)snprintf(name, sizeof name, "materials/%s", entry->d_name);
            check_table(name, model);
            seen++;
        }
    }
    (void)closedir(folder);
    free(model);
    ck_assert_int_gt(seen, 25);
}
END_TEST

/* A default that is an estimate or recalled is not exact, unless it is a choice of the shop. */
START_TEST(estimated_defaults_are_drawn)
{
    char *model = table_text("uncertainty.ini");
    int seen = 0;
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        const char *source = bite_defaults_source(input->name);
        int uncertain = strncmp(source, "estimate", 8) == 0 || strncmp(source, "memory", 6) == 0;
        if (uncertain && input->words == 0) {
            ck_assert_msg(has_row(model, input->name),
                          "the default of %s is an estimate, which uncertainty.ini does not draw: "
                          "%s",
                          input->name, source);
            seen++;
        }
    }
    free(model);
    ck_assert_int_gt(seen, 30);
}
END_TEST

/* The sections name inputs, so that none is drawn in vain. */
START_TEST(every_row_is_of_an_input)
{
    char *model = table_text("uncertainty.ini");
    int rows = 0;
    for (char *at = strstr(model, "\n[spread."); at != NULL; at = strstr(at + 1, "\n[spread.")) {
        char name[80] = "";
        ck_assert_int_eq(sscanf(at, "\n[spread.%79[a-z0-9_]]", name), 1);
        const bite_input *input = bite_input_find(name);
        ck_assert_msg(input != NULL && input->words == 0, "%s is no input with a number", name);
        rows++;
    }
    free(model);
    ck_assert_int_gt(rows, 60);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("input spreads");
    TCase *spreads = tcase_create("input spreads");
    tcase_set_timeout(spreads, 120);
    tcase_add_test(spreads, bands_of_tables_are_drawn);
    tcase_add_test(spreads, estimated_defaults_are_drawn);
    tcase_add_test(spreads, every_row_is_of_an_input);
    suite_add_tcase(suite, spreads);
    return bite_test_run(suite);
}
