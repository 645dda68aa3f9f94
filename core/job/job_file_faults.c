/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults of a job file: counted, placed and passed on. */
#include "core/job/job_file_faults.h"
#include "core/base/error.h"
#include "core/tables/typed_table.h"

void bite_job_check_fault(void *user, const bite_error *fault)
{
    bite_job_file_check *check = user;
    if (check->faults++ == 0) {
        check->first = *fault;
    }
    if (check->fault != NULL) {
        check->fault(check->user, fault);
    }
}

void bite_job_check_error(bite_job_file_check *check, const bite_section *section, const char *key,
                          const char *hint, const bite_error *why)
{
    bite_error error = *why;
    if (why->status == BITE_NO_MEMORY) { /* an error of the library, not of the file */
        check->stop = BITE_NO_MEMORY;
        return;
    }
    const bite_field_value *field_value =
        section == NULL || key == NULL ? NULL : bite_section_value(section, key);
    bite_error_place(&error, check->path,
                     field_value != NULL ? field_value->line
                     : section != NULL   ? section->line
                                         : 0,
                     0);
    if (section != NULL && key != NULL) {
        bite_error_key(&error, "%s:%s", section->name, key);
    } else if (section != NULL) {
        bite_error_key(&error, "%s", section->name);
    } else if (key != NULL) {
        bite_error_key(&error, "%s", key);
    }
    if (hint != NULL) {
        bite_error_hint(&error, "%s", hint);
    }
    bite_job_check_fault(check, &error);
}

int bite_job_check_states(const bite_job_file_check *check, const bite_section *section,
                          const char *key)
{
    return bite_table_has_key(check->file->table, section->name, key);
}

void bite_job_check_complain(bite_job_file_check *check, const bite_section *section,
                             const char *key, const char *hint, const char *message)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_job_check_error(check, section, key, hint, &error);
}
