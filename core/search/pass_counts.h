/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best point over all numbers of passes. */
#ifndef BITE_SEARCH_PASS_COUNTS_H
#define BITE_SEARCH_PASS_COUNTS_H

#include "core/search/settings_search.h"

/** The best point, evaluated by all draws. BITE_NO_MEMORY. */
bite_status bite_search_everywhere(const bite_wish *wish, bite_point *best, bite_error *error);

/** The same by a rough search at the best estimates, without draws unless some were made. worth:
 * points of a higher cost are of no use (INFINITY: all are); if none is worth it, the best has
 * infinite burden and cost. */
bite_status bite_search_estimates(const bite_wish *wish, double worth, bite_point *best,
                                  bite_error *error);

#endif
