/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The radial width of a side cut, and the arc on which it runs onto its wall. */
#ifndef BITE_JOB_SIDE_WIDTH_H
#define BITE_JOB_SIDE_WIDTH_H

#include <stdint.h>

/** The width of a cut, m: as stated, otherwise the usual share of the diameter for this work; NaN:
 * a full slot. */
double bite_side_width(uint32_t work, double stated, double diameter);

/** The radius of the arc on which a side cut runs onto its wall and off it, m, if there is room for
 * it. */
double bite_side_lead(double diameter);

#endif
