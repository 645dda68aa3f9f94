/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Requests and answers from pairs of names and values. */
#include "tests/request/request_pairs.h"
#include <string.h>

static bite_status set(bite_request *request, const char *name, const char *value,
                       bite_error *error)
{
    static const struct {
        const char *name;
        bite_collection collection;
    } records[] = {{"material", BITE_GRADES},    {"tool", BITE_TOOLS},     {"thread", BITE_THREADS},
                   {"machine", BITE_MACHINES},   {"holder", BITE_HOLDERS}, {"hold", BITE_HOLDS},
                   {"cooling_by", BITE_COOLANTS}};
    for (size_t i = 0; i < sizeof records / sizeof *records; i++) {
        if (strcmp(records[i].name, name) == 0) {
            return bite_request_use(request, records[i].collection, value, error);
        }
    }
    return bite_request_set(request, name, value, error);
}

bite_request *request_of_pairs(const bite_library *of, const char *const (*pairs)[2],
                               bite_error *error)
{
    bite_request *request = NULL;
    bite_status status = bite_request_new(of, &request, error);
    for (size_t i = 0; i < REQUEST_PAIRS && pairs[i][0] != NULL && status == BITE_OK; i++) {
        status = set(request, pairs[i][0], pairs[i][1], error);
    }
    if (status != BITE_OK) {
        bite_request_free(request);
        request = NULL;
    }
    return request;
}

bite_answer *answer_of_pairs(const bite_library *of, const char *const (*pairs)[2],
                             bite_error *error)
{
    bite_request *request = request_of_pairs(of, pairs, error);
    bite_answer *answer = NULL;
    if (request != NULL &&
        bite_answer_new(request, BITE_DRAWS_NONE, 0.9, &answer, error) != BITE_OK) {
        answer = NULL;
    }
    bite_request_free(request);
    return answer;
}

const char *caution_named(const bite_answer *answer, const char *name)
{
    for (size_t i = 0; i < bite_answer_caution_count(answer); i++) {
        bite_caution caution;
        ck_assert_int_eq(bite_answer_caution(answer, i, &caution, NULL), BITE_OK);
        if (strcmp(caution.name, name) == 0) {
            return caution.text;
        }
    }
    return NULL;
}
