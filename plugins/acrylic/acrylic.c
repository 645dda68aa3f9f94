/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Acrylic: what its table cannot state. The figures stand in tables/materials/acrylic.ini. */
#include <coolbite/family.h>
#include <math.h>
#include <string.h>

/* A skin that came within 20 K of the glass transition gives up its stress, and is in tension when
 * it has cooled (estimate: from relaxation of glassy polymers within seconds to minutes below Tg).
 */
static const double relaxes_below = 20.0; /* K */

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    struct bite_figure transition = host->figure(grade, "transition");
    struct bite_figure softening = host->figure(grade, "softening");
    if (isnan(transition.value) || isnan(softening.value)) {
        host->reason(host, "an acrylic needs its glass transition and its softening limit");
        return BITE_FAMILY_FAULT;
    }
    if (!(softening.value < transition.value)) {
        host->reason(host, "the softening limit of an acrylic lies under its glass transition");
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

static int is(const struct bite_host *host, const struct bite_case *judged, const char *name,
              const char *word)
{
    const char *choice = host->choice(judged, name);
    return choice != NULL && strcmp(choice, word) == 0;
}

/* A cautions' function says FAULT only when the host could not take a caution. */
static enum bite_family_status say(const struct bite_host *host, struct bite_case *judged,
                                   const char *name, enum bite_severity severity, const char *text,
                                   const char *source)
{
    return host->caution(judged, name, severity, text, source) == 0 ? BITE_FAMILY_OK
                                                                    : BITE_FAMILY_FAULT;
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    enum bite_family_status status = BITE_FAMILY_OK;
    double surface = host->number(judged, "surface_temperature");
    double relaxing = host->number(judged, "relaxing");
    double depth = host->number(judged, "depth");
    double diameter = host->number(judged, "diameter");
    int dry = is(host, judged, "coolant", "none");
    if (surface > relaxing) {
        status = say(host, judged, "locked_stress", BITE_CARE,
                     "The skin comes to {surface_temperature}, above {relaxing}: it cools into "
                     "tension of some three to six times "
                     "the {crazing} "
                     "that this grade bears for long. Cut cooler, or anneal near {annealing} "
                     "before glue or cleaner touches it.",
                     "estimate: E alpha dT/(1 - nu) of a skin that relaxed, 29 MPa from 105 degC");
    }
    if (status == BITE_FAMILY_OK && dry && is(host, judged, "blind", "yes") &&
        depth > 0.35 * diameter) {
        status = say(host, judged, "blind_slot", BITE_CARE,
                     "A dry blind slot {depth} deep with a tool of {diameter}: chips stay in, melt "
                     "and weld. Blow them away, or "
                     "step down less.",
                     "common-practice");
    }
    if (status == BITE_FAMILY_OK && host->number(judged, "chip_load_heavy") <
                                        2.0 * host->number(judged, "chip_thickness_least")) {
        status =
            say(host, judged, "smear", BITE_CARE,
                "Even the heavy tooth takes {chip_load_heavy} only, while chips form from "
                "{chip_thickness_least} on: the edge "
                "smears and "
                "hazes instead of cutting. Feed more, slow the spindle, or take a sharper tool.",
                "common-practice");
    }
    return status;
}

/* The rule of fill on figures of its own: a descriptor whose arithmetic is broken is better left
 * out. */
static enum bite_family_status check(const struct bite_host *host)
{
    if (!(378.15 - relaxes_below > 353.15)) {
        host->reason(host, "relaxation must lie between the softening limit and the glass "
                           "transition of cast sheet");
        return BITE_FAMILY_FAULT;
    }
    return BITE_FAMILY_OK;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family family = {(uint32_t)sizeof(struct bite_family),
                                              BITE_FAMILY_ABI,
                                              "acrylic",
                                              "acrylic.ini",
                                              fill,
                                              NULL,
                                              caution,
                                              check};
    return &family;
}
