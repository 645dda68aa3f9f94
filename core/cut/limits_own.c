/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the plugin of the material's family: its numbers are rows of the block, or of the
 * segment, and its answers are checked. */
#include "core/cut/limits_own.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

/* Rows of words, 1 or 0 in all lanes. */
static const bite_lanes ones = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1};
static const bite_lanes zeros = {0};

static const double *row_of(const bite_own_number *number, const bite_block *block,
                            const bite_block_segment *segment)
{
    uint32_t word = 0;
    switch (number->place) {
    case BITE_OWN_VALUE:
        return segment->value[number->index];
    case BITE_OWN_WORD:
        memcpy(&word, (const char *)block->cut + number->index, sizeof word);
        return word == number->word ? ones : zeros;
    default:
        if (number->index == offsetof(bite_cut, tolerance)) {
            return block->tolerance; /* as requested: the default of the physics is no request */
        }
        if (number->index == offsetof(bite_cut, finish)) {
            return block->finish;
        }
        return block->number[number->index / sizeof(double) - BITE_BLOCK_FIRST];
    }
}

static int is_usable(double number)
{
    return isfinite(number) && number >= 0.0;
}

/* The plugin cannot be relied on to fill what it should: what it leaves is not a number. */
bite_why bite_limit_own_fill(const bite_own_limit *limit, const bite_block *block,
                             const bite_block_segment *segment, double *restrict demand,
                             double *restrict capacity)
{
    const double *rows[BITE_FAMILY_NUMBERS_MAX] = {NULL};
    bite_lanes asked;
    bite_lanes available;
    if (limit == NULL) {
        return BITE_WHY_NO_LIMIT;
    }
    for (size_t i = 0; i < limit->number_count; i++) {
        rows[i] = row_of(&limit->numbers[i], block, segment);
    }
    for (int k = 0; k < BITE_LANES; k++) {
        asked[k] = available[k] = (double)NAN;
    }
    enum bite_family_status status =
        limit->limit->judge((size_t)block->lanes, rows, asked, available);
    if (status == BITE_FAMILY_NO_DATA) {
        return BITE_WHY_NOT_ASKED;
    }
    for (int k = 0; k < block->lanes; k++) {
        int usable = status == BITE_FAMILY_OK && is_usable(asked[k]) && is_usable(available[k]);
        demand[k] = usable ? asked[k] : (double)NAN;
        capacity[k] = usable ? available[k] : (double)NAN;
    }
    return BITE_WHY_APPLIES;
}
