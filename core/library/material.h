/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finding a grade by name, and opening it. */
#ifndef BITE_LIBRARY_MATERIAL_H
#define BITE_LIBRARY_MATERIAL_H

#include "core/library/library_internal.h"
#include "core/library/material_record.h"
#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/**
 * Opens a grade by name ("acrylic/cast", "pmma", "acrylic": the default grade). The family's plugin
 * is loaded when it is first needed; a grade is opened once. May be called from any thread.
 * BITE_UNKNOWN_NAME with the nearest name; BITE_BAD_FILE, BITE_BAD_PLUGIN, BITE_UNSAFE with the
 * reason if the family was left out. *material: borrowed until the library closes.
 */
bite_status bite_library_grade(const bite_library *library, const char *name,
                               const bite_material **material, bite_error *error);

/** What a name of a material is. */
typedef enum bite_grade_match {
    BITE_MATCH_GRADE = 0, /* a grade's own name */
    BITE_MATCH_FAMILY,    /* that of a family: its default grade was taken */
    BITE_MATCH_NEAR       /* that of an alloy which the tables lack: the grade is a near one */
} bite_grade_match;

/** The same; *match tells what the name is. */
bite_status bite_library_grade_match(const bite_library *library, const char *name,
                                     const bite_material **material, bite_grade_match *match,
                                     bite_error *error);

/** The word of a grade's substance ("amorphous"); "any" if it states none. Borrowed, for ever. */
const char *bite_material_substance(const bite_material *material);

/** The self-tests of a family, by a name of it or of a grade. *family: its own name. Borrowed until
 * the library closes. Errors as bite_library_grade. */
bite_status bite_library_family_cases(const bite_library *library, const char *name,
                                      const char **family, const bite_family_case **cases,
                                      size_t *count, bite_error *error);

#endif
