/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job as JSON, schema 1. SI throughout except `enter` of each pass, which is the
 * answer's own. */
#include "core/report/json.h"
#include "core/job/datum_plan.h"
#include "core/job/fluid_compatibility.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file_schema.h"
#include "core/job/remarks.h"
#include "core/job/thin_plan.h"
#include "core/job/thread_plan.h"
#include "core/library/material.h"
#include "core/report/cut_json.h"
#include "core/report/job/json.h"
#include "core/report/job/path_text.h"
#include "core/report/job/remark_text.h"
#include "core/report/style_check.h"
#include "core/units/format_quantity.h"
#include <math.h>

static const char *const words[] = {"not judged", "clear", "tight", "over", "unknown"};
static const char *const severities[] = {"info", "note", "care", "danger"};

static int put_number(json_t *object, const char *key, double value)
{
    return bite_json_put(object, key, bite_json_number(value));
}

static int put_flag(json_t *object, const char *key, uint32_t flag)
{
    return bite_json_put(object, key, json_boolean(flag != 0));
}

/* The object or list; NULL if filling it failed. */
static json_t *unless_failed(json_t *list, int failed)
{
    if (failed) {
        json_decref(list);
        return NULL;
    }
    return list;
}

static json_t *limit_of(const bite_limit *limit)
{
    json_t *object = json_object();
    int failed = put_flag(object, "applies", limit->applies);
    failed |= put_number(object, "demand", limit->applies ? limit->demand : (double)NAN);
    failed |= put_number(object, "capacity", limit->applies ? limit->capacity : (double)NAN);
    failed |= put_number(object, "utilization", limit->applies ? limit->utilization : (double)NAN);
    failed |= put_number(object, "chance", limit->applies ? limit->chance : (double)NAN);
    failed |= bite_json_text(object, "verdict", words[limit->verdict]);
    return unless_failed(object, failed);
}

static json_t *stock_of(const struct bite_job *job)
{
    const bite_planned_stock *stock = &job->stock;
    json_t *object = json_object();
    int failed = bite_json_text(object, "sheet", stock->sheet == NULL ? "" : stock->sheet->name);
    failed |= put_flag(object, "chosen", stock->chosen);
    failed |= put_flag(object, "measured", stock->measured);
    failed |= put_number(object, "nominal", stock->nominal);
    failed |= put_number(object, "tolerance", stock->tolerance);
    failed |= put_number(object, "thin", stock->thin);
    failed |= put_number(object, "thick", stock->thick);
    failed |= put_number(object, "needed", stock->needed);
    failed |= put_number(object, "skim", stock->skim);
    failed |= put_number(object, "thin_top", stock->removal.thin_top);
    failed |= put_number(object, "thin_below", stock->removal.thin_below);
    failed |= put_number(object, "thick_top", stock->removal.thick_top);
    failed |= put_number(object, "thick_below", stock->removal.thick_below);
    failed |= put_number(object, "gap", stock->gap);
    failed |= put_number(object, "margin", stock->margin);
    failed |= put_number(object, "reach", stock->reach);
    failed |= put_number(object, "web", stock->web);
    failed |= put_number(object, "blanks", stock->blanks);
    failed |= put_number(object, "on_each", stock->on_each);
    failed |= put_number(object, "on_last", stock->on_last);
    failed |= put_number(object, "sold_length", stock->sold_length);
    failed |= put_number(object, "sold_width", stock->sold_width);
    failed |= put_number(object, "sheets", stock->sheets > 0 ? stock->sheets : (double)NAN);
    failed |= put_number(object, "short_by", stock->short_by);
    failed |= put_number(object, "along", stock->layout.along);
    failed |= put_number(object, "rows", stock->layout.rows);
    failed |= put_flag(object, "turned", stock->layout.turned);
    failed |= put_number(object, "blank_length", stock->layout.length);
    failed |= put_number(object, "blank_width", stock->layout.width);
    failed |= put_number(object, "yield", stock->yield > 0 ? stock->yield : (double)NAN);
    failed |= bite_json_put(object, "stock_thickness", limit_of(&stock->limit));
    return unless_failed(object, failed);
}

static json_t *envelope_of(const struct bite_job *job)
{
    static const char *const axes[] = {"x", "y", "z"};
    const bite_planned_envelope *envelope = &job->envelope;
    json_t *object = json_object();
    json_t *travel = json_object();
    json_t *needs = json_object();
    int failed = 0;
    for (size_t i = 0; i < 3; i++) {
        failed |= put_number(travel, axes[i], envelope->travel[i]);
        failed |= put_number(needs, axes[i], envelope->needs[i]);
    }
    failed |=
        bite_json_text(object, "machine", envelope->machine == NULL ? "" : envelope->machine->name);
    failed |= put_flag(object, "stated", envelope->stated);
    failed |= put_flag(object, "fits", !envelope->beyond);
    failed |= bite_json_put(object, "travel", travel);
    failed |= bite_json_put(object, "needs", needs);
    failed |= put_number(object, "fixture", envelope->fixture);
    failed |= put_number(object, "stickout", envelope->stickout);
    failed |= put_number(object, "stack", envelope->stack);
    return unless_failed(object, failed);
}

static json_t *datum_of(const struct bite_job *job, const bite_planned_datum *datum)
{
    json_t *object = json_object();
    int failed = put_number(object, "setup", datum->setup);
    failed |= bite_json_text(object, "zero", datum->on_fixture ? "fixture" : "top");
    failed |= bite_json_text(object, "stated", datum->stated);
    failed |= bite_json_text(object, "pass", datum->pass < 0 ? "" : job->passes[datum->pass].name);
    failed |= bite_json_text(object, "dimension", bite_datum_dimension_name(datum->dimension));
    failed |= put_number(object, "error_top", datum->error_top);
    failed |= put_number(object, "error_fixture", datum->error_fixture);
    failed |= put_number(object, "tolerance", datum->tolerance);
    return unless_failed(object, failed);
}

static json_t *datums_of(const struct bite_job *job)
{
    json_t *list = json_array();
    int failed = list == NULL;
    for (uint32_t i = 0; i < job->setups && job->datums != NULL; i++) {
        failed |= json_array_append_new(list, datum_of(job, &job->datums[i]));
    }
    return unless_failed(list, failed);
}

static json_t *warp_of(const struct bite_job *job)
{
    const bite_planned_warp *warp = &job->warp;
    json_t *object = json_object();
    int failed = bite_json_put(object, "warp", limit_of(&warp->limit));
    failed |= put_number(object, "span", warp->span);
    failed |= put_number(object, "skin_stress", warp->stress);
    failed |= put_number(object, "one_sided", warp->one_sided);
    failed |= put_number(object, "as_planned", warp->as_planned);
    failed |= put_number(object, "warmth_5k", warp->warmth);
    failed |= put_number(object, "coupon_cut", warp->coupon_cut);
    failed |= put_number(object, "coupon_bow", warp->coupon);
    failed |= put_number(object, "anneal_at", warp->anneal_at);
    failed |= bite_json_text(object, "anneal", warp->anneal);
    return unless_failed(object, failed);
}

static json_t *entry_of(const bite_planned_pass *pass)
{
    const bite_planned_entry *entry = &pass->entry;
    json_t *object = json_object();
    int failed = bite_json_text(object, "kind", bite_plan_entry_word(entry->kind));
    failed |= put_flag(object, "stated", entry->stated);
    failed |= bite_json_text(object, "why", entry->why);
    int ramp = entry->kind == BITE_ENTER_RAMP;
    int helix = entry->kind == BITE_ENTER_HELIX;
    failed |= put_number(object, "feed", entry->feed);
    failed |= put_number(object, "angle", entry->angle);
    failed |= put_number(object, "length", entry->length);
    failed |= put_number(object, "legs", ramp ? entry->legs : (double)NAN);
    failed |= put_number(object, "leg", ramp && isfinite(entry->leg) ? entry->leg : (double)NAN);
    failed |= put_number(object, "helix_diameter", helix ? entry->helix : (double)NAN);
    failed |= put_number(object, "pitch", helix ? entry->pitch : (double)NAN);
    failed |=
        put_number(object, "hole", entry->kind == BITE_ENTER_HOLE ? entry->hole : (double)NAN);
    failed |= bite_json_text(
        object, "hole_by",
        entry->kind == BITE_ENTER_HOLE && pass->hole.made_by != NULL ? pass->hole.made_by : "");
    return unless_failed(object, failed);
}

static json_t *path_of(const struct bite_job *job, const bite_planned_pass *pass)
{
    const bite_planned_path *path = &pass->path;
    json_t *object = json_object();
    int drill = pass->entry.kind == BITE_ENTER_DRILL;
    const char *direction = drill ? "" : path->conventional ? "conventional" : "climb";
    int failed = bite_json_text(object, "direction", direction);
    failed |= put_number(object, "step_over", path->step_over);
    failed |= put_number(object, "allowance", path->allowance);
    failed |= bite_json_text(object, "allowance_for",
                             isnan(path->allowance) ? "" : job->passes[path->allowance_for].name);
    failed |= put_number(object, "lead_radius", path->lead);
    failed |= put_number(object, "tip_depth", path->tip_depth);
    failed |= put_number(object, "tip_offset", path->tip_offset);
    return unless_failed(object, failed);
}

/* The ways that were compared; null: nothing was. */
static json_t *ways_of(const bite_planned_ways *ways)
{
    if (ways->alone == NULL) {
        return json_null();
    }
    json_t *object = json_object();
    int failed = bite_json_text(object, "alone", ways->alone);
    failed |= bite_json_text(object, "rough", ways->rough);
    failed |= put_flag(object, "staged", ways->staged);
    failed |= put_flag(object, "stated", ways->stated);
    failed |= put_number(object, "alone_seconds", ways->alone_seconds);
    failed |= put_number(object, "staged_seconds", ways->staged_seconds);
    failed |= put_number(object, "change_seconds", ways->change_seconds);
    failed |= bite_json_text(object, "middle", ways->middle == NULL ? "" : ways->middle);
    failed |= put_flag(object, "three", ways->three);
    failed |= put_number(object, "middle_seconds",
                         ways->middle == NULL ? (double)NAN : ways->middle_seconds);
    failed |= put_number(object, "middle_change",
                         ways->middle == NULL ? (double)NAN : ways->middle_change);
    return unless_failed(object, failed);
}

/* The path of a thread mill; null for other work. */
static json_t *mill_of(const bite_planned_pass *pass)
{
    const bite_planned_thread_mill *mill = &pass->hole.mill;
    if (mill->passes == 0) {
        return json_null();
    }
    json_t *object = json_object();
    json_t *passes = json_array();
    int failed = 0;
    for (uint32_t i = 0; i < mill->passes; i++) {
        json_t *one = json_object();
        double diameter = mill->path.diameters[i];
        int wrong = put_number(one, "diameter", diameter);
        wrong |= put_number(one, "circle", diameter - pass->answer->full.diameter);
        wrong |= put_number(one, "centre_feed", mill->path.feeds[i]);
        failed |= json_array_append_new(passes, unless_failed(one, wrong));
    }
    failed |= bite_json_put(object, "passes", passes);
    failed |= put_number(object, "edge_feed", mill->edge_feed);
    failed |= put_number(object, "turns", mill->path.turns);
    failed |= put_number(object, "rows", mill->tool.rows);
    failed |= put_number(object, "levels", mill->path.levels);
    failed |= bite_json_text(object, "hand", pass->hole.left_hand ? "left" : "right");
    failed |= bite_json_text(object, "from", mill->upward ? "bottom" : "top");
    return unless_failed(object, failed);
}

/* A drilled, tapped, reamed or threaded hole; null for other work. */
static json_t *hole_of(const bite_planned_pass *pass)
{
    const bite_planned_hole *hole = &pass->hole;
    if (!bite_work_is_hole(pass->work)) {
        return json_null();
    }
    json_t *object = json_object();
    int failed = object == NULL;
    failed |= bite_json_text(object, "thread", hole->thread == NULL ? "" : hole->thread->name);
    failed |= bite_json_text(object, "made_by", hole->made_by == NULL ? "" : hole->made_by);
    failed |= put_flag(object, "blind", hole->blind);
    failed |= put_number(object, "pitch", hole->pitch);
    failed |= put_number(object, "thread_share", hole->thread == NULL ? (double)NAN : hole->share);
    failed |= put_number(object, "diameter", hole->diameter);
    failed |= put_number(object, "depth", isfinite(hole->depth) ? hole->depth : (double)NAN);
    failed |= put_number(object, "point", hole->point);
    failed |= put_number(object, "pilot", hole->pilot);
    failed |= bite_json_put(object, "mill", mill_of(pass));
    return unless_failed(object, failed);
}

/* What is entered for a milled thread: the feed of the centre and the depth of the thread, where
 * the cut that is judged has the feed of the edge and one groove. */
static int enter_thread(const struct bite_job *job, const bite_planned_pass *pass, json_t *answer)
{
    json_t *enter = json_object_get(answer, "enter");
    double feed = (double)NAN;
    double depth = (double)NAN;
    if (pass->hole.mill.passes == 0 || enter == NULL) {
        return 0;
    }
    (void)bite_unit_fixed(bite_plan_enter_feed(pass), BITE_KIND_SPEED, job->units, &feed);
    (void)bite_unit_fixed(pass->depth, BITE_KIND_LENGTH, job->units, &depth);
    (void)json_object_del(enter, "width");
    (void)json_object_del(enter, "width_unit");
    int failed = put_number(enter, "feed", feed);
    failed |= put_number(enter, "depth", depth);
    return failed;
}

static json_t *pass_of(const struct bite_job *job, const bite_planned_pass *pass)
{
    json_t *object = bite_answer_object(pass->answer, job->units);
    if (object == NULL) {
        return NULL;
    }
    int failed = enter_thread(job, pass, object);
    failed |= bite_json_text(object, "pass", pass->name);
    failed |= bite_json_text(object, "title", pass->title);
    failed |= bite_json_text(object, "work", bite_work_word(pass->work));
    failed |= bite_json_text(object, "tool", job->tools[pass->tool].name);
    failed |= put_number(object, "setup", pass->setup);
    failed |= put_number(object, "count", pass->count);
    failed |= put_number(object, "passes", pass->passes);
    failed |= put_flag(object, "chosen", pass->chosen);
    failed |= bite_json_text(object, "stage", bite_stage_word(pass->stage));
    failed |= put_number(object, "area", pass->area);
    failed |= put_number(object, "removes", pass->area * pass->depth);
    failed |= bite_json_put(object, "ways", ways_of(&pass->ways));
    failed |= put_number(object, "step_down", pass->step_down);
    failed |= put_number(object, "last_step", pass->last_step);
    failed |= bite_json_put(object, "hole", hole_of(pass));
    failed |= bite_json_put(object, "entry_move", entry_of(pass));
    failed |= bite_json_put(object, "path", path_of(job, pass));
    failed |= put_number(object, "spring_passes", pass->springs);
    failed |= put_number(object, "first_leaves", pass->first_leaves);
    failed |= put_number(object, "spring_leaves", pass->spring_leaves);
    failed |=
        bite_json_text(object, "support_assumed",
                       pass->support.kind > 0 ? bite_plan_support_word(pass->support.kind) : "");
    failed |= put_number(object, "unsupported_seconds",
                         pass->support.kind > 0 ? pass->support.seconds : (double)NAN);
    failed |= put_number(object, "soak_rise", pass->soak_rise);
    failed |= put_number(object, "mean_rise", pass->mean_rise);
    failed |= put_number(object, "feature_depth", pass->depth);
    failed |= put_number(object, "lap", pass->lap);
    failed |= put_number(object, "seconds", pass->seconds);
    failed |= put_number(object, "feed_seconds", pass->feed_seconds);
    failed |= put_number(object, "entry_seconds", pass->entry_seconds);
    failed |= put_number(object, "move_seconds", pass->move_seconds);
    failed |= put_number(object, "pause", pass->pause);
    failed |= put_number(object, "cool_down", pass->cool_down);
    failed |= put_number(object, "pause_seconds", pass->pause_seconds);
    failed |= put_number(object, "slowed", pass->slowed);
    failed |= put_number(object, "hold_utilization", pass->hold_utilization);
    failed |= put_number(object, "floor_thin", pass->floor_thin);
    failed |= put_number(object, "floor_thick", pass->floor_thick);
    failed |= put_number(object, "clearance", pass->clearance);
    failed |= bite_json_text(object, "nearest", pass->nearest == NULL ? "" : pass->nearest);
    failed |= put_number(object, "holder_clearance", pass->holder_clearance);
    failed |= bite_json_text(object, "holder_nearest", pass->holder_nearest);
    return unless_failed(object, failed);
}

static json_t *tool_of(const bite_planned_tool *tool)
{
    json_t *object = json_object();
    int failed = bite_json_text(object, "name", tool->name);
    failed |= bite_json_text(object, "kind", tool->kind);
    failed |= put_number(object, "place", tool->place);
    failed |= put_number(object, "diameter", tool->diameter);
    failed |= put_number(object, "flutes", tool->flutes);
    failed |= put_number(object, "stickout", tool->stickout);
    failed |= put_number(object, "flute_length", tool->flute_length);
    failed |= put_number(object, "passes", tool->passes);
    failed |= bite_json_text(object, "why", tool->why);
    failed |= bite_json_text(object, "better", tool->better);
    return unless_failed(object, failed);
}

static json_t *texts_of(const char *const *texts, size_t count)
{
    json_t *list = json_array();
    int failed = list == NULL;
    for (size_t i = 0; i < count; i++) {
        failed |= json_array_append_new(list, json_string(texts[i]));
    }
    return unless_failed(list, failed);
}

static json_t *hold_of(const struct bite_job *job, const bite_planned_hold *hold)
{
    json_t *object = json_object();
    json_t *layers = json_array();
    int failed = bite_json_text(object, "name", hold->hold == NULL ? "" : hold->hold->name);
    failed |= put_flag(object, "refused", hold->refused);
    for (size_t i = 0; i < hold->layer_count; i++) {
        failed |= json_array_append_new(layers, json_string(hold->layers[i]->name));
    }
    failed |= bite_json_put(object, "layers", layers);
    failed |= bite_json_text(object, "weakest",
                             hold->weakest < 0 ? "" : hold->layers[hold->weakest]->name);
    failed |= put_number(object, "area", hold->area);
    failed |= put_number(object, "utilization", hold->utilization);
    failed |= put_number(object, "chance", hold->chance);
    failed |= bite_json_text(object, "worst_pass",
                             hold->worst_pass < 0 ? "" : job->passes[hold->worst_pass].name);
    failed |= bite_json_text(object, "way", hold->failure_mode);
    failed |= put_number(object, "force", hold->force);
    failed |= put_number(object, "needs", hold->needs);
    failed |= put_number(object, "shear", hold->stress.shear);
    failed |= put_number(object, "pull", hold->stress.pull);
    failed |= put_number(object, "tilt", hold->stress.tilt);
    failed |= put_number(object, "twist", hold->stress.twist);
    failed |= put_number(object, "break_through", hold->break_through);
    failed |= put_number(object, "tape", hold->tape);
    failed |= put_number(object, "cure", hold->cure);
    failed |= bite_json_put(object, "put_on", texts_of(hold->mounting, hold->mounting_count));
    failed |= bite_json_put(object, "release", texts_of(hold->release, hold->release_count));
    return unless_failed(object, failed);
}

/* One setup: where it is zero, its hold, its passes and the worst of their verdicts. */
static json_t *setup_of(const struct bite_job *job, const bite_planned_setup *setup)
{
    json_t *object = json_object();
    json_t *passes = json_array();
    int failed = put_number(object, "setup", setup->number);
    failed |= bite_json_text(object, "side", bite_side_word(setup->side));
    failed |= put_flag(object, "side_given", setup->side_given);
    failed |= bite_json_text(object, "datum_xy", setup->datum_xy);
    failed |= bite_json_text(object, "datum_z", setup->datum_z);
    failed |= bite_json_text(object, "note", setup->note);
    failed |= put_flag(object, "separate", setup->separate);
    failed |= put_number(object, "mountings", setup->mountings);
    failed |= put_number(object, "cut_away", setup->cut_away);
    for (size_t i = 0; i < job->pass_count; i++) {
        if (job->passes[i].setup == setup->number) {
            failed |= json_array_append_new(passes, json_string(job->passes[i].name));
        }
    }
    failed |= bite_json_put(object, "passes", passes);
    failed |= bite_json_text(object, "verdict", words[setup->verdict]);
    failed |= bite_json_put(object, "hold", hold_of(job, &setup->hold));
    return unless_failed(object, failed);
}

static json_t *fluid_of(const struct bite_job *job, size_t index)
{
    const bite_fluid_rating *result = &job->fluids[index];
    json_t *object = json_object();
    int failed = bite_json_text(object, "use", job->fluid_uses[index]);
    failed |= bite_json_text(object, "name", result->fluid->name);
    failed |= bite_json_text(object, "rating", bite_rating_name(result->rating));
    failed |= put_flag(object, "refused", result->rating == BITE_RATED_NO);
    failed |= bite_json_text(object, "instead", job->fluid_instead[index]);
    failed |= bite_json_text(object, "says", result->says);
    failed |= bite_json_text(object, "source", result->source);
    failed |=
        bite_json_text(object, "other",
                       result->other == BITE_RATED_UNKNOWN ? "" : bite_rating_name(result->other));
    failed |= bite_json_text(object, "other_source", result->other_source);
    failed |= put_number(object, "watch", result->watch);
    return unless_failed(object, failed);
}

static json_t *time_of(const struct bite_job *job)
{
    const bite_planned_time *time = &job->time;
    json_t *object = json_object();
    int failed = put_number(object, "whole", time->whole);
    failed |= put_number(object, "cutting", time->cutting);
    failed |= put_number(object, "feed_only", time->feed_only);
    failed |= put_number(object, "ways", time->ways);
    failed |= put_number(object, "changes", time->changes);
    failed |= put_number(object, "tool_changes", time->tool_changes);
    failed |= put_number(object, "loading", time->loading);
    failed |= put_number(object, "release", time->release);
    const struct {
        const char *name;
        double seconds;
    } parts[] = {{"cornering", time->cornering},
                 {"entries", time->entries},
                 {"air", time->air},
                 {"rapids", time->rapids},
                 {"pauses", time->pauses},
                 {"tool_changing", time->tool_changing},
                 {"spindle_starts", time->spindle_starts},
                 {"zeroing", time->zeroing},
                 {"mounting", time->mounting},
                 {"cure", time->cure},
                 {"releasing", time->releasing},
                 {"soak", time->soak},
                 {"cleaning", time->cleaning},
                 {"hands", time->hands},
                 {"machine_alone", time->machine_alone},
                 {"waiting", time->waiting},
                 {"overlapped", time->overlapped}};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        failed |= put_number(object, parts[i].name, parts[i].seconds);
    }
    failed |= put_flag(object, "tool_changer", time->tool_changer);
    failed |= put_number(object, "corrected", time->corrected);
    failed |= put_number(object, "records", time->records);
    return unless_failed(object, failed);
}

static json_t *check_of(const bite_planned_check *check)
{
    json_t *object = json_object();
    int failed = bite_json_text(object, "what", check->what);
    failed |= put_number(object, "nominal", check->nominal);
    failed |= put_number(object, "tolerance", check->tolerance);
    failed |= bite_json_text(object, "with", check->with);
    failed |= bite_json_text(object, "note", check->note);
    failed |= put_number(object, "number", check->number);
    failed |= bite_json_text(object, "zone", check->zone);
    failed |= bite_json_text(object, "designator", check->designator);
    failed |= bite_json_text(object, "measures", bite_measures_word(check->measures));
    failed |= put_number(object, "lower", check->lower);
    failed |= put_number(object, "upper", check->upper);
    failed |= bite_json_text(object, "limits_from", check->limits_from);
    failed |= bite_json_text(object, "limits_source", check->limits_source);
    failed |= bite_json_text(object, "instrument",
                             check->instrument == NULL ? "" : check->instrument->name);
    failed |= put_number(object, "uncertainty", check->uncertainty);
    failed |= put_number(object, "ratio", check->ratio);
    failed |= put_number(object, "growth_per_kelvin", check->warmth);
    failed |= put_number(object, "pressed", check->pressed);
    failed |= put_number(object, "wall_error", check->wall_error);
    failed |= put_number(object, "every", check->every);
    failed |= bite_json_text(object, "reason", check->reason);
    return unless_failed(object, failed);
}

/* The numbers of a remark by name, SI; its names and sentences are in the text alone. */
static json_t *quantities_of(const bite_remark *remark)
{
    const bite_remark_definition *definition = bite_remark_define(remark->id);
    json_t *object = json_object();
    int failed = object == NULL;
    for (size_t i = 0; i < BITE_REMARK_VALUES_MAX; i++) {
        const char *name = definition->values[i].name;
        bite_remark_kind kind = definition->values[i].kind;
        if (kind != BITE_REMARK_NONE && kind != BITE_REMARK_TEXT) {
            failed |= put_number(object, name, remark->values[i].quantity);
        }
    }
    return unless_failed(object, failed);
}

static json_t *remark_of(const struct bite_job *job, const bite_remark *remark)
{
    char text[BITE_REMARK_TEXT_MAX];
    json_t *object = json_object();
    int failed = bite_json_text(object, "id", bite_remark_define(remark->id)->name);
    failed |= bite_json_text(object, "severity", severities[remark->severity]);
    failed |= bite_json_text(object, "about", bite_remark_about(remark));
    failed |=
        bite_json_text(object, "text", bite_remark_words(remark, job->units, text, sizeof text));
    failed |= bite_json_put(object, "quantities", quantities_of(remark));
    failed |= bite_json_text(object, "source", remark->source);
    return unless_failed(object, failed);
}

static int put_lists(json_t *root, const struct bite_job *job)
{
    json_t *passes = json_array();
    json_t *tools = json_array();
    json_t *fluids = json_array();
    json_t *checks = json_array();
    json_t *remarks = json_array();
    json_t *setups = json_array();
    int failed = 0;
    for (uint32_t i = 0; i < job->setups && job->setup_plan != NULL; i++) {
        failed |= json_array_append_new(setups, setup_of(job, &job->setup_plan[i]));
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        failed |= json_array_append_new(passes, pass_of(job, &job->passes[i]));
    }
    for (size_t i = 0; i < job->tool_count; i++) {
        failed |= json_array_append_new(tools, tool_of(&job->tools[i]));
    }
    for (size_t i = 0; i < job->fluid_count; i++) {
        failed |= json_array_append_new(fluids, fluid_of(job, i));
    }
    for (size_t i = 0; i < job->check_count; i++) {
        failed |= json_array_append_new(checks, check_of(&job->checks[i]));
    }
    for (size_t i = 0; i < job->remark_count; i++) {
        failed |= json_array_append_new(remarks, remark_of(job, &job->remarks[i]));
    }
    failed |= bite_json_put(root, "setup_plans", setups);
    failed |= bite_json_put(root, "passes", passes);
    failed |= bite_json_put(root, "tools", tools);
    failed |= bite_json_put(root, "fluids", fluids);
    failed |= bite_json_put(root, "checks", checks);
    failed |= bite_json_put(root, "remarks", remarks);
    return failed;
}

bite_status bite_job_json(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error)
{
    json_t *root = json_object();
    int failed = bite_json_put(root, "schema", json_integer(1));
    failed |= bite_json_text(root, "coolbite", bite_version());
    failed |= bite_json_text(root, "title", job->title);
    failed |= bite_json_text(root, "material", job->grade->record.name);
    failed |= bite_json_text(root, "material_named", bite_grade_match_word(job->grade_match));
    failed |= bite_json_text(root, "verdict", words[job->verdict]);
    failed |= put_number(root, "chance", job->chance);
    failed |= put_number(root, "count", job->count);
    failed |= put_number(root, "setups", job->setups);
    failed |= put_number(root, "length", job->length);
    failed |= put_number(root, "width", job->width);
    failed |= put_number(root, "thickness", job->thickness);
    failed |= put_number(root, "thinnest", job->thinnest);
    failed |= bite_json_put(root, "stock", stock_of(job));
    failed |= bite_json_put(root, "warp", warp_of(job));
    failed |= bite_json_put(root, "envelope", envelope_of(job));
    failed |= bite_json_put(root, "datums", datums_of(job));
    failed |= bite_json_put(root, "hold", hold_of(job, &job->hold));
    failed |= bite_json_put(root, "time", time_of(job));
    failed |= put_lists(root, job);
    return bite_json_write(unless_failed(root, failed), bite_style_is_compact(style), sink, user,
                           error);
}
