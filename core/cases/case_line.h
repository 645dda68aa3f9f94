/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line of CSV by RFC 4180, split into its fields. */
#ifndef BITE_CASES_CASE_LINE_H
#define BITE_CASES_CASE_LINE_H

#include <coolbite/coolbite.h>
#include <stddef.h>

#define BITE_CASE_COLUMNS_MAX 128

/** Splits a line, in place: each field is ended by 0, without its quotes and the blanks around it.
 *
 * line: ended by 0, without its line feed. fields: space for BITE_CASE_COLUMNS_MAX + 1.
 * BITE_BAD_FILE: a quote that is not closed, or text behind one; more fields than that. */
bite_status bite_case_line_split(char *line, char **fields, size_t *count, bite_error *error);

#endif
