/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Output: gathered first, then delivered whole, and never over what is read. */
#include "bindings/cli/cli.h"
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

int gather(void *user, const char *text, size_t size)
{
    struct gathered *to = user;
    if (size == 0) { /* no place is needed, and there may be none */
        return 0;
    }
    if (size > to->room - to->size) {
        size_t room = to->room == 0 ? 8192 : to->room;
        while (room - to->size < size) {
            if (room > SIZE_MAX / 2) {
                return -1;
            }
            room *= 2;
        }
        char *more = realloc(to->text, room);
        if (more == NULL) {
            return -1;
        }
        to->text = more;
        to->room = room;
    }
    memcpy(to->text + to->size, text, size);
    to->size += size;
    return 0;
}

/* Where a word of the command line leads: none and - are standard output. */
static const char *path_of(const char *word)
{
    return word == NULL || strcmp(word, "-") == 0 ? "/dev/stdout" : word;
}

static int written_over(const char *path, const char *why)
{
    return complain_usage("%s would be written over: %s", path, why);
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
        return complain(&error);
    }
    int found = bite_library_has_file(library, path);
    bite_library_close(library);
    return found ? written_over(path, "it is a table or plugin that coolbite reads") : 0;
}

int check_outputs(const struct request *request, const char *input)
{
    static const char own[] = "the job, its sheet and the plan are files of their own";
    const char *const outputs[] = {path_of(request->output), request->sheet == NULL ? NULL : path_of(request->sheet)};
    for (size_t i = 0; i < 2 && outputs[i] != NULL; i++) {
        if (input != NULL && bite_file_same(outputs[i], input)) {
            return written_over(outputs[i], own);
        }
        int status = check_tables(outputs[i]);
        if (status != 0) {
            return status;
        }
    }
    return outputs[1] != NULL && bite_file_same(outputs[0], outputs[1]) ? written_over(outputs[1], own) : 0;
}

int deliver(const struct request *request, struct gathered *gathered)
{
    bite_error error = BITE_ERROR_INIT;
    bite_status status = bite_file_write(path_of(request->output), gathered->text, gathered->size, &error);
    free(gathered->text);
    gathered->text = NULL;
    return status == BITE_OK ? 0 : complain(&error);
}
