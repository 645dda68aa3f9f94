/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers that nobody runs, with the slip that they look like; and what to mind on the way in. */
#include "core/request/plausibility.h"
#include "core/cut/entry_move.h"
#include "core/names/registry.h"
#include <math.h>

/* Feeds per tooth that shops run, in diameters, and wide of it (memory). */
static const double feed_least = 5e-4;
static const double feed_most = 0.06;
static const double feed_absurdly_small = 1.5e-4;
static const double feed_absurdly_large = 0.12;

/* Surface speeds and depths beyond which a slip is likelier than a wish (memory). m/s, diameters.
 */
static const double speed_absurd = 2000.0 / 60.0;
static const double speed_absurdly_slow = 2.0 / 60.0;
static const double depth_absurd = 4.0;
static const double runout_absurd = 0.1e-3;
static const double plunge_brisk = 0.5;
static const double small_tool = 3e-3;

/* A chamfer's lower end that runs at less than this share of the upper one's speed is worth a word
 * (estimate). */
static const double slow_share = 0.5;

static const char guess[] = "memory: what shops run";

static int given(const bite_answer *answer, const char *input)
{
    return answer->provenance[bite_input_index(bite_input_find(input))].origin == BITE_ORIGIN_USER;
}

static int sensible(double feed, double diameter)
{
    return feed >= feed_least * diameter && feed <= feed_most * diameter;
}

/* The text about a feed that is wide of what anyone runs; NULL: it is not. */
static const char *feed_slip(double feed, double diameter)
{
    if (feed > feed_absurdly_large * diameter) {
        return sensible(feed / 60.0, diameter) ? "A feed of {chip_load} is far more than a tool of "
                                                 "{diameter} is run at: was the "
                                                 "feed meant per minute and typed per second?"
               : sensible(feed / 25.4, diameter)
                   ? "A feed of {chip_load} is far more than a tool of {diameter} is run at: "
                     "inches for millimetres?"
               : sensible(feed / 10.0, diameter) ? "A feed of {chip_load} is far more than a tool "
                                                   "of {diameter} is run at: a zero too many?"
                                                 : "A feed of {chip_load} is far more than a tool "
                                                   "of {diameter} is run at: is the feed right?";
    }
    if (feed < feed_absurdly_small * diameter) {
        return sensible(feed * 60.0, diameter) ? "A feed of {chip_load} is far less than a tool of "
                                                 "{diameter} is run at: was the "
                                                 "feed meant per second and typed per minute?"
               : sensible(feed * 10.0, diameter) ? "A feed of {chip_load} is far less than a tool "
                                                   "of {diameter} is run at: a lost zero?"
                                                 : "A feed of {chip_load} is far less than a tool "
                                                   "of {diameter} is run at: is the feed right?";
    }
    return NULL;
}

static int say(const bite_case_view *view, const char *name, uint32_t severity, const char *text,
               const char *source)
{
    return text == NULL || view->caution(view->user, name, severity, text, source);
}

static int say_slips(const bite_answer *answer, const bite_case_view *view)
{
    const bite_cut *cut = &answer->full;
    double speed = answer->result.values[BITE_SURFACE_SPEED].value;
    double feed = answer->result.values[BITE_CHIP_LOAD].value;
    int good = 1;
    if (given(answer, "feed_rate")) {
        good = say(view, "slip_feed", 2, feed_slip(feed, cut->diameter), guess);
    }
    if (good && given(answer, "spindle_speed") && speed > speed_absurd) {
        good = say(view, "slip_speed", 2,
                   "A surface speed of {surface_speed} is run by nobody: a zero too many, or "
                   "another diameter?",
                   guess);
    }
    if (good && given(answer, "spindle_speed") && speed < speed_absurdly_slow &&
        cut->spindle_speed < 15.0) {
        good =
            say(view, "slip_speed", 2,
                "A surface speed of {surface_speed} at {spindle_speed} is very slow: a lost zero?",
                guess);
    }
    if (good && given(answer, "depth") && cut->depth > depth_absurd * cut->diameter) {
        good = say(view, "slip_depth", 2,
                   "{depth} is more than four diameters in one pass: ten times too deep, or the "
                   "depth of the whole feature?",
                   guess);
    }
    if (good && given(answer, "runout") && cut->runout > runout_absurd) {
        good = say(view, "slip_runout", 2,
                   "A runout of {runout} is a bent tool or a dirty collet, or a slip of the unit; "
                   "small tools break from it.",
                   guess);
    }
    return good;
}

static int say_entry(const bite_answer *answer, const bite_case_view *view)
{
    const bite_cut *cut = &answer->full;
    int slot = (isnan(cut->width) || cut->width >= cut->diameter) && cut->operation == BITE_MILL;
    if (cut->entry == BITE_ENTRY_OUTSIDE) {
        return !(slot && cut->diameter <= small_tool && !given(answer, "entry")) ||
               say(view, "entry", 1,
                   "Most small tools break on the way in, at full width and with no way out for "
                   "the chips: ramp or wind in at a "
                   "slope of a few "
                   "degrees, and judge it too with entry.",
                   "common-practice");
    }
    if (cut->entry == BITE_ENTRY_PLUNGE && bite_entry_feed(cut) > plunge_brisk * cut->feed_rate) {
        return say(view, "entry", 2,
                   "The plunge runs at more than half of the side feed of {feed_rate}: a fifth to "
                   "a third of it is usual, and a "
                   "tool that does not cut "
                   "at its centre must not plunge at all.",
                   "common-practice");
    }
    return 1;
}

/* What a tool runs out it cuts wider, whatever it bends: the row of bending, which a hole does not
 * have, tells nothing of a narrower tolerance. */
static int say_tolerance(const bite_answer *answer, const bite_case_view *view)
{
    const bite_cut *cut = &answer->full;
    return cut->operation == BITE_DRILL_HOLE || !(answer->requested.tolerance < cut->runout) ||
           say(view, "tolerance", 2,
               "A tolerance of {tolerance} is less than the runout of {runout}, which widens a "
               "slot by itself: bending alone is "
               "compared with it.",
               "common-practice");
}

/* The upper end of a chamfer may run as it should while the lower one creeps. */
static int say_chamfer(const bite_answer *answer, const bite_case_view *view)
{
    double small = answer->result.values[BITE_SURFACE_SPEED_SMALL].value; /* NaN: no chamfer */
    return !(small < slow_share * answer->result.values[BITE_SURFACE_SPEED].value) ||
           say(view, "small_end", 1,
               "The edge runs at {surface_speed} at the chamfer's upper end and at "
               "{surface_speed_small} at its lower one: set the "
               "tip deeper below the chamfer and farther from the edge, so that a thicker part of "
               "the cone cuts.",
               "common-practice");
}

int bite_plausibility_check(const bite_answer *answer, const bite_case_view *view)
{
    return say_slips(answer, view) && say_entry(answer, view) && say_tolerance(answer, view) &&
           say_chamfer(answer, view);
}
