/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tool list as CSV. */
#ifndef BITE_LIBRARY_TOOL_LIST_CSV_H
#define BITE_LIBRARY_TOOL_LIST_CSV_H

#include "core/library/tool_rows.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/** The rows of a CSV (RFC 4180; separated by commas, semicolons or tabs, as its first line is). */
bite_status bite_tool_list_csv(bite_tool_rows *rows, const char *text, size_t size,
                               bite_error *error);

#endif
