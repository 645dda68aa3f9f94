/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Positions in a job file: at = 12 mm 8 mm, 30 mm 8 mm */
#include "core/job/positions.h"
#include "core/base/error.h"
#include "core/job/job_file.h"
#include <stdio.h>
#include <string.h>

enum { WORD = 64 };

/* The next length, of one word or of a number and a unit. *comma: nonzero if one follows it.
 * Returns 0 at the end, -1 if it is not a length. */
static int next_length(const char *text, size_t *at, double *length, int *comma)
{
    char word[WORD];
    char unit[WORD];
    char both[2 * WORD + 1];
    if (!bite_job_file_name(text, *at, word, sizeof word)) {
        return 0;
    }
    (*at)++;
    *comma = strchr(word, ',') != NULL; /* at its end */
    word[strcspn(word, ",")] = 0;
    if (bite_quantity_read(word, BITE_KIND_LENGTH, length, NULL) == BITE_OK) {
        return 1;
    }
    if (*comma || !bite_job_file_name(text, *at, unit, sizeof unit)) {
        return -1;
    }
    (*at)++;
    *comma = strchr(unit, ',') != NULL;
    unit[strcspn(unit, ",")] = 0;
    (void)snprintf(both, sizeof both, "%s %s", word, unit);
    return bite_quantity_read(both, BITE_KIND_LENGTH, length, NULL) == BITE_OK ? 1 : -1;
}

static bite_status complain(bite_positions *positions, bite_error *error, const char *message)
{
    positions->count = 0;
    bite_status status = bite_error_set(error, BITE_BAD_FILE, "%s", message);
    bite_error_hint(error, "at = 12 mm 8 mm, 30 mm 8 mm: along the length and across it");
    return status;
}

bite_status bite_positions_read(const char *text, bite_positions *positions, bite_error *error)
{
    size_t at = 0;
    int comma = 1; /* more is expected */
    positions->count = 0;
    while (text != NULL) {
        double x = 0.0;
        double y = 0.0;
        int found = next_length(text, &at, &x, &comma);
        if (found == 0 && comma) {
            return complain(positions, error, "a position was expected");
        }
        if (found == 0) {
            break;
        }
        int paired = found > 0 && !comma && next_length(text, &at, &y, &comma) > 0;
        if (!paired) {
            return complain(positions, error, "a position is two lengths");
        }
        if (positions->count == BITE_POSITIONS_MAX) {
            return complain(positions, error, "more than 64 positions were given");
        }
        positions->x[positions->count] = x;
        positions->y[positions->count++] = y;
    }
    return BITE_OK;
}
