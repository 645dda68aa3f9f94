/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A request: names and typed quantities on one side, flat numbers with their account on the other.
 */
#ifndef BITE_REQUEST_REQUEST_H
#define BITE_REQUEST_REQUEST_H

#include "core/base/memory.h"
#include "core/library/item.h"
#include <coolbite/coolbite.h>

#define BITE_INPUTS_MAX 192
#define BITE_TYPED_MAX 64

/** Where an input's number came from. */
typedef enum bite_origin {
    BITE_ORIGIN_NONE = 0, /* not given, and there is nothing usual: stays open */
    BITE_ORIGIN_USER = 1,
    BITE_ORIGIN_TABLE = 2, /* a tool, machine, coolant or grade that was named, or the usual one */
    BITE_ORIGIN_DEFAULT = 3
} bite_origin;

/** The account of one input, by its index in the vocabulary. */
typedef struct bite_provenance {
    uint32_t origin; /* a bite_origin */
    uint32_t grade;  /* a bite_source_grade; BITE_GRADE_NONE where the user gave it */
    double low;      /* SI; = value where exact or unknown */
    double high;
    const char *source; /* "grade: where"; "" where given; borrowed from tables or for ever */
    const char *file;   /* "" */
} bite_provenance;

/** A quantity as typed, or a word. */
typedef struct bite_typed_input {
    uint32_t given;
    uint32_t
        kind; /* the kind that was typed: a feed may come per tooth, a spindle as a surface speed */
    double value; /* SI of that kind */
    uint32_t word;
} bite_typed_input;

struct bite_request {
    const bite_library *library;
    bite_allocator allocator;
    size_t threads;       /* 0 is 1 */
    uint32_t skip_change; /* 1: no change is looked for */
    double chance_share;  /* of the chance that is left, which a choice may use up where it can keep
                             to that; 0 is all */
    const bite_material *grade;
    int grade_is_default; /* its family's usual one: no grade was named */
    const bite_item_record *tool;
    const bite_item_record *holder;
    const bite_item_record *machine;
    const bite_item_record *hold;
    char tool_name[BITE_TYPED_MAX]; /* as typed; a diameter makes a plain tool */
    bite_typed_input typed[BITE_INPUTS_MAX];
};

#endif
