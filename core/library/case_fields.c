/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keys of a self-test are made from the one list of names: inputs, values and limits. */
#include "core/library/case_fields.h"
#include "core/library/input_field.h"
#include "core/names/registry.h"
#include <stdio.h>
#include <string.h>

static const char *const verdict_words[] = {"clear", "tight", "over", "unknown", NULL};

static const bite_field fixed[] = {
    {"source", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"summary", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"grade", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"tool", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"holder", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"machine", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"hold", BITE_FIELD_TEXT, 0, 0, 0, NULL},
    {"within", BITE_FIELD_FIGURE, BITE_KIND_FRACTION, 0, 1, NULL},
    {BITE_CASE_EXPECT "verdict", BITE_FIELD_WORD, 0, 0, 0, verdict_words},
};

#define FIXED (sizeof fixed / sizeof *fixed)
#define BOUND                                                                                      \
    1e15 /* of what may be expected, SI: the kinds of quantity have bounds of their own            \
          */

/* "expect.NAME", or of a limit "expect.NAME.part". */
static bool add_expected(bite_arena *arena, bite_field *fields, size_t *count, const char *name,
                         const char *part, bite_kind kind)
{
    char text[120];
    int length = snprintf(text, sizeof text, BITE_CASE_EXPECT "%s%s", name, part);
    char *kept = bite_arena_text(arena, text, (size_t)length);
    bite_field field = {kept, BITE_FIELD_FIGURE, (uint32_t)kind, -BOUND, BOUND, NULL};
    fields[(*count)++] = field;
    return kept != NULL;
}

const bite_field *bite_case_fields(bite_arena *arena, size_t *count)
{
    size_t most = FIXED + bite_input_count() + BITE_VALUE_COUNT + 3 * BITE_LIMIT_COUNT;
    bite_field *fields = bite_arena_alloc(arena, most, sizeof *fields);
    bool good = fields != NULL;
    *count = 0;
    if (good) {
        memcpy(fields, fixed, sizeof fixed);
        *count = FIXED;
    }
    for (size_t i = 0; good && i < bite_input_count(); i++) {
        good = bite_input_field(arena, bite_input_at(i), &fields[(*count)++]);
    }
    for (int i = 0; good && i < BITE_VALUE_COUNT; i++) {
        const bite_definition *output = bite_registry_output((bite_value_id)i);
        good = output == NULL ||
               add_expected(arena, fields, count, output->name, "", (bite_kind)output->kind);
    }
    for (int i = 0; good && i < BITE_LIMIT_COUNT; i++) {
        const bite_definition *limit = bite_registry_limit((bite_limit_id)i);
        good =
            limit == NULL ||
            (add_expected(arena, fields, count, limit->name, ".demand", (bite_kind)limit->kind) &&
             add_expected(arena, fields, count, limit->name, ".capacity", (bite_kind)limit->kind) &&
             add_expected(arena, fields, count, limit->name, ".utilization", BITE_KIND_NUMBER));
    }
    return good ? fields : NULL;
}
