/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Scores of the judged reports: how often a limit detects a trouble, and how often a good cut is
 * judged over. */
#include "tests/field/field_scores.h"
#include <math.h>
#include <string.h>

/* The length of the author's part of a source: on a host of many authors up to the end of the
 * author's name, otherwise the whole address. */
static size_t author_length(const char *source)
{
    static const char host[] = "https://github.com/";
    size_t skip = sizeof host - 1;
    return strncmp(source, host, skip) == 0 ? skip + strcspn(source + skip, "/") : strlen(source);
}

static int same_author(const char *a, const char *b)
{
    size_t length = author_length(a);
    return length == author_length(b) && strncmp(a, b, length) == 0;
}

static int counts(const field_case *report, field_selection selection)
{
    return report->scored &&
           (selection.without == NULL || !same_author(report->source, selection.without));
}

/* With weights, every source counts as one: a workshop that reported forty cuts is still one
 * workshop. */
static double weight(const field_case *report, field_selection selection)
{
    int same = 0;
    for (size_t i = 0; selection.weighted && i < field_case_count; i++) {
        same += field_cases[i].scored && strcmp(field_cases[i].source, report->source) == 0;
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

int field_is_seen(const field_case *report)
{
    int limit = field_likeliest_limit(report, report->kind);
    return limit >= 0 && report->result.limits[limit].verdict >= BITE_TIGHT;
}

static int binding_above_clear(const field_case *report)
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &report->result.limits[i];
        if (limit->applies && !limit->advisory && limit->verdict > BITE_CLEAR) {
            return 1;
        }
    }
    return 0;
}

void field_add_area(const field_case *report, field_selection selection, double *area,
                    double *pairs)
{
    for (size_t k = 0; k < field_case_count; k++) {
        if (field_cases[k].kind == -1 && counts(&field_cases[k], selection)) {
            double both = weight(report, selection) * weight(&field_cases[k], selection);
            double mine = field_chance(report, report->kind);
            double theirs = field_chance(&field_cases[k], report->kind);
            *area += both * (mine > theirs ? 1.0 : mine == theirs ? 0.5 : 0.0);
            *pairs += both;
        }
    }
}

field_score field_score_of(field_selection selection)
{
    field_score sum = {0};
    double pairs = 0.0;
    for (size_t i = 0; i < field_case_count; i++) {
        const field_case *report = &field_cases[i];
        double w = weight(report, selection);
        if (!counts(report, selection)) {
            continue;
        }
        if (report->kind == -1) {
            sum.ok += w;
            sum.over += w * (report->result.verdict == BITE_OVER);
            sum.quiet += w * !binding_above_clear(report);
        } else if (report->kind == -2) {
            sum.unseeable += w;
        } else {
            sum.trouble += w;
            sum.seen += w * field_is_seen(report);
            field_add_area(report, selection, &sum.area, &pairs);
        }
    }
    sum.area /= pairs;
    return sum;
}

field_score field_worst_without_an_author(void)
{
    field_selection all = {NULL, 0};
    field_score worst = field_score_of(all);
    for (size_t i = 0; i < field_case_count; i++) {
        field_selection selection = {field_cases[i].source, 0};
        field_score left = field_score_of(selection);
        if (left.over / left.ok > worst.over / worst.ok) {
            worst.over = left.over;
            worst.ok = left.ok;
        }
        if (left.seen / left.trouble < worst.seen / worst.trouble) {
            worst.seen = left.seen;
            worst.trouble = left.trouble;
        }
        worst.area = fmin(worst.area, left.area);
    }
    return worst;
}

const field_flip field_flips[] = {
    {"N44", "N42", 0}, {"N44", "N43", 0},   {"N44", "N45", 0},   {"N55", "N56", 0},
    {"N66", "N71", 0}, {"N31", "N33", 0},   {"N32", "N33", 0},   {"N67", "N71", 0},
    {"N68", "N71", 0}, {"N02", "N01", 0},   {"N37", "N36", 0},   {"P82", "P81", 0},
    {"N46", "N45", 1}, {"R01b", "R01a", 0}, {"R01c", "R01a", 0}, {"N25", "N24", 0},
    {"N03", "N05", 0},
};
const size_t field_flip_count = sizeof field_flips / sizeof *field_flips;

static const field_case *find(const char *id)
{
    for (size_t i = 0; i < field_case_count; i++) {
        if (strcmp(field_cases[i].id, id) == 0) {
            return &field_cases[i];
        }
    }
    return NULL;
}

int field_flip_is_right(size_t at, int inferred, int *judged)
{
    const field_case *better = find(field_flips[at].better);
    const field_case *worse = find(field_flips[at].worse);
    *judged =
        better != NULL && worse != NULL && better->judged && worse->judged && worse->kind >= 0;
    *judged = *judged && (better->scored && worse->scored) == !inferred;
    return *judged && field_chance(worse, worse->kind) > field_chance(better, worse->kind);
}

int field_flip_is_narrow(size_t at)
{
    const field_case *worse = find(field_flips[at].worse);
    return field_chance(worse, worse->kind) <
           field_chance(find(field_flips[at].better), worse->kind) + 0.01;
}
