/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fixture of tests that need a library: the project's own tables and families, opened. */
#ifndef BITE_TESTS_OPEN_LIBRARY_H
#define BITE_TESTS_OPEN_LIBRARY_H

#include "tests/support/test_tables.h"

/** The tables and the library of the running test; valid between the two functions below. */
extern bite_test_shop shop;
extern bite_library *library;

/** Makes the tables and opens the library: the set-up of a checked or unchecked fixture. */
void open_library(void);
/** Closes the library and removes the tables: its tear-down. */
void close_library(void);

/** The answer, with 95 % confidence, of a 0.8 mm mill in cast acrylic on bench-24k with these
 * inputs and quantities; owned. */
bite_answer *answer_of_typed(const bite_library *of, const char *const typed[][2], size_t count,
                             size_t draws);

#endif
