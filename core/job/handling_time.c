/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The time of a job that is not cut, from the class of the machine and the method of holding.
 *
 * Hands are needed to mount, to set zero, to change tools without a changer, to release and to
 * clean. While the machine cuts, and while glue cures or a part soaks, they are free for other
 * work: for the next blank, if it is mounted on a plate beside the machine.
 */
#include "core/job/handling_time.h"
#include "core/job/job_file.h"
#include "core/library/item.h"
#include <math.h>
#include <string.h>

/* Values if neither job nor tables state them; memory. */
static const double default_change = 90.0;       /* s, by hand into a collet: 60 to 180 */
static const double default_spindle_start = 5.0; /* s, up and down: 2 to 10 */
static const double default_zero = 300.0;        /* s, to find zero and start a setup: 120 to 600 */
static const double cleaning = 40.0;             /* s, wiping and inspecting, each part */

double bite_plan_machine_figure(const bite_job *job, const char *key)
{
    return bite_item_figure(job->envelope.machine, key);
}

static double first_of(double a, double b)
{
    return isnan(a) ? b : a;
}

double bite_plan_change_time(const bite_job *job, int *automatic)
{
    const bite_item_record *machine = job->envelope.machine;
    if (automatic != NULL) {
        *automatic = machine != NULL && bite_item_is_yes(machine, "tool_changer");
    }
    double stated = bite_job_file_number(job->file_data.tools, "change");
    return first_of(stated, first_of(bite_plan_machine_figure(job, "tool_change"), default_change));
}

/* The tool changes of all blanks. They are cut one after another in each setup, each with all of
 * its tools, and the next one begins with the first tool again. */
static uint32_t count_changes(const bite_job *job)
{
    uint32_t changes = 0;
    uint32_t blanks = job->stock.blanks < 1 ? 1 : job->stock.blanks;
    size_t first = 0; /* of its setup */
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        int last = i + 1 == job->pass_count || pass[1].setup != pass->setup;
        int other = i + 1 < job->pass_count && pass[1].tool != pass->tool;
        changes += (uint32_t)other * (last ? 1 : blanks);
        changes += last && job->passes[first].tool != pass->tool ? blanks - 1 : 0;
        first = last ? i + 1 : first;
    }
    return changes;
}

/* Tool changes, spindle starts, and zeroing once in each setup. */
static void add_changes(bite_job *job)
{
    bite_planned_time *time = &job->time;
    double blanks = fmax(1.0, (double)job->stock.blanks);
    const bite_section *machine = job->file_data.machine;
    int automatic = 0;
    double change = bite_plan_change_time(job, &automatic);
    double start =
        first_of(bite_job_file_number(machine, "spindle_start"),
                 first_of(bite_plan_machine_figure(job, "spindle_start"), default_spindle_start));
    double zero = first_of(bite_job_file_number(machine, "set_zero"),
                           first_of(bite_plan_machine_figure(job, "set_zero"), default_zero));
    time->tool_changer = (uint32_t)automatic;
    time->tool_changes = count_changes(job);
    time->tool_changing = time->tool_changes * change;
    time->spindle_starts = (time->tool_changes + (double)job->setups * blanks) * start;
    time->zeroing = job->setups * zero;
    time->changes = time->tool_changing + time->spindle_starts + time->zeroing;
}

/* One method of holding, so many times. What is bonded to a plate is mounted beside the machine. */
static int add_hold(const bite_planned_hold *hold, double mountings, bite_planned_time *time)
{
    if (hold->hold == NULL) {
        return 0;
    }
    /* the method's time includes the cure of a usual gap */
    double usual = isnan(hold->cure) ? 0.0 : bite_workholding_cure(0.05e-3);
    double cure = isnan(hold->cure) ? bite_item_figure_or(hold->hold, "put_on_wait", 0.0)
                                    : fmax(hold->cure, usual);
    double within = isnan(hold->cure) ? cure : usual;
    double release = bite_item_figure_or(hold->hold, "release_time", 0.0);
    double soak = fmin(release, bite_item_figure_or(hold->hold, "release_wait", 0.0));
    double mounting = fmax(0.0, bite_item_figure_or(hold->hold, "put_on_time", 0.0) - within);
    time->mounting += mountings * mounting;
    time->cure += mountings * cure;
    time->releasing += mountings * (release - soak);
    time->soak += mountings * soak;
    return bite_item_word(hold->hold, "sort", 0) == 0; /* bond */
}

/* Two plates and one pair of hands: a blank takes no less than the machine is occupied, than the
 * hands are, and than half of the time that it spends on its plate. */
static void set_overlap(bite_planned_time *time, int bonded)
{
    double machine = time->cutting + time->ways + time->pauses + time->changes;
    double by_hand = time->tool_changer ? 0.0 : time->tool_changing;
    time->hands = by_hand + time->zeroing + time->mounting + time->releasing + time->cleaning;
    time->waiting = time->cure + time->soak;
    time->machine_alone = time->cutting + time->ways + time->pauses + time->spindle_starts +
                          (time->tool_changer ? time->tool_changing : 0.0);
    time->overlapped = bonded ? fmax(0.5 * time->whole, fmax(machine, time->hands)) : (double)NAN;
}

void bite_plan_handling_time(bite_job *job)
{
    bite_planned_time *time = &job->time;
    add_changes(job);
    int bonded = 1;
    for (uint32_t i = 0; i < job->setups; i++) {
        const bite_planned_setup *setup = &job->setup_plan[i];
        bonded &=
            add_hold(&setup->hold, setup->separate ? setup->mountings : job->stock.blanks, time);
    }
    time->cleaning = job->count * cleaning;
    time->loading = time->mounting + time->cure;
    time->release = time->releasing + time->soak + time->cleaning;
    time->whole =
        time->cutting + time->ways + time->pauses + time->changes + time->loading + time->release;
    set_overlap(time, bonded);
}
