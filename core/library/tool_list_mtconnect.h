/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tool list as an asset of MTConnect. */
#ifndef BITE_LIBRARY_TOOL_LIST_MTCONNECT_H
#define BITE_LIBRARY_TOOL_LIST_MTCONNECT_H

#include "core/library/tool_rows.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/** The cutting tools of an asset of MTConnect. */
bite_status bite_tool_list_mtconnect(bite_tool_rows *rows, const char *text, size_t size,
                                     bite_error *error);

#endif
