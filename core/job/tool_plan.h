/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Selection of a tool for each pass that names none. */
#ifndef BITE_JOB_TOOL_PLAN_H
#define BITE_JOB_TOOL_PLAN_H

#include "core/job/plan.h"

/** A tool that could be selected. */
typedef struct bite_tool_candidate {
    char name[BITE_TYPED_MAX];
    double diameter; /* m */
    double flutes;   /* m, their length */
    double reach;    /* m, flutes and neck */
    int cone;        /* 1: a chamfer mill */
} bite_tool_candidate;

typedef struct bite_tool_list {
    bite_tool_candidate *tools; /* in the job's arena */
    size_t count;
    size_t capacity;
    int listed; /* 1: the job lists them; 0: all of the table */
} bite_tool_list;

/** A tool that was picked, to be picked again for an equal pass. */
typedef struct bite_tool_picked {
    bite_request request;
    const bite_tool_candidate *tool;
    const char *how; /* it was picked, for the plan: "fastest" */
} bite_tool_picked;

/** The tools that a job may use. */
typedef struct bite_tool_lists {
    bite_tool_list available;
    bite_tool_list table;     /* all of the table, if the job lists its own */
    bite_tool_picked *picked; /* in the job's arena */
    size_t picked_count;
} bite_tool_lists;

/** What is chosen for the passes of a job. */
bite_choice_options bite_plan_choice_options(const bite_job *job);

/** Fills the lists. 0: no memory. */
int bite_plan_tool_lists(bite_job *job, bite_tool_lists *lists);

/** Sets pass->tool: the tool that its section names; or of those that fit the one that a choice
 * takes; for a side cut, whose width follows the tool, and for a chamfer the largest. The tool is
 * added to job->tools unless it is there. */
void bite_plan_tool(bite_job *job, bite_tool_lists *lists, const bite_section *section,
                    bite_planned_pass *pass);

/** Choices and picks that may be made for one pass of the job file. */
#define BITE_CHOICES_FOR_PASS 12

/** Sets pass->tool to the tool of a name, which is added to job->tools unless it is there. */
const char *bite_plan_named_tool(bite_job *job, const char *name, bite_planned_pass *pass);

/** Sets pass->tool to the one that bite_plan_tool would take of those larger than a diameter, m.
 * 0: none of them fits, and nothing is set. */
int bite_plan_larger_tool(bite_job *job, bite_tool_lists *lists, const bite_section *section,
                          double than, bite_planned_pass *pass);

/** Of the tools between two diameters, m, that reach so deep, the one nearest to their geometric
 * mean, the same step from the one and to the other; NULL: there is none. */
const char *bite_plan_tool_between(const bite_tool_lists *lists, double small, double large,
                                   double reach);

/** The inside corner that a pass leaves, m: its own, or the part's if it cuts inside; NaN: any
 * radius. */
double bite_plan_inside_radius(const bite_job *job, const bite_section *section, uint32_t work);

#endif
