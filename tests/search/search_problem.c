/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tests/search/search_problem.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdlib.h>

bite_search_problem *search_problem_of(uint32_t goal, const search_input *inputs, size_t count,
                                       size_t draws)
{
    bite_choice_options options;
    bite_error error = BITE_ERROR_INIT;
    search_request made;
    bite_search_problem *problem = calloc(1, sizeof *problem);
    ck_assert_ptr_nonnull(problem);
    search_request_begin(goal, &made);
    search_request_put_all(&made, inputs, count);
    bite_choice_options_init(&options);
    options.goal = goal;
    options.draws = draws;
    options.confidence = 0.9;
    options.beyond_charts = 1;
    ck_assert_msg(bite_problem_init(made.request, NULL, &options, problem, &error) == BITE_OK,
                  "%s: %s", error.key, error.message);
    search_request_end(&made);
    return problem;
}

void search_problem_free(bite_search_problem *problem)
{
    bite_problem_end(problem);
    free(problem);
}

bite_wish search_wish_of(const bite_search_problem *problem, double level, double beyond)
{
    const bite_wish wish = {.problem = problem,
                            .rule = &problem->rule,
                            .quantile = 1.0,
                            .level = level,
                            .beyond = beyond,
                            .worth = INFINITY};
    return wish;
}
