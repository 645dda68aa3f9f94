/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A column of results: which number of a judged cut it is, and how it is written. */
#ifndef BITE_CASES_CASE_RESULT_H
#define BITE_CASES_CASE_RESULT_H

#include <coolbite/coolbite.h>

#define BITE_CASE_RESULT_MAX 64 /* columns of results */

typedef enum bite_case_result_kind {
    BITE_CASE_VERDICT,
    BITE_CASE_CHANCE,
    BITE_CASE_WORST,       /* the limit that is used most, or most likely exceeded */
    BITE_CASE_WORST_SHARE, /* its utilization */
    BITE_CASE_VALUE,
    BITE_CASE_VALUE_LOW,
    BITE_CASE_VALUE_HIGH,
    BITE_CASE_LIMIT, /* its utilization */
    BITE_CASE_LIMIT_CHANCE,
    BITE_CASE_INPUT /* as used, defaults included */
} bite_case_result_kind;

typedef struct bite_case_result {
    const char *name; /* as asked for; borrowed */
    uint32_t kind;    /* a bite_case_result_kind */
    uint32_t id;      /* of a value or a limit */
    const bite_input *input;
    const char *unit; /* of the text; "" */
    double scale;     /* SI value = number * scale + offset */
    double offset;
} bite_case_result;

/** The results that are written if none are asked for: names, ended by NULL. drawn: with chances.
 */
const char *const *bite_case_results_usual(int drawn);

/** Finds a result by name: verdict, chance, worst_limit, worst_utilization, an input, a value
 * (also NAME.low and NAME.high), a limit (also NAME.chance). drawn: chances and bands are computed.
 * BITE_UNKNOWN_NAME, BITE_BAD_ARGUMENT for a band without draws. */
bite_status bite_case_result_read(const char *name, bite_units units, int drawn,
                                  bite_case_result *result, bite_error *error);

/** The number of a judged cut, SI; NaN: none. A verdict or a limit is its index. */
double bite_case_result_of(const bite_case_result *column, const bite_result *result,
                           const bite_cut *full);

/** The word of such an index; NULL: it is a number. worst: the name of the worst limit. */
const char *bite_case_result_word(const bite_case_result *column, double number, const char *worst);

#endif
