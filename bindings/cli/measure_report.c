/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the readings of a record prove. */
#include "bindings/cli/measure_report.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/output.h"
#include <stdlib.h>

int measure_report_check(const struct command_line *line)
{
    static const char *const of_entry[] = {"job",  "field",  "person",     "readings",
                                           "part", "trials", "temperature"};
    if (!line->report) {
        return line->format_given
                   ? report_usage_error("--format is that of a report; add --report FILE")
                   : 0;
    }
    for (size_t i = 0; i < sizeof of_entry / sizeof *of_entry; i++) {
        if (option_is_given(line, of_entry[i])) {
            return report_usage_error("--%s is for entering readings, and --report judges those "
                                      "that there are; leave out one of them",
                                      of_entry[i]);
        }
    }
    return 0;
}

int measure_report(const struct command_line *line, const bite_record *record)
{
    bite_error error = BITE_ERROR_INIT;
    bite_style style = line->style;
    struct text_buffer buffer = {NULL, 0, 0};
    uint32_t verdict = BITE_NOT_JUDGED;
    style.units = line->units_given ? style.units : bite_record_units(record);
    if (bite_record_verdict(record, &verdict, &error) != BITE_OK) {
        return report_error(&error);
    }
    int status =
        bite_record_report_write(record, &style, text_buffer_append, &buffer, &error) == BITE_OK
            ? output_write(line->output, &buffer)
            : report_write_error(&error);
    free(buffer.text);
    return status != 0 ? status : exit_status_of_verdict(verdict, line->exit_zero);
}
