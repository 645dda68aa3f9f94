/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An internal thread milled with a single-point thread mill: tool, passes, speed and feed. */
#ifndef BITE_SEARCH_THREAD_MILLING_H
#define BITE_SEARCH_THREAD_MILLING_H

#include "core/request/thread_advice.h"
#include <coolbite/coolbite.h>

/** Radial passes that are tried, at most. */
#define BITE_THREAD_MILL_PASSES 6

/** One radial pass in a thread, as the engine judges it. Lengths in m. */
typedef struct bite_thread_mill_cut {
    double major; /* diameter of the thread */
    double pitch;
    double hole;     /* diameter */
    double tool;     /* diameter of the mill */
    uint32_t passes; /* of equal section; at least 1 */
} bite_thread_mill_cut;

/** Lengths in m. */
typedef struct bite_thread_milling {
    double tool;        /* diameter of the mill */
    double most;        /* the largest that is advised */
    uint32_t passes;    /* from the hole out to the major diameter, of equal section */
    uint32_t verdict;   /* a bite_verdict, of the heaviest pass */
    double chance;      /* of exceeding a limit */
    double turns;       /* 1/s */
    double edge_feed;   /* m/s, along the thread */
    double centre_feed; /* m/s, of the tool's centre: to be entered */
    double chip;        /* m, thickest */
    uint32_t closest;   /* a bite_limit_id */
} bite_thread_milling;

/** Chooses settings for the thread of the advice; machine: a name, or NULL for the usual one.
 * milling->passes 0: no settings were found. BITE_NO_MEMORY and errors of bite_choice_new. */
bite_status bite_thread_mill(const bite_library *library, const bite_thread_advice *advice,
                             const char *machine, bite_thread_milling *milling, bite_error *error);

/** The largest mill that is advised for a thread in a hole, m. */
double bite_thread_mill_largest(double major, double hole);

/** Sets depth and width of the side cut along a straight wall that stands for the thread. */
bite_status bite_thread_mill_set_cut(bite_request *request, const bite_thread_mill_cut *cut,
                                     bite_error *error);

/** Sets flutes, teeth and neck of a mill of which only the diameter is known; length: of thread. */
bite_status bite_thread_mill_set_tool(bite_request *request, const bite_thread_mill_cut *cut,
                                      double length, bite_error *error);

/** A chosen spindle speed as it is entered: rounded down, 1/s. */
double bite_thread_mill_turns(double chosen);

/** Sets the feed per tooth that such teeth bear; tool: diameter, m. */
void bite_thread_mill_set_feed(bite_request *request, double tool);

#endif
