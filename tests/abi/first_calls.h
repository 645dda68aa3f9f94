/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a program does that was built with the first header. Its structures are not those of the
 * present header, so numbers alone pass between both. */
#ifndef BITE_TESTS_ABI_FIRST_CALLS_H
#define BITE_TESTS_ABI_FIRST_CALLS_H

#include <stddef.h>

/** What it computed. */
typedef struct first_numbers {
    double power;  /* W */
    double chance; /* of the band */
    double cooler; /* m3/s, the removal rate of the goal cool */
    double faster; /* of the goal fast */
    double usual;  /* of the usual goal */
    double side;   /* m/s, the feed rate of a request as numbers */
    size_t passes;
} first_numbers;

/** Each returns NULL, or what went wrong. library and request: handles; path: of a job file. */
const char *first_cut(first_numbers *numbers);
const char *first_refusals(void);
const char *first_choices(const void *request, first_numbers *numbers);
const char *first_request(const void *request, first_numbers *numbers);
const char *first_library(const char *families, const char *tables);
const char *first_answer(const void *request);
const char *first_job(const void *library, const char *path);

#endif
