/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions: the family speaks, the host fills in the case's own numbers with unit and band. */
#ifndef BITE_REQUEST_CAUTIONS_H
#define BITE_REQUEST_CAUTIONS_H

#include <coolbite/coolbite.h>

/** A number of the answer by its public name: input, value, ROW.demand, ROW.room, ROW.use,
 * ROW.chance, or a figure of the grade's table. NaN: none. *kind: what it measures;
 * BITE_KIND_COUNT: there is no such name. */
double bite_answer_number(const bite_answer *answer, const char *name, bite_kind *kind, double *low,
                          double *high);

/** A word of the answer: grade, family, coolant, machine, tool_material, side, substance, blind.
 * NULL: none. */
const char *bite_answer_word(const bite_answer *answer, const char *name);

/** Asks the family for its cautions and keeps them, danger first. */
bite_status bite_answer_collect_cautions(bite_answer *answer, bite_error *error);

#endif
