/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What holds a choice back. */
#ifndef BITE_SEARCH_ACTIVE_LIMITS_H
#define BITE_SEARCH_ACTIVE_LIMITS_H

#include "core/search/choice.h"
#include "core/search/search_problem.h"
#include <coolbite/coolbite.h>

/** The rows that hold the choice back, and what a percent more room for each would give. */
void bite_active_limits_find(bite_search_problem *problem, bite_choice *choice);

#endif
