/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of a bonded part: side force, lift and heat on the bond. */
#ifndef BITE_CUT_LIMITS_HOLDING_H
#define BITE_CUT_LIMITS_HOLDING_H

#include "core/cut/limit_case.h"

void bite_limit_bond_side(bite_limit_case *limit);
void bite_limit_bond_lift(bite_limit_case *limit);
void bite_limit_bond_heat(bite_limit_case *limit);

#endif
