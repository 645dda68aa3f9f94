/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether chances mean what they say. */
#include "tests/field/field_reliability.h"
#include <math.h>

const double field_bin_ends[FIELD_BINS + 1] = {0.0, 0.05, 0.1, 0.2, 0.5, 1.0};

static int in_bin(const field_case *report, int bin)
{
    double chance = report->result.chance;
    return chance >= field_bin_ends[bin] &&
           (chance < field_bin_ends[bin + 1] || bin == FIELD_BINS - 1);
}

/* A trouble that no limit of its cut detects says nothing about the chances. */
static int tells(const field_case *report)
{
    return report->kind == -1 || field_is_seeable(report);
}

field_bin field_bin_of(int bin, field_selection selection)
{
    field_bin sum = {0};
    for (size_t i = 0; i < field_case_count; i++) {
        const field_case *report = &field_cases[i];
        if (field_counts(report, selection) && tells(report) && in_bin(report, bin)) {
            double w = field_weight(report, selection);
            sum.cases += w;
            sum.chance += w * report->result.chance;
            sum.wrong += w * (report->kind >= 0);
        }
    }
    return sum;
}

void field_bin_range(int bin, field_selection selection, double *least, double *most)
{
    field_bin all = field_bin_of(bin, selection);
    *least = *most = all.wrong / all.cases;
    for (size_t i = 0; i < field_case_count; i++) {
        selection.without = field_cases[i].source;
        field_bin left = field_bin_of(bin, selection);
        *least = fmin(*least, left.wrong / left.cases);
        *most = fmax(*most, left.wrong / left.cases);
    }
}

static int detects(bite_limit_id limit, int kind)
{
    for (const bite_limit_id *at = field_outcomes[kind].limits; *at != BITE_LIMIT_COUNT; at++) {
        if (*at == limit) {
            return 1;
        }
    }
    return 0;
}

field_limit_sum field_limit_sum_of(bite_limit_id limit, field_selection selection)
{
    field_limit_sum sum = {0};
    for (size_t i = 0; i < field_case_count; i++) {
        const field_case *report = &field_cases[i];
        const bite_limit *at = &report->result.limits[limit];
        if (field_counts(report, selection) && at->applies) {
            double w = field_weight(report, selection);
            int reported = report->kind >= 0 && detects(limit, report->kind);
            sum.cases += w;
            sum.chance += w * at->chance;
            sum.reported += w * reported;
            sum.blamed +=
                w * (reported && field_likeliest_limit(report, report->kind) == (int)limit);
        }
    }
    return sum;
}

void field_limit_range(bite_limit_id limit, field_selection selection, double *least, double *most)
{
    field_limit_sum all = field_limit_sum_of(limit, selection);
    *least = *most = all.chance - all.reported;
    for (size_t i = 0; i < field_case_count; i++) {
        selection.without = field_cases[i].source;
        field_limit_sum left = field_limit_sum_of(limit, selection);
        *least = fmin(*least, left.chance - left.reported);
        *most = fmax(*most, left.chance - left.reported);
    }
}
