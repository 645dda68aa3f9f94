/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the chip: whether it forms, whether all teeth cut, whether it leaves the flutes and
 * whether it welds to them. */
#include "core/cut/limits_chip.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/heat/chip_recutting.h"
#include "core/physics/heat/softening_time.h"
#include <math.h>

void bite_limit_rubbing(bite_limit_case *limit)
{
    const bite_segment *segment = limit->segment;
    bite_limit_set(limit, segment->value[BITE_CHIP_THICKNESS_LEAST],
                   limit->cut->operation == BITE_CHAMFER ? segment->thin_chip
                                                         : segment->heavy_chip);
}

/* Two neighbouring teeth differ in radius by at most TIR sin(pi/z): the lighter one cuts nothing
 * once that exceeds the feed per tooth. */
void bite_limit_runout(bite_limit_case *limit)
{
    double step = limit->cut->runout * sin(M_PI / limit->cut->flutes);
    bite_limit_set(limit, step, limit->segment->value[BITE_CHIP_LOAD]);
    limit->advisory = 1;
    if (limit->cut->flutes < 2.0) {
        bite_limit_omit(limit, BITE_WHY_ONE_FLUTE);
    }
}

/* Metal chips in a slot that is closed at both ends can only leave upwards, and what falls back is
 * cut again (estimate: between all of the capacity and half of it; no published figure was found).
 * An air blast, mist or flood removes them. */
static const double closed_slot_share = 0.7;

static double slot_share(const bite_cut *cut)
{
    return cut->substance == BITE_METAL && cut->blind == 1 && cut->coolant == BITE_COOLANT_NONE
               ? closed_slot_share
               : 1.0;
}

/* Capacity of the flutes: falls with their number, and rises with a coolant that blows or washes
 * the chips out (estimate: one and two flutes, air and mist are fitted to public reports; flood by
 * what makers of carbide mills rate for slots: as deep as wide with two flutes in aluminium, half
 * of that with four in steel, memory). More than two flutes follow the pocket that a tooth has for
 * its chip: 46, 44, 39 and 36 % of the section, shared among 2, 3, 4 and 5 (memory: sections of
 * makers' end mills are 54, 56 and 61 % full; in a maker's catalogue the pockets of three flutes
 * together are nearly as large as those of two, those of four are small and for shallow slots). */
static double packing_capacity(const bite_cut *cut)
{
    static const double by_flutes[] = {1.0, 0.85, 0.54, 0.36, 0.27};
    static const double by_coolant[] = {1.0, 1.3, 1.4, 2.6};
    int flutes = (int)cut->flutes;
    uint32_t coolant = cut->coolant <= BITE_COOLANT_FLOOD ? cut->coolant : 0;
    return slot_share(cut) * cut->packing_limit * by_flutes[flutes > 5 ? 4 : flutes - 1] *
           by_coolant[coolant];
}

void bite_limit_chip_packing(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    bite_limit_set(limit, limit->segment->packing, packing_capacity(cut));
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
    /* glassy plastics in a blind slot without an air blast: the trouble begins long before the
     * flutes are full */
    if (cut->substance == BITE_AMORPHOUS && cut->coolant == BITE_COOLANT_NONE && cut->blind == 1 &&
        limit->segment->engaged >= 1.0) {
        limit->tight_from = 0.35;
    }
}

/* Growth of a polymer's heat capacity with temperature, 1/K (estimate). */
static const double capacity_growth = 0.0033;

/* Polymers: chips that are cut again in full flutes become tacky, or the tool does. The tool has a
 * second, a chip one turn. */
static void weld_polymer(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    const bite_segment *segment = limit->segment;
    double start = cut->room_temperature;
    double packing = segment->packing / packing_capacity(cut);
    bite_softening_law law = bite_cut_softening(cut);
    bite_recutting_case chips = {
        .rise = segment->chip_rise,
        .packing = isnan(packing) ? 0.0 : packing,
        .again = cut->recutting,
        .cooling = cut->surface_cooling,
        .chip = segment->chip_mean,
        .turns = cut->spindle_speed,
        .volumetric = bite_cut_volumetric_heat(cut),
        .warming = capacity_growth,
    };
    double decades = cut->tack_decades;
    double chip = bite_recutting_rise(&chips);
    double tool = segment->value[BITE_TOOL_TEMPERATURE] - start;
    double chip_room = bite_softening_temperature(&law, 1.0 / cut->spindle_speed, decades) - start;
    double tool_room = bite_softening_temperature(&law, 1.0, decades) - start;
    if (tool * chip_room > chip * tool_room) {
        bite_limit_set(limit, tool, tool_room);
    } else {
        bite_limit_set(limit, chip, chip_room);
    }
}

/* Metals: chips that stay in the flutes of a warm tool, sqrt(packing x warmth). Boards: the
 * temperature of the film under the edge. */
static void weld_other(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    const bite_segment *segment = limit->segment;
    double start = cut->room_temperature;
    double capacity = cut->welding - start;
    if (cut->substance != BITE_METAL) {
        bite_limit_set(limit, segment->value[BITE_FILM_TEMPERATURE] - start, capacity);
        return;
    }
    double warmth = fmax(0.0, segment->value[BITE_TOOL_TEMPERATURE] - start) / capacity;
    double packing = segment->packing / packing_capacity(cut);
    bite_limit_set(limit, capacity * sqrt(packing * warmth), capacity);
}

void bite_limit_chip_weld(bite_limit_case *limit)
{
    uint32_t substance = limit->cut->substance;
    if (substance == BITE_AMORPHOUS || substance == BITE_CRYSTALLINE) {
        weld_polymer(limit);
        bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
    } else if (isnan(limit->cut->welding)) {
        bite_limit_omit(limit, BITE_WHY_DOES_NOT_WELD);
        return;
    } else {
        weld_other(limit);
    }
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
}
