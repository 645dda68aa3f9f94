/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Requests that a search has once solved badly. */
#ifndef BITE_TESTS_SEARCH_HARD_REQUEST_H
#define BITE_TESTS_SEARCH_HARD_REQUEST_H

#include "tests/search/search_request.h"

/** How many there are, each with every goal. */
size_t hard_request_count(void);

/** Makes one of them; free it with search_request_end. */
void hard_request_make(size_t index, search_request *made);

#endif
