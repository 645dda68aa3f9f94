/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the chip: whether it forms, whether all teeth cut, whether it leaves the flutes and
 * whether it welds to them. */
#include "core/cut/limits_chip.h"
#include "core/cut/block/softening_law.h"
#include "core/cut/entry_move.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/heat/chip_recutting.h"
#include <math.h>
#include <string.h>

/* A skin that the previous tooth has hardened requires a chip that is thicker by this share
 * (estimate). */
static const double hardened_share = 0.7;

/* If the chip is thinner than a share of the edge radius, the edge ploughs instead of cutting: the
 * thrust exceeds the cutting force at about one radius (James and others 2014). */
BITE_IN_LANES void bite_limit_rubbing(const bite_block *block, const bite_block_segment *segment,
                                      double *restrict demand, double *restrict capacity)
{
    const double *share = BITE_ROW(block, rub_share);
    const double *hardening = BITE_ROW(block, hardening);
    const double *chip =
        block->cut->operation == BITE_CHAMFER ? segment->thin_chip : segment->heavy_chip;
    BITE_EACH_LANE(k, block)
    {
        demand[k] = share[k] * segment->edge_radius[k] * (1.0 + hardened_share * hardening[k]);
        capacity[k] = chip[k];
    }
}

/* Runout that breaks a tool, since one tooth cuts everything. A tool of one flute withstands twice
 * as much. */
BITE_IN_LANES void bite_limit_runout(const bite_block *block, const bite_block_segment *segment,
                                     double *restrict demand, double *restrict capacity)
{
    const double *runout = BITE_ROW(block, runout);
    const double *share = BITE_ROW(block, runout_share);
    const double *diameter = BITE_ROW(block, diameter);
    double more = block->flutes < 2 ? 2.0 : 1.0;
    (void)segment;
    BITE_EACH_LANE(k, block)
    {
        demand[k] = runout[k];
        capacity[k] = more * share[k] * diameter[k];
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

/* The depth that flutes clear falls with their number, since they share the section; for short
 * chips and dust with the root of that share. For more than two it is proportional to the pocket
 * that a tooth has for its chip: 46, 44, 39 and 36 % of the section, shared among 2, 3, 4 and 5
 * (memory: sections of makers' end mills). */
static double flutes_share(const bite_cut *cut, int flutes)
{
    static const double by_flutes[] = {1.0, 0.85, 0.54, 0.36, 0.27};
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

/* Utilization of the path of the chips out of the slot. */
BITE_FORMULA void fill_path_out(const bite_block *block, const bite_block_segment *segment,
                                double *restrict packed)
{
    const bite_cut *cut = block->cut;
    const double *share = BITE_ROW(block, packing_share);
    const double *limit = BITE_ROW(block, packing_limit);
    /* of taps and reamers the depth that they clear is stated as a whole, whatever their flutes */
    int whole = cut->operation == BITE_TAP || cut->operation == BITE_REAM;
    double flutes = whole ? 1.0 : flutes_share(cut, block->flutes);
    double left = (whole ? 1.0 : slot_share(cut)) * flutes * coolant_share(cut);
    BITE_EACH_LANE(k, block)
    {
        packed[k] = segment->packing[k] / (share[k] * limit[k] * left);
    }
}

/* The larger utilization: of the path of the chips out of the slot, or, in metals, of the tooth's
 * pocket. */
BITE_FORMULA void fill_packed(const bite_block *block, const bite_block_segment *segment,
                              double *restrict packed)
{
    const double *share = BITE_ROW(block, packing_share);
    fill_path_out(block, segment, packed);
    if (block->cut->substance != BITE_METAL || block->cut->operation != BITE_MILL) {
        return;
    }
    BITE_EACH_LANE(k, block)
    {
        double path_out = packed[k];
        double pocket = segment->pocket[k] / share[k];
        int out = (path_out >= pocket) | (path_out != path_out);
        packed[k] = out ? path_out : pocket;
    }
}

BITE_IN_LANES void bite_limit_chip_packing(const bite_block *block,
                                           const bite_block_segment *segment,
                                           double *restrict demand, double *restrict capacity)
{
    fill_packed(block, segment, demand);
    BITE_EACH_LANE(k, block)
    {
        capacity[k] = 1.0;
    }
}

/* Growth of a polymer's heat capacity with temperature, 1/K (estimate). */
static const double capacity_growth = 0.0033;

/* The heat capacity at the start temperature, J/(kg K). */
static void fill_heat_capacity(const bite_block *block, double *restrict heat_capacity)
{
    const bite_curve *curve = &block->cut->heat_capacity_curve;
    const double *room = BITE_ROW(block, room_temperature);
    const double *plain = BITE_ROW(block, heat_capacity);
    if (curve->count == 0) {
        memcpy(heat_capacity, plain, sizeof(bite_lanes));
        return;
    }
    for (int k = 0; k < block->lanes; k++) {
        heat_capacity[k] = bite_curve_at(curve, room[k], plain[k]);
    }
}

BITE_FORMULA double recutting_rise(const bite_block *block, const bite_block_segment *segment,
                                   int k, double packing, double heat_capacity)
{
    bite_recutting_case chips = {
        .rise = segment->chip_rise[k],
        .packing = bite_or(packing, 0.0),
        .again = BITE_ROW(block, recutting)[k],
        .cooling = BITE_ROW(block, surface_cooling)[k],
        .chip = segment->chip_mean[k],
        .turns = BITE_ROW(block, spindle_speed)[k],
        .volumetric = BITE_ROW(block, density)[k] * heat_capacity,
        .warming = capacity_growth,
    };
    return bite_recutting_rise(&chips);
}

/* Polymers: chips that are cut again in full flutes become tacky, or the tool does. The tool is
 * assumed to be in contact for a second, a chip for one turn. */
BITE_FORMULA void weld_polymer(const bite_block *block, const bite_block_segment *segment,
                               double *restrict demand, double *restrict capacity)
{
    const double *room = BITE_ROW(block, room_temperature);
    const double *speed = BITE_ROW(block, spindle_speed);
    const double *tack = BITE_ROW(block, tack_decades);
    bite_lanes packed;
    bite_lanes heat_capacity;
    bite_lanes turn;
    bite_lanes second;
    bite_lanes chip_tacky;
    bite_lanes tool_tacky;
    fill_packed(block, segment, packed);
    fill_heat_capacity(block, heat_capacity);
    BITE_EACH_LANE(k, block)
    {
        turn[k] = 1.0 / speed[k];
        second[k] = 1.0;
    }
    bite_block_fill_flow(block, turn, tack, chip_tacky);
    bite_block_fill_flow(block, second, tack, tool_tacky);
    BITE_EACH_LANE(k, block)
    {
        double chip = recutting_rise(block, segment, k, packed[k], heat_capacity[k]);
        double tool = segment->value[BITE_TOOL_TEMPERATURE][k] - room[k];
        double chip_margin = chip_tacky[k] - room[k];
        double tool_margin = tool_tacky[k] - room[k];
        int of_tool = tool * chip_margin > chip * tool_margin;
        demand[k] = of_tool ? tool : chip;
        capacity[k] = of_tool ? tool_margin : chip_margin;
    }
}

/* Metals: chips that stay in the flutes of a warm tool, sqrt(packing x warmth). */
BITE_FORMULA void weld_metal(const bite_block *block, const bite_block_segment *segment,
                             double *restrict demand, double *restrict capacity)
{
    const double *room = BITE_ROW(block, room_temperature);
    const double *welding = BITE_ROW(block, welding);
    bite_lanes packed;
    fill_packed(block, segment, packed);
    BITE_EACH_LANE(k, block)
    {
        double margin = welding[k] - room[k];
        double tool = segment->value[BITE_TOOL_TEMPERATURE][k] - room[k];
        double warmth = bite_larger(tool, 0.0) / margin;
        demand[k] = margin * sqrt(packed[k] * warmth);
        capacity[k] = margin;
    }
}

/* Boards: the temperature of the film under the edge. */
BITE_FORMULA void weld_board(const bite_block *block, const bite_block_segment *segment,
                             double *restrict demand, double *restrict capacity)
{
    const double *room = BITE_ROW(block, room_temperature);
    const double *welding = BITE_ROW(block, welding);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->value[BITE_FILM_TEMPERATURE][k] - room[k];
        capacity[k] = welding[k] - room[k];
    }
}

BITE_IN_LANES void bite_limit_chip_weld(const bite_block *block, const bite_block_segment *segment,
                                        double *restrict demand, double *restrict capacity)
{
    if (bite_block_is_polymer(block)) {
        weld_polymer(block, segment, demand, capacity);
    } else if (block->cut->substance == BITE_METAL) {
        weld_metal(block, segment, demand, capacity);
    } else {
        weld_board(block, segment, demand, capacity);
    }
}

bite_why bite_limit_chip_weld_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    return bite_block_is_polymer(block) || bite_is_given(BITE_ROW(block, welding))
               ? BITE_WHY_APPLIES
               : BITE_WHY_DOES_NOT_WELD;
}

/* Margin over published chip loads: all reports but one are within it. */
static const double chart_margin = 1.5;

/* Advisory, for a feed that the user sets; a choice stays within the charts. */
BITE_IN_LANES void bite_limit_unproven(const bite_block *block, const bite_block_segment *segment,
                                       double *restrict demand, double *restrict capacity)
{
    const double *chip = BITE_ROW(block, charted_chip);
    const double *exponent = BITE_ROW(block, charted_exponent);
    const double *diameter = BITE_ROW(block, diameter);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->value[BITE_CHIP_LOAD][k];
        capacity[k] = chart_margin *
                      bite_charted_feed(chip[k], exponent[k], diameter[k], (double)block->flutes);
    }
}

bite_why bite_limit_unproven_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    return bite_is_given(BITE_ROW(block, charted_chip)) ? BITE_WHY_APPLIES : BITE_WHY_NO_DATA;
}

/* Small tools break on their way down: reports have broken ones at half of the side feed and above,
 * and whole ones at a tenth and a quarter of it. Advisory. */
BITE_IN_LANES void bite_limit_plunge_feed(const bite_block *block,
                                          const bite_block_segment *segment,
                                          double *restrict demand, double *restrict capacity)
{
    const double *given = BITE_ROW(block, entry_feed);
    const double *feed = BITE_ROW(block, feed_rate);
    const double *share = BITE_ROW(block, plunge_share);
    (void)segment;
    BITE_EACH_LANE(k, block)
    {
        demand[k] = bite_entry_feed_of(given[k], feed[k], 1);
        capacity[k] = share[k] * feed[k];
    }
}

bite_why bite_limit_plunge_feed_omit(const bite_block *block, const bite_block_segment *segment)
{
    (void)segment;
    return block->cut->entry == BITE_ENTRY_PLUNGE ? BITE_WHY_APPLIES : BITE_WHY_NOT_GIVEN;
}
