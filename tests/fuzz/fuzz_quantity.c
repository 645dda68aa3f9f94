/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a quantity of every kind: a finite value, or a refusal with a message. */
#include <coolbite/coolbite.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

extern const long bite_fuzz_rounds;
const long bite_fuzz_rounds = 3000;

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    if (text == NULL) {
        return 0;
    }
    memcpy(text, data, size);
    text[size] = 0;
    for (int kind = 0; kind < BITE_KIND_COUNT; kind++) {
        bite_error error = BITE_ERROR_INIT;
        double si = 0.0;
        bite_status status = bite_quantity_read(text, (bite_kind)kind, &si, &error);
        /* the error can be displayed without escapes */
        if (bite_text_escape(error.message, NULL, 0) != strlen(error.message) ||
            bite_text_escape(error.hint, NULL, 0) != strlen(error.hint)) {
            abort();
        }
        if (status == BITE_OK ? !isfinite(si) : error.message[0] == 0) {
            abort();
        }
        char shown[64];
        size_t length = 0;
        if (status == BITE_OK && bite_quantity_write(si, (bite_kind)kind, BITE_INCH, shown,
                                                     sizeof shown, &length, NULL) != BITE_OK) {
            abort();
        }
    }
    free(text);
    return 0;
}
