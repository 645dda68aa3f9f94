/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The machine of a job: its record, and its lengths as the job states them or its table. */
#include "core/job/machine_lengths.h"
#include "core/job/job_file.h"
#include "core/library/collection.h"
#include "core/library/item.h"
#include "core/request/resolve.h"
#include <math.h>

bite_status bite_plan_machine(bite_job *job, bite_error *error)
{
    static const char *const travels[] = {"travel_x", "travel_y", "travel_z"};
    bite_planned_envelope *envelope = &job->envelope;
    const char *name = bite_job_file_text(job->file_data.machine, "name");
    envelope->stated = name != NULL;
    bite_status status =
        bite_library_record(job->library, BITE_MACHINES, name == NULL ? bite_usual_machine : name,
                            &envelope->machine, error);
    if (status == BITE_UNKNOWN_NAME && name == NULL) { /* a shop may do without the usual one */
        envelope->machine = NULL;
        status = BITE_OK;
    }
    for (size_t i = 0; i < 3 && status == BITE_OK; i++) {
        envelope->travel[i] = bite_plan_machine_length(job, travels[i]).value;
    }
    return status;
}

bite_machine_length bite_plan_machine_length(const bite_job *job, const char *key)
{
    double stated = bite_job_file_number(job->file_data.machine, key);
    const bite_field_value *field_value =
        job->envelope.machine == NULL ? NULL : bite_item_field(job->envelope.machine, key);
    bite_machine_length figure = {stated, stated, "", 1};
    if (isnan(stated) && field_value != NULL) {
        figure.value = field_value->value;
        figure.low = field_value->low;
        figure.source = field_value->source == NULL ? "" : field_value->source;
        figure.binding = job->envelope.stated;
    }
    return figure;
}

const char *bite_plan_machine_name(const bite_job *job)
{
    return job->envelope.machine == NULL ? "the machine" : job->envelope.machine->name;
}

int bite_plan_machine_excess(const bite_job *job, const char *key, double needed)
{
    const double hair = 1e-9;
    bite_machine_length figure = bite_plan_machine_length(job, key);
    return needed > figure.value + hair ? 2 : needed > figure.low + hair ? 1 : 0;
}

void bite_plan_machine_beyond(bite_job *job, bite_remark_id id, const char *what, double needed,
                              const char *key, int excess)
{
    bite_machine_length figure = bite_plan_machine_length(job, key);
    int beyond = excess == 2 && figure.binding;
    job->envelope.beyond |= beyond ? 1u : 0u;
    const bite_remark_value values[] = {bite_remark_text(what), bite_remark_number(needed),
                                        bite_remark_number(excess == 2 ? figure.value : figure.low),
                                        bite_remark_text(bite_plan_machine_name(job))};
    bite_plan_remark_from(job, id, beyond ? BITE_CARE : BITE_NOTE, figure.source, values, 4);
}
