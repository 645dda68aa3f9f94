/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans a job file: every fault of the file with its place, then the verdict and a sheet to print.
 *
 *   plan_job JOB.ini SHEET.html */
#include <coolbite/coolbite.h>
#include <stdio.h>

static void show_fault(void *user, const bite_error *fault)
{
    (void)user;
    fprintf(stderr, "%s:%u: %s: %s (%s)\n", fault->file, (unsigned)fault->line, fault->key,
            fault->message, fault->hint);
}

/* The library writes the file: completely, or not at all. */
static int add(void *user, const char *text, size_t size)
{
    bite_error error = BITE_ERROR_INIT;
    return bite_file_output_write(user, text, size, &error) != BITE_OK;
}

static bite_status write_sheet(const bite_job *job, const char *path, bite_error *error)
{
    bite_style style;
    bite_file_output *file = NULL;
    bite_style_init(&style);
    style.format = BITE_HTML;
    bite_status status = bite_file_output_open(path, &file, error);
    if (status != BITE_OK) {
        return status;
    }
    status = bite_job_write(job, &style, add, file, error);
    if (status != BITE_OK) {
        bite_file_output_drop(file);
        return status;
    }
    return bite_file_output_keep(file, error);
}

int main(int count, char **arguments)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_job *job = NULL;
    bite_job_options options;
    bite_job_options_init(&options);
    if (count != 3) {
        fprintf(stderr, "usage: plan_job JOB.ini SHEET.html\n");
        return 64;
    }
    bite_status status = bite_library_open(NULL, &library, &error);
    status = status
                 ? status
                 : bite_job_open(library, arguments[1], &options, show_fault, NULL, &job, &error);
    status = status ? status : write_sheet(job, arguments[2], &error);
    if (status != BITE_OK) {
        fprintf(stderr, "%s: %s\n", error.message, error.hint);
    } else {
        printf("verdict: %s\n", bite_verdict_name(bite_job_verdict(job)));
    }
    bite_job_free(job);
    bite_library_close(library);
    return status != BITE_OK;
}
