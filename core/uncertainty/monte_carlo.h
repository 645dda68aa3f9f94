/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The band of a cut: Monte Carlo over its uncertain inputs, on several threads. */
#ifndef BITE_UNCERTAINTY_MONTE_CARLO_H
#define BITE_UNCERTAINTY_MONTE_CARLO_H

#include "core/uncertainty/sampling.h"
#include <coolbite/coolbite.h>

/** As bite_cut_band. BITE_NO_ANSWER: over_enough draws exceeded a limit. */
bite_status bite_monte_carlo_run(const bite_cut *cut, const bite_spread *spreads, size_t count,
                                 const bite_sampling *sampling, bite_result *result,
                                 bite_error *error);

#endif
