/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing files: a draft beside the target until it is complete; a device, pipe or descriptor,
 * which cannot be replaced by a rename, directly. Public in coolbite/coolbite.h. */
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
    const char *path; /* for messages */
};

static int is_stream(const bite_file_output *output)
{
    return output->target.kind == BITE_TARGET_STREAM ||
           output->target.kind == BITE_TARGET_DESCRIPTOR;
}

static bite_status fail(const bite_file_output *output, bite_error *error)
{
    char reason[96] = "";
    bite_error_set(error, BITE_CANNOT_WRITE, "cannot be written: %s",
                   bite_error_reason(errno, reason, sizeof reason));
    bite_error_place(error, output->path, 0, 0);
    return BITE_CANNOT_WRITE;
}

static bite_status open_stream(bite_file_output *output, bite_error *error)
{
    const bite_target *target = &output->target;
    int flags = O_WRONLY | O_NOCTTY | (target->append ? O_APPEND : 0);
    output->file = target->kind == BITE_TARGET_DESCRIPTOR
                       ? target->descriptor
                       : bite_descriptor_open(target->folder, target->name, flags, 0);
    return output->file < 0 ? fail(output, error) : BITE_OK;
}

static void end(bite_file_output *output)
{
    if (output->target.kind == BITE_TARGET_STREAM && output->file >= 0) {
        bite_descriptor_close(output->file);
    }
    bite_target_close(&output->target);
}

/* path: borrowed until the end. On an error there is nothing to be ended. */
static bite_status begin(const char *path, bite_file_output *output, bite_error *error)
{
    bite_status status = bite_target_find(path, &output->target, error);
    if (status != BITE_OK) {
        return status;
    }
    output->path = path;
    output->file = -1;
    status = is_stream(output) ? open_stream(output, error)
                               : bite_draft_open(path, &output->target, &output->draft, error);
    if (status != BITE_OK) {
        end(output);
    }
    return status;
}

static bite_status add(bite_file_output *output, const char *text, size_t size, bite_error *error)
{
    if (!is_stream(output)) {
        return bite_draft_add(&output->draft, text, size, error);
    }
    return bite_descriptor_write(output->file, text, size) == 0 ? BITE_OK : fail(output, error);
}

/* Ends an output whose text is complete. */
static bite_status keep(bite_file_output *output, bite_error *error)
{
    bite_status status = BITE_OK;
    if (!is_stream(output)) {
        status = bite_draft_finish(&output->draft, error);
        if (status != BITE_OK) {
            bite_draft_drop(&output->draft);
        } else {
            status = bite_draft_keep(&output->draft, error);
        }
    }
    end(output);
    return status;
}

static void drop(bite_file_output *output)
{
    if (!is_stream(output)) {
        bite_draft_drop(&output->draft);
    }
    end(output);
}

bite_status bite_file_write(const char *path, const char *text, size_t size, bite_error *error)
{
    bite_file_output output;
    bite_error_clear(error);
    if (path == NULL || (text == NULL && size > 0)) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a path and a text were expected");
    }
    bite_status status = begin(path, &output, error);
    if (status != BITE_OK) {
        return status;
    }
    status = add(&output, text, size, error);
    if (status != BITE_OK) {
        drop(&output);
        return status;
    }
    return keep(&output, error);
}

/* ---- in pieces ---- */

bite_status bite_file_output_open(const char *path, bite_file_output **output, bite_error *error)
{
    bite_error_clear(error);
    if (path == NULL || output == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a path and a place were expected");
    }
    size_t size = strlen(path) + 1;
    char *memory = bite_memory_new(bite_memory_default(), 1, sizeof(bite_file_output) + size);
    if (memory == NULL) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for an output");
    }
    bite_file_output *fresh = (bite_file_output *)(void *)memory;
    char *copy = memory + sizeof *fresh;
    memcpy(copy, path, size);
    bite_status status = begin(copy, fresh, error);
    if (status != BITE_OK) {
        bite_memory_free(bite_memory_default(), memory);
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
    return add(output, text, size, error);
}

bite_status bite_file_output_keep(bite_file_output *output, bite_error *error)
{
    bite_error_clear(error);
    if (output == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an output was expected");
    }
    bite_status status = keep(output, error);
    bite_memory_free(bite_memory_default(), output);
    return status;
}

void bite_file_output_drop(bite_file_output *output)
{
    if (output != NULL) {
        drop(output);
        bite_memory_free(bite_memory_default(), output);
    }
}
