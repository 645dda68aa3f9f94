/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings rounded to what an operator enters at a control. */
#ifndef BITE_SEARCH_CONTROL_ROUNDING_H
#define BITE_SEARCH_CONTROL_ROUNDING_H

#include "core/search/settings_search.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** The best point that can be entered, among those around a point. */
bite_point bite_round_point(const bite_wish *wish, const bite_point *point);

/** Sets an input to a number (SI) rounded to ten digits of that unit of its kind. */
bite_status bite_request_set_rounded(bite_request *request, const char *input, double si,
                                     const char *unit, bite_error *error);

/** Writes the settings of a point into the problem's request. */
bite_status bite_round_into_request(bite_search_problem *problem, const bite_point *point,
                                    bite_error *error);

#endif
