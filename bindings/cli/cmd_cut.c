/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite cut: judge the conditions I give. */
#include "bindings/cli/cli.h"
#include <stdlib.h>
#include <string.h>

int exit_of_verdict(const struct request *request, const bite_answer *answer)
{
    static const int by_verdict[] = {EXIT_CLEAR, EXIT_CLEAR, EXIT_TIGHT, EXIT_OVER};
    return request->exit_zero ? EXIT_CLEAR : by_verdict[bite_answer_result(answer)->verdict];
}

int ask_cut(const bite_library *library, const struct request *request, size_t count, bite_answer **answer)
{
    bite_error error = BITE_ERROR_INIT;
    bite_ask *ask = NULL;
    int status = bite_ask_new(library, &ask, &error) == BITE_OK ? 0 : complain(&error);
    status = status != 0 ? status : apply_all(ask, request, count);
    if (status == 0 && request->tool_count > 1) {
        status = complain_usage("one tool can be judged; without --spindle and --feed several compete");
    }
    if (status == 0 && request->tool_count == 1 && bite_ask_use(ask, BITE_TOOLS, request->tools[0], &error) != BITE_OK) {
        status = complain(&error);
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
