/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lists of what there is: counting the items of a collection. */
#ifndef BITE_LIBRARY_LISTING_H
#define BITE_LIBRARY_LISTING_H

#include <coolbite/coolbite.h>
#include <stdbool.h>
#include <stddef.h>

/** How many items a collection has. Other than BITE_OK: its tables could not be read, and *count is
 * unchanged. */
bite_status bite_library_size(const bite_library *library, bite_collection collection,
                              size_t *count, bite_error *error);

/** A table or plugin that was left out until now, by index; false: there is no such. Unlike
 * bite_library_item it reads no table for it. *item: borrowed until the library is closed. */
bool bite_library_left_out_until_now(const bite_library *library, size_t index, bite_item *item);

#endif
