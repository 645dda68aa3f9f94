/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of the positions in a job file: of features, screws and clamps. */
#include "core/job/place_check.h"
#include "core/job/job_file.h"
#include "core/job/positions.h"
#include <math.h>
#include <string.h>

/* Positions on the part are within it, and as many as there are such features. */
static void check_positions(bite_job_file_check *check, const bite_section *section, int on_part,
                            double count)
{
    bite_positions positions;
    bite_error error = BITE_ERROR_INIT;
    const char *text = bite_job_file_text(section, "at");
    double length = bite_job_file_number(check->file->part, "length");
    double width = bite_job_file_number(check->file->part, "width");
    if (text == NULL) {
        return;
    }
    if (bite_positions_read(text, &positions, &error) != BITE_OK) {
        bite_job_check_complain(check, section, "at", error.hint, error.message);
        return;
    }
    if (!isnan(count) && count != (double)positions.count) {
        bite_job_check_complain(check, section, "at", "leave count out, or state every position",
                                "at does not have as many positions as count");
    }
    for (size_t i = 0; i < positions.count && on_part; i++) {
        if (positions.x[i] > length || positions.y[i] > width) {
            bite_job_check_complain(
                check, section, "at",
                "positions count from a corner of the part, along its length and its width",
                "a position is outside the part");
            return;
        }
    }
}

static void check_obstacle(bite_job_file_check *check, const bite_section *obstacle)
{
    int screw = strncmp(obstacle->name, "screw.", 6) == 0;
    uint32_t on = bite_job_file_word(obstacle, "on", screw ? 0u : 1u);
    if (!bite_job_check_states(check, obstacle, "at")) {
        bite_job_check_complain(check, obstacle, "at", "at = 12 mm 8 mm",
                                "it does not state where it is");
    }
    if (!screw && (!bite_job_check_states(check, obstacle, "length") ||
                   !bite_job_check_states(check, obstacle, "width"))) {
        bite_job_check_complain(check, obstacle, NULL, "length = 30 mm and width = 15 mm",
                                "the clamp does not state its size");
    }
    if (bite_job_check_states(check, obstacle, "height") &&
        bite_job_check_states(check, obstacle, "below")) {
        bite_job_check_complain(check, obstacle, "below", "state one of height and below",
                                "it stands above the top of the stock and is below it");
    }
    double setup = bite_job_file_number(obstacle, "setup");
    if (!isnan(setup) && setup != floor(setup)) {
        bite_job_check_complain(check, obstacle, "setup", "setup = 1",
                                "the setup must be a whole number");
    }
    check_positions(check, obstacle, on == 0, (double)NAN);
}

void bite_job_check_places(bite_job_file_check *check)
{
    const bite_job_file *file = check->file;
    for (size_t i = 0; i < file->pass_count; i++) {
        uint32_t work = bite_job_file_word(file->passes[i], "work", BITE_WORK_COUNT);
        if ((work == BITE_WORK_FREE || work == BITE_WORK_FACE) &&
            bite_job_check_states(check, file->passes[i], "at")) {
            bite_job_check_complain(check, file->passes[i], "at", "remove it",
                                    "a face and cutting free have no position on the part");
        }
        check_positions(check, file->passes[i], 1, bite_job_file_number(file->passes[i], "count"));
    }
    for (size_t i = 0; i < file->obstacle_count; i++) {
        check_obstacle(check, file->obstacles[i]);
    }
}
