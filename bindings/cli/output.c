/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Output: gathered first, then delivered whole, and never over what is read. */
#include "bindings/cli/cli.h"
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

int text_buffer_append(void *user, const char *text, size_t size)
{
    struct text_buffer *buffer = user;
    if (size == 0) { /* no place is needed, and there may be none */
        return 0;
    }
    if (size > buffer->capacity - buffer->size) {
        size_t capacity = buffer->capacity == 0 ? 8192 : buffer->capacity;
        while (capacity - buffer->size < size) {
            if (capacity > SIZE_MAX / 2) {
                return -1;
            }
            capacity *= 2;
        }
        char *more = realloc(buffer->text, capacity);
        if (more == NULL) {
            return -1;
        }
        buffer->text = more;
        buffer->capacity = capacity;
    }
    memcpy(buffer->text + buffer->size, text, size);
    buffer->size += size;
    return 0;
}

/* Where a word of the command line leads: none and - are standard output. */
static const char *path_of(const char *word)
{
    return word == NULL || strcmp(word, "-") == 0 ? "/dev/stdout" : word;
}

static int written_over(const char *path, const char *why)
{
    return report_usage_error("%s would be written over: %s", path, why);
}

/* Whether there is a file at all: what goes to a terminal or a pipe writes over nothing. */
static bool is_file(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && S_ISREG(about.st_mode);
}

static int check_tables(const char *path)
{
    bite_library *library = NULL;
    bite_error error = BITE_ERROR_INIT;
    if (!is_file(path)) {
        return 0;
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return report_error(&error);
    }
    int found = bite_library_has_file(library, path);
    bite_library_close(library);
    return found ? written_over(path, "it is a table or plugin that coolbite reads") : 0;
}

int check_outputs(const struct command_line *line, const char *input)
{
    static const char own[] = "the job, its sheet and the plan are files of their own";
    const char *const outputs[] = {path_of(line->output),
                                   line->sheet == NULL ? NULL : path_of(line->sheet)};
    for (size_t i = 0; i < 2 && outputs[i] != NULL; i++) {
        if (input != NULL && bite_file_same(outputs[i], input)) {
            return written_over(outputs[i], own);
        }
        int status = check_tables(outputs[i]);
        if (status != 0) {
            return status;
        }
    }
    return outputs[1] != NULL && bite_file_same(outputs[0], outputs[1])
               ? written_over(outputs[1], own)
               : 0;
}

int output_write(const struct command_line *line, struct text_buffer *buffer)
{
    bite_error error = BITE_ERROR_INIT;
    bite_status status = bite_file_write(path_of(line->output), buffer->text, buffer->size, &error);
    free(buffer->text);
    buffer->text = NULL;
    return status == BITE_OK ? 0 : report_error(&error);
}
