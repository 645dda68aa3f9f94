/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which changes help against a symptom enough to be named, and their order. */
#ifndef BITE_SEARCH_REMEDY_RANKING_H
#define BITE_SEARCH_REMEDY_RANKING_H

#include "core/search/remedy.h"

/** The weight of a suspect at a share: a limit counts by its utilization; a value, which has no
 * capacity, as a limit that only just explains the symptom. */
double bite_suspect_weight(const bite_suspect *suspect, double share);

/** Nonzero: a change reduces the sum over the suspects, or one of them, by enough; or the draws,
 * of which there are so many (0: none), show that it lowers the chance of the trouble. */
int bite_remedy_helps(const bite_diagnosis *diagnosis, const bite_remedy *remedy, uint32_t draws);

/** Nonzero: it makes the first suspect worse, which must not happen for the sake of a later one:
 * after a tool broke, nobody doubles the feed. */
int bite_remedy_worsens_first(const bite_diagnosis *diagnosis, const bite_remedy *remedy);

/** Nonzero: a chance of so many draws is raised, by more than these scatter. One that stays under
 * half of what a clear verdict allows does not count as raised: a slower feed marks the face less,
 * although the edge is a little nearer to rubbing. */
int bite_remedy_raises_chance(const bite_diagnosis *diagnosis, double before, double after,
                              uint32_t draws);

/** By what remedies are sorted; smaller is better: the chance of the trouble; of changes that leave
 * the same, what is left of the suspects decides, and it alone if there are no draws. */
double bite_remedy_merit(const bite_remedy *remedy);

/** Keeps the BITE_REMEDIES_MAX best remedies in their order, one for each input, of the coolant air
 * and one liquid. A later and larger change of an input replaces an earlier one only if it is worth
 * it. */
void bite_remedy_insert(bite_diagnosis *diagnosis, const bite_remedy *remedy);

#endif
