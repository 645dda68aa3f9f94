/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut: what was asked, what came of it, and what to mind. All of it is made once and then
 * only read. */
#ifndef BITE_REQUEST_ANSWER_H
#define BITE_REQUEST_ANSWER_H

#include "core/request/request.h"
#include "core/request/single_change.h"

/** A caution with its places filled, in both systems of units. */
typedef struct bite_worded_caution {
    bite_caution caution; /* text: metric */
    const char *inch;
} bite_worded_caution;

struct bite_answer {
    bite_arena *arena;    /* holds all texts and this structure's lists */
    bite_request request; /* a copy: names and typed texts */
    bite_cut requested;
    bite_cut full;
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_spread spreads[BITE_SPREAD_MAX];
    size_t spread_count;
    double confidence;
    unsigned char *over; /* of each draw of the result: 1 where a binding row goes over; NULL: none
                            was drawn */
    bite_result result;
    bite_change change;
    bite_worded_caution *cautions;
    size_t caution_count;
    size_t caution_capacity;
};

/** The advisory row that is likelier over than not and uses the most of its room; BITE_LIMIT_COUNT:
 * none. The verdict goes without it, and must not be shown without it. */
uint32_t bite_answer_worst_advisory(const bite_result *result);

/** 1: the row is tight by its use alone, for trouble begins early there, while its chance of going
 * over is small. */
int bite_answer_tight_by_utilization(const bite_answer *answer, bite_limit_id limit);

/** Grade and place of a value's or row's source, the estimate of a material's pressure made known.
 * "" where there is none. Borrowed. */
const char *bite_answer_value_source(const bite_answer *answer, bite_value_id id);
const char *bite_answer_limit_source(const bite_answer *answer, bite_limit_id id);

/** A number of the answer by its public name: input, value, ROW.demand, ROW.room, ROW.use,
 * ROW.chance, or a figure of the grade's table. NaN: none. *kind: what it measures;
 * BITE_KIND_COUNT: there is no such name. */
double bite_answer_number(const bite_answer *answer, const char *name, bite_kind *kind, double *low,
                          double *high);

/** A word of the answer: grade, family, coolant, machine, tool_material, side, substance, blind.
 * NULL: none. */
const char *bite_answer_word(const bite_answer *answer, const char *name);

#endif
