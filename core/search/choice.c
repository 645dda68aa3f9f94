/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice: the best settings that were found, with their answer. */
#include "core/search/choice.h"

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
