/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether cuts can be lanes of one block. */
#ifndef BITE_CUT_BLOCK_LANE_MATCH_H
#define BITE_CUT_BLOCK_LANE_MATCH_H

#include <coolbite/coolbite.h>

/** Whether two cuts have the same form: flutes, a corner radius or none, a floor or none (a limit
 * of its bending applies to all lanes or to none). */
int bite_cut_same_form(const bite_cut *one, const bite_cut *other);

/** Whether the same numbers are given of two cuts. */
int bite_cut_same_given(const bite_cut *one, const bite_cut *other);

/** Whether two cuts have the same words and curves. */
int bite_cut_same_words(const bite_cut *one, const bite_cut *other);

#endif
