/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Requests that a search has once solved badly: random cuts whose limits leave two ranges of feed,
 * or narrow ones between lobes of chatter. */
#include "tests/search/hard_request.h"
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The seed of a series of cuts, and which of the series it is. */
static const struct {
    uint64_t seed;
    int cut;
} cuts[] = {{1030, 12}, {1045, 14}, {1006, 15}};

size_t hard_request_count(void)
{
    return sizeof cuts / sizeof *cuts * BITE_TEST_GOALS;
}

/* Between two cuts of a series as many numbers are drawn as there are limits. */
static bite_cut cut_of(size_t index)
{
    uint64_t seed = cuts[index].seed;
    bite_cut cut = bite_test_bounded(&seed);
    for (int i = 0; i < cuts[index].cut; i++) {
        for (int limit = 0; limit < BITE_LIMIT_COUNT; limit++) {
            (void)bite_test_between(&seed, 0.0, 1.0);
        }
        cut = bite_test_bounded(&seed);
    }
    return cut;
}

/* The slowest spindle speed of the series. */
static const double slowest = 1.0 / 24.0;

/* Everything but speed and feed as the cut has it. */
static void put_inputs(const bite_cut *cut, bite_request *request)
{
    const char *member = (const char *)cut;
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        int is_free =
            strcmp(input->name, "spindle_speed") == 0 || strcmp(input->name, "feed_rate") == 0;
        bite_error error = BITE_ERROR_INIT;
        double number = (double)NAN;
        if (input->words > 0) {
            uint32_t word;
            memcpy(&word, member + input->offset, sizeof word);
            ck_assert_int_eq(
                bite_request_set(request, input->name, bite_input_word(input, word), &error),
                BITE_OK);
            continue;
        }
        memcpy(&number, member + input->offset, sizeof number);
        if (!is_free && !isnan(number)) {
            ck_assert_msg(bite_request_set_number(request, input->name, number, &error) == BITE_OK,
                          "%s: %s", input->name, error.message);
        }
    }
}

void hard_request_make(size_t index, search_request *made)
{
    size_t which = index / BITE_TEST_GOALS;
    bite_cut cut = cut_of(which);
    search_request_begin(bite_test_goal(index), made);
    search_request_put(made, "material", "wax"); /* its table states little beside the cut */
    search_request_put_tool(made, "2mm");        /* any */
    cut.spindle_slowest = slowest * cut.spindle_fastest;
    put_inputs(&cut, made->request);
    made->tolerance = cut.tolerance;
    made->finish = cut.finish;
    (void)snprintf(made->line, sizeof made->line, "(cut %d of series %u, goal %s)", cuts[which].cut,
                   (unsigned)cuts[which].seed, bite_goal_name(made->goal));
}
