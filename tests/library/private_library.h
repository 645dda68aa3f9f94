/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fixture of tests that change tables and plugins before they open the library. */
#ifndef BITE_TESTS_PRIVATE_LIBRARY_H
#define BITE_TESTS_PRIVATE_LIBRARY_H

#include "tests/support/test_tables.h"

/** The tables of the running test, and the folders in them. */
extern bite_test_shop private_shop;
extern const char *const families;
extern const char *const tables;
extern const char *const private_root;

/** Makes the tables and clears the environment that could name others; removes them again. */
void private_setup(void);
void private_teardown(void);

/** Opens them; fails the test if that fails. Owned: bite_library_close. */
bite_library *open_private_library(const bite_allocator *allocator);
/** Writes a file among the tables. */
void write_table(const char *name, const char *text);
/** Puts a built module among the families, as NAME.so. */
void put_family(const char *built, const char *as);

#endif
