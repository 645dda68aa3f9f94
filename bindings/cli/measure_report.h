/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the readings of a record prove: coolbite measure RECORD --report FILE. */
#ifndef BITE_CLI_MEASURE_REPORT_H
#define BITE_CLI_MEASURE_REPORT_H

#include "bindings/cli/options.h"

/** Checks the options that belong to a report, and those that do not go with one. 0, or the exit
 * status after an error message. */
int measure_report_check(const struct command_line *line);

/** Writes the report in the record's units, unless --units was given. Returns the exit status of
 * its verdict, or of an error. */
int measure_report(const struct command_line *line, const bite_record *record);

#endif
