/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The best settings of one tool: solved, rounded, and judged with all draws. */
#ifndef BITE_SEARCH_SINGLE_TOOL_H
#define BITE_SEARCH_SINGLE_TOOL_H

#include "core/search/choice.h"
#include "core/search/search_space.h"
#include <coolbite/coolbite.h>

/** The best settings with a tool (NULL: the request's own), using the memory of `problem`. *choice:
 * owned, bite_choice_free; it has its own answer. */
bite_status bite_choice_for_tool(const bite_request *request, const char *tool,
                                 const bite_choice_options *options, bite_search_problem *problem,
                                 bite_choice **choice, bite_error *error);

#endif
