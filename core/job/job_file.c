/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job file states: values of its keys. */
#include "core/job/job_file.h"
#include "core/base/text.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

double bite_job_file_deepest(uint32_t work, double thick)
{
    const double below = 3e-3; /* m, of a drill's point or a tool's end in the layer under the
                                  sheet; common practice */
    int through = work == BITE_WORK_SLOT || work == BITE_WORK_BORE || work == BITE_WORK_DRILL ||
                  work == BITE_WORK_CONTOUR || work == BITE_WORK_FREE;
    return through ? thick + below : thick;
}

double bite_job_file_number(const bite_section *section, const char *key)
{
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    return field_value == NULL ? (double)NAN : field_value->value;
}

const char *bite_job_file_text(const bite_section *section, const char *key)
{
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    return field_value == NULL ? NULL : field_value->text;
}

uint32_t bite_job_file_word(const bite_section *section, const char *key, uint32_t otherwise)
{
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    return field_value == NULL ? otherwise : field_value->word;
}

int bite_job_file_name(const char *text, size_t index, char *name, size_t size)
{
    for (size_t at = 0; text != NULL && *text != 0; at++) {
        text += strspn(text, " \t");
        size_t length = strcspn(text, " \t");
        if (length == 0) {
            return 0;
        }
        if (at == index) {
            (void)snprintf(name, size, "%.*s", (int)length, text);
            return 1;
        }
        text += length;
    }
    return 0;
}

const bite_section *bite_job_file_pass(const bite_job_file *file, const char *name)
{
    for (size_t i = 0; i < file->pass_count; i++) {
        if (bite_text_equals(file->passes[i]->tail, name)) {
            return file->passes[i];
        }
    }
    return NULL;
}

double bite_job_file_setup_of(const bite_section *pass)
{
    double setup = bite_job_file_number(pass, "setup");
    return isnan(setup) ? 1.0 : setup;
}
