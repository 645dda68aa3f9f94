/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Every reference row against the engine, with separate counts for published and computed results.
 *
 * A miss fails unless known-misses.csv names it with its reason and size; a named miss that passes
 * fails too, so that the list stays true.
 */
#include "core/base/number.h"
#include "tests/reference/check.h"
#include "tests/reference/csv.h"
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define ROWS_MOST 1024

typedef struct row {
    const bite_csv *csv;
    size_t at;
} row;

/* Read before the tests run; the tests do not change it. */
static struct {
    bite_csv files[7];
    bite_csv misses;
    row rows[ROWS_MOST];
    int count;
} all;

static const char *cell(const row *of, const char *column)
{
    return bite_csv_cell(of->csv, of->at, column);
}

double bite_in(const bite_given *given, const char *name)
{
    for (size_t i = 0; i < given->count; i++) {
        if (strcmp(given->names[i], name) == 0) {
            return given->values[i];
        }
    }
    bite_test_stop("the row gives no %s", name);
}

const char *bite_in_word(const bite_given *given, const char *name)
{
    for (size_t i = 0; i < given->words; i++) {
        if (strcmp(given->word_names[i], name) == 0) {
            return given->word_values[i];
        }
    }
    return NULL;
}

double bite_in_at(const bite_given *given, const char *stem, int index)
{
    char name[16];
    (void)snprintf(name, sizeof name, "%s%d", stem, index);
    return bite_in(given, name);
}

typedef struct check_list {
    const bite_check *list;
    size_t count;
} check_list;

static check_list list_at(size_t at)
{
    const check_list lists[] = {
        {bite_checks_motion, bite_checks_motion_count},
        {bite_checks_orthogonal, bite_checks_orthogonal_count},
        {bite_checks_force, bite_checks_force_count},
        {bite_checks_heat, bite_checks_heat_count},
        {bite_checks_vibration, bite_checks_vibration_count},
        {bite_checks_plate, bite_checks_plate_count},
        {bite_checks_around, bite_checks_around_count},
        {bite_checks_model, bite_checks_model_count},
        {bite_checks_textbook, bite_checks_textbook_count},
        {bite_checks_uncertainty, bite_checks_uncertainty_count},
    };
    const check_list end = {NULL, 0};
    return at < BITE_COUNT(lists) ? lists[at] : end;
}

static const bite_check *find_check(const char *name)
{
    for (size_t i = 0; list_at(i).list != NULL; i++) {
        for (size_t k = 0; k < list_at(i).count; k++) {
            if (strcmp(list_at(i).list[k].name, name) == 0) {
                return &list_at(i).list[k];
            }
        }
    }
    return NULL;
}

static const char *const kind_names[] = {"engine", "formula", "arithmetic"};

static bite_check_kind kind_of(const bite_check *check)
{
    if (check->runs == NULL) {
        return BITE_CHECK_ARITHMETIC;
    }
    return strncmp(check->runs, "bite_", 5) == 0 ? BITE_CHECK_ENGINE : BITE_CHECK_FORMULA;
}

/* For test_check_kinds.sh: each check with its kind and the function that it runs. */
static void print_checks(void)
{
    for (size_t i = 0; list_at(i).list != NULL; i++) {
        for (size_t k = 0; k < list_at(i).count; k++) {
            const bite_check *check = &list_at(i).list[k];
            printf("check %s %s %s\n", check->name, kind_names[kind_of(check)],
                   check->runs == NULL ? "-" : check->runs);
        }
    }
}

static size_t read_numbers(const char *text, double *numbers)
{
    size_t count = 0;
    while (*text != 0) {
        size_t used = 0;
        if (count == BITE_CHECK_NUMBERS ||
            !bite_number_read(text, strlen(text), &numbers[count], &used) ||
            (text[used] != 0 && text[used] != ';')) {
            bite_test_stop("no list of numbers at %s", text);
        }
        count++;
        text += used + (text[used] == ';');
    }
    return count;
}

static void copy_part(char *to, size_t size, const char *from, size_t length)
{
    if (length >= size) {
        bite_test_stop("too long: %s", from);
    }
    memcpy(to, from, length);
    to[length] = 0;
}

/* Reads name=word, if that is what follows; returns where the text goes on, or NULL. */
static const char *read_word(const char *text, const char *equals, bite_given *given)
{
    size_t at = given->words;
    if (equals == NULL || equals[1] < 'a' || equals[1] > 'z') {
        return NULL;
    }
    size_t length = strcspn(equals + 1, ";");
    if (at == BITE_CHECK_WORDS) {
        bite_test_stop("too many words at %s", text);
    }
    copy_part(given->word_names[at], sizeof given->word_names[at], text, (size_t)(equals - text));
    copy_part(given->word_values[at], sizeof given->word_values[at], equals + 1, length);
    given->words++;
    text = equals + 1 + length;
    return text + (*text == ';');
}

static void read_given(const char *text, bite_given *given)
{
    given->count = given->words = 0;
    while (*text != 0) {
        const char *equals = strchr(text, '=');
        const char *after = read_word(text, equals, given);
        size_t used = 0;
        if (after != NULL) {
            text = after;
            continue;
        }
        if (equals == NULL || (size_t)(equals - text) >= sizeof given->names[0] ||
            given->count == BITE_CHECK_NUMBERS ||
            !bite_number_read(equals + 1, strlen(equals + 1), &given->values[given->count],
                              &used)) {
            bite_test_stop("no name=number at %s", text);
        }
        copy_part(given->names[given->count], sizeof given->names[0], text,
                  (size_t)(equals - text));
        given->count++;
        text = equals + 1 + used;
        text += *text == ';';
    }
}

typedef struct verdict {
    int passed;
    const bite_check *check;
    double worst; /* the deviation over the tolerance, of the worst result */
    char got[400];
} verdict;

static verdict judge(const row *of)
{
    verdict out = {0, find_check(cell(of, "check")), 0.0, ""};
    bite_given given;
    double want[BITE_CHECK_NUMBERS];
    double within[BITE_CHECK_NUMBERS];
    double got[BITE_CHECK_NUMBERS];
    const bite_check *check = out.check;
    if (check == NULL) {
        (void)snprintf(out.got, sizeof out.got, "nothing computes %s", cell(of, "check"));
        return out;
    }
    read_given(cell(of, "in"), &given);
    size_t wanted = read_numbers(cell(of, "out"), want);
    size_t allowed = read_numbers(cell(of, "within"), within);
    int count = check->run(&given, got);
    if (count < 0 || (size_t)count != wanted || allowed != wanted) {
        bite_test_stop("%s: %s gives %d numbers, the row has %zu with %zu tolerances",
                       cell(of, "id"), check->name, count, wanted, allowed);
    }
    out.passed = 1;
    for (size_t i = 0; i < wanted; i++) {
        char number[32];
        double share = fabs(got[i] - want[i]) / (within[i] > 0.0 ? within[i] : 1e-300);
        out.worst = fmax(out.worst, share);
        /* the last digit of a published figure is rounded, so the tolerance is inclusive */
        out.passed = out.passed && isfinite(got[i]) && share <= 1.0 + 1e-9;
        (void)bite_number_write(got[i], 6, number, sizeof number);
        size_t used = strlen(out.got);
        (void)snprintf(out.got + used, sizeof out.got - used, "%s%s", i > 0 ? "; " : "", number);
    }
    return out;
}

static int known_miss(const char *id)
{
    for (size_t i = 1; i < all.misses.count; i++) {
        if (strcmp(bite_csv_cell(&all.misses, i, "id"), id) == 0) {
            return 1;
        }
    }
    return 0;
}

START_TEST(row_is_reproduced)
{
    const row *of = &all.rows[_i];
    if (strcmp(cell(of, "kind"), "contrary") == 0) {
        return; /* reported only: sources disagree about a sign; see the report */
    }
    const bite_check *check = find_check(cell(of, "check"));
    if (getenv("BITE_TEST_SHORT") != NULL && check != NULL && check->runs != NULL &&
        strcmp(check->runs, "bite_sobol_init") == 0) {
        return; /* a million draws: not under valgrind */
    }
    verdict result = judge(of);
    int known = known_miss(cell(of, "id"));
    ck_assert_msg(result.passed || known, "%s %s: expected %s within %s, got %s", cell(of, "id"),
                  cell(of, "quantity"), cell(of, "out"), cell(of, "within"), result.got);
    ck_assert_msg(!(result.passed && known),
                  "%s is listed as a known miss and passes: take it off the list", cell(of, "id"));
}
END_TEST

/* The list of misses names existing rows and gives a reason for each. */
START_TEST(known_misses_exist_and_have_reasons)
{
    for (size_t i = 1; i < all.misses.count; i++) {
        int found = 0;
        for (int k = 0; k < all.count; k++) {
            found |= strcmp(cell(&all.rows[k], "id"), bite_csv_cell(&all.misses, i, "id")) == 0;
        }
        ck_assert_msg(found, "%s is no row", bite_csv_cell(&all.misses, i, "id"));
        ck_assert_uint_gt(strlen(bite_csv_cell(&all.misses, i, "reason")), 20);
    }
}
END_TEST

/* The numbers of rows and of reproduced rows, by kind of check and by grade of source. */
#define GRADES 3
static const char *const grades[GRADES] = {"published", "recalled", "computed"};

typedef struct totals {
    int count[BITE_COUNT(kind_names)][GRADES];
    int passed[BITE_COUNT(kind_names)][GRADES];
} totals;

static void add_row(totals *sums, const row *of, const verdict *result)
{
    if (result->check == NULL) {
        return; /* the test of the row fails */
    }
    bite_check_kind kind = kind_of(result->check);
    for (size_t grade = 0; grade < GRADES; grade++) {
        if (strcmp(cell(of, "kind"), grades[grade]) == 0) {
            sums->count[kind][grade]++;
            sums->passed[kind][grade] += result->passed;
        }
    }
}

/* The kinds verify different things and are not added: one line for each. */
static void write_totals(const totals *sums, size_t kind, char *line, size_t size)
{
    (void)snprintf(line, size, "%s:", kind_names[kind]);
    for (size_t grade = 0; grade < GRADES; grade++) {
        size_t used = strlen(line);
        (void)snprintf(line + used, size - used, "%s %s %d of %d", grade > 0 ? "," : "",
                       grades[grade], sums->passed[kind][grade], sums->count[kind][grade]);
    }
}

static void print_totals(const totals *sums)
{
    for (size_t kind = 0; kind < BITE_COUNT(kind_names); kind++) {
        char line[160];
        write_totals(sums, kind, line, sizeof line);
        puts(line);
    }
}

static void add_all(totals *sums)
{
    memset(sums, 0, sizeof *sums);
    for (int i = 0; i < all.count; i++) {
        if (strcmp(cell(&all.rows[i], "kind"), "contrary") != 0) {
            verdict result = judge(&all.rows[i]);
            add_row(sums, &all.rows[i], &result);
        }
    }
}

/* Fails if the file does not contain the text. */
static void find_in_file(const char *name, const char *text)
{
    char path[4096];
    bite_test_source(path, sizeof path, name);
    char *whole = bite_csv_text(path);
    int found = strstr(whole, text) != NULL;
    free(whole);
    ck_assert_msg(found, "%s does not say \"%s\": make check-reference", name, text);
}

/* REPORT.md and README.md state the totals of the present rows. */
START_TEST(stated_totals_are_true)
{
    totals sums;
    if (getenv("BITE_TEST_SHORT") != NULL) {
        return; /* judges every row */
    }
    add_all(&sums);
    for (size_t kind = 0; kind < BITE_COUNT(kind_names); kind++) {
        char line[160];
        write_totals(&sums, kind, line, sizeof line);
        find_in_file("tests/reference/REPORT.md", line);
        int passed = 0;
        int count = 0;
        for (size_t grade = 0; grade < GRADES; grade++) {
            passed += sums.passed[kind][grade];
            count += sums.count[kind][grade];
        }
        (void)snprintf(line, sizeof line, "%d of %d %s", passed, count, kind_names[kind]);
        find_in_file("README.md", line);
    }
}
END_TEST

/* The report in the tree was made from these rows. */
START_TEST(report_was_made_from_these_rows)
{
    char path[4096];
    bite_test_source(path, sizeof path, "tests/reference/REPORT.md");
    char *text = bite_csv_text(path);
    for (int k = 0; k < all.count; k++) {
        char start[80];
        (void)snprintf(start, sizeof start, "| %s |", cell(&all.rows[k], "id"));
        ck_assert_msg(strstr(text, start) != NULL, "%s is not in REPORT.md: make check-reference",
                      cell(&all.rows[k], "id"));
    }
    free(text);
}
END_TEST

static void read_all(void)
{
    static const char *const names[] = {
        "tests/reference/mechanics.csv",      "tests/reference/heat.csv",
        "tests/reference/dynamics.csv",       "tests/reference/stock_holding_time.csv",
        "tests/reference/expected-heat.csv",  "tests/reference/expected-mech.csv",
        "tests/reference/measured-forces.csv"};
    char path[4096];
    for (size_t f = 0; f < BITE_COUNT(names); f++) {
        bite_test_source(path, sizeof path, names[f]);
        all.files[f] = bite_csv_read(path);
        for (size_t i = 1; i < all.files[f].count && all.count < ROWS_MOST; i++) {
            row of = {&all.files[f], i};
            all.rows[all.count++] = of;
        }
    }
    bite_test_source(path, sizeof path, "tests/reference/known-misses.csv");
    all.misses = bite_csv_read(path);
}

static void print_row(const row *of, const verdict *result)
{
    printf("| %s | %s | %s | %s | %s | %s | %s | %s%.3f |\n", cell(of, "id"), cell(of, "quantity"),
           cell(of, "source"), cell(of, "kind"), kind_names[kind_of(result->check)],
           cell(of, "out"), result->got, result->passed ? "" : "MISS ", result->worst);
}

/* Prints the counts and, with --report, the whole table. */
static void report(int whole)
{
    totals sums;
    memset(&sums, 0, sizeof sums);
    if (whole) {
        printf("# Reference rows\n\n| id | quantity | source | grade | check | expected | got | "
               "miss / allowed |\n|---|---|---|---|---|---|---|---|\n");
    }
    for (int i = 0; i < all.count; i++) {
        const row *of = &all.rows[i];
        if (strcmp(cell(of, "kind"), "contrary") == 0) {
            if (whole) {
                printf("| %s | %s | %s | contrary | | %s | the engine says the opposite; kept, "
                       "since sources disagree | |\n",
                       cell(of, "id"), cell(of, "quantity"), cell(of, "source"),
                       cell(of, "expected"));
            }
            continue;
        }
        verdict result = judge(of);
        add_row(&sums, of, &result);
        if (whole && result.check != NULL) {
            print_row(of, &result);
        }
    }
    if (whole) {
        printf("\n## Rows reproduced, by kind of check and grade of source\n\n```\n");
    }
    print_totals(&sums);
    if (whole) {
        printf("```\n");
    }
}

int main(int argc, char **argv)
{
    if (argc > 1 && strcmp(argv[1], "--checks") == 0) {
        print_checks();
        return EXIT_SUCCESS;
    }
    read_all();
    open_library();
    if (argc > 1 && strcmp(argv[1], "--report") == 0) {
        report(1);
        close_library();
        return EXIT_SUCCESS;
    }
    Suite *suite = suite_create("reference");
    TCase *rows = tcase_create("rows");
    tcase_add_loop_test(rows, row_is_reproduced, 0, all.count);
    tcase_add_test(rows, known_misses_exist_and_have_reasons);
    tcase_add_test(rows, report_was_made_from_these_rows);
    tcase_add_test(rows, stated_totals_are_true);
    tcase_set_timeout(rows, 60);
    suite_add_tcase(suite, rows);
    int status = bite_test_run(suite);
    if (getenv("BITE_TEST_SHORT") == NULL) {
        report(0);
    }
    for (size_t f = 0; f < BITE_COUNT(all.files); f++) {
        bite_csv_free(&all.files[f]);
    }
    bite_csv_free(&all.misses);
    close_library();
    return status;
}
