/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The caller that README.md shows: public header and shared library alone. */
#include <coolbite/coolbite.h>
#include <stdio.h>

int main(void)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_ask *ask = NULL;
    bite_answer *answer = NULL;
    if (bite_library_open(NULL, &library, &error) == BITE_OK && bite_ask_new(library, &ask, &error) == BITE_OK &&
        bite_ask_use(ask, BITE_GRADES, "acrylic/cast", &error) == BITE_OK &&
        bite_ask_use(ask, BITE_TOOLS, "1/32in", &error) == BITE_OK &&
        bite_ask_set(ask, "spindle_speed", "12000rpm", &error) == BITE_OK &&
        bite_ask_set(ask, "feed_rate", "8in/min", &error) == BITE_OK && bite_ask_set(ask, "depth", "0.4mm", &error) == BITE_OK &&
        bite_answer_new(ask, 0, 0.95, &answer, &error) == BITE_OK) {
        const bite_result *result = bite_answer_result(answer);
        printf("%s; surface %.0f degC\n", bite_verdict_name(result->verdict),
               result->values[BITE_SURFACE_TEMPERATURE].value - 273.15);
    } else {
        fprintf(stderr, "%s (%s)\n", error.message, error.hint);
    }
    bite_answer_free(answer);
    bite_ask_free(ask);
    bite_library_close(library);
    return answer == NULL;
}
