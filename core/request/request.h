/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A request: the records and inputs that were given, and the provenance of the numbers made of
 * them.
 */
#ifndef BITE_REQUEST_REQUEST_H
#define BITE_REQUEST_REQUEST_H

#include "core/base/memory.h"
#include "core/base/watch.h"
#include "core/library/material_record.h"
#include "core/request/shop.h"
#include <coolbite/coolbite.h>

#define BITE_INPUTS_MAX 192
#define BITE_TYPED_MAX 64

/** How much is found out about a choice. */
typedef enum bite_choice_scope {
    BITE_SCOPE_WHOLE = 0,
    BITE_SCOPE_SETTINGS = 1, /* without what restricts them or would make them clear */
    BITE_SCOPE_CLEAR = 2     /* nor the best settings if none are clear */
} bite_choice_scope;

/** The provenance of one input, by its index in the registry. */
typedef struct bite_provenance {
    uint32_t origin; /* a bite_origin */
    uint32_t grade;  /* a bite_source_grade; BITE_GRADE_NONE where the user gave it */
    double low;      /* SI; the value itself if exact or unknown */
    double high;
    const char *source; /* "grade: where"; "" if given; borrowed from the tables or for ever */
    const char *file;   /* "" */
} bite_provenance;

/** What was assumed of the material because of its name: the cautious grade of a family, or a near
 * material; "" if the name is that of the grade. name: as given. */
void bite_grade_match_text(const bite_material *grade, uint32_t match, const char *name, char *to,
                           size_t size);

/** The bit of the key of the shop's set-up that states an input; 0: none does. */
uint32_t bite_request_shop_bit(const char *input);

/** "grade", "family" or "near": the word of a bite_grade_match. */
const char *bite_grade_match_word(uint32_t match);

/** An input that was given: a quantity or a word. */
typedef struct bite_typed_input {
    uint32_t given;
    uint32_t kind; /* as given: a feed may be per tooth, a spindle speed a surface speed */
    double value;  /* SI of that kind */
    uint32_t word;
} bite_typed_input;

struct bite_request {
    const bite_library *library;
    const bite_shop *shop; /* NULL: none */
    uint32_t shop_keys;    /* bits of the bite_shop_key that were taken from it */
    bite_allocator allocator;
    bite_watch *watch;    /* while it is used in a call that is watched; else NULL */
    size_t threads;       /* 0 is 1 */
    uint32_t skip_change; /* 1: do not search for the single change */
    uint32_t scope;       /* a bite_choice_scope */
    double chance_share;  /* the share of the chance budget that a choice may use if it can;
                             0 is all of it */
    const bite_material *grade;
    uint32_t grade_match;            /* a bite_grade_match: what grade_name is */
    uint32_t mills_thread;           /* 1: the cut is one turn of a thread's groove */
    char grade_name[BITE_TYPED_MAX]; /* as given */
    const bite_item_record *tool;
    const bite_item_record *thread; /* to be tapped; NULL: none was named */
    const bite_item_record *holder;
    const bite_item_record *machine;
    const bite_item_record *hold;
    char tool_name[BITE_TYPED_MAX]; /* as given: a name or a diameter */
    bite_typed_input typed[BITE_INPUTS_MAX];
};

/** The kinds of quantity in which an input may be entered: its own, and for a feed or a spindle
 * speed another one. Returns 1 or 2. */
size_t bite_request_kinds(const bite_input *input, bite_kind kinds[2]);

/** As bite_request_set_number for a number of one of these kinds. */
bite_status bite_request_put(bite_request *request, const bite_input *input, bite_kind kind,
                             double si, bite_error *error);

/** Whether the name of a tool is a diameter: it begins with a digit or a point. */
int bite_request_is_diameter(const char *name);

#endif
