/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Nylon: what its table cannot state. Its figures are in tables/materials/nylon.ini.
 *
 * Water makes nylon softer, weaker and larger. A grade in a state (`state = dry`) states how much
 * water it holds, and the figures of the grade it is like follow from it. */
#include "plugins/plugin_help.h"
#include <coolbite/family.h>
#include <math.h>
#include <stddef.h>

static const struct bite_family_figure water = {.struct_size =
                                                    (uint32_t)sizeof(struct bite_family_figure),
                                                .name = "water",
                                                .quantity = "fraction",
                                                .summary = "water that the stock holds, by mass",
                                                .least = 0.0,
                                                .most = 0.15};

static const struct bite_family_figure water_in_use = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "water_in_use",
    .quantity = "fraction",
    .summary = "water that the part will hold where it is used, by mass",
    .least = 0.0,
    .most = 0.15};

static const struct bite_family_figure swelling = {.struct_size =
                                                       (uint32_t)sizeof(struct bite_family_figure),
                                                   .name = "swelling",
                                                   .quantity = "plain number",
                                                   .summary = "growth in length / water taken up",
                                                   .least = 0.0,
                                                   .most = 1.0};

/* ---- what water does ---- */

/* From dry (0.2 % of water) to air (2.5 %) the modulus of cast nylon falls from 3.2 to 1.9 GPa (the
 * data sheet of the table), the tensile yield from 90 to 50 MPa: exponentials of the water. Figures
 * of a grade that states no water are those between the two. */
static const double dry_water = 0.002;
static const double air_water = 0.025;
/* Saturated nylon 6 has lost more than 80 % of its dry strength (intechpower.com, effects of
 * moisture absorption). */
static const double saturated_share = 0.2;

static double softening_by(double water_now, double dry, double air, double stated)
{
    double rate = log(dry / air) / (air_water - dry_water);
    return dry * fmax(exp(-rate * (water_now - dry_water)), saturated_share) / stated;
}

/* Its band: the grade itself and the share of water that is not known, instead of dry to moist. */
static const double state_band = 1.15;

static enum bite_family_status scale(const struct bite_host *host, struct bite_grade *grade,
                                     const char *name, double factor)
{
    struct bite_figure figure = host->figure(grade, name);
    if (isnan(figure.value)) {
        return BITE_FAMILY_OK;
    }
    double width = fmin(sqrt(figure.high / figure.low), state_band);
    figure.value *= factor;
    figure.low = figure.value / width;
    figure.high = figure.value * width;
    return host->set(grade, name, &figure,
                     "estimate: of the grade between dry and moist, by its water; 3.2 GPa dry and "
                     "1.9 GPa in air (polyplasty.cz polyamide table), yield 90 and 50 MPa") == 0
               ? BITE_FAMILY_OK
               : BITE_FAMILY_FAULT;
}

/* The strength at the edge scatters more than by water: its band stays as wide as it is. */
static const char by_yield[] = "estimate: of the grade between dry and moist, by the tensile yield "
                               "at its water, 90 MPa dry and 50 MPa in air";

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    static const struct bite_figure in_air = {0.025, 0.015, 0.035};
    static const struct bite_figure grows = {0.3, 0.22, 0.36};
    double now = host->figure(grade, "water").value;
    struct bite_figure unknown = {0.0125, 0.002, 0.025};
    enum bite_family_status status =
        set_usual(host, grade, "water_in_use", &in_air, "memory: in a room of 50 % humidity");
    status = status != BITE_FAMILY_OK
                 ? status
                 : set_usual(host, grade, "swelling", &grows,
                             "datasheet: polyplasty.cz polyamide table, 0.85 % longer at 2.5 % of "
                             "water; less along the flow (memory)");
    if (status != BITE_FAMILY_OK || isnan(now)) { /* anything from dry to moist */
        return status != BITE_FAMILY_OK ? status
                                        : set_usual(host, grade, "water", &unknown,
                                                    "estimate: not stated, between dry and moist");
    }
    double stiff = softening_by(now, 3.2e9, 1.9e9, 2.6e9);
    double strong = softening_by(now, 90e6, 50e6, 70e6);
    status = scale(host, grade, "modulus", stiff);
    status = status != BITE_FAMILY_OK ? status : scale(host, grade, "tensile_yield", strong);
    status = status != BITE_FAMILY_OK
                 ? status
                 : scale_figure(host, grade, "shear_strength", strong, by_yield);
    return status != BITE_FAMILY_OK ? status : scale_figure(host, grade, "yield", strong, by_yield);
}

/* ---- size ---- */

enum { WATER, IN_USE, SWELLING, SPAN, TOLERANCE };
static const char *const growth_numbers[] = {"water",     "water_in_use", "swelling",
                                             "part_span", "tolerance",    NULL};

static enum bite_family_status judge_growth(size_t count, const double *const *numbers,
                                            double *demand, double *capacity)
{
    if (isnan(numbers[SPAN][0]) || isnan(numbers[TOLERANCE][0])) {
        return BITE_FAMILY_NO_DATA;
    }
    for (size_t k = 0; k < count; k++) {
        demand[k] =
            numbers[SWELLING][k] * fabs(numbers[IN_USE][k] - numbers[WATER][k]) * numbers[SPAN][k];
        capacity[k] = numbers[TOLERANCE][k];
    }
    return BITE_FAMILY_OK;
}

/* Advisory: no setting of the machine changes it. */
static const struct bite_family_limit moisture_growth = {
    .struct_size = (uint32_t)sizeof(struct bite_family_limit),
    .advisory = 1,
    .name = "moisture_growth",
    .quantity = "length",
    .summary = "the part stays within its tolerance when it takes up or loses water",
    .equation = "swelling x |water in use - water now| x longest side against the tolerance",
    .source = "datasheet: polyplasty.cz polyamide table, 0.85 % longer at 2.5 % of water",
    .remedy = "Condition the stock to the moisture of its use before the last pass, allow for the "
              "growth, or choose a plastic that takes up less water.",
    .numbers = growth_numbers,
    .judge = judge_growth};

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    if (host->number(judged, "moisture_growth.utilization") > 0.5) {
        return add_care(host, judged, "moisture_growth",
                        "From {water} of water now to {water_in_use} in use the longest side "
                        "changes by {moisture_growth.demand}, of a tolerance of "
                        "{moisture_growth.capacity}. Condition the stock first, or cut to a size "
                        "that allows for it.",
                        "datasheet: polyplasty.cz polyamide table, 0.85 % longer at 2.5 % of "
                        "water");
    }
    return BITE_FAMILY_OK;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family_figure *const figures[] = {&water, &water_in_use, &swelling,
                                                               NULL};
    static const struct bite_family_limit *const limits[] = {&moisture_growth, NULL};
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "nylon",
                                              .table = "nylon.ini",
                                              .fill = fill,
                                              .caution = caution,
                                              .figures = figures,
                                              .limits = limits};
    return &family;
}
