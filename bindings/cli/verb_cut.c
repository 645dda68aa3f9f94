/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite cut: judge the conditions I give. */
#include "bindings/cli/cli.h"
#include <stdlib.h>
#include <string.h>

static bite_status set_neck(bite_ask *ask, const char *text, bite_error *error)
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
    bite_status status = bite_ask_set(ask, "neck_diameter", diameter, error);
    return status == BITE_OK ? bite_ask_set(ask, "neck_length", cross + 1, error) : status;
}

static bite_status set_pair(bite_ask *ask, const char *text, bite_error *error)
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
    return bite_ask_set(ask, name, equals + 1, error);
}

static bite_status set_chips(bite_ask *ask, const char *text, bite_error *error)
{
    const char *word = strcmp(text, "closed") == 0 ? "yes" : strcmp(text, "open") == 0 ? "no" : text;
    return bite_ask_set(ask, "blind", word, error);
}

static bite_status apply(bite_ask *ask, const struct option_given *given, bite_error *error)
{
    switch (given->row->sort) {
    case OPTION_THING:
        return bite_ask_use(ask, given->row->shelf, given->text, error);
    case OPTION_NECK:
        return set_neck(ask, given->text, error);
    case OPTION_CHIPS:
        return set_chips(ask, given->text, error);
    case OPTION_SET:
        return set_pair(ask, given->text, error);
    default:
        return bite_ask_set(ask, given->row->name, given->text, error);
    }
}

/* A word that is none of an option's is the command line's own; a material or tool that is not there is a thing not found. */
static int fail(const bite_error *error, const struct option_given *given)
{
    int status = complain(error);
    return given != NULL && given->row->sort != OPTION_THING && error->status == BITE_UNKNOWN_NAME ? EXIT_USAGE : status;
}

static int exit_of_verdict(const struct request *request, const bite_answer *answer)
{
    static const int by_verdict[] = {EXIT_CLEAR, EXIT_CLEAR, EXIT_TIGHT, EXIT_OVER};
    return request->exit_zero ? EXIT_CLEAR : by_verdict[bite_answer_result(answer)->verdict];
}

/* Asks and judges with the first `count` of the options given. Owned by the caller: *answer. 0, or the exit status after a
 * complaint. */
static int ask_cut(const bite_library *library, const struct request *request, size_t count, bite_answer **answer)
{
    bite_error error = BITE_ERROR_INIT;
    bite_ask *ask = NULL;
    int status = bite_ask_new(library, &ask, &error) == BITE_OK ? 0 : complain(&error);
    for (size_t i = 0; status == 0 && i < count; i++) {
        if (apply(ask, &request->given[i], &error) != BITE_OK) {
            status = fail(&error, &request->given[i]);
        }
    }
    if (status == 0 && bite_answer_new(ask, request->draws, request->confidence, answer, &error) != BITE_OK) {
        status = complain(&error);
    }
    bite_ask_free(ask);
    return status;
}

int verb_cut(const struct request *request)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_answer *answer = NULL;
    bite_answer *second = NULL;
    struct gathered text = {NULL, 0, 0};
    if (request->word_count > 0) {
        return complain_usage("cut takes options only; %s is none", request->words[0]);
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return complain(&error);
    }
    int status = ask_cut(library, request, request->compares ? request->against : request->given_count, &answer);
    if (status == 0 && request->compares) {
        status = ask_cut(library, request, request->given_count, &second);
    }
    if (status == 0) {
        bite_status written = request->compares ? bite_answer_compare(answer, second, &request->style, gather, &text, &error)
                                                : bite_answer_write(answer, &request->style, gather, &text, &error);
        status = written == BITE_OK ? deliver(request, &text) : complain(&error);
    }
    if (status == 0) {
        status = exit_of_verdict(request, request->compares ? second : answer);
    }
    free(text.text);
    bite_answer_free(answer);
    bite_answer_free(second);
    bite_library_close(library);
    return status;
}
