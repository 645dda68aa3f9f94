/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job as JSON, schema 1. SI throughout but for `enter` of each pass, which is the answer's own. */
#include "core/report/cut.h"
#include "core/report/job/job.h"
#include "core/report/json.h"
#include <math.h>

static const char *const words[] = {"not judged", "clear", "tight", "over"};
static const char *const severities[] = {"told", "note", "care", "danger"};

static int put_number(json_t *object, const char *key, double value)
{
    return bite_json_put(object, key, bite_json_number(value));
}

static int put_flag(json_t *object, const char *key, uint32_t flag)
{
    return bite_json_put(object, key, json_boolean(flag != 0));
}

/* An object or list that was filled; NULL where something failed. */
static json_t *whole(json_t *of, int failed)
{
    if (failed) {
        json_decref(of);
        return NULL;
    }
    return of;
}

static json_t *row_of(const bite_limit *limit)
{
    json_t *object = json_object();
    int failed = put_flag(object, "applies", limit->applies);
    failed |= put_number(object, "demand", limit->applies ? limit->demand : (double)NAN);
    failed |= put_number(object, "capacity", limit->applies ? limit->capacity : (double)NAN);
    failed |= put_number(object, "utilization", limit->applies ? limit->utilization : (double)NAN);
    failed |= put_number(object, "chance", limit->applies ? limit->chance : (double)NAN);
    failed |= bite_json_text(object, "verdict", words[limit->verdict]);
    return whole(object, failed);
}

static json_t *stock_of(const struct bite_job *job)
{
    const bite_planned_stock *of = &job->stock;
    json_t *object = json_object();
    int failed = bite_json_text(object, "sheet", of->sheet == NULL ? "" : of->sheet->name);
    failed |= put_flag(object, "chosen", of->chosen) | put_flag(object, "measured", of->measured);
    failed |= put_number(object, "nominal", of->nominal) | put_number(object, "tolerance", of->tolerance);
    failed |= put_number(object, "thin", of->thin) | put_number(object, "thick", of->thick);
    failed |= put_number(object, "needed", of->needed) | put_number(object, "skim", of->skim);
    failed |= put_number(object, "thin_top", of->removal.thin_top) | put_number(object, "thin_below", of->removal.thin_below);
    failed |= put_number(object, "thick_top", of->removal.thick_top) | put_number(object, "thick_below", of->removal.thick_below);
    failed |= put_number(object, "gap", of->gap) | put_number(object, "margin", of->margin);
    failed |= put_number(object, "along", of->layout.along) | put_number(object, "rows", of->layout.rows);
    failed |= put_flag(object, "turned", of->layout.turned);
    failed |= put_number(object, "blank_length", of->layout.length) | put_number(object, "blank_width", of->layout.width);
    failed |= put_number(object, "yield", of->yield > 0 ? of->yield : (double)NAN);
    failed |= bite_json_put(object, "stock_thickness", row_of(&of->limit));
    return whole(object, failed);
}

static json_t *warp_of(const struct bite_job *job)
{
    const bite_planned_warp *of = &job->warp;
    json_t *object = json_object();
    int failed = bite_json_put(object, "warp", row_of(&of->limit));
    failed |= put_number(object, "span", of->span) | put_number(object, "skin_stress", of->stress);
    failed |= put_number(object, "one_sided", of->one_sided) | put_number(object, "as_planned", of->as_planned);
    failed |= put_number(object, "warmth_5k", of->warmth);
    failed |= put_number(object, "coupon_cut", of->coupon_cut) | put_number(object, "coupon_bow", of->coupon);
    failed |= put_number(object, "anneal_at", of->anneal_at) | bite_json_text(object, "anneal", of->anneal);
    return whole(object, failed);
}

static json_t *pass_of(const struct bite_job *job, const bite_planned_pass *of)
{
    json_t *object = bite_answer_object(of->answer, job->units);
    if (object == NULL) {
        return NULL;
    }
    int failed = bite_json_text(object, "pass", of->name) | bite_json_text(object, "title", of->title);
    failed |= bite_json_text(object, "work", bite_work_word(of->work));
    failed |= bite_json_text(object, "tool", job->tools[of->tool].name);
    failed |=
        put_number(object, "setup", of->setup) | put_number(object, "count", of->count) | put_number(object, "passes", of->passes);
    failed |= put_flag(object, "chosen", of->chosen);
    failed |= put_number(object, "feature_depth", of->depth) | put_number(object, "lap", of->lap);
    failed |= put_number(object, "seconds", of->seconds) | put_number(object, "feed_seconds", of->feed_seconds);
    failed |= put_number(object, "slowed", of->slowed) | put_number(object, "hold_utilization", of->hold_utilization);
    return whole(object, failed);
}

static json_t *tool_of(const bite_planned_tool *of)
{
    json_t *object = json_object();
    int failed = bite_json_text(object, "name", of->name) | bite_json_text(object, "kind", of->kind);
    failed |= put_number(object, "place", of->place);
    failed |= put_number(object, "diameter", of->diameter) | put_number(object, "flutes", of->flutes);
    failed |= put_number(object, "stickout", of->stickout) | put_number(object, "flute_length", of->flute_length);
    failed |= put_number(object, "passes", of->passes) | bite_json_text(object, "why", of->why) |
              bite_json_text(object, "better", of->better);
    return whole(object, failed);
}

static json_t *texts_of(const char *const *texts, size_t count)
{
    json_t *list = json_array();
    int failed = list == NULL;
    for (size_t i = 0; i < count; i++) {
        failed |= json_array_append_new(list, json_string(texts[i]));
    }
    return whole(list, failed);
}

static json_t *hold_of(const struct bite_job *job)
{
    const bite_planned_hold *of = &job->hold;
    json_t *object = json_object();
    json_t *layers = json_array();
    int failed = bite_json_text(object, "name", of->hold == NULL ? "" : of->hold->name) | put_flag(object, "refused", of->refused);
    for (size_t i = 0; i < of->layer_count; i++) {
        failed |= json_array_append_new(layers, json_string(of->layers[i]->name));
    }
    failed |= bite_json_put(object, "layers", layers);
    failed |= bite_json_text(object, "weakest", of->weakest < 0 ? "" : of->layers[of->weakest]->name);
    failed |= put_number(object, "area", of->area) | put_number(object, "safety", of->safety) | put_number(object, "utilization", of->utilization);
    failed |= bite_json_text(object, "worst_pass", of->worst_pass < 0 ? "" : job->passes[of->worst_pass].name);
    failed |=
        bite_json_text(object, "way", of->way) | put_number(object, "force", of->force) | put_number(object, "needs", of->needs);
    failed |= put_number(object, "shear", of->stress.shear) | put_number(object, "pull", of->stress.pull);
    failed |= put_number(object, "tilt", of->stress.tilt) | put_number(object, "twist", of->stress.twist);
    failed |= put_number(object, "break_through", of->break_through) | put_number(object, "tape", of->tape) |
              put_number(object, "cure", of->cure);
    failed |= bite_json_put(object, "put_on", texts_of(of->put_on, of->put_on_count));
    failed |= bite_json_put(object, "release", texts_of(of->release, of->release_count));
    return whole(object, failed);
}

static json_t *fluid_of(const struct bite_job *job, size_t place)
{
    const bite_fluid_judged *of = &job->fluids[place];
    json_t *object = json_object();
    int failed = bite_json_text(object, "use", job->fluid_uses[place]) | bite_json_text(object, "name", of->fluid->name);
    failed |= bite_json_text(object, "rating", bite_rating_name(of->rating));
    failed |= bite_json_text(object, "says", of->says) | bite_json_text(object, "source", of->source);
    failed |= bite_json_text(object, "other", of->other == BITE_RATED_UNKNOWN ? "" : bite_rating_name(of->other));
    failed |= bite_json_text(object, "other_source", of->other_source) | put_number(object, "watch", of->watch);
    return whole(object, failed);
}

static json_t *time_of(const struct bite_job *job)
{
    const bite_planned_time *of = &job->time;
    json_t *object = json_object();
    int failed = put_number(object, "whole", of->whole) | put_number(object, "cutting", of->cutting) |
                 put_number(object, "feed_only", of->feed_only);
    failed |= put_number(object, "ways", of->ways) | put_number(object, "changes", of->changes) |
              put_number(object, "tool_changes", of->tool_changes);
    failed |= put_number(object, "loading", of->loading) | put_number(object, "release", of->release);
    failed |= put_number(object, "corrected", of->corrected) | put_number(object, "records", of->records);
    return whole(object, failed);
}

static json_t *check_of(const bite_planned_check *of)
{
    json_t *object = json_object();
    int failed = bite_json_text(object, "what", of->what) | put_number(object, "nominal", of->nominal) |
                 put_number(object, "tolerance", of->tolerance);
    failed |= bite_json_text(object, "with", of->with) | bite_json_text(object, "note", of->note);
    return whole(object, failed);
}

static json_t *remark_of(const bite_remark *of)
{
    json_t *object = json_object();
    int failed = bite_json_text(object, "severity", severities[of->severity]) | bite_json_text(object, "about", of->about);
    failed |= bite_json_text(object, "text", of->text) | bite_json_text(object, "source", of->source);
    return whole(object, failed);
}

static int put_lists(json_t *root, const struct bite_job *job)
{
    json_t *passes = json_array();
    json_t *tools = json_array();
    json_t *fluids = json_array();
    json_t *checks = json_array();
    json_t *remarks = json_array();
    int failed = 0;
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
        failed |= json_array_append_new(remarks, remark_of(&job->remarks[i]));
    }
    failed |= bite_json_put(root, "passes", passes) | bite_json_put(root, "tools", tools) | bite_json_put(root, "fluids", fluids);
    return failed | bite_json_put(root, "checks", checks) | bite_json_put(root, "remarks", remarks);
}

bite_status bite_job_json(const struct bite_job *job, const bite_style *style, bite_sink sink, void *user, bite_error *error)
{
    (void)style;
    json_t *root = json_object();
    int failed = bite_json_put(root, "schema", json_integer(1)) | bite_json_text(root, "coolbite", bite_version());
    failed |= bite_json_text(root, "title", job->title) | bite_json_text(root, "material", job->grade->record.name);
    failed |= bite_json_text(root, "verdict", words[job->verdict]) | put_number(root, "chance", job->chance);
    failed |= put_number(root, "count", job->count) | put_number(root, "setups", job->setups);
    failed |= put_number(root, "length", job->length) | put_number(root, "width", job->width);
    failed |= put_number(root, "thickness", job->thickness) | put_number(root, "thinnest", job->thinnest);
    failed |= bite_json_put(root, "stock", stock_of(job)) | bite_json_put(root, "warp", warp_of(job));
    failed |= bite_json_put(root, "hold", hold_of(job)) | bite_json_put(root, "time", time_of(job));
    failed |= put_lists(root, job);
    return bite_json_write(whole(root, failed), sink, user, error);
}
