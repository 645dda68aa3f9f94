/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Properties of the plans of random valid jobs. A property is a function in the list below; it is
 * checked on every job.
 *
 * BITE_TEST_JOBS: how many jobs; a few without it. BITE_TEST_FIRST: the number of the first one.
 */
#include "core/report/job/pass_depths.h"
#include "core/units/format_quantity.h"
#include "tests/job/random_job.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SHORT = 40, FEW_DRAWS = 32 };

static const double hair = 1e-9; /* m */

/* What fails names the job. */
static char failing[200];

#define HOLDS(claim) ck_assert_msg(claim, "%s: %s", failing, #claim)

/* All parts are on some blank, and each blank holds its parts. */
static void blanks_hold_all_parts(const bite_job *job)
{
    const bite_planned_stock *stock = &job->stock;
    const bite_layout *layout = &stock->layout;
    uint32_t count = (uint32_t)job->count;
    HOLDS(stock->blanks >= 1 && stock->on_each >= 1 && stock->on_last >= 1);
    HOLDS(stock->on_last <= stock->on_each);
    HOLDS(stock->on_each * (stock->blanks - 1) + stock->on_last == count);
    if (layout->along == 0) {
        HOLDS(job->verdict == BITE_OVER);
        return;
    }
    double along = layout->turned ? job->width : job->length;
    double across = layout->turned ? job->length : job->width;
    double gaps_along = (layout->along - 1.0) * stock->gap;
    double gaps_across = (layout->rows - 1.0) * stock->gap;
    HOLDS(layout->along * layout->rows >= stock->on_each);
    HOLDS(layout->length >= layout->along * along + gaps_along + 2.0 * stock->margin - hair);
    HOLDS(layout->width >= layout->rows * across + gaps_across + 2.0 * stock->margin - hair);
    HOLDS(!(layout->length > stock->sheet_length + hair));
    HOLDS(!(layout->width > stock->sheet_width + hair));
}

/* A sheet that was chosen contains the part and what is skimmed even where it is thinnest; one that
 * stays as supplied is not called thinner than the part may be. Any other sheet is reported. */
static void sheets_contain_their_parts(const bite_job *job)
{
    const bite_planned_stock *stock = &job->stock;
    double tolerance = bite_job_file_number(job->file_data.part, "tolerance");
    double least = job->thickness - (isnan(tolerance) ? 0.0 : tolerance);
    int chosen = stock->chosen && !stock->measured;
    HOLDS(stock->needed >= job->thickness);
    if (stock->as_sold) {
        HOLDS(!chosen || stock->nominal >= least - hair);
        HOLDS(isnan(tolerance) || stock->thin >= least - hair || stock->off_size > 0);
    } else {
        HOLDS(!chosen || stock->thin >= stock->needed - hair);
        HOLDS(stock->thin >= stock->needed - hair || stock->short_by > 0.0);
        HOLDS(!(stock->short_by > 0.0) || job->verdict >= BITE_TIGHT);
    }
}

/* The work fits the machine that the job names, or the plan is over. */
static void work_fits_the_machine(const bite_job *job)
{
    const bite_planned_envelope *envelope = &job->envelope;
    const bite_layout *layout = &job->stock.layout;
    int fits = 1;
    for (size_t i = 0; i < 3; i++) {
        fits &= envelope->needs[i] <= envelope->travel[i] + hair;
    }
    HOLDS(layout->along == 0 ||
          envelope->needs[0] + envelope->needs[1] >= layout->length + layout->width - hair);
    HOLDS(envelope->stack >= job->stock.thick + envelope->stickout + envelope->fixture);
    HOLDS(fits || !envelope->stated || (envelope->beyond && job->verdict == BITE_OVER));
}

/* Each setup has its zero, and no blind pass breaks through unreported. */
static void floors_remain_or_are_reported(const bite_job *job)
{
    for (uint32_t i = 0; i < job->setups; i++) {
        const bite_planned_datum *datum = &job->datums[i];
        double chosen = datum->on_fixture ? datum->error_fixture : datum->error_top;
        HOLDS(datum->setup == i + 1 && datum->pass < (int)job->pass_count);
        HOLDS(datum->pass < 0 || (chosen >= 0.0 && datum->tolerance > 0.0));
    }
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double middle = 0.5 * (job->stock.thin + job->stock.thick);
        HOLDS(!(pass->floor_thin > pass->floor_thick));
        HOLDS(!(pass->floor_thin < 0.0) || job->stock.breaks_through || pass->depth >= middle ||
              pass->depth >= job->thickness);
    }
}

/* What a pass sweeps beyond its part, by the diameter of its tool: it stays a web away from what is
 * swept round the neighbour, and inside the blank. */
static void swept_areas_do_not_meet(const bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double diameter = job->tools[pass->tool].diameter;
        int round = pass->work == BITE_WORK_FREE || pass->work == BITE_WORK_CONTOUR ||
                    pass->work == BITE_WORK_CHAMFER;
        double length = bite_job_file_number(job->file_data.passes[i], "length");
        double around = 2.0 * (job->length + job->width);
        round |= pass->work == BITE_WORK_FINISH && !(length < 0.78 * around);
        if (round && job->stock.on_each > 1) {
            HOLDS(job->stock.gap >= 2.0 * diameter + 1e-3 - hair);
        }
        HOLDS(!round || job->stock.margin >= diameter);
    }
}

/* No pass sweeps into a part, a screw or a clamp, or the plan is over and names both. With a gap
 * that was chosen, no pass round a part does. */
static void passes_meet_nothing_unreported(const bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        int free = pass->work == BITE_WORK_FREE;
        HOLDS(isnan(pass->clearance) == (pass->nearest[0] == 0));
        HOLDS(!(pass->clearance < -hair) || job->verdict == BITE_OVER);
        HOLDS(!free || strcmp(pass->nearest, "the neighbouring part") != 0 ||
              pass->clearance >= job->tools[pass->tool].diameter);
    }
}

/* A pass is no deeper than its feature, and its tool no wider. */
static void passes_stay_in_their_features(const bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double across = bite_job_file_number(job->file_data.passes[i], "across");
        int tip = pass->work == BITE_WORK_CHAMFER; /* which is below the chamfer */
        double cut = pass->answer->full.depth;     /* of a full-form mill: of all its grooves */
        double more = pass->work == BITE_WORK_THREAD_MILL ? pass->hole.pitch : 0.0;
        HOLDS(tip || cut <= pass->depth + more + hair);
        HOLDS(!(job->tools[pass->tool].diameter > across * (1.0 + 1e-9)));
    }
}

/* The mill of a thread fits its hole, cuts its pitch and reaches its depth. */
static void mill_fits_thread(const bite_job *job, const bite_planned_pass *pass)
{
    const bite_thread_mill *mill = &pass->hole.mill.tool;
    const bite_item_record *record = mill->record;
    double major = bite_item_figure(pass->hole.thread, "thread_diameter");
    double pitch = pass->hole.pitch;
    double teeth = bite_item_figure(record, "flute_length");
    double neck = bite_item_figure(record, "neck_length");
    HOLDS(record != NULL && strcmp(job->tools[pass->tool].kind, "thread mill") == 0);
    HOLDS(mill->diameter <= 0.7 * major + hair);
    HOLDS(mill->diameter <= pass->hole.diameter - 0.2e-3 + hair);
    HOLDS(pitch >= bite_item_figure(record, "pitch_least") - hair);
    HOLDS(pitch <= bite_item_figure(record, "pitch_most") + hair);
    HOLDS(pass->depth + 0.5 * pitch <= teeth + (isnan(neck) ? 0.0 : neck) + hair);
    HOLDS(mill->rows <= 1.0 || teeth >= mill->rows * pitch - hair);
}

/* A milled thread is cut from its hole out to its diameter, a pitch longer than it is deep and no
 * deeper than its hole, from an arc, climbing unless the machine has backlash; its time is that of
 * its passes. */
static void threads_are_milled_soundly(const bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        const bite_planned_thread_mill *mill = &pass->hole.mill;
        double pitch = pass->hole.pitch;
        double wide = pass->hole.diameter;
        double seconds = 0.0;
        HOLDS(pass->work != BITE_WORK_THREAD);
        HOLDS((pass->work == BITE_WORK_THREAD_MILL) == (mill->passes > 0));
        if (pass->work != BITE_WORK_THREAD_MILL) {
            continue;
        }
        mill_fits_thread(job, pass);
        double major = bite_item_figure(pass->hole.thread, "thread_diameter");
        for (uint32_t n = 0; n < mill->passes; n++) {
            double diameter = mill->path.diameters[n];
            double centre = mill->edge_feed * (diameter - mill->tool.diameter) / diameter;
            HOLDS(diameter > wide);
            HOLDS(mill->path.feeds[n] > 0.0 && mill->path.feeds[n] <= centre * (1.0 + 1e-9));
            wide = diameter;
            seconds += mill->path.lengths[n] / mill->path.feeds[n];
        }
        HOLDS(fabs(wide - major) < hair);
        HOLDS(pass->depth + pitch <= pass->hole.depth + hair);
        HOLDS(mill->path.turns * mill->tool.rows * pitch >= pass->depth + pitch - hair);
        HOLDS(pass->entry.kind == BITE_ENTER_ARC && pass->entry.length > 0.0);
        HOLDS(mill->upward == (pass->path.conventional == pass->hole.left_hand));
        seconds *= pass->count * job->count;
        HOLDS(fabs(pass->feed_seconds - seconds) < 1e-6 * seconds);
    }
}

/* The steps of a pass add up to its feature; printed in either unit system, with the steps of a
 * control, to no more than that and to less by no more than such a step. */
static void printed_sums_stay_in_their_features(const bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        double planned = ((double)pass->passes - 1.0) * pass->step_down + pass->last_step;
        HOLDS(planned <= pass->depth + hair);
        for (int units = BITE_METRIC; units <= BITE_INCH; units++) {
            double step = bite_control_step((bite_units)units);
            bite_pass_depths depths = bite_pass_depths_of_pass(pass, (bite_units)units);
            double printed = (depths.count - 1.0) * depths.each + depths.last;
            HOLDS(printed <= planned + hair);
            HOLDS(printed >= planned - step - hair || planned < step);
        }
    }
}

/* A holder or shank that comes into something makes the plan over and is named. */
static void holders_meet_nothing_unreported(const bite_job *job)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        HOLDS(isnan(pass->holder_clearance) == (pass->holder_nearest[0] == 0));
        HOLDS(!(pass->holder_clearance < -hair) || job->verdict == BITE_OVER);
    }
}

/* The properties; each fails the test by itself. */
static void (*const properties[])(const bite_job *) = {
    check_plan,
    blanks_hold_all_parts,
    sheets_contain_their_parts,
    work_fits_the_machine,
    floors_remain_or_are_reported,
    swept_areas_do_not_meet,
    passes_meet_nothing_unreported,
    passes_stay_in_their_features,
    threads_are_milled_soundly,
    printed_sums_stay_in_their_features,
    holders_meet_nothing_unreported,
};

static unsigned long number_from(const char *name, unsigned long otherwise)
{
    const char *text = getenv(name);
    return text == NULL || *text == 0 ? otherwise : strtoul(text, NULL, 10);
}

START_TEST(properties_hold_for_random_jobs)
{
    unsigned long jobs = number_from("BITE_TEST_JOBS", SHORT);
    unsigned long first = number_from("BITE_TEST_FIRST", 0);
    unsigned long without_a_face = 0; /* face a side of which nothing is removed: refused */
    bite_job_options options = job_options(FEW_DRAWS);
    for (unsigned long number = first; number < first + jobs; number++) {
        growing_text text = random_job_text(number);
        (void)snprintf(failing, sizeof failing, "BITE_TEST_FIRST=%lu BITE_TEST_JOBS=1", number);
        if (getenv("BITE_TEST_SHOW") != NULL) {
            puts(text.text);
        }
        options.units_given = 0;
        bite_error error = BITE_ERROR_INIT;
        bite_job *job = NULL;
        bite_status status = bite_job_parse(job_library, "job.ini", text.text, text.size, &options,
                                            NULL, NULL, &job, &error);
        if (strcmp(error.message, "nothing is left to face on this side") == 0) {
            ck_assert_ptr_null(job);
            without_a_face++;
            free(text.text);
            continue;
        }
        ck_assert_msg(status == BITE_OK, "%s: line %u %s: %s (%s)\n%s", failing, error.line,
                      error.key, error.message, error.hint, text.text);
        for (size_t i = 0; i < sizeof properties / sizeof *properties; i++) {
            properties[i](job);
        }
        bite_job_free(job);
        free(text.text);
    }
    ck_assert_uint_le(without_a_face, jobs / 5 + 1);
    printf("%lu random jobs, from %lu; %lu have nothing to face\n", jobs, first, without_a_face);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("random jobs");
    TCase *tests = tcase_create("random jobs");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, properties_hold_for_random_jobs);
    tcase_set_timeout(tests, 7200);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
