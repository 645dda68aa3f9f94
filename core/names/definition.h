/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What `explain` writes about an output or a limit. */
#ifndef BITE_NAMES_DEFINITION_H
#define BITE_NAMES_DEFINITION_H

#include <stdint.h>

/** The definition of an output or a limit. All texts are constant; none is NULL. */
typedef struct bite_definition {
    const char *name;
    const char *unit;     /* SI; "" for a plain number of a limit, "1" for one of an output */
    const char *summary;  /* one line: what it is, or what the limit requires */
    const char *equation; /* in the usual symbols; "" if there is none */
    const char *source;   /* "grade: where", as in a table */
    const char *helps;    /* limits: what usually helps; "" for outputs */
    uint32_t kind;        /* a bite_kind */
    uint32_t reserved;
} bite_definition;

#endif
