/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The entry and the path of a pass in words. */
#include "core/report/job/path_text.h"
#include "core/job/plan_text.h"
#include "core/report/job/pass_depths.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define NUMBER 40

static void add(char *to, size_t size, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
static void add(char *to, size_t size, const char *format, ...)
{
    size_t used = strlen(to);
    va_list list;
    va_start(list, format);
    (void)vsnprintf(to + used, size - used, format, list);
    va_end(list);
}

/* The quantity in words; buffer is returned. */
static const char *words(bite_page *page, double si, bite_kind kind, char *buffer)
{
    bite_page_quantity(page, si, kind, buffer, NUMBER);
    return buffer;
}

static const char *length(bite_page *page, double si, char *buffer)
{
    return words(page, si, BITE_KIND_LENGTH, buffer);
}

const char *bite_plan_entry_word(uint32_t kind)
{
    static const char *const entries[] = {"outside", "plunge", "ramp", "helix",
                                          "hole",    "drill",  "arc"};
    return kind < sizeof entries / sizeof *entries ? entries[kind] : "";
}

const char *bite_stage_word(uint32_t stage)
{
    static const char *const stages[] = {"whole", "rough", "middle", "corners", "wall"};
    return stage < sizeof stages / sizeof *stages ? stages[stage] : "";
}

const char *bite_ways_text(const bite_planned_pass *pass, char *to, size_t size)
{
    const bite_planned_ways *ways = &pass->ways;
    char alone[NUMBER];
    char staged[NUMBER];
    char change[NUMBER];
    to[0] = 0;
    if (ways->alone == NULL) {
        return to;
    }
    (void)bite_plan_duration(ways->alone_seconds, alone, sizeof alone);
    (void)bite_plan_duration(ways->staged_seconds, staged, sizeof staged);
    (void)bite_plan_duration(ways->change_seconds, change, sizeof change);
    add(to, size, "with %s alone %s; ", ways->alone, alone);
    if (isnan(ways->staged_seconds)) {
        add(to, size, "another tool would first take %s of tool changes", change);
        return to;
    }
    add(to, size, "with %s and the corners with %s %s", ways->rough, ways->alone, staged);
    if (ways->change_seconds > 0.0) {
        add(to, size, " and %s of tool changes", change);
    }
    if (ways->middle != NULL) {
        (void)bite_plan_duration(ways->middle_seconds, staged, sizeof staged);
        (void)bite_plan_duration(ways->middle_change, change, sizeof change);
        int little =
            !ways->three && ways->middle_seconds + ways->middle_change < ways->staged_seconds;
        add(to, size, "; with %s between them %s and %s of tool changes more%s", ways->middle,
            staged, change, little ? ", which saves too little" : "");
    }
    add(to, size, ": %s%s",
        ways->three    ? "three tools"
        : ways->staged ? "two tools"
                       : "one tool",
        ways->stated ? ", as the job file states" : "");
    return to;
}

const char *bite_steps_text(bite_page *page, const bite_planned_pass *pass, char *to, size_t size)
{
    bite_pass_depths depths = bite_pass_depths_of_pass(pass, page->units);
    bite_pass_depths_write(&depths, page->units, "x", to, size);
    add(to, size, " deep");
    return to;
}

static void add_ramp(bite_page *page, const bite_planned_entry *entry, char *to, size_t size)
{
    char a[NUMBER];
    char b[NUMBER];
    double level = entry->length * cos(entry->angle);
    add(to, size, "ramp in at %s, %s", words(page, entry->angle, BITE_KIND_ANGLE, a),
        words(page, entry->feed, BITE_KIND_SPEED, b));
    if (entry->legs > 1.0) {
        add(to, size, ", there and back in %.0f legs of up to %s", entry->legs,
            length(page, entry->leg, a));
    } else {
        add(to, size, ", over %s", length(page, level, a));
    }
}

const char *bite_plan_entry_text(bite_page *page, const bite_planned_pass *pass, char *to,
                                 size_t size)
{
    const bite_planned_entry *entry = &pass->entry;
    char a[NUMBER];
    char b[NUMBER];
    to[0] = 0;
    switch (entry->kind) {
    case BITE_ENTER_PLUNGE:
        add(to, size, "plunge in at %s", words(page, entry->feed, BITE_KIND_SPEED, a));
        break;
    case BITE_ENTER_RAMP:
        add_ramp(page, entry, to, size);
        break;
    case BITE_ENTER_HELIX:
        add(to, size, "helix in at %s, %s", words(page, entry->angle, BITE_KIND_ANGLE, a),
            words(page, entry->feed, BITE_KIND_SPEED, b));
        add(to, size, ", centre on a circle of %s, %s down each turn",
            length(page, entry->helix, a), length(page, entry->pitch, b));
        break;
    case BITE_ENTER_HOLE:
        add(to, size, "lower the tool into a drilled hole of at least %s",
            length(page, entry->hole, a));
        break;
    case BITE_ENTER_OUTSIDE:
        add(to, size, "enter from outside%s%s", entry->why[0] == 0 ? "" : ": ", entry->why);
        break;
    default:
        break;
    }
    return to;
}

const char *bite_path_text(bite_page *page, const bite_planned_pass *pass, char *to, size_t size)
{
    const bite_planned_path *path = &pass->path;
    char a[NUMBER];
    char b[NUMBER];
    to[0] = 0;
    if (pass->entry.kind == BITE_ENTER_DRILL) {
        return to;
    }
    add(to, size, "%s", path->conventional ? "conventional" : "climb");
    if (!isnan(path->step_over)) {
        add(to, size, "; step-over %s", length(page, path->step_over, a));
    }
    if (!isnan(path->allowance)) {
        add(to, size, "; leave %s on the wall for pass %zu", length(page, path->allowance, a),
            path->allowance_for + 1);
    }
    if (!isnan(path->lead)) {
        add(to, size, "; on and off the wall by arcs of radius %s", length(page, path->lead, a));
    }
    if (!isnan(path->tip_depth)) {
        add(to, size, "; tip %s below the upper face, tool axis %s from the wall",
            length(page, path->tip_depth, a), length(page, path->tip_offset, b));
    }
    return to;
}

static void add_drilling(bite_page *page, const bite_planned_pass *pass, char *to, size_t size)
{
    const bite_planned_hole *hole = &pass->hole;
    char a[NUMBER];
    if (pass->passes > 1) {
        add(to, size, "pecks of %s, out of the hole after each; no dwell",
            length(page, pass->step_down, a));
    } else {
        add(to, size, "in one stroke, no pecks; no dwell");
    }
    add(to, size, "; %s of the depth is the point", length(page, hole->point, a));
    if (!isnan(hole->pilot)) {
        add(to, size, "; pilot hole of %s first", length(page, hole->pilot, a));
    }
}

/* How many turns, from where, and how a full-form mill that is shorter than the thread goes on. */
static void add_turns(bite_page *page, const bite_planned_pass *pass, char *to, size_t size)
{
    const bite_planned_thread_mill *mill = &pass->hole.mill;
    const char *start = mill->upward ? "below" : "above";
    const char *end = mill->upward ? "from" : "to";
    char a[NUMBER];
    char b[NUMBER];
    (void)length(page, 0.5 * pass->hole.pitch, a);
    if (mill->tool.rows <= 1.0) {
        add(to, size, "%.1f turns from %s %s the thread", mill->path.turns, a, start);
    } else if (mill->path.levels <= 1.0) {
        add(to, size, "one turn, the end of the full-form teeth %s %s below the thread", end, a);
    } else {
        add(to, size,
            "one turn on each of %.0f levels %s apart, the end of the full-form teeth %s %s below "
            "the thread in the lowest",
            mill->path.levels, length(page, mill->tool.rows * pass->hole.pitch, b), end, a);
    }
}

/* The circle of the first pass is the smallest, and so is the feed of the centre on it. */
static void add_thread_mill(bite_page *page, const bite_planned_pass *pass, char *to, size_t size)
{
    const bite_planned_hole *hole = &pass->hole;
    const bite_planned_thread_mill *mill = &hole->mill;
    double tool = pass->answer->full.diameter;
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    add(to, size, "%s in holes of %s (%.0f %% of thread), %s hand, %s, from the %s; ",
        hole->thread->title, length(page, hole->diameter, a), 100.0 * hole->share,
        hole->left_hand ? "left" : "right", pass->path.conventional ? "conventional" : "climb",
        mill->upward ? "bottom up" : "top down");
    add(to, size, "helix of %s each turn, ", length(page, hole->pitch, b));
    add_turns(page, pass, to, size);
    add(to, size, "; %u radial pass%s, the centre on a circle of diameter ", mill->passes,
        mill->passes > 1 ? "es" : "");
    for (uint32_t i = 0; i < mill->passes; i++) {
        add(to, size, "%s%s at %s", i > 0 ? ", of " : "",
            length(page, mill->path.diameters[i] - tool, a),
            words(page, mill->path.feeds[i], BITE_KIND_SPEED, b));
    }
    double last = mill->path.diameters[mill->passes - 1] - tool;
    add(to, size,
        " (at most %s at the edge); on and off by half circles from the axis, of radius %s in the "
        "last, a "
        "quarter turn about the axis and %s along it",
        words(page, mill->edge_feed, BITE_KIND_SPEED, a), length(page, 0.25 * last, b),
        length(page, 0.25 * hole->pitch, c));
}

const char *bite_hole_text(bite_page *page, const bite_planned_pass *pass, char *to, size_t size)
{
    const bite_planned_hole *hole = &pass->hole;
    char a[NUMBER];
    char b[NUMBER];
    to[0] = 0;
    add(to, size, "%u hole%s, %s; ", pass->count, pass->count > 1 ? "s" : "",
        hole->blind ? "blind" : "through");
    if (pass->work == BITE_WORK_DRILL) {
        add_drilling(page, pass, to, size);
    } else if (pass->work == BITE_WORK_TAP && hole->thread != NULL) {
        add(to, size, "%s%s, %s each turn, in holes of %s (%.0f %% of thread): %s",
            hole->thread->title,
            hole->left_hand ? ", left hand, in with the spindle counter-clockwise from above" : "",
            length(page, hole->pitch, a), length(page, hole->diameter, b), 100.0 * hole->share,
            isfinite(hole->depth) ? "a tap with spiral flutes, which lifts the chips"
                                  : "a tap with a spiral point, which pushes the chips ahead");
    } else if (pass->work == BITE_WORK_THREAD_MILL && hole->thread != NULL) {
        add_thread_mill(page, pass, to, size);
    } else {
        add(to, size, "in holes of %s; out at the same feed, spindle turning",
            length(page, hole->diameter, a));
    }
    return to;
}
