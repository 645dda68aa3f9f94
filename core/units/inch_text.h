/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Metric quantities in prose, converted for a shop that measures in inches. */
#ifndef BITE_UNITS_INCH_TEXT_H
#define BITE_UNITS_INCH_TEXT_H

#include "core/base/memory.h"

/**
 * The text with its metric lengths, feed rates, speeds and temperatures in inches, in/min, ft/min
 * and degF: "2 to 5 mm" becomes "0.079 to 0.2 in".
 *
 * Two significant digits and at most four decimals, temperatures in whole degrees: advice is not
 * more precise than that.
 * Numbers without such a unit are kept, and so is a number written as one word with its unit, since
 * that is a name: 3mm. Allocated in the arena; text itself if there is nothing to convert. NULL: no
 * memory.
 */
const char *bite_text_inches(bite_arena *arena, const char *text);

#endif
