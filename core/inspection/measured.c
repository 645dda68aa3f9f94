/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a characteristic is a measure of. */
#include "core/inspection/measured.h"
#include <stddef.h>

const char *const bite_measured_words[] = {"thickness",  "outside",  "inside", "depth",
                                           "height",     "flatness", "gap",    "thread",
                                           "appearance", "stress",   NULL};

const char *bite_measures_word(uint32_t measures)
{
    return measures < BITE_MEASURED_COUNT ? bite_measured_words[measures] : "";
}
