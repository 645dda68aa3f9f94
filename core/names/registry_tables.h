/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of the vocabulary. */
#ifndef BITE_NAMES_REGISTRY_TABLES_H
#define BITE_NAMES_REGISTRY_TABLES_H

#include "core/names/registry.h"

extern const bite_input bite_input_rows[];
extern const size_t bite_input_row_count;

/** The words that an input takes. */
typedef struct bite_words {
    const char *input;
    const char *const *words;
} bite_words;
extern const bite_words bite_word_rows[];
extern const size_t bite_word_row_count;

extern const bite_meaning bite_value_rows[BITE_VALUE_COUNT];
extern const bite_meaning bite_limit_table[BITE_LIMIT_COUNT];

#endif
