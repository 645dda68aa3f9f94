/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chances and verdicts: shares of the draws in which limits are exceeded. */
#include "core/uncertainty/chances.h"
#include "core/cut/limits.h"

static uint32_t verdict_by(double chance, double confidence)
{
    return chance > 0.5 ? BITE_OVER : chance >= 1.0 - confidence ? BITE_TIGHT : BITE_CLEAR;
}

const double bite_gross_chatter = 0.9;

/* The number of draws that exceed a limit. Gross chatter counts like a limit that is not advisory.
 */
static size_t any_over(const bite_draw_counts *counts, bite_draw_samples *samples,
                       bite_result *result)
{
    bite_limit *chatter = &result->limits[BITE_LIMIT_CHATTER];
    if (!chatter->applies || !chatter->advisory || chatter->chance < bite_gross_chatter) {
        return counts->any;
    }
    chatter->advisory = 0;
    chatter->verdict = BITE_OVER;
    samples->binds[BITE_LIMIT_CHATTER] = 1;
    size_t any = 0;
    for (size_t draw = 0; draw < samples->draws; draw++) {
        int over = 0;
        for (size_t i = 0; i < BITE_LIMIT_COUNT && !over; i++) {
            over = samples->binds[i] && samples->utilizations[i * samples->stride + draw] > 1.0;
        }
        any += (size_t)over;
        if (samples->over != NULL) {
            samples->over[draw] = (unsigned char)over;
        }
    }
    return any;
}

/* The verdict is by chance. An advisory limit is never over. */
void bite_chances_fill(const bite_draw_counts *counts, bite_draw_samples *samples,
                       double confidence, bite_result *result)
{
    double draws = (double)samples->draws;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        bite_limit *limit = &result->limits[i];
        if (!limit->applies) {
            continue;
        }
        limit->chance = (double)counts->over[i] / draws;
        uint32_t verdict = verdict_by(limit->chance, confidence);
        verdict = limit->advisory && verdict == BITE_OVER ? BITE_TIGHT : verdict;
        limit->verdict = verdict;
    }
    result->chance = (double)any_over(counts, samples, result) / draws;
    result->verdict = verdict_by(result->chance, confidence);
}

uint32_t bite_chances_governing(const bite_draw_samples *samples, const bite_result *result)
{
    uint32_t best = result->worst;
    double best_chance = -1.0;
    double best_utilization = -1.0;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        if (!limit->applies || !samples->binds[i]) {
            continue;
        }
        if (limit->chance > best_chance ||
            (limit->chance == best_chance && limit->utilization > best_utilization)) {
            best = i;
            best_chance = limit->chance;
            best_utilization = limit->utilization;
        }
    }
    return best;
}
