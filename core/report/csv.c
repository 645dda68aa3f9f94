/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines of CSV by RFC 4180, whose texts no spreadsheet takes for formulas. */
#include "core/report/csv.h"
#include <string.h>

#define DIGITS "0123456789"
#define LETTERS "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"

/* Where a number at the start of the text ends; the text itself if there is none. */
static const char *number_end(const char *text)
{
    size_t whole = strspn(text, DIGITS);
    const char *at = text + whole;
    size_t decimals = *at == '.' ? strspn(at + 1, DIGITS) : 0;
    return whole + decimals == 0 ? text : at + (*at == '.') + decimals;
}

/* Behind a number only letters and digits may follow, as those of an exponent or a unit do: every
 * operator, call or reference of a formula needs another sign of ASCII. The hyphen and the plus
 * sign of an exponent are accepted in their one place. */
static bool is_signed_number(const char *text)
{
    const char *at = number_end(text + 1);
    if (at == text + 1) {
        return false;
    }
    if ((*at == 'e' || *at == 'E') && (at[1] == '-' || at[1] == '+')) {
        at += 2;
        at += strspn(at, DIGITS);
    }
    at += *at == ' ';
    while (*at != 0 && ((unsigned char)*at > 0x7F || strchr(LETTERS DIGITS "%", *at) != NULL)) {
        at++;
    }
    return *at == 0;
}

bool bite_csv_is_formula(const char *text)
{
    if (*text == '+' || *text == '-') {
        return !is_signed_number(text);
    }
    return *text == '=' || *text == '@' || (*text > 0 && *text < ' ');
}

void bite_csv_field(bite_page *page, int first, const char *text)
{
    const char *mark = bite_csv_is_formula(text) ? "'" : "";
    bite_page_text(page, first ? "" : ",");
    if (strpbrk(text, ",\"\r\n") == NULL) {
        bite_page_text(page, mark);
        bite_page_text(page, text);
        return;
    }
    bite_page_text(page, "\"");
    bite_page_text(page, mark);
    for (const char *at = text; *at != 0;) {
        size_t length = strcspn(at, "\"");
        bite_writer_part(&page->writer, at, length);
        at += length;
        if (*at == '"') {
            bite_page_text(page, "\"\"");
            at++;
        }
    }
    bite_page_text(page, "\"");
}

void bite_csv_end(bite_page *page)
{
    bite_page_text(page, "\r\n");
}
