/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the chip: whether it forms, whether all teeth cut, whether it leaves the flutes and
 * whether it welds to them. */
#include "core/cut/limits_chip.h"
#include "core/cut/entry_move.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/heat/chip_recutting.h"
#include "core/physics/heat/softening_time.h"
#include <math.h>

/* A skin that the previous tooth has hardened requires a chip that is thicker by this share
 * (estimate). */
static const double hardened_share = 0.7;

/* If the chip is thinner than a share of the edge radius, the edge ploughs instead of cutting: the
 * thrust exceeds the cutting force at about one radius (James and others 2014). */
void bite_limit_rubbing(bite_limit_case *limit)
{
    const bite_segment *segment = limit->segment;
    const bite_cut *cut = limit->cut;
    double least =
        cut->rub_share * bite_cut_edge_radius(cut) * (1.0 + hardened_share * cut->hardening);
    bite_limit_set(limit, least,
                   cut->operation == BITE_CHAMFER ? segment->thin_chip : segment->heavy_chip);
}

/* Runout that breaks a tool, since one tooth cuts everything. A tool of one flute withstands twice
 * as much. */
void bite_limit_runout(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    double more = cut->flutes < 2.0 ? 2.0 : 1.0;
    bite_limit_set(limit, cut->runout, more * cut->runout_share * cut->diameter);
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

/* The depth that flutes clear falls with their number, since they share the section; for short
 * chips and dust with the root of that share. For more than two it is proportional to the pocket
 * that a tooth has for its chip: 46, 44, 39 and 36 % of the section, shared among 2, 3, 4 and 5
 * (memory: sections of makers' end mills). */
static double flutes_share(const bite_cut *cut)
{
    static const double by_flutes[] = {1.0, 0.85, 0.54, 0.36, 0.27};
    int flutes = (int)cut->flutes;
    double share = by_flutes[flutes > 5 ? 4 : flutes - 1];
    return cut->chip_form >= BITE_CHIP_SHORT ? sqrt(share) : share;
}

/* Factor on that depth for a coolant, which blows or washes the chips out (estimate: charts for
 * metals, whose recommended depths are the 5 % end of this limit; public reports for plastics). */
static double coolant_share(const bite_cut *cut)
{
    static const double of_metals[] = {1.0, 2.6, 3.0, 4.5};
    static const double of_others[] = {1.0, 1.3, 1.4, 2.6};
    uint32_t coolant = cut->coolant <= BITE_COOLANT_FLOOD ? cut->coolant : 0;
    return cut->substance == BITE_METAL ? of_metals[coolant] : of_others[coolant];
}

static double packing_capacity(const bite_cut *cut)
{
    return cut->packing_share * slot_share(cut) * cut->packing_limit * flutes_share(cut) *
           coolant_share(cut);
}

/* The larger utilization: of the path of the chips out of the slot, or of the tooth's pocket. */
static double packed(const bite_limit_case *limit)
{
    double path_out = limit->segment->packing / packing_capacity(limit->cut);
    int metal = limit->cut->substance == BITE_METAL && limit->cut->operation == BITE_MILL;
    double pocket = metal ? limit->segment->pocket / limit->cut->packing_share : 0.0;
    return path_out >= pocket || isnan(path_out) ? path_out : pocket;
}

void bite_limit_chip_packing(bite_limit_case *limit)
{
    bite_limit_set(limit, packed(limit), 1.0);
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
}

/* Growth of a polymer's heat capacity with temperature, 1/K (estimate). */
static const double capacity_growth = 0.0033;

/* Polymers: chips that are cut again in full flutes become tacky, or the tool does. The tool is
 * assumed to be in contact for a second, a chip for one turn. */
static void weld_polymer(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    const bite_segment *segment = limit->segment;
    double start = cut->room_temperature;
    double packing = packed(limit);
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
    double chip_margin =
        bite_softening_temperature(&law, 1.0 / cut->spindle_speed, decades) - start;
    double tool_margin = bite_softening_temperature(&law, 1.0, decades) - start;
    if (tool * chip_margin > chip * tool_margin) {
        bite_limit_set(limit, tool, tool_margin);
    } else {
        bite_limit_set(limit, chip, chip_margin);
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
    double packing = packed(limit);
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

/* Margin over published chip loads: all reports but one are within it. */
static const double chart_margin = 1.5;

/* Advisory, for a feed that the user sets; a choice stays within the charts. */
void bite_limit_unproven(bite_limit_case *limit)
{
    limit->advisory = 1;
    bite_limit_set(limit, limit->segment->value[BITE_CHIP_LOAD],
                   chart_margin * bite_cut_charted_feed(limit->cut));
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
}

/* Small tools break on their way down: reports have broken ones at half of the side feed and above,
 * and whole ones at a tenth and a quarter of it. Advisory. */
void bite_limit_plunge_feed(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    limit->advisory = 1;
    bite_limit_set(limit, bite_entry_feed(cut), cut->plunge_share * cut->feed_rate);
    if (cut->entry != BITE_ENTRY_PLUNGE) {
        bite_limit_omit(limit, BITE_WHY_NOT_GIVEN);
    }
}
