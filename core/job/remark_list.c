/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of a plan's remarks: adding one with its values, and their order. */
#include "core/job/remark_list.h"
#include <math.h>
#include <string.h>

bite_remark_value bite_remark_text(const char *text)
{
    bite_remark_value value = {text == NULL ? "" : text, (double)NAN};
    return value;
}

bite_remark_value bite_remark_number(double quantity)
{
    bite_remark_value value = {NULL, quantity};
    return value;
}

static int same_value(const bite_remark_value *a, const bite_remark_value *b)
{
    if (a->text != NULL || b->text != NULL) {
        return a->text != NULL && b->text != NULL && strcmp(a->text, b->text) == 0;
    }
    return a->quantity == b->quantity || (isnan(a->quantity) && isnan(b->quantity));
}

static int same_remark(const bite_remark *a, const bite_remark *b)
{
    int same = a->id == b->id;
    for (size_t i = 0; i < BITE_REMARK_VALUES_MAX && same; i++) {
        same = same_value(&a->values[i], &b->values[i]);
    }
    return same;
}

static int has_remark(const bite_job *job, const bite_remark *remark)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        if (same_remark(&job->remarks[i], remark)) {
            return 1;
        }
    }
    return 0;
}

static int make_space(bite_job *job)
{
    if (job->remark_count < job->remark_capacity) {
        return 1;
    }
    size_t capacity = job->remark_capacity == 0 ? 64 : 2 * job->remark_capacity;
    bite_remark *more = bite_arena_alloc(job->arena, capacity, sizeof *more);
    if (more == NULL) {
        job->out_of_memory = 1;
        return 0;
    }
    if (job->remark_count > 0) {
        memcpy(more, job->remarks, job->remark_count * sizeof *more);
    }
    job->remarks = more;
    job->remark_capacity = capacity;
    return 1;
}

void bite_plan_remark_from(bite_job *job, uint32_t id, uint32_t severity, const char *source,
                           const bite_remark_value *values, size_t count)
{
    bite_remark remark;
    memset(&remark, 0, sizeof remark);
    remark.id = id;
    remark.severity = severity;
    remark.source = source;
    for (size_t i = 0; i < BITE_REMARK_VALUES_MAX; i++) {
        remark.values[i] = i < count ? values[i] : bite_remark_number((double)NAN);
    }
    if (!has_remark(job, &remark) && make_space(job)) {
        job->remarks[job->remark_count++] = remark;
    }
}

void bite_plan_sort_remarks(bite_job *job)
{
    for (size_t i = 1; i < job->remark_count; i++) {
        bite_remark moved = job->remarks[i];
        size_t at = i;
        for (; at > 0 && job->remarks[at - 1].severity < moved.severity; at--) {
            job->remarks[at] = job->remarks[at - 1];
        }
        job->remarks[at] = moved;
    }
}
