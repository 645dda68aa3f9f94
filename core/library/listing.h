/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists of what there is: counting the items of a collection. */
#ifndef BITE_LIBRARY_LISTING_H
#define BITE_LIBRARY_LISTING_H

#include <coolbite/coolbite.h>
#include <stddef.h>

/** How many items a collection has. Other than BITE_OK: its tables could not be read, and *count is
 * unchanged. */
bite_status bite_library_size(const bite_library *library, bite_collection collection,
                              size_t *count, bite_error *error);

#endif
