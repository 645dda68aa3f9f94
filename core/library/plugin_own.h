/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures and limits of a plugin's own: its lists are checked when it is loaded, and joined with
 * the figures of a grade when the grade is opened. */
#ifndef BITE_LIBRARY_PLUGIN_OWN_H
#define BITE_LIBRARY_PLUGIN_OWN_H

#include "core/library/library_internal.h"
#include <coolbite/family.h>

/** The key of a figure of a plugin's own in a table: this, and its name. */
#define BITE_OWN_PREFIX "own."

/** What a plugin lists, checked. In the library's arena. */
struct bite_plugin_own {
    bite_field figures[BITE_FAMILY_FIGURES_MAX]; /* name: without the prefix */
    const char *summaries[BITE_FAMILY_FIGURES_MAX];
    uint8_t needed[BITE_FAMILY_FIGURES_MAX];
    size_t figure_count;
    struct bite_family_limit limits[BITE_FAMILY_LIMITS_MAX];
    bite_kind kinds[BITE_FAMILY_LIMITS_MAX]; /* of demand and capacity */
    size_t limit_count;
};

#define BITE_OWN_FAULT_MAX 240

/** Reads and checks what a plugin lists. fault: BITE_OWN_FAULT_MAX; "" if there is none. NULL: no
 * memory, or a fault. */
const struct bite_plugin_own *bite_plugin_own_read(const bite_library *library,
                                                   const struct bite_family *family, char *fault);

/** The field of a figure of the plugin's own, by its name; NULL: none. */
const bite_field *bite_plugin_own_field(const struct bite_plugin_own *own, const char *name);

/** Reads the figures that a grade states under own.NAME, whose quantities only the plugin knows.
 * values: of the grade, changed. BITE_BAD_FILE with the place of the fault. */
bite_status bite_plugin_own_figures(const struct bite_plugin_own *own, const char *file,
                                    const bite_section *section, bite_field_value *values,
                                    size_t count, bite_error *error);

/** Once the grade is complete: checks that it has what the plugin needs, and finds the numbers of
 * the limits. BITE_BAD_PLUGIN: a figure that is needed is missing. */
bite_status bite_plugin_own_limits(const bite_library *library, const struct bite_plugin_own *own,
                                   bite_material *material, bite_error *error);

#endif
