/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a request to flat numbers: tables first, what was typed over them, what is usual behind
 * them, with an account of each. */
#ifndef BITE_REQUEST_RESOLVE_H
#define BITE_REQUEST_RESOLVE_H

#include "core/request/request.h"
#include <coolbite/coolbite.h>

/** The flat numbers with all defaults, and the account of each. asked: the same before the physics'
 * defaults, for rows that mind.
 */
bite_status bite_request_resolve(const bite_request *request, bite_cut *requested, bite_cut *full,
                                 bite_provenance *provenance, bite_error *error);

#endif
