/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Stainless steel: what its table cannot state. Its figures are in tables/materials/stainless.ini.
 *
 * A tooth hardens the skin that it leaves, and the next tooth has to cut below it: a chip that is
 * thinner than that skin is hard all through, and the edge glazes the surface and wears. */
#include "plugins/plugin_help.h"
#include <coolbite/family.h>
#include <stddef.h>

static const struct bite_family_figure hardened_share = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "hardened_share",
    .quantity = "plain number",
    .summary = "depth to which a tooth hardens the skin that it leaves / its edge radius in use",
    .least = 0.2,
    .most = 20.0};

enum { SHARE, EDGE, WEAR, CHIP, TAPS, REAMS };
static const char *const skin_numbers[] = {
    "hardened_share", "edge_radius",    "edge_wear", "chip_thickness_max",
    "operation:tap",  "operation:ream", NULL};

/* Taps and reamers take what the tool before has left, at a feed that the thread or the finish
 * decides. */
static enum bite_family_status judge_skin(size_t count, const double *const *numbers,
                                          double *demand, double *capacity)
{
    if (numbers[TAPS][0] > 0.0 || numbers[REAMS][0] > 0.0) {
        return BITE_FAMILY_NO_DATA;
    }
    for (size_t k = 0; k < count; k++) {
        demand[k] = numbers[SHARE][k] * numbers[EDGE][k] * numbers[WEAR][k];
        capacity[k] = numbers[CHIP][k];
    }
    return BITE_FAMILY_OK;
}

/* Advisory: it wears the tool and hazes the surface, but the part is made. */
static const struct bite_family_limit hardened_skin = {
    .struct_size = (uint32_t)sizeof(struct bite_family_limit),
    .advisory = 1,
    .name = "hardened_skin",
    .quantity = "length",
    .summary = "the chip is thicker than the skin that the tooth before has hardened",
    .equation = "hardened_share x edge radius in use against the largest chip thickness",
    .source =
        "estimate: the skin strained by an edge is some edge radii deep; a maker of stainless "
        "steel warns of finishing cuts that lie in the hardened layer as a whole",
    .remedy = "Take a thicker chip: raise the feed at a lower spindle speed, take more width, or "
              "use a sharper edge.",
    .numbers = skin_numbers,
    .judge = judge_skin};

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    static const struct bite_figure usual = {2.0, 1.0, 4.0};
    return set_usual(host, grade, "hardened_share", &usual, "estimate: as 304 and 316");
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    if (host->number(judged, "hardened_skin.utilization") > 1.0) {
        return add_care(host, judged, "hardened_skin",
                        "The chip of {chip_thickness_max} lies in the skin that the tooth before "
                        "has hardened, about {hardened_skin.demand} deep: the edge works in its "
                        "hardest part. Do not dwell or repeat the pass, and climb mill, so that "
                        "each tooth enters below the skin.",
                        "estimate: the skin strained by an edge is some edge radii deep");
    }
    return BITE_FAMILY_OK;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family_figure *const figures[] = {&hardened_share, NULL};
    static const struct bite_family_limit *const limits[] = {&hardened_skin, NULL};
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "stainless",
                                              .table = "stainless.ini",
                                              .fill = fill,
                                              .caution = caution,
                                              .figures = figures,
                                              .limits = limits};
    return &family;
}
