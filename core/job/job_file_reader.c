/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a job file. */
#include "core/job/job_file_reader.h"
#include "core/base/error.h"
#include "core/job/job_file_check.h"
#include "core/job/job_file_schema.h"
#include "core/job/place_check.h"
#include "core/library/library.h"
#include <stdlib.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)

/* [setup.1], [setup.2] ... */
static void sort_setup(bite_job_file_check *check, bite_job_file *file, const bite_section *section)
{
    const char *tail = section->tail;
    size_t digits = strspn(tail, "0123456789");
    unsigned long number = digits > 0 && digits < 4 && tail[digits] == 0 && tail[0] != '0'
                               ? strtoul(tail, NULL, 10)
                               : 0;
    if (number < 1 || number > BITE_SETUPS_MAX) {
        bite_job_check_complain(check, section, NULL, "[setup.1], [setup.2], in the order of work",
                                "a setup is named by its number, 1 to 20");
        return;
    }
    file->setups[number - 1] = section;
}

static void sort_sections(bite_job_file_check *check, bite_job_file *file)
{
    const struct {
        const char *name;
        const bite_section **at;
    } single[] = {{"job", &file->job},         {"part", &file->part},   {"stock", &file->stock},
                  {"machine", &file->machine}, {"tools", &file->tools}, {"hold", &file->hold},
                  {"fluids", &file->fluids}};
    for (size_t i = 0; i < bite_table_count(file->table); i++) {
        const bite_section *section = bite_table_at(file->table, i);
        for (size_t k = 0; k < COUNT(single); k++) {
            if (strcmp(section->name, single[k].name) == 0) {
                *single[k].at = section;
            }
        }
        if (strncmp(section->name, "pass.", 5) == 0) {
            if (file->pass_count == BITE_PASSES_MAX) {
                bite_job_check_complain(check, section, NULL, "split the job into several",
                                        "the job has more than 1000 passes");
                return;
            }
            file->passes[file->pass_count++] = section;
        } else if (strncmp(section->name, "setup.", 6) == 0) {
            sort_setup(check, file, section);
        } else if (strncmp(section->name, "screw.", 6) == 0 ||
                   strncmp(section->name, "clamp.", 6) == 0) {
            if (file->obstacle_count == BITE_OBSTACLES_MAX) {
                bite_job_check_complain(check, section, NULL,
                                        "state several positions after one at",
                                        "the job has more screws and clamps than are supported");
                return;
            }
            file->obstacles[file->obstacle_count++] = section;
        } else if (strncmp(section->name, "check.", 6) == 0) {
            if (file->check_count == BITE_CHECKS_MAX) {
                bite_job_check_complain(check, section, NULL, "keep the most important ones",
                                        "the job has more checks than are supported");
                return;
            }
            file->checks[file->check_count++] = section;
        }
    }
}

bite_status bite_job_file_open(const bite_library *library, const char *path, const char *bytes,
                               size_t size, bite_ini_fault fault, void *user, bite_job_file *file,
                               bite_error *error)
{
    bite_job_file_check check = {
        library, file, path == NULL ? "job" : path, fault, user, BITE_ERROR_INIT, 0, BITE_OK};
    const bite_allocator *allocator = bite_library_allocator(library);
    bite_error own = BITE_ERROR_INIT;
    memset(file, 0, sizeof *file);
    bite_status status =
        bytes != NULL ? bite_table_parse(allocator, bytes, size, check.path, &bite_job_file_schema,
                                         bite_job_check_fault, &check, &file->table, &own)
                      : bite_table_open(allocator, path, &bite_job_file_schema,
                                        bite_job_check_fault, &check, &file->table, &own);
    if (file->table == NULL) { /* not an INI file, no such file, or no memory */
        bite_error_copy(error, &own, 0);
        return status;
    }
    sort_sections(&check, file);
    bite_job_check_sense(&check);
    bite_job_check_places(&check);
    if (check.stop == BITE_OK && check.faults == 0) {
        return BITE_OK;
    }
    bite_job_file_free(file);
    if (check.stop != BITE_OK) {
        return bite_error_set(error, check.stop, "no memory for a job");
    }
    bite_error_copy(error, &check.first, check.faults);
    return BITE_BAD_FILE;
}

void bite_job_file_free(bite_job_file *file)
{
    bite_table_free(file->table);
    memset(file, 0, sizeof *file);
}
