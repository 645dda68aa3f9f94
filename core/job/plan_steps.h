/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The steps of planning a job, in their order, and what they share. */
#ifndef BITE_JOB_PLAN_STEPS_H
#define BITE_JOB_PLAN_STEPS_H

#include "core/job/plan.h"

/** As bite_job_open, of bytes that are called by path; NULL: of the file. */
bite_status bite_job_parse(const bite_library *library, const char *path, const char *bytes, size_t size,
                           const bite_job_options *options, bite_fault_sink fault, void *user, bite_job **job, bite_error *error);

/** What clamps, as the word `clamp` of a way of holding says. */
enum { BITE_CLAMP_JAWS, BITE_CLAMP_SCREWS, BITE_CLAMP_TABS, BITE_CLAMP_NONE };

/** A text in the job's arena; "" where there is no memory, which job->starved then tells. */
const char *bite_plan_text(bite_job *job, const char *format, ...) __attribute__((format(printf, 2, 3)));
/** A quantity in the job's units, for people. Returns buffer. */
const char *bite_plan_quantity(const bite_job *job, double si, bite_kind kind, char *buffer, size_t size);
/** A time as one says it: 45 s, 7.5 min, 2.3 h. Returns buffer. */
const char *bite_plan_duration(double seconds, char *buffer, size_t size);
/** Keeps a remark; text in the arena or borrowed. */
void bite_plan_remark(bite_job *job, uint32_t severity, const char *about, const char *text, const char *source);

/** A fault of the file that only planning finds: told, counted, the first kept. section may be NULL; key as why->key says. */
void bite_plan_fault(bite_job *job, const bite_section *section, const bite_error *why);
/** BITE_OK, or BITE_BAD_FILE with the first of the faults so far. */
bite_status bite_plan_status(const bite_job *job, bite_error *error);

/** The sheet: nominal, range, what comes off, blank. */
bite_status bite_plan_stock(bite_job *job, bite_error *error);
/** What the passes are, and a tool for each. */
bite_status bite_plan_features(bite_job *job, bite_error *error);
/** How the parts lie on their blank, now that the tools are known. */
bite_status bite_plan_layout(bite_job *job, bite_error *error);
/** Settings and judgement of every pass. */
bite_status bite_plan_passes(bite_job *job, bite_error *error);
/** Order of work with the fewest tool changes, and the tools by use. */
bite_status bite_plan_pass_order(bite_job *job, bite_error *error);
bite_status bite_plan_warp(bite_job *job, bite_error *error);
/** Skin stress, Pa, as the job states it or as its coupon shows; NaN: the table's. */
double bite_plan_skin_stress(const bite_job *job);
/** By which one face is longer than the other: moisture, and warmth times expansion; NaN: nothing was said. */
double bite_plan_face_strain(const bite_job *job);

/** What holds the part, its layers, and how deep a through cut goes. */
bite_status bite_plan_workholding(bite_job *job, bite_error *error);
/** What the cuts do to it. */
bite_status bite_plan_bond(bite_job *job, bite_error *error);
/** The same of what clamps: jaws, screws, tabs. */
void bite_plan_clamp(bite_job *job);
/** 1: some pass cuts parts free of their sheet. */
int bite_plan_cuts_free(const bite_job *job);
bite_status bite_plan_fluids(bite_job *job, bite_error *error);
bite_status bite_plan_time(bite_job *job, bite_error *error);

/** The order of passes with the fewest changes of tool. before[i * count + k]: i comes before k. tools: a number for each pass.
 * order: places, count of them, at most BITE_PASSES_MAX. Exact for what a shop has, else greedy; 0: the passes wait for each other
 * in a circle. */
int bite_pass_order_find(size_t count, const unsigned char *before, const uint32_t *tools, uint32_t *order, uint32_t *changes);

/** The inside corner that a pass leaves, m: its own, or the part's where it cuts inside; NaN: of any size. */
double bite_plan_inside_radius(const bite_job *job, const bite_section *section, uint32_t work);

/** The figure of a thing's key; otherwise where it is not stated. */
double bite_plan_figure(const bite_item_record *record, const char *key, double otherwise);

#endif
