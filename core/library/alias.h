/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records by one of their other names: the key `also` and the title. */
#ifndef BITE_LIBRARY_ALIAS_H
#define BITE_LIBRARY_ALIAS_H

#include "core/library/item.h"
#include <coolbite/coolbite.h>

/** A record by its name, its title, or a name in its `also`; case is ignored, and a blank or an
 * underscore counts as a hyphen ("White spirit": white-spirit). A name takes precedence over the
 * other names of any record. *record: borrowed until the library closes. Errors as
 * bite_library_record; the hint names the nearest of all these names. */
bite_status bite_library_record_also(const bite_library *library, bite_collection collection,
                                     const char *name, const bite_item_record **record,
                                     bite_error *error);

#endif
