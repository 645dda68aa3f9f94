/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stability lobes by the zero-order solution (core/physics/dynamics/stability_lobes.h) for any
 * modes along each axis: a search over the frequency. */
#ifndef BITE_TESTS_REFERENCE_TEXTBOOK_FREQUENCY_SWEEP_H
#define BITE_TESTS_REFERENCE_TEXTBOOK_FREQUENCY_SWEEP_H

#include "core/physics/dynamics/stability_lobes.h"

/** The depth, m, above which the cut chatters at this spindle speed (1/s). INFINITY: it never does.
 */
double textbook_chatter_at(const bite_chatter_case *problem, double speed);

#endif
