/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut: the request, its results and its cautions. Everything is computed once and then
 * only read. */
#ifndef BITE_REQUEST_ANSWER_H
#define BITE_REQUEST_ANSWER_H

#include "core/request/request.h"
#include "core/request/single_change.h"

/** A caution with its places filled, in both unit systems. */
typedef struct bite_worded_caution {
    bite_caution caution; /* text: metric */
    const char *inch;
} bite_worded_caution;

struct bite_answer {
    bite_arena *arena;    /* owns all texts and this structure's lists */
    bite_request request; /* a copy */
    bite_cut requested;
    bite_cut full;
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_spread spreads[BITE_SPREAD_MAX];
    size_t spread_count;
    double confidence;
    unsigned char *over; /* for each draw: 1 if a binding limit is exceeded; NULL: no draws */
    bite_result result;
    bite_change change;
    bite_worded_caution *cautions;
    size_t caution_count;
    size_t caution_capacity;
};

/** The advisory limit that is probably exceeded, the one with the highest utilization if there are
 * several; BITE_LIMIT_COUNT: none. It does not change the verdict, but must be shown with it. */
uint32_t bite_answer_worst_advisory(const bite_result *result);

/** The worst verdict of the binding limits, each alone; the joint chance may make the cut tight. */
bite_verdict bite_answer_limits_verdict(const bite_result *result);

/** Width at the surface of a groove milled with a cone, m; 0: the cut is none. */
double bite_answer_groove_width(const bite_answer *answer);

/** Distance of a chamfer mill's axis from the wall, m: the cone's radius at the lower end. */
double bite_answer_cone_radius(const bite_answer *answer);

/** 1: the limit is tight by its utilization alone, because trouble begins below this limit, though
 * the chance of exceeding it is small. */
int bite_answer_tight_by_utilization(const bite_answer *answer, bite_limit_id limit);

/** Grade and place of the source of a value or limit; one that depends on an estimated cutting
 * pressure says so. "" if there is none. Borrowed. */
const char *bite_answer_value_source(const bite_answer *answer, bite_value_id id);
const char *bite_answer_limit_source(const bite_answer *answer, bite_limit_id id);

/** The figure, by the name of its input, without which a limit could not be judged; index from 0.
 * NULL: there are no more, or none is missing. Borrowed, for ever. */
const char *bite_answer_missing_figure(const bite_answer *answer, size_t index);

/** A number of the answer by its public name: input, value, LIMIT.demand, LIMIT.capacity,
 * LIMIT.utilization, LIMIT.chance, or a figure of the grade's table. NaN: none. *kind: what it
 * measures; BITE_KIND_COUNT: there is no such name. */
double bite_answer_number(const bite_answer *answer, const char *name, bite_kind *kind, double *low,
                          double *high);

/** A word of the answer by its public name: grade, family, machine, or an input that takes words.
 * NULL: none. Borrowed. */
const char *bite_answer_word(const bite_answer *answer, const char *name);

#endif
