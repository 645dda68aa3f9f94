/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a table: it is read, or refused with a message; the library never fails
 * otherwise. */
#include "core/tables/typed_table.h"
#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

extern const long bite_fuzz_rounds;
const long bite_fuzz_rounds = 3000;

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const bite_field fields[] = {
        {"title", BITE_FIELD_TEXT, 0, 0, 0, NULL},
        {"like", BITE_FIELD_TEXT, 0, 0, 0, NULL},
        {"density", BITE_FIELD_FIGURE, BITE_KIND_DENSITY, 100, 25000, NULL},
        {"strength.at", BITE_FIELD_CURVE, BITE_KIND_STRESS, 1e3, 1e10, NULL},
    };
    static const bite_section_schema sections[] = {
        {"grade.", fields, sizeof fields / sizeof *fields, 1, 1}};
    static const bite_table_schema schema = {"toys", 1, sections, 1, 0};
    bite_error error = BITE_ERROR_INIT;
    bite_table *table = NULL;
    bite_status status = bite_table_parse(bite_memory_default(), (const char *)data, size,
                                          "fuzz.ini", &schema, NULL, NULL, &table, &error);
    if (status == BITE_FAULT || (status != BITE_OK && error.message[0] == 0)) {
        abort();
    }
    bite_table_free(table);
    return 0;
}
