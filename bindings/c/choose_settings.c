/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which tool, spindle speed, feed and passes for a slot of 3 mm, on two threads. */
#include <coolbite/coolbite.h>
#include <stdio.h>

static bite_status describe(bite_request *request, bite_error *error)
{
    bite_status status = bite_request_use(request, BITE_GRADES, "acrylic/cast", error);
    status = status ? status : bite_request_use(request, BITE_MACHINES, "bench-24k", error);
    status = status ? status : bite_request_set(request, "feature_depth", "3mm", error);
    return status ? status : bite_request_threads(request, 2, error);
}

int main(void)
{
    static const char *const tools[] = {"2mm", "3mm"};
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_request *request = NULL;
    bite_choice *choice = NULL;
    bite_choice_options options;
    bite_choice_options_init(&options); /* the usual goal, the usual confidence */
    options.tools = tools;
    options.tool_count = sizeof tools / sizeof *tools;

    bite_status status = bite_library_open(NULL, &library, &error);
    status = status ? status : bite_request_new(library, &request, &error);
    status = status ? status : describe(request, &error);
    status = status ? status : bite_choice_new(request, &options, &choice, &error);
    if (status != BITE_OK) {
        fprintf(stderr, "%s: %s\n", error.message, error.hint);
    } else {
        const bite_result *result = bite_answer_result(bite_choice_answer(choice));
        printf("verdict: %s\n", bite_verdict_name(result->verdict));
        printf("passes: %zu\n", bite_choice_passes(choice));
        printf("removal: %.0f mm3/s\n", 1e9 * result->values[BITE_REMOVAL_RATE].value);
        bite_limit_id limit;
        double gain = 0.0;
        if (bite_choice_active_limit(choice, 0, &limit, &gain)) {
            printf("held back by: %s\n",
                   limit < BITE_LIMIT_COUNT ? bite_limit_name(limit) : "what was asked");
        }
    }
    bite_choice_free(choice);
    bite_request_free(request);
    bite_library_close(library);
    return status != BITE_OK;
}
