/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Public reports of troubles against the changes that choose --after proposes: where does the cure
 * that helped, or was advised, stand? */
#ifndef BITE_TESTS_FIELD_FIELD_CURES_H
#define BITE_TESTS_FIELD_FIELD_CURES_H

/** How often the cure of a report stands where. */
typedef struct field_cure_score {
    int reports;
    int first;
    int second;
    int third;
    int later;
    int cause; /* among what settings cannot show */
} field_cure_score;

/** The score of all reports with a cure (tried_only: with one that was tried and helped). print: 1
 * prints a line of a table for each. */
field_cure_score field_cure_score_of(int tried_only, int print);

/** Prints the section of the report. */
void field_report_cures(void);

#endif
