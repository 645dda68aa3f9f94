/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plugin loading: finding a family's plugin, opening it, and checking its descriptor. */
#ifndef BITE_LIBRARY_PLUGIN_LOAD_H
#define BITE_LIBRARY_PLUGIN_LOAD_H

#include "core/library/library_internal.h"
#include <coolbite/coolbite.h>

/** Whether a table of the family says that it has a plugin: the key `plugin` of [family]. */
typedef enum bite_plugin_need {
    BITE_PLUGIN_OPTIONAL = 0, /* without it the table works alone, with a remark */
    BITE_PLUGIN_REQUIRED = 1, /* without it the family is refused */
    BITE_PLUGIN_UNSTATED      /* there may be one */
} bite_plugin_need;

bite_plugin_need bite_plugin_need_of(const bite_family_state *family);

/** Loads the family's plugin, the first FAMILY.so in the folders of families, at the first call;
 * later calls repeat its result. Call it under the lock. BITE_OK: family->tried is NONE or GOOD.
 * BITE_BAD_PLUGIN, BITE_UNSAFE: the plugin is refused, or it is required and there is none; that is
 * listed as left out. */
bite_status bite_plugin_load(const bite_library *library, bite_family_state *family,
                             bite_error *error);

#endif
