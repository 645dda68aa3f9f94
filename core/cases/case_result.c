/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A column of results: which number of a judged cut it is, and how it is written. */
#include "core/cases/case_result.h"
#include "core/base/error.h"
#include "core/names/registry.h"
#include "core/units/format_quantity.h"
#include "core/units/unit_table.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct {
    const char *name;
    uint32_t kind; /* a bite_case_result_kind */
    int drawn;     /* 1: only with draws */
} judgements[] = {{"verdict", BITE_CASE_VERDICT, 0},
                  {"chance", BITE_CASE_CHANCE, 1},
                  {"worst_limit", BITE_CASE_WORST, 0},
                  {"worst_utilization", BITE_CASE_WORST_SHARE, 0}};

/* What may stand behind the name of a value or a limit. */
static const struct {
    const char *suffix;
    uint32_t of;   /* BITE_CASE_VALUE or BITE_CASE_LIMIT */
    uint32_t kind; /* which it makes of it */
} suffixes[] = {{".low", BITE_CASE_VALUE, BITE_CASE_VALUE_LOW},
                {".high", BITE_CASE_VALUE, BITE_CASE_VALUE_HIGH},
                {".chance", BITE_CASE_LIMIT, BITE_CASE_LIMIT_CHANCE}};

const char *const *bite_case_results_usual(int drawn)
{
    static const char *const names[] = {
        "verdict",      "chance",     "worst_limit", "worst_utilization",   "chip_load",
        "removal_rate", "power_mean", "wall_error",  "surface_temperature", NULL};
    static const char *const without[] = {"verdict",    "worst_limit",         "worst_utilization",
                                          "chip_load",  "removal_rate",        "power_mean",
                                          "wall_error", "surface_temperature", NULL};
    return drawn ? names : without;
}

static void set_unit(bite_case_result *result, bite_kind kind, bite_units units)
{
    double number;
    result->unit = bite_unit_fixed(1.0, kind, units, &number);
    const bite_unit *unit = bite_unit_find(result->unit, strlen(result->unit), kind);
    result->scale = unit == NULL ? 1.0 : unit->scale;
    result->offset = unit == NULL ? 0.0 : unit->offset;
}

static bite_status needs_draws(const char *name, bite_error *error)
{
    bite_error_set(error, BITE_BAD_ARGUMENT, "%.60s needs draws", name);
    bite_error_key(error, "%.60s", name);
    bite_error_hint(error, "ask for draws, such as 1024, or leave it out");
    return BITE_BAD_ARGUMENT;
}

static int read_judgement(const char *name, bite_case_result *result, int *drawn)
{
    for (size_t i = 0; i < sizeof judgements / sizeof *judgements; i++) {
        if (strcmp(name, judgements[i].name) == 0) {
            result->kind = judgements[i].kind;
            *drawn = judgements[i].drawn;
            return 1;
        }
    }
    return 0;
}

/* The length of a name without its suffix; *at: of the suffix, or their number. */
static size_t split_suffix(const char *name, size_t *at)
{
    size_t length = strlen(name);
    size_t count = sizeof suffixes / sizeof *suffixes;
    for (*at = 0; *at < count; (*at)++) {
        size_t size = strlen(suffixes[*at].suffix);
        if (length > size && strcmp(name + length - size, suffixes[*at].suffix) == 0) {
            return length - size;
        }
    }
    return length;
}

static int read_number(const char *name, bite_units units, bite_case_result *result, int *drawn)
{
    char bare[64];
    size_t at = 0;
    uint32_t is_limit = 0;
    (void)snprintf(bare, sizeof bare, "%.*s", (int)split_suffix(name, &at), name);
    int suffixed = at < sizeof suffixes / sizeof *suffixes;
    const bite_input *input = suffixed ? NULL : bite_input_find(bare);
    const bite_definition *found = bite_registry_find(bare, &result->id, &is_limit);
    result->kind = found == NULL ? BITE_CASE_INPUT : is_limit ? BITE_CASE_LIMIT : BITE_CASE_VALUE;
    if ((found == NULL && input == NULL) || (suffixed && suffixes[at].of != result->kind)) {
        return 0;
    }
    if (found == NULL) {
        result->input = input;
        set_unit(result, (bite_kind)input->kind, units);
    } else if (result->kind == BITE_CASE_VALUE) {
        set_unit(result, (bite_kind)found->kind, units);
    }
    result->kind = suffixed ? suffixes[at].kind : result->kind;
    *drawn = suffixed;
    return 1;
}

bite_status bite_case_result_read(const char *name, bite_units units, int drawn,
                                  bite_case_result *result, bite_error *error)
{
    bite_case_result fresh = {.name = name, .unit = "", .scale = 1.0};
    int needs = 0;
    if (!read_judgement(name, &fresh, &needs) && !read_number(name, units, &fresh, &needs)) {
        const char *near = bite_registry_nearest(name);
        bite_error_set(error, BITE_UNKNOWN_NAME, "there is no result named %.60s", name);
        bite_error_key(error, "%.60s", name);
        bite_error_hint(error,
                        near == NULL ? "list values and list limits show the names%s"
                                     : "did you mean %s?",
                        near == NULL ? "" : near);
        return BITE_UNKNOWN_NAME;
    }
    if (needs && !drawn) {
        return needs_draws(name, error);
    }
    *result = fresh;
    return BITE_OK;
}

static double number_of_input(const bite_input *input, const bite_cut *full)
{
    return input->words > 0 ? (double)*bite_input_choice_of(full, input)
                            : *bite_input_number_of(full, input);
}

/* The utilization or the chance of a limit that applies. */
static double of_limit(const bite_limit *limit, double number)
{
    return limit->applies ? number : (double)NAN;
}

double bite_case_result_of(const bite_case_result *column, const bite_result *result,
                           const bite_cut *full)
{
    uint32_t id = column->id;
    switch (column->kind) {
    case BITE_CASE_VERDICT:
        return result->verdict;
    case BITE_CASE_CHANCE:
        return result->chance;
    case BITE_CASE_WORST:
        return result->worst;
    case BITE_CASE_WORST_SHARE:
        return result->worst < BITE_LIMIT_COUNT ? result->limits[result->worst].utilization
                                                : (double)NAN;
    case BITE_CASE_VALUE:
        return result->values[id].value;
    case BITE_CASE_VALUE_LOW:
        return result->values[id].low;
    case BITE_CASE_VALUE_HIGH:
        return result->values[id].high;
    case BITE_CASE_LIMIT:
        return of_limit(&result->limits[id], result->limits[id].utilization);
    case BITE_CASE_LIMIT_CHANCE:
        return of_limit(&result->limits[id], result->limits[id].chance);
    default:
        return number_of_input(column->input, full);
    }
}

const char *bite_case_result_word(const bite_case_result *column, double number, const char *worst)
{
    if (isnan(number)) {
        return NULL;
    }
    switch (column->kind) {
    case BITE_CASE_VERDICT:
        return bite_verdict_name((bite_verdict)number);
    case BITE_CASE_WORST:
        return worst == NULL ? "" : worst;
    case BITE_CASE_INPUT:
        return column->input->words > 0 ? bite_input_word(column->input, (uint32_t)number) : NULL;
    default:
        return NULL;
    }
}
