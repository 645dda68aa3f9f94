/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Complaints and exit status: one line on stderr. */
#include "bindings/cli/cli.h"
#include <stdarg.h>
#include <string.h>

#define COMPLAINT_MOST 4608 /* a path, and what is wrong with it */

int exit_status_of(bite_status status)
{
    switch (status) {
    case BITE_OK:
        return EXIT_CLEAR;
    case BITE_BAD_QUANTITY:
    case BITE_OUT_OF_RANGE:
    case BITE_MISSING:
    case BITE_NO_ANSWER:
        return EXIT_USAGE;
    case BITE_UNKNOWN_NAME:
    case BITE_NOT_FOUND:
        return EXIT_NO_INPUT;
    case BITE_BAD_FILE:
        return EXIT_CONTENTS;
    case BITE_UNSAFE:
    case BITE_BAD_PLUGIN:
        return EXIT_REFUSED;
    case BITE_CANNOT_WRITE:
        return EXIT_CANNOT_WRITE;
    case BITE_IO:
    case BITE_BUSY:
        return EXIT_IO;
    default:
        return EXIT_FAULT;
    }
}

/* What a file, a plugin or a user wrote must not work on a terminal. */
static void put_plain(const char *text)
{
    char shown[4 * COMPLAINT_MOST + 1]; /* of one byte at most four are made */
    (void)bite_text_escape(text, shown, sizeof shown);
    fputs(shown, stderr);
}

int report_error(const bite_error *error)
{
    fputs("coolbite: ", stderr);
    if (error->file[0] != 0) {
        put_plain(error->file);
        if (error->line > 0) {
            fprintf(stderr, ":%u", error->line);
        }
        if (error->column > 0) {
            fprintf(stderr, ":%u", error->column);
        }
        fputs(": ", stderr);
    }
    if (error->key[0] != 0) {
        put_plain(error->key);
        fputs(": ", stderr);
    }
    put_plain(error->message[0] != 0 ? error->message
                                     : bite_status_text((bite_status)error->status));
    if (error->hint[0] != 0) {
        fputs(" (", stderr);
        put_plain(error->hint);
        fputs(")", stderr);
    }
    if (error->faults > 1) {
        fprintf(stderr, " [the first of %u faults]", error->faults);
    }
    fputc('\n', stderr);
    return error->status == BITE_OK ? EXIT_FAULT : exit_status_of((bite_status)error->status);
}

int complain_memory(void)
{
    fputs("coolbite: out of memory\n", stderr);
    return EXIT_FAULT;
}

int complain_unwritten(const bite_error *error)
{
    return error->status == BITE_CANNOT_WRITE ? complain_memory() : report_error(error);
}

__attribute__((format(printf, 1, 0))) static void put_complaint(const char *format, va_list list)
{
    char text[COMPLAINT_MOST];
    (void)vsnprintf(text, sizeof text, format, list);
    fputs("coolbite: ", stderr);
    put_plain(text);
    fputc('\n', stderr);
}

int report_usage_error(const char *format, ...)
{
    va_list list;
    va_start(list, format);
    put_complaint(format, list);
    va_end(list);
    return EXIT_USAGE;
}

int report_failure(int status, const char *format, ...)
{
    va_list list;
    va_start(list, format);
    put_complaint(format, list);
    va_end(list);
    return status;
}
