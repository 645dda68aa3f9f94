/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limits that restrict a choice. */
#ifndef BITE_SEARCH_ACTIVE_LIMITS_H
#define BITE_SEARCH_ACTIVE_LIMITS_H

#include "core/search/choice.h"
#include "core/search/goal.h"
#include <coolbite/coolbite.h>

/** Finds the limits that restrict the choice, and how much the removal rate would gain if the
 * capacity of each were a percent higher. If the choice is not clear, finds the limits in conflict.
 * problem: that of the solution; it is as before when this returns. */
void bite_active_limits_find(bite_search_problem *problem, const bite_solution *solution,
                             bite_choice *choice);

#endif
