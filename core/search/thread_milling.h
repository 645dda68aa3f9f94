/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An internal thread milled by a single-point or a full-form thread mill: tool, passes, speed, feed
 * and path. */
#ifndef BITE_SEARCH_THREAD_MILLING_H
#define BITE_SEARCH_THREAD_MILLING_H

#include "core/library/item.h"
#include "core/library/material_record.h"
#include <coolbite/coolbite.h>

/** Radial passes that are tried, at most. */
#define BITE_THREAD_MILL_PASSES 6

/** A thread mill. Lengths in m. */
typedef struct bite_thread_mill {
    const bite_item_record *record; /* NULL: it is not in the table */
    double diameter;
    double reach;   /* below the face of the part */
    double rows;    /* of teeth, a pitch apart; 1: single-point */
    uint32_t suits; /* 1: it cuts the pitch */
    uint32_t reserved;
} bite_thread_mill;

/** One radial pass in a thread, as the engine judges it. Lengths in m. */
typedef struct bite_thread_mill_cut {
    double major; /* diameter of the thread */
    double pitch;
    double hole;     /* diameter */
    double tool;     /* diameter of the mill */
    double rows;     /* of teeth that cut at once */
    uint32_t passes; /* of equal section; at least 1 */
} bite_thread_mill_cut;

/** The path of the mill's centre in one thread. Lengths in m. */
typedef struct bite_thread_path {
    double levels; /* at which a full-form mill runs its turn, one below the other; else 1 */
    double turns;  /* of each radial pass, on all levels, a pitch up or down on each */
    double diameters[BITE_THREAD_MILL_PASSES]; /* that the passes cut; the last is the thread's */
    double lengths[BITE_THREAD_MILL_PASSES];
    double feeds[BITE_THREAD_MILL_PASSES]; /* m/s, of the centre */
    double arcs;                           /* length on and off the wall, of all passes */
} bite_thread_path;

/** A thread that is to be milled. Lengths in m. */
typedef struct bite_thread_case {
    const bite_library *library;
    const bite_material *material;
    const char *machine; /* a name; NULL: the usual one */
    double major;        /* diameter */
    double pitch;
    double hole;   /* diameter */
    double length; /* of thread */
} bite_thread_case;

/** Lengths in m. */
typedef struct bite_thread_milling {
    bite_thread_mill tool;
    double most;        /* the largest diameter that is advised */
    uint32_t passes;    /* from the hole out to the major diameter, of equal section */
    uint32_t verdict;   /* a bite_verdict, of the heaviest pass */
    double chance;      /* of exceeding a limit */
    double turns;       /* 1/s, of the spindle */
    double edge_feed;   /* m/s, along the thread */
    double centre_feed; /* m/s, of the tool's centre in the last pass: to be entered */
    double chip;        /* m, thickest */
    double seconds;     /* for one thread, on the wall, on and off */
    bite_thread_path path;
    const char *closest; /* name of a limit, borrowed from the library */
    uint32_t reserved;
} bite_thread_milling;

/** Chooses settings for a mill in a thread. milling->passes 0: no settings were found.
 * BITE_NO_MEMORY and errors of bite_choice_new. */
bite_status bite_thread_milling_choose(const bite_thread_case *thread, const bite_thread_mill *tool,
                                       bite_thread_milling *milling, bite_error *error);

/** The mill of the tool table of that name, for a pitch; record NULL: it is not a thread mill.
 * BITE_NO_MEMORY. */
bite_status bite_thread_mill_find(const bite_library *library, const char *name, double pitch,
                                  bite_thread_mill *mill, bite_error *error);

/** A single-point mill of which only the diameter is known, for a thread of a length. */
bite_thread_mill bite_thread_mill_plain(double diameter, double length, double pitch);

/** The largest mill that is advised for a thread in a hole, m. */
double bite_thread_mill_largest(double major, double hole);

/** How far below the face the teeth of a mill run in a thread of a length, m. */
double bite_thread_mill_reach_needed(double length, double pitch);

/** Rows of teeth that cut at once. */
double bite_thread_mill_rows(const bite_thread_mill *mill, double length, double pitch);

/** Sets depth and width of the side cut along a straight wall that stands for the thread. */
bite_status bite_thread_mill_set_cut(bite_request *request, const bite_thread_mill_cut *cut,
                                     bite_error *error);

/** Sets what the table does not state of a mill: all but the diameter of one that is not in it, and
 * how much thinner than its teeth the body of a full-form mill is. length: of thread. */
bite_status bite_thread_mill_set_tool(bite_request *request, const bite_thread_mill *mill,
                                      const bite_thread_mill_cut *cut, double length,
                                      bite_error *error);

/** A chosen spindle speed as it is entered: rounded down, 1/s. */
double bite_thread_mill_turns(double chosen);

/** Sets the speed of the edges, and with sets_feed the feed per tooth, that are usual for thread
 * mills in a material; tool: diameter, m. What has no figure stays open. BITE_NO_MEMORY. */
bite_status bite_thread_mill_set_usual(bite_request *request, double tool, int sets_feed,
                                       bite_error *error);

/** The path of a cut with `passes` radial passes. edge_feed: m/s. */
bite_thread_path bite_thread_path_of(const bite_thread_mill_cut *cut, const bite_thread_mill *mill,
                                     double length, double edge_feed);

#endif
