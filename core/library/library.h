/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening a library: where to look, which families there are; tables are read when they are first
 * needed. */
#ifndef BITE_LIBRARY_LIBRARY_H
#define BITE_LIBRARY_LIBRARY_H

#include <coolbite/coolbite.h>

const bite_allocator *bite_library_allocator(const bite_library *library);

#endif
