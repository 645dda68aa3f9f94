/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cuts of any kind, one after another, in lanes of a block as long as they fit together. */
#include "core/cut/cut_lanes.h"
#include "core/cut/block/lane_match.h"
#include "core/cut/pass.h"
#include <math.h>

static int fits(const bite_cut *first, const bite_cut *cut)
{
    return bite_cut_same_words(first, cut) && bite_cut_same_form(first, cut) &&
           bite_cut_same_given(first, cut);
}

int bite_cut_lanes_put(bite_cut_lanes *lanes, const bite_checked_cut *checked)
{
    bite_block *block = &lanes->space->block;
    if (lanes->count == BITE_LANES ||
        (lanes->count > 0 && !(fits(&lanes->first.full, &checked->full) &&
                               fits(&lanes->first.requested, &checked->requested)))) {
        return 0;
    }
    if (lanes->count == 0) { /* fills all lanes */
        lanes->first = *checked;
        bite_block_start(lanes->space, &lanes->first, NULL, 0);
    }
    size_t lane = lanes->count++;
    const double *first = &lanes->first.full.spindle_speed;
    const double *numbers = &checked->full.spindle_speed;
    block->tolerance[lane] = checked->requested.tolerance;
    block->finish[lane] = checked->requested.finish;
    for (size_t i = 0; i < BITE_BLOCK_ROWS; i++) {
        if (numbers[i] != first[i] && !isnan(numbers[i])) {
            bite_block_vary_row(lanes->space, i);
            block->number[i][lane] = numbers[i];
        }
    }
    return 1;
}

void bite_cut_lanes_evaluate(bite_cut_lanes *lanes)
{
    if (lanes->count > 0) {
        bite_block_evaluate(lanes->space, lanes->count, NULL);
    }
}

bite_status bite_cut_lanes_result(const bite_cut_lanes *lanes, size_t lane, bite_result *result,
                                  bite_error *error)
{
    return bite_block_result_of(lanes->space, lane, &lanes->first.full, result, error);
}
