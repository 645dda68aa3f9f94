/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An example request in a shop of its own, with good options for every call and bad members. */
#include "tests/api/example_request.h"
#include <float.h>
#include <math.h>
#include <string.h>

const double bite_hostile_numbers[BITE_HOSTILE_NUMBERS] = {
    (double)NAN, (double)INFINITY, -(double)INFINITY, DBL_MAX, -DBL_MAX, 1e30, -1.0, 0.0, 5e-324,
};

const uint32_t bite_hostile_words[BITE_HOSTILE_WORDS] = {5, 100, 4000000, 0x80000000u, UINT32_MAX};

bite_test_shop bite_example_shop;
bite_library *bite_example_library;
bite_request *bite_example_request;

static void set(const char *input, const char *text)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_request_set(bite_example_request, input, text, &error) == BITE_OK, "%s",
                  error.message);
}

void bite_example_open(void)
{
    bite_test_shop_make(&bite_example_shop);
    bite_example_library = bite_test_shop_open(&bite_example_shop, NULL);
    ck_assert_int_eq(bite_request_new(bite_example_library, &bite_example_request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(bite_example_request, BITE_GRADES, "acrylic/cast", NULL),
                     BITE_OK);
    ck_assert_int_eq(bite_request_use(bite_example_request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    set("flutes", "2");
    set("spindle_speed", "12000rpm");
    set("feed_rate", "200mm/min");
    set("depth", "0.2mm");
}

void bite_example_close(void)
{
    bite_request_free(bite_example_request);
    bite_library_close(bite_example_library);
    bite_test_remove(bite_example_shop.root);
}

/* That status, with words; the key begins with `key`. */
void bite_assert_refused(bite_status status, bite_status wanted, const bite_error *error,
                         const char *key)
{
    ck_assert_msg(status == wanted, "%s instead of %s: %s", bite_status_name(status),
                  bite_status_name(wanted), error->message);
    ck_assert_int_eq(error->status, (int)wanted);
    ck_assert_msg(strlen(error->message) > 10, "%s has no words", bite_status_name(status));
    ck_assert_msg(strncmp(error->key, key, strlen(key)) == 0, "key %s instead of %s", error->key,
                  key);
}

bite_choice_options bite_example_choice(void)
{
    static const char *const tools[] = {"0.8mm", "1mm"};
    bite_choice_options options;
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.goal = BITE_GOAL_USUAL;
    options.effort = BITE_EFFORT_QUICK;
    options.tools = tools;
    options.tool_count = 2;
    options.draws = 64;
    options.confidence = 0.95;
    return options;
}

bite_window_options bite_example_window(void)
{
    bite_window_options options;
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.columns = 5;
    options.rows = 4;
    options.across_least = options.across_most = options.up_least = options.up_most = (double)NAN;
    return options;
}

bite_job_options bite_example_job(void)
{
    bite_job_options options;
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.draws = 64;
    options.confidence = 0.95;
    return options;
}

bite_answer *bite_example_answer(size_t draws)
{
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_answer_new(bite_example_request, draws, 0.95, &answer, NULL), BITE_OK);
    return answer;
}
