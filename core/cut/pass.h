/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A single pass: a block of one cut. */
#ifndef BITE_CUT_PASS_H
#define BITE_CUT_PASS_H

#include "core/cut/block/pass_block.h"
#include <coolbite/coolbite.h>

/** A cut of the caller, whatever header it was built with: what that header lacks is not given.
 * BITE_BAD_ARGUMENT: NULL, or its size; own is not written. */
bite_status bite_cut_read(const bite_cut *given, bite_cut *own, bite_error *error);

/** Checks sizes, ranges and inputs against each other, and fills the defaults. Errors as for
 * bite_cut_pass. */
bite_status bite_checked_cut_init(const bite_cut *cut, bite_checked_cut *checked,
                                  bite_error *error);

/** The result of one lane of a space that is evaluated. full: its cut with all defaults.
 * BITE_NO_ANSWER as bite_cut_pass, and *result is unchanged. */
bite_status bite_block_result_of(const bite_block_space *space, size_t lane, const bite_cut *full,
                                 bite_result *result, bite_error *error);

/** As bite_cut_pass for a checked cut, in a space that is initialized. */
bite_status bite_checked_cut_pass(const bite_checked_cut *checked, bite_block_space *space,
                                  bite_result *result, bite_error *error);

/** As bite_cut_pass, with a space of this allocator for the time of the call: for callers that have
 * little left of the stack. BITE_NO_MEMORY. */
bite_status bite_cut_pass_with(const bite_allocator *allocator, const bite_cut *cut,
                               bite_result *result, bite_error *error);

/** First natural frequency of the tool, Hz. It takes as long as the whole pass, so it is not
 * computed in every draw. */
double bite_tool_first_frequency(const bite_cut *full);

/** Sets everything to NaN or 0, except the counts. */
void bite_result_clear(bite_result *result);

#endif
