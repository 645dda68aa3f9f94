/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening a library: the search path and the names of the families. Tables are read when they are
 * first needed. */
#ifndef BITE_LIBRARY_LIBRARY_H
#define BITE_LIBRARY_LIBRARY_H

#include <coolbite/coolbite.h>

/** The allocator of the library. Borrowed until the library closes. */
const bite_allocator *bite_library_allocator(const bite_library *library);

#endif
