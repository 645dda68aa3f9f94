/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The names of families and of their grades, as a shop and as tables write them. */
#ifndef BITE_LIBRARY_GRADE_NAME_H
#define BITE_LIBRARY_GRADE_NAME_H

#include "core/library/library_internal.h"
#include <stdbool.h>

/** The text of a key of a section; "" if the section is NULL or does not state it. */
const char *bite_section_text(const bite_section *section, const char *key);

/** Whether a family, whose tables were read, has the name: that of its file or of its `also`. */
bool bite_family_has_name(const bite_family_state *family, const char *name);

/** How well a grade fits a name: the lower, the better. */
typedef enum bite_grade_fit {
    BITE_FIT_EXACT,       /* as it is written in the table */
    BITE_FIT_DESIGNATION, /* with other separators */
    BITE_FIT_NEAR,        /* the name is that of a near alloy, which the tables lack */
    BITE_FIT_NONE
} bite_grade_fit;

/** The first of the grades that fit best; NULL: none fits. *fit: how well it does. */
bite_grade_state *bite_grade_in(bite_family_state *family, const char *name, bite_grade_fit *fit);

/** The grade that a family names as its default, else its first; NULL: it has none. */
bite_grade_state *bite_grade_default(bite_family_state *family);

/** The nearest name of a family of the library, and of a grade of a family without the family's;
 * NULL: none is near. Borrowed. */
const char *bite_family_nearest(const bite_library *library, const char *name);
const char *bite_grade_nearest(const bite_family_state *family, const char *name);

#endif
