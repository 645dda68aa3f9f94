/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The remarks of a plan in words. */
#include "core/report/job/remark_text.h"
#include "core/base/display_text.h"
#include "core/base/number.h"
#include "core/base/text.h"
#include "core/job/plan_text.h"
#include "core/job/remarks.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define AND_CHANCE "{2} of the capacity[, with a chance of {3} of failing]. "

static const char *const templates[BITE_REMARK_COUNT] = {
    [BITE_REMARK_CAUTION] = "{0}",
    [BITE_REMARK_CAUTION_OF_PASS] = "In \"{0}\": {1}",
    [BITE_REMARK_FLAMMABLE] =
        "{0} is flammable: no sparks or hot chips, ventilate, use only a little at a time, and "
        "keep used rags in a closed metal bin. The safety data sheet takes precedence over this "
        "plan.",
    [BITE_REMARK_SPINDLE_SPEED] =
        "High spindle speed: a tool that breaks or comes loose is thrown out. Keep the guard "
        "closed and the collet and nut clean and tight, and stay below the speed marked on the "
        "tool and the nut. The machine's manual takes precedence over this plan.",
    [BITE_REMARK_CYANOACRYLATE] =
        "Cyanoacrylate bonds skin and eyes at once, and its vapour irritates: ventilate, and wear "
        "eye protection and gloves that do not absorb it. The safety data sheet takes precedence "
        "over this plan.",
    [BITE_REMARK_MIST] =
        "Cutting-fluid mist is harmful to breathe: enclose the machine and extract the air, keep "
        "the fluid off your skin, and use no more of it than is needed. The safety data sheet and "
        "local rules take precedence over this plan.",
    [BITE_REMARK_AIR_AND_NOISE] =
        "Use blow-off air at no more than 2 bar at the nozzle, and never on skin. Wear hearing "
        "protection where you have to raise your voice. The machine's manual, the safety data "
        "sheets and local rules take precedence over this plan.",
    [BITE_REMARK_DEFAULTS] = "Defaults used: {0}.",
    [BITE_REMARK_SHEET_AS_SUPPLIED] =
        "Both faces are left as supplied: the part will be {0} to {1} thick, depending on the "
        "sheet. Measure the sheet at five places before the first cut, or skim it.",
    [BITE_REMARK_SHEET_SHORT] =
        "The sheet may be only {0} thick, {1} less than the {2} of the part and what is skimmed: "
        "its faces are not cleaned up there[, and the part is {3} too thin]. Use a thicker sheet, "
        "or measure this one.",
    [BITE_REMARK_NO_SHEET_THICKNESS] =
        "No sheet thickness in the tables is certain to contain {0}; the thickness was taken as "
        "exact. State nominal, or measure the sheet.",
    [BITE_REMARK_NO_FACING_PASS] =
        "The faces are to be skimmed, but no pass does so (work = face): the part stays as thick "
        "as the sheet.",
    [BITE_REMARK_NO_SHEET_TABLE] =
        "The tables have no sheet of this material; its thickness was taken as exact. Measure it.",
    [BITE_REMARK_PARTING] = "{0}",
    [BITE_REMARK_PARTING_UNKNOWN] =
        "Nothing is known here about parting {0} by {1}: ask the supplier.",
    [BITE_REMARK_FILM] =
        "The protective film is on. Peel it off wherever a tool cuts, because it winds around the "
        "cutter and holds heat, and off the bonded face, because a bond to film is only as good "
        "as the film's own. Keep it on for sawing and handling.",
    [BITE_REMARK_GAP_NARROW] =
        "\"{0}\" sweeps {1} beyond the edge of its part, and the neighbour is {2} away: it cuts "
        "{3} "
        "into the neighbouring parts. Leave gap out to have it chosen, or use a smaller tool.",
    [BITE_REMARK_NO_FRAME] =
        "The slots of \"{0}\" round two neighbours are {1} wide together, and the parts are {2} "
        "apart: no frame is left between them for the tabs. Leave gap out to have it chosen.",
    [BITE_REMARK_SLOTS_MEET] =
        "The slots of \"{0}\" round two neighbours are {1} wide together, and the parts are {2} "
        "apart: no web is left between them, and the second part is cut beside an open slot.",
    [BITE_REMARK_MARGIN_NARROW] =
        "\"{0}\" runs {1} over the edge of the blank, whose margin is {2}: no frame is left there.",
    [BITE_REMARK_PARTS_DO_NOT_FIT] =
        "The blank of a single part is {0} x {1}, and the sheet is only {2} x {3}: use a larger "
        "sheet, a smaller margin, or a smaller tool round the part.",
    [BITE_REMARK_SEVERAL_BLANKS] =
        "{0} blanks are needed[ because {3}]: {1} on each, {2} on the last. Each is mounted and "
        "released by itself.",
    [BITE_REMARK_SWEEPS_INTO] =
        "\"{0}\" sweeps {1} into {2}: move one of them, or use a smaller tool. Run the path "
        "above the work first.",
    [BITE_REMARK_CUTS_TABS] = "\"{0}\" goes {1} below the upper edge of the tabs and cuts them: "
                              "the part comes loose. Cut "
                              "less deep, or let cut-free do it, which leaves them.",
    [BITE_REMARK_HOLDER_HITS] =
        "In \"{0}\" the {1}, {2} across and {3} above the tip, comes {4} into {5}, which rises {6} "
        "above its lower end: let the tool stick out more by that, use a longer or slimmer one, or "
        "move what is in the way.",
    [BITE_REMARK_HOLDER_OVER] =
        "In \"{0}\" the {1}, {2} across, passes {3} above the stock over {4}, whose height the job "
        "file does not state: it must be lower. State its height to have it checked.",
    [BITE_REMARK_SCREWS_NOT_PLACED] =
        "The job file does not state where the screws are, so whether a pass hits one was not "
        "checked: add [screw.NAME] with at.",
    [BITE_REMARK_PASSES_NOT_PLACED] =
        "Not checked against screws and clamps, because the job file does not state where they are "
        "(at, length, across): {0}.",
    [BITE_REMARK_DATUM_ERROR] =
        "In \"{0}\" the {1} may be off by {2} with Z zero on {3}, and the tolerance is {4}. "
        "Measure "
        "each blank and correct for it, face it first, or buy sheet of a closer tolerance.",
    [BITE_REMARK_DATUM_STATED] =
        "In \"{0}\" the {1} may be off by {2} with Z zero on {3}, as the job file states, and the "
        "tolerance is {4}. With zero on {5} it is off by {6} at most: set it there, or measure "
        "each blank and correct for it.",
    [BITE_REMARK_BREAKS_THROUGH] =
        "\"{0}\" breaks through the part by {1} where the sheet is thinnest; where it is thickest, "
        "{2} are left. Measure the blank, set Z zero on what it lies on, or cut less deep.",
    [BITE_REMARK_SECOND_ZERO] =
        "\"{0}\" may end {1} too high or too low with the zero of its setup: set a second zero on "
        "what the stock lies on for it, or let it end that much deeper in a board.",
    [BITE_REMARK_FIRST_PASS_DEEPER] =
        "With Z zero on what the stock lies on, the first pass of \"{0}\" is up to {1} deeper "
        "where "
        "the sheet is thickest: start above it, or face the stock first.",
    [BITE_REMARK_BEYOND_TRAVEL] = "The work needs {1} of {0}, tool and overrun included, and {3} "
                                  "has {2}: use smaller blanks, "
                                  "turn the work, or use a larger machine.",
    [BITE_REMARK_NEAR_TRAVEL] =
        "The work needs {1} of {0}, and small machines of the class {3} have only {2}: check the "
        "travel of yours.",
    [BITE_REMARK_NO_TRAVEL] =
        "The table states no travels of {0}, so whether the work fits was not checked: add "
        "travel_x, travel_y and travel_z to its section.",
    [BITE_REMARK_STACK_TOO_HIGH] =
        "Fixture, stock, clearance, tool and holder are {1} high together[{0}], and {3} has {2} "
        "from "
        "the spindle to the table: use a lower fixture or a shorter tool.",
    [BITE_REMARK_OVERHANGS_TABLE] =
        "The blank overhangs the table of {1} by {0}[{2}]: support it with "
        "a plate that reaches under all "
        "of it.",
    [BITE_REMARK_VISE_TOO_SMALL] =
        "In the vise {0} needs {1}, and that of {3} has {2}: hold it another way, or use a "
        "larger vise.",
    [BITE_REMARK_OVERHANGS_JAWS] =
        "The piece is {0} long[{2}] and the jaws are {1} wide: its ends are "
        "not supported. Use two vises "
        "or long soft jaws.",
    [BITE_REMARK_FACING_ORDER] =
        "Taking it all off one face would bow the part by {0}; as planned, the bow is {1}. Face "
        "both sides in turn, in nearly equal steps, and let the part rest free between roughing "
        "and finishing.",
    [BITE_REMARK_FEATURE_SIZE] = "The job file does not state the size of \"{0}\" (length, "
                                 "across): its time and its effect on "
                                 "bow are calculated as if it were as large as the part.",
    [BITE_REMARK_DEPTH_FROM_FLOOR] =
        "\"{0}\" is {1} deep: the part, {2} thick, less the floor of {3} that is to remain.",
    [BITE_REMARK_AREA_NOT_REDUCED] =
        "In setup {1} the part was judged as if all of its face below held it and were supported: "
        "\"{0}\" cuts into that face, but the job file does not state its size. State length and "
        "across, or area of the hold.",
    [BITE_REMARK_DEFAULT_PASSES] =
        "The job file names no passes: facing, the thin section as one pocket, and cutting free "
        "were planned.",
    [BITE_REMARK_DRILL_THROUGH] =
        "The drill point of \"{0}\" is {1} long: it breaks through the other face by {2}.",
    [BITE_REMARK_DRILL_BELOW] =
        "In \"{0}\" the drill goes {1} below the part, because its point is {2} long. Use a board "
        "under "
        "the part or holes in the fixture there, or bore the hole with an end mill.",
    [BITE_REMARK_NO_TOOL_AT_HAND] =
        "No tool at hand fits \"{0}\" ({1} deep): {2}, the closest, was selected.",
    [BITE_REMARK_THREAD_MILLED] =
        "\"{0}\" is milled: to tap it, the spindle of this machine would turn at {1}, with {2} of "
        "the usual edge speed of taps in this material; likeliest limit {3}.",
    [BITE_REMARK_MILL_INSTEAD] =
        "\"{0}\" is not sound with this spindle: mill the thread instead (work = thread-mill, or "
        "work = thread) with {1}, spindle {2}, feed of the centre {3}, radial passes: {4}; about "
        "{5} for each thread, chance that a limit is exceeded {6}. Or tap it by hand.",
    [BITE_REMARK_NO_MILL_INSTEAD] =
        "\"{0}\" is not sound with this spindle, and {1} no thread mill that cuts it: tap it by "
        "hand, or use a threaded insert.",
    [BITE_REMARK_NO_TOOL_IN_TABLE] =
        "No tool in the table fits \"{0}\" ({1} deep): {2}, the closest, was selected.",
    [BITE_REMARK_NO_WORKHOLDING] =
        "The job file does not state how the part is held, so whether it stays in place was not "
        "checked. coolbite list holds shows the methods.",
    [BITE_REMARK_RELEASE_SOLVENT] =
        "NO: {0} is released with {1}, which attacks {2}. Put tape between the glue and the "
        "part (tape-glue).",
    [BITE_REMARK_BOND_MAY_FAIL] =
        "{0} may fail in pass \"{1}\": side force, lift, tilt and twist together "
        "reach " AND_CHANCE
        "Use more area, stops on two sides, lighter or cooler cuts or a stronger method.",
    [BITE_REMARK_VACUUM_GROOVE] =
        "Across a groove {0} wide, the vacuum pulls the thinnest section in by {1}, which then "
        "becomes an error in its thickness: use narrower grooves.",
    [BITE_REMARK_CUTS_BELOW_TAPE] =
        "The through cut goes {0} below the part, but the tape is {1} thick: it cuts through the "
        "tape into whatever is below. Stop inside the tape.",
    [BITE_REMARK_NO_BOARD] =
        "There is nothing soft under the part: a through cut needs a board to end in, or it "
        "leaves a skin.",
    [BITE_REMARK_TAPE_ON_TOOL] =
        "A through cut gums the tool with tape and glue, which spoils the next edge. Wipe the "
        "tool afterwards; use a solvent only off the machine and away from the part.",
    [BITE_REMARK_FILM_TAPE] =
        "Film tape does not tear: where the tool cuts it, it winds around the cutter. Paper tape "
        "comes off as chips.",
    [BITE_REMARK_GLUE_CURE] =
        "Across a gap of {0} the glue sets in about {1}; it takes longer if the air is dry or "
        "cold, and far longer across twice the gap.",
    [BITE_REMARK_POOR_ADHESION] =
        "Tape and glue adhere poorly to {0}: {1} of their strength was assumed. Screws, a vise or "
        "a vacuum plate are more reliable.",
    [BITE_REMARK_HOLDING_NOT_JUDGED] =
        "Whether the {0} holds the part was not calculated: test it by hand, and watch the first "
        "pass.",
    [BITE_REMARK_CLAMP_SLIPS] =
        "{0} may fail in pass \"{1}\": the part slips at " AND_CHANCE
        "Use stops on two sides, more force or more screws, or lighter cuts.",
    [BITE_REMARK_CLAMP_LEVERS] =
        "{0} may fail in pass \"{1}\": the cut levers the part out at " AND_CHANCE
        "Grip deeper or lower, move the screws farther apart, or take lighter cuts.",
    [BITE_REMARK_CLAMP_STRIPS] =
        "{0} may fail in pass \"{1}\": the threads in the plate strip at " AND_CHANCE
        "Use more thread in the plate, inserts, or less torque.",
    [BITE_REMARK_CLAMP_SHEARS] = "{0} may fail in pass \"{1}\": the screws shear at " AND_CHANCE
                                 "Use more or thicker screws, or dowels beside them.",
    [BITE_REMARK_CLAMP_CRUSHES] =
        "{0} may fail in pass \"{1}\": the part is crushed under the heads or at the holes "
        "at " AND_CHANCE "Use wider washers, more screws, or less torque.",
    [BITE_REMARK_CLAMP_STRETCHES] =
        "{0} may fail in pass \"{1}\": the screws yield during tightening at " AND_CHANCE
        "Use less torque, or more or thicker screws.",
    [BITE_REMARK_CLAMP_BREAKS] = "{0} may fail in pass \"{1}\": the tabs break at " AND_CHANCE
                                 "Use more, wider or thicker tabs, or lighter cuts.",
    [BITE_REMARK_JAW_FORCE] =
        "A clamping force of {0} between the jaws was assumed; the hardest cut needs {1}.",
    [BITE_REMARK_SCREW_FORCE] =
        "A preload of {0} in each screw was assumed; the hardest cut needs {1}.",
    [BITE_REMARK_BUCKLING] =
        "Between the jaws this plate buckles at {0}; at {1} of that force it is {2} shorter, and "
        "springs back by as much when it is released. A bench vise exerts thousands of newtons: "
        "clamp thin parts through tabs or holes, or bond them.",
    [BITE_REMARK_CUTTER_HITS_JAWS] = "In \"{0}\" the cutter goes {1} below the top of the jaws and "
                                     "hits them. Grip lower, or cut less "
                                     "deep.",
    [BITE_REMARK_CUTS_VISE_BED] =
        "\"{0}\" goes {1} below the part, and there is only {2} between it and the bed of the "
        "vise: "
        "grip less deep on higher parallels, or cut it where nothing is below.",
    [BITE_REMARK_GRIPPED_SO] =
        "Checked with the part {1} deep between jaws that are {2} apart[{0}], on parallels[: the "
        "jaws are {3} high, which leaves {4} down to the bed]. Keep parallels out of the way of "
        "cuts that go through.",
    [BITE_REMARK_LOOSE_IN_JAWS] =
        "A part that is cut free in a vise is loose at the end of the cut: leave tabs, or bond "
        "it.",
    [BITE_REMARK_HELD_BY_OWN_SCREWS] =
        "A part that is cut free is held only by the screws in its own holes: screws in the waste "
        "no longer hold it.",
    [BITE_REMARK_TABS] = "Leave {0} tabs of {1} by {2} on each part.",
    [BITE_REMARK_TABS_IF_CUT_FREE] = "Leave {0} tabs of {1} by {2} on each part if it is cut free.",
    [BITE_REMARK_FRAME_CLAMPS] =
        "Whether the clamps hold the frame was not calculated: clamp at least three sides "
        "tightly, and check them before the start.",
    [BITE_REMARK_FLUID_NO] =
        "NO: do not use {0} as {1} on {2}[: {3}].[ Safe instead: {5}.][ If it has already touched "
        "a part, watch that part for {4}: look along edges and holes in raking light.]",
    [BITE_REMARK_FLUID_RISK] =
        "Risk: {0} as {1} on {2}[: {3}].[ Safe instead: {5}.][ Before shipping, watch the part for "
        "{4}: look along edges and holes in raking light.]",
    [BITE_REMARK_FLUID_UNKNOWN] =
        "Nothing is known about {0} on {1}: test it first on a bent strip that is kept wet for a "
        "day, next to a dry strip.",
    [BITE_REMARK_COOLANT_UNNAMED] =
        "Some passes are cut with {0}, but the job does not say of what (coolant_fluid).[ Safe on "
        "{1}: {2}.][ NO, not on this material: {3}.]",
    [BITE_REMARK_LASER_EDGE] =
        "A laser-cut edge is under stress, and crazes several millimetres deep where {0} touches "
        "it. Mill {1} off, or anneal first.",
    [BITE_REMARK_CORNERS] =
        "In the corners of \"{0}\" the machine slows to {1} of the feed: the edge rubs there, and "
        "heats up. Round the corners of the path, or reduce the spindle speed.",
    [BITE_REMARK_ENTRY_HOLE] =
        "\"{0}\" is entered through a hole: drill one of at least {1} to its depth first[; {2}].",
    [BITE_REMARK_ENTRY_BY_PASS] =
        "\"{0}\" is entered through the hole that \"{1}\" makes, of {2}[; {3}]: lower the tool to "
        "each "
        "step in it, and feed slowly at the last, where the cone of the drill's point is left.",
    [BITE_REMARK_ENTRY_PLUNGE] = "\"{0}\" is to be entered by a plunge, but its tool does not cut "
                                 "at the centre: use a ramp, "
                                 "a helix, a drilled hole, or another tool.",
    [BITE_REMARK_ENTRY_SHORT] =
        "\"{0}\" is to be entered by a {1}, for which it leaves only {2}: use a smaller tool, a "
        "plunge, or a drilled hole.",
    [BITE_REMARK_FINISH_ALLOWANCE] =
        "\"{0}\" leaves {1} for \"{3}\", but bends off its path by {2}, with runout beside it: it "
        "may cut into the finished wall. Leave more, by a greater width of the finishing pass.",
    [BITE_REMARK_NO_LEAD] = "In \"{0}\" no arc onto the wall fits: beside the tool there is room "
                            "for a radius of {1}, and "
                            "the lap takes {2}. Use a tool of less than {3}, or run onto the wall "
                            "along it, start where "
                            "a mark does no harm, and overlap the start by {4}.",
    [BITE_REMARK_FLOOR_BENDS] =
        "In \"{0}\" nothing supports the floor, {1} thick over {2}: an ordinary cut bends it by "
        "{3}. Support it from below with tape, wax or vacuum (support), or leave it {4} thick; "
        "otherwise cut the other side first, while the floor is still thick.",
    [BITE_REMARK_WEB_BENDS] = "In \"{0}\" the web over the pocket below is {1} thick over {2}: an "
                              "ordinary cut bends it by "
                              "{3}. Fill the pocket with wax (support) or put a plug into it, or "
                              "leave the web {4} thick.",
    [BITE_REMARK_FLOOR_COSTS] =
        "Unsupported, \"{0}\" takes {1} passes, {2} deep; supported {3}, {4} deep.",
    [BITE_REMARK_SUPPORT_ASSUMED] =
        "The settings and the time of \"{0}\" are those with the floor supported by {1}; without "
        "support it would take {2}. It is over until the job states support = {1}.",
    [BITE_REMARK_WALL_BENDS] =
        "The wall beside \"{0}\", {1} thick and {2} high, bends by {3} under the cut, which limits "
        "the "
        "depth of a lap. Rough all before finishing, then take the wall down in steps of {4}, one "
        "lap "
        "on each side before the next step, while it is still thick below; then the floor, the "
        "outline last. Or fill the pocket with wax.",
    [BITE_REMARK_WALL_DERIVED] =
        "The wall beside the pocket was taken to be {0} thick, as if the pocket were in the middle "
        "of the part: state wall, wall_height and wall_length if it is not.",
    [BITE_REMARK_SPRINGS] =
        "The first lap of \"{0}\" leaves {1} on the wall, by which tool and wall give way. Spring "
        "passes at the same setting: {2}; they leave {3}, by which the wall is judged.",
    [BITE_REMARK_SPRINGS_DO_NOT_HELP] =
        "The first lap of \"{0}\" leaves {1} on the wall, by which tool and wall give way. Spring "
        "passes at the same setting: {2}; they leave {3}, and more of them only rub. Use a thicker "
        "or "
        "shorter tool, less depth, or leave less for the finishing lap.",
    [BITE_REMARK_VACUUM_FLOOR] =
        "The vacuum sucks the web, {0} thick over the pocket below, {1} across, down by {2}, which "
        "then becomes an error in its thickness: fill the pocket with wax, or let air into it and "
        "seal around it.",
    [BITE_REMARK_BOW_SPRINGS_BACK] = "The {0} holds the part flat: once it is released it bows by "
                                     "{1}. Measure flatness with the "
                                     "part free; what is flat on the machine is not.",
    [BITE_REMARK_SOAK_PAUSE] =
        "Over its laps \"{0}\" warms the part around the cut by {1}, more "
        "than the {2} that its bond "
        "should bear: {3} pauses of {4} on each part, one after each lap, which are in the "
        "time, or cool it.",
    [BITE_REMARK_SOAK_COOL] =
        "Over its laps \"{0}\" warms the part around the cut by {1}, more than the {2} that its "
        "bond "
        "should bear, and pauses between laps do not help: cool it, clamp it, or heat it less.",
    [BITE_REMARK_SOAK_SIZE] =
        "At the end of \"{0}\" the part is {1} warmer, and {2} longer, than it will be: wait {3} "
        "before {4}, or cool it.",
    [BITE_REMARK_GAUGE_RATIO] =
        "\"{0}\": {1} reads with a standard uncertainty of {2}, and the tolerance is {3} wide: "
        "near "
        "a limit nothing is proven. Keep away from the limits, or use a finer instrument.",
    [BITE_REMARK_GAUGE_CANNOT] =
        "\"{0}\": {1} cannot prove this size: its standard uncertainty is {2}, and the tolerance "
        "is "
        "only {3} wide. Use a finer instrument, or agree on a wider tolerance with the customer.",
    [BITE_REMARK_SHOP_CANNOT] = "\"{0}\": no instrument of the shop's own list proves this size[; "
                                "the best of them is {1}]. "
                                "Of those of the tables, this one would: {2}.",
    [BITE_REMARK_NOTHING_PROVES] = "\"{0}\": no instrument of the shop's own list proves this "
                                   "size[; the best of them is {1}], "
                                   "and none of the tables does.",
    [BITE_REMARK_GAUGE_PRESSES] = "\"{0}\": the force of {1} changes the reading by {2}, of a "
                                  "tolerance {3} wide. Use one with "
                                  "less force or none, or support the part where it is touched.",
    [BITE_REMARK_GAUGE_DENTS] = "\"{0}\": {1} presses with {2} and leaves a dent from {3} on. Use "
                                "flat faces, a larger ball "
                                "or less force.",
    [BITE_REMARK_GAUGE_BUCKLES] =
        "\"{0}\": {1} presses with {2}, and the part buckles between the jaws from {3} on. Measure "
        "without contact, or with the part held flat.",
    [BITE_REMARK_GAUGE_WARMTH] =
        "\"{0}\": the part grows by {2} if it is 5 K warm, of a tolerance {3} wide. Let it and the "
        "instrument ({1}) lie together until they are as warm as the room, note the temperature, "
        "and correct the size to 20 degC.",
    [BITE_REMARK_TABLE_LEFT_OUT] =
        "The table {0} could not be used, so nothing in it counts in this plan, cautions included: "
        "{1}",
};

const char *bite_remark_template(uint32_t id)
{
    return id < BITE_REMARK_COUNT ? templates[id] : NULL;
}

static void write_quantity(double si, bite_kind kind, bite_units units, char *buffer, size_t size)
{
    size_t length = 0;
    if (kind == BITE_KIND_LENGTH) {
        bite_control_length_write(si, units, buffer, size);
        return;
    }
    if (isnan(si) || bite_quantity_write(si, kind, units, buffer, size, &length, NULL) != BITE_OK) {
        (void)snprintf(buffer, size, "-");
    }
}

/* Advice such as "3 mm" is no finer than two digits in inches. */
static void write_round_length(double si, bite_units units, char *buffer, size_t size)
{
    char digits[40];
    if (units != BITE_INCH) {
        write_quantity(si, BITE_KIND_LENGTH, units, buffer, size);
        return;
    }
    (void)bite_number_write(si / 25.4e-3, 2, digits, sizeof digits);
    (void)snprintf(buffer, size, "%s in", digits);
}

static const char *write_value(const bite_remark *remark, size_t index, bite_units units,
                               char *buffer, size_t size)
{
    const bite_remark_value *value = &remark->values[index];
    double si = value->quantity;
    if (value->text != NULL) {
        return value->text;
    }
    if (!isfinite(si)) {
        return "-";
    }
    switch (bite_remark_define(remark->id)->values[index].kind) {
    case BITE_REMARK_LENGTH:
        write_quantity(si, BITE_KIND_LENGTH, units, buffer, size);
        break;
    case BITE_REMARK_ROUND_LENGTH:
        write_round_length(si, units, buffer, size);
        break;
    case BITE_REMARK_FORCE:
        write_quantity(si, BITE_KIND_FORCE, units, buffer, size);
        break;
    case BITE_REMARK_TIME:
        (void)bite_plan_duration(si, buffer, size);
        break;
    case BITE_REMARK_SHARE:
        (void)snprintf(buffer, size, "%.0f %%", 100.0 * si);
        break;
    case BITE_REMARK_NUMBER:
        (void)snprintf(buffer, size, "%.0f", si);
        break;
    case BITE_REMARK_RISE:
        write_quantity(bite_unit_round(si, BITE_KIND_RISE, "K", 2), BITE_KIND_RISE, units, buffer,
                       size);
        break;
    case BITE_REMARK_ROTATION:
        write_quantity(si, BITE_KIND_ROTATION, units, buffer, size);
        break;
    case BITE_REMARK_SPEED:
        write_quantity(si, BITE_KIND_SPEED, units, buffer, size);
        break;
    case BITE_REMARK_NONE:
    case BITE_REMARK_TEXT:
        return "";
    }
    return buffer;
}

static int is_missing(const bite_remark_value *value)
{
    return value->text != NULL ? value->text[0] == 0 : isnan(value->quantity);
}

/* "{3}" at text: its index; -1: not a placeholder. */
static int placeholder_at(const char *text)
{
    int found = text[0] == '{' && text[1] >= '0' && text[1] < '0' + BITE_REMARK_VALUES_MAX &&
                text[2] == '}';
    return found ? text[1] - '0' : -1;
}

/* The end of a part in brackets, if a value in it is missing; otherwise NULL. */
static const char *skip_part(const bite_remark *remark, const char *text)
{
    int missing = 0;
    for (; *text != ']' && *text != 0; text++) {
        int index = placeholder_at(text);
        missing |= index >= 0 && is_missing(&remark->values[index]);
    }
    return missing ? text : NULL;
}

const char *bite_remark_words(const bite_remark *remark, bite_units units, char *buffer,
                              size_t size)
{
    const char *text = bite_remark_template(remark->id);
    size_t used = 0;
    buffer[0] = 0;
    while (text != NULL && *text != 0 && used + 1 < size) {
        char number[80];
        int index = placeholder_at(text);
        if (index >= 0) {
            const char *value = write_value(remark, (size_t)index, units, number, sizeof number);
            (void)snprintf(buffer + used, size - used, "%s", value);
            used += strlen(buffer + used);
            text += 3;
            continue;
        }
        const char *end = *text == '[' ? skip_part(remark, text) : NULL;
        text = end == NULL ? text : end;
        if (*text != '[' && *text != ']' && *text != 0) {
            buffer[used++] = *text;
            buffer[used] = 0;
        }
        text += *text != 0;
    }
    buffer[bite_text_complete_length(buffer, used)] = 0;
    return buffer;
}
