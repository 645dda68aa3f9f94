/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scores of the judged reports. */
#include "tests/field/field_scores.h"
#include <math.h>
#include <string.h>

static size_t author_length(const char *source)
{
    static const char host[] = "https://github.com/";
    size_t skip = sizeof host - 1;
    return strncmp(source, host, skip) == 0 ? skip + strcspn(source + skip, "/") : strlen(source);
}

int field_same_author(const char *a, const char *b)
{
    size_t length = author_length(a);
    return length == author_length(b) && strncmp(a, b, length) == 0;
}

int field_counts(const field_case *report, field_selection selection)
{
    return report->scored && report->collection == selection.collection &&
           (selection.material == FIELD_ANY || report->material == selection.material) &&
           (selection.kinds == 0 || report->kind < 0 || report->kind == selection.kinds - 1) &&
           (selection.without == NULL || !field_same_author(report->source, selection.without));
}

/* With weights, every source counts as one: a workshop that reported forty cuts is still one
 * workshop. */
double field_weight(const field_case *report, field_selection selection)
{
    int same = 0;
    for (size_t i = 0; selection.weighted && i < field_case_count; i++) {
        same += field_counts(&field_cases[i], selection) &&
                strcmp(field_cases[i].source, report->source) == 0;
    }
    return same > 0 ? 1.0 / same : 1.0;
}

int field_likeliest_limit(const field_case *report, int kind)
{
    int best = -1;
    for (const bite_limit_id *limit = field_outcomes[kind].limits; *limit != BITE_LIMIT_COUNT;
         limit++) {
        const bite_limit *at = &report->result.limits[*limit];
        const bite_limit *best_so_far = best < 0 ? NULL : &report->result.limits[best];
        if (at->applies &&
            (best_so_far == NULL || at->chance > best_so_far->chance ||
             (at->chance == best_so_far->chance && at->utilization > best_so_far->utilization))) {
            best = (int)*limit;
        }
    }
    return best;
}

/* Equal chances are ordered by the next chance, then by the utilization of the likeliest limit. */
double field_chance(const field_case *report, int kind)
{
    int first = field_likeliest_limit(report, kind);
    double next = 0.0;
    for (const bite_limit_id *limit = field_outcomes[kind].limits; *limit != BITE_LIMIT_COUNT;
         limit++) {
        const bite_limit *at = &report->result.limits[*limit];
        next = at->applies && (int)*limit != first ? fmax(next, at->chance) : next;
    }
    return first < 0 ? 0.0
                     : report->result.limits[first].chance + 1e-4 * next +
                           1e-7 * fmin(1.0, report->result.limits[first].utilization);
}

int field_is_seeable(const field_case *report)
{
    return report->kind >= 0 && field_likeliest_limit(report, report->kind) >= 0;
}

int field_is_seen(const field_case *report)
{
    int limit = field_likeliest_limit(report, report->kind);
    if (limit < 0) {
        return 0;
    }
    const bite_limit *at = &report->result.limits[limit];
    return at->verdict >= BITE_TIGHT &&
           (limit != BITE_LIMIT_CHATTER || !at->advisory || at->chance > 0.5);
}

/* A cut of certain trouble has no higher chance than one: its limits order such cuts. */
static double joint_chance(const field_case *report)
{
    double most = 0.0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &report->result.limits[i];
        most = limit->applies && !limit->advisory ? fmax(most, limit->chance) : most;
    }
    return report->result.chance + 1e-4 * most;
}

void field_add_area(const field_case *report, field_selection selection, int joint, double *area,
                    double *pairs)
{
    double mine = joint ? joint_chance(report) : field_chance(report, report->kind);
    for (size_t k = 0; k < field_case_count; k++) {
        const field_case *other = &field_cases[k];
        if (other->kind == -1 && field_counts(other, selection)) {
            double both = field_weight(report, selection) * field_weight(other, selection);
            double theirs = joint ? joint_chance(other) : field_chance(other, report->kind);
            *area += both * (mine > theirs ? 1.0 : mine == theirs ? 0.5 : 0.0);
            *pairs += both;
        }
    }
}

static void add_ok(const field_case *report, double w, field_score *sum)
{
    const bite_limit *chatter = &report->result.limits[BITE_LIMIT_CHATTER];
    uint32_t verdict = report->result.verdict;
    sum->ok += w;
    sum->clear += w * (verdict == BITE_CLEAR);
    sum->tight += w * (verdict == BITE_TIGHT);
    sum->over += w * (verdict == BITE_OVER);
    sum->unknown += w * (verdict == BITE_UNKNOWN);
    sum->hums += w * (chatter->applies && chatter->chance > 0.5);
}

field_score field_score_of(field_selection selection)
{
    field_score sum = {0};
    double pairs = 0.0;
    double joint_pairs = 0.0;
    for (size_t i = 0; i < field_case_count; i++) {
        const field_case *report = &field_cases[i];
        double w = field_weight(report, selection);
        if (!field_counts(report, selection)) {
            continue;
        }
        if (report->kind == -1) {
            add_ok(report, w, &sum);
        } else if (!field_is_seeable(report)) {
            sum.unseeable += w;
        } else {
            uint32_t verdict = report->result.verdict;
            sum.trouble += w;
            sum.seen += w * field_is_seen(report);
            sum.warned += w * (verdict == BITE_TIGHT || verdict == BITE_OVER);
            field_add_area(report, selection, 0, &sum.area, &pairs);
            field_add_area(report, selection, 1, &sum.joint_area, &joint_pairs);
        }
    }
    sum.area /= pairs;
    sum.joint_area /= joint_pairs;
    return sum;
}

static void take_worse(const field_score *score, field_worst *worst)
{
    worst->tight = fmax(worst->tight, score->tight / score->ok);
    worst->over = fmax(worst->over, score->over / score->ok);
    worst->seen = fmin(worst->seen, score->seen / score->trouble);
    worst->area = fmin(worst->area, score->area);
    worst->joint_area = fmin(worst->joint_area, score->joint_area);
}

/* Where only one author wrote, nothing is left without him: such a NaN is not taken. */
field_worst field_worst_without_an_author(field_selection selection)
{
    field_worst worst = {0.0, 0.0, 1.0, 1.0, 1.0};
    field_score all = field_score_of(selection);
    take_worse(&all, &worst);
    for (size_t i = 0; i < field_case_count; i++) {
        selection.without = field_cases[i].source;
        field_score left = field_score_of(selection);
        take_worse(&left, &worst);
    }
    return worst;
}

double field_over_at_limits(void)
{
    field_selection all = {0};
    double over = field_score_of(all).over;
    for (size_t i = 0; i < field_case_count; i++) {
        field_case again = field_cases[i];
        if (!field_counts(&again, all) || again.kind != -1 ||
            field_cell(&again, "ap_most_mm")[0] == 0) {
            continue;
        }
        again.assumed[0] = 0;
        field_judge(1, &again);
        over += (again.result.verdict == BITE_OVER) - (field_cases[i].result.verdict == BITE_OVER);
    }
    return over;
}
