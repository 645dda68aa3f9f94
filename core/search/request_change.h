/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes of one input of a request that a shop can make, of any size. */
#ifndef BITE_SEARCH_REQUEST_CHANGE_H
#define BITE_SEARCH_REQUEST_CHANGE_H

#include "core/request/answer.h"

/** One change of a request. */
typedef struct bite_request_change {
    const char *what;    /* the name of an input, "tool", "hold" or "confidence"; NULL: no change */
    uint32_t kind;       /* the bite_kind of from and to; BITE_KIND_COUNT: words */
    uint32_t by_default; /* 1: nobody gave the value before the change */
    double from;         /* SI; NaN: a word */
    double to;
    double size; /* |ln(to/from)|; NaN: words have none */
    char from_word[BITE_TYPED_MAX];
    char to_word[BITE_TYPED_MAX]; /* of a number as it would be entered: "38 mm" */
} bite_request_change;

/** How many inputs of numbers a shop can change, each in one direction. */
size_t bite_request_change_count(void);

/**
 * Changes a number of a request.
 *
 * at: below bite_request_change_count. size: |ln(to/from)| at least; the number is rounded, away
 * from what it was, to what one would enter in the units. 0: a default, which scatters, is stated
 * as a number that was measured. asked: the user's request, which says what was given. answer: the
 * request as judged so far, for its defaults. Returns 0, and leaves the request as it is, if this
 * input is not the shop's to change, or the number would leave its range.
 */
int bite_request_change_number(size_t at, double size, const bite_request *asked, bite_units units,
                               const bite_answer *answer, bite_request *request,
                               bite_request_change *change);

/** Changes the coolant to the word; 0: the present coolant is as strong or stronger. */
int bite_request_change_coolant(uint32_t word, const bite_answer *answer, bite_request *request,
                                bite_request_change *change);

/** Changes the workholding, or the tool, to that record of the table. What was given of the old
 * tool and is a figure of the new one is forgotten. 0: it is the present one, or cannot be it. */
int bite_request_change_hold(const bite_item_record *hold, bite_request *request,
                             bite_request_change *change);
int bite_request_change_tool(const bite_item_record *tool, const bite_answer *answer,
                             bite_request *request, bite_request_change *change);

#endif
