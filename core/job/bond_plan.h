/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the part is held: which layer is weakest, what the cuts do to it, whether it can be undone
 * without harm. */
#ifndef BITE_JOB_BOND_PLAN_H
#define BITE_JOB_BOND_PLAN_H

#include <coolbite/coolbite.h>

/** What holds the part, its layers, and how deep a through cut goes. */
bite_status bite_plan_workholding(bite_job *job, bite_error *error);

/** What the cuts do to it. */
bite_status bite_plan_bond(bite_job *job, bite_error *error);

/** 1: some pass cuts parts free of their sheet. */
int bite_plan_cuts_free(const bite_job *job);

#endif
