/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a shop measures an input most cheaply. */
#ifndef BITE_NAMES_MEASUREMENTS_H
#define BITE_NAMES_MEASUREMENTS_H

/** What to measure, and with what: it continues "Measure first: ". "" if there is no cheap way.
 * Borrowed, for ever. */
const char *bite_measurement_advice(const char *input);

#endif
