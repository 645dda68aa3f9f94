/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Error messages: one line on standard error that says what, where and what to do. Every function
 * returns the exit status that belongs to the error. */
#ifndef BITE_CLI_ERROR_REPORT_H
#define BITE_CLI_ERROR_REPORT_H

#include <coolbite/coolbite.h>

/** An error of the library. */
int report_error(const bite_error *error);

/** An error of a library function that wrote into a text buffer: the buffer refuses text only if
 * memory is exhausted, and then the message says that. */
int report_write_error(const bite_error *error);

int report_out_of_memory(void);

/** A wrong command line: EXIT_USAGE. */
int report_usage_error(const char *format, ...) __attribute__((format(printf, 1, 2)));

/** Any other failure; returns `status`. */
int report_failure(int status, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
