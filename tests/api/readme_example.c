/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The program in README.md: it uses only the public header and the shared library. */
#include <coolbite/coolbite.h>
#include <stdio.h>

int main(void)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    if (bite_library_open(NULL, &library, &error) || bite_request_new(library, &request, &error) ||
        bite_request_use(request, BITE_GRADES, "acrylic/cast", &error) ||
        bite_request_use(request, BITE_TOOLS, "1/32in", &error) ||
        bite_request_set(request, "spindle_speed", "12000rpm", &error) ||
        bite_request_set(request, "feed_rate", "8in/min", &error) ||
        bite_request_set(request, "depth", "0.4mm", &error) ||
        bite_answer_new(request, 0, 0.95, &answer, &error)) {
        fprintf(stderr, "%s (%s)\n", error.message, error.hint);
    } else {
        const bite_result *result = bite_answer_result(answer);
        printf("%s; surface %.0f degC\n", bite_verdict_name(result->verdict),
               result->values[BITE_SURFACE_TEMPERATURE].value - 273.15);
    }
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
    return answer == NULL;
}
