/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults of a job file that only planning reveals. */
#include "core/job/plan_faults.h"
#include "core/base/error.h"
#include <string.h>

void bite_plan_fault(bite_job *job, const bite_section *section, const bite_error *why)
{
    bite_error fault = *why;
    char key[sizeof why->key];
    memcpy(key, why->key, sizeof key);
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    fault.status = BITE_BAD_FILE;
    fault.faults = 0;
    bite_error_place(&fault, job->file,
                     field_value != NULL ? field_value->line
                     : section != NULL   ? section->line
                                         : 0,
                     0);
    if (section != NULL) {
        bite_error_key(&fault, "%.60s%s%.60s", section->name, key[0] == 0 ? "" : ":", key);
    }
    if (job->faults++ == 0) {
        job->first_fault = fault;
    }
    if (job->fault != NULL) {
        job->fault(job->fault_user, &fault);
    }
}

bite_status bite_plan_status(const bite_job *job, bite_error *error)
{
    if (job->faults == 0) {
        return BITE_OK;
    }
    bite_error_copy(error, &job->first_fault, job->faults);
    return BITE_BAD_FILE;
}
