/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * One set of draws of a cut's uncertain inputs, by which any number of settings are evaluated.
 *
 * What scatters does not depend on spindle speed, feed rate, depth and width, so the draws are made
 * once and every setting meets the same ones: two settings differ by themselves, not by sampling.
 */
#ifndef BITE_UNCERTAINTY_DRAW_SET_H
#define BITE_UNCERTAINTY_DRAW_SET_H

#include "core/base/memory.h"
#include "core/cut/pass.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

typedef struct bite_draw_set bite_draw_set;

typedef struct bite_setting {
    double spindle; /* 1/s */
    double feed;    /* m/s */
    double depth;   /* m */
    double width;   /* m; NaN: that of the cut */
} bite_setting;

/** A setting at the best estimates of the inputs. */
typedef struct bite_estimate {
    double utilization[BITE_LIMIT_COUNT]; /* 0: the limit does not apply */
    uint8_t binds[BITE_LIMIT_COUNT];      /* 1: applies, and is not advisory */
    double removal;                       /* m3/s; NaN: not known */
    double rise;                          /* K, of the surface over the room */
    double error;                         /* m, of the wall */
    double marks;                         /* m, roughness */
    double soft;                          /* K, capacity up to softening; 0: none */
} bite_estimate;

/** Draws the inputs, the first time that draws are asked for. cut: checked; borrowed and later
 * changed neither by the caller nor here. At most `threads` threads evaluate, with the same digits
 * for any number. BITE_BAD_ARGUMENT for a bad spread, BITE_NO_MEMORY. *set: owned,
 * bite_draw_set_free. */
bite_status bite_draw_set_new(const bite_allocator *allocator, const bite_checked_cut *cut,
                              const bite_spread *spreads, size_t count, size_t draws, uint64_t seed,
                              size_t threads, bite_draw_set **set, bite_error *error);
void bite_draw_set_free(bite_draw_set *set);

/** The number of draws; 1 if nothing is uncertain. */
size_t bite_draw_set_size(const bite_draw_set *set);

/** Evaluates settings at the best estimates. */
void bite_draw_set_estimate(bite_draw_set *set, const bite_setting *settings, size_t count,
                            bite_estimate *estimates);

/** Evaluates one setting by the draws from `from` on, below `to`. wanted: 1 for each limit that is
 * evaluated. utilizations: of limit i by draw k in element i * bite_draw_set_size + k; 0: the limit
 * does not apply, or is not wanted. BITE_NO_MEMORY. */
bite_status bite_draw_set_draw(bite_draw_set *set, const bite_setting *setting,
                               const uint8_t *wanted, size_t from, size_t to, double *utilizations,
                               bite_error *error);

#endif
