/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A vise: the piece between its jaws, and what passes may meet, the jaws beside the piece and the
 * bed below it.
 *
 * The piece rests on parallels so high that the jaws grip it by jaw_depth; below it is what is left
 * of the height of the jaws, vise_depth, down to the bed.
 */
#include "core/job/vise_plan.h"
#include "core/job/job_file.h"
#include "core/job/machine_lengths.h"
#include "core/job/outline_reach.h"
#include "core/job/pass_sweep.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/job/setup_plan.h"
#include "core/library/item.h"
#include <math.h>

/* A vise supports a piece over its jaws and about half of their width beyond each end (common
 * practice). */
static const double longest_over_jaws = 2.0;
static const double hair = 1e-9;

void bite_plan_between_jaws(const bite_job *job, const bite_planned_setup *setup, double *between,
                            double *along)
{
    int blank = job->stock.on_each > 1 && bite_plan_holds_blank(job, setup);
    double length = blank ? job->stock.layout.length : job->length;
    double width = blank ? job->stock.layout.width : job->width;
    double given = bite_plan_hold_number(setup, "between_jaws");
    if (!bite_plan_lies_flat(setup)) {
        bite_plan_setup_footprint(job, setup, &length, &width);
    }
    *along = fmax(length, width);
    *between = isnan(given) ? fmin(length, width) : given;
}

double bite_plan_jaw_depth(const bite_job *job, const bite_planned_setup *setup)
{
    double given = bite_plan_hold_number(setup, "jaw_depth");
    return fmin(isnan(given) ? bite_item_figure(setup->hold.hold, "jaw_depth") : given,
                bite_plan_setup_height(job, setup));
}

/* " in setup 2", if there are several. */
static const char *named(bite_job *job, const bite_planned_setup *setup, const char *what)
{
    return job->setups > 1 ? bite_plan_text(job, "%s in setup %u", what, (unsigned)setup->number)
                           : what;
}

/* ---- the piece in the vise ---- */

static void check_size(bite_job *job, const bite_planned_setup *setup)
{
    double depth = bite_plan_hold_number(setup, "jaw_depth");
    double between = 0.0;
    double along = 0.0;
    bite_plan_between_jaws(job, setup, &between, &along);
    if (bite_plan_machine_excess(job, "vise_opening", between) == 2) {
        bite_plan_machine_beyond(job, BITE_REMARK_VISE_TOO_SMALL,
                                 named(job, setup, "the piece between the jaws"), between,
                                 "vise_opening", 2);
    }
    if (bite_plan_machine_excess(job, "vise_depth", depth) == 2) {
        bite_plan_machine_beyond(job, BITE_REMARK_VISE_TOO_SMALL, named(job, setup, "the grip"),
                                 depth, "vise_depth", 2);
    }
    if (bite_plan_machine_excess(job, "vise_width", along / longest_over_jaws) == 2) {
        const bite_remark_value values[] = {
            bite_remark_number(along),
            bite_remark_number(bite_plan_machine_length(job, "vise_width").value),
            bite_remark_text(named(job, setup, ""))};
        bite_plan_remark(job, BITE_REMARK_OVERHANGS_JAWS, values, 3);
    }
}

/* ---- the jaws beside it ---- */

/* Whether the jaws grip the long edges of a part that lies flat by itself: then they are two areas
 * beside it. Returns 0 if that is not known. */
static int jaws_beside(const bite_job *job, const bite_planned_setup *setup, int *long_edges)
{
    double between = 0.0;
    double along = 0.0;
    int alone = job->stock.on_each == 1 || !bite_plan_holds_blank(job, setup);
    bite_plan_between_jaws(job, setup, &between, &along);
    *long_edges = fabs(between - job->width) <= fabs(between - job->length);
    return alone && bite_plan_lies_flat(setup);
}

/* How far what a pass sweeps at its positions goes over an edge that the jaws grip; negative: it
 * stays inside. NaN: its positions or its size are not known. */
static double over_gripped_edge(const bite_job *job, size_t index, int long_edges)
{
    bite_swept_area swept;
    double most = (double)NAN;
    int placed = job->places[index]->count > 0;
    for (size_t k = 0; placed && bite_pass_sweep(job, index, k, &swept); k++) {
        const bite_round_area *area = &swept.outer;
        double size = long_edges ? job->width : job->length;
        double centre = long_edges ? area->y : area->x;
        double half = (long_edges ? area->half_y : area->half_x) + area->radius;
        double over = fmax(centre + half - size, half - centre);
        most = over <= most ? most : over;
    }
    return most;
}

/* Whether a pass whose place is not known leaves the part over an edge that the jaws grip. A slot
 * or a pocket that is stated to run along the jaws leaves it at their open ends. */
static int leaves_part(const bite_job *job, size_t index, int known, int long_edges)
{
    const bite_planned_pass *pass = &job->passes[index];
    const bite_section *section = job->file_data.passes[index];
    const uint32_t not_stated = 2;
    uint32_t along = bite_job_file_word(section, "along", not_stated);
    double length = bite_job_file_number(section, "length");
    double across = bite_job_file_number(section, "across");
    if (pass->work == BITE_WORK_FACE || bite_pass_rounds_part(job, section, pass->work)) {
        return 1;
    }
    if (!bite_pass_is_open(job, section, pass->work)) {
        return 0;
    }
    double reaches = (along == 1) == long_edges ? length : across;
    return !known || along == not_stated ||
           !(reaches < (long_edges ? job->width : job->length) * (1.0 - hair));
}

/* How deep the tool goes: that of a chamfer goes below it with its tip, beside the edge. */
static double lowest(const bite_planned_pass *pass)
{
    return pass->path.tip_depth > pass->depth ? pass->path.tip_depth : pass->depth;
}

/* A cut over an edge that the jaws grip meets them if it is deeper than the part projects above. */
static void check_jaws(bite_job *job, bite_planned_setup *setup)
{
    double part = bite_plan_setup_height(job, setup);
    double height = bite_plan_lies_flat(setup) ? fmax(part, job->stock.thick) : part;
    double out = height - bite_plan_jaw_depth(job, setup);
    int long_edges = 0;
    int known = jaws_beside(job, setup, &long_edges);
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double over = known ? over_gripped_edge(job, i, long_edges) : (double)NAN;
        int meets = isnan(over) ? leaves_part(job, i, known, long_edges) : over > hair;
        if (pass->setup == setup->number && meets && lowest(pass) > out * (1.0 + 1e-9)) {
            setup->hold.strikes = 1;
            const bite_remark_value values[] = {bite_remark_text(pass->title),
                                                bite_remark_number(lowest(pass) - out)};
            bite_plan_remark(job, BITE_REMARK_CUTTER_HITS_JAWS, values, 2);
        }
    }
}

/* ---- the bed below it ---- */

/* Room between the piece and the bed; NaN: the height of the jaws is not known. */
static double room_below(const bite_job *job, const bite_planned_setup *setup)
{
    double jaws = bite_plan_machine_length(job, "vise_depth").value;
    return isnan(jaws) ? jaws : fmax(0.0, jaws - bite_plan_jaw_depth(job, setup));
}

static void check_bed(bite_job *job, bite_planned_setup *setup)
{
    double part = bite_plan_setup_height(job, setup);
    double room = room_below(job, setup);
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double below = pass->depth - part;
        if (pass->setup == setup->number && pass->work != BITE_WORK_FACE && below > room + hair) {
            setup->hold.strikes = 1;
            const bite_remark_value values[] = {
                bite_remark_text(pass->title), bite_remark_number(below), bite_remark_number(room)};
            bite_plan_remark_from(job, BITE_REMARK_CUTS_VISE_BED, BITE_DANGER,
                                  bite_plan_machine_length(job, "vise_depth").source, values, 3);
        }
    }
}

/* What the check took for granted. */
static void say_assumed(bite_job *job, const bite_planned_setup *setup)
{
    bite_machine_length jaws = bite_plan_machine_length(job, "vise_depth");
    double depth = bite_plan_jaw_depth(job, setup);
    double between = 0.0;
    double along = 0.0;
    bite_plan_between_jaws(job, setup, &between, &along);
    const bite_remark_value values[] = {bite_remark_text(named(job, setup, "")),
                                        bite_remark_number(depth), bite_remark_number(between),
                                        bite_remark_number(jaws.value),
                                        bite_remark_number(room_below(job, setup))};
    bite_plan_remark_from(job, BITE_REMARK_GRIPPED_SO, BITE_NOTE, jaws.source, values, 5);
}

void bite_plan_vise(bite_job *job, bite_planned_setup *setup)
{
    check_size(job, setup);
    check_jaws(job, setup);
    check_bed(job, setup);
    say_assumed(job, setup);
}
