/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice: the best settings that were found, with their answer. */
#include "core/search/choice.h"
#include <math.h>

void bite_choice_free(bite_choice *choice)
{
    if (choice != NULL) {
        bite_allocator allocator = choice->allocator;
        bite_answer_free(choice->answer);
        bite_memory_free(&allocator, choice);
    }
}

const bite_answer *bite_choice_answer(const bite_choice *choice)
{
    return choice == NULL ? NULL : choice->answer;
}

size_t bite_choice_passes(const bite_choice *choice)
{
    return choice == NULL ? 0 : choice->best.passes;
}

size_t bite_choice_side_passes(const bite_choice *choice)
{
    return choice == NULL ? 0 : choice->best.side_passes;
}

const char *bite_choice_tool(const bite_choice *choice)
{
    return choice == NULL ? "" : choice->best.tool;
}

/* One of `count` equal parts; the last one ends at the whole, if there is one. */
static int part_of(size_t index, size_t count, double one, double whole, double *from, double *to)
{
    if (index >= count || isnan(one) || from == NULL || to == NULL) {
        return 0;
    }
    *from = (double)index * one;
    *to = index + 1 == count && !isnan(whole) ? whole : *from + one;
    return 1;
}

int bite_choice_pass(const bite_choice *choice, size_t index, double *from, double *to)
{
    return choice == NULL ? 0
                          : part_of(index, choice->best.passes, choice->answer->full.depth,
                                    choice->answer->full.feature_depth, from, to);
}

int bite_choice_side_pass(const bite_choice *choice, size_t index, double *from, double *to)
{
    if (choice == NULL || choice->answer->full.operation != BITE_MILL) {
        return 0;
    }
    const bite_cut *full = &choice->answer->full;
    double one = isnan(full->width) ? full->diameter : full->width; /* a full slot */
    return part_of(index, choice->best.side_passes, one, full->feature_width, from, to);
}

int bite_choice_active_limit(const bite_choice *choice, size_t index, bite_limit_id *limit,
                             double *gain)
{
    if (choice == NULL || limit == NULL || gain == NULL || index >= choice->active_count) {
        return 0;
    }
    *limit = (bite_limit_id)choice->active[index].limit;
    *gain = choice->active[index].gain;
    return 1;
}

int bite_choice_freed_by(const bite_choice *choice, size_t index, const char **input,
                         const char **to)
{
    if (choice == NULL || input == NULL || to == NULL || index >= BITE_FREEING_MAX ||
        choice->freeing[index].change.what == NULL) {
        return 0;
    }
    *input = choice->freeing[index].change.what;
    *to = choice->freeing[index].change.to_word;
    return 1;
}
