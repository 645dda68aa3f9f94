/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The commands and the options of the command line. */
#include "bindings/cli/option_table.h"

#define ONE_CUT (1u << COMMAND_CUT)
#define CHOOSE (1u << COMMAND_CHOOSE)
#define WINDOW (1u << COMMAND_WINDOW)
#define BATCH (1u << COMMAND_BATCH)
#define SETTINGS (ONE_CUT | CHOOSE | WINDOW)
#define CUTS (SETTINGS | BATCH)
#define JOB (1u << COMMAND_JOB)
#define MEASURE (1u << COMMAND_MEASURE)
#define SHOW (1u << COMMAND_SHOW)
#define LIST (1u << COMMAND_LIST)
#define AUDIT (1u << COMMAND_AUDIT)
#define NEW_MATERIAL (1u << COMMAND_NEW_MATERIAL)
/* those that write one answer */
#define ANSWERS (CUTS | JOB | LIST | SHOW | 1u << COMMAND_EXPLAIN)
#define ALL (ANSWERS | MEASURE)

const struct command commands[COMMAND_COUNT] = {
    [COMMAND_CUT] = {"cut", "[OPTION ...]",
                     "Judges the given settings: will this cut hold? The exit status is 0 for "
                     "clear, 1 for tight, 2 for over and 3 for unknown.",
                     NULL, false},
    [COMMAND_CHOOSE] = {"choose", "[OPTION ...]",
                        "Finds the settings to enter at the machine. Settings that are given are "
                        "kept. The exit status is that of cut.",
                        NULL, false},
    [COMMAND_WINDOW] = {"window", "[OPTION ...]",
                        "Draws where each limit lies over spindle speed and feed, or over any two "
                        "inputs, and the settings used (those that choose finds if no spindle "
                        "speed and feed are given). The exit status is that of cut.",
                        NULL, false},
    [COMMAND_JOB] = {"job", "FILE",
                     "Plans a whole job from its file: stock, warp, passes, tools, workholding, "
                     "fluids and time. Every fault in the file is reported at once. The exit "
                     "status is that of cut.",
                     NULL, true},
    [COMMAND_MEASURE] =
        {"measure", "RECORD",
         "Enters readings into a record, a file to which lines are only ever appended: prompt by "
         "prompt at a terminal, or a line each from standard input. With --job it begins a new "
         "record from the inspection plan of a job, with --report it writes what the readings "
         "prove.",
         NULL, true},
    [COMMAND_LIST] =
        {"list", "WHAT",
         "Lists materials, families, tools, drills, threads, inserts, holders, "
         "machines, coolants, holds, layers, fluids, sheets, symptoms, times, "
         "instruments, left-out, limits, values or inputs.",
         "materials families tools drills threads inserts holders machines coolants "
         "holds layers fluids sheets symptoms times instruments left-out limits values inputs",
         false},
    [COMMAND_SHOW] =
        {"show", "NAME [NAME]",
         "Shows the whole record of a material, tool, drill, thread, insert, holder, "
         "machine, coolant, workholding, layer, fluid, sheet, symptom, time or instrument, with "
         "its sources; of two names, both records side by side.",
         NULL, false},
    [COMMAND_EXPLAIN] = {"explain", "NAME",
                         "Explains an input, a value or a limit: equation, range and source.", NULL,
                         false},
    [COMMAND_BATCH] = {"batch", "[FILE]",
                       "Judges many cuts: a row of CSV, or a JSON object on each line, for each of "
                       "them, from a file or from standard input. Columns are inputs, such as feed "
                       "[mm/min], and records, such as material; options state what is the same in "
                       "all rows. The rows come out in their order with their results. A row that "
                       "cannot be judged is reported with its line, and the rest go on. In CSV a "
                       "text that a spreadsheet could take for a formula gets an apostrophe. The "
                       "exit status is 0.",
                       NULL, true},
    [COMMAND_AUDIT] =
        {"audit", "PATH",
         "Judges a table or a plugin, or all of a folder, before they are trusted: names, units, "
         "ranges, physical bounds, sources, self-tests, trial cuts; of a plugin, which runs in a "
         "child process with limits of time, memory and files, also what it does to that process. "
         "Every fault is a line. This is no cage: a plugin has your rights. The exit status is 0 "
         "for sound and 1 for faults.",
         NULL, true},
    [COMMAND_NEW_MATERIAL] =
        {"new-material", "FAMILY[/GRADE]",
         "Writes a table of a material, FAMILY.ini, with the figures of the physics as comments to "
         "be "
         "filled in; with --like all that it does not state is that of another grade. A file is "
         "never overwritten.",
         NULL, false},
};

const struct cli_option option_table[] = {
    {"material", "FAMILY[/GRADE]", OPTION_ITEM, NULL, BITE_GRADES, CUTS | LIST | SHOW, NULL,
     "material of the part, such as acrylic/cast or 6061; see list materials. With list fluids, "
     "and with show and the name of a fluid: what the fluid does to it; of a thread: drill, speed, "
     "torque and cautions in it"},
    {"tool", "NAME|DIAMETER", OPTION_TOOL, NULL, BITE_TOOLS, CUTS | SHOW, NULL,
     "an end mill or drill of the tables, or the diameter of a plain one, such as 0.8mm or 1/32in; "
     "choose takes several, separated by commas or each with its own --tool, or any; show a "
     "thread: "
     "the mill for it"},
    {"tools", "FILE", OPTION_TOOLS, NULL, 0, CUTS | JOB | LIST | SHOW, NULL,
     "these tools instead of those of the tables: INI, a CSV with the symbols of ISO 13399 as "
     "columns, or an asset of MTConnect; see coolbite-tables(5)"},
    {"diameter", "RANGE", OPTION_DIAMETER, NULL, 0, LIST, NULL,
     "list tools of these diameters only: 3mm, 3mm..6mm, 3mm.. or ..1/4in"},
    {"kind", "WORD", OPTION_KIND, NULL, 0, LIST,
     "end-mill ball-nose bull-nose chamfer engraving drill tap reamer thread-mill",
     "list tools of this kind only: end-mill, ball-nose, bull-nose, chamfer, engraving, drill, "
     "tap, reamer or thread-mill"},
    {"goal", "WORD", OPTION_GOAL, NULL, 0, CHOOSE | WINDOW, "cool gentle fine fast usual",
     "cool, gentle, fine, fast or usual: cool for materials that melt, otherwise fast"},
    {"flutes", "COUNT", OPTION_INPUT, "flutes", 0, CUTS, NULL, "number of teeth"},
    {"tool-material", "WORD", OPTION_INPUT, "tool_material", 0, CUTS, "carbide hss diamond",
     "carbide, hss or diamond"},
    {"corner-radius", "LENGTH", OPTION_INPUT, "corner_radius", 0, CUTS, NULL,
     "corner radius of the tool"},
    {"helix", "ANGLE", OPTION_INPUT, "helix", 0, CUTS, NULL,
     "helix angle; negative for a left-hand helix, which pushes down"},
    {"rake", "ANGLE", OPTION_INPUT, "rake", 0, CUTS, NULL, "rake angle of the edge"},
    {"edge-radius", "LENGTH", OPTION_INPUT, "edge_radius", 0, CUTS, NULL,
     "how blunt the edge is: 2um if new, 12um if worn"},
    {"runout", "LENGTH", OPTION_INPUT, "runout", 0, CUTS, NULL, "total indicated, at the tip"},
    {"stickout", "LENGTH", OPTION_INPUT, "stickout", 0, CUTS, NULL,
     "from the face of the holder to the tip"},
    {"flute-length", "LENGTH", OPTION_INPUT, "flute_length", 0, CUTS, NULL,
     "length of the cutting part"},
    {"neck", "DxL", OPTION_NECK, NULL, 0, CUTS, NULL,
     "relieved neck behind the flutes, diameter and length: 0.7mmx4mm"},
    {"shank", "LENGTH", OPTION_INPUT, "shank_diameter", 0, CUTS, NULL, "diameter of the shank"},
    {"holder", "NAME", OPTION_ITEM, NULL, BITE_HOLDERS, CUTS, NULL,
     "tool holder; see list holders"},
    {"machine", "NAME", OPTION_ITEM, NULL, BITE_MACHINES, CUTS | SHOW, NULL,
     "class of machine; see list machines"},
    {"spindle", "SPEED", OPTION_INPUT, "spindle_speed", 0, CUTS, NULL,
     "12000rpm, or a surface speed: 45m/min, 150sfm"},
    {"feed", "FEED", OPTION_INPUT, "feed_rate", 0, CUTS, NULL,
     "400mm/min, 16in/min, or 0.02mm/tooth"},
    {"depth", "LENGTH", OPTION_INPUT, "depth", 0, CUTS, NULL, "axial depth of this pass"},
    {"feature-depth", "LENGTH", OPTION_INPUT, "feature_depth", 0, CUTS, NULL,
     "axial depth of the whole feature"},
    {"width", "LENGTH", OPTION_INPUT, "width", 0, CUTS, NULL,
     "radial width of this pass; default a full slot"},
    {"feature-width", "LENGTH", OPTION_INPUT, "feature_width", 0, CUTS, NULL,
     "radial width of the whole feature"},
    {"side", "WORD", OPTION_INPUT, "side", 0, CUTS, "climb conventional", "climb or conventional"},
    {"chips", "WORD", OPTION_CHIPS, "blind", 0, CUTS, "open closed",
     "open, or closed: a blind slot, which chips can leave only upwards"},
    {"inside-radius", "LENGTH", OPTION_INPUT, "inside_radius", 0, CUTS, NULL,
     "smallest inside corner of the part"},
    {"finish", "LENGTH", OPTION_INPUT, "finish", 0, CUTS, NULL, "requested roughness Ra"},
    {"tolerance", "LENGTH", OPTION_INPUT, "tolerance", 0, CUTS, NULL, "plus or minus"},
    {"floor", "LENGTH", OPTION_INPUT, "floor_thickness", 0, CUTS, NULL,
     "thickness that remains under the tool; 0mm for a through cut"},
    {"wall", "LENGTH", OPTION_INPUT, "wall_thickness", 0, CUTS, NULL,
     "thickness of the thin wall beside the cut"},
    {"gap", "LENGTH", OPTION_INPUT, "gap", 0, CUTS, NULL,
     "narrowest gap that the tool must pass through"},
    {"hold", "NAME", OPTION_ITEM, NULL, BITE_HOLDS, CUTS, NULL, "workholding; see list holds"},
    {"bond-area", "AREA", OPTION_INPUT, "bond_area", 0, CUTS, NULL,
     "area that still holds the part at the end of the cut: 1200mm2"},
    {"operation", "WORD", OPTION_INPUT, "operation", 0, CUTS, "mill drill chamfer tap ream",
     "mill; drill: depth is that of a peck, feature-depth that of the hole; chamfer: depth is its "
     "leg; tap, ream: depth is that of the thread or hole"},
    {"thread", "NAME", OPTION_ITEM, NULL, BITE_THREADS, CUTS, NULL,
     "thread to be tapped: M3, M8x1, 1/4-20; see list threads"},
    {"hand", "WORD", OPTION_HAND, NULL, 0, SHOW, "right left",
     "of a thread that is shown: right or left; default right"},
    {"hole", "LENGTH", OPTION_INPUT, "hole_diameter", 0, CUTS, NULL,
     "diameter of the hole that is tapped or reamed; default by the material and the size"},
    {"point-angle", "ANGLE", OPTION_INPUT, "point_angle", 0, CUTS, NULL,
     "point angle of a drill; default 118deg"},
    {"taper", "ANGLE", OPTION_INPUT, "taper", 0, CUTS, NULL,
     "angle from the axis of a cone to its edge; default of a chamfer 45deg; a mill with a taper "
     "cuts a groove of its form"},
    {"tip-diameter", "LENGTH", OPTION_INPUT, "tip_diameter", 0, CUTS, NULL,
     "diameter of the flat at the tip of that cone; default a tenth of the tool's"},
    {"tip-below", "LENGTH", OPTION_INPUT, "tip_below", 0, CUTS, NULL,
     "from the lower end of the chamfer to the tip; default a quarter of the depth"},
    {"entry", "WORD", OPTION_INPUT, "entry", 0, CUTS, "outside plunge ramp helix",
     "outside, plunge, ramp or helix"},
    {"entry-feed", "FEED", OPTION_INPUT, "entry_feed", 0, CUTS, NULL,
     "feed along the entry move; default a third (plunge) or half of the feed"},
    {"coolant", "WORD", OPTION_INPUT, "coolant", 0, CUTS, "none air mist flood",
     "none, air, mist or flood"},
    {"room", "TEMPERATURE", OPTION_INPUT, "room_temperature", 0, CUTS, NULL,
     "temperature of the room and the stock"},
    {"path", "LENGTH", OPTION_INPUT, "path_length", 0, CUTS, NULL,
     "length of the pass; default long enough to warm up"},
    {"set", "NAME=QUANTITY", OPTION_SET, NULL, 0, CUTS, NULL,
     "any other input; explain NAME describes it"},
    {"against", NULL, OPTION_AGAINST, NULL, 0, ONE_CUT, NULL,
     "compare with a second cut: the options after it change the first cut"},
    {"across", "NAME[=A..B]", OPTION_AXIS, NULL, 0, WINDOW, NULL,
     "the input on the horizontal axis, and its ends: spindle=6000rpm..24000rpm"},
    {"up", "NAME[=A..B]", OPTION_AXIS, NULL, 0, WINDOW, NULL,
     "the input on the vertical axis, and its ends; default feed"},
    {"spindle-steps", "LIST", OPTION_STEPS, NULL, 0, CHOOSE | WINDOW, NULL,
     "the only speeds that the spindle has: 1100rpm,2300rpm,4700rpm"},
    {"beyond-charts", NULL, OPTION_BEYOND_CHARTS, NULL, 0, CHOOSE, NULL,
     "feed per tooth and edge speed may exceed those that are published for the material; see "
     "explain unproven"},
    {"after", "SYMPTOM", OPTION_AFTER, NULL, BITE_SYMPTOMS, CHOOSE, NULL,
     "what went wrong at these settings: find the change that helps first; see list symptoms"},
    {"sheet", "FILE", OPTION_SHEET, NULL, 0, JOB, NULL,
     "also write the plan to this file as a page to print: a sheet for each setup, one for the "
     "bench, and what stays at the desk"},
    {"took", "TIME", OPTION_TOOK, NULL, 0, JOB, "forget",
     "how long the job took in your shop: it is recorded and corrects later plans; forget removes "
     "it"},
    {"job", "FILE", OPTION_MEASURE, NULL, 0, MEASURE, NULL,
     "begin the record from this job's inspection plan; a record is never overwritten"},
    {"field", "NAME=TEXT", OPTION_MEASURE, NULL, 0, MEASURE, NULL,
     "with --job: a text of the new record's head, such as part_number=LC-7, serial_number=12 or "
     "lot=A3; see coolbite-record(5)"},
    {"readings", "FILE", OPTION_MEASURE, NULL, 0, MEASURE, NULL,
     "append the readings of a CSV file, whose first line names its columns: characteristic, part, "
     "value, trial, person, temperature, time, note; all rows are checked before the first is "
     "appended; - is standard input"},
    {"person", "NAME", OPTION_MEASURE, NULL, 0, MEASURE, NULL, "who measures"},
    {"part", "NUMBER", OPTION_MEASURE, NULL, 0, MEASURE, NULL,
     "the part to begin with; default the first that is not complete"},
    {"trials", "COUNT", OPTION_MEASURE, NULL, 0, MEASURE, NULL,
     "ask for so many readings of each characteristic by this person, as for a gauge study"},
    {"report", "FILE", OPTION_REPORT, NULL, 0, MEASURE, NULL,
     "judge the readings instead of entering any, and write what they prove to this file, in the "
     "format of its extension: .html to print, .csv, .json, .qif (QIF 3.0) or .txt; - is standard "
     "output"},
    {"temperature", "TEMPERATURE", OPTION_MEASURE, NULL, 0, MEASURE, NULL,
     "of the parts while they are measured: readings are corrected to 20degC"},
    {"draws", "COUNT", OPTION_DRAWS, NULL, 0, CUTS | JOB | MEASURE, NULL,
     "draws for the bands: 16 to 65536, or 1 for none; default 4096, of batch none"},
    {"confidence", "SHARE", OPTION_CONFIDENCE, NULL, 0, CUTS | JOB, NULL,
     "clear means a chance below 1 minus this share; default 90%"},
    {"results", "LIST", OPTION_RESULTS, NULL, 0, BATCH, NULL,
     "the results of each row, separated by commas: verdict, chance, worst_limit, "
     "worst_utilization, and names of list values, list limits and list inputs; with draws also "
     "NAME.low, NAME.high and NAME.chance"},
    {"jobs", "COUNT", OPTION_JOBS, NULL, 0, BATCH, NULL,
     "threads to use, 1 to 16; default one for each processor"},
    {"strict", NULL, OPTION_STRICT, NULL, 0, BATCH, NULL,
     "exit as cut does for the worst row, and with 65 if a row was refused"},
    {"like", "FAMILY/GRADE", OPTION_LIKE, NULL, BITE_GRADES, NEW_MATERIAL, NULL,
     "the grade that the new one is like; see list materials"},
    {"time-limit", "TIME", OPTION_TIME_LIMIT, NULL, 0, AUDIT, NULL,
     "how long one file may take, 1s to 1h; default 30s"},
    {"units", "metric|inch", OPTION_UNITS, NULL, 0, ALL, "metric inch", "units of the output"},
    {"format", "WORD", OPTION_FORMAT, NULL, 0, ALL | AUDIT | NEW_MATERIAL, NULL,
     "text or json; also html for a window, a job or a report, csv and svg for a window, csv for "
     "list tools, for fluids on a material and for a report, qif for a report; csv or json for "
     "batch, by default that of FILE; ini for new-material"},
    {"rows", NULL, OPTION_ROWS, NULL, 0, SETTINGS, NULL, "show all limits, not only the main ones"},
    {"sources", NULL, OPTION_SOURCES, NULL, 0, SETTINGS | SHOW, NULL,
     "show where each number comes from"},
    {"output", "FILE", OPTION_OUTPUT, NULL, 0, ANSWERS | AUDIT | NEW_MATERIAL, NULL,
     "write to this file instead of standard output; its extension selects the format; - is "
     "standard output"},
    {"exit-zero", NULL, OPTION_EXIT_ZERO, NULL, 0, SETTINGS | JOB | MEASURE, NULL,
     "exit with 0 whatever the verdict is"},
    {"no-config", NULL, OPTION_NO_CONFIG, NULL, 0, ALL | AUDIT | NEW_MATERIAL, NULL,
     "do not read the shop's own set-up, coolbite.ini; see coolbite-shop(5)"},
    {"help", NULL, OPTION_HELP, NULL, 0, ALL | AUDIT | NEW_MATERIAL, NULL, "show this help"},
    {"version", NULL, OPTION_VERSION, NULL, 0, ALL | AUDIT | NEW_MATERIAL, NULL,
     "show the version and the licence"},
};
const size_t option_count = sizeof option_table / sizeof *option_table;

const struct output_format output_formats[] = {
    {"text", "txt", BITE_TEXT, (ALL | AUDIT) & ~BATCH},
    {"json", "json", BITE_JSON, ANSWERS | MEASURE | AUDIT},
    {"csv", "csv", BITE_CSV, WINDOW | LIST | SHOW | BATCH | MEASURE},
    {"svg", "svg", BITE_SVG, WINDOW},
    {"html", "html", BITE_HTML, WINDOW | JOB | MEASURE},
    {"qif", "qif", BITE_QIF, MEASURE},
    {"ini", "ini", BITE_TEXT, NEW_MATERIAL}};
const size_t output_format_count = sizeof output_formats / sizeof *output_formats;
