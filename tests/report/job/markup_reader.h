/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small markup reader: is a page well-formed, and does it meet the requirements on our pages? */
#ifndef BITE_TESTS_REPORT_JOB_MARKUP_READER_H
#define BITE_TESTS_REPORT_JOB_MARKUP_READER_H

#include <stddef.h>

/** Tags are balanced, attributes quoted and not repeated, ids unique, the targets of url(#) and
 * aria-labelledby exist, entities are known, table heads have a scope, heading levels have no gap,
 * drawings have a title. 0 if not: *fault says what and where. */
int bite_test_markup(const char *text, char *fault, size_t size);

#endif
