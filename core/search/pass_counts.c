/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How many passes a feature is cut in: the numbers and pairs of numbers that are possible. */
#include "core/search/pass_counts.h"
#include "core/names/registry.h"
#include <math.h>

void bite_pass_counts_set(bite_pass_counts *counts, uint32_t axial, uint32_t radial)
{
    counts->axial = axial;
    counts->radial = radial;
    if (!isnan(counts->depth)) {
        counts->checked->requested.depth = counts->checked->full.depth = counts->depth / axial;
    }
    if (!isnan(counts->width)) {
        counts->checked->requested.width = counts->checked->full.width = counts->width / radial;
    }
}

static uint32_t fewest_of(double whole, double most)
{
    return (uint32_t)fmax(1.0, ceil(whole / most - 1e-9));
}

uint32_t bite_pass_counts_fewest_axial(const bite_pass_counts *counts)
{
    return isnan(counts->depth) ? counts->axial
                                : fewest_of(counts->depth, fmin(counts->checked->full.flute_length,
                                                                counts->checked->full.stickout));
}

uint32_t bite_pass_counts_fewest_radial(const bite_pass_counts *counts)
{
    return isnan(counts->width) ? counts->radial
                                : fewest_of(counts->width, counts->checked->full.diameter);
}

int bite_pass_number_is_sensible(double whole, const char *input, uint32_t number, uint32_t fewest)
{
    return number == fewest ||
           (!isnan(whole) && number > fewest && whole / number > bite_input_find(input)->least);
}

int bite_pass_counts_sensible(const bite_pass_counts *counts, uint32_t axial, uint32_t radial)
{
    int down_is = isnan(counts->depth)
                      ? axial == counts->axial
                      : bite_pass_number_is_sensible(counts->depth, "depth", axial,
                                                     bite_pass_counts_fewest_axial(counts));
    int side_is = isnan(counts->width)
                      ? radial == counts->radial
                      : bite_pass_number_is_sensible(counts->width, "width", radial,
                                                     bite_pass_counts_fewest_radial(counts));
    return down_is && side_is;
}

/* Each pass removes its share of the cross-section at the fastest feed. */
double bite_pass_counts_most_removal(const bite_search *search, const bite_pass_counts *counts,
                                     uint64_t passes)
{
    const bite_cut *full = &counts->checked->full;
    double depth = isnan(counts->depth) ? full->depth * counts->axial : counts->depth;
    double width =
        isnan(counts->width) ? fmin(full->width, full->diameter) * counts->radial : counts->width;
    double feed = fmin(search->tooth[1] * search->spindle[1] * full->flutes,
                       full->feed_fastest); /* fmin ignores NaN */
    return depth * width * (isnan(search->feed) ? feed : search->feed) / (double)passes;
}

void bite_pass_numbers_list(double whole, const char *input, uint32_t fewest, bite_pass_numbers *to)
{
    to->count = 0;
    for (uint32_t next = fewest; to->count < BITE_PASS_NUMBERS_MAX &&
                                 bite_pass_number_is_sensible(whole, input, next, fewest);
         next += 1 + next / 8) {
        to->value[to->count++] = next;
    }
}

int bite_pass_numbers_contain(const bite_pass_numbers *in, uint32_t number)
{
    for (uint32_t i = 0; i < in->count; i++) {
        if (in->value[i] == number) {
            return 1;
        }
    }
    return 0;
}

uint64_t bite_pass_counts_total(uint32_t axial, uint32_t radial)
{
    return (uint64_t)axial * radial;
}

/* Enumerates whichever of the two numbers has fewer candidates. */
uint32_t bite_pass_counts_pairs(const bite_pass_counts *counts, uint64_t product,
                                bite_pass_pair *to)
{
    uint32_t first[2] = {bite_pass_counts_fewest_axial(counts),
                         bite_pass_counts_fewest_radial(counts)};
    int by = product / first[1] < product / first[0]
                 ? 0
                 : 1; /* 0: axial from its first to product/first[1]; 1: radial */
    uint32_t count = 0;
    for (uint64_t one = first[by]; one <= product / first[1 - by] && count < BITE_PASS_PAIRS_MAX;
         one++) {
        if (product % one == 0) {
            uint32_t other = (uint32_t)(product / one);
            bite_pass_pair pair = {by == 0 ? (uint32_t)one : other,
                                   by == 0 ? other : (uint32_t)one};
            if (bite_pass_number_is_sensible(counts->depth, "depth", pair.axial, first[0]) &&
                bite_pass_number_is_sensible(counts->width, "width", pair.radial, first[1])) {
                to[count++] = pair;
            }
        }
    }
    return count;
}
