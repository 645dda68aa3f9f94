/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Free text for a shop that measures in inches. */
#ifndef BITE_UNITS_INCH_TEXT_H
#define BITE_UNITS_INCH_TEXT_H

#include "core/base/memory.h"

/** The text with its metric lengths, feeds, speeds and temperatures as inches, thou, in/min, ft/min
 * and degF: "2 to 5 mm" becomes "0.079 to 0.2 in". Two digits, temperatures in whole degrees:
 * advice is no finer. Numbers without such a unit stay, and so does what is written as one word,
 * for it is a name: 3mm. The text itself where there is nothing to change; NULL: no memory. */
const char *bite_text_inches(bite_arena *arena, const char *text);

#endif
