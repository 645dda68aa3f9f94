/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice in words: its passes, the limits that restrict it, and the next best tool. */
#include "core/report/choice_text.h"
#include "core/base/number.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The comparative of each goal. */
static const char *const comparatives[BITE_GOAL_COUNT] = {[BITE_GOAL_COOL] = "cooler",
                                                          [BITE_GOAL_GENTLE] = "gentler",
                                                          [BITE_GOAL_FINE] = "finer",
                                                          [BITE_GOAL_FAST] = "faster"};

const char *bite_active_limit_name(const bite_choice *choice, const bite_active_limit *active)
{
    return active->limit < BITE_LIMIT_COUNT
               ? bite_cut_limit_name(&choice->answer->full, (bite_limit_id)active->limit)
           : active->limit == BITE_LIMIT_LARGEST_TOOTH ? bite_value_name(BITE_CHIP_LOAD)
                                                       : "goal";
}

static void append(char *to, size_t size, const char *text)
{
    size_t used = strlen(to);
    if (used + strlen(text) < size) {
        memcpy(to + used, text, strlen(text) + 1);
    }
}

/* "2 depth passes of 0.3 mm, 3 width passes of 0.1 mm", for a feature with a width. */
static void passes_across_text(bite_page *page, const bite_candidate *candidate, const char *depth,
                               char *to, size_t size)
{
    char width[40];
    bite_page_quantity(page, candidate->width, BITE_KIND_LENGTH, width, sizeof width);
    (void)snprintf(to, size, "%u depth pass%s of %s, %u width pass%s of %s", candidate->passes,
                   candidate->passes > 1 ? "es" : "", depth, candidate->side_passes,
                   candidate->side_passes > 1 ? "es" : "", width);
}

/* "2 passes of 0.3 mm", or nothing for a single pass. */
static void passes_text(bite_page *page, const bite_choice *choice, const bite_candidate *candidate,
                        char *to, size_t size)
{
    char depth[40];
    bite_page_quantity(page, candidate->depth, BITE_KIND_LENGTH, depth, sizeof depth);
    to[0] = 0;
    if (!isnan(candidate->width)) {
        passes_across_text(page, candidate, depth, to, size);
    } else if (candidate->passes > 1) {
        const char *what = choice->answer->full.operation == BITE_DRILL_HOLE ? "pecks" : "passes";
        (void)snprintf(to, size, "%u %s of %s", candidate->passes, what, depth);
    }
}

static void active_limits_text(const bite_choice *choice, char *to, size_t size)
{
    to[0] = 0;
    for (uint32_t i = 0; i < choice->active_count; i++) {
        const bite_active_limit *active = &choice->active[i];
        char part[120];
        char gain[24];
        append(to, size, i > 0 ? ", " : "");
        append(to, size, bite_active_limit_name(choice, active));
        if (!isnan(active->gain) && active->gain >= 0.05) {
            (void)bite_number_write(active->gain, 2, gain, sizeof gain);
            (void)snprintf(part, sizeof part, " (1 %% more capacity: %s %% %s)", gain,
                           comparatives[choice->gain]);
            append(to, size, part);
        }
    }
}

/* A default that is changed by less than this need only be known: it no longer scatters. */
static const double stated_only = 1e-6;

/* "stickout from 60 mm to 38 mm (-37 %), chance 8 %" */
static void freeing_text(bite_page *page, const bite_freeing_change *freeing, char *to, size_t size)
{
    const bite_request_change *change = &freeing->change;
    char name[48];
    char from[BITE_TYPED_MAX];
    char chance[40] = "";
    char share[24];
    char relative[32] = "";
    bite_page_plain(change->what, name, sizeof name);
    (void)snprintf(from, sizeof from, "%s", change->from_word);
    if (change->kind < BITE_KIND_COUNT) {
        bite_page_quantity(page, change->from, (bite_kind)change->kind, from, sizeof from);
        double ratio = change->to / change->from - 1.0;
        if (isfinite(ratio)) { /* of nothing there is no share */
            (void)snprintf(relative, sizeof relative, " (%+.0f %%)", 100.0 * ratio);
        }
    }
    if (!isnan(freeing->chance)) {
        (void)bite_page_percent(freeing->chance, share, sizeof share);
        (void)snprintf(chance, sizeof chance, ", chance %s %%", share);
    }
    int length =
        change->size < stated_only
            ? snprintf(to, size, "%s of %s known, not by default%s", name, change->to_word, chance)
            : snprintf(to, size, "%s from %s%s to %s%s%s", name, from,
                       change->by_default ? "*" : "", change->to_word, relative, chance);
    if (length < 0) {
        to[0] = 0;
    }
}

/* What makes a request clear that is not. */
static void freeing_line(bite_page *page, const bite_choice *choice)
{
    char line[500] = "";
    char part[240];
    for (int i = 0; i < BITE_FREEING_MAX; i++) {
        if (choice->freeing[i].change.what != NULL) {
            freeing_text(page, &choice->freeing[i], part, sizeof part);
            append(line, sizeof line, line[0] != 0 ? "; or " : "");
            append(line, sizeof line, part);
        }
    }
    bite_page_wrap(page, "Smallest change that makes it clear: ", "  ",
                   line[0] != 0 ? line : "none of a single input was found");
}

void bite_choice_text_lines(bite_page *page, const bite_choice *choice)
{
    char line[500];
    char part[300];
    char spindle[40];
    char feed[40];
    passes_text(page, choice, &choice->best, part, sizeof part);
    (void)snprintf(line, sizeof line, "%s%s%s", part, part[0] != 0 ? "; " : "",
                   choice->active_count > 0 ? "" : "no limit restricts it");
    active_limits_text(choice, part, sizeof part);
    if (choice->active_count > 0) {
        append(line, sizeof line,
               choice->best.clear_of_limits ? "limited by "
                                            : "no setting is clear; limits in conflict: ");
        append(line, sizeof line, part);
    }
    char first[80];
    (void)snprintf(first, sizeof first, "Chosen to be %s%s: ", bite_goal_name(choice->goal),
                   choice->gain != choice->goal ? ", then fast" : "");
    bite_page_wrap(page, first, "  ", line);
    if (!choice->clear && bite_answer_result(choice->answer)->verdict != BITE_UNKNOWN) {
        freeing_line(page, choice);
    }
    if (choice->second.tool[0] != 0) {
        passes_text(page, choice, &choice->second, part, sizeof part);
        bite_page_quantity(page, choice->second.spindle, BITE_KIND_ROTATION, spindle,
                           sizeof spindle);
        bite_page_quantity(page, choice->second.feed, BITE_KIND_SPEED, feed, sizeof feed);
        (void)snprintf(line, sizeof line, "%s at about %s, %s%s%s%s", choice->second.tool, spindle,
                       feed, part[0] != 0 ? ", " : "", part,
                       choice->second.clear_of_limits ? "" : " (exceeds its limits)");
        bite_page_wrap(page, "Next best tool: ", "  ", line);
    }
}
