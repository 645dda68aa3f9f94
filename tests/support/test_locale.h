/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Locales whose decimal mark is no point, and whose small i is not that of English. */
#ifndef BITE_TEST_LOCALE_H
#define BITE_TEST_LOCALE_H

/** "C", then names of locales: a decimal comma, the Turkish i, a decimal mark of two bytes. */
#define BITE_TEST_LOCALES 4
extern const char *const bite_test_locales[BITE_TEST_LOCALES];

/** Sets a locale of the process: the system's, or that which tests/support/make_locales.sh compiled
 * into the build. If there is neither, the test goes on in the locale "C" after a line on standard
 * error, or fails if BITE_TEST_LOCALES is set in the environment. */
void bite_test_set_locale(const char *name);

#endif
