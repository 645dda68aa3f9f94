/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parts of a batch share: the batch, one run of it, and the working memory of a thread. */
#ifndef BITE_CUT_BATCH_WORKER_H
#define BITE_CUT_BATCH_WORKER_H

#include "core/base/watch.h"
#include "core/cut/block/pass_block.h"
#include <coolbite/coolbite.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>

struct bite_batch {
    bite_allocator allocator;
    bite_cut cut;
    size_t input_count;
    size_t output_count;
    size_t varied_count;
    int follows; /* 1: other members, or the form of the cut, follow from an input */
    int judges;  /* 1: an output needs the verdict */
    const bite_input **inputs;
    size_t *varied; /* offsets in bite_cut: of the inputs, then of members that follow from them */
    bite_batch_output *outputs;
    uint8_t wanted[BITE_LIMIT_COUNT]; /* 1: a limit that an output needs */
};

/** Working memory of a thread. */
typedef struct bite_batch_worker {
    bite_checked_cut base;  /* the last row that was checked by itself */
    bite_checked_cut first; /* of the block: its words, and what is given */
    size_t rows[BITE_LANES];
    bite_result result;
    size_t count; /* lanes that wait for their evaluation */
    int has_base; /* 1: the base gives all inputs */
    int started;  /* 1: members that do not vary are those of `first` in all lanes */
    int mixed;    /* 1: a lane differs from `first` in other members */
} bite_batch_worker;

typedef struct bite_batch_work {
    const bite_batch *batch;
    const bite_column *in;
    const bite_result_column *out;
    uint32_t *status;
    const volatile int *stop;
    bite_watch *watch; /* NULL: nobody watches */
    atomic_int stopped;
    size_t rows;
    bite_block_space *spaces;
    bite_batch_worker *workers;
} bite_batch_work;

/** Writes the status of a row, and NaN to its outputs. */
void bite_batch_refuse(const bite_batch_work *work, size_t row, bite_status status);

/** Evaluates the lanes that wait, if any, and writes their outputs. */
void bite_batch_evaluate(const bite_batch_work *work, bite_batch_worker *worker,
                         bite_block_space *space);

/** Puts rows from `row` on, at most up to `end`, into lanes, evaluating full blocks, or refuses
 * them. Returns the first row that is left. */
size_t bite_batch_put(const bite_batch_work *work, bite_batch_worker *worker,
                      bite_block_space *space, size_t row, size_t end);

#endif
