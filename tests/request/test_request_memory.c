/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From opening a library to the answer of a request, with the n-th request for memory failing: the
 * failure is reported as one, and nothing is held. */
#include "tests/library/private_library.h"
#include "tests/request/request_pairs.h"
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)

static bite_test_memory memory;

/* Requests that read different tables. */
static const char *const requests[][REQUEST_PAIRS][2] = {
    {{"material", "6061-T6"}, {"thread", "M3"}, {"spindle_speed", "600rpm"}, {"blind", "yes"}},
    {{"material", "acrylic/cast"},
     {"tool", "drill-3.3"},
     {"spindle_speed", "3000rpm"},
     {"feed_rate", "100mm/min"}},
    {{"material", "pmma"},
     {"tool", "em-3-2"},
     {"hold", "tape-glue"},
     {"machine", "small-vmc"},
     {"spindle_speed", "12000rpm"},
     {"feed_rate", "3000mm/min"},
     {"depth", "13mm"},
     {"tolerance", "2um"}},
};

static bite_status answer_once(void *with, bite_error *error)
{
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_library_options options = {sizeof options, &allocator, families, tables};
    bite_library *opened = NULL;
    bite_status status = bite_library_open(&options, &opened, error);
    if (status != BITE_OK) {
        return status;
    }
    bite_answer *answer = answer_of_pairs(opened, requests[*(const size_t *)with], error);
    status = answer == NULL ? (bite_status)error->status : BITE_OK;
    bite_answer_free(answer);
    bite_library_close(opened);
    return status;
}

START_TEST(an_answer_without_memory_is_none)
{
    size_t which = (size_t)_i;
    bite_test_fail_allocations(&memory, 60, 60, answer_once, &which);
    ck_assert_uint_eq(memory.held, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("request_memory");
    TCase *tests = tcase_create("request_memory");
    tcase_add_checked_fixture(tests, private_setup, private_teardown);
    tcase_add_loop_test(tests, an_answer_without_memory_is_none, 0, COUNT(requests));
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
