/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a writer has written: its text, also on one line, and as JSON. */
#include "tests/report/report_output.h"
#include "tests/support/support.h"
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int report_output_add(void *user, const char *piece, size_t size)
{
    report_output *to = user;
    to->text = realloc(to->text, to->size + size + 1);
    ck_assert_ptr_nonnull(to->text);
    memcpy(to->text + to->size, piece, size);
    to->size += size;
    to->text[to->size] = 0;
    return 0;
}

void report_output_free(report_output *output)
{
    free(output->text);
    free(output->plain);
    memset(output, 0, sizeof *output);
}

static const char *on_one_line(report_output *output)
{
    ck_assert_ptr_nonnull(output->text);
    output->plain = realloc(output->plain, output->size + 1);
    ck_assert_ptr_nonnull(output->plain);
    size_t used = 0;
    for (const char *at = output->text; *at != 0; at++) {
        int blank = *at == ' ' || *at == '\n';
        if (!blank) {
            output->plain[used++] = *at;
        } else if (used > 0 && output->plain[used - 1] != ' ') {
            output->plain[used++] = ' ';
        }
    }
    output->plain[used] = 0;
    return output->plain;
}

void report_output_has(report_output *output, const char *words)
{
    ck_assert_msg(strstr(on_one_line(output), words) != NULL, "\"%s\" is missing: %.2000s", words,
                  output->plain);
}

void report_output_lacks(report_output *output, const char *words)
{
    ck_assert_msg(strstr(on_one_line(output), words) == NULL, "\"%s\": %.2000s", words,
                  output->plain);
}

json_t *report_output_json(const report_output *output)
{
    json_error_t where;
    json_t *root = json_loadb(output->text, output->size, JSON_REJECT_DUPLICATES, &where);
    ck_assert_msg(root != NULL, "%d: %s", where.line, where.text);
    return root;
}

const json_t *report_member(const json_t *root, const char *path)
{
    char key[64];
    for (const char *at = path; *at != 0; at += strspn(at, ".")) {
        size_t size = strcspn(at, ".");
        ck_assert_uint_lt(size, sizeof key);
        memcpy(key, at, size);
        key[size] = 0;
        root = isdigit((unsigned char)key[0]) ? json_array_get(root, strtoul(key, NULL, 10))
                                              : json_object_get(root, key);
        ck_assert_msg(root != NULL, "%s: there is no %s", path, key);
        at += size;
    }
    return root;
}

double report_number(const json_t *root, const char *path)
{
    const json_t *number = report_member(root, path);
    ck_assert_msg(json_is_number(number), "%s is no number", path);
    return json_number_value(number);
}

const char *report_text(const json_t *root, const char *path)
{
    const json_t *string = report_member(root, path);
    ck_assert_msg(json_is_string(string), "%s is no text", path);
    return json_string_value(string);
}

bite_style report_style(uint32_t format, uint32_t units)
{
    bite_style style;
    bite_style_init(&style);
    style.format = format;
    style.units = units;
    style.columns = 400;
    return style;
}
