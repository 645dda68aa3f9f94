/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window in sentences: the verdict at the current point, and how far the point may move. */
#include "core/report/window/summary.h"
#include "core/base/number.h"
#include "core/report/cut_text.h"
#include "core/report/window/axis.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static void write_quantity(bite_page *page, const bite_axis *axis, double si, char *to, size_t size)
{
    bite_page_quantity(page, si, (bite_kind)axis->input->kind, to, size);
}

/* A value of an axis, with the name of a plain number: "flutes 2". */
static void write_named(bite_page *page, const bite_axis *axis, char *to, size_t size)
{
    size_t used = 0;
    if (axis->input->kind == BITE_KIND_NUMBER) {
        bite_page_plain(axis->input->name, to, size - 1);
        used = strlen(to);
        to[used++] = ' ';
    }
    write_quantity(page, axis, axis->here, to + used, size - used);
}

void bite_window_point_text(bite_page *page, const bite_window *window, char *to, size_t size)
{
    const bite_result *result = &window->answer->result;
    char across[96];
    char up[96];
    char used_percent[24];
    char chance[24];
    double chance_value = isnan(result->chance) ? 0.0 : result->chance;
    write_named(page, &window->across, across, sizeof across);
    write_named(page, &window->up, up, sizeof up);
    (void)bite_number_write(round(100.0 * result->limits[result->worst].utilization), 6,
                            used_percent, sizeof used_percent);
    (void)bite_page_percent(chance_value, chance, sizeof chance);
    int used = snprintf(to, size, "At %s and %s: %s, %s uses %s %% of its capacity", across, up,
                        bite_verdict_name((bite_verdict)result->verdict),
                        bite_cut_limit_name(&window->answer->full, (bite_limit_id)result->worst),
                        used_percent);
    if (result->draws > 0 && used > 0 && (size_t)used < size) {
        used += snprintf(to + used, size - (size_t)used, "; chance of exceeding a limit: %s %%",
                         chance);
    }
    if (used > 0 && (size_t)used < size) {
        bite_advisory_text(window->answer, to + used, size - (size_t)used);
    }
}

static int comes_before(const bite_window *window, uint32_t a, uint32_t b)
{
    double of_a = bite_window_utilization(window, a, 0, 0);
    double of_b = bite_window_utilization(window, b, 0, 0);
    return window->binds[a] != window->binds[b] ? window->binds[a] != 0 : of_a > of_b;
}

size_t bite_window_fixed_limits(const bite_window *window, uint32_t *order)
{
    size_t count = 0;
    for (uint32_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (!window->fixed[i]) {
            continue;
        }
        size_t at = count++;
        for (; at > 0 && comes_before(window, i, order[at - 1]); at--) {
            order[at] = order[at - 1];
        }
        order[at] = i;
    }
    return count;
}

void bite_window_fixed_text(const bite_window *window, char *to, size_t size)
{
    uint32_t order[BITE_LIMIT_COUNT];
    char across[48];
    char up[48];
    size_t count = bite_window_fixed_limits(window, order);
    bite_page_plain(window->across.input->name, across, sizeof across);
    bite_page_plain(window->up.input->name, up, sizeof up);
    size_t used = 0;
    to[0] = 0;
    for (size_t i = 0; i < count && used + 1 < size; i++) {
        char percent[24];
        bite_verdict verdict = bite_window_fixed_verdict(window, order[i]);
        (void)bite_number_write(
            round(100.0 * fmin(bite_window_utilization(window, order[i], 0, 0), 99.99)), 6, percent,
            sizeof percent);
        if (i == 0) {
            (void)snprintf(to, size, "Not changed by %s or %s: ", across, up);
            used = strlen(to);
        }
        (void)snprintf(to + used, size - used, "%s%s %s %%%s%s%s", i == 0 ? "" : ", ",
                       bite_cut_limit_name(&window->answer->full, (bite_limit_id)order[i]), percent,
                       verdict == BITE_CLEAR ? "" : " (",
                       verdict == BITE_CLEAR ? "" : bite_verdict_name(verdict),
                       verdict == BITE_CLEAR ? "" : ")");
        used += strlen(to + used);
    }
}

/* The limits that the range is about. */
static const char *range_subject(const bite_window *window)
{
    for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
        if (window->fixed[i] && window->binds[i] &&
            bite_window_fixed_verdict(window, i) != BITE_CLEAR) {
            return "each limit that changes";
        }
    }
    return "each limit alone";
}

/* Rounds inwards to about three digits: the grid resolves no more. */
static void write_rounded(bite_page *page, const bite_axis *axis, double si, int up, char *to,
                          size_t size)
{
    double number = bite_window_axis_number(page, axis, si);
    double step = pow(10.0, floor(log10(fabs(number) + 1e-300)) - 1.0);
    double rounded =
        axis->input->kind == BITE_KIND_TEMPERATURE
            ? si
            : si * (up ? ceil(number / step - 1e-9) : floor(number / step + 1e-9)) * step / number;
    /* but not past the current point, which is within the range */
    write_quantity(page, axis, up ? fmin(rounded, axis->here) : fmax(rounded, axis->here), to,
                   size);
}

void bite_window_range_text(bite_page *page, const bite_window *window, int along_up, char *to,
                            size_t size)
{
    const bite_axis *axis = along_up ? &window->up : &window->across;
    const bite_axis *fixed = along_up ? &window->across : &window->up;
    double least = 0.0;
    double most = 0.0;
    char name[48];
    char from[48];
    char until[48];
    char other[96];
    bite_page_plain(axis->input->name, name, sizeof name);
    write_named(page, fixed, other, sizeof other);
    if (!bite_window_clear(window, along_up, &least, &most)) {
        (void)snprintf(to, size, "At %s, no %s near the point is clear", other, name);
        return;
    }
    if (!(least < most)) {
        (void)snprintf(to, size,
                       "At %s, this %s is only just clear: one step of the grid either way is not",
                       other, name);
        return;
    }
    write_rounded(page, axis, least, 1, from, sizeof from);
    write_rounded(page, axis, most, 0, until, sizeof until);
    (void)snprintf(to, size, "At %s, %s is clear from %s %s to %s", other, range_subject(window),
                   name, from, until);
}
