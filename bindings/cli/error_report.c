/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Error messages: one line on standard error that says what, where and what to do. */
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define MESSAGE_MAX 4608 /* bytes: a path and what is wrong with it */
#define PIECE_MAX 512

/* Bytes of a text that are shown at once: up to a byte that begins a character of UTF-8, if one of
 * the last three does, so that no character is split. */
static size_t piece_of(const char *text)
{
    size_t length = strnlen(text, PIECE_MAX + 1);
    if (length <= PIECE_MAX) {
        return length;
    }
    for (size_t end = PIECE_MAX; end > PIECE_MAX - 4; end--) {
        if (((unsigned char)text[end] & 0xC0) != 0x80) {
            return end;
        }
    }
    return PIECE_MAX;
}

/* Escapes text of a file, a plugin or a user, so that it cannot control the terminal. In pieces,
 * which need little of the stack and no other memory, as there may be none. */
static void put_escaped(const char *text)
{
    char piece[PIECE_MAX + 1];
    char shown[4 * PIECE_MAX + 1]; /* one byte becomes at most four */
    while (*text != 0) {
        size_t length = piece_of(text);
        memcpy(piece, text, length);
        piece[length] = 0;
        (void)bite_text_escape(piece, shown, sizeof shown);
        fputs(shown, stderr);
        text += length;
    }
}

int report_error(const bite_error *error)
{
    fputs("coolbite: ", stderr);
    if (error->file[0] != 0) {
        put_escaped(error->file);
        if (error->line > 0) {
            fprintf(stderr, ":%u", error->line);
        }
        if (error->column > 0) {
            fprintf(stderr, ":%u", error->column);
        }
        fputs(": ", stderr);
    }
    if (error->key[0] != 0) {
        put_escaped(error->key);
        fputs(": ", stderr);
    }
    put_escaped(error->message[0] != 0 ? error->message
                                       : bite_status_text((bite_status)error->status));
    if (error->hint[0] != 0) {
        fputs(" (", stderr);
        put_escaped(error->hint);
        fputs(")", stderr);
    }
    if (error->faults > 1) {
        fprintf(stderr, " [the first of %u faults]", error->faults);
    }
    fputc('\n', stderr);
    return error->status == BITE_OK ? EXIT_FAULT : exit_status_of((bite_status)error->status);
}

int report_out_of_memory(void)
{
    fputs("coolbite: out of memory\n", stderr);
    return EXIT_FAULT;
}

int report_write_error(const bite_error *error)
{
    return error->status == BITE_CANNOT_WRITE ? report_out_of_memory() : report_error(error);
}

__attribute__((format(printf, 1, 0))) static void put_message(const char *format, va_list list)
{
    char text[MESSAGE_MAX];
    (void)vsnprintf(text, sizeof text, format, list);
    fputs("coolbite: ", stderr);
    put_escaped(text);
    fputc('\n', stderr);
}

int report_usage_error(const char *format, ...)
{
    va_list list;
    va_start(list, format);
    put_message(format, list);
    va_end(list);
    return EXIT_USAGE;
}

int report_failure(int status, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    put_message(format, list);
    va_end(list);
    return status;
}
