/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an option says to an ask. */
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif
#include "bindings/cli/cli.h"
#include <sched.h>
#include <string.h>
#include <unistd.h>

static bite_status set_neck(bite_request *request, const char *text, bite_error *error)
{
    const char *cross = strchr(text, 'x');
    char diameter[64];
    if (cross == NULL || (size_t)(cross - text) >= sizeof diameter) {
        error->status = BITE_BAD_QUANTITY;
        (void)snprintf(error->message, sizeof error->message, "a neck is a diameter and a length");
        (void)snprintf(error->hint, sizeof error->hint, "for example 0.7mmx4mm");
        (void)snprintf(error->key, sizeof error->key, "neck");
        return BITE_BAD_QUANTITY;
    }
    memcpy(diameter, text, (size_t)(cross - text));
    diameter[cross - text] = 0;
    bite_status status = bite_request_set(request, "neck_diameter", diameter, error);
    return status == BITE_OK ? bite_request_set(request, "neck_length", cross + 1, error) : status;
}

static bite_status set_pair(bite_request *request, const char *text, bite_error *error)
{
    const char *equals = strchr(text, '=');
    char name[64];
    if (equals == NULL || (size_t)(equals - text) >= sizeof name) {
        error->status = BITE_BAD_QUANTITY;
        (void)snprintf(error->message, sizeof error->message, "--set takes NAME=QUANTITY");
        (void)snprintf(error->hint, sizeof error->hint, "for example --set walk_share=1.2");
        (void)snprintf(error->key, sizeof error->key, "set");
        return BITE_BAD_QUANTITY;
    }
    memcpy(name, text, (size_t)(equals - text));
    name[equals - text] = 0;
    return bite_request_set(request, name, equals + 1, error);
}

static bite_status set_chips(bite_request *request, const char *text, bite_error *error)
{
    const char *word = strcmp(text, "closed") == 0 ? "yes"
                       : strcmp(text, "open") == 0 ? "no"
                                                   : text;
    return bite_request_set(request, "blind", word, error);
}

static bite_status apply_option(bite_request *request, const struct option_given *given,
                                bite_error *error)
{
    switch (given->option->type) {
    case OPTION_ITEM:
    case OPTION_TOOL:
        return bite_request_use(request, given->option->collection, given->text, error);
    case OPTION_NECK:
        return set_neck(request, given->text, error);
    case OPTION_CHIPS:
        return set_chips(request, given->text, error);
    case OPTION_SET:
        return set_pair(request, given->text, error);
    default:
        return bite_request_set(request, given->option->name, given->text, error);
    }
}

/* A word that is none of an option's is the command line's own; a material or tool that is not
 * there is a thing not found. */
static int complain_option(const bite_error *error, const struct option_given *given)
{
    int status = report_error(error);
    return given != NULL && given->option->type != OPTION_ITEM &&
                   given->option->type != OPTION_TOOL && error->status == BITE_UNKNOWN_NAME
               ? EXIT_USAGE
               : status;
}

/* Those that this process may use. */
static long processors(void)
{
#ifdef HAVE_SCHED_GETAFFINITY
    cpu_set_t all;
    if (sched_getaffinity(0, sizeof all, &all) == 0) {
        return CPU_COUNT(&all);
    }
#endif
    return sysconf(_SC_NPROCESSORS_ONLN);
}

/* As many as there are processors, within what the library takes. */
size_t processor_count(void)
{
    const long most = 16;
    long count = processors();
    return (size_t)(count < 1 ? 1 : count > most ? most : count);
}

int request_set_options(bite_request *request, const struct command_line *line, size_t count)
{
    bite_error error = BITE_ERROR_INIT;
    if (bite_request_threads(request, processor_count(), &error) != BITE_OK) {
        return report_error(&error);
    }
    for (size_t i = 0; i < count; i++) {
        if (apply_option(request, &line->given[i], &error) != BITE_OK) {
            return complain_option(&error, &line->given[i]);
        }
    }
    return 0;
}
