/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The setups of a job: which face is up, where zero is, the keys of the hold, and what earlier
 * cuts have left of the face that the part lies on. */
#ifndef BITE_JOB_SETUP_PLAN_H
#define BITE_JOB_SETUP_PLAN_H

#include "core/job/plan.h"

/** Reads the setups of the job file; called first. */
bite_status bite_plan_setups(bite_job *job, bite_error *error);

/** The setup of this number, from 1. */
const bite_planned_setup *bite_plan_setup(const bite_job *job, uint32_t number);

/** The hold of a setup; that of the job if its setups are not planned. */
const bite_planned_hold *bite_plan_hold_of(const bite_job *job, uint32_t number);

/** A number of the hold, as the job file states it: in the setup's own section, otherwise in [hold]
 * if the setup has no method of its own; NaN. Torque and clamp_force of the setup replace both of
 * [hold]. */
double bite_plan_hold_number(const bite_planned_setup *setup, const char *key);

/** A word of the hold, likewise. */
uint32_t bite_plan_hold_word(const bite_planned_setup *setup, const char *key, uint32_t otherwise);

/** The method of the hold, likewise; NULL. */
const char *bite_plan_hold_method(const bite_planned_setup *setup);

/** How the hold of a setup clamps: jaws, screws, tabs or none. */
uint32_t bite_plan_clamp_of(const bite_planned_setup *setup);

/** Whether the blank is clamped so in a setup before its parts are cut free, or while they are. The
 * passes must be known. */
int bite_plan_blank_clamped(const bite_job *job, uint32_t clamp);

/** Whether a side is up along the part's thickness: top or bottom. */
int bite_plan_lies_flat(const bite_planned_setup *setup);

/** Whether what is cut in a setup is in the face below of another. */
int bite_plan_is_below(const bite_planned_setup *cut_in, const bite_planned_setup *setup);

/** Height of the part in the setup, m, and the sides of the face that it lies on. */
double bite_plan_setup_height(const bite_job *job, const bite_planned_setup *setup);
void bite_plan_setup_footprint(const bite_job *job, const bite_planned_setup *setup, double *along,
                               double *across);

/** Height of the tabs, m, as stated or as a share of the part. */
double bite_plan_tab_height(const bite_job *job, const bite_planned_setup *setup);

/** The first pass of the setup in the order of passes. */
const bite_planned_pass *bite_plan_first_pass(const bite_job *job, const bite_planned_setup *setup);

/** The last pass in which the part lies flat, with which the sheet and its bow are judged; the last
 * of all if there is none. */
size_t bite_plan_last_flat_pass(const bite_job *job);

/** Whether a pass of the setup cuts the parts free of their sheet. */
int bite_plan_setup_cuts_free(const bite_job *job, const bite_planned_setup *setup);

/** Whether the setup holds the blank with its parts, which no earlier one has cut free. */
int bite_plan_holds_blank(const bite_job *job, const bite_planned_setup *setup);

/** Sets the area that holds the part in every setup, from what is cut away. */
void bite_plan_hold_areas(bite_job *job);

/** Sets how often the setup is mounted, and what the cuts of earlier setups, and through cuts of
 * its own, take off the face below and leave of the area; called when the passes are known. */
void bite_plan_cut_away(bite_job *job);

#endif
