/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the tool of a request is made for its operation. */
#ifndef BITE_REQUEST_TOOL_CHECK_H
#define BITE_REQUEST_TOOL_CHECK_H

#include <coolbite/coolbite.h>

/** Checks the tool and the thread of a request against its operation. requested: with the numbers
 * of its tables and its own. BITE_OUT_OF_RANGE, BITE_MISSING. */
bite_status bite_request_check_tool(const bite_request *request, const bite_cut *requested,
                                    bite_error *error);

#endif
