/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A diagnosis: the limits and values that a symptom points to, and the remedies by what they leave
 * of the chance that the symptom's limits are exceeded. */
#ifndef BITE_SEARCH_REMEDY_H
#define BITE_SEARCH_REMEDY_H

#include "core/request/answer.h"

#define BITE_SUSPECTS_MAX 8
#define BITE_REMEDIES_MAX 6
#define BITE_CAUSES_MAX 12

/** A limit or value that a symptom points to. share: the utilization of a limit, 1 for a value.
 * NaN: does not apply, or no number. */
typedef struct bite_suspect {
    const char *name;
    uint32_t id;
    uint32_t is_limit;
    uint32_t lacking; /* 1: there is too little of the value, not too much */
    uint32_t why;     /* a bite_why, if the limit does not apply */
    double share;
} bite_suspect;

/** One change, with its chances and its effect on all suspects together and on each. */
typedef struct bite_remedy {
    bite_change change;           /* input BITE_NO_INPUT: another workholding */
    const bite_item_record *hold; /* that workholding; NULL: the input is changed */
    double left;                  /* sum over the suspects after the change; 1: as before */
    double trouble; /* chance that a suspected limit is exceeded after the change; NaN: no draws */
    double time;  /* for the same volume, relative to before; NaN: the change does not affect it */
    double merit; /* by which the remedies are sorted; smaller is better */
    double after[BITE_SUSPECTS_MAX]; /* the shares of the suspects after the change; for a lacking
                                        value its growth */
} bite_remedy;

struct bite_diagnosis {
    bite_allocator allocator;
    const bite_answer *answer; /* borrowed */
    const bite_item_record *symptom;
    const char *beyond;                              /* more of them, in words; "" */
    const bite_item_record *causes[BITE_CAUSES_MAX]; /* that no setting shows */
    size_t cause_count;
    unsigned char wanted[BITE_LIMIT_COUNT]; /* 1: a suspect */
    double trouble; /* chance that a suspected limit is exceeded as it is; NaN: no draws */
    uint32_t suspect_count;
    uint32_t foremost; /* an index of suspects; suspect_count: none has a number */
    bite_suspect suspects[BITE_SUSPECTS_MAX];
    uint32_t remedy_count;
    uint32_t reserved;
    bite_remedy remedies[BITE_REMEDIES_MAX];
};

/** Below this utilization a limit does not explain a symptom. */
#define BITE_EXPLAINS_FROM 0.5

#endif
