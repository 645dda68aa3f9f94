/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Conditions: tokens to comparisons, their names and units checked, and their truth. */
#include "core/library/condition.h"
#include "core/base/error.h"
#include "core/base/nearest_name.h"
#include "core/base/text.h"
#include "core/library/judged_name.h"
#include "core/names/registry.h"
#include "core/units/dimension.h"
#include "core/units/parse_quantity.h"
#include "core/units/unit_table.h"
#include <math.h>
#include <string.h>

/* A word of the text; text NULL: behind the last one. */
typedef struct token {
    const char *text;
    size_t length;
} token;

typedef struct factor {
    const char *name; /* NULL: a constant */
    double constant;
    bool divides;
} factor;

typedef struct product {
    size_t first; /* of the condition's factors */
    size_t count;
} product;

enum relation { ABOVE, BELOW, AT_LEAST, AT_MOST, IS, IS_NOT };

typedef struct comparison {
    enum relation relation;
    bool starts; /* joined by `or` to those before it, or the first one */
    product left;
    product right;
    const char *word; /* of IS and IS_NOT */
    size_t value;     /* the first of the condition's values */
    size_t value_count;
} comparison;

struct bite_condition {
    comparison *comparisons;
    size_t count;
    factor *factors;
    size_t factor_count;
    const char **values;
    size_t value_count;
};

typedef struct reader {
    bite_arena *arena;
    const char *text;
    const token *tokens; /* ended by one without text */
    size_t at;
    const bite_field *figures;
    size_t figure_count;
    bite_condition *condition;
    bite_error *error;
} reader;

/* ---- errors ---- */

static bite_status no_memory(bite_error *error)
{
    return bite_error_set(error, BITE_NO_MEMORY, "no memory for a condition");
}

/* Adds the place of a token to the error that was just set. */
static bite_status at_token(const reader *of, const token *place)
{
    const char *where = place->text == NULL ? of->text + strlen(of->text) : place->text;
    of->error->status = BITE_BAD_FILE;
    of->error->column = (uint32_t)(where - of->text) + 1;
    return BITE_BAD_FILE;
}

static bite_status refuse(const reader *of, const token *place, const char *message,
                          const char *hint)
{
    bite_error_set(of->error, BITE_BAD_FILE, "%s", message);
    bite_error_hint(of->error, "%s", hint);
    return at_token(of, place);
}

/* ---- tokens ---- */

static bool is_token(const token *word, const char *text)
{
    return word->text != NULL && bite_text_equals_part(word->text, word->length, text);
}

static token *split(bite_arena *arena, const char *text, size_t *count)
{
    token *tokens = bite_arena_alloc(arena, strlen(text) / 2 + 2, sizeof *tokens);
    *count = 0;
    while (tokens != NULL && *text != 0) {
        size_t length = strcspn(text, " ");
        if (length > 0) {
            tokens[*count].text = text;
            tokens[(*count)++].length = length;
        }
        text += length;
        text += strspn(text, " ");
    }
    return tokens;
}

static const token *peek(const reader *of)
{
    return &of->tokens[of->at];
}

static bool accept(reader *of, const char *word)
{
    bool found = is_token(peek(of), word);
    of->at += found;
    return found;
}

/* What another language would write, and what is written here. */
static const char *misspelt(const token *word)
{
    static const struct {
        const char *text;
        const char *hint;
    } signs[] = {
        {"=", "write is: coolant is flood"},
        {"==", "write is: coolant is flood"},
        {"!=", "write is not"},
        {">", "write above"},
        {"<", "write below"},
        {">=", "write at least"},
        {"<=", "write at most"},
        {"&&", "write and"},
        {"&", "write and"},
        {"||", "write or"},
        {"|", "write or"},
        {"not", "write is not, behind the word"},
        {"equals", "write is: coolant is flood"},
    };
    for (size_t i = 0; word->text != NULL && i < sizeof signs / sizeof *signs; i++) {
        if (is_token(word, signs[i].text)) {
            return signs[i].hint;
        }
    }
    if (word->text != NULL && memchr(word->text, '(', word->length) != NULL) {
        return "there are no brackets: `and` binds tighter than `or`";
    }
    return NULL;
}

/* The relation that begins at a token; *size: its tokens, 0 if there is none. */
static enum relation relation_at(const token *word, size_t *size)
{
    static const struct {
        const char *first;
        const char *second; /* NULL: a single word */
        enum relation relation;
    } relations[] = {
        {"above", NULL, ABOVE},  {"below", NULL, BELOW}, {"at", "least", AT_LEAST},
        {"at", "most", AT_MOST}, {"is", "not", IS_NOT},  {"is", NULL, IS},
    };
    *size = 0;
    for (size_t i = 0; word->text != NULL && i < sizeof relations / sizeof *relations; i++) {
        if (is_token(word, relations[i].first) &&
            (relations[i].second == NULL || is_token(word + 1, relations[i].second))) {
            *size = relations[i].second == NULL ? 1 : 2;
            return relations[i].relation;
        }
    }
    return ABOVE;
}

static bool is_end(const token *word)
{
    size_t size = 0;
    (void)relation_at(word, &size);
    return word->text == NULL || size > 0 || is_token(word, "and") || is_token(word, "or");
}

/* Whether a token ends a factor. */
static bool is_stop(const token *word)
{
    return is_end(word) || is_token(word, "*") || is_token(word, "/");
}

/* The text from one token up to another, in the arena. NULL: no memory. */
static char *text_between(const reader *of, size_t first, size_t end)
{
    const token *from = &of->tokens[first];
    const token *to = &of->tokens[end - 1];
    return bite_arena_text(of->arena, from->text, (size_t)(to->text + to->length - from->text));
}

/* ---- products ---- */

/* What a side of a comparison is. */
typedef struct side {
    product product;
    bite_dimension dimension;
    bite_kind kind; /* of a single name or quantity */
    bool single;
    bool constant; /* a single quantity, not read yet: its kind is that of the other side */
    size_t token;
    size_t end;
} side;

static bite_status refuse_factor(const reader *of, const token *place, const char *text)
{
    const char *near = bite_registry_nearest(text);
    const char *sign = misspelt(place);
    sign = sign == NULL && place->text != NULL ? misspelt(place + 1) : sign;
    bite_error_set(of->error, BITE_BAD_FILE,
                   "%.60s is neither a number of a judged cut nor a quantity", text);
    if (sign != NULL) {
        bite_error_hint(of->error, "%s", sign);
    } else if (near != NULL) {
        bite_error_hint(of->error, "did you mean %s?", near);
    } else if (strchr(text, ' ') != NULL) {
        bite_error_hint(of->error, "write NAME above|below|at least|at most NAME or QUANTITY");
    } else {
        bite_error_hint(of->error,
                        "coolbite list inputs, list values and list limits show the names");
    }
    return at_token(of, place);
}

/* A temperature beside a product is a difference, which only K says. */
static bite_status check_rise(const reader *of, const token *place, const char *text,
                              bite_kind kind)
{
    return kind == BITE_KIND_RISE && bite_text_lower(text[strlen(text) - 1]) != 'k'
               ? refuse(of, place, "a temperature in a product is a difference", "write it in K")
               : BITE_OK;
}

static bool begins_number(const char *text)
{
    text += *text == '-' || *text == '+';
    text += *text == '.';
    return bite_text_is_digit(*text);
}

/* A quantity of a product, of whatever kind its unit is. */
static bite_status read_constant(const reader *of, const token *place, const char *text,
                                 double *constant, bite_kind *kind)
{
    bite_kind kinds[BITE_KIND_COUNT];
    size_t count = 0;
    size_t which = 0;
    size_t length = strlen(text);
    for (int i = 0; i < BITE_KIND_COUNT; i++) {
        if (i != BITE_KIND_TEMPERATURE) {
            kinds[count++] = (bite_kind)i;
        }
    }
    bite_status status =
        bite_quantity_read_kinds(text, length, kinds, count, constant, &which, of->error);
    if (status != BITE_OK) {
        return at_token(of, place);
    }
    *kind = kinds[which];
    return check_rise(of, place, text, *kind);
}

static bite_status add_factor(reader *of, const factor *fresh)
{
    of->condition->factors[of->condition->factor_count++] = *fresh;
    return BITE_OK;
}

/* One factor. A quantity that is a whole side is left to read_side_constant. */
static bite_status read_factor(reader *of, side *read, bool divides)
{
    size_t first = of->at;
    factor fresh = {NULL, 1.0, divides};
    while (!is_stop(peek(of))) {
        of->at++;
    }
    if (of->at == first) {
        const char *sign = misspelt(peek(of));
        return refuse(of, peek(of), "a name or a quantity is missing here",
                      sign == NULL ? "for example depth above 2mm" : sign);
    }
    char *text = text_between(of, first, of->at);
    if (text == NULL) {
        return no_memory(of->error);
    }
    bool alone = read->product.count == 0 && is_end(peek(of));
    if (bite_judged_number(text, of->figures, of->figure_count, &read->kind)) {
        fresh.name = text;
        read->constant = false;
    } else if (!begins_number(text)) {
        return refuse_factor(of, &of->tokens[first], text);
    } else if (alone) {
        read->constant = true;
        read->single = true;
        return BITE_OK;
    } else {
        bite_status status =
            read_constant(of, &of->tokens[first], text, &fresh.constant, &read->kind);
        if (status != BITE_OK) {
            return status;
        }
    }
    read->single = alone;
    read->dimension =
        bite_dimension_times(read->dimension, bite_dimension_of(read->kind), divides ? -1 : 1);
    read->product.count++;
    return add_factor(of, &fresh);
}

static bite_status read_side(reader *of, side *read)
{
    static const side empty;
    *read = empty;
    read->token = of->at;
    read->product.first = of->condition->factor_count;
    bite_status status = read_factor(of, read, false);
    while (status == BITE_OK && (is_token(peek(of), "*") || is_token(peek(of), "/"))) {
        bool divides = is_token(peek(of), "/");
        of->at++;
        status = read_factor(of, read, divides);
    }
    read->end = of->at;
    return status;
}

/* A side that is one quantity has the kind of the other side, or any kind of its dimension. */
static bite_status read_side_constant(reader *of, side *read, const side *other)
{
    const token *place = &of->tokens[read->token];
    char *text = text_between(of, read->token, read->end);
    bite_kind kinds[BITE_KIND_COUNT];
    size_t count = 0;
    size_t which = 0;
    factor fresh = {NULL, 0.0, false};
    if (text == NULL) {
        return no_memory(of->error);
    }
    for (int i = 0; i < BITE_KIND_COUNT; i++) {
        bool fits =
            i == (int)other->kind || (other->kind == BITE_KIND_NUMBER && i == BITE_KIND_FRACTION);
        if (!other->single) {
            fits = i != BITE_KIND_TEMPERATURE &&
                   bite_dimension_equal(bite_dimension_of((bite_kind)i), other->dimension);
        }
        if (fits) {
            kinds[count++] = (bite_kind)i;
        }
    }
    if (count == 0) { /* no quantity has this unit: it can only be a product, too */
        return refuse(of, place, "no single quantity has the unit of the other side",
                      "write it as a product: 2mm2 * 10mm/min");
    }
    if (bite_quantity_read_kinds(text, strlen(text), kinds, count, &fresh.constant, &which,
                                 of->error) != BITE_OK) {
        return at_token(of, place);
    }
    read->kind = kinds[which];
    read->dimension = bite_dimension_of(read->kind);
    read->product.first = of->condition->factor_count;
    read->product.count = 1;
    bite_status status = other->single ? BITE_OK : check_rise(of, place, text, read->kind);
    return status == BITE_OK ? add_factor(of, &fresh) : status;
}

/* Both sides must be of one kind of thing; a temperature is not a difference of temperatures. */
static bite_status check_sides(const reader *of, const side *left, const side *right)
{
    bool mixed = left->single && right->single &&
                 (left->kind == BITE_KIND_TEMPERATURE) != (right->kind == BITE_KIND_TEMPERATURE);
    if (bite_dimension_equal(left->dimension, right->dimension) && !mixed) {
        return BITE_OK;
    }
    const token *place = &of->tokens[right->token];
    if (left->single && right->single) {
        bite_error_set(of->error, BITE_BAD_FILE, "%s is compared with %s",
                       bite_unit_noun(left->kind), bite_unit_noun(right->kind));
    } else {
        bite_error_set(of->error, BITE_BAD_FILE, "the two sides have different units");
    }
    bite_error_hint(of->error, "coolbite explain NAME says what a name is measured in");
    return at_token(of, place);
}

static bite_status read_numbers(reader *of, comparison *fresh, side *left, size_t relation_size)
{
    side right;
    of->at += relation_size;
    bite_status status = read_side(of, &right);
    if (status == BITE_OK && left->constant && right.constant) {
        return refuse(of, &of->tokens[left->token], "no side of the comparison names a number",
                      "for example depth above 2mm");
    }
    if (status == BITE_OK && left->constant) {
        status = read_side_constant(of, left, &right);
    }
    if (status == BITE_OK && right.constant) {
        status = read_side_constant(of, &right, left);
    }
    status = status == BITE_OK ? check_sides(of, left, &right) : status;
    fresh->left = left->product;
    fresh->right = right.product;
    return status;
}

/* ---- words ---- */

static const char *word_at(size_t at, const void *input)
{
    return bite_input_word(input, (uint32_t)at);
}

static bite_status check_value(const reader *of, const bite_input *input, const char *value)
{
    for (uint32_t i = 0; input != NULL && i < input->words; i++) {
        if (bite_text_equals(bite_input_word(input, i), value)) {
            return BITE_OK;
        }
    }
    if (input == NULL) {
        return BITE_OK;
    }
    const char *near = bite_text_nearest(value, input->words, word_at, input);
    bite_error_set(of->error, BITE_BAD_FILE, "%.60s is not a word of %s", value, input->name);
    bite_error_hint(of->error,
                    near == NULL ? "coolbite explain %s has its words" : "did you mean %s?",
                    near == NULL ? input->name : near);
    return at_token(of, peek(of));
}

/* Whether what follows `or` is one more value: a word, and then the end of the comparison. */
static bool is_value(const token *word)
{
    size_t size = 0;
    (void)relation_at(word + 1, &size);
    return !is_end(word) && (word[1].text == NULL || (is_end(&word[1]) && size == 0));
}

static bite_status read_words(reader *of, comparison *fresh, const side *left, size_t relation_size)
{
    const bite_input *input = NULL;
    bite_kind kind;
    const token *place = &of->tokens[left->token];
    char *word = text_between(of, left->token, left->end);
    if (word == NULL) {
        return no_memory(of->error);
    }
    if (!bite_judged_word(word, &input)) {
        bite_error_set(of->error, BITE_BAD_FILE, "%.60s is not a word of a judged cut", word);
        bite_error_hint(of->error, bite_judged_number(word, of->figures, of->figure_count, &kind)
                                       ? "compare a number by above, below, at least or at most"
                                       : "use grade, family, machine, or an input that has words, "
                                         "such as coolant");
        return at_token(of, place);
    }
    fresh->word = word;
    fresh->value = of->condition->value_count;
    of->at += relation_size;
    do {
        if (!is_value(peek(of))) {
            return refuse(of, peek(of), "one value is expected here",
                          "for example coolant is flood or mist");
        }
        char *value = text_between(of, of->at, of->at + 1);
        bite_status status = value == NULL ? no_memory(of->error) : check_value(of, input, value);
        if (status != BITE_OK) {
            return status;
        }
        of->condition->values[of->condition->value_count++] = value;
        fresh->value_count++;
        of->at++;
    } while (is_token(peek(of), "or") && is_value(peek(of) + 1) && accept(of, "or"));
    return BITE_OK;
}

/* ---- comparisons ---- */

/* The left side of a comparison by `is` is a word, which is no number. */
static bool compares_words(const reader *of)
{
    size_t at = of->at;
    size_t size = 0;
    while (!is_end(&of->tokens[at])) {
        at++;
    }
    enum relation relation = relation_at(&of->tokens[at], &size);
    return size > 0 && (relation == IS || relation == IS_NOT);
}

static bite_status read_comparison(reader *of, bool starts)
{
    comparison fresh = {0};
    side left = {0};
    size_t size = 0;
    bite_status status = BITE_OK;
    fresh.starts = starts;
    if (compares_words(of)) {
        left.token = of->at;
        while (!is_end(peek(of))) {
            of->at++;
        }
        left.end = of->at;
        if (left.end == left.token) {
            return refuse(of, peek(of), "a word is missing here", "for example coolant is flood");
        }
    } else {
        status = read_side(of, &left);
    }
    fresh.relation = relation_at(peek(of), &size);
    if (status == BITE_OK && size == 0) {
        return refuse(of, &of->tokens[left.token], "the condition cannot be read from here on",
                      "write NAME above|below|at least|at most NAME or QUANTITY, or "
                      "WORD is|is not VALUE, joined by and or or");
    }
    if (status == BITE_OK) {
        status = fresh.relation == IS || fresh.relation == IS_NOT
                     ? read_words(of, &fresh, &left, size)
                     : read_numbers(of, &fresh, &left, size);
    }
    of->condition->comparisons[of->condition->count++] = fresh;
    return status;
}

bite_status bite_condition_read(bite_arena *arena, const char *text, const bite_field *figures,
                                size_t count, const bite_condition **out, bite_error *error)
{
    bite_error own = BITE_ERROR_INIT;
    size_t tokens = 0;
    bite_condition *condition = bite_arena_alloc(arena, 1, sizeof *condition);
    reader of = {arena, text,      split(arena, text, &tokens), 0, figures,
                 count, condition, error == NULL ? &own : error};
    if (condition == NULL || of.tokens == NULL) {
        return no_memory(error);
    }
    /* each takes a token at least */
    condition->comparisons = bite_arena_alloc(arena, tokens + 1, sizeof *condition->comparisons);
    condition->factors = bite_arena_alloc(arena, tokens + 1, sizeof *condition->factors);
    condition->values = bite_arena_alloc(arena, tokens + 1, sizeof *condition->values);
    if (condition->comparisons == NULL || condition->factors == NULL || condition->values == NULL) {
        return no_memory(error);
    }
    bite_status status = tokens == 0 ? BITE_OK : read_comparison(&of, true);
    while (status == BITE_OK && peek(&of)->text != NULL) {
        bool starts = is_token(peek(&of), "or");
        of.at++; /* a comparison ends at `and`, at `or` or at the end, else it was refused */
        status = read_comparison(&of, starts);
    }
    *out = condition;
    return status;
}

/* ---- truth ---- */

static double product_value(const bite_condition *condition, const product *of,
                            const bite_case_view *view)
{
    double value = 1.0;
    for (size_t i = 0; i < of->count; i++) {
        const factor *at = &condition->factors[of->first + i];
        double number = at->name == NULL ? at->constant : view->number(view->user, at->name);
        value = at->divides ? value / number : value * number;
    }
    return value;
}

static bool compare(const bite_condition *condition, const comparison *of,
                    const bite_case_view *view)
{
    double left = product_value(condition, &of->left, view);
    double right = product_value(condition, &of->right, view);
    switch (of->relation) { /* each is false of a number that is not known */
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

static bool has_value(const bite_condition *condition, const comparison *of, const char *word)
{
    for (size_t i = 0; i < of->value_count; i++) {
        if (bite_text_equals(word, condition->values[of->value + i])) {
            return true;
        }
    }
    return false;
}

static bool is_true(const bite_condition *condition, const comparison *of,
                    const bite_case_view *view, const char *grade, const char *family)
{
    if (of->relation != IS && of->relation != IS_NOT) {
        return compare(condition, of, view);
    }
    const char *word = grade != NULL && strcmp(of->word, "grade") == 0     ? grade
                       : family != NULL && strcmp(of->word, "family") == 0 ? family
                                                                           : NULL;
    word = word == NULL ? view->choice(view->user, of->word) : word;
    return (word != NULL && has_value(condition, of, word)) == (of->relation == IS);
}

bool bite_condition_holds(const bite_condition *condition, const bite_case_view *view,
                          const char *grade, const char *family)
{
    bool all = condition->count == 0;
    for (size_t i = 0; i < condition->count; i++) {
        const comparison *at = &condition->comparisons[i];
        if (at->starts && all) {
            return true;
        }
        all = (at->starts || all) && is_true(condition, at, view, grade, family);
    }
    return all;
}
