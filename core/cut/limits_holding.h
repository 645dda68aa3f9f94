/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of a part on tape, glue or vacuum: force and heat on the bond. */
#ifndef BITE_CUT_LIMITS_HOLDING_H
#define BITE_CUT_LIMITS_HOLDING_H

#include "core/cut/limit_fill.h"
#include "core/physics/holding/workholding.h"

/** What a segment does to the bond. NaN: not known. */
typedef struct bite_hold_action {
    double side_mean;        /* N */
    double side_peak;        /* N */
    double lift_peak;        /* N, up is positive */
    double engagement;       /* rad, arc of contact */
    double part_temperature; /* K, at the bond */
} bite_hold_action;

/** The bond under it. */
typedef struct bite_hold_state {
    bite_workholding_stress stress;
    double shear; /* Pa, what it bears at this time and temperature; the same for pull */
    double pull;
    double utilization;
} bite_hold_state;

/** The one model of bonds and vacuum, for a cut and for the passes of a job. full: all defaults
 * filled. */
bite_hold_state bite_cut_hold(const bite_cut *full, const bite_hold_action *action);

bite_limit_fill bite_limit_hold;
bite_limit_fill bite_limit_bond_heat;

bite_limit_omit bite_limit_hold_omit;

#endif
