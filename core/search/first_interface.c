/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Functions of the first header that the present one defines in itself, over functions that get the
 * size of a structure or another enumeration. Programs that were built with the first header call
 * them here: they have its structures and its goals.
 */
#define bite_cut_init bite_cut_init_of_header
#define bite_request_cut bite_request_cut_of_header
#define bite_goal_name bite_goal_name_of_header
#include "core/base/struct_size.h"
#include <coolbite/coolbite.h>
#undef bite_cut_init
#undef bite_request_cut
#undef bite_goal_name

BITE_API void bite_cut_init(bite_cut *cut);
BITE_API bite_status bite_request_cut(const bite_request *request, bite_cut *cut,
                                      bite_error *error);
BITE_API const char *bite_goal_name(uint32_t goal);

void bite_cut_init(bite_cut *cut)
{
    bite_cut_init_sized(cut, bite_struct_cut.least);
}

bite_status bite_request_cut(const bite_request *request, bite_cut *cut, bite_error *error)
{
    return bite_request_cut_sized(request, cut, bite_struct_cut.least, error);
}

const char *bite_goal_name(uint32_t goal)
{
    return goal == 0 ? bite_goal_word(BITE_GOAL_COOL) : goal > 3 ? NULL : bite_goal_word(goal);
}
