/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writes the output, and refuses to overwrite the files that the program reads. */
#include "bindings/cli/output.h"
#include "bindings/cli/error_report.h"
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static const char *real_path(const char *path)
{
    return path == NULL || strcmp(path, "-") == 0 ? "/dev/stdout" : path;
}

static int refuse_overwrite(const char *path, const char *why)
{
    return report_usage_error("%s would be overwritten: %s", path, why);
}

/* Terminals and pipes cannot be overwritten. */
static bool is_regular_file(const char *path)
{
    struct stat about;
    return stat(path, &about) == 0 && S_ISREG(about.st_mode);
}

static int check_tables(const char *path)
{
    bite_library *library = NULL;
    bite_error error = BITE_ERROR_INIT;
    if (!is_regular_file(path)) {
        return 0;
    }
    if (bite_library_open(NULL, &library, &error) != BITE_OK) {
        return report_error(&error);
    }
    int found = bite_library_has_file(library, path);
    bite_library_close(library);
    return found ? refuse_overwrite(path, "it is a table or plugin that coolbite reads; choose "
                                          "another output file")
                 : 0;
}

int output_check(const struct command_line *line, const char *input)
{
    const char *separate =
        line->report
            ? "the record and its report must be different files; choose another output file"
            : "the job, its sheet and the plan must be different files; choose another output file";
    const char *const outputs[] = {real_path(line->output),
                                   line->sheet == NULL ? NULL : real_path(line->sheet)};
    for (size_t i = 0; i < 2 && outputs[i] != NULL; i++) {
        if (input != NULL && bite_file_same(outputs[i], input)) {
            return refuse_overwrite(outputs[i], separate);
        }
        if (line->shop != NULL && bite_file_same(outputs[i], bite_shop_path(line->shop))) {
            return refuse_overwrite(outputs[i],
                                    "it is the shop's own set-up; choose another output file");
        }
        const char *tools =
            line->tool_list != NULL ? line->tool_list : bite_shop_text(line->shop, "tool_list");
        if (tools != NULL && bite_file_same(outputs[i], tools)) {
            return refuse_overwrite(outputs[i], "it is the tool list; choose another output file");
        }
        int status = check_tables(outputs[i]);
        if (status != 0) {
            return status;
        }
    }
    return outputs[1] != NULL && bite_file_same(outputs[0], outputs[1])
               ? refuse_overwrite(outputs[1], separate)
               : 0;
}

int output_write(const char *path, struct text_buffer *buffer)
{
    bite_error error = BITE_ERROR_INIT;
    bite_status status = bite_file_write(real_path(path), buffer->text, buffer->size, &error);
    free(buffer->text);
    buffer->text = NULL;
    return status == BITE_OK ? 0 : report_error(&error);
}
