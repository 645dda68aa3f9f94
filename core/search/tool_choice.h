/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which of several tools is best for a cut: one comparison for a choice and for a job. */
#ifndef BITE_SEARCH_TOOL_CHOICE_H
#define BITE_SEARCH_TOOL_CHOICE_H

#include "core/request/request.h"
#include <coolbite/coolbite.h>

/** The tool that a choice among many takes: that of the fastest point within the limits that meets
 * the goal, or else of the least burdened one. options: as bite_choice_new, with at least one tool,
 * none of them "any". *index: into options->tools; 0 if none can make the cut. *choice: owned, the
 * one with that tool; NULL: none. BITE_NO_MEMORY. */
bite_status bite_tool_pick(const bite_request *request, const bite_choice_options *options,
                           size_t *index, bite_choice **choice, bite_error *error);

/** The choice without what would make it clear. Arguments and errors as bite_choice_new. */
bite_status bite_choice_search(const bite_request *request, const bite_choice_options *options,
                               bite_choice **choice, bite_error *error);

#endif
