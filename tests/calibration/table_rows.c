/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of tables/uncertainty.ini that calibration makes. */
#include "tests/calibration/table_rows.h"
#include "tests/reference/csv.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct row_text {
    char low[40];
    char high[40];
    char source[300];
} row_text;

double table_rows_scale(const shared_input *input)
{
    return isnan(input->value) ? 1.0 : input->value / input->used;
}

static row_text text_of(const posterior *row, size_t cuts, size_t sources)
{
    row_text text;
    int accepted = row->refusal == NULL;
    double scale = table_rows_scale(row->input);
    (void)snprintf(text.low, sizeof text.low, "low = %.3g",
                   scale * (accepted ? row->after[0] : row->input->low));
    (void)snprintf(text.high, sizeof text.high, "high = %.3g",
                   scale * (accepted ? row->after[2] : row->input->high));
    if (accepted) {
        (void)snprintf(text.source, sizeof text.source,
                       "source = \"estimate: calibrated by %zu cuts of %zu sources "
                       "(tests/calibration); before, %s\"",
                       cuts, sources, row->input->source);
    } else {
        (void)snprintf(text.source, sizeof text.source, "source = %s", row->input->source);
    }
    return text;
}

static int starts_with(const char *line, const char *text)
{
    return strncmp(line, text, strlen(text)) == 0;
}

static const posterior *row_of(const char *line, const posterior *posteriors, size_t count)
{
    char section[80];
    for (size_t i = 0; i < count; i++) {
        (void)snprintf(section, sizeof section, "[spread.%s]", posteriors[i].input->name);
        if (strcmp(line, section) == 0) {
            return &posteriors[i];
        }
    }
    return NULL;
}

static void write_line(FILE *file, const char *line, const row_text *text)
{
    (void)fprintf(file, "%s\n",
                  text == NULL                     ? line
                  : starts_with(line, "low = ")    ? text->low
                  : starts_with(line, "high = ")   ? text->high
                  : starts_with(line, "source = ") ? text->source
                                                   : line);
}

/* An input that is not in the registry has no row: it would be one only if it were added. */
static void add_row(FILE *file, const posterior *row, size_t cuts, size_t sources)
{
    if (row->refusal != NULL || bite_input_find(row->input->name) == NULL) {
        return;
    }
    row_text text = text_of(row, cuts, sources);
    (void)fprintf(file, "\n[spread.%s]\nshape = lognormal\n%s\n%s\n%s\n", row->input->name,
                  text.low, text.high, text.source);
}

void table_rows_write(const char *path, const posterior *posteriors, size_t count, size_t cuts,
                      size_t sources)
{
    char *table = bite_csv_text(path);
    FILE *file = fopen(path, "w");
    int *found = calloc(count, sizeof *found);
    row_text text;
    const row_text *now = NULL;
    ck_assert_ptr_nonnull(file);
    ck_assert_ptr_nonnull(found);
    for (char *rest = table, *line; (line = strsep(&rest, "\n")) != NULL && rest != NULL;) {
        if (line[0] == '[') {
            const posterior *row = row_of(line, posteriors, count);
            now = NULL;
            if (row != NULL) {
                found[row - posteriors] = 1;
                text = text_of(row, cuts, sources);
                now = &text;
            }
        }
        write_line(file, line, now);
    }
    for (size_t i = 0; i < count; i++) {
        if (!found[i]) {
            add_row(file, &posteriors[i], cuts, sources);
        }
    }
    ck_assert_int_eq(fclose(file), 0);
    free(found);
    free(table);
}
