/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Material plugins: judged, opened once, asked through the host's services. */
#ifndef BITE_LIBRARY_PLUGIN_H
#define BITE_LIBRARY_PLUGIN_H

#include "core/library/library_internal.h"
#include <coolbite/coolbite.h>

/** Asks the rules of the table and then the plugin for the cautions that this case calls for. */
bite_status bite_material_cautions(const bite_material *material, const bite_case_view *view,
                                   bite_error *error);

/** Loads and judges the family's plugin once. Under the lock. BITE_OK: family->tried says NONE or
 * GOOD. */
bite_status bite_plugin_load(const bite_library *library, bite_family_state *family,
                             bite_error *error);

/** Lets the plugin complete a card: fill, curves. Under the lock. */
bite_status bite_plugin_fill(const bite_library *library, const struct bite_family *plugin,
                             bite_material *material, bite_error *error);

#endif
