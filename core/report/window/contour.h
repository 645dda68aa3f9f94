/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contour lines and areas over a grid, linear within each cell (marching squares). */
#ifndef BITE_REPORT_WINDOW_CONTOUR_H
#define BITE_REPORT_WINDOW_CONTOUR_H

#include "core/base/memory.h"
#include <stddef.h>

/** Numbers over a grid; `at` returns the number at a grid point, NaN if there is none. */
typedef struct bite_grid {
    size_t across;
    size_t up;
    double (*at)(const void *user, size_t across, size_t up);
    const void *user;
} bite_grid;

/** A position in cells from the lower left corner of the grid. */
typedef struct bite_spot {
    double x;
    double y;
} bite_spot;

#define BITE_CORNERS_MAX 8

/**
 * Writes the part of a cell where low < number <= high as a polygon and returns its number of
 * corners; 0: no part of it. The number is linear along the borders; in a saddle both opposite
 * corners and the area between them belong to the part.
 */
size_t bite_contour_cell(const bite_grid *field, size_t across, size_t up, double low, double high,
                         bite_spot *corners);

/** One contour line: `count` spots of the contour, from index `from`. */
typedef struct bite_contour_line {
    size_t from;
    size_t count;
} bite_contour_line;

typedef struct bite_contour {
    bite_spot *spots;
    size_t spot_count;
    bite_contour_line *lines;
    size_t line_count;
} bite_contour;

/** Finds all lines where the number crosses level. The caller frees *contour with
 * bite_contour_free. 0: no memory. */
int bite_contour_find(const bite_grid *field, double level, const bite_allocator *allocator,
                      bite_contour *contour);
void bite_contour_free(const bite_allocator *allocator, bite_contour *contour);

#endif
