/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Self-tests of a family, [case.NAME]: the keys that one may have. */
#ifndef BITE_LIBRARY_CASE_FIELDS_H
#define BITE_LIBRARY_CASE_FIELDS_H

#include "core/base/memory.h"
#include "core/tables/field_value.h"
#include <stddef.h>

/** What comes before the name of a number that is expected: "expect.surface_temperature". */
#define BITE_CASE_EXPECT "expect."

/** The keys of a [case.NAME]: what is chosen by name, the inputs, and the numbers and the verdict
 * that are expected. In the arena; NULL: no memory. */
const bite_field *bite_case_fields(bite_arena *arena, size_t *count);

#endif
