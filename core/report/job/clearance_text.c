/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How far tool and holder of a pass keep from what is beside their path, in words. */
#include "core/report/job/clearance_text.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static void add(bite_page *page, const char *what, double clearance, const char *thing,
                char to[BITE_CLEARANCE_TEXT_MAX])
{
    size_t used = strlen(to);
    char length[48];
    if (!isfinite(clearance) || thing == NULL || thing[0] == 0) {
        return;
    }
    bite_page_quantity(page, fabs(clearance), BITE_KIND_LENGTH, length, sizeof length);
    (void)snprintf(to + used, BITE_CLEARANCE_TEXT_MAX - used, "%s%s %s %s %.100s",
                   used > 0 ? "; " : "", what, length, clearance < 0.0 ? "into" : "to", thing);
}

const char *bite_clearance_text(bite_page *page, const bite_planned_pass *pass,
                                char to[BITE_CLEARANCE_TEXT_MAX])
{
    to[0] = 0;
    add(page, "tool", pass->clearance, pass->nearest, to);
    add(page, "holder", pass->holder_clearance, pass->holder_nearest, to);
    return to;
}
