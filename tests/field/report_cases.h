/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line for each report and recipe: what was given and assumed, the verdict and the limits. */
#ifndef BITE_TESTS_FIELD_REPORT_CASES_H
#define BITE_TESTS_FIELD_REPORT_CASES_H

void field_report_cases(void);

#endif
