/* SPDX-License-Identifier: GPL-3.0-or-later */
/* iniparser on bytes that were checked: loading them, and giving back what it holds. */
#ifndef BITE_TABLES_INI_LOAD_H
#define BITE_TABLES_INI_LOAD_H

#include "core/tables/ini_check.h"
#include <coolbite/coolbite.h>
#ifdef BITE_INIPARSER_FLAT
#include <iniparser.h>
#else
#include <iniparser/iniparser.h>
#endif

/** Sets iniparser's error callback, once in a process. A load does it too. */
void bite_ini_set_callback(void);

/** Has iniparser load the lines that passed the check. *read: owned, to be freed with
 * bite_ini_unload. BITE_NO_MEMORY: memory ran out anywhere in it; BITE_IO: it could not be given
 * the bytes. */
bite_status bite_ini_load(const bite_ini_index *index, dictionary **read, bite_error *error);
void bite_ini_unload(dictionary *read); /* NULL is fine */

#endif
