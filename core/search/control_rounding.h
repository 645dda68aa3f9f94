/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings rounded to what an operator enters at a control. */
#ifndef BITE_SEARCH_CONTROL_ROUNDING_H
#define BITE_SEARCH_CONTROL_ROUNDING_H

#include "core/search/search_space.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

/** Rounds the point: the best of its rounded neighbours. */
void bite_round_point(bite_search_problem *problem, uint32_t units);

/** Rounds a depth or width up, so that the last pass is the thinner one. */
double bite_round_depth(double depth, uint32_t units);

/** Sets an input to a number (SI) rounded to ten digits of that unit of its kind. */
bite_status bite_request_set_rounded(bite_request *request, const char *input, double si,
                                     const char *unit, bite_error *error);

/** Writes the settings that were found into the problem's request. */
bite_status bite_round_into_request(bite_search_problem *problem, uint32_t units,
                                    bite_error *error);

#endif
