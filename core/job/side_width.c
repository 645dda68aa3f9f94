/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The radial width of a side cut, and the arc on which it runs onto its wall. */
#include "core/job/side_width.h"
#include "core/job/job_file.h"
#include <math.h>

/* The width of a side cut as a share of the diameter, if the job does not state it (common
 * practice). */
static const double default_width[BITE_WORK_COUNT] = {
    [BITE_WORK_FACE] = 0.6,
    [BITE_WORK_ROUGH] = 0.5,
    [BITE_WORK_FINISH] = 0.05,
};

static const double lead_over_diameter = 0.5; /* radius of the arc onto a wall: common practice */

double bite_side_lead(double diameter)
{
    return lead_over_diameter * diameter;
}

double bite_side_width(uint32_t work, double stated, double diameter)
{
    return !isnan(stated) || work >= BITE_WORK_COUNT || default_width[work] <= 0.0
               ? stated
               : default_width[work] * diameter;
}
