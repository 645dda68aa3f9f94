/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A file that is written in pieces: a draft beside it until it is complete. Public in
 * coolbite/coolbite.h. */
#include "core/base/draft_file.h"
#include "core/base/error.h"
#include "core/base/memory.h"
#include "core/base/output_descriptor.h"
#include "core/base/output_target.h"
#include <errno.h>
#include <fcntl.h>
#include <string.h>

struct bite_file_output {
    bite_target target;
    bite_draft draft; /* of a file */
    int file;         /* of a device, pipe or descriptor; -1 for a file */
    char *path;
};

static int is_stream(const bite_file_output *output)
{
    return output->target.kind == BITE_TARGET_STREAM ||
           output->target.kind == BITE_TARGET_DESCRIPTOR;
}

static bite_status fail(const char *path, int number, bite_error *error)
{
    char reason[96] = "";
    bite_error_set(error, BITE_CANNOT_WRITE, "cannot be written: %s",
                   strerror_r(number, reason, sizeof reason));
    bite_error_place(error, path, 0, 0);
    return BITE_CANNOT_WRITE;
}

static bite_status open_stream(bite_file_output *output, bite_error *error)
{
    const bite_target *target = &output->target;
    int flags = O_WRONLY | O_NOCTTY | (target->append ? O_APPEND : 0);
    output->file = target->kind == BITE_TARGET_DESCRIPTOR
                       ? target->descriptor
                       : bite_descriptor_open(target->folder, target->name, flags, 0);
    return output->file < 0 ? fail(output->path, errno, error) : BITE_OK;
}

static void release(bite_file_output *output)
{
    if (output->target.kind == BITE_TARGET_STREAM && output->file >= 0) {
        bite_descriptor_close(output->file);
    }
    bite_target_close(&output->target);
    bite_memory_free(bite_memory_default(), output->path);
    bite_memory_free(bite_memory_default(), output);
}

bite_status bite_file_output_open(const char *path, bite_file_output **output, bite_error *error)
{
    bite_error_clear(error);
    if (path == NULL || output == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a path and a place were expected");
    }
    bite_file_output *fresh = bite_memory_new(bite_memory_default(), 1, sizeof *fresh);
    char *copy = bite_memory_new(bite_memory_default(), strlen(path) + 1, 1);
    bite_status status = fresh == NULL || copy == NULL
                             ? bite_error_set(error, BITE_NO_MEMORY, "no memory for an output")
                             : bite_target_find(path, &fresh->target, error);
    if (status != BITE_OK) {
        bite_memory_free(bite_memory_default(), copy);
        bite_memory_free(bite_memory_default(), fresh);
        return status;
    }
    memcpy(copy, path, strlen(path) + 1);
    fresh->path = copy;
    fresh->file = -1;
    status = is_stream(fresh) ? open_stream(fresh, error)
                              : bite_draft_new(copy, &fresh->target, "", 0, &fresh->draft, error);
    if (status != BITE_OK) {
        release(fresh);
        return status;
    }
    *output = fresh;
    return BITE_OK;
}

bite_status bite_file_output_write(bite_file_output *output, const char *text, size_t size,
                                   bite_error *error)
{
    bite_error_clear(error);
    if (output == NULL || (text == NULL && size > 0)) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an output and a text were expected");
    }
    if (!is_stream(output)) {
        return bite_draft_add(&output->draft, text, size, error);
    }
    return bite_descriptor_write(output->file, text, size) == 0 ? BITE_OK
                                                                : fail(output->path, errno, error);
}

bite_status bite_file_output_keep(bite_file_output *output, bite_error *error)
{
    bite_error_clear(error);
    if (output == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an output was expected");
    }
    bite_status status = BITE_OK;
    if (!is_stream(output)) {
        status = bite_draft_sync(&output->draft, error);
        if (status != BITE_OK) {
            bite_draft_drop(&output->draft);
        } else {
            status = bite_draft_keep(&output->draft, error);
        }
    }
    release(output);
    return status;
}

void bite_file_output_drop(bite_file_output *output)
{
    if (output != NULL) {
        if (!is_stream(output)) {
            bite_draft_drop(&output->draft);
        }
        release(output);
    }
}
