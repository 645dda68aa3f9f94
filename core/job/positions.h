/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Positions in a job file: at = 12 mm 8 mm, 30 mm 8 mm */
#ifndef BITE_JOB_POSITIONS_H
#define BITE_JOB_POSITIONS_H

#include <coolbite/coolbite.h>
#include <stddef.h>

#define BITE_POSITIONS_MAX 64

typedef struct bite_positions {
    size_t count;
    double x[BITE_POSITIONS_MAX]; /* m */
    double y[BITE_POSITIONS_MAX];
} bite_positions;

/** Reads pairs of lengths separated by commas. text NULL: none. BITE_BAD_FILE with a message and a
 * hint; then the count is 0. */
bite_status bite_positions_read(const char *text, bite_positions *positions, bite_error *error);

#endif
