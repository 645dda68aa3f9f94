/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Titanium: what its table cannot state. Its figures are in tables/materials/titanium.ini.
 *
 * Hot titanium takes up oxygen: the skin becomes brittle (alpha case). Its chips light, thin ones
 * from far lower temperatures than thick ones, whose middle takes the heat of the skin. */
#include "plugins/plugin_help.h"
#include <coolbite/family.h>
#include <math.h>
#include <stddef.h>

static const struct bite_family_figure oxidizing = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "oxidizing",
    .quantity = "temperature",
    .summary = "temperature from which the surface takes up oxygen within seconds",
    .least = 500.0,
    .most = 1300.0};

static const struct bite_family_figure ignition = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "ignition",
    .quantity = "temperature",
    .summary = "temperature at which fine chips light in air",
    .least = 500.0,
    .most = 1900.0};

static const struct bite_family_figure fine_chip = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "fine_chip",
    .quantity = "length",
    .summary = "thickness of a chip that lights halfway between fines and solid metal",
    .least = 1e-6,
    .most = 1e-3};

enum { OXIDIZING, SURFACE, ROOM };
static const char *const case_numbers[] = {"oxidizing", "surface_temperature", "room_temperature",
                                           NULL};

static enum bite_family_status judge_case(size_t count, const double *const *numbers,
                                          double *demand, double *capacity)
{
    if (isnan(numbers[SURFACE][0])) {
        return BITE_FAMILY_NO_DATA;
    }
    for (size_t k = 0; k < count; k++) {
        demand[k] = fmax(numbers[SURFACE][k] - numbers[ROOM][k], 0.0);
        capacity[k] = numbers[OXIDIZING][k] - numbers[ROOM][k];
    }
    return BITE_FAMILY_OK;
}

static const struct bite_family_limit alpha_case = {
    .struct_size = (uint32_t)sizeof(struct bite_family_limit),
    .advisory = 1,
    .name = "alpha_case",
    .quantity = "temperature rise",
    .summary = "the finished surface stays too cool to take up oxygen",
    .equation = "sustained rise of wall or floor against the rise to oxidizing",
    .source = "memory: titanium is kept below about 540 degC in air, above which alpha case grows",
    .remedy = "Reduce the spindle speed, flood the cut, or use a sharper edge; leave stock for a "
              "cool finishing pass.",
    .numbers = case_numbers,
    .judge = judge_case};

enum { IGNITION, MELTING, FINE, THICKNESS, CHIP, AMBIENT };
static const char *const fire_numbers[] = {
    "ignition",         "melting",          "fine_chip", "chip_thickness_mean",
    "chip_temperature", "room_temperature", NULL};

/* A chip lights at its surface if its middle does not cool it: from ignition of fines to melting of
 * solid metal, by its thickness. */
static enum bite_family_status judge_fire(size_t count, const double *const *numbers,
                                          double *demand, double *capacity)
{
    if (isnan(numbers[CHIP][0])) {
        return BITE_FAMILY_NO_DATA;
    }
    for (size_t k = 0; k < count; k++) {
        double solid = numbers[THICKNESS][k] / (numbers[THICKNESS][k] + numbers[FINE][k]);
        double lights = numbers[IGNITION][k] + solid * (numbers[MELTING][k] - numbers[IGNITION][k]);
        demand[k] = fmax(numbers[CHIP][k] - numbers[AMBIENT][k], 0.0);
        capacity[k] = lights - numbers[AMBIENT][k];
    }
    return BITE_FAMILY_OK;
}

static const struct bite_family_limit chip_ignition = {
    .struct_size = (uint32_t)sizeof(struct bite_family_limit),
    .advisory = 1,
    .name = "chip_ignition",
    .quantity = "temperature rise",
    .summary = "chips stay below the temperature at which chips of their thickness light",
    .equation =
        "rise of the chip against that to ignition + (melting - ignition) h/(h + fine_chip)",
    .source = "estimate: fines light far below the melting point and solid metal near it; between "
              "them by thickness, a judgement",
    .remedy = "Reduce the spindle speed, flood the cut, and take thicker chips with a sharp edge.",
    .numbers = fire_numbers,
    .judge = judge_fire};

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    int refused = 0;
    if (host->number(judged, "chip_ignition.utilization") > 0.9) {
        refused |= host->caution(
            judged, "chip_fire", BITE_DANGER,
            "Chips of {chip_thickness_mean} come off at {chip_temperature} and may light: flood "
            "the cut, cut slower and thicker, clear chips while you can still reach them, and keep "
            "a class D extinguisher at hand. The machine manual, the safety data sheet and local "
            "fire rules take precedence.",
            "estimate: mean temperature of a chip that is cut once");
    }
    if (host->number(judged, "alpha_case.utilization") > 1.0) {
        refused |= host->caution(
            judged, "alpha_case", BITE_CARE,
            "The surface stays near {surface_temperature} for {surface_dwell}; above {oxidizing} "
            "titanium takes up oxygen and its skin turns brittle. Blue or straw colours show it: "
            "remove them by a cool pass or by pickling where fatigue matters.",
            "memory: alpha case grows in air above about 540 degC");
    }
    return refused == 0 ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
}

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    static const struct usual {
        const char *name;
        struct bite_figure figure;
        const char *source;
    } usual[] = {
        {"oxidizing", {813.15, 753.15, 873.15}, "memory: about 540 degC"},
        {"ignition", {873.15, 753.15, 1073.15}, "estimate: between sponge and solid metal"},
        {"fine_chip", {20e-6, 8e-6, 50e-6}, "estimate: chips that hardly hold heat"}};
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        if (set_usual(host, grade, usual[i].name, &usual[i].figure, usual[i].source) !=
            BITE_FAMILY_OK) {
            return BITE_FAMILY_FAULT;
        }
    }
    return BITE_FAMILY_OK;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family_figure *const figures[] = {&oxidizing, &ignition, &fine_chip,
                                                               NULL};
    static const struct bite_family_limit *const limits[] = {&alpha_case, &chip_ignition, NULL};
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "titanium",
                                              .table = "titanium.ini",
                                              .fill = fill,
                                              .caution = caution,
                                              .figures = figures,
                                              .limits = limits};
    return &family;
}
