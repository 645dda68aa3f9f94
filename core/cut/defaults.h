/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Defaults of the inputs of a cut, and their sources. */
#ifndef BITE_CUT_DEFAULTS_H
#define BITE_CUT_DEFAULTS_H

#include <coolbite/coolbite.h>
#include <stddef.h>

/** Fills every member that is NaN and has a default. Members without one (the width of a slot,
 * limits of the machine, requirements of the part) stay NaN. */
void bite_defaults_fill(bite_cut *cut);

/** Source of the default of an input: "grade: where", as in a table; "" for an input that has no
 * default. Borrowed; always valid. */
const char *bite_defaults_source(const char *input);

/** The usual number of flutes of a tool for this operation. */
double bite_flutes_default(const bite_cut *cut);

/** The edge radius of a new tool, m: the sharpest that is sold. diameter: m. */
double bite_edge_radius_default(const bite_cut *cut);

/** Whether the default of another member of this cut follows from the member of bite_cut at this
 * offset. */
int bite_defaults_follow(const bite_cut *cut, size_t offset);

/** Fills the offsets of the members whose defaults follow from the numbers of others, as far as the
 * cut does not give them. Returns how many there are, at most BITE_FOLLOWERS_MAX. */
#define BITE_FOLLOWERS_MAX 12
size_t bite_defaults_followers(const bite_cut *cut, size_t followers[BITE_FOLLOWERS_MAX]);

/** Computes these members again, in a cut with all its defaults of which other members have been
 * changed: not whether they are given, and no words. */
void bite_defaults_follow_on(bite_cut *full, const size_t *followers, size_t count);

#endif
