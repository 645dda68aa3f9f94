/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Conditions of cautions: comparisons joined by `and`. */
#include "core/library/caution_rule.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/names/registry.h"
#include <math.h>
#include <string.h>

#define PART_MOST 120

enum relation { ABOVE, BELOW, AT_LEAST, AT_MOST, IS_NOT, IS };

static const struct {
    const char *words; /* with the blanks around them */
    enum relation relation;
} relations[] = {
    {" at least ", AT_LEAST}, {" at most ", AT_MOST}, {" above ", ABOVE},
    {" below ", BELOW},       {" is not ", IS_NOT},   {" is ", IS},
};

static const char *const words_known[] = {"grade",     "family",        "coolant",
                                          "machine",   "tool_material", "side",
                                          "substance", "blind",         "pressure"};

/* One comparison, split into its parts. */
typedef struct rule_comparison {
    char left[PART_MOST];
    char right[PART_MOST];
    enum relation relation;
} rule_comparison;

bool bite_caution_rule_word(const char *name)
{
    for (size_t i = 0; i < sizeof words_known / sizeof *words_known; i++) {
        if (strcmp(words_known[i], name) == 0) {
            return true;
        }
    }
    return false;
}

static bool is_limit_part(const char *name)
{
    static const char *const parts[] = {".demand", ".capacity", ".utilization", ".chance"};
    const char *point = strchr(name, '.');
    char limit[PART_MOST];
    uint32_t id = 0;
    uint32_t is_limit = 0;
    if (point == NULL || (size_t)(point - name) >= sizeof limit) {
        return false;
    }
    memcpy(limit, name, (size_t)(point - name));
    limit[point - name] = 0;
    if (bite_registry_find(limit, &id, &is_limit) == NULL || !is_limit) {
        return false;
    }
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (strcmp(point, parts[i]) == 0) {
            return true;
        }
    }
    return false;
}

bool bite_caution_rule_number(const char *name, const bite_field *figures, size_t count)
{
    uint32_t id = 0;
    uint32_t is_limit = 0;
    const bite_input *input = bite_input_find(name);
    const bite_definition *definition = bite_registry_find(name, &id, &is_limit);
    if ((input != NULL && input->words == 0) || (definition != NULL && !is_limit) ||
        is_limit_part(name)) {
        return true;
    }
    for (size_t i = 0; i < count; i++) {
        if (figures[i].type == BITE_FIELD_FIGURE && strcmp(figures[i].name, name) == 0) {
            return true;
        }
    }
    return false;
}

static const char *find_text(const char *text, size_t length, const char *what)
{
    size_t size = strlen(what);
    for (size_t i = 0; i + size <= length; i++) {
        if (memcmp(text + i, what, size) == 0) {
            return text + i;
        }
    }
    return NULL;
}

static int copy_trimmed(char *to, const char *text, size_t length)
{
    length = bite_text_trim(&text, length);
    if (length == 0 || length >= PART_MOST) {
        return 0;
    }
    memcpy(to, text, length);
    to[length] = 0;
    return 1;
}

/* Removes the first comparison from *when. 1: read into *out; 0: nothing left; -1: malformed. */
static int next_comparison(const char **when, rule_comparison *out)
{
    const char *text = *when;
    size_t length = bite_text_trim(&text, strlen(text));
    if (length == 0) {
        return 0;
    }
    const char *more = find_text(text, length, " and ");
    size_t size = more == NULL ? length : (size_t)(more - text);
    *when = more == NULL ? text + length : more + 5;
    for (size_t i = 0; i < sizeof relations / sizeof *relations; i++) {
        const char *at = find_text(text, size, relations[i].words);
        if (at != NULL) {
            const char *right = at + strlen(relations[i].words);
            out->relation = relations[i].relation;
            return copy_trimmed(out->left, text, (size_t)(at - text)) &&
                           copy_trimmed(out->right, right, (size_t)(text + size - right))
                       ? 1
                       : -1;
        }
    }
    return -1;
}

static bite_status bad(bite_error *error, const char *name, const char *message, const char *hint)
{
    bite_error_set(error, BITE_BAD_FILE, "%s%s", name, message);
    bite_error_hint(error, "%s", hint);
    return BITE_BAD_FILE;
}

static bite_kind kind_of(const char *name, const bite_field *figures, size_t count)
{
    uint32_t id = 0;
    uint32_t is_limit = 0;
    const bite_input *input = bite_input_find(name);
    const bite_definition *definition = bite_registry_find(name, &id, &is_limit);
    if (input != NULL) {
        return (bite_kind)input->kind;
    }
    if (definition != NULL && !is_limit) {
        return (bite_kind)definition->kind;
    }
    for (size_t i = 0; i < count; i++) {
        if (strcmp(figures[i].name, name) == 0) {
            return (bite_kind)figures[i].kind;
        }
    }
    const char *point = strchr(name, '.');
    if (point != NULL && (strcmp(point, ".demand") == 0 || strcmp(point, ".capacity") == 0)) {
        char limit[PART_MOST];
        memcpy(limit, name, (size_t)(point - name));
        limit[point - name] = 0;
        definition = bite_registry_find(limit, &id, &is_limit);
        return definition == NULL ? BITE_KIND_NUMBER : (bite_kind)definition->kind;
    }
    return BITE_KIND_NUMBER;
}

static bite_status check_comparison(const rule_comparison *comparison, const bite_field *figures,
                                    size_t count, bite_error *error)
{
    if (comparison->relation == IS || comparison->relation == IS_NOT) {
        return bite_caution_rule_word(comparison->left)
                   ? BITE_OK
                   : bad(error, comparison->left, " is not a word of a judged cut",
                         "use grade, family, coolant, machine, tool_material, side, substance, "
                         "blind or pressure");
    }
    if (!bite_caution_rule_number(comparison->left, figures, count)) {
        const char *near = bite_registry_nearest(comparison->left);
        bite_error_set(error, BITE_BAD_FILE, "%s is not a number of a judged cut",
                       comparison->left);
        bite_error_hint(error,
                        near == NULL
                            ? "coolbite list inputs, list values and list limits show the names"
                            : "did you mean %s?",
                        near);
        return BITE_BAD_FILE;
    }
    if (!bite_caution_rule_number(comparison->right, figures, count)) {
        double si = 0.0;
        return bite_quantity_read(comparison->right, kind_of(comparison->left, figures, count), &si,
                                  error) == BITE_OK
                   ? BITE_OK
                   : BITE_BAD_FILE;
    }
    return BITE_OK;
}

static bite_status check_places(const char *text, const bite_field *figures, size_t count,
                                bite_error *error)
{
    for (const char *open = strchr(text, '{'); open != NULL; open = strchr(open + 1, '{')) {
        char name[PART_MOST];
        const char *close = strchr(open, '}');
        if (close == NULL || !copy_trimmed(name, open + 1, (size_t)(close - open) - 1)) {
            return bad(error, "", "a brace in the text is not closed", "write {name}");
        }
        if (!bite_caution_rule_number(name, figures, count)) {
            return bad(error, name, " in braces is not a number of a judged cut",
                       "coolbite list inputs, list values and list limits show the names");
        }
    }
    return BITE_OK;
}

bite_status bite_caution_rule_check(const char *when, const char *text, const bite_field *figures,
                                    size_t count, bite_error *error)
{
    rule_comparison comparison;
    int more = 0;
    while ((more = next_comparison(&when, &comparison)) == 1) {
        bite_status status = check_comparison(&comparison, figures, count, error);
        if (status != BITE_OK) {
            return status;
        }
    }
    if (more < 0) {
        return bad(error, "", "the condition cannot be read",
                   "write NAME above|below|at least|at most NAME or QUANTITY, or WORD is|is not "
                   "VALUE, joined by and");
    }
    return check_places(text, figures, count, error);
}

static int compare_numbers(const rule_comparison *comparison, double left, double right)
{
    switch (comparison->relation) {
    case ABOVE:
        return left > right;
    case BELOW:
        return left < right;
    case AT_LEAST:
        return left >= right;
    default:
        return left <= right;
    }
}

/* A word of the cut, as the rule sees it. */
static const char *word_for(const bite_caution_rule *rule, const bite_case_view *view,
                            const char *name)
{
    if (rule->as_grade != NULL && strcmp(name, "grade") == 0) {
        return rule->as_grade;
    }
    return rule->as_family != NULL && strcmp(name, "family") == 0 ? rule->as_family
                                                                  : view->choice(view->user, name);
}

static void evaluate(const bite_caution_rule *rule, const rule_comparison *comparison,
                     const bite_case_view *view, int *holds)
{
    if (comparison->relation == IS || comparison->relation == IS_NOT) {
        const char *word = word_for(rule, view, comparison->left);
        int same = word != NULL && bite_text_equals(word, comparison->right);
        *holds = comparison->relation == IS ? same : !same;
        return;
    }
    double left = view->number(view->user, comparison->left);
    bite_kind kind = view->kind(view->user, comparison->right);
    double right = (double)NAN;
    if (kind != BITE_KIND_COUNT) {
        right = view->number(view->user, comparison->right);
    } else {
        bite_kind left_kind = view->kind(view->user, comparison->left);
        if (bite_quantity_read(comparison->right,
                               left_kind == BITE_KIND_COUNT ? BITE_KIND_NUMBER : left_kind, &right,
                               NULL) != BITE_OK) {
            right = (double)NAN; /* Not a quantity, so the name of a figure that this grade does not
                                    state; the name was checked when the table was read. */
        }
    }
    *holds = !isnan(left) && !isnan(right) && compare_numbers(comparison, left, right);
}

bite_status bite_caution_rule_applies(const bite_caution_rule *rule, const bite_case_view *view,
                                      int *holds, bite_error *error)
{
    const char *when = rule->when;
    rule_comparison comparison;
    int more = 0;
    int all = 1;
    while (all && (more = next_comparison(&when, &comparison)) == 1) {
        evaluate(rule, &comparison, view, &all);
    }
    if (more < 0) {
        return bad(error, "", "the condition of a caution cannot be read", "correct its when");
    }
    *holds = all;
    return BITE_OK;
}
