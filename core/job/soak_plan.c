/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat soak of a job. */
#include "core/job/soak_plan.h"
#include "core/job/job_file.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/job/thread_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/physics/heat/heat_soak.h"
#include <math.h>

static const double layer_conductivity = 0.2; /* W/m/K, tape, glue and wax; memory */
static const double dry_contact = 500.0;      /* W/m2/K, a part pressed on a plate; estimate */
static const double still_air = 20.0;         /* W/m2/K, as surface_cooling of coolant.none */
static const double bond_share = 0.6;         /* of the way to its limit that a bond may warm */
static const double size_share = 0.25;        /* of the tolerance that the part may grow */
static const double longest_pause = 600.0;    /* s; a part that needs more needs a coolant */

/* Thermal resistance between the part and its fixture, m2 K/W. */
static double layers_below(const bite_planned_setup *setup)
{
    const bite_planned_hold *hold = &setup->hold;
    double sum = hold->layer_count > 0 ? 0.0 : 1.0 / dry_contact;
    for (size_t i = 0; i < hold->layer_count; i++) {
        sum += bite_item_figure_or(hold->layers[i], "thickness", 0.0) / layer_conductivity;
    }
    return sum;
}

static int is_vise(const bite_planned_setup *setup)
{
    return setup->hold.hold != NULL &&
           bite_item_word(setup->hold.hold, "clamp", BITE_CLAMP_NONE) == BITE_CLAMP_JAWS;
}

/* Heat that leaves through what holds the part, per area of it, W/m2/K: through the face below, by
 * the share of it that lies on the fixture; or through both jaws, for a part on parallels. */
static double hold_conductance(const bite_job *job, const bite_planned_setup *setup,
                               const bite_cut *cut)
{
    double along = 0.0;
    double across = 0.0;
    bite_plan_setup_footprint(job, setup, &along, &across);
    double height = bite_plan_setup_height(job, setup);
    double given = bite_plan_hold_number(setup, "jaw_depth");
    if (is_vise(setup)) {
        double depth = fmin(
            height, isnan(given) ? bite_item_figure_or(setup->hold.hold, "jaw_depth", 0.0) : given);
        return dry_contact * 2.0 * depth * fmax(along, across) / (along * across);
    }
    return fmin(1.0, setup->hold.area / (along * across)) *
           bite_soak_contact(height, cut->conductivity, layers_below(setup));
}

/* A zone of the part as a body. */
static bite_soak_body body_of(const bite_job *job, const bite_planned_pass *pass, double area,
                              double air)
{
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    const bite_cut *cut = &pass->answer->full;
    bite_soak_body body = {cut->density * cut->heat_capacity * area *
                               bite_plan_setup_height(job, setup),
                           area * (hold_conductance(job, setup, cut) + air)};
    return body;
}

/* Area of one part, or its share of the blank while it is in it. */
static double share_of_blank(const bite_job *job, const bite_planned_setup *setup)
{
    double along = 0.0;
    double across = 0.0;
    bite_plan_setup_footprint(job, setup, &along, &across);
    int blank = bite_plan_holds_blank(job, setup) && bite_plan_lies_flat(setup);
    return blank ? fmax(along * across,
                        job->stock.layout.length * job->stock.layout.width / job->count)
                 : along * across;
}

/* The zone that one part's laps of a pass warm, while they are cut. */
static double zone_of(const bite_job *job, const bite_planned_pass *pass, double time)
{
    const bite_cut *cut = &pass->answer->full;
    double diffusivity = cut->conductivity / (cut->density * cut->heat_capacity);
    double path = pass->lap * pass->count;
    if (pass->work == BITE_WORK_DRILL) { /* a ring about each hole */
        path = pass->count * cut->diameter;
    }
    double zone = path * bite_soak_width(cut->diameter, diffusivity, time);
    return fmin(zone, share_of_blank(job, bite_plan_setup(job, pass->setup)));
}

/* Rise that the bond may have, K; INFINITY: it is not a bond with a limit. */
static double bond_allows(const bite_planned_setup *setup, const bite_cut *cut)
{
    double least = INFINITY;
    for (size_t i = 0; i < setup->hold.layer_count; i++) {
        double limit = bite_item_figure_or(setup->hold.layers[i], "bond_limit", INFINITY);
        least = fmin(least, bond_share * (limit - cut->room_temperature));
    }
    return fmax(least, 0.0);
}

/* Rise by which the part grows by its share of the tolerance; INFINITY: no tolerance is stated. */
static double size_allows(const bite_job *job, const bite_cut *cut)
{
    double tolerance = bite_job_file_number(job->file_data.part, "tolerance");
    double rise = size_share * tolerance / (cut->expansion * fmax(job->length, job->width));
    return isnan(rise) ? INFINITY : rise;
}

/* The shortest pause after each lap, s, that keeps the rise allowed; NaN: none is long enough. */
static double pause_for(const bite_soak_body *body, double rise, double power, double lap,
                        double laps, double allowed)
{
    double low = 0.0;
    double high = longest_pause;
    if (!(bite_soak_laps(body, rise, power, lap, high, laps) <= allowed)) {
        return (double)NAN;
    }
    for (int i = 0; i < 50; i++) {
        double middle = 0.5 * (low + high);
        *(bite_soak_laps(body, rise, power, lap, middle, laps) <= allowed ? &high : &low) = middle;
    }
    return high;
}

/* How the laps of a pass warm the part. */
typedef struct lap_heat {
    double power; /* W, that stays in the part */
    double time;  /* s, one lap over all features of a part */
    double laps;
    double times; /* as often as they are cut: parts, or blanks of a face */
} lap_heat;

static lap_heat heat_of(const bite_job *job, const bite_planned_pass *pass)
{
    lap_heat heat = {pass->answer->result.values[BITE_HEAT_TO_PART].value,
                     pass->lap * pass->count / bite_plan_lap_feed(pass),
                     (double)pass->passes + pass->springs, job->count};
    if (pass->work == BITE_WORK_FACE && !bite_plan_setup(job, pass->setup)->separate) {
        heat.times = fmax(1.0, (double)job->stock.blanks);
    }
    return heat;
}

/* A pause after each lap of a part but its last, where the bond would become too warm. The parts
 * are taken one after another. */
static void plan_pauses(bite_job *job, size_t index, const lap_heat *heat,
                        const bite_soak_body *zone, double rise_before)
{
    bite_planned_pass *pass = &job->passes[index];
    double allowed = bond_allows(bite_plan_setup(job, pass->setup), &pass->answer->full);
    pass->pause = 0.0;
    if (!(pass->soak_rise > allowed)) {
        return;
    }
    double pause = pause_for(zone, rise_before, heat->power, heat->time, heat->laps, allowed);
    int helps = !isnan(pause) && heat->laps > 1.0;
    const bite_remark_value values[] = {
        bite_remark_text(pass->title), bite_remark_number(pass->soak_rise),
        bite_remark_number(allowed), bite_remark_number(heat->laps - 1.0),
        bite_remark_number(pause)};
    bite_plan_remark(job, helps ? BITE_REMARK_SOAK_PAUSE : BITE_REMARK_SOAK_COOL, values, 5);
    if (helps) {
        pass->pause = pause;
        pass->pause_seconds = heat->times * (heat->laps - 1.0) * pause;
    }
}

/* The wait until a part that is too warm is true to size: before the next pass of its setup, which
 * is part of the time; after the last it is off the machine by the time it is measured. */
static void plan_cool_down(bite_job *job, size_t index)
{
    bite_planned_pass *pass = &job->passes[index];
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    const bite_cut *cut = &pass->answer->full;
    double allowed = size_allows(job, cut);
    bite_soak_body body = body_of(job, pass, share_of_blank(job, setup), still_air);
    int follows = index + 1 < job->pass_count && job->passes[index + 1].setup == pass->setup;
    pass->cool_down = 0.0;
    if (!(pass->mean_rise > allowed)) {
        return;
    }
    double wait = body.capacity / body.conductance * log(pass->mean_rise / allowed);
    const bite_remark_value values[] = {
        bite_remark_text(pass->title), bite_remark_number(pass->mean_rise),
        bite_remark_number(cut->expansion * pass->mean_rise * fmax(job->length, job->width)),
        bite_remark_number(wait),
        bite_remark_text(follows ? "the next pass, which is in the time"
                                 : "it is measured, which is not in the time")};
    bite_plan_remark(job, BITE_REMARK_SOAK_SIZE, values, 5);
    if (follows) {
        double pieces = setup->separate ? setup->mountings : fmax(1.0, (double)job->stock.blanks);
        pass->cool_down = wait;
        pass->pause_seconds += pieces * wait;
    }
}

/* One pass on all parts: the mean rise of a part's share of the blank at its end, and the highest
 * rise of the zone around its path on the last part, without pauses. Returns the mean rise at its
 * end, with them. */
static double soak_pass(bite_job *job, size_t index, double mean)
{
    bite_planned_pass *pass = &job->passes[index];
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    const bite_cut *cut = &pass->answer->full;
    lap_heat heat = heat_of(job, pass);
    double parts = pass->work == BITE_WORK_FACE ? 1.0 : job->count;
    double alone = heat.laps * heat.time; /* of one part */
    double warm = zone_of(job, pass, alone);
    bite_soak_body part = body_of(job, pass, share_of_blank(job, setup), still_air);
    bite_soak_body zone = body_of(job, pass, warm, cut->surface_cooling);
    part.conductance += warm * fmax(0.0, cut->surface_cooling - still_air); /* where it is cut */
    double share = pass->work == BITE_WORK_FACE ? job->count : 1.0; /* a face warms all parts */
    double energy = heat.power * alone / share;
    pass->pause_seconds = 0.0;
    pass->soak_rise = bite_soak_laps(&zone, mean, heat.power, heat.time, 0.0, heat.laps);
    plan_pauses(job, index, &heat, &zone, mean);
    alone += (heat.laps - 1.0) * pass->pause;
    /* on the last part the pass has just ended; the others have cooled: the warmest counts */
    pass->mean_rise = bite_soak_step(&part, mean, energy / alone, alone);
    plan_cool_down(job, index);
    double time = fmax(pass->seconds + (heat.laps - 1.0) * heat.times * pass->pause, parts * alone);
    double after = bite_soak_step(&part, mean, energy / time, time);
    return bite_soak_step(&part, after, 0.0, pass->cool_down);
}

bite_status bite_plan_soak(bite_job *job, bite_error *error)
{
    double mean = 0.0;
    uint32_t setup = 0;
    (void)error;
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].setup != setup) { /* it has cooled while it was mounted */
            setup = job->passes[i].setup;
            mean = 0.0;
        }
        mean = soak_pass(job, i, mean);
    }
    return BITE_OK;
}
