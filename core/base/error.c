/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Filling the caller's bite_error, and the names of every status. */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "core/base/display_text.h"
#include "core/base/error.h"
#include "core/base/struct_size.h"
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static const struct {
    const char *name;
    const char *text;
} statuses[] = {
    [BITE_OK] = {"BITE_OK", "done"},
    [BITE_NO_MEMORY] = {"BITE_NO_MEMORY", "no memory"},
    [BITE_BAD_ARGUMENT] = {"BITE_BAD_ARGUMENT", "an argument of the caller is wrong"},
    [BITE_BAD_QUANTITY] = {"BITE_BAD_QUANTITY", "not a quantity of the expected kind"},
    [BITE_OUT_OF_RANGE] = {"BITE_OUT_OF_RANGE", "a number outside anything a shop runs"},
    [BITE_MISSING] = {"BITE_MISSING", "an input is missing"},
    [BITE_UNKNOWN_NAME] = {"BITE_UNKNOWN_NAME", "unknown name"},
    [BITE_NOT_FOUND] = {"BITE_NOT_FOUND", "no such file or folder"},
    [BITE_BAD_FILE] = {"BITE_BAD_FILE", "a file breaks the rules of its format"},
    [BITE_UNSAFE] = {"BITE_UNSAFE",
                     "a plugin or a table that another user could have placed there"},
    [BITE_BAD_PLUGIN] = {"BITE_BAD_PLUGIN", "a plugin cannot be used"},
    [BITE_CANNOT_WRITE] = {"BITE_CANNOT_WRITE", "the target cannot be written and is unchanged"},
    [BITE_IO] = {"BITE_IO", "reading or writing failed partway"},
    [BITE_BUSY] = {"BITE_BUSY", "another program is using it"},
    [BITE_NO_ANSWER] = {"BITE_NO_ANSWER", "the physics does not cover these inputs"},
    [BITE_FAULT] = {"BITE_FAULT", "a fault in the library; please report it"},
    [BITE_STOPPED] = {"BITE_STOPPED", "stopped as the caller asked"},
};

const char *bite_status_name(bite_status status)
{
    size_t index = (size_t)status;
    return index < sizeof statuses / sizeof *statuses ? statuses[index].name : "BITE_UNKNOWN";
}

const char *bite_status_text(bite_status status)
{
    size_t index = (size_t)status;
    return index < sizeof statuses / sizeof *statuses ? statuses[index].text : "unknown status";
}

const char *bite_version(void)
{
    return BITE_VERSION_TEXT;
}

uint32_t bite_version_number(void)
{
    return BITE_VERSION_NUMBER;
}

/* Its first edition has all members of this one. */
static bool is_usable(const bite_error *error)
{
    return bite_struct_is_sound(&bite_struct_error, error);
}

void bite_error_clear(bite_error *error)
{
    if (is_usable(error)) {
        bite_struct_start(&bite_struct_error, error, error->struct_size);
    }
}

void bite_error_copy(bite_error *error, const bite_error *from, uint32_t faults)
{
    if (is_usable(error)) {
        bite_struct_write(&bite_struct_error, from, error);
        error->faults = faults > 0 ? faults : from->faults;
    }
}

/* Names, paths and reasons come from callers, tables and plugins: they are escaped, so that the
 * error can be displayed. */
BITE_FORMAT(3, 0)
static void set_text(char *out, size_t size, const char *format, va_list list)
{
    char full[512];
    int length = vsnprintf(full, sizeof full, format, list);
    if (length < 0) {
        full[0] = 0;
    } else if ((size_t)length >= sizeof full) {
        full[bite_text_complete_length(full, sizeof full - 1)] = 0;
    }
    (void)bite_text_escape(full, out, size);
}

bite_status bite_error_set(bite_error *error, bite_status status, const char *format, ...)
{
    if (is_usable(error)) {
        bite_error_clear(error);
        error->status = (int32_t)status;
        error->faults = 1;
        va_list list;
        va_start(list, format);
        set_text(error->message, sizeof error->message, format, list);
        va_end(list);
    }
    return status;
}

void bite_error_key(bite_error *error, const char *format, ...)
{
    if (is_usable(error)) {
        va_list list;
        va_start(list, format);
        set_text(error->key, sizeof error->key, format, list);
        va_end(list);
    }
}

void bite_error_hint(bite_error *error, const char *format, ...)
{
    if (is_usable(error)) {
        va_list list;
        va_start(list, format);
        set_text(error->hint, sizeof error->hint, format, list);
        va_end(list);
    }
}

/* glibc's own form of strerror_r returns the text, that of POSIX a status. */
const char *bite_error_reason(int number, char *buffer, size_t size)
{
#ifdef STRERROR_R_CHAR_P
    return strerror_r(number, buffer, size);
#else
    if (strerror_r(number, buffer, size) != 0) {
        (void)snprintf(buffer, size, "error %d of the system", number);
    }
    return buffer;
#endif
}

/* As much of a path's back as fits once it is escaped, from a character on. */
static const char *back_of(const char *path, size_t capacity)
{
    size_t length = strlen(path);
    size_t needed = bite_text_escape(path, NULL, 0);
    while (needed >= capacity) {
        char one[5] = "";
        bite_text_fault fault = BITE_TEXT_SOUND;
        size_t size = bite_text_character(path, length, "", &fault);
        memcpy(one, path, size);
        needed -= bite_text_escape(one, NULL, 0);
        path += size;
        length -= size;
    }
    return path;
}

void bite_error_place(bite_error *error, const char *file, uint32_t line, uint32_t column)
{
    if (!is_usable(error)) {
        return;
    }
    error->line = line;
    error->column = column;
    if (file != NULL) {
        (void)bite_text_escape(back_of(file, sizeof error->file), error->file, sizeof error->file);
    }
}
