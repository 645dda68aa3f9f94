/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The limit that represents a pass. */
#include "core/job/foremost_limit.h"

uint32_t bite_foremost_limit(const bite_result *result)
{
    uint32_t found = result->worst;
    double most = 0.0;
    for (uint32_t i = 0; result->verdict > BITE_CLEAR && i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        if (limit->applies && !limit->advisory && limit->chance > most) {
            most = limit->chance;
            found = i;
        }
    }
    return found;
}
