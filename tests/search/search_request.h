/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Requests that tests give to the search: random ones of every operation, and what they leave free.
 */
#ifndef BITE_TESTS_SEARCH_SEARCH_REQUEST_H
#define BITE_TESTS_SEARCH_SEARCH_REQUEST_H

#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

#define SEARCH_TOOLS 5

typedef struct search_request {
    bite_request *request;
    const char *tools[SEARCH_TOOLS]; /* by diameter; a tool of the table is alone */
    size_t tool_count;               /* 1: the tool of the request */
    uint32_t goal;
    uint32_t operation;
    int fixed_spindle;
    double tooth;         /* m, fixed feed per tooth; NaN: free */
    double feature_depth; /* m; NaN: the depth of a pass is fixed */
    double feature_width; /* m; NaN: the width of a pass is fixed, or a slot */
    double tolerance;     /* m; NaN: none was given */
    double finish;        /* m; NaN: likewise */
    char line[600];       /* the options of coolbite choose for the same request */
} search_request;

/** How many kinds of request there are, and the name of a kind. */
size_t search_kind_count(void);
const char *search_kind_name(size_t kind);

/** An empty request for a goal; free it with search_request_end. */
void search_request_begin(uint32_t goal, search_request *made);

/** Sets an input, or selects the material, the machine, the tool or the workholding. */
void search_request_put(search_request *made, const char *name, const char *text);

/** An input or a record, as it is entered. */
typedef struct search_input {
    const char *name;
    const char *value;
} search_input;

/** At most `count` of them, up to the first without a name. */
void search_request_put_all(search_request *made, const search_input *inputs, size_t count);

/** Adds a tool from which the choice may choose. */
void search_request_put_tool(search_request *made, const char *name);

/** Of several tools, puts this one into the request. */
void search_request_take_tool(const search_request *made, size_t tool);

/** Makes the random request of this number: the same on every machine, whichever were made before.
 * Kinds and goals take turns. Free it with search_request_end. */
void search_request_random(size_t number, search_request *made);
void search_request_end(search_request *made);

/** Chooses. The choice is owned by the caller. */
bite_choice *search_request_choose(const search_request *made);

#endif
