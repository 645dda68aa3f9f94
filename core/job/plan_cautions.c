/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cautions of a job. */
#include "core/job/plan_cautions.h"
#include "core/job/fluid_compatibility.h"
#include "core/job/plan_text.h"
#include "core/job/remark_list.h"
#include "core/job/remarks.h"
#include "core/library/listing.h"
#include "core/request/cautions.h"
#include <math.h>
#include <string.h>

#define NAMES_MOST 64

/* The worst pass that raises a caution. Other passes raise the same caution with other numbers. */
typedef struct worst_caution {
    const char *name;
    const bite_worded_caution *caution;
    const bite_planned_pass *pass;
    uint32_t passes;
} worst_caution;

/* The job has a remark of its own on protective film. */
static int is_covered(const char *name)
{
    return strcmp(name, "film") == 0;
}

static double risk_of(const bite_planned_pass *pass)
{
    const bite_result *result = &pass->answer->result;
    return isnan(result->chance) ? result->limits[result->worst].utilization : result->chance;
}

static void collect(worst_caution *list, size_t *count, const bite_worded_caution *caution,
                    const bite_planned_pass *pass)
{
    size_t at = 0;
    while (at < *count && strcmp(list[at].name, caution->caution.name) != 0) {
        at++;
    }
    if (at == *count && *count < NAMES_MOST) {
        worst_caution fresh = {caution->caution.name, caution, pass, 1};
        list[(*count)++] = fresh;
    } else if (at < *count) {
        list[at].passes++;
        if (risk_of(pass) > risk_of(list[at].pass)) {
            list[at].caution = caution;
            list[at].pass = pass;
        }
    }
}

/* The pass is named unless all passes raise the caution or it is a danger. */
static void add_caution(bite_job *job, const worst_caution *worst)
{
    const bite_caution *caution = &worst->caution->caution;
    const char *text = job->units == BITE_INCH ? worst->caution->inch : caution->text;
    int of_pass = worst->passes < job->pass_count && caution->severity != BITE_DANGER;
    const bite_remark_value named[] = {bite_remark_text(worst->pass->title),
                                       bite_remark_text(text)};
    bite_plan_remark_from(job, of_pass ? BITE_REMARK_CAUTION_OF_PASS : BITE_REMARK_CAUTION,
                          caution->severity, bite_plan_text(job, "%s", caution->source),
                          of_pass ? named : named + 1, of_pass ? 2 : 1);
}

void bite_plan_pass_cautions(bite_job *job)
{
    worst_caution list[NAMES_MOST];
    size_t count = 0;
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_answer *answer = job->passes[i].answer;
        for (size_t k = 0; k < answer->caution_count; k++) {
            if (!is_covered(answer->cautions[k].caution.name)) {
                collect(list, &count, &answer->cautions[k], &job->passes[i]);
            }
        }
    }
    for (size_t i = 0; i < count; i++) {
        add_caution(job, &list[i]);
    }
}

static void add_flammable(bite_job *job, const bite_item_record *fluid)
{
    if (fluid != NULL && bite_fluid_is_flammable(fluid)) {
        const bite_remark_value value = bite_remark_text(fluid->title);
        bite_plan_remark(job, BITE_REMARK_FLAMMABLE, &value, 1);
    }
}

/* What a table that was left out holds is missing in this plan; a table of a material says so in
 * the cautions of its grades. */
static void list_tables_left_out(bite_job *job)
{
    bite_item left;
    for (size_t i = 0; bite_library_left_out_until_now(job->library, i, &left); i++) {
        const bite_remark_value values[] = {bite_remark_text(left.file),
                                            bite_remark_text(left.summary)};
        if (strchr(left.name, '.') != NULL) {
            bite_plan_remark(job, BITE_REMARK_TABLE_LEFT_OUT, values, 2);
        }
    }
}

void bite_plan_safety(bite_job *job)
{
    const double fast = 15000.0 / 60.0; /* 1/s */
    int glued = 0;
    int wet = 0;
    int is_fast = 0;
    for (uint32_t i = 0; i < job->setups; i++) {
        const bite_planned_hold *hold = &job->setup_plan[i].hold;
        glued |= hold->hold != NULL && !isnan(hold->cure);
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_cut *cut = &job->passes[i].answer->full;
        is_fast |= cut->spindle_speed > fast;
        wet |= cut->coolant == BITE_COOLANT_MIST || cut->coolant == BITE_COOLANT_FLOOD;
    }
    list_tables_left_out(job);
    if (is_fast) {
        bite_plan_remark(job, BITE_REMARK_SPINDLE_SPEED, NULL, 0);
    }
    if (glued) {
        bite_plan_remark(job, BITE_REMARK_CYANOACRYLATE, NULL, 0);
    }
    if (wet) {
        bite_plan_remark(job, BITE_REMARK_MIST, NULL, 0);
    }
    /* what is refused will not be used: its own dangers would read as if it were */
    for (size_t i = 0; i < job->fluid_count; i++) {
        if (job->fluids[i].rating != BITE_RATED_NO) {
            add_flammable(job, job->fluids[i].fluid);
        }
    }
    for (uint32_t i = 0; i < job->setups; i++) {
        const bite_planned_hold *hold = &job->setup_plan[i].hold;
        add_flammable(job, hold->refused ? NULL : hold->solvent);
    }
    bite_plan_remark(job, BITE_REMARK_AIR_AND_NOISE, NULL, 0);
}
