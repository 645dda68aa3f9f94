/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of the vocabulary. */
#ifndef BITE_NAMES_REGISTRY_TABLES_H
#define BITE_NAMES_REGISTRY_TABLES_H

#include "core/names/registry.h"

extern const bite_input bite_input_table[];
extern const size_t bite_input_table_count;

/** The words that an input takes. */
typedef struct bite_input_words {
    const char *input;
    const char *const *words;
} bite_input_words;
extern const bite_input_words bite_input_word_table[];
extern const size_t bite_input_word_count;

extern const bite_definition bite_output_table[BITE_VALUE_COUNT];
extern const bite_definition bite_limit_table[BITE_LIMIT_COUNT];

#endif
