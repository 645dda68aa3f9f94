/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Calls of a plugin: completing a grade, sampling its curves, adding cautions to a judged cut. */
#ifndef BITE_LIBRARY_PLUGIN_H
#define BITE_LIBRARY_PLUGIN_H

#include "core/library/case_view.h"
#include "core/library/library_internal.h"
#include <coolbite/coolbite.h>

/** Adds the cautions that a judged cut calls for: those of the table first, then the plugin's.
 * BITE_BAD_PLUGIN: the plugin failed, or gave a caution that was refused. */
bite_status bite_material_cautions(const bite_material *material, const bite_case_view *view,
                                   bite_error *error);

/** Lets the plugin complete a grade: its figures, and its curves sampled. Call it under the lock.
 * BITE_BAD_PLUGIN with the plugin's reason. */
bite_status bite_plugin_fill(const bite_library *library, const struct bite_family *plugin,
                             const struct bite_plugin_own *own, bite_material *material,
                             bite_error *error);

#endif
