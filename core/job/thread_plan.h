/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Threads of a job that are milled: the mill, the cut that is judged, and the path of its centre.
 */
#ifndef BITE_JOB_THREAD_PLAN_H
#define BITE_JOB_THREAD_PLAN_H

#include "core/job/plan.h"

/** The name of the mill for a pass that names none: the largest that fits thread and depth; reports
 * a fault if there is none. A full-form mill is taken if it is at hand and serves better. major:
 * diameter of the thread, m. *why: for the plan. NULL: none, or no memory. */
const char *bite_plan_thread_mill(bite_job *job, const bite_section *section,
                                  const bite_planned_pass *pass, double major, double pitch,
                                  const char **why);

/** The largest single-point mill that fits such a thread, else the full-form one; record NULL: none
 * does. Lengths in m. */
bite_thread_mill bite_plan_find_thread_mill(bite_job *job, double depth, double major,
                                            double pitch);

/** Reports a mill that is too large for its hole, too short, or not made for the pitch; once the
 * hole is known. */
void bite_plan_thread_check(bite_job *job, size_t index);

/** Sets the inputs of one radial pass over the whole groove. */
bite_status bite_plan_thread_request(const bite_job *job, const bite_section *section,
                                     const bite_planned_pass *pass, bite_request *request,
                                     bite_error *error);

/** Chooses settings, or judges given ones (options NULL), with as few radial passes as are clear,
 * otherwise with those of the least chance. *answer: owned by the caller. */
bite_status bite_plan_thread_choose(const bite_job *job, const bite_request *request,
                                    const bite_choice_options *options, bite_planned_pass *pass,
                                    bite_answer **answer, bite_error *error);

/** Fills the path of the mill's centre and its entry, from the answer. */
void bite_plan_thread_path(const bite_job *job, bite_planned_pass *pass);

/** The feed along the lap of any pass, m/s: of the centre where a thread is milled. */
double bite_plan_lap_feed(const bite_planned_pass *pass);

/** The feed to be entered for any pass, m/s; the first and least one of a thread's passes. */
double bite_plan_enter_feed(const bite_planned_pass *pass);

#endif
