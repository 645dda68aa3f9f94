/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a request in JSON: it is taken whole, or refused with a reason and nothing is taken.
 */
#include "tests/fuzz/fuzz_library.h"
#include <stdint.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

extern const long bite_fuzz_rounds;
const long bite_fuzz_rounds = 3000;

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static bite_cut before;
    static bite_cut after;
    bite_error error = BITE_ERROR_INIT;
    bite_request *request = fuzz_request();
    bite_cut_init(&before);
    bite_cut_init(&after);
    bite_status was = bite_request_cut(request, &before, &error);
    bite_status status = bite_request_json(request, (const char *)data, size, &error);
    fuzz_expect_reason(status, &error);
    if (status != BITE_OK && (bite_request_cut(request, &after, &error) != was ||
                              memcmp(&before, &after, sizeof before) != 0)) {
        abort();
    }
    bite_request_free(request);
    return 0;
}
