/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Polycarbonate: what its table cannot state. Its figures are in
 * tables/materials/polycarbonate.ini. */
#include "plugins/glassy_polymer.h"
#include <coolbite/family.h>
#include <math.h>
#include <string.h>

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    if (isnan(host->figure(grade, "transition").value)) {
        host->reason(host, "polycarbonate needs a glass transition");
        return BITE_FAMILY_FAULT;
    }
    return set_relaxing(host, grade);
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    const char *coolant = host->choice(judged, "coolant");
    double chip = host->number(judged, "chip_thickness_max");
    double edge = host->number(judged, "edge_radius");
    enum bite_family_status status = BITE_FAMILY_OK;
    if (host->number(judged, "craze.utilization") > 1.0) {
        status = host->caution(judged, "locked_stress", BITE_CARE,
                               "The skin stays near {surface_temperature} for {surface_dwell}, "
                               "which relaxes it: when it cools, it is left in tension beyond the "
                               "{crazing} that sheet withstands in the long term. Cut cooler, or "
                               "anneal near {annealing}.",
                               "estimate: E alpha dT/(1 - nu) of a skin that relaxed, 30 MPa from "
                               "145 degC, by the share that relaxes") == 0
                     ? BITE_FAMILY_OK
                     : BITE_FAMILY_FAULT;
    }
    if (status == BITE_FAMILY_OK && chip < 3.0 * edge && coolant != NULL &&
        strcmp(coolant, "none") == 0) {
        status = host->caution(judged, "wound_tool", BITE_CARE,
                               "Dry chips of {chip_thickness_max} on an edge of {edge_radius}: "
                               "strings wind around the tool, which reaches {tool_temperature}, "
                               "and trap its heat. Increase the feed at this speed, and blow the "
                               "strings off.",
                               "common-practice") == 0
                     ? BITE_FAMILY_OK
                     : BITE_FAMILY_FAULT;
    }
    return status;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "polycarbonate",
                                              .table = "polycarbonate.ini",
                                              .fill = fill,
                                              .caution = caution};
    return &family;
}
