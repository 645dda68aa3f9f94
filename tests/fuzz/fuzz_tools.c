/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a tool list (INI, CSV, MTConnect): it is read, or refused with a reason. */
#include "core/library/tool_list.h"
#include "tests/fuzz/fuzz_library.h"
#include <stdint.h>
#include <stdio.h>
#include <unistd.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

extern const long bite_fuzz_rounds;
const long bite_fuzz_rounds = 200;

/* One file for the whole run, written anew for each input. */
static int list_file(char path[64])
{
    static int file = -1;
    if (file < 0) {
        char name[] = "/tmp/bite-fuzz-tools-XXXXXX";
        file = mkstemp(name);
        (void)unlink(name);
    }
    (void)snprintf(path, 64, "/dev/fd/%d", file);
    return file;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char path[64];
    bite_error error = BITE_ERROR_INIT;
    bite_table *table = NULL;
    int file = list_file(path);
    if (file < 0 || ftruncate(file, 0) != 0 || pwrite(file, data, size, 0) != (ssize_t)size) {
        abort();
    }
    bite_status status = bite_tool_list_open(bite_memory_default(), path, &table, &error);
    fuzz_expect_reason(status, &error);
    bite_table_free(table);
    return 0;
}
