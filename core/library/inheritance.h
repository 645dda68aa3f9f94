/* SPDX-License-Identifier: GPL-3.0-or-later */
/* `like`: what a grade does not state is taken from another grade, of its own family or of another.
 */
#ifndef BITE_LIBRARY_INHERITANCE_H
#define BITE_LIBRARY_INHERITANCE_H

#include "core/library/library_internal.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

/** A grade whose parent is being looked for; its own child is before it. */
typedef struct bite_like_step {
    struct bite_like_step *before; /* NULL: the first one */
    const bite_family_state *family;
    const char *grade;            /* "mine/clear" */
    const char *section;          /* that states `like`: "grade.clear" */
    const bite_field_value *like; /* the key that names its parent */
    unsigned depth;
    bool in_loop; /* the chain comes back to this grade, or to another of its family */
} bite_like_step;

/** Reads the tables of a family, as bite_material_read; chain: the grades that need it. */
typedef bite_status (*bite_family_reader)(const bite_library *library, bite_family_state *family,
                                          bite_like_step *chain, bite_error *error);

/** Fills `whole` of each grade of a family whose tables are merged, and adds the grades of a family
 * that it is like. BITE_BAD_FILE: some `like` is at fault; *at: that value. BITE_NO_MEMORY. */
bite_status bite_family_inherit(const bite_library *library, bite_family_state *family,
                                bite_like_step *chain, bite_family_reader read,
                                const bite_field_value **at, bite_error *error);

/** The same for a family whose faults are all to be told: each goes to `fault` once (may be NULL)
 * and adds one to *count, and the other grades go on. Only BITE_NO_MEMORY is returned. */
bite_status bite_family_inherit_each(const bite_library *library, bite_family_state *family,
                                     bite_family_reader read, bite_fault_sink fault, void *user,
                                     uint32_t *count, bite_error *error);

/** Sets the kin of a material: itself, then the grades of other families that it is like. False: no
 * memory. */
bool bite_grade_find_kin(const bite_library *library, const bite_family_state *family,
                         const bite_grade_state *grade, bite_material *material);

#endif
