/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults in what a job file wants inspected. */
#include "core/job/check_sections.h"
#include "core/inspection/general_tolerance.h"
#include "core/library/collection.h"
#include <math.h>
#include <string.h>

static void check_limits(bite_job_file_check *check, const bite_section *section)
{
    double nominal = bite_job_file_number(section, "nominal");
    double lower = bite_job_file_number(section, "lower");
    double upper = bite_job_file_number(section, "upper");
    double tolerance = bite_job_file_number(section, "tolerance");
    const char *class = bite_job_file_text(section, "class");
    int limits = !isnan(lower) || !isnan(upper);
    if (limits + !isnan(tolerance) + (class != NULL) > 1) {
        bite_job_check_complain(check, section, class != NULL ? "class" : "tolerance",
                                "state one of tolerance, class, or lower and upper",
                                "the limits of this size are stated more than once");
    }
    if (lower > upper) {
        bite_job_check_complain(check, section, "lower", "lower is the smaller of the two",
                                "the lower limit is above the upper one");
    } else if (nominal < lower || nominal > upper) {
        bite_job_check_complain(check, section, "nominal",
                                "lower and upper are sizes, not deviations",
                                "the nominal size lies outside its limits");
    }
}

static void check_class(bite_job_file_check *check, const bite_section *section)
{
    const char *class = bite_job_file_text(section, "class");
    double nominal = bite_job_file_number(section, "nominal");
    bite_tolerance tolerance;
    bite_error error = BITE_ERROR_INIT;
    if (class == NULL) {
        return;
    }
    if (isnan(nominal)) {
        bite_job_check_complain(check, section, "class", "state the nominal size: nominal = 26 mm",
                                "a class has a tolerance for a size, and none is stated");
    } else if (bite_general_tolerance(class, nominal, &tolerance, &error) != BITE_OK) {
        bite_job_check_error(check, section, "class", NULL, &error);
    }
}

static void check_names(bite_job_file_check *check, const bite_section *section)
{
    const char *instrument = bite_job_file_text(section, "instrument");
    const char *pass = bite_job_file_text(section, "pass");
    const bite_item_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    if (instrument != NULL && bite_library_record(check->library, BITE_INSTRUMENTS, instrument,
                                                  &record, &error) != BITE_OK) {
        bite_job_check_error(check, section, "instrument", NULL, &error);
    }
    for (size_t i = 0; pass != NULL && i < check->file->pass_count; i++) {
        pass = strcmp(check->file->passes[i]->tail, pass) == 0 ? NULL : pass;
    }
    if (pass != NULL) {
        bite_job_check_complain(check, section, "pass", "the name of a section [pass.NAME]",
                                "there is no such pass in this file");
    }
}

void bite_job_check_inspection(bite_job_file_check *check, const bite_section *section)
{
    double every = bite_job_file_number(section, "every");
    check_limits(check, section);
    check_class(check, section);
    check_names(check, section);
    if (every != floor(every) && !isnan(every)) {
        bite_job_check_complain(check, section, "every", "every = 5: the first, the sixth ...",
                                "the number of parts must be a whole number");
    }
}
