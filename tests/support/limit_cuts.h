/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cuts for tests of limits, and one limit of a cut. */
#ifndef BITE_TESTS_SUPPORT_LIMIT_CUTS_H
#define BITE_TESTS_SUPPORT_LIMIT_CUTS_H

#include <coolbite/coolbite.h>

/** One limit of a cut; fails if the cut is refused. */
bite_limit bite_test_limit(const bite_cut *cut, bite_limit_id id);
/** Its utilization; fails if the limit does not apply. */
double bite_test_utilization(const bite_cut *cut, bite_limit_id id);

/** Acrylic taped down, with a thin wall above a thin floor and every input that a limit needs. */
bite_cut bite_test_part_cut(void);
/** The same with a bridge instead of the wall and the floor. */
bite_cut bite_test_bridge_cut(void);
/** A slot with a cylindrical tool, which has neither flutes nor a cone; lengths in m. */
bite_cut bite_test_rod_cut(double diameter, double stickout);

#endif
