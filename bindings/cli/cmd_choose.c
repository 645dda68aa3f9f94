/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite choose: find the conditions. */
#include "bindings/cli/cli.h"
#include <stdlib.h>

int choose(const bite_library *library, const struct request *request, bite_choice **choice)
{
    bite_error error = BITE_ERROR_INIT;
    bite_ask *ask = NULL;
    int status = bite_ask_new(library, &ask, &error) == BITE_OK ? 0 : complain(&error);
    status = status != 0 ? status : apply_all(ask, request, request->given_count);
    if (status == 0 && request->tool_count == 0) {
        status = complain_usage("--tool is missing: a name, a diameter such as 1/32in, several of them, or any");
    }
    if (status == 0) {
        bite_choice_options options = {(uint32_t)sizeof options, request->goal,       request->style.units, 0,
                                       request->tools,           request->tool_count, request->draws,       request->confidence,
                                       request->steps,           request->step_count};
        status = bite_choice_new(ask, &options, choice, &error) == BITE_OK ? 0 : complain(&error);
    }
    bite_ask_free(ask);
    return status;
}

/* Settings that made trouble are judged as they are; nothing is chosen. */
static int look_after(const bite_library *library, const struct request *request)
{
    bite_error error = BITE_ERROR_INIT;
    bite_answer *answer = NULL;
    bite_after *after = NULL;
    struct gathered text = {NULL, 0, 0};
    int status = ask_cut(library, request, request->given_count, &answer);
    if (status == 0 && bite_after_new(answer, request->after, &after, &error) != BITE_OK) {
        status = complain(&error);
    }
    if (status == 0) {
        status =
            bite_after_write(after, &request->style, gather, &text, &error) == BITE_OK ? deliver(request, &text) : complain(&error);
    }
    status = status != 0 ? status : exit_of_verdict(request, answer);
    free(text.text);
    bite_after_free(after);
    bite_answer_free(answer);
    return status;
}

int verb_choose(const struct request *request)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_choice *choice = NULL;
    struct gathered text = {NULL, 0, 0};
    if (request->word_count > 0) {
        return complain_usage("choose takes options only; %s is none", request->words[0]);
    }
    int status = options_agree(request);
    if (status != 0) {
        return status;
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return complain(&error);
    }
    if (request->after != NULL) {
        int seen = look_after(library, request);
        bite_library_close(library);
        return seen;
    }
    status = choose(library, request, &choice);
    if (status == 0) {
        status = bite_choice_write(choice, &request->style, gather, &text, &error) == BITE_OK ? deliver(request, &text)
                                                                                              : complain(&error);
    }
    if (status == 0) {
        status = exit_of_verdict(request, bite_choice_answer(choice));
    }
    free(text.text);
    bite_choice_free(choice);
    bite_library_close(library);
    return status;
}
