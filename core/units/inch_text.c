/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Metric quantities in prose, converted for a shop that measures in inches. */
#include "core/units/inch_text.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#define GROWTH 4 /* largest growth of a text: "1 um" becomes "under 0.0001 in" */

/* A unit that begins with the name of another comes before it. */
static const struct {
    const char *metric;
    const char *inch;
    double scale;
    double offset;
    int digits; /* significant; 0: whole numbers */
} units[] = {
    {"mm/min", "in/min", 1.0 / 25.4, 0.0, 2}, {"m/min", "ft/min", 1.0 / 0.3048, 0.0, 2},
    {"mm", "in", 1.0 / 25.4, 0.0, 2},         {"um", "in", 1e-3 / 25.4, 0.0, 2},
    {"degC", "degF", 1.8, 32.0, 0},
};

/* A quantity or a range such as "2 to 5 mm". */
typedef struct quantity_phrase {
    double numbers[2];
    const char *conjunction; /* " to "; NULL: one number */
    size_t unit;             /* index in units */
    size_t length;           /* bytes of the phrase */
} quantity_phrase;

/* Whether c continues a word or a number, so that no quantity begins or ends here. */
static bool is_word(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || bite_text_is_digit(c) || c == '_' ||
           c == '.' || c == '/';
}

/* Reads a unit at the end of a word; the point of a sentence may follow. */
static bool read_unit(const char *text, size_t *unit)
{
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        size_t length = strlen(units[i].metric);
        char after = strncmp(text, units[i].metric, length) == 0 ? text[length] : 'x';
        if (!is_word(after) || (after == '.' && !is_word(text[length + 1]))) {
            *unit = i;
            return true;
        }
    }
    return false;
}

static bool read_phrase(const char *text, quantity_phrase *phrase)
{
    static const char *const conjunctions[] = {" to ", " by ", " and "};
    size_t used = 0;
    size_t length = strlen(text);
    phrase->conjunction = NULL;
    if (!bite_number_read(text, length, &phrase->numbers[0], &used)) {
        return false;
    }
    phrase->length = used;
    for (size_t i = 0;
         i < sizeof conjunctions / sizeof *conjunctions && phrase->conjunction == NULL; i++) {
        size_t skip = strlen(conjunctions[i]);
        const char *second = text + phrase->length + skip;
        if (strncmp(text + phrase->length, conjunctions[i], skip) == 0 &&
            bite_text_is_digit(*second) &&
            bite_number_read(second, strlen(second), &phrase->numbers[1], &used)) {
            phrase->conjunction = conjunctions[i];
            phrase->length += skip + used;
        }
    }
    if (text[phrase->length] != ' ' || !read_unit(text + phrase->length + 1, &phrase->unit)) {
        return false;
    }
    phrase->length++;
    phrase->length += strlen(units[phrase->unit].metric);
    return true;
}

/* A control shows no more than ten-thousandths of an inch. */
static void write_inches(double number, int digits, char *to, size_t size)
{
    double steps = round(number * 1e4);
    if (steps >= 10.0) {
        (void)bite_number_write(number, digits, to, size);
    } else if (steps > 0.0 || number == 0.0) {
        (void)bite_number_write(steps / 1e4, digits, to, size);
    } else {
        (void)snprintf(to, size, "under 0.0001");
    }
}

static void write_number(const quantity_phrase *phrase, int which, char *to, size_t size)
{
    double number = units[phrase->unit].scale * phrase->numbers[which] + units[phrase->unit].offset;
    if (units[phrase->unit].digits == 0) {
        (void)bite_number_write(round(number), 6, to, size);
    } else if (strcmp(units[phrase->unit].inch, "in") == 0) {
        write_inches(number, units[phrase->unit].digits, to, size);
    } else {
        (void)bite_number_write(number, units[phrase->unit].digits, to, size);
    }
}

static size_t write_phrase(const quantity_phrase *phrase, char *to, size_t size)
{
    char first[40];
    char second[40] = "";
    write_number(phrase, 0, first, sizeof first);
    if (phrase->conjunction != NULL) {
        write_number(phrase, 1, second, sizeof second);
    }
    int length = snprintf(to, size, "%s%s%s %s", first,
                          phrase->conjunction == NULL ? "" : phrase->conjunction, second,
                          units[phrase->unit].inch);
    return length < 0 || (size_t)length >= size ? 0 : (size_t)length;
}

const char *bite_text_inches(bite_arena *arena, const char *text)
{
    size_t capacity = GROWTH * strlen(text) + 120;
    char *out = NULL;
    size_t used = 0;
    const char *from = text;
    for (const char *at = text; *at != 0;) {
        quantity_phrase found;
        bool starts =
            bite_text_is_digit(*at) && (at == text || (!is_word(at[-1]) && at[-1] != '-'));
        if (!starts || !read_phrase(at, &found)) {
            at++;
            continue;
        }
        out = out == NULL ? bite_arena_alloc(arena, capacity, 1) : out;
        if (out == NULL) {
            return NULL;
        }
        memcpy(out + used, from, (size_t)(at - from));
        used += (size_t)(at - from);
        used += write_phrase(&found, out + used, capacity - used);
        at += found.length;
        from = at;
    }
    if (out == NULL) {
        return text;
    }
    memcpy(out + used, from, strlen(from) + 1);
    return out;
}
