/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The rows of the vocabulary. */
#ifndef BITE_NAMES_REGISTRY_TABLES_H
#define BITE_NAMES_REGISTRY_TABLES_H

#include "core/names/registry.h"

/** The words that an input takes. */
typedef struct bite_input_words {
    const char *input;
    const char *const *words;
} bite_input_words;

#endif
