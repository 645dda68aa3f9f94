/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to measure on the finished parts: limits, instrument, what it proves and how often. */
#include "core/job/inspection_plan.h"
#include "core/inspection/general_tolerance.h"
#include "core/job/job_file.h"
#include "core/job/job_file_schema.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/library/listing.h"
#include "core/request/shop.h"
#include <math.h>
#include <string.h>

/* A ratio of tolerance to uncertainty from which a reading between the limits is as good as proof,
 * and one below which no reading proves anything (ANSI/NCSL Z540.3 for 4; memory). */
static const double ratio_wanted = 4.0;
static const double ratio_least = 1.0;
/* Of the tolerance: what force and warmth may cost before they are remarked (common practice: a
 * tenth). */
static const double share_noticed = 0.1;
/* Of the tolerance: wall errors that call for every part, and for some (estimate). */
static const double share_every = 0.5;
static const double share_some = 0.25;
static const uint32_t some = 5;

static double tolerance_of(const bite_planned_check *check)
{
    return check->upper - check->lower;
}

/* ---- limits ---- */

static void set_limits(bite_planned_check *check, double lower, double upper, const char *from,
                       const char *source)
{
    check->lower = lower;
    check->upper = upper;
    check->limits_from = from;
    check->limits_source = source;
    int alike = fabs((upper - check->nominal) - (check->nominal - lower)) < 1e-12;
    check->tolerance = alike ? upper - check->nominal : (double)NAN;
}

/* A form, such as flatness, has no nominal size: its tolerance is the most that it may be. */
static void set_tolerance(bite_planned_check *check, double tolerance, const char *from)
{
    int form = check->measures == BITE_MEASURED_FLATNESS || check->measures == BITE_MEASURED_GAP;
    if (isnan(check->nominal) || (form && check->nominal <= 0.0)) {
        check->lower = (double)NAN;
        check->upper = tolerance;
        check->limits_from = from;
    } else {
        set_limits(check, check->nominal - tolerance, check->nominal + tolerance, from, "");
    }
    check->tolerance = tolerance;
}

/* The limits that the file states, else those of the part: its tolerance or its class. */
static void plan_limits(const bite_job *job, const bite_section *section, double own,
                        bite_planned_check *check)
{
    const bite_section *part = job->file_data.part;
    double lower = bite_job_file_number(section, "lower");
    double upper = bite_job_file_number(section, "upper");
    double whole = bite_job_file_number(part, "tolerance");
    const char *class = bite_job_file_text(section, "class");
    bite_tolerance tolerance;
    if (!isnan(lower) || !isnan(upper)) {
        set_limits(check, lower, upper, "stated", "");
    } else if (!isnan(own)) {
        set_tolerance(check, own, "stated");
    } else if (!isnan(check->nominal)) { /* without a size there is nothing to limit */
        class = class == NULL && isnan(whole) ? bite_job_file_text(part, "class") : class;
        if (class != NULL &&
            bite_general_tolerance(class, check->nominal, &tolerance, NULL) == BITE_OK) {
            set_limits(check, check->nominal + tolerance.lower, check->nominal + tolerance.upper,
                       tolerance.standard, tolerance.source);
        } else if (!isnan(whole)) {
            set_tolerance(check, whole, "the part's tolerance");
        }
    }
}

/* ---- instruments ---- */

static bite_gauged_part gauged(const bite_job *job)
{
    const bite_item_record *grade = &job->grade->record;
    double thin = isnan(job->thinnest) ? job->thickness : fmin(job->thinnest, job->thickness);
    const bite_gauged_part part = {job->length,
                                   job->width,
                                   thin,
                                   bite_item_figure(grade, "modulus"),
                                   bite_item_figure_or(grade, "poisson", 0.35),
                                   bite_item_figure(grade, "yield"),
                                   bite_item_figure(grade, "density")};
    return part;
}

/* A size that an instrument is judged by: the nominal one, otherwise a limit. */
static double size_of(const bite_planned_check *check)
{
    double limit = isnan(check->upper) ? check->lower : check->upper;
    return check->nominal > 0.0 ? check->nominal : limit;
}

static void try_instrument(const bite_job *job, const bite_item_record *record,
                           const bite_planned_check *check, bite_planned_check *tried)
{
    bite_gauged_part part = gauged(job);
    const char *word = bite_measures_word(check->measures);
    bite_instrument instrument;
    *tried = *check;
    bite_instrument_read(record, &instrument);
    tried->instrument = record;
    tried->uncertainty = bite_instrument_uncertainty(&instrument, size_of(check));
    double width = isnan(check->lower) ? check->upper : tolerance_of(check);
    tried->ratio = width / (4.0 * tried->uncertainty);
    bite_gauge_effect_of(&instrument, word, &part, &tried->effect);
    tried->pressed = bite_gauge_effect_on_reading(&tried->effect, word);
}

/* It measures that, and its range holds the size. */
static int may_measure(const bite_item_record *record, const bite_planned_check *check)
{
    bite_instrument instrument;
    double size = size_of(check);
    bite_instrument_read(record, &instrument);
    return bite_instrument_measures(&instrument, bite_measures_word(check->measures)) &&
           !(size < instrument.least) && !(size > instrument.most);
}

/* How well an instrument does: as far as the wanted ratio, less what its force changes. */
static double merit(const bite_planned_check *tried)
{
    double width = isnan(tried->lower) ? tried->upper : tolerance_of(tried);
    double ratio = isnan(tried->ratio) ? ratio_wanted : fmin(tried->ratio, ratio_wanted);
    double pressed = isnan(width) ? 0.0 : fmax(tried->pressed / width, share_noticed);
    return ratio - ratio_wanted * pressed;
}

/* The instruments of the library; 0 if memory ran out, which ends the plan. */
static size_t instrument_count(bite_job *job)
{
    size_t count = 0;
    if (bite_library_size(job->library, BITE_INSTRUMENTS, &count, NULL) != BITE_OK) {
        job->out_of_memory = 1;
    }
    return count;
}

/* One of them; NULL if memory ran out. */
static const bite_item_record *instrument_at(bite_job *job, size_t index)
{
    bite_item item;
    const bite_item_record *record = NULL;
    if (bite_library_item(job->library, BITE_INSTRUMENTS, index, &item, NULL) != BITE_OK ||
        bite_library_record(job->library, BITE_INSTRUMENTS, item.name, &record, NULL) != BITE_OK) {
        job->out_of_memory = 1;
        return NULL;
    }
    return record;
}

/* Whether the shop has the instrument: all of the tables, unless its set-up lists its own. */
static int shop_has(bite_job *job, const bite_item_record *record)
{
    int has = job->shop == NULL || job->shop->instrument_count == 0;
    for (size_t i = 0; !has && i < job->shop->instrument_count; i++) {
        const bite_item_record *own = NULL;
        bite_status status = bite_library_record(job->library, BITE_INSTRUMENTS,
                                                 job->shop->instruments[i], &own, NULL);
        job->out_of_memory |= status == BITE_NO_MEMORY;
        job->shop_keys |= 1u << BITE_SHOP_INSTRUMENTS;
        has = own == record;
    }
    return has;
}

/* The first instrument that is good enough, else the best. own: nonzero: of those of the shop. */
static void find_best(bite_job *job, int own, const bite_planned_check *check,
                      bite_planned_check *best)
{
    size_t count = check->measures < BITE_MEASURED_COUNT ? instrument_count(job) : 0;
    double most = -(double)INFINITY;
    *best = *check;
    for (size_t i = 0; i < count; i++) {
        const bite_item_record *record = instrument_at(job, i);
        bite_planned_check tried;
        if (record == NULL || !may_measure(record, check) || (own && !shop_has(job, record))) {
            continue;
        }
        try_instrument(job, record, check, &tried);
        if (merit(&tried) > most) {
            most = merit(&tried);
            *best = tried;
        }
    }
}

static int proves(const bite_planned_check *check)
{
    return check->instrument != NULL && !(check->ratio < ratio_least);
}

/* A size that no instrument of the shop proves: which one of the tables would. */
static void remark_on_shop(bite_job *job, const bite_planned_check *check)
{
    bite_planned_check best;
    if (proves(check) || job->shop == NULL || job->shop->instrument_count == 0) {
        return;
    }
    find_best(job, 0, check, &best);
    const bite_remark_value values[] = {
        bite_remark_text(check->what),
        bite_remark_text(check->instrument == NULL ? "" : check->instrument->title),
        bite_remark_text(proves(&best) ? best.instrument->title : "")};
    if (best.instrument != NULL) {
        bite_plan_remark(job, proves(&best) ? BITE_REMARK_SHOP_CANNOT : BITE_REMARK_NOTHING_PROVES,
                         values, 3);
    }
}

static void choose_instrument(bite_job *job, bite_planned_check *check)
{
    bite_planned_check best;
    find_best(job, 1, check, &best);
    *check = best;
    check->chosen = check->instrument != NULL;
    if (check->instrument != NULL && check->with[0] == 0) {
        check->with = check->instrument->title;
    }
    remark_on_shop(job, check);
}

/* The instrument whose name or title a text is. */
static const bite_item_record *instrument_called(bite_job *job, const char *text)
{
    size_t count = instrument_count(job);
    for (size_t i = 0; i < count; i++) {
        const bite_item_record *record = instrument_at(job, i);
        if (record != NULL &&
            (strcmp(record->title, text) == 0 || strcmp(record->name, text) == 0)) {
            return record;
        }
    }
    return NULL;
}

/* The instrument that the file names, by its name or in words; one of a check in other words stays
 * unknown, and one of a check that names none is chosen. */
static void plan_instrument(bite_job *job, const bite_section *section, bite_planned_check *check)
{
    const char *name = bite_job_file_text(section, "instrument");
    const bite_item_record *record = NULL;
    bite_planned_check tried;
    if (name != NULL) {
        bite_status status =
            bite_library_record(job->library, BITE_INSTRUMENTS, name, &record, NULL);
        job->out_of_memory |= status == BITE_NO_MEMORY;
    } else if (check->with[0] != 0) {
        record = instrument_called(job, check->with);
    } else {
        choose_instrument(job, check);
        return;
    }
    if (record != NULL) {
        try_instrument(job, record, check, &tried);
        *check = tried;
        check->with = check->with[0] == 0 ? record->title : check->with;
    }
}

/* ---- how often ---- */

static void plan_frequency(const bite_job *job, const bite_section *section,
                           bite_planned_check *check)
{
    double every = bite_job_file_number(section, "every");
    double share = check->wall_error / tolerance_of(check);
    if (!isnan(every)) {
        check->every = (uint32_t)every;
        check->reason = "stated";
    } else if (share > share_every) {
        check->every = 1;
        check->reason = "the wall error of its pass may take more than half of the tolerance";
    } else if (share > share_some) {
        check->every = some;
        check->reason = "the wall error of its pass may take more than a quarter of the tolerance";
    } else {
        check->every = (uint32_t)fmax(job->count, 1.0);
        check->reason = isnan(share) ? "the first part shows the set-up, the last one the wear"
                                     : "the wall error of its pass takes little of the tolerance";
    }
}

static void find_pass(const bite_job *job, const bite_section *section, bite_planned_check *check)
{
    const char *name = bite_job_file_text(section, "pass");
    for (size_t i = 0; i < job->pass_count && name != NULL; i++) {
        if (strcmp(job->passes[i].name, name) == 0) {
            check->pass = (uint32_t)i;
            const bite_value *error = &job->passes[i].answer->result.values[BITE_WALL_ERROR];
            check->wall_error = isnan(error->high) ? error->value : error->high;
        }
    }
}

/* ---- remarks ---- */

static void remark(bite_job *job, bite_remark_id id, const bite_planned_check *check, double first,
                   double second)
{
    const bite_remark_value values[] = {bite_remark_text(check->what),
                                        bite_remark_text(check->instrument->title),
                                        bite_remark_number(first), bite_remark_number(second)};
    bite_plan_remark(job, id, values, 4);
}

static void remark_on(bite_job *job, const bite_planned_check *check)
{
    double width = isnan(check->lower) ? check->upper : tolerance_of(check);
    if (check->instrument == NULL) {
        return;
    }
    if (check->ratio < ratio_least) {
        remark(job, BITE_REMARK_GAUGE_CANNOT, check, check->uncertainty, width);
    } else if (check->ratio < ratio_wanted) {
        remark(job, BITE_REMARK_GAUGE_RATIO, check, check->uncertainty, width);
    }
    if (check->pressed > share_noticed * width) {
        remark(job, BITE_REMARK_GAUGE_PRESSES, check, check->pressed, width);
    }
    double force = bite_item_figure(check->instrument, "force");
    if (force > check->effect.dent_force) {
        remark(job, BITE_REMARK_GAUGE_DENTS, check, force, check->effect.dent_force);
    }
    if (force > check->effect.buckling_force) {
        remark(job, BITE_REMARK_GAUGE_BUCKLES, check, force, check->effect.buckling_force);
    }
    if (5.0 * check->warmth > 0.25 * width) {
        remark(job, BITE_REMARK_GAUGE_WARMTH, check, 5.0 * check->warmth, width);
    }
}

/* ---- the checks ---- */

/* tolerance: NaN: the part's own. */
static void add(bite_job *job, const bite_section *section, const char *what, double nominal,
                double tolerance, uint32_t measures)
{
    const char *with = bite_job_file_text(section, "with");
    const char *note = bite_job_file_text(section, "note");
    const char *zone = bite_job_file_text(section, "zone");
    const char *designator = bite_job_file_text(section, "designator");
    bite_planned_check *check = &job->checks[job->check_count];
    memset(check, 0, sizeof *check);
    check->number = (uint32_t)++job->check_count;
    check->what = what;
    check->zone = zone == NULL ? "" : zone;
    check->designator = designator == NULL ? "" : designator;
    check->measures = measures;
    check->nominal = nominal;
    check->with = with == NULL ? "" : with;
    check->note = note == NULL ? "" : note;
    check->limits_from = check->limits_source = check->reason = "";
    check->pass = UINT32_MAX;
    check->tolerance = check->lower = check->upper = check->uncertainty = (double)NAN;
    check->ratio = check->wall_error = check->warmth = check->pressed = (double)NAN;
    check->effect.indentation = check->effect.dent_force = check->effect.bend = (double)NAN;
    check->effect.squeeze = check->effect.buckling_force = (double)NAN;
    plan_limits(job, section, tolerance, check);
    plan_instrument(job, section, check);
    find_pass(job, section, check);
    plan_frequency(job, section, check);
    check->warmth = check->nominal * bite_item_figure(&job->grade->record, "expansion");
    remark_on(job, check);
}

static void add_stated(bite_job *job, const bite_section *section)
{
    const char *what = bite_job_file_text(section, "what");
    add(job, section, what == NULL ? section->tail : what, bite_job_file_number(section, "nominal"),
        bite_job_file_number(section, "tolerance"),
        bite_job_file_word(section, "measures", BITE_MEASURED_COUNT));
}

/* What the job file does not list: the part's own sizes. */
static void add_defaults(bite_job *job)
{
    static const bite_section none = {"check.", "", 0, 0, NULL};
    const double nan = (double)NAN;
    double flatness = bite_job_file_number(job->file_data.part, "flatness");
    const struct {
        const char *what;
        double nominal;
        double tolerance;
        uint32_t measures;
        const char *note;
        int wanted;
    } sizes[] = {
        {"thickness, five places", job->thickness, nan, BITE_MEASURED_THICKNESS, "", 1},
        {"thinnest section", job->thinnest, nan, BITE_MEASURED_THICKNESS, "",
         !isnan(job->thinnest)},
        {"length", job->length, nan, BITE_MEASURED_OUTSIDE, "", 1},
        {"width", job->width, nan, BITE_MEASURED_OUTSIDE, "", 1},
        {"flatness, part free", 0.0, flatness, BITE_MEASURED_FLATNESS, "a day after release",
         !isnan(flatness)},
    };
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        if (sizes[i].wanted) {
            add(job, &none, sizes[i].what, sizes[i].nominal, sizes[i].tolerance, sizes[i].measures);
            job->checks[job->check_count - 1].note = sizes[i].note;
        }
    }
}

void bite_plan_inspection(bite_job *job)
{
    for (size_t i = 0; i < job->file_data.check_count; i++) {
        add_stated(job, job->file_data.checks[i]);
    }
    if (job->check_count == 0) {
        add_defaults(job);
    }
}
