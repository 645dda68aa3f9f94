/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scores: verdicts, troubles seen, areas, reliability and flips, as Markdown tables. */
#include "tests/field/report_scores.h"
#include "tests/field/field_flips.h"
#include "tests/field/field_reliability.h"
#include "tests/field/field_scores.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *percent(double part, double whole, char *text, size_t size)
{
    text[0] = 0;
    if (whole > 0.0) {
        (void)snprintf(text, size, "%.0f %%", 100.0 * part / whole);
    }
    return text;
}

static const char *fraction(double share, char *text, size_t size)
{
    text[0] = 0;
    if (!isnan(share)) {
        (void)snprintf(text, size, "%.2f", share);
    }
    return text;
}

/* Clean cuts: how many, and by verdict. */
static void print_clean(const char *title, field_selection selection)
{
    field_score score = field_score_of(selection);
    char text[3][16];
    printf("| %s | %.3g | %.3g | %.3g | %.3g | %.3g | %s | %s | %s |", title, score.ok, score.clear,
           score.tight, score.over, score.unknown,
           percent(score.clear, score.ok, text[0], sizeof text[0]),
           percent(score.over, score.ok, text[1], sizeof text[1]),
           percent(score.hums, score.ok, text[2], sizeof text[2]));
    if (selection.collection == FIELD_REPORTS) { /* the recipes are one source */
        field_worst worst = field_worst_without_an_author(selection);
        selection.weighted = 1;
        field_score sources = field_score_of(selection);
        printf(" %s | %s | %.0f %% | %.0f %% |",
               percent(sources.tight, sources.ok, text[0], sizeof text[0]),
               percent(sources.over, sources.ok, text[1], sizeof text[1]), 100.0 * worst.tight,
               100.0 * worst.over);
    }
    printf("\n");
}

static void print_clean_table(const char *title, field_collection collection)
{
    int reports = collection == FIELD_REPORTS;
    printf("\n### %s\n\n| | cuts | clear | tight | over | unknown | clear | over | chatter above "
           "50 %% |%s\n|---|---|---|---|---|---|---|---|---|%s\n",
           title,
           reports ? " tight by source | over by source | tight at most | over at most |" : "",
           reports ? "---|---|---|---|" : "");
    for (int material = 0; material < FIELD_MATERIALS; material++) {
        field_selection selection = {.collection = collection,
                                     .material = (field_material)material};
        print_clean(field_material_names[material], selection);
    }
    if (reports) {
        printf("\nBy source: every source counts as one. At most: when any one author is left "
               "out.\n");
    }
}

static void print_bad_recipes(void)
{
    printf("\n### Recipes known to go wrong\n\n| case | trouble | verdict | chance |\n"
           "|---|---|---|---|\n");
    for (size_t i = 0; i < field_case_count; i++) {
        const field_case *report = &field_cases[i];
        if (report->collection == FIELD_RECIPES && report->judged && report->kind >= 0) {
            printf("| %s | %s | %s | %.0f %% |\n", report->id, report->outcome,
                   bite_verdict_name((bite_verdict)report->result.verdict),
                   100.0 * report->result.chance);
        }
    }
}

static void print_trouble(const char *title, field_selection selection)
{
    field_score score = field_score_of(selection);
    field_worst worst = field_worst_without_an_author(selection);
    char text[9][16];
    selection.weighted = 1;
    field_score sources = field_score_of(selection);
    if (score.trouble > 0.0) {
        printf("| %s | %.0f | %.0f | %s, %s, %s | %.0f | %.0f | %s, %s, %s | %s, %s, %s |\n", title,
               score.trouble, score.seen, percent(score.seen, score.trouble, text[0], sizeof *text),
               percent(sources.seen, sources.trouble, text[1], sizeof *text),
               percent(worst.seen, 1.0, text[2], sizeof *text), score.warned, score.unseeable,
               fraction(score.area, text[3], sizeof *text),
               fraction(sources.area, text[4], sizeof *text),
               fraction(worst.area, text[5], sizeof *text),
               fraction(score.joint_area, text[6], sizeof *text),
               fraction(sources.joint_area, text[7], sizeof *text),
               fraction(worst.joint_area, text[8], sizeof *text));
    } else if (score.unseeable > 0.0) {
        printf("| %s | 0 | | | | %.0f | | |\n", title, score.unseeable);
    }
}

static void print_troubles(void)
{
    printf("\n### Troubles of the public reports\n\nThree figures: by case, by source, and the "
           "least when any one author is left out.\n\n| | troubles | seen by a limit that detects "
           "them | share seen | cut tight or over | no limit applies | area, limit | area, joint "
           "|\n|---|---|---|---|---|---|---|---|\n");
    for (size_t kind = 0; kind < field_outcome_count; kind++) {
        field_selection selection = {.kinds = (int)kind + 1};
        print_trouble(field_outcomes[kind].outcome, selection);
    }
    for (int material = 0; material < FIELD_MATERIALS; material++) {
        field_selection selection = {.material = (field_material)material};
        print_trouble(field_material_names[material], selection);
    }
}

static void print_bins(const char *title, field_selection selection)
{
    printf("\n| %s | cuts | mean chance | went wrong | share | by source | without any one author "
           "|\n|---|---|---|---|---|---|---|\n",
           title);
    for (int bin = 0; bin < FIELD_BINS; bin++) {
        field_selection weighted = selection;
        weighted.weighted = 1;
        field_bin plain = field_bin_of(bin, selection);
        field_bin sources = field_bin_of(bin, weighted);
        char text[2][16];
        double least = 0.0;
        double most = 0.0;
        field_bin_range(bin, selection, &least, &most);
        if (plain.cases > 0.0) {
            printf("| %g to %g | %.0f | %.2f | %.0f | %s | %s |", field_bin_ends[bin],
                   field_bin_ends[bin + 1], plain.cases, plain.chance / plain.cases, plain.wrong,
                   percent(plain.wrong, plain.cases, text[0], sizeof text[0]),
                   percent(sources.wrong, sources.cases, text[1], sizeof text[1]));
            if (selection.collection == FIELD_REPORTS) { /* the recipes are one source */
                printf(" %.0f to %.0f %%", 100.0 * least, 100.0 * most);
            }
            printf(" |\n");
        }
    }
}

static void print_limit_sums(void)
{
    field_selection all = {0};
    field_selection weighted = {.weighted = 1};
    printf(
        "\n| limit | cuts | sum of chances | troubles it detects | of these, it is the likeliest "
        "| sum and troubles, each source as one | sum less troubles, without any one author |\n"
        "|---|---|---|---|---|---|---|\n");
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        field_limit_sum plain = field_limit_sum_of((bite_limit_id)i, all);
        field_limit_sum sources = field_limit_sum_of((bite_limit_id)i, weighted);
        double least = 0.0;
        double most = 0.0;
        field_limit_range((bite_limit_id)i, all, &least, &most);
        if (plain.chance >= 0.05 || plain.reported > 0.0) {
            printf("| %s | %.0f | %.1f | %.0f | %.0f | %.1f, %.1f | %.1f to %.1f |\n",
                   bite_limit_name((bite_limit_id)i), plain.cases, plain.chance, plain.reported,
                   plain.blamed, sources.chance, sources.reported, least, most);
        }
    }
}

static void print_reliability(void)
{
    field_selection reports = {0};
    field_selection recipes = {.collection = FIELD_RECIPES};
    printf("\n### Reliability\n\nThe chance of the cut, and the share of the cuts of about that "
           "chance that went wrong. Troubles that no\nlimit of the cut detects are left out.\n");
    print_bins("public reports", reports);
    print_bins("everyday recipes", recipes);
    printf("\nEach limit of the public reports: the sum of its chances and the troubles that it "
           "detects. A trouble is\ndetected by several limits, so those columns add up to more "
           "than the troubles.\n");
    print_limit_sums();
}

static void print_flips(int inferred)
{
    int right = 0;
    int narrow = 0;
    int pairs = 0;
    char wrong[400] = "";
    size_t at = 0;
    for (size_t i = 0; i < field_flip_count; i++) {
        int judged = 0;
        int good = field_flip_is_right(i, inferred, &judged);
        right += good;
        narrow += good && field_flip_is_narrow(i);
        pairs += judged;
        if (judged && !good && at < sizeof wrong) {
            int length = snprintf(wrong + at, sizeof wrong - at, "%s%s to %s%s", at > 0 ? ", " : "",
                                  field_flips[i].better, field_flips[i].worse,
                                  field_flips[i].alike ? " (no number differs)" : "");
            at += length > 0 ? (size_t)length : 0;
        }
    }
    printf("%s: %d of %d right, %d of them by less than 1 %%. Wrong: %s.\n\n",
           inferred ? "With an inferred value" : "Pairs", right, pairs, narrow,
           wrong[0] == 0 ? "none" : wrong);
}

/* Cases with an inferred value or outcome are judged and printed, but not scored elsewhere. */
static void print_inferred(void)
{
    int ok = 0;
    int over = 0;
    int trouble = 0;
    int seen = 0;
    for (size_t i = 0; i < field_case_count; i++) {
        const field_case *report = &field_cases[i];
        if (report->judged && !report->scored) {
            ok += report->kind == -1;
            over += report->kind == -1 && report->result.verdict == BITE_OVER;
            trouble += report->kind >= 0;
            seen += report->kind >= 0 && field_is_seen(report);
        }
    }
    printf("Inferred values, not scored: %d clean cuts, of them over %d; %d troubles, seen %d.\n",
           ok, over, trouble, seen);
    printf("With limits of depth taken as depths, %.0f clean cuts are over.\n",
           field_over_at_limits());
}

void field_report_scores(void)
{
    printf(
        "# Public reports and everyday recipes\n\nMade by `make check-field`; README.md explains "
        "it.\n\n## Scores\n");
    print_clean_table("Everyday recipes that work", FIELD_RECIPES);
    print_bad_recipes();
    print_clean_table("Public reports that went well", FIELD_REPORTS);
    print_troubles();
    print_reliability();
    printf("\n### Pairs of which one went wrong\n\n");
    print_flips(0);
    print_flips(1);
    print_inferred();
}
