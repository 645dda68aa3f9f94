/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the plugins of glassy polymers share. Inline, because a plugin links to nothing of the
 * library. */
#ifndef BITE_PLUGINS_GLASSY_POLYMER_H
#define BITE_PLUGINS_GLASSY_POLYMER_H

#include <coolbite/family.h>
#include <math.h>

/* A skin that comes within 20 K of the glass transition loses its stress, and is in tension when it
 * has cooled (estimate: glassy polymers relax within seconds to minutes below Tg). */
static const double relaxes_below_transition = 20.0; /* K */

/* States the temperature above which stress relaxes, unless the table states it. The grade must
 * state its glass transition. */
static inline enum bite_family_status set_relaxing(const struct bite_host *host,
                                                   struct bite_grade *grade)
{
    struct bite_figure transition = host->figure(grade, "transition");
    if (!isnan(host->figure(grade, "relaxing").value)) {
        return BITE_FAMILY_OK;
    }
    struct bite_figure relaxing = {transition.value - relaxes_below_transition,
                                   transition.low - relaxes_below_transition,
                                   transition.high - relaxes_below_transition};
    return host->set(grade, "relaxing", &relaxing, "estimate: glass transition less 20 K") == 0
               ? BITE_FAMILY_OK
               : BITE_FAMILY_FAULT;
}

#endif
