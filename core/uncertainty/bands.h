/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bands: quantiles of the draws. */
#ifndef BITE_UNCERTAINTY_BANDS_H
#define BITE_UNCERTAINTY_BANDS_H

#include "core/uncertainty/draw_samples.h"
#include <coolbite/coolbite.h>

/** Fills the bands of values, 5 to 95 %, and the 95 % ends of utilizations, on as many threads as
 * there are runs. The best estimate is always within its band. */
void bite_bands_fill(const bite_draw_samples *samples, size_t runs, bite_result *result);

#endif
