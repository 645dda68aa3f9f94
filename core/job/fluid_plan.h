/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fluids of a job against its material, and against how its stock was cut. */
#ifndef BITE_JOB_FLUID_PLAN_H
#define BITE_JOB_FLUID_PLAN_H

#include <coolbite/coolbite.h>

bite_status bite_plan_fluids(bite_job *job, bite_error *error);

#endif
