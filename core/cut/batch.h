/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Many passes at once, while the caller watches. */
#ifndef BITE_CUT_BATCH_H
#define BITE_CUT_BATCH_H

#include "core/base/watch.h"
#include <coolbite/coolbite.h>

/** As bite_batch_run; a row is a unit of work. watch: NULL, or stops it too. */
bite_status bite_batch_run_watched(const bite_batch *batch, size_t rows, const bite_column *in,
                                   const bite_result_column *out, uint32_t *status, size_t threads,
                                   const volatile int *stop, bite_watch *watch, bite_error *error);

#endif
