/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lines and areas of one level over a grid, straight within each of its cells (marching squares).
 */
#ifndef BITE_REPORT_WINDOW_CONTOUR_H
#define BITE_REPORT_WINDOW_CONTOUR_H

#include "core/base/memory.h"
#include <stddef.h>

/** Numbers over a grid; `at` gives each place's, NaN where there is none. */
typedef struct bite_grid {
    size_t across;
    size_t up;
    double (*at)(const void *user, size_t across, size_t up);
    const void *user;
} bite_grid;

/** In cells of the grid from its lower left corner. */
typedef struct bite_spot {
    double x;
    double y;
} bite_spot;

#define BITE_CORNERS_MAX 8

/**
 * The part of a cell where low < number <= high, as a polygon; its corners, 0: none of it. Along
 * its borders the number is straight; of a saddle both opposite corners and what lies between them
 * belong to it.
 */
size_t bite_contour_cell(const bite_grid *field, size_t across, size_t up, double low, double high,
                         bite_spot *corners);

/** One line of a level, from `from` on in the caller's list of spots. */
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

/** All lines where the number passes through level. *contour: owned, bite_contour_free. 0: no
 * memory. */
int bite_contour_find(const bite_grid *field, double level, const bite_allocator *allocator,
                      bite_contour *contour);
void bite_contour_free(const bite_allocator *allocator, bite_contour *contour);

#endif
