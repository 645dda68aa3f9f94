/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one list of names: inputs, outputs and limits. Options, tables, JSON, help and `explain` are
 * made from it. */
#ifndef BITE_NAMES_REGISTRY_H
#define BITE_NAMES_REGISTRY_H

#include "core/names/definition.h"
#include "core/names/inputs.h"
#include <coolbite/coolbite.h>
#include <stdint.h>

const bite_definition *bite_registry_output(bite_value_id id); /* NULL: no such output */
const bite_definition *bite_registry_limit(bite_limit_id id);  /* NULL: no such limit */

/** The output or limit of this name; *id: its bite_value_id or bite_limit_id; *is_limit: 1 for a
 * limit. NULL: neither (*id and *is_limit are not written). */
const bite_definition *bite_registry_find(const char *name, uint32_t *id, uint32_t *is_limit);

/** The nearest name of an input, output or limit; NULL: none is near. Borrowed, for ever. */
const char *bite_registry_nearest(const char *name);

#endif
