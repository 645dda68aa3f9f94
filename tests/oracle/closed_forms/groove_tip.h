/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest stress in the thin tip of a conical tool that engraves a groove. */
#ifndef BITE_TESTS_ORACLE_GROOVE_TIP_H
#define BITE_TESTS_ORACLE_GROOVE_TIP_H

#include "core/physics/force/v_groove.h"

/** Largest stress in the cone, Pa; ductile: von Mises, otherwise principal stress. */
double bite_groove_tip_stress(const bite_groove *groove, double diameter, double core_share,
                              double side, double torque, int ductile);

#endif
