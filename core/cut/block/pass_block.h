/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The evaluation of a block of cuts: the only path from inputs to values and limits, for a single
 * pass, for the draws of a band, for a search and for a batch. */
#ifndef BITE_CUT_BLOCK_PASS_BLOCK_H
#define BITE_CUT_BLOCK_PASS_BLOCK_H

#include "core/cut/block/block.h"
#include "core/cut/block/limits_result.h"
#include "core/cut/block/segment_block.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

/** A cut that has passed its checks. */
typedef struct bite_checked_cut {
    bite_cut requested; /* before defaults: NaN where nothing was given */
    bite_cut full;
} bite_checked_cut;

/** A block with its results and its working memory, owned by the caller, for one thread at a time:
 * some 250 KB, aligned for lanes (bite_block_space_new). */
typedef struct bite_block_space {
    bite_block block;
    bite_block_segment straight; /* its values are those of the cut */
    bite_block_segment other;    /* corner or entry move */
    bite_block_segment lap;      /* spring passes */
    bite_block_limits_result limits;
    bite_segment_work work;
    size_t varied[BITE_BLOCK_ROWS]; /* rows in which the lanes may differ */
    size_t varied_count;
    bool pressure; /* the cuts have a cutting pressure: without one most values are NaN */
} bite_block_space;

/** Allocates an array of spaces; count: 1 or more. NULL: no memory. Freed by bite_block_spaces_free
 * with the same allocator. */
bite_block_space *bite_block_spaces_new(const bite_allocator *allocator, size_t count);
void bite_block_spaces_free(const bite_allocator *allocator, bite_block_space *spaces);

/** Prepares a space that was not allocated by bite_block_spaces_new. */
void bite_block_space_init(bite_block_space *space);

/** Starts a block: every lane is this cut. Borrows checked until the next start. varied: offsets of
 * the members of bite_cut that will be written to lanes; only numbers, and not the number of
 * flutes. */
void bite_block_start(bite_block_space *space, const bite_checked_cut *checked,
                      const size_t *varied, size_t varied_count);

/** Starts a block that is evaluated with one lane. */
void bite_block_start_one(bite_block_space *space, const bite_checked_cut *checked);

/** From now on lanes may differ in any member. */
void bite_block_vary_all(bite_block_space *space);

/** From now on lanes may differ in this row, an index below BITE_BLOCK_ROWS. */
void bite_block_vary_row(bite_block_space *space, size_t row);

/** The row of a member of bite_cut, by its offset: BITE_LANES numbers. */
static inline double *bite_block_row(bite_block *block, size_t offset)
{
    return block->number[offset / sizeof(double) - BITE_BLOCK_FIRST];
}

/** Sets a member of bite_cut, by its offset, to a value in all lanes. */
void bite_block_fill(bite_block *block, size_t offset, double value);

/** Evaluates the first `count` lanes, 1 to BITE_LANES; lanes behind them are overwritten.
 * wanted: 1 for each limit that is evaluated, the others do not apply; NULL: all. Fills straight
 * and limits: each limit is that of the straight, of the corner or of the entry move, whichever has
 * the highest utilization. */
void bite_block_evaluate(bite_block_space *space, size_t count, const uint8_t *wanted);

#endif
