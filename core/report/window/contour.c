/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contour lines and areas over a grid. */
#include "core/report/window/contour.h"
#include <math.h>
#include <string.h>

/* A segment of a line within one cell. Its two cell borders are identified by number, so that
 * neighbouring segments join exactly. */
typedef struct contour_segment {
    size_t border[2];
    bite_spot spot[2];
    int used;
} contour_segment;

static bite_spot between(bite_spot a, bite_spot b, double va, double vb, double level)
{
    double share = (level - va) / (vb - va);
    bite_spot spot = {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
    return spot;
}

/* Clips a polygon to the part above (sign 1) or not above (sign -1) the level, with the numbers at
 * its corners. */
static size_t clip(bite_spot *corner, double *number, size_t count, double level, double sign)
{
    bite_spot clipped[BITE_CORNERS_MAX];
    double kept_number[BITE_CORNERS_MAX];
    size_t out = 0;
    for (size_t i = 0; i < count; i++) {
        size_t next = (i + 1) % count;
        double here = sign * (number[i] - level);
        double there = sign * (number[next] - level);
        if (here > 0.0 && out < BITE_CORNERS_MAX) {
            clipped[out] = corner[i];
            kept_number[out++] = number[i];
        }
        if ((here > 0.0) != (there > 0.0) && out < BITE_CORNERS_MAX) {
            clipped[out] = between(corner[i], corner[next], number[i], number[next], level);
            kept_number[out++] = level;
        }
    }
    memcpy(corner, clipped, out * sizeof *clipped);
    memcpy(number, kept_number, out * sizeof *kept_number);
    return out;
}

/* The four corners, anticlockwise. 0: a number is missing. */
static int corners_of(const bite_grid *field, size_t across, size_t up, bite_spot *corner,
                      double *number)
{
    static const size_t dx[] = {0, 1, 1, 0};
    static const size_t dy[] = {0, 0, 1, 1};
    for (int i = 0; i < 4; i++) {
        corner[i].x = (double)(across + dx[i]);
        corner[i].y = (double)(up + dy[i]);
        number[i] = field->at(field->user, across + dx[i], up + dy[i]);
        if (isnan(number[i])) {
            return 0;
        }
    }
    return 1;
}

size_t bite_contour_cell(const bite_grid *field, size_t across, size_t up, double low, double high,
                         bite_spot *corners)
{
    double number[BITE_CORNERS_MAX];
    if (!corners_of(field, across, up, corners, number)) {
        return 0;
    }
    size_t count = clip(corners, number, 4, low, 1.0);
    /* points exactly at high are included */
    if (count >= 3 && !isinf(high)) {
        count = clip(corners, number, count, nextafter(high, INFINITY), -1.0);
    }
    return count < 3 ? 0 : count;
}

/* Numbers the borders: first the lower border of each cell, then the left ones. */
static size_t border_of(const bite_grid *field, size_t across, size_t up, int side)
{
    size_t all = field->across * field->up;
    switch (side) {
    case 0:
        return up * field->across + across;
    case 1:
        return all + up * field->across + across + 1;
    case 2:
        return (up + 1) * field->across + across;
    default:
        return all + up * field->across + across;
    }
}

static size_t add_segments(const bite_grid *field, size_t across, size_t up, double level,
                           contour_segment *segments)
{
    bite_spot corner[4];
    double number[4];
    bite_spot met[4];
    size_t border[4];
    size_t count = 0;
    if (!corners_of(field, across, up, corner, number)) {
        return 0;
    }
    for (int i = 0; i < 4; i++) {
        int next = (i + 1) % 4;
        if ((number[i] > level) != (number[next] > level)) {
            met[count] = between(corner[i], corner[next], number[i], number[next], level);
            border[count++] = border_of(field, across, up, i);
        }
    }
    for (size_t i = 0; i + 1 < count; i += 2) {
        contour_segment made = {{border[i], border[i + 1]}, {met[i], met[i + 1]}, 0};
        segments[i / 2] = made;
    }
    return count / 2;
}

/* The unused segment that shares a border; *end: which of its ends. */
static contour_segment *neighbour(contour_segment *segments, size_t count, size_t border, int *end)
{
    for (size_t i = 0; i < count; i++) {
        for (int k = 0; k < 2; k++) {
            if (!segments[i].used && segments[i].border[k] == border) {
                *end = k;
                return &segments[i];
            }
        }
    }
    return NULL;
}

/* Follows the segments from the end of one; writes at most count + 1 spots to `to`. */
static size_t follow(contour_segment *segments, size_t count, const contour_segment *from, int end,
                     bite_spot *to)
{
    size_t written = 0;
    size_t border = from->border[end];
    int met = 0;
    to[written++] = from->spot[end];
    for (contour_segment *next = neighbour(segments, count, border, &met); next != NULL;
         next = neighbour(segments, count, border, &met)) {
        next->used = 1;
        border = next->border[1 - met];
        to[written++] = next->spot[1 - met];
    }
    return written;
}

static void join(contour_segment *segments, size_t count, bite_contour *contour)
{
    for (size_t i = 0; i < count; i++) {
        if (segments[i].used) {
            continue;
        }
        segments[i].used = 1;
        bite_contour_line *line = &contour->lines[contour->line_count++];
        bite_spot *to = contour->spots + contour->spot_count;
        size_t back = follow(segments, count, &segments[i], 0, to);
        for (size_t k = 0; k < back / 2; k++) {
            bite_spot other = to[k];
            to[k] = to[back - 1 - k];
            to[back - 1 - k] = other;
        }
        line->from = contour->spot_count;
        line->count = back + follow(segments, count, &segments[i], 1, to + back);
        contour->spot_count += line->count;
    }
}

int bite_contour_find(const bite_grid *field, double level, const bite_allocator *allocator,
                      bite_contour *contour)
{
    memset(contour, 0, sizeof *contour);
    size_t most = 2 * (field->across - 1) * (field->up - 1);
    contour_segment *segments = bite_memory_new(allocator, most, sizeof *segments);
    size_t count = 0;
    for (size_t up = 0; segments != NULL && up + 1 < field->up; up++) {
        for (size_t across = 0; across + 1 < field->across; across++) {
            count += add_segments(field, across, up, level, segments + count);
        }
    }
    /* a line of n segments has n + 1 spots */
    contour->spots = bite_memory_new(allocator, 2 * count + 1, sizeof *contour->spots);
    contour->lines = bite_memory_new(allocator, count + 1, sizeof *contour->lines);
    if (segments == NULL || contour->spots == NULL || contour->lines == NULL) {
        bite_memory_free(allocator, segments);
        bite_contour_free(allocator, contour);
        return 0;
    }
    join(segments, count, contour);
    bite_memory_free(allocator, segments);
    return 1;
}

void bite_contour_free(const bite_allocator *allocator, bite_contour *contour)
{
    bite_memory_free(allocator, contour->spots);
    bite_memory_free(allocator, contour->lines);
    memset(contour, 0, sizeof *contour);
}
