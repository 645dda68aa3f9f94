/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Polycarbonate: what its table cannot state. The figures stand in
 * tables/materials/polycarbonate.ini. */
#include <coolbite/family.h>
#include <math.h>
#include <string.h>

static const double relaxes_below =
    20.0; /* K under the glass transition (estimate, as for other glassy polymers) */

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    struct bite_figure transition = host->figure(grade, "transition");
    if (isnan(transition.value)) {
        host->reason(host, "a polycarbonate needs its glass transition");
        return BITE_FAMILY_FAULT;
    }
    if (!isnan(host->figure(grade, "relaxing").value)) {
        return BITE_FAMILY_OK;
    }
    struct bite_figure relaxing = {transition.value - relaxes_below, transition.low - relaxes_below,
                                   transition.high - relaxes_below};
    return host->set(grade, "relaxing", &relaxing, "estimate: glass transition less 20 K") == 0
               ? BITE_FAMILY_OK
               : BITE_FAMILY_FAULT;
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    const char *coolant = host->choice(judged, "coolant");
    double chip = host->number(judged, "chip_thickness_max");
    double edge = host->number(judged, "edge_radius");
    enum bite_family_status status = BITE_FAMILY_OK;
    if (host->number(judged, "surface_temperature") > host->number(judged, "relaxing")) {
        status =
            host->caution(
                judged, "locked_stress", BITE_CARE,
                "The skin comes to {surface_temperature}, above {relaxing}: it cools into tension "
                "beyond the "
                "{crazing} that sheet bears "
                "for long. Cut cooler, or anneal near {annealing}.",
                "estimate: E alpha dT/(1 - nu) of a skin that relaxed, 30 MPa from 145 degC") == 0
                ? BITE_FAMILY_OK
                : BITE_FAMILY_FAULT;
    }
    if (status == BITE_FAMILY_OK && chip < 3.0 * edge && coolant != NULL &&
        strcmp(coolant, "none") == 0) {
        status = host->caution(judged, "wound_tool", BITE_CARE,
                               "Chips of {chip_thickness_max} on an edge of {edge_radius}, dry: "
                               "strings wind round the tool and hold its heat of "
                               "{tool_temperature}. Feed more at this speed, and blow them off.",
                               "common-practice") == 0
                     ? BITE_FAMILY_OK
                     : BITE_FAMILY_FAULT;
    }
    return status;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family family = {(uint32_t)sizeof(struct bite_family),
                                              BITE_FAMILY_ABI,
                                              "polycarbonate",
                                              "polycarbonate.ini",
                                              fill,
                                              NULL,
                                              caution,
                                              NULL};
    return &family;
}
