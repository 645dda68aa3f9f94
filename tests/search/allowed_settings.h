/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which speeds and feeds a choice may enter for a tool, stated apart from the search. */
#ifndef BITE_TESTS_SEARCH_ALLOWED_SETTINGS_H
#define BITE_TESTS_SEARCH_ALLOWED_SETTINGS_H

#include "tests/search/search_request.h"

typedef struct allowed_settings {
    double spindle[2]; /* 1/s */
    double tooth[2];   /* m, feed per tooth */
} allowed_settings;

/** cut: the request with one tool; its speed, feed and width as given, NaN where they are free. */
allowed_settings allowed_settings_of(const search_request *made, const bite_cut *cut);

/** The spindle speed that an operator enters for this one, and the next feed rates that he enters
 * at or above, and at or below, this one. */
double entered_speed(double spindle);
double entered_feed_above(double feed);
double entered_feed_below(double feed);
/** The depth that is entered for this one: the next larger one. */
double entered_depth(double depth);

#endif
