/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening a library: the search path and the names of the families. Tables are read when they are
 * first needed. */
#ifndef BITE_LIBRARY_LIBRARY_H
#define BITE_LIBRARY_LIBRARY_H

#include <coolbite/coolbite.h>
#include <stddef.h>

/** The allocator of the library. Borrowed until the library closes. */
const bite_allocator *bite_library_allocator(const bite_library *library);

/** The length of "acrylic" in "acrylic.ini"; 0: not the name of a family's table. */
size_t bite_library_family_length(const char *file);

/** Adds the family of a table ("acrylic.ini") unless it is known. 0: no memory. */
int bite_library_add_family(bite_library *library, const char *file);

#endif
