/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Families and their grades: reading tables/materials, and opening a grade by name. */
#ifndef BITE_LIBRARY_MATERIAL_H
#define BITE_LIBRARY_MATERIAL_H

#include "core/library/library_internal.h"
#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/**
 * Opens a grade by name ("acrylic/cast", "pmma", "acrylic": the default grade). The family's plugin
 * is loaded when it is first needed; a grade opens once. Any thread. BITE_UNKNOWN_NAME with the
 * nearest name; BITE_BAD_PLUGIN, BITE_UNSAFE with the reason when the family was left out. *card:
 * borrowed until the library closes.
 */
bite_status bite_library_grade(const bite_library *library, const char *name,
                               const bite_material **material, bite_error *error);

/** Reads the tables of a family; status and error are kept in it. Under the lock. BITE_NO_MEMORY
 * alone is handed on. */
bite_status bite_material_read(const bite_library *library, bite_family_state *family,
                               bite_error *error);

#endif
