/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Acrylic: what its table cannot state. Its figures are in tables/materials/acrylic.ini. */
#include "plugins/glassy_polymer.h"
#include "plugins/plugin_help.h"
#include <coolbite/family.h>
#include <math.h>

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    struct bite_figure transition = host->figure(grade, "transition");
    struct bite_figure softening = host->figure(grade, "softening");
    if (isnan(transition.value) || isnan(softening.value)) {
        host->reason(host, "acrylic needs a glass transition and a softening limit");
        return BITE_FAMILY_FAULT;
    }
    if (!(softening.value < transition.value)) {
        host->reason(host, "the softening limit of acrylic must be below its glass transition");
        return BITE_FAMILY_FAULT;
    }
    return set_relaxing(host, grade);
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    enum bite_family_status status = BITE_FAMILY_OK;
    double depth = host->number(judged, "depth");
    double diameter = host->number(judged, "diameter");
    int dry = choice_is(host, judged, "coolant", "none");
    if (host->number(judged, "craze.utilization") > 1.0) {
        status = add_care(
            host, judged, "locked_stress",
            "The skin stays near {surface_temperature} for {surface_dwell}, which relaxes it: "
            "when it cools, it is left in tension beyond the {crazing} that this grade "
            "withstands in the long term. Cut cooler, or anneal near {annealing} before "
            "glue or cleaner touches it.",
            "estimate: E alpha dT/(1 - nu) of a skin that relaxed, 29 MPa from 105 degC, by "
            "the share that relaxes");
    }
    if (status == BITE_FAMILY_OK && dry && choice_is(host, judged, "blind", "yes") &&
        depth > 0.35 * diameter) {
        status =
            add_care(host, judged, "blind_slot",
                     "A dry blind slot {depth} deep with a tool of {diameter}: chips stay in the "
                     "slot, melt and weld. Blow them out, or take less depth per pass.",
                     "common-practice");
    }
    if (status == BITE_FAMILY_OK && host->number(judged, "chip_load_heavy") <
                                        2.0 * host->number(judged, "chip_thickness_least")) {
        status =
            add_care(host, judged, "smear",
                     "Even the tooth with the largest load takes only {chip_load_heavy}, but chips "
                     "form from {chip_thickness_least}: the edge smears and hazes the surface "
                     "instead of cutting. Increase the feed, lower the spindle speed, or use a "
                     "sharper tool.",
                     "common-practice");
    }
    return status;
}

/* The rule of fill, applied to typical figures of cast sheet: if this arithmetic fails, the plugin
 * must be left out. */
static enum bite_family_status check(const struct bite_host *host)
{
    if (!(378.15 - relaxes_below_transition > 353.15)) {
        host->reason(host, "relaxation must lie between the softening limit and the glass "
                           "transition of cast sheet");
        return BITE_FAMILY_FAULT;
    }
    return BITE_FAMILY_OK;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "acrylic",
                                              .table = "acrylic.ini",
                                              .fill = fill,
                                              .caution = caution,
                                              .check = check};
    return &family;
}
