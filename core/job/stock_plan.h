/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sheet of a job: which, how thick it may come, what comes off, how parts lie on it; and how
 * far the part bows. */
#ifndef BITE_JOB_STOCK_PLAN_H
#define BITE_JOB_STOCK_PLAN_H

#include <coolbite/coolbite.h>

/** The sheet: nominal, range, what comes off, blank. */
bite_status bite_plan_stock(bite_job *job, bite_error *error);

/** How the parts lie on their blank, now that the tools are known. */
bite_status bite_plan_layout(bite_job *job, bite_error *error);

bite_status bite_plan_warp(bite_job *job, bite_error *error);
/** Skin stress, Pa, as the job states it or as its coupon shows; NaN: the table's. */
double bite_plan_skin_stress(const bite_job *job);

/** By which one face is longer than the other: moisture, and warmth times expansion; NaN: nothing
 * was said. */
double bite_plan_face_strain(const bite_job *job);

#endif
