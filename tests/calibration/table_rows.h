/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of tables/uncertainty.ini that calibration makes. */
#ifndef BITE_TESTS_CALIBRATION_TABLE_ROWS_H
#define BITE_TESTS_CALIBRATION_TABLE_ROWS_H

#include "tests/calibration/shared_inputs.h"

typedef struct posterior {
    const shared_input *input;
    double before[3]; /* over the median of the prior, at 5, 50 and 95 %, of the same draws with
                         even weights */
    double after[3];
    double gain;         /* in the score of sources left out */
    double error;        /* its standard error */
    const char *refusal; /* NULL: accepted */
} posterior;

/** The median of the prior over the value in use: rows state factors on that. */
double table_rows_scale(const shared_input *input);

/** Writes low, high and source of each calibrated row anew: of the posterior where it was
 * accepted, otherwise of the prior. A row that the table lacks is added if it was accepted, and
 * skipped otherwise. */
void table_rows_write(const char *path, const posterior *posteriors, size_t count, size_t cuts,
                      size_t sources);

#endif
