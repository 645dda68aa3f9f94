/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a machine can tap a thread: many spindles turn too fast for it, or are weak when slow. */
#include "core/search/tap_choice.h"
#include "core/base/error.h"
#include "core/request/request.h"
#include "core/search/choice.h"
#include <math.h>
#include <string.h>

#define DRAWS 1024
#define CONFIDENCE 0.9

int bite_tap_serves(const bite_result *result)
{
    const bite_limit *speed = &result->limits[BITE_LIMIT_EDGE_SPEED];
    int sound = result->verdict == BITE_CLEAR || result->verdict == BITE_TIGHT;
    return sound && !(speed->applies && speed->utilization > 1.0 + 1e-9);
}

static bite_status make_request(const bite_thread_case *thread, const char *name,
                                bite_request **request, bite_error *error)
{
    bite_status status = bite_request_new(thread->library, request, error);
    status = status != BITE_OK
                 ? status
                 : bite_request_use(*request, BITE_GRADES, thread->material->record.name, error);
    if (status == BITE_OK && thread->machine != NULL) {
        status = bite_request_use(*request, BITE_MACHINES, thread->machine, error);
    }
    status = status != BITE_OK ? status : bite_request_use(*request, BITE_THREADS, name, error);
    status = status != BITE_OK ? status : bite_request_set(*request, "operation", "tap", error);
    status = status != BITE_OK ? status
                               : bite_request_set_number(*request, "depth", thread->length, error);
    status = status != BITE_OK
                 ? status
                 : bite_request_set_number(*request, "hole_diameter", thread->hole, error);
    if (status == BITE_OK) {
        (*request)->skip_change = 1;
        (*request)->scope = BITE_SCOPE_SETTINGS;
    }
    return status;
}

bite_status bite_tap_choose(const bite_thread_case *thread, const char *name, bite_tap_choice *tap,
                            bite_error *error)
{
    bite_choice_options options;
    bite_request *request = NULL;
    bite_choice *choice = NULL;
    memset(&options, 0, sizeof options);
    options.struct_size = (uint32_t)sizeof options;
    options.goal = BITE_GOAL_COOL; /* the slowest that it takes: whether it can be tapped at all */
    options.draws = DRAWS;
    options.confidence = CONFIDENCE;
    memset(tap, 0, sizeof *tap);
    tap->turns = tap->speed_share = (double)NAN;
    tap->verdict = BITE_OVER;
    bite_status status = make_request(thread, name, &request, error);
    status = status != BITE_OK ? status : bite_choice_new(request, &options, &choice, error);
    if (status == BITE_OK) {
        const bite_result *result = &choice->answer->result;
        const bite_limit *speed = &result->limits[BITE_LIMIT_EDGE_SPEED];
        tap->turns = choice->answer->full.spindle_speed;
        tap->speed_share = speed->applies ? speed->utilization : (double)NAN;
        tap->verdict = result->verdict;
        tap->closest = bite_cut_limit_name(&choice->answer->full, (bite_limit_id)result->worst);
        tap->serves = (uint32_t)bite_tap_serves(result);
    }
    bite_choice_free(choice);
    bite_request_free(request);
    int unable = status == BITE_NO_ANSWER || status == BITE_MISSING || status == BITE_OUT_OF_RANGE;
    if (unable) {
        bite_error_clear(error);
    }
    return unable ? BITE_OK : status;
}
