/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sources of figures: "grade: where". */
#ifndef BITE_TABLES_PROVENANCE_H
#define BITE_TABLES_PROVENANCE_H

#include <stdbool.h>

/** How well a figure is supported. */
typedef enum bite_source_grade {
    BITE_GRADE_NONE = 0,
    BITE_GRADE_STANDARD = 1,
    BITE_GRADE_HANDBOOK = 2,
    BITE_GRADE_PAPER = 3,
    BITE_GRADE_DATASHEET = 4,
    BITE_GRADE_COMMON_PRACTICE = 5, /* known in the trade; needs no reference */
    BITE_GRADE_MEMORY = 6,          /* recalled, not checked; needs no reference */
    BITE_GRADE_ESTIMATE = 7         /* derived; the source says from what */
} bite_source_grade;

/** Splits "paper: Author Year" at its grade. *where: the reference behind the colon, borrowed from
 * text; "" if there is none. False: an unknown grade, or a grade that needs a reference and has
 * none; nothing is written. */
bool bite_source_read(const char *text, bite_source_grade *grade, const char **where);

/** The word of a grade ("paper"); "" for BITE_GRADE_NONE and for unknown values. Borrowed, for
 * ever.
 */
const char *bite_source_grade_name(bite_source_grade grade);

#endif
