/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Magnesium: what its table cannot state. Its figures are in tables/materials/magnesium.ini.
 *
 * A chip that comes near its temperature of ignition may light, and fines light from far less: by
 * how much metal a chip holds, not by its thickness alone. */
#include "plugins/chip_size.h"
#include "plugins/plugin_help.h"
#include <coolbite/family.h>
#include <math.h>
#include <stddef.h>

static const struct bite_family_figure ignition = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "ignition",
    .quantity = "temperature",
    .summary = "temperature at which chips light in air",
    .least = 500.0,
    .most = 1300.0};

static const struct bite_family_figure fine_size = {
    .struct_size = (uint32_t)sizeof(struct bite_family_figure),
    .name = "fine_size",
    .quantity = "length",
    .summary = "mean diameter below which particles count as dust, not as chips",
    .least = 10e-6,
    .most = 5e-3};

enum { IGNITION, CHIP, ROOM };
static const char *const ignition_numbers[] = {"ignition", "chip_temperature", "room_temperature",
                                               NULL};

static enum bite_family_status judge_ignition(size_t count, const double *const *numbers,
                                              double *demand, double *capacity)
{
    for (size_t k = 0; k < count; k++) {
        demand[k] = fmax(numbers[CHIP][k] - numbers[ROOM][k], 0.0);
        capacity[k] = numbers[IGNITION][k] - numbers[ROOM][k];
    }
    return !isnan(numbers[CHIP][0]) ? BITE_FAMILY_OK : BITE_FAMILY_NO_DATA;
}

static const struct bite_family_limit chip_ignition = {
    .struct_size = (uint32_t)sizeof(struct bite_family_limit),
    .name = "chip_ignition",
    .quantity = "temperature rise",
    .summary = "chips stay well below the temperature at which they light",
    .equation = "rise of the chip against the rise to its ignition",
    .source = "estimate: mean temperature of a chip that is cut once; a rubbing edge is hotter",
    .remedy = "Reduce the spindle speed, take thicker chips with a sharp edge, or stop: a fire of "
              "magnesium cannot be put out with water.",
    .numbers = ignition_numbers,
    .judge = judge_ignition};

enum { FINE, THICKNESS, DEPTH, DIAMETER, ARC, MILLS };
static const char *const fines_numbers[] = {
    "fine_size", "chip_thickness_mean", "depth", "diameter", "engagement", "operation:mill", NULL};

static enum bite_family_status judge_fines(size_t count, const double *const *numbers,
                                           double *demand, double *capacity)
{
    if (!(numbers[MILLS][0] > 0.0)) {
        return BITE_FAMILY_NO_DATA;
    }
    for (size_t k = 0; k < count; k++) {
        demand[k] = numbers[FINE][k];
        capacity[k] = chip_ball(numbers[THICKNESS][k], numbers[DEPTH][k], numbers[DIAMETER][k],
                                numbers[ARC][k]);
    }
    return BITE_FAMILY_OK;
}

/* Advisory: small tools make nothing else; what counts is that the dust is treated as such. */
static const struct bite_family_limit chip_fines = {
    .struct_size = (uint32_t)sizeof(struct bite_family_limit),
    .advisory = 1,
    .name = "chip_fines",
    .quantity = "length",
    .summary = "chips are large enough not to count as dust",
    .equation = "fine_size against (6 h ap l/pi)^(1/3), l = D/2 x arc of contact",
    .source = "standard: DGUV Information 209-090, particles of more than 500 um on average are "
              "chips, which do not explode when they are whirled up",
    .remedy = "Take thicker, wider or longer chips: more feed per tooth, more depth or width.",
    .numbers = fines_numbers,
    .judge = judge_fines};

/* Of grades of other tables: the cautious ends. */
static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    static const struct bite_figure lights = {703.15, 683.15, 833.15};
    static const struct bite_figure dust = {500e-6, 300e-6, 700e-6};
    enum bite_family_status status =
        set_usual(host, grade, "ignition", &lights, "estimate: as AZ31B, the cautious end");
    return status == BITE_FAMILY_OK
               ? set_usual(host, grade, "fine_size", &dust, "standard: DGUV Information 209-090")
               : status;
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    int refused = 0;
    if (host->number(judged, "chip_ignition.utilization") > 0.7) {
        refused |= host->caution(
            judged, "chip_ignition", BITE_DANGER,
            "Chips reach {chip_temperature} and light near {ignition}: cut slower, with a sharp "
            "edge, and do not start this cut without a class D extinguisher or dry sand at hand. "
            "The machine manual, the safety data sheet and local fire rules take precedence.",
            "estimate: mean temperature of a chip that is cut once");
    }
    if (host->number(judged, "chip_fines.utilization") > 1.0) {
        refused |= host->caution(
            judged, "dust", BITE_DANGER,
            "A chip holds as much metal as a ball of {chip_fines.capacity}: that is dust, which "
            "lights from a spark and explodes when it is whirled up. Do not blow it about or use a "
            "vacuum that is not rated for it, and clear it often. The safety data sheet and local "
            "fire rules take precedence.",
            "standard: DGUV Information 209-090, particles up to 500 um on average");
    }
    if (host->number(judged, "chip_ignition.utilization") > 0.5 &&
        (choice_is(host, judged, "coolant", "mist") ||
         choice_is(host, judged, "coolant", "flood"))) {
        refused |= host->caution(
            judged, "hydrogen", BITE_DANGER,
            "Chips of {chip_temperature} in a water-based coolant give off hydrogen the faster: "
            "cut dry or with air, extract the air, and keep ignition sources away. The machine "
            "manual, the safety data sheet and local fire rules take precedence.",
            "standard: DGUV Information 209-090, hydrogen from water-miscible coolants");
    }
    return refused == 0 ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family_figure *const figures[] = {&ignition, &fine_size, NULL};
    static const struct bite_family_limit *const limits[] = {&chip_ignition, &chip_fines, NULL};
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "magnesium",
                                              .table = "magnesium.ini",
                                              .fill = fill,
                                              .caution = caution,
                                              .figures = figures,
                                              .limits = limits};
    return &family;
}
