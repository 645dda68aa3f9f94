/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records of several kinds, as shops and mistakes make them, for what must hold of every record. */
#ifndef BITE_TESTS_INSPECTION_MEASURED_KINDS_H
#define BITE_TESTS_INSPECTION_MEASURED_KINDS_H

#include "tests/inspection/measured_record.h"

typedef struct measured_kind {
    const char *name;
    measured_record *(*make)(bite_units units); /* owned: free */
} measured_kind;

extern const measured_kind measured_kinds[];
extern const size_t measured_kind_count;

/** The kind of that name, or NULL. */
const measured_kind *measured_kind_find(const char *name);

#endif
