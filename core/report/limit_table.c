/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of limits: demand, capacity, utilization as number and bar, verdict and chance. */
#include "core/report/limit_table.h"
#include "core/request/answer.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define BAR 12
#define BAR_LEAST 6
/* Columns of the table of limits. */
#define NAME_COLUMNS 13
#define DEMAND_COLUMNS 11
#define CAPACITY_COLUMNS 12
#define USED_COLUMNS 6
#define WIDE_COLUMNS 53 /* of a limit on one line */
#define HEAD_COLUMNS 67 /* of the head with lower_text */

static const char lower_text[] = "  lower limits: --rows";

static const char *const words[] = {"not judged", "clear", "tight", "over"};

/* Where in the path a limit is judged, by its in_corner. */
static const char *const place_tails[] = {"", " corner", " entry"};

/* The upper 95 % utilization of a limit, or its best estimate if nothing was drawn. */
static double upper_utilization(const bite_limit *limit)
{
    return isnan(limit->utilization_high) ? limit->utilization : limit->utilization_high;
}

/* Indices of the limits that apply, highest upper utilization first. */
static int sort_limits(const bite_result *result, int *order)
{
    int count = 0;
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (!result->limits[i].applies) {
            continue;
        }
        int at = count++;
        while (at > 0 && upper_utilization(&result->limits[order[at - 1]]) <
                             upper_utilization(&result->limits[i])) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = i;
    }
    return count;
}

/* What follows the verdict of a limit: its chance, and whether it is advisory, or judged in the
 * corner or at entry, as far as `capacity` columns suffice. */
static void write_tail(const bite_answer *answer, int id, size_t capacity, char *to, size_t size)
{
    const bite_limit *limit = &answer->result.limits[id];
    const char *more =
        limit->advisory ? " advisory" : place_tails[limit->in_corner < 3 ? limit->in_corner : 0];
    char chance[24];
    to[0] = 0;
    if (!isnan(limit->chance)) {
        (void)bite_page_percent(limit->chance, chance, sizeof chance);
        (void)snprintf(to, size, " %s %%", chance);
    }
    if (strlen(to) > capacity) {
        to[0] = 0;
    } else if (strlen(to) + strlen(more) <= capacity) {
        (void)snprintf(to + strlen(to), size - strlen(to), "%s", more);
    }
}

static size_t wider(const char *text, size_t least)
{
    size_t columns = bite_text_columns(text, strlen(text));
    return columns > least ? columns : least;
}

/* A limit on two lines, if it does not fit on one. */
static void write_limit_narrow(bite_page *page, const bite_answer *answer, int id,
                               const char *demand, const char *capacity, const char *used)
{
    const bite_limit *limit = &answer->result.limits[id];
    char line[160];
    char tail[64];
    (void)snprintf(line, sizeof line, "%s  %s of %s",
                   bite_cut_limit_name(&answer->full, (bite_limit_id)id), demand, capacity);
    bite_page_wrap(page, " ", "   ", line);
    write_tail(answer, id, page->columns, tail, sizeof tail);
    bite_page_text(page, "   ");
    bite_page_pad_left(page, used, 6);
    bite_page_text(page, " ");
    bite_page_tint(page, (int)limit->verdict, words[limit->verdict]);
    bite_page_line(page, tail);
}

static void write_limit(bite_page *page, const bite_answer *answer, int id)
{
    const bite_limit *limit = &answer->result.limits[id];
    char demand[40];
    char capacity[40];
    char used[40];
    char tail[64];
    bite_kind kind = bite_cut_limit_kind(&answer->full, (bite_limit_id)id);
    bite_page_quantity(page, limit->utilization < 1e-6 ? 0.0 : limit->demand, kind, demand,
                       sizeof demand);
    bite_page_quantity(page, limit->capacity, kind, capacity, sizeof capacity);
    size_t length = bite_page_percent(limit->utilization, used, sizeof used - 3);
    memcpy(used + length, " %", 3);
    const char *name = bite_cut_limit_name(&answer->full, (bite_limit_id)id);
    /* at least one blank after a long name or capacity */
    size_t names = wider(name, NAME_COLUMNS - 1) + 1;
    size_t capacities = wider(capacity, CAPACITY_COLUMNS - 1) + 1;
    size_t used_columns =
        1 + names + wider(demand, DEMAND_COLUMNS) + 2 + capacities + wider(used, USED_COLUMNS) + 1;
    if (used_columns + strlen(words[limit->verdict]) > page->columns) {
        write_limit_narrow(page, answer, id, demand, capacity, used);
        return;
    }
    bite_page_text(page, " ");
    bite_page_pad(page, name, names);
    bite_page_pad_left(page, demand, DEMAND_COLUMNS);
    bite_page_text(page, "  ");
    bite_page_pad(page, capacity, capacities);
    bite_page_pad_left(page, used, USED_COLUMNS);
    bite_page_text(page, " ");
    size_t behind = strlen(words[limit->verdict]);
    write_tail(answer, id,
               page->columns > used_columns + behind ? page->columns - used_columns - behind : 0,
               tail, sizeof tail);
    behind += strlen(tail);
    size_t bar =
        used_columns + 2 + behind < page->columns ? page->columns - used_columns - 2 - behind : 0;
    bar = bar < BAR ? bar : BAR;
    if (bar >= BAR_LEAST) {
        bite_page_bar(page, limit->utilization, limit->utilization_high, bar);
        bite_page_text(page, " ");
    }
    bite_page_tint(page, (int)limit->verdict, words[limit->verdict]);
    bite_page_line(page, tail);
}

/* The head of the table of limits, which fits the narrowest page. lower: the same line says that
 * some limits are not shown, which leaves the lines below to the cautions. */
static void write_head(bite_page *page, bool lower)
{
    if (page->columns < WIDE_COLUMNS) {
        bite_page_line(page, " limit  demand of capacity, used");
        return;
    }
    bite_page_text(page, " ");
    bite_page_pad(page, "limit", NAME_COLUMNS);
    bite_page_pad_left(page, "demand", DEMAND_COLUMNS);
    bite_page_text(page, "  ");
    bite_page_pad(page, "capacity", CAPACITY_COLUMNS);
    bite_page_pad_left(page, "used", USED_COLUMNS);
    bite_page_line(page, lower && page->columns >= HEAD_COLUMNS ? lower_text : "");
}

static void append(char *to, size_t size, const char *text)
{
    size_t used = strlen(to);
    if (used + strlen(text) + 3 < size) {
        (void)snprintf(to + used, size - used, "%s%s", used > 0 ? ", " : "", text);
    }
}

static void list_names(bite_page *page, const char *title, const char *names)
{
    if (names[0] != 0) {
        char line[600];
        (void)snprintf(line, sizeof line, "%s %s", title, names);
        bite_page_wrap(page, "  ", "    ", line);
    }
}

static void list_open_limits(bite_page *page, const bite_answer *answer)
{
    char open[400] = "";
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        const char *name = bite_cut_limit_name(&answer->full, (bite_limit_id)i);
        if (!answer->result.limits[i].applies && name != NULL) {
            append(open, sizeof open, name);
        }
    }
    list_names(page, "not judged (not requested, or no data):", open);
}

void bite_page_limits(bite_page *page, const bite_answer *answer, int all, int most)
{
    int order[BITE_LIMIT_COUNT];
    int count = sort_limits(&answer->result, order);
    int shown = all || count < most ? count : most;
    write_head(page, shown < count);
    for (int i = 0; i < shown; i++) {
        write_limit(page, answer, order[i]);
    }
    if (all) {
        list_open_limits(page, answer);
    } else if (shown < count && page->columns < HEAD_COLUMNS) {
        bite_page_line(page, lower_text);
    }
}
