/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One tool: settled, rounded to what a person types, and judged with all draws. */
#ifndef BITE_SEARCH_SINGLE_TOOL_H
#define BITE_SEARCH_SINGLE_TOOL_H

#include "core/search/choice.h"
#include "core/search/search_problem.h"
#include <coolbite/coolbite.h>

/** One tool (NULL: the ask's own) settled in the room of a trial: *choice, with its own answer. */
bite_status bite_choice_for_tool(const bite_request *request, const char *tool,
                                 const bite_choice_options *options,
                                 bite_search_problem *problem, bite_choice **choice,
                                 bite_error *error);

#endif
