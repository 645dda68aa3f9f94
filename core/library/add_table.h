/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Adding a table from memory: bite_library_add_table is in coolbite/coolbite.h. */
#ifndef BITE_LIBRARY_ADD_TABLE_H
#define BITE_LIBRARY_ADD_TABLE_H

#include <coolbite/coolbite.h>

#endif
