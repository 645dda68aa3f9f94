/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plugin loading: finding a family's plugin, opening it, and checking its descriptor. */
#ifndef BITE_LIBRARY_PLUGIN_LOAD_H
#define BITE_LIBRARY_PLUGIN_LOAD_H

#include "core/library/library_internal.h"
#include <coolbite/coolbite.h>

/** Loads the family's plugin, the first FAMILY.so in the folders of families, at the first call;
 * later calls repeat its result. Call it under the lock. BITE_OK: family->tried is NONE or GOOD.
 * BITE_BAD_PLUGIN, BITE_UNSAFE: the plugin is refused and listed as left out. */
bite_status bite_plugin_load(const bite_library *library, bite_family_state *family,
                             bite_error *error);

#endif
