/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Wood: what its table cannot state. Its figures are in tables/materials/wood.ini.
 *
 * Solid wood is cut with several times the force across its grain than along it, and against the
 * grain it splits below the edge. A grade in a state (`state = along`, `across`) states the angle
 * between feed and grain; without one any angle may come, as in a pocket. */
#include "plugins/plugin_help.h"
#include <coolbite/family.h>
#include <math.h>
#include <stddef.h>

static const struct bite_family_figure grain_angle = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "grain_angle",
    .quantity = "angle",
    .summary = "angle between feed and grain",
    .least = 0.0,
    .most = 1.5708};

static const struct bite_family_figure grain_ratio = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "grain_ratio",
    .quantity = "plain number",
    .summary = "cutting force across the grain, through its fibres / along it; 1 for boards",
    .least = 1.0,
    .most = 6.0};

static const struct bite_family_figure tear_chip = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "tear_chip",
    .quantity = "length",
    .summary = "chip thickness from which wood splits below the edge at the worst angle",
    .least = 10e-6,
    .most = 2e-3};

/* ---- force ---- */

/* Hankinson's formula, as it is used of strengths at an angle to the grain: of the force along it,
 * P, and across it, Q. */
static double force_at(double angle, double ratio)
{
    double across = sin(angle) * sin(angle);
    return ratio / (ratio * (1.0 - across) + across);
}

/* Its mean over all angles, which the figures of a grade without a direction are: the integral of
 * 1/(Q cos^2 + P sin^2) over a quarter of a turn is pi/(2 sqrt(P Q)). */
static double mean_force(double ratio)
{
    return sqrt(ratio);
}

static const char by_angle[] =
    "estimate: of the grade in all directions, by Hankinson's formula at "
    "its angle to the grain";

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    static const struct bite_figure solid = {2.5, 1.7, 3.5};
    static const struct bite_figure tears = {0.25e-3, 0.1e-3, 0.5e-3};
    struct bite_figure angle = host->figure(grade, "grain_angle");
    struct bite_figure ratio = host->figure(grade, "grain_ratio");
    enum bite_family_status status =
        set_usual(host, grade, "tear_chip", &tears, "estimate: fine finishing passes of joiners");
    if (status != BITE_FAMILY_OK || isnan(angle.value)) {
        return status;
    }
    ratio = isnan(ratio.value) ? solid : ratio;
    double factor = force_at(angle.value, ratio.value) / mean_force(ratio.value);
    status = scale_figure(host, grade, "shear_strength", factor, by_angle);
    return status != BITE_FAMILY_OK
               ? status
               : scale_figure(host, grade, "fracture_energy", factor, by_angle);
}

/* ---- tear-out ---- */

enum { TEAR, ANGLE, RATIO, CHIP, CONVENTIONAL, MILLS };
static const char *const tear_numbers[] = {
    "tear_chip",         "grain_angle",    "grain_ratio", "chip_thickness_max",
    "side:conventional", "operation:mill", NULL};

/* How much the chip may be thicker at an angle than at the worst one, 45 degrees against the grain,
 * where the fibres lead the crack into the part. Climbing, the tooth enters with its thickest chip
 * and leaves thin at the finished wall; the other way it lifts the fibres there. */
static const double harmless = 4.0;
static const double lifted = 0.6;

static enum bite_family_status judge_tear(size_t count, const double *const *numbers,
                                          double *demand, double *capacity)
{
    double side = numbers[CONVENTIONAL][0] > 0.0 ? lifted : 1.0;
    if (!(numbers[MILLS][0] > 0.0) || numbers[RATIO][0] <= 1.0) { /* a board has no grain */
        return BITE_FAMILY_NO_DATA;
    }
    for (size_t k = 0; k < count; k++) {
        double angle = numbers[ANGLE][k];
        double worst = isnan(angle) ? 1.0 : fabs(sin(2.0 * angle));
        demand[k] = numbers[CHIP][k];
        capacity[k] = side * numbers[TEAR][k] * (harmless + (1.0 - harmless) * worst);
    }
    return BITE_FAMILY_OK;
}

/* Advisory: it spoils the surface of a pass that another one may finish. */
static const struct bite_family_limit tear_out = {
    .struct_size = (uint32_t)sizeof(struct bite_family_limit),
    .advisory = 1,
    .name = "tear_out",
    .quantity = "length",
    .summary = "the wood does not split below the finished surface",
    .equation = "largest chip against tear_chip (4 - 3 |sin 2a|), x 0.6 if milled conventionally",
    .source = "estimate: joiners plane against the grain with shavings of a tenth of a millimetre; "
              "the grain decides the strain that splits wood ahead of the edge: paper of 2019, J. "
              "Wood Sci., doi 10.1186/s10086-019-1824-2 (abstract read)",
    .remedy =
        "Climb mill, take thinner chips in the last pass, turn the part so that the feed runs "
        "along or across the grain, or score the line first.",
    .numbers = tear_numbers,
    .judge = judge_tear};

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    if (host->number(judged, "tear_out.utilization") > 1.0) {
        return add_care(host, judged, "tear_out",
                        "Chips of {chip_thickness_max} split this wood below the surface from "
                        "{tear_out.capacity} on where the grain rises towards the edge: leave "
                        "stock for a climbing last pass with thinner chips.",
                        "estimate: joiners plane against the grain with shavings of a tenth of a "
                        "millimetre");
    }
    return BITE_FAMILY_OK;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family_figure *const figures[] = {&grain_angle, &grain_ratio,
                                                               &tear_chip, NULL};
    static const struct bite_family_limit *const limits[] = {&tear_out, NULL};
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "wood",
                                              .table = "wood.ini",
                                              .fill = fill,
                                              .caution = caution,
                                              .figures = figures,
                                              .limits = limits};
    return &family;
}
