/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite job: plan a whole job from its file. */
#include "bindings/cli/cli.h"
#include <stdlib.h>
#include <string.h>

/* Every fault on a line of its own; what comes back as the error is the first of them. */
static void tell_fault(void *user, const bite_error *fault)
{
    size_t *told = user;
    (void)complain(fault);
    (*told)++;
}

static int show(const struct request *request, const bite_job *job, uint32_t format, const char *path)
{
    bite_error error = BITE_ERROR_INIT;
    bite_style style = request->style;
    struct request to = *request;
    struct gathered text = {NULL, 0, 0};
    style.format = format;
    to.output = path;
    int status = bite_job_write(job, &style, gather, &text, &error) == BITE_OK ? deliver(&to, &text) : complain(&error);
    free(text.text);
    return status;
}

static int exit_of_job(const struct request *request, const bite_job *job)
{
    static const int by_verdict[] = {EXIT_CLEAR, EXIT_CLEAR, EXIT_TIGHT, EXIT_OVER};
    return request->exit_zero ? EXIT_CLEAR : by_verdict[bite_job_verdict(job)];
}

static int plan(const bite_library *library, const struct request *request, bite_job **job)
{
    bite_error error = BITE_ERROR_INIT;
    bite_job_options options = {0};
    size_t told = 0;
    options.struct_size = (uint32_t)sizeof options;
    options.units = request->style.units;
    options.units_given = request->units_given;
    options.threads = (uint32_t)threads_here();
    options.draws = request->draws;
    options.confidence = request->confidence;
    bite_status status = bite_job_open(library, request->words[0], &options, tell_fault, &told, job, &error);
    if (status == BITE_OK) {
        return 0;
    }
    if (told == 0) {
        return complain(&error);
    }
    if (status != BITE_BAD_FILE) {
        return exit_of(status); /* no such file: one line was enough */
    }
    return complain_of(exit_of(status), "%zu fault%s in %s; nothing was planned", told,
                       told == 1 ? "" : "s", request->words[0]);
}

int verb_job(const struct request *request)
{
    bite_error error = BITE_ERROR_INIT;
    bite_library *library = NULL;
    bite_job *job = NULL;
    if (request->word_count != 1) {
        return complain_usage("job takes one file, such as lens.ini; see coolbite job --help");
    }
    const char *ending = request->sheet == NULL ? "" : ending_of(request->sheet);
    if (ending[0] != 0 && strcmp(ending, "html") != 0 && strcmp(ending, "htm") != 0) {
        return complain_usage("--sheet %.60s: the sheet is a page to print, in a file that ends in .html; print that one to make "
                              "another of it",
                              request->sheet);
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return complain(&error);
    }
    int status = plan(library, request, &job);
    if (status == 0 && request->sheet != NULL) {
        status = show(request, job, BITE_HTML, request->sheet);
    }
    status = status != 0 ? status : show(request, job, request->style.format, request->output);
    /* last: a command that fails keeps and takes out nothing, and may be given again */
    if (status == 0 && request->took > 0.0 && bite_job_took(job, request->took, &error) != BITE_OK) {
        status = complain(&error);
    }
    if (status == 0 && request->forget && bite_job_forget(job, &error) != BITE_OK) {
        status = complain(&error);
    }
    status = status != 0 ? status : exit_of_job(request, job);
    bite_job_free(job);
    bite_library_close(library);
    return status;
}
