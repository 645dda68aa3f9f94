/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One cut: does it hold at these settings, and what limits it? */
#include <coolbite/coolbite.h>
#include <stdio.h>

int main(void)
{
    static const struct {
        const char *input;
        const char *text;
    } settings[] = {
        {"spindle_speed", "12000rpm"},
        {"feed_rate", "300mm/min"},
        {"depth", "0.3mm"},
        {"width", "0.5mm"},
        {"coolant", "air"},
    };
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_request *request = NULL;
    bite_answer *answer = NULL;

    bite_status status = bite_library_open(NULL, &library, &error);
    if (status == BITE_OK) {
        status = bite_request_new(library, &request, &error);
    }
    if (status == BITE_OK) {
        status = bite_request_use(request, BITE_GRADES, "polycarbonate", &error);
    }
    if (status == BITE_OK) {
        status = bite_request_use(request, BITE_TOOLS, "1mm", &error);
    }
    for (size_t i = 0; status == BITE_OK && i < sizeof settings / sizeof *settings; i++) {
        status = bite_request_set(request, settings[i].input, settings[i].text, &error);
    }
    if (status == BITE_OK) {
        status = bite_answer_new(request, 0, 0.9, &answer, &error);
    }
    if (status != BITE_OK) {
        fprintf(stderr, "%s: %s\n", error.message, error.hint);
    } else {
        const bite_result *result = bite_answer_result(answer);
        const bite_value *wall = &result->values[BITE_WALL_ERROR];
        printf("verdict: %s\n", bite_verdict_name(result->verdict));
        printf("wall error: %.1f um, 5 %% to 95 %%: %.1f to %.1f um\n", 1e6 * wall->value,
               1e6 * wall->low, 1e6 * wall->high);
        printf("this comes from: %s\n", bite_answer_source(answer, "wall_error"));
    }
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
    return status != BITE_OK;
}
