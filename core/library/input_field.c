/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An input as a key of a table. */
#include "core/library/input_field.h"

/* The words of a word input as a list that ends with NULL. */
static const char *const *words_of(bite_arena *arena, const bite_input *input)
{
    const char **words = bite_arena_alloc(arena, (size_t)input->words + 1, sizeof *words);
    for (uint32_t i = 0; words != NULL && i < input->words; i++) {
        words[i] = bite_input_word(input, i);
    }
    return words;
}

bool bite_input_field(bite_arena *arena, const bite_input *input, bite_field *field)
{
    bite_field fresh = {input->name,  BITE_FIELD_FIGURE, input->kind,
                        input->least, input->most,       NULL};
    if (input->words > 0) {
        fresh.type = BITE_FIELD_WORD;
        fresh.words = words_of(arena, input);
    }
    *field = fresh;
    return input->words == 0 || fresh.words != NULL;
}
