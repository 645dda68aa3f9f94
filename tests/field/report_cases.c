/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A line for each report and recipe: what was given and assumed, the verdict and the limits. */
#include "tests/field/report_cases.h"
#include "tests/field/field_scores.h"
#include <stdio.h>

/* The binding limits that may be exceeded, the likeliest first: utilization at the best estimates
 * and at 95 %, and the chance. */
static void print_limits(const field_case *report)
{
    int listed[BITE_LIMIT_COUNT] = {0};
    for (int n = 0; n < BITE_LIMIT_COUNT; n++) {
        int best = -1;
        for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
            const bite_limit *limit = &report->result.limits[i];
            int may = limit->applies && !limit->advisory && limit->chance >= 0.05 && !listed[i];
            best =
                may && (best < 0 || limit->chance > report->result.limits[best].chance) ? i : best;
        }
        if (best < 0) {
            return;
        }
        const bite_limit *limit = &report->result.limits[best];
        listed[best] = 1;
        printf("%s%s %.0f to %.0f %%, %.0f %%", n > 0 ? "; " : "",
               bite_limit_name((bite_limit_id)best), 100.0 * limit->utilization,
               100.0 * limit->utilization_high, 100.0 * limit->chance);
    }
}

static void print_given(const field_case *report)
{
    static const struct {
        const char *column;
        const char *before;
        const char *after;
    } columns[] = {{"grade", "", ""},
                   {"tool_mm", "D ", ""},
                   {"flutes", "z ", ""},
                   {"rpm", "", " rpm"},
                   {"feed_mm_min", "F ", ""},
                   {"ap_mm", "ap ", ""},
                   {"ap_most_mm", "ap up to ", ""},
                   {"ae_mm", "ae ", ""},
                   {"stickout_mm", "out ", ""},
                   {"coolant", "coolant ", ""},
                   {"machine", "", ""},
                   {"entry", "", ""},
                   {"entry_feed_mm_min", "at ", ""},
                   {"more", "", ""}};
    const char *separator = "";
    for (size_t i = 0; i < sizeof columns / sizeof *columns; i++) {
        const char *text = field_cell(report, columns[i].column);
        if (text[0] != 0) {
            printf("%s%s%s%s", separator, columns[i].before, text, columns[i].after);
            separator = ", ";
        }
    }
}

static void print_case(const field_case *report)
{
    if (!report->judged) {
        printf("| %s | %s | %s | | | | |\n", report->id, report->outcome, report->why);
        return;
    }
    const char *verdict = bite_verdict_name((bite_verdict)report->result.verdict);
    int limit = report->kind >= 0 ? field_likeliest_limit(report, report->kind) : -1;
    printf("| %s%s | %s | ", report->id, report->scored ? "" : " (inferred)", report->outcome);
    print_given(report);
    printf(" | %s | %s %.0f %% | ", report->assumed, verdict, 100.0 * report->result.chance);
    if (limit >= 0) {
        const bite_limit *at = &report->result.limits[limit];
        printf("%s %.0f to %.0f %%, %s %.0f %%", bite_limit_name((bite_limit_id)limit),
               100.0 * at->utilization, 100.0 * at->utilization_high,
               bite_verdict_name((bite_verdict)at->verdict), 100.0 * at->chance);
    }
    printf(" | ");
    print_limits(report);
    printf(" |\n");
}

static void print_ranks(void)
{
    field_selection all = {0};
    printf("\n## Ranks\n\nThe share of the clean cuts that have a lower chance of the limits that "
           "detect the trouble.\n\n| case | trouble | share |\n|---|---|---|\n");
    for (size_t i = 0; i < field_case_count; i++) {
        double area = 0.0;
        double pairs = 0.0;
        if (field_counts(&field_cases[i], all) && field_is_seeable(&field_cases[i])) {
            field_add_area(&field_cases[i], all, 0, &area, &pairs);
            printf("| %s | %s | %.0f %% |\n", field_cases[i].id, field_cases[i].outcome,
                   100.0 * area / pairs);
        }
    }
}

static void print_table(const char *title, field_collection collection)
{
    printf("\n## %s\n\n"
           "| case | outcome | given | assumed | verdict, chance | limit that detects it | binding "
           "limits that may be exceeded |\n"
           "|---|---|---|---|---|---|---|\n",
           title);
    for (size_t i = 0; i < field_case_count; i++) {
        if (field_cases[i].collection == collection) {
            print_case(&field_cases[i]);
        }
    }
}

void field_report_cases(void)
{
    print_ranks();
    printf("\nLengths in mm, feeds in mm/min. Of a limit: its utilization at best estimates and at "
           "95 %% of the\ndraws, and the chance that it is exceeded. Chances under 5 %% are not "
           "listed.\n");
    print_table("Cases: public reports", FIELD_REPORTS);
    print_table("Cases: everyday recipes", FIELD_RECIPES);
}
