/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a writer has written: its text, also on one line, and as JSON. */
#ifndef BITE_TESTS_REPORT_REPORT_OUTPUT_H
#define BITE_TESTS_REPORT_REPORT_OUTPUT_H

#include <coolbite/coolbite.h>
#include <jansson.h>

typedef struct report_output {
    char *text;  /* ended by 0; owned: report_output_free */
    char *plain; /* the same with one blank for blanks and line ends */
    size_t size;
} report_output;

/** A bite_sink whose user is an output, which begins with zeros. */
int report_output_add(void *user, const char *piece, size_t size);
void report_output_free(report_output *output);

/** Fails unless the text on one line has the words, or has them not. */
void report_output_has(report_output *output, const char *words);
void report_output_lacks(report_output *output, const char *words);

/** The text as JSON; fails the test if it is none. Owned: json_decref. */
json_t *report_output_json(const report_output *output);
/** A member by its path, "milling.rows"; a number is an index of an array. Fails if there is none.
 */
const json_t *report_member(const json_t *root, const char *path);
double report_number(const json_t *root, const char *path);
const char *report_text(const json_t *root, const char *path);

/** A style with a format and a unit system, as wide as a page may be. */
bite_style report_style(uint32_t format, uint32_t units);

#endif
