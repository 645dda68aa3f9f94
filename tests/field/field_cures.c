/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cures of public reports, and where choose --after puts them. */
#include "tests/field/field_cures.h"
#include "core/names/registry.h"
#include "core/search/remedy.h"
#include "tests/field/field_cases.h"
#include "tests/support/support.h"
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define DRAWS 4096 /* as the command */
#define CONFIDENCE 0.9

static field_case *case_of(const char *id)
{
    for (size_t i = 0; i < field_case_count; i++) {
        if (strcmp(field_cases[i].id, id) == 0) {
            return &field_cases[i];
        }
    }
    ck_abort_msg("cures.csv: there is no case %s", id);
    return NULL;
}

/* Whether a change is the one in words: "feed_rate-", "spindle_speed+", "coolant". */
static int is_cure(const bite_change *change, const char *word)
{
    char name[48];
    size_t length = strcspn(word, "+-");
    (void)snprintf(name, sizeof name, "%.*s", (int)length, word);
    const bite_input *input = bite_input_find(name);
    return input != NULL && bite_input_at(change->input) == input &&
           (word[length] == 0 || (word[length] == '+') == (change->to > change->from));
}

/* The place of the first change that is one of the words, from 1; 0: none is. */
static int place_of_change(const bite_diagnosis *diagnosis, const char *words)
{
    for (uint32_t i = 0; i < diagnosis->remedy_count; i++) {
        char text[200];
        (void)snprintf(text, sizeof text, "%s", words);
        for (char *rest = text, *word = strtok_r(text, " ", &rest); word != NULL;
             word = strtok_r(NULL, " ", &rest)) {
            if (is_cure(&diagnosis->remedies[i].change, word)) {
                return (int)i + 1;
            }
        }
    }
    return 0;
}

static int names_cause(const bite_diagnosis *diagnosis, const char *cure)
{
    const char *named = strstr(cure, "cause:");
    for (size_t i = 0; named != NULL && i < diagnosis->cause_count; i++) {
        if (strcmp(named + strlen("cause:"), diagnosis->causes[i]->name) == 0) {
            return 1;
        }
    }
    return 0;
}

static void print_row(const bite_csv *cures, size_t row, const bite_diagnosis *diagnosis, int place,
                      int cause)
{
    char where[24];
    const bite_input *input =
        diagnosis->remedy_count == 0 ? NULL : bite_input_at(diagnosis->remedies[0].change.input);
    const char *first = diagnosis->remedy_count == 0 ? "none"
                        : input == NULL              ? "hold"
                                                     : input->name;
    (void)snprintf(where, sizeof where, place > 0 ? "%d" : cause ? "cause" : "-", place);
    printf("| %s | %s | %s | %s | %s | %.0f %% | %s |\n", bite_csv_cell(cures, row, "id"),
           bite_csv_cell(cures, row, "after"), bite_csv_cell(cures, row, "said"),
           bite_csv_cell(cures, row, "tried"), where, 100.0 * diagnosis->trouble, first);
}

static void count(const bite_csv *cures, size_t row, int print, field_cure_score *score)
{
    bite_answer *answer = NULL;
    bite_diagnosis *diagnosis = NULL;
    field_case *report = case_of(bite_csv_cell(cures, row, "id"));
    const char *cure = bite_csv_cell(cures, row, "cure");
    bite_request *request = field_request(0, report);
    ck_assert_msg(request != NULL, "%s: %s", report->id, report->why);
    ck_assert_int_eq(bite_answer_new(request, DRAWS, CONFIDENCE, &answer, NULL), BITE_OK);
    ck_assert_int_eq(
        bite_diagnosis_new(answer, bite_csv_cell(cures, row, "after"), &diagnosis, NULL), BITE_OK);
    int place = place_of_change(diagnosis, cure);
    int cause = names_cause(diagnosis, cure);
    score->reports++;
    score->first += place == 1;
    score->second += place == 2;
    score->third += place == 3;
    score->later += place > 3;
    score->cause += cause && place == 0;
    if (print) {
        print_row(cures, row, diagnosis, place, cause);
    }
    bite_diagnosis_free(diagnosis);
    bite_answer_free(answer);
    bite_request_free(request);
}

field_cure_score field_cure_score_of(int tried_only, int print)
{
    char path[4096];
    field_cure_score score = {0};
    bite_test_source(path, sizeof path, "tests/field/cures.csv");
    bite_csv cures = bite_csv_read(path);
    for (size_t row = 1; row < cures.count; row++) {
        if (!tried_only || strcmp(bite_csv_cell(&cures, row, "tried"), "yes") == 0) {
            count(&cures, row, print, &score);
        }
    }
    bite_csv_free(&cures);
    return score;
}

static void print_score(const char *what, field_cure_score score)
{
    printf("%s: of %d, first %d, second %d, third %d, later %d, among what settings cannot show "
           "%d,\nnot proposed %d.\n\n",
           what, score.reports, score.first, score.second, score.third, score.later, score.cause,
           score.reports - score.first - score.second - score.third - score.later - score.cause);
}

void field_report_cures(void)
{
    printf("\n## Cures\n\nWhere `choose --after` puts what helped, or was advised.\n\n"
           "| case | after | what was said | tried | place | chance of the trouble | first |\n"
           "|---|---|---|---|---|---|---|\n");
    field_cure_score all = field_cure_score_of(0, 1);
    printf("\n");
    print_score("All", all);
    print_score("Tried, and it helped", field_cure_score_of(1, 0));
}
