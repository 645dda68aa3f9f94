/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limits that each kind of substance must be able to judge, and the figures that they need:
 * where one is missing the cut is not clear but unknown. */
#ifndef BITE_CUT_REQUIRED_LIMITS_H
#define BITE_CUT_REQUIRED_LIMITS_H

#include <coolbite/coolbite.h>

/** Whether a limit of a cut must be judged. cut: with its defaults filled. */
int bite_limit_is_required(const bite_cut *cut, bite_limit_id limit);

/** Counts the limits that were judged, that do not apply and that could not be judged, and makes
 * the verdict unknown if any of the last; a cut that is over stays over. */
void bite_result_count(const bite_cut *cut, bite_result *result);

#endif
