/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far a tool or a thin part may deflect if no tolerance was requested. */
#ifndef BITE_CUT_GROSS_DEFLECTION_H
#define BITE_CUT_GROSS_DEFLECTION_H

#include "core/cut/limit_case.h"

/** Allowed deflection, m: a share of the body's own size, at most the coarse general tolerance of
 * that size, and at most the width or depth that the pass removes. size, removed: m. */
double bite_gross_deflection_capacity(double size, double share, double removed);

/** Radial width that the pass removes, m. */
double bite_gross_deflection_width(const bite_limit_case *limit);

/** The limit does not apply if a tolerance was requested: the tolerance itself is the limit. */
void bite_gross_deflection_omit_if_toleranced(bite_limit_case *limit);

#endif
