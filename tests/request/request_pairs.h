/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Requests and answers from pairs of names and values, for tables of cases. */
#ifndef BITE_TESTS_REQUEST_PAIRS_H
#define BITE_TESTS_REQUEST_PAIRS_H

#include "tests/support/open_library.h"

#define REQUEST_PAIRS 8

/** A request of these pairs, ended by NULL: names of records (material, tool, thread, machine,
 * holder, hold), and of inputs. NULL: refused, with the error. Owned. */
bite_request *request_of_pairs(const bite_library *of, const char *const (*pairs)[2],
                               bite_error *error);

/** Its answer without draws. NULL: refused, with the error. Owned. */
bite_answer *answer_of_pairs(const bite_library *of, const char *const (*pairs)[2],
                             bite_error *error);

/** The text of the caution of that name; NULL: there is none. */
const char *caution_named(const bite_answer *answer, const char *name);

#endif
