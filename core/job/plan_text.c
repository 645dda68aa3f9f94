/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Texts of a plan, stored in the job's arena. */
#include "core/job/plan_text.h"
#include "core/base/display_text.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/units/format_quantity.h"
#include "core/units/inch_text.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* A line of a job file has at most 1000 bytes, and some texts of a plan contain two of them. */
#define TEXT_MOST 4000

/* a line of a file has at most 1000 bytes, and some texts of a plan contain two of them */

const char *bite_plan_text(bite_job *job, const char *format, ...)
{
    char text[TEXT_MOST];
    va_list list;
    va_start(list, format);
    int length = vsnprintf(text, sizeof text, format, list);
    va_end(list);
    size_t used = length < 0 ? 0 : strlen(text);
    used = (size_t)length == used ? used : bite_text_complete_length(text, used);
    char *copy = length < 0 ? NULL : bite_arena_text(job->arena, text, used);
    job->out_of_memory |= copy == NULL;
    return copy == NULL ? "" : copy;
}

const char *bite_plan_quantity(const bite_job *job, double si, bite_kind kind, char *buffer,
                               size_t size)
{
    size_t length = 0;
    if (kind == BITE_KIND_LENGTH) {
        bite_control_length_write(si, job->units, buffer, size);
    } else if (isnan(si) ||
               bite_quantity_write(si, kind, job->units, buffer, size, &length, NULL) != BITE_OK) {
        (void)snprintf(buffer, size, "-");
    }
    return buffer;
}

const char *bite_plan_duration(double seconds, char *buffer, size_t size)
{
    char digits[40];
    double in = seconds < 99.5 ? 1.0 : seconds < 5970.0 ? 60.0 : 3600.0;
    double number = seconds / in;
    number = in > 1.0 && number < 9.95 ? round(10.0 * number) / 10.0 : round(number);
    if (isnan(seconds)) {
        (void)snprintf(buffer, size, "-");
    } else {
        (void)bite_number_write(number, 12, digits, sizeof digits);
        (void)snprintf(buffer, size, "%s %s", digits, in < 2.0 ? "s" : in < 100.0 ? "min" : "h");
    }
    return buffer;
}

const char *bite_plan_table_text(bite_job *job, const char *text)
{
    if (text == NULL || job->units != BITE_INCH) {
        return text == NULL ? "" : text;
    }
    const char *converted = bite_text_inches(job->arena, text);
    job->out_of_memory |= converted == NULL;
    return converted == NULL ? "" : converted;
}
