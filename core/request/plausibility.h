/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions about numbers that no shop runs, with the slip that they look like, and about the entry
 * move, the tolerance and the chamfer. */
#ifndef BITE_REQUEST_PLAUSIBILITY_H
#define BITE_REQUEST_PLAUSIBILITY_H

#include "core/request/answer.h"

/** Adds its cautions through the view, as a rule of a table would. 0: no memory. */
int bite_plausibility_check(const bite_answer *answer, const bite_case_view *view);

#endif
