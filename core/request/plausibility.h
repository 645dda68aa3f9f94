/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers that nobody runs, with the slip that they look like; and what to mind on the way in. */
#ifndef BITE_REQUEST_PLAUSIBILITY_H
#define BITE_REQUEST_PLAUSIBILITY_H

#include "core/request/answer.h"

/** Says what it minds through the view, as a rule of a table would. 0: no memory. */
int bite_plausibility_check(const bite_answer *answer, const bite_case_view *view);

#endif
