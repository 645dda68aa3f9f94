/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which inputs of a request are uncertain: those with a band in a table or a factor in the model's
 * table. What was given is exact. */
#ifndef BITE_REQUEST_INPUT_SPREAD_H
#define BITE_REQUEST_INPUT_SPREAD_H

#include "core/request/request.h"

/** Nonzero: no value and no limit of this cut depends on the input, so it takes no dimension of the
 * draws. */
int bite_spread_is_unused(const bite_input *input, const bite_cut *full);

/** Fills the spreads and the band of each uncertain input in its provenance. BITE_OUT_OF_RANGE:
 * more than BITE_SPREAD_MAX inputs are uncertain. */
bite_status bite_spreads_collect(const bite_request *request, const bite_cut *full,
                                 bite_provenance *provenance, bite_spread *spreads, size_t *count,
                                 bite_error *error);

/** Copies the spreads without that of an input that is changed, since it would no longer enclose
 * the new value (for a coolant: those of the cooling). remaining may be the same array as spreads.
 * Returns how many remain.
 */
size_t bite_spreads_except(const bite_spread *spreads, size_t count, const bite_input *input,
                           bite_spread *remaining);

#endif
