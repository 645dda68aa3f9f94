/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A small reader of markup: is a page well-formed, and does it keep what a page of ours promises?
 */
#ifndef BITE_TESTS_REPORT_JOB_MARKUP_READER_H
#define BITE_TESTS_REPORT_JOB_MARKUP_READER_H

#include <stddef.h>

/**
 * Tags balanced, attributes quoted and not twice, ids unique, what url(#) and aria-labelledby name
 * is there, entities known, heads of tables with scope, headings without a gap, drawings with a
 * title. 0: *fault tells what and where.
 */
int bite_test_markup(const char *text, char *fault, size_t size);

#endif
