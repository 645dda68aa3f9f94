/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cycle time of a job: cutting with acceleration and corners, other moves, tool changes and
 * handling, corrected by the shop's own times. */
#include "core/job/cycle_time.h"
#include "core/base/error.h"
#include "core/job/handling_time.h"
#include "core/job/hole_plan.h"
#include "core/job/job_file.h"
#include "core/job/move_time.h"
#include "core/job/outline_reach.h"
#include "core/job/path_plan.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/job/thread_plan.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/library/listing.h"
#include "core/names/registry.h"
#include <gsl/gsl_fit.h>
#include <math.h>
#include <string.h>

/* Values if neither job nor tables state them; memory. */
static const double default_acceleration = 0.5; /* m/s2 */
static const double default_deviation = 20e-6;  /* m, by which a control cuts a corner short */
static const double clearance = 2e-3;           /* m, by which a tool is lifted above the work */
static const double safe_height = 10e-3;        /* m, to which it is lifted between features */
static const size_t records_least = 3;

double bite_plan_cuts_of(double whole, double step)
{
    return fmax(1.0, ceil(whole / step - 1e-6));
}

/* The machine's limits of motion. */
typedef struct move_limits {
    double acceleration;
    double deviation;
    double rapid;
    double jerk; /* m/s3; NaN: unlimited */
} move_limits;

/* Of a pass on all parts, s. */
typedef struct pass_time {
    double cutting;
    double air;
    double rapids;
} pass_time;

/* The time of a move from rest to rest. */
static double move(const move_limits *limits, double length, double speed)
{
    return isnan(limits->jerk)
               ? bite_move_time_rest(length, speed, limits->acceleration)
               : bite_move_time_jerk(length, speed, limits->acceleration, limits->jerk);
}

static move_limits limits_of(const bite_job *job, size_t pass)
{
    const bite_cut *cut = &job->passes[pass].answer->full;
    move_limits limits;
    limits.acceleration = bite_job_file_number(job->file_data.machine, "acceleration");
    limits.acceleration = isnan(limits.acceleration) ? cut->acceleration : limits.acceleration;
    limits.acceleration = isnan(limits.acceleration) ? default_acceleration : limits.acceleration;
    limits.deviation = bite_job_file_number(job->file_data.machine, "corner_deviation");
    limits.deviation = isnan(limits.deviation) ? default_deviation : limits.deviation;
    double ramp = bite_job_file_number(job->file_data.machine, "ramp");
    limits.jerk = ramp > 0.0 ? limits.acceleration / ramp : (double)NAN;
    limits.rapid = bite_job_file_number(job->file_data.machine, "rapid");
    limits.rapid = isnan(limits.rapid) ? bite_plan_machine_figure(job, "rapid") : limits.rapid;
    limits.rapid = isnan(limits.rapid) ? fmax(cut->feed_fastest, cut->feed_rate) : limits.rapid;
    return limits;
}

/* Once around a rectangle with rounded corners, the tool inside it. */
static double wall_lap(const bite_planned_pass *pass, double along, double wide)
{
    double diameter = pass->answer->full.diameter;
    double radius = fmax(pass->corner_to, 0.5 * diameter);
    return fmax(diameter, 2.0 * (along + wide - 2.0 * diameter) -
                              (8.0 - 2.0 * M_PI) * (radius - 0.5 * diameter));
}

/* What a larger tool left in four corners, in laps that each take the width: along both walls as
 * far as its arc reached, around, and on and off. */
static void set_corner_laps(bite_planned_pass *pass)
{
    const bite_cut *cut = &pass->answer->full;
    double radius = 0.5 * cut->diameter;
    double thickest = (M_SQRT2 - 1.0) * (pass->corner_from - pass->corner_to);
    double laps = bite_plan_cuts_of(thickest, cut->width);
    pass->corners = 4.0 * laps;
    pass->lap = 4.0 * laps *
                (2.0 * (pass->corner_from - pass->corner_to) +
                 M_PI_2 * fmax(0.0, pass->corner_to - radius) + cut->diameter);
}

static int is_in_corners(const bite_planned_pass *pass)
{
    return pass->stage == BITE_STAGE_CORNERS || pass->stage == BITE_STAGE_MIDDLE;
}

/* The path of one lap: its length if the job states it, otherwise from the shape of the work. */
static void set_lap(const bite_job *job, const bite_section *section, bite_planned_pass *pass)
{
    const bite_cut *cut = &pass->answer->full;
    double length = bite_job_file_number(section, "length");
    double across = bite_job_file_number(section, "across");
    double step = isnan(cut->width) ? BITE_POCKET_STEP * cut->diameter : cut->width;
    double along = isnan(length) ? job->length : length;
    double wide = isnan(across) ? job->width : across;
    pass->corners = 4.0;
    if (is_in_corners(pass)) {
        set_corner_laps(pass);
        return;
    }
    if (pass->stage == BITE_STAGE_WALL &&
        bite_job_file_word(section, "work", 0) != BITE_WORK_BORE) {
        pass->lap = wall_lap(pass, along, wide);
        return;
    }
    switch (pass->stage == BITE_STAGE_WALL ? BITE_WORK_BORE : pass->work) {
    case BITE_WORK_FACE: { /* rows over the blank */
        int blank = bite_plan_holds_blank(job, bite_plan_setup(job, pass->setup));
        double blank_length = blank ? job->stock.layout.length : along;
        double blank_width = blank ? job->stock.layout.width : wide;
        double rows = bite_plan_cuts_of(blank_width, step);
        pass->lap = rows * (blank_length + cut->diameter) + blank_width;
        pass->corners = 2.0 * rows;
        break;
    }
    case BITE_WORK_POCKET:
    case BITE_WORK_ROUGH: /* laps from the outside inwards: their total length is the area over the
                             stepover, each with four corners */
        pass->lap = (isnan(pass->area) ? along * wide : pass->area) / step;
        pass->corners = 4.0 * bite_plan_cuts_of(0.5 * fmin(along, wide), step);
        break;
    case BITE_WORK_BORE:
        pass->lap = M_PI * fmax(wide - 2.0 * pass->leaves - cut->diameter, 0.1 * cut->diameter);
        pass->corners = 1.0;
        break;
    case BITE_WORK_THREAD_MILL:
        bite_plan_thread_path(job, pass);
        pass->lap = pass->hole.mill.length;
        pass->corners = pass->hole.mill.passes;
        break;
    case BITE_WORK_TAP: /* in, and out again at the same feed */
        pass->lap = 2.0 * cut->depth;
        pass->corners = 1.0;
        break;
    case BITE_WORK_REAM:
    case BITE_WORK_DRILL: /* on average: the last peck is only the rest of the hole */
        pass->lap = pass->depth / pass->passes;
        pass->corners = 1.0;
        break;
    case BITE_WORK_SLOT: /* a slot wider than its tool takes several laps */
        pass->lap =
            !isnan(length) ? length : 2.0 * (job->length + job->width) + 4.0 * cut->diameter;
        pass->lap *= across > cut->diameter * (1.0 + 1e-6)
                         ? 1.0 + bite_plan_cuts_of(across - cut->diameter, step)
                         : 1.0;
        break;
    case BITE_WORK_CHAMFER:
    case BITE_WORK_CONTOUR:
    case BITE_WORK_FINISH:
    case BITE_WORK_FREE:
    default:
        if (bite_pass_rounds_boss(section)) { /* round it, on arcs about its corners */
            double beside =
                pass->work == BITE_WORK_CHAMFER ? pass->path.tip_offset : 0.5 * cut->diameter;
            pass->lap = 2.0 * (along + wide) + 2.0 * M_PI * beside;
            break;
        }
        pass->lap =
            !isnan(length) ? length : 2.0 * (job->length + job->width) + 4.0 * cut->diameter;
        break;
    }
}

/* How often a pass is made, and its laps, on all parts; a face is that of a whole blank. */
static double times_of(const bite_job *job, const bite_planned_pass *pass)
{
    const bite_planned_setup *setup = bite_plan_setup(job, pass->setup);
    return pass->work != BITE_WORK_FACE ? pass->count * job->count
           : setup->separate            ? job->count
                                        : (double)job->stock.blanks;
}

static double corner_speed(const move_limits *limits)
{
    return bite_move_time_corner(0.5 * M_PI, limits->deviation, limits->acceleration);
}

/* Whether the tool goes down its own axis. */
static int goes_straight(const bite_planned_pass *pass)
{
    return bite_work_is_hole(pass->work) && pass->work != BITE_WORK_THREAD_MILL;
}

/* All laps of a pass on all parts, without the moves between them. */
static double cutting_time(const bite_job *job, const move_limits *limits,
                           const bite_planned_pass *pass)
{
    double feed = bite_plan_lap_feed(pass);
    double lap = goes_straight(pass)
                     ? move(limits, pass->lap, feed)
                     : bite_move_time_loop(pass->lap, pass->corners, feed, limits->acceleration,
                                           corner_speed(limits));
    return times_of(job, pass) * (pass->passes + pass->springs) * lap;
}

/* The share of the time of a pass in which one bond is under load: a blank has a bond of its own,
 * and so has a part that was cut free before. */
static double bond_share(const bite_job *job, const bite_planned_pass *pass)
{
    return bite_plan_setup(job, pass->setup)->separate ? 1.0 / job->count
           : pass->work == BITE_WORK_FACE              ? 1.0 / (double)job->stock.blanks
                                                       : (double)job->stock.on_each / job->count;
}

double bite_plan_load_time(const bite_job *job, size_t last)
{
    move_limits limits = limits_of(job, 0);
    double time = 0.0;
    for (size_t i = 0; i <= last; i++) {
        if (job->passes[i].setup == job->passes[last].setup) {
            bite_planned_pass pass = job->passes[i];
            set_lap(job, job->file_data.passes[i], &pass);
            time += cutting_time(job, &limits, &pass) * bond_share(job, &pass);
        }
    }
    return time;
}

/* Into the feature for one step over the depth: down its slope, leg by leg, or on and off a wall by
 * a quarter of a circle each. */
static double entry_time(const move_limits *limits, const bite_planned_pass *pass)
{
    const bite_planned_entry *entry = &pass->entry;
    double feed = pass->answer->full.feed_rate;
    double time = isnan(pass->path.lead) ? 0.0 : 2.0 * move(limits, M_PI_2 * pass->path.lead, feed);
    if (!isnan(entry->length)) {
        double legs = fmax(1.0, entry->legs);
        time += legs * move(limits, entry->length / legs, entry->feed);
    }
    return time;
}

/* From the clearance above the work at the feed of a plunge and back at rapid speed, for each lap;
 * a drill is withdrawn by half of its hole on average, at every peck. */
static double air_time(const move_limits *limits, const bite_planned_pass *pass)
{
    const bite_cut *cut = &pass->answer->full;
    int pecks = bite_work_is_hole(pass->work);
    double down = isnan(cut->entry_feed) ? cut->feed_rate / 3.0 : cut->entry_feed;
    if (pass->work == BITE_WORK_THREAD_MILL) { /* down the hole's axis, and out */
        return 2.0 * move(limits, pass->depth + clearance, limits->rapid);
    }
    double lift = move(limits, pecks ? 0.5 * pass->depth + clearance : clearance, limits->rapid);
    return (pecks ? lift : move(limits, clearance, down)) + lift;
}

/* To a feature from the one before it, up and down with it. */
static double rapid_time(const bite_job *job, const move_limits *limits,
                         const bite_planned_pass *pass)
{
    double over = pass->work == BITE_WORK_FACE ? 0.0 : fmax(job->length, job->width);
    return move(limits, over, limits->rapid) + 2.0 * move(limits, safe_height, limits->rapid);
}

/* The parts of the time of a pass on all parts. Corners are four features that are near. */
static pass_time time_of(const bite_job *job, const move_limits *limits,
                         const bite_section *section, bite_planned_pass *pass)
{
    double hops = is_in_corners(pass) ? 4.0 : 1.0;
    double times = times_of(job, pass);
    double laps = times * (pass->passes + pass->springs);
    double feed = bite_plan_lap_feed(pass);
    double near =
        0.5 * (bite_job_file_number(section, "length") + bite_job_file_number(section, "across"));
    pass_time time;
    pass->feed_seconds = laps * pass->lap / feed;
    pass->slowed = bite_work_is_hole(pass->work) ? 1.0 : fmin(1.0, corner_speed(limits) / feed);
    pass->entry_seconds = laps * entry_time(limits, pass);
    time.cutting = cutting_time(job, limits, pass);
    time.air = hops * laps * air_time(limits, pass);
    time.rapids = times * rapid_time(job, limits, pass) +
                  (hops > 1.0 ? (hops - 1.0) * laps * move(limits, near, limits->rapid) : 0.0);
    pass->move_seconds = time.air + time.rapids;
    pass->seconds = time.cutting + pass->entry_seconds + pass->move_seconds;
    return time;
}

static void time_pass(bite_job *job, const move_limits *limits, size_t index)
{
    bite_planned_time *time = &job->time;
    bite_planned_pass *pass = &job->passes[index];
    pass_time part = time_of(job, limits, job->file_data.passes[index], pass);
    time->feed_only += pass->feed_seconds;
    time->cornering += part.cutting - pass->feed_seconds;
    time->entries += pass->entry_seconds;
    time->air += part.air;
    time->rapids += part.rapids;
}

double bite_plan_pass_seconds(const bite_job *job, size_t index)
{
    move_limits limits = limits_of(job, index);
    bite_planned_pass pass = job->passes[index];
    set_lap(job, job->file_data.passes[index], &pass);
    (void)time_of(job, &limits, job->file_data.passes[index], &pass);
    return pass.seconds;
}

/* Corrects the time by took = a + b x planned, fitted to the shop's own records, to the latest if
 * there are very many; by their mean ratio if there are only one or two, or if they define no
 * usable line: all planned times are equal, or the line falls or becomes negative. */
static void correct_time(bite_job *job)
{
    enum { MOST = 256 };
    double planned[MOST];
    double took[MOST];
    size_t count = 0;
    size_t records = 0;
    bite_status status = bite_library_size(job->library, BITE_TIMES, &records, NULL);
    job->out_of_memory |= status == BITE_NO_MEMORY;
    for (size_t i = records; count < MOST && i-- > 0;) {
        bite_item item;
        const bite_item_record *record = NULL;
        status = bite_library_item(job->library, BITE_TIMES, i, &item, NULL);
        status = status != BITE_OK
                     ? status
                     : bite_library_record(job->library, BITE_TIMES, item.name, &record, NULL);
        job->out_of_memory |= status == BITE_NO_MEMORY;
        if (status == BITE_OK) {
            planned[count] = bite_item_figure(record, "planned");
            took[count] = bite_item_figure(record, "took");
            double ratio = took[count] / planned[count];
            count += ratio > 1.0 / 30.0 &&
                     ratio < 30.0; /* outside this range something else was timed */
        }
    }
    job->time.records = (uint32_t)count;
    job->time.corrected = (double)NAN;
    if (count >= records_least) {
        double a = 0.0;
        double b = 0.0;
        double covariance[3];
        double squares = 0.0;
        (void)gsl_fit_linear(planned, 1, took, 1, count, &a, &b, &covariance[0], &covariance[1],
                             &covariance[2], &squares);
        double corrected = a + b * job->time.whole;
        job->time.corrected = b > 0.0 && isfinite(b) && corrected > 0.0 ? corrected : (double)NAN;
    }
    if (count > 0 && isnan(job->time.corrected)) {
        double ratio = 0.0;
        for (size_t i = 0; i < count; i++) {
            ratio += took[i] / planned[i] / (double)count;
        }
        job->time.corrected = ratio * job->time.whole;
    }
}

static void check_corners(bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const bite_result *result = &pass->answer->result;
        double least = result->values[BITE_CHIP_THICKNESS_LEAST].value;
        double heavy = result->values[BITE_CHIP_LOAD].value;
        if (!bite_work_is_hole(pass->work) && pass->slowed < 1.0 && pass->slowed * heavy < least) {
            const bite_remark_value values[] = {bite_remark_text(pass->title),
                                                bite_remark_number(pass->slowed)};
            bite_plan_remark(job, BITE_REMARK_CORNERS, values, 2);
        }
    }
}

bite_status bite_plan_pass_times(bite_job *job, bite_error *error)
{
    bite_planned_time *time = &job->time;
    move_limits limits = limits_of(job, 0);
    (void)error;
    for (size_t i = 0; i < job->pass_count; i++) {
        set_lap(job, job->file_data.passes[i], &job->passes[i]);
        time_pass(job, &limits, i);
    }
    time->cutting = time->feed_only + time->cornering;
    time->ways = time->entries + time->air + time->rapids;
    return BITE_OK;
}

bite_status bite_plan_time(bite_job *job, bite_error *error)
{
    (void)error;
    for (size_t i = 0; i < job->pass_count; i++) {
        job->time.pauses += job->passes[i].pause_seconds;
        job->passes[i].seconds += job->passes[i].pause_seconds;
    }
    bite_plan_handling_time(job);
    correct_time(job);
    check_corners(job);
    return BITE_OK;
}
