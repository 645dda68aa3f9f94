/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What fuzz targets share that need the tables: a library that is opened once. */
#ifndef BITE_TESTS_FUZZ_FUZZ_LIBRARY_H
#define BITE_TESTS_FUZZ_FUZZ_LIBRARY_H

#include <coolbite/coolbite.h>
#include <stdio.h>
#include <stdlib.h>

/** A library of the project's tables, those of COOLBITE_TABLE_PATH or of BITE_TEST_SOURCE, without
 * plugins. Opened at the first call and never closed; the process ends if it cannot be. */
static inline const bite_library *fuzz_library(void)
{
    static bite_library *library;
    static char tables[1024];
    const char *source = getenv("BITE_TEST_SOURCE");
    bite_library_options options;
    bite_error error = BITE_ERROR_INIT;
    bite_library_options_init(&options);
    if (getenv("COOLBITE_TABLE_PATH") == NULL) {
        (void)snprintf(tables, sizeof tables, "%s/tables", source == NULL ? "." : source);
        options.table_path = tables;
    }
    if (library == NULL && bite_library_open(&options, &library, &error) != BITE_OK) {
        abort();
    }
    return library;
}

/** A request for a cut in cast acrylic on which any input may be set; owned. */
static inline bite_request *fuzz_request(void)
{
    bite_request *request = NULL;
    bite_error error = BITE_ERROR_INIT;
    if (bite_request_new(fuzz_library(), &request, &error) != BITE_OK ||
        bite_request_use(request, BITE_GRADES, "acrylic/cast", &error) != BITE_OK ||
        bite_request_use(request, BITE_TOOLS, "3mm", &error) != BITE_OK) {
        abort();
    }
    return request;
}

/** Ends the process if a call failed in a way that it must not: as a fault of the library, or
 * without a message. */
static inline void fuzz_expect_reason(bite_status status, const bite_error *error)
{
    if (status == BITE_FAULT || (status != BITE_OK && error->message[0] == 0)) {
        abort();
    }
}

#endif
