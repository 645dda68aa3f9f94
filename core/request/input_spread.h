/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What scatters in a request: bands of tables, factors of the model's table, nothing that was
 * given. */
#ifndef BITE_REQUEST_INPUT_SPREAD_H
#define BITE_REQUEST_INPUT_SPREAD_H

#include "core/request/request.h"

/** Fills spreads, at most BITE_SPREAD_MAX, and notes in account the band of each input that
 * scatters. */
bite_status bite_spreads_collect(const bite_request *request, const bite_cut *full,
                                 bite_provenance *provenance, bite_spread *spreads, size_t *count,
                                 bite_error *error);

/** The spreads but that of an input that is changed, which would no longer enclose it (of a
 * coolant: the cooling's). May be done in place. How many are left. */
size_t bite_spreads_except(const bite_spread *spreads, size_t count, const bite_input *input,
                           bite_spread *kept);

#endif
