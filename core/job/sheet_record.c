/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet of the tables: the thicknesses and sizes in which it is sold, in metric or in inch units.
 */
#include "core/job/sheet_record.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

bite_status bite_sheet_find(const bite_job *job, const bite_item_record **sheet, bite_error *error)
{
    char name[200];
    bite_status status = BITE_UNKNOWN_NAME;
    *sheet = NULL;
    for (size_t i = 0; i < job->grade->kin_count && status == BITE_UNKNOWN_NAME; i++) {
        const bite_kin *kin = &job->grade->kin[i];
        (void)snprintf(name, sizeof name, "%s.%s", kin->family, kin->grade);
        status = bite_library_record(job->library, BITE_SHEETS, name, sheet, error);
        if (status == BITE_UNKNOWN_NAME) {
            (void)snprintf(name, sizeof name, "%s", kin->family);
            status = bite_library_record(job->library, BITE_SHEETS, name, sheet, error);
        }
    }
    if (status == BITE_OK || status == BITE_UNKNOWN_NAME) {
        bite_error_clear(error); /* of names that are not there */
        status = BITE_OK;
    }
    return status;
}

int bite_sheet_in_inches(const bite_job *job)
{
    return bite_job_file_word(job->file_data.stock, "sold_in",
                              job->units == BITE_INCH ? BITE_INCH : BITE_METRIC) == BITE_INCH;
}

/* Reads a length of one word, or of two if the next one is its unit; *at: behind it. */
static int read_length(const char *list, size_t *at, const char *word, int ends, double *length)
{
    char unit[64];
    char both[130];
    if (bite_quantity_read(word, BITE_KIND_LENGTH, length, NULL) == BITE_OK) {
        return 1;
    }
    if (ends || !bite_job_file_name(list, *at, unit, sizeof unit)) {
        return 0;
    }
    (*at)++;
    unit[strcspn(unit, ",")] = 0;
    (void)snprintf(both, sizeof both, "%s %s", word, unit);
    return bite_quantity_read(both, BITE_KIND_LENGTH, length, NULL) == BITE_OK;
}

/* The next length of a list such as "2 mm, 3 mm" or "1000mm x 2000mm"; returns 0 at its end or at a
 * word that is not a length. */
static int next_length(const char *list, size_t *at, double *length)
{
    char word[64];
    while (bite_job_file_name(list, *at, word, sizeof word)) {
        int ends = strchr(word, ',') != NULL;
        (*at)++;
        word[strcspn(word, ",")] = 0;
        if (word[0] != 0 && strcmp(word, "x") != 0) {
            return read_length(list, at, word, ends, length);
        }
    }
    return 0;
}

/* The key in the system of units in which the sheet is bought, if the table has that. */
static const char *list_of(const bite_item_record *sheet, const char *metric, const char *inches,
                           int inch)
{
    const char *wanted = bite_item_text(sheet, inch ? inches : metric);
    return wanted[0] != 0 ? wanted : bite_item_text(sheet, inch ? metric : inches);
}

static void read_steps(const char *list, bite_sheet_rule *rule)
{
    size_t at = 0;
    double up_to = 0.0;
    double tolerance = 0.0;
    while (rule->step_count < BITE_NOMINALS_MAX && next_length(list, &at, &up_to) &&
           next_length(list, &at, &tolerance)) {
        rule->steps[rule->step_count].up_to = up_to;
        rule->steps[rule->step_count++].tolerance = tolerance;
    }
}

void bite_sheet_read_rule(const bite_item_record *sheet, int inch, bite_sheet_rule *rule)
{
    memset(rule, 0, sizeof *rule);
    if (sheet == NULL) {
        return;
    }
    int has_inch = bite_item_text(sheet, "inch_nominals")[0] != 0;
    int sold_in_inches = has_inch && (inch || bite_item_text(sheet, "nominals")[0] == 0);
    rule->fixed = bite_item_figure_or(sheet, "fixed", 0.0);
    rule->share = bite_item_figure_or(sheet, "share", 0.0);
    rule->thin_share = bite_item_figure_or(sheet, "thin_share", rule->share);
    rule->thin_under = bite_item_figure_or(sheet, "thin_under", 0.0);
    rule->over_only = bite_item_is_yes(sheet, "over_only") ? 1u : 0u;
    if (sold_in_inches && bite_item_field(sheet, "inch_share") != NULL) {
        rule->fixed = bite_item_figure_or(sheet, "inch_fixed", 0.0);
        rule->share = rule->thin_share = bite_item_figure_or(sheet, "inch_share", 0.0);
    }
    read_steps(bite_item_text(sheet, sold_in_inches ? "inch_steps" : "steps"), rule);
    const char *list = list_of(sheet, "nominals", "inch_nominals", inch);
    size_t at = 0;
    while (rule->count < BITE_NOMINALS_MAX &&
           next_length(list, &at, &rule->nominals[rule->count])) {
        rule->count++;
    }
}

void bite_sheet_read_sizes(const bite_item_record *sheet, int inch, bite_sheet_sizes *sizes)
{
    size_t at = 0;
    double one = 0.0;
    double other = 0.0;
    memset(sizes, 0, sizeof *sizes);
    if (sheet == NULL) {
        return;
    }
    const char *list = list_of(sheet, "sizes", "inch_sizes", inch);
    while (sizes->count < BITE_SHEET_SIZES_MAX && next_length(list, &at, &one) &&
           next_length(list, &at, &other)) {
        sizes->length[sizes->count] = fmax(one, other);
        sizes->width[sizes->count++] = fmin(one, other);
    }
}
