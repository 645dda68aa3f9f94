/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What went wrong, and which single change helps first: ranked by the engine's own limits and
 * values. */
#ifndef BITE_SEARCH_DIAGNOSIS_H
#define BITE_SEARCH_DIAGNOSIS_H

#include "core/request/answer.h"

#define BITE_SUSPECTS_MAX 8
#define BITE_REMEDIES_MAX 5

/** A limit or value that a symptom suspects. share: use of a limit; of a value 1. NaN: does not
 * apply, or no number. */
typedef struct bite_suspect {
    const char *name;
    uint32_t id;
    uint32_t is_limit;
    uint32_t lacking; /* of a value: there is too little of it, not too much */
    uint32_t why;     /* a bite_why, where the row does not apply */
    double share;
} bite_suspect;

/** One change: what it leaves of all suspects together, and of each; and the cut's chance. */
typedef struct bite_remedy {
    bite_change change;
    double left;                     /* 1: as much as before */
    double after[BITE_SUSPECTS_MAX]; /* the shares that the suspects would have then; of what is
                                        lacking its growth */
} bite_remedy;

struct bite_diagnosis {
    bite_allocator allocator;
    const bite_answer *answer; /* borrowed */
    const bite_item_record *symptom;
    const char *beyond;
    uint32_t suspect_count;
    uint32_t foremost; /* of the suspects; suspect_count: none has a number */
    bite_suspect suspects[BITE_SUSPECTS_MAX];
    uint32_t remedy_count;
    uint32_t reserved;
    bite_remedy remedies[BITE_REMEDIES_MAX];
};

/** Under this use a limit does not explain a trouble. */
#define BITE_EXPLAINS_FROM 0.5

/** How much a suspect counts at a share: a limit by its use; a value, which has no room, as a limit
 * that just explains. */
double bite_suspect_weight(const bite_suspect *suspect, double share);

#endif
