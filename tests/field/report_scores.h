/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scores: verdicts, troubles seen, areas, reliability and flips, as Markdown tables. */
#ifndef BITE_TESTS_FIELD_REPORT_SCORES_H
#define BITE_TESTS_FIELD_REPORT_SCORES_H

void field_report_scores(void);

#endif
