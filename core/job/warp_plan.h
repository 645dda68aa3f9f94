/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bow of the finished part, and what reduces it. */
#ifndef BITE_JOB_WARP_PLAN_H
#define BITE_JOB_WARP_PLAN_H

#include "core/job/plan.h"

/** Fills job->warp and the stock's limit from the last pass, which frees the part. */
bite_status bite_plan_warp(bite_job *job, bite_error *error);

/** Skin stress of the sheet, Pa, as the job states it or as computed from its coupon; NaN: the
 * table's value applies. */
double bite_plan_skin_stress(const bite_job *job);

/** The strain by which one face is longer than the other: moisture, and temperature difference
 * times expansion; NaN: the job states neither. */
double bite_plan_face_strain(const bite_job *job);

#endif
