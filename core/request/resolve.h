/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a request to flat numbers: tables first, then the inputs that were given, which override
 * them, then the defaults, with the provenance of each number. */
#ifndef BITE_REQUEST_RESOLVE_H
#define BITE_REQUEST_RESOLVE_H

#include "core/request/request.h"
#include <coolbite/coolbite.h>

/** The machine that is taken if none is named. */
extern const char bite_usual_machine[];

/** full: the flat numbers with all defaults; provenance: where each comes from (BITE_INPUTS_MAX
 * entries). requested: the same numbers before the defaults of the physics, for limits that apply
 * only if an input was given. */
bite_status bite_request_resolve(const bite_request *request, bite_cut *requested, bite_cut *full,
                                 bite_provenance *provenance, bite_error *error);

/** Its first part: the numbers of the records, and the words. provenance: BITE_INPUTS_MAX entries.
 * It depends on the records of the request and on its words, not on its numbers. */
bite_status bite_request_resolve_records(const bite_request *request, bite_cut *requested,
                                         bite_provenance *provenance, bite_error *error);

/** Its second part, on what the first has filled: the inputs that were given, and the defaults that
 * follow from records. */
bite_status bite_request_resolve_given(const bite_request *request, bite_cut *requested,
                                       bite_provenance *provenance, bite_error *error);

#endif
