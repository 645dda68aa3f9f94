/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions about numbers that no shop runs, with the slip that they look like, and about the entry
 * move, the tolerance and the chamfer. */
#include "core/request/plausibility.h"
#include "core/cut/entry_move.h"
#include "core/cut/physics_inputs.h"
#include "core/names/registry.h"
#include <math.h>
#include <stdbool.h>

/* Feeds per tooth that shops run, and those far outside, in diameters (memory). */
static const double feed_least = 5e-4;
static const double feed_most = 0.06;
static const double feed_absurdly_small = 1.5e-4;
static const double feed_absurdly_large = 0.12;

/* Surface speeds (m/s) and depths (diameters) beyond which a slip is more likely than intent
 * (memory). */
static const double speed_absurd = 2000.0 / 60.0;
static const double speed_absurdly_slow = 2.0 / 60.0;
static const double depth_absurd = 4.0;
static const double runout_absurd = 0.1e-3;
static const double small_tool = 3e-3;

/* The lower end of a chamfer deserves a caution if it runs at less than this share of the surface
 * speed at the upper end (estimate). */
static const double slow_share = 0.5;

static const char memory_of_shops[] = "memory: what shops run";

static int given(const bite_answer *answer, const char *input)
{
    return answer->provenance[bite_input_index(bite_input_find(input))].origin == BITE_ORIGIN_USER;
}

static int sensible(double feed, double diameter)
{
    return feed >= feed_least * diameter && feed <= feed_most * diameter;
}

/* Slips that turn a feed that shops run into one far too large or far too small, the smallest
 * first. Where that explains the feed, the larger ones do so too, except at the far end of its
 * range: the text names them all. */
typedef struct slip {
    double times; /* feed * times / over is the feed that was meant */
    double over;
    const char *text;
} slip;

static const slip large_feed_slips[] = {
    {1.0, 10.0,
     "A feed of {chip_load} is far more than a tool of {diameter} is run at: is there a zero too "
     "many, were millimetres entered as inches, or a feed per minute as a feed per second?"},
    {1.0, 25.4,
     "A feed of {chip_load} is far more than a tool of {diameter} is run at: were millimetres "
     "entered as inches, or a feed per minute as a feed per second?"},
    {1.0, 60.0,
     "A feed of {chip_load} is far more than a tool of {diameter} is run at: was a feed per minute "
     "entered as a feed per second?"},
    {0.0, 1.0,
     "A feed of {chip_load} is far more than a tool of {diameter} is run at: is the feed right?"},
};
static const slip small_feed_slips[] = {
    {10.0, 1.0,
     "A feed of {chip_load} is far less than a tool of {diameter} is run at: is a zero missing, or "
     "was a feed per second entered as a feed per minute?"},
    {60.0, 1.0,
     "A feed of {chip_load} is far less than a tool of {diameter} is run at: was a feed per second "
     "entered as a feed per minute?"},
    {0.0, 1.0,
     "A feed of {chip_load} is far less than a tool of {diameter} is run at: is the feed right?"},
};

/* The caution about a feed that no shop runs; NULL: the feed is plausible. */
static const char *feed_slip(double feed, double diameter)
{
    const slip *at = feed > feed_absurdly_large * diameter   ? large_feed_slips
                     : feed < feed_absurdly_small * diameter ? small_feed_slips
                                                             : NULL;
    while (at != NULL && at->times > 0.0 && !sensible(feed * at->times / at->over, diameter)) {
        at++;
    }
    return at == NULL ? NULL : at->text;
}

static int add_caution(const bite_case_view *view, const char *name, uint32_t severity,
                       const char *text, const char *source)
{
    return text == NULL || view->caution(view->user, name, severity, text, source);
}

static int caution_slips(const bite_answer *answer, const bite_case_view *view)
{
    const bite_cut *cut = &answer->full;
    double speed = answer->result.values[BITE_SURFACE_SPEED].value;
    double feed = answer->result.values[BITE_CHIP_LOAD].value;
    int good = 1;
    if (given(answer, "feed_rate")) {
        good = add_caution(view, "slip_feed", 2, feed_slip(feed, cut->diameter), memory_of_shops);
    }
    if (good && given(answer, "spindle_speed") && speed > speed_absurd) {
        good = add_caution(
            view, "slip_speed", 2,
            "No shop runs a surface speed of {surface_speed}: is there a zero too many, or is "
            "the diameter wrong?",
            memory_of_shops);
    }
    if (good && given(answer, "spindle_speed") && speed < speed_absurdly_slow &&
        cut->spindle_speed < 15.0) {
        good = add_caution(
            view, "slip_speed", 2,
            "A surface speed of {surface_speed} at {spindle_speed} is very slow: is a zero "
            "missing?",
            memory_of_shops);
    }
    bool whole_hole = cut->operation == BITE_TAP || cut->operation == BITE_REAM;
    if (good && given(answer, "depth") && !whole_hole &&
        cut->depth > depth_absurd * cut->diameter) {
        good = add_caution(
            view, "slip_depth", 2,
            "A depth of {depth} is more than four diameters in one pass: is it ten times too "
            "deep, or is it the depth of the whole feature?",
            memory_of_shops);
    }
    if (good && given(answer, "runout") && cut->runout > runout_absurd) {
        good = add_caution(
            view, "slip_runout", 2,
            "A runout of {runout} means a bent tool, a dirty collet, or a wrong unit; small "
            "tools break from it.",
            memory_of_shops);
    }
    return good;
}

static int caution_entry(const bite_answer *answer, const bite_case_view *view)
{
    const bite_cut *cut = &answer->full;
    int slot = (isnan(cut->width) || cut->width >= cut->diameter) && cut->operation == BITE_MILL;
    if (cut->entry == BITE_ENTRY_OUTSIDE) {
        return !(slot && cut->diameter <= small_tool && !given(answer, "entry")) ||
               add_caution(
                   view, "entry", 1,
                   "Most small tools break on entry, at full width and with no way out for the "
                   "chips: ramp or spiral in at a slope of a few degrees, and have the entry "
                   "judged too (input entry).",
                   "common-practice");
    }
    if (cut->entry == BITE_ENTRY_PLUNGE &&
        answer->result.limits[BITE_LIMIT_PLUNGE_FEED].utilization > 1.0) {
        return add_caution(
            view, "entry", 2,
            "The plunge feed is high for the side feed of {feed_rate}; a fifth to a "
            "third of it is usual. A tool that does not cut at its centre must not plunge "
            "at all.",
            "common-practice");
    }
    return 1;
}

/* Runout widens a slot whatever the deflection is. A hole has no deflection limit. */
static int caution_tolerance(const bite_answer *answer, const bite_case_view *view)
{
    const bite_cut *cut = &answer->full;
    return bite_cut_is_axial(cut) || !(answer->requested.tolerance < cut->runout) ||
           add_caution(
               view, "tolerance", 2,
               "A tolerance of {tolerance} is less than the runout of {runout}, which alone "
               "widens a slot by as much.",
               "common-practice");
}

/* The lighter of two neighbouring teeth cuts nothing once their radii differ by more than the feed
 * per tooth: at most by TIR sin(pi/z). */
static int caution_one_tooth(const bite_answer *answer, const bite_case_view *view)
{
    const bite_cut *cut = &answer->full;
    double step = cut->flutes < 2.0 ? 0.0 : cut->runout * sin(M_PI / cut->flutes);
    return !(step >= answer->result.values[BITE_CHIP_LOAD].value) ||
           add_caution(view, "one_tooth", 1,
                       "With a runout of {runout} and a feed of {chip_load} for each tooth, one "
                       "tooth may do all the cutting. Measure the runout, clean the collet, or use "
                       "a tool of one flute.",
                       "paper: Kline and DeVor 1983 (recalled)");
}

/* The upper end of a chamfer may run at a good surface speed while the lower end hardly moves. */
static int caution_chamfer(const bite_answer *answer, const bite_case_view *view)
{
    double small = answer->result.values[BITE_SURFACE_SPEED_SMALL].value; /* NaN: no chamfer */
    return !(small < slow_share * answer->result.values[BITE_SURFACE_SPEED].value) ||
           add_caution(
               view, "small_end", 1,
               "The cutting edge runs at {surface_speed} at the upper end of the chamfer and at "
               "{surface_speed_small} at its lower end: set the tip deeper below the chamfer and "
               "farther from the edge, so that a thicker part of the cone cuts.",
               "common-practice");
}

int bite_plausibility_check(const bite_answer *answer, const bite_case_view *view)
{
    return caution_slips(answer, view) && caution_entry(answer, view) &&
           caution_tolerance(answer, view) && caution_one_tooth(answer, view) &&
           caution_chamfer(answer, view);
}
