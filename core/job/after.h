/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What went wrong, and which single change helps first: ranked by the engine's own limits and values. */
#ifndef BITE_JOB_AFTER_H
#define BITE_JOB_AFTER_H

#include "core/job/answer.h"

#define BITE_SUSPECTS_MOST 8
#define BITE_REMEDIES_MOST 3

/** A limit or value that a symptom suspects. share: use of a limit; of a value 1. NaN: does not apply, or no number. */
typedef struct bite_suspect {
    const char *name;
    uint32_t id;
    uint32_t is_row;
    double share;
} bite_suspect;

/** One change: the foremost suspect before and after it, and the cut's chance. */
typedef struct bite_remedy {
    bite_change change;
    double share_after; /* of the foremost suspect */
} bite_remedy;

struct bite_after {
    bite_allocator allocator;
    const bite_answer *answer; /* borrowed */
    const bite_thing *symptom;
    const char *beyond;
    uint32_t suspect_count;
    uint32_t foremost; /* of the suspects; suspect_count: none has a number */
    bite_suspect suspects[BITE_SUSPECTS_MOST];
    uint32_t remedy_count;
    uint32_t reserved;
    bite_remedy remedies[BITE_REMEDIES_MOST];
};

/** Under this use a limit does not explain a trouble. */
#define BITE_EXPLAINS_FROM 0.5

#endif
