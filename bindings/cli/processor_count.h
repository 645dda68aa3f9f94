/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The number of threads to use. */
#ifndef BITE_CLI_PROCESSOR_COUNT_H
#define BITE_CLI_PROCESSOR_COUNT_H

#include <stddef.h>

/** The number of processors that this process may use, within the limits of the library. */
size_t processor_count(void);

#endif
