/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of a job file beyond its syntax, such as a pass deeper than the part or a tool that does
 * not exist. */
#include "core/job/job_file_check.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/check_sections.h"
#include "core/job/entry_plan.h"
#include "core/job/fluid_compatibility.h"
#include "core/job/order_check.h"
#include "core/job/outline_reach.h"
#include "core/library/collection.h"
#include "core/library/library.h"
#include "core/library/material.h"
#include "core/names/registry.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)

/* The name must be in the collection. */
static void check_name(bite_job_file_check *check, const bite_section *section, const char *key,
                       bite_collection collection)
{
    const char *name = bite_job_file_text(section, key);
    bite_error error = BITE_ERROR_INIT;
    const bite_material *material = NULL;
    const bite_item_record *record = NULL;
    if (name == NULL) {
        return;
    }
    bite_status status =
        collection == BITE_GRADES
            ? bite_library_grade(check->library, name, &material, &error)
            : bite_library_record(check->library, collection, name, &record, &error);
    if (status != BITE_OK) {
        bite_job_check_error(check, section, key, NULL, &error);
    }
}

/* The name must be a tool of the table, or a diameter. */
static void check_tool(bite_job_file_check *check, const bite_section *section, const char *key,
                       const char *name)
{
    const bite_item_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    double diameter = 0.0;
    const bite_input *range = bite_input_find("diameter");
    if (bite_quantity_read(name, BITE_KIND_LENGTH, &diameter, NULL) == BITE_OK) {
        if (diameter < range->least || diameter > range->most) {
            bite_job_check_complain(check, section, key, "check the unit",
                                    "no end mill has this diameter: 50 um to 50 mm was expected");
        }
        return;
    }
    bite_status status = bite_library_record(check->library, BITE_TOOLS, name, &record, &error);
    if (status != BITE_OK) {
        bite_job_check_error(check, section, key, NULL, &error);
    }
}

static void check_tools(bite_job_file_check *check)
{
    const char *at_hand = bite_job_file_text(check->file->tools, "at_hand");
    char name[64];
    size_t count = 0;
    for (; bite_job_file_name(at_hand, count, name, sizeof name); count++) {
        check_tool(check, check->file->tools, "at_hand", name);
    }
    if (count > BITE_TOOLS_AT_HAND_MAX) {
        bite_job_check_complain(check, check->file->tools, "at_hand",
                                "name only the tools that this job may need",
                                "at_hand names more tools than are supported");
    }
}

/* Whether the file has the key. A wrong value has already been reported. */
static void need(bite_job_file_check *check, const bite_section *section, const char *name,
                 const char *key, const char *hint)
{
    if (section == NULL) {
        return; /* the missing section is reported once */
    }
    if (!bite_job_check_states(check, section, key)) {
        char message[120];
        (void)snprintf(message, sizeof message, "[%s] does not state %s", name, key);
        bite_job_check_complain(check, section, key, hint, message);
    }
}

/* The length must not exceed another. */
static void at_most(bite_job_file_check *check, const bite_section *section, const char *key,
                    double most, const char *message, const char *hint)
{
    double number = bite_job_file_number(section, key);
    if (number > most * (1.0 + 1e-9)) {
        bite_job_check_complain(check, section, key, hint, message);
    }
}

static void whole(bite_job_file_check *check, const bite_section *section, const char *key,
                  const char *hint, const char *message)
{
    double number = bite_job_file_number(section, key);
    if (!isnan(number) && number != floor(number)) {
        bite_job_check_complain(check, section, key, hint, message);
    }
}

static void check_part(bite_job_file_check *check)
{
    const bite_section *part = check->file->part;
    if (part == NULL && bite_table_has_unread_sections(check->file->table)) {
        return;
    }
    if (part == NULL) {
        bite_job_check_complain(check, NULL, "part",
                                "[part] with material, length, width and thickness",
                                "the job has no part");
        return;
    }
    need(check, part, "part", "material",
         "for example material = acrylic/cast; coolbite list materials shows all");
    need(check, part, "part", "length", "the longer side: length = 40 mm");
    need(check, part, "part", "width", "the shorter side: width = 30 mm");
    need(check, part, "part", "thickness", "that of its thickest section: thickness = 1.6 mm");
    check_name(check, part, "material", BITE_GRADES);
    at_most(check, part, "thinnest", bite_job_file_number(part, "thickness"),
            "thinnest exceeds thickness", "thinnest is the thinnest section; swap the two values?");
    whole(check, part, "count", "count = 6", "the number of parts must be a whole number");
}

static void check_stock(bite_job_file_check *check)
{
    const bite_section *stock = check->file->stock;
    const bite_section *part = check->file->part;
    double thickness = bite_job_file_number(part, "thickness");
    double thickest = bite_job_file_number(stock, "thickest");
    int half = stock != NULL && bite_job_check_states(check, stock, "thinnest") !=
                                    bite_job_check_states(check, stock, "thickest");
    if (half) {
        bite_job_check_complain(
            check, stock, bite_job_check_states(check, stock, "thinnest") ? "thinnest" : "thickest",
            "measure five places, and state the smallest and the largest value",
            "a measured sheet needs both thinnest and thickest");
    }
    at_most(check, stock, "thinnest", thickest, "the sheet's thinnest exceeds its thickest",
            "swap the two values?");
    if (bite_job_file_number(stock, "nominal") < thickness * (1.0 - 1e-9)) {
        bite_job_check_complain(check, stock, "nominal", "leave nominal out to have it selected",
                                "the sheet is thinner than the part");
    }
    whole(check, stock, "per_blank", "per_blank = 4",
          "the number of parts on a blank must be a whole number");
    if (thickest < thickness * (1.0 - 1e-9)) {
        bite_job_check_complain(check, stock, "thickest", "measure again, or use another sheet",
                                "the measured sheet is thinner than the part");
    }
}

/* A key that belongs to one kind of clamp must not be ignored for another. A setup without a method
 * has that of [hold]. */
static void check_clamp_keys(bite_job_file_check *check, const bite_section *hold)
{
    static const struct {
        const char *key;
        const char *clamp; /* words of the hold's `clamp` */
    } owned[] = {
        {"between_jaws", "jaws"},   {"jaw_depth", "jaws"},     {"screws", "screws"},
        {"screw", "screws"},        {"torque", "screws"},      {"engaged", "screws"},
        {"screws_apart", "screws"}, {"plate_shear", "screws"}, {"screw_shear", "screws"},
        {"screw_class", "screws"},  {"tabs", "tabs"},          {"tab_width", "tabs"},
        {"tab_height", "tabs"},
    };
    const char *own = bite_job_file_text(hold, "method");
    const char *method = own != NULL ? own : bite_job_file_text(check->file->hold, "method");
    const bite_item_record *record = NULL;
    bite_status status =
        method == NULL ? BITE_OK
                       : bite_library_record(check->library, BITE_HOLDS, method, &record, NULL);
    check->stop = status == BITE_NO_MEMORY ? status : check->stop;
    if (record == NULL) {
        return;
    }
    const char *clamp = bite_item_text(record, "clamp");
    for (size_t i = 0; i < COUNT(owned); i++) {
        if (bite_job_check_states(check, hold, owned[i].key) &&
            strcmp(owned[i].clamp, clamp) != 0) {
            char message[160];
            (void)snprintf(message, sizeof message,
                           "%s belongs to holding by %s, but the method is %.60s", owned[i].key,
                           owned[i].clamp, method);
            bite_job_check_complain(check, hold, owned[i].key, "remove it, or name another method",
                                    message);
        }
    }
}

/* Tabs are placed around the part, and what is between them is cut. */
static void check_tabs(bite_job_file_check *check, const bite_section *hold)
{
    const bite_section *part = check->file->part;
    double perimeter =
        2.0 * (bite_job_file_number(part, "length") + bite_job_file_number(part, "width"));
    double wide = bite_job_file_number(hold, "tab_width");
    double tabs = bite_job_file_number(hold, "tabs");
    if ((isnan(tabs) ? 1.0 : tabs) * wide >= perimeter) {
        bite_job_check_complain(
            check, hold, bite_job_check_states(check, hold, "tabs") ? "tabs" : "tab_width",
            "tabs = 4, tab_width = 3 mm",
            "this many tabs of this width leave nothing to cut around the part");
    }
}

/* Height of the part in a setup: its thickness if it lies flat or no side is stated, otherwise one
 * of its longer sides. NaN: not stated. */
static double height_in(const bite_job_file *file, const bite_section *setup)
{
    double length = bite_job_file_number(file->part, "length");
    double width = bite_job_file_number(file->part, "width");
    switch (bite_job_file_word(setup, "side", BITE_SIDE_TOP)) {
    case BITE_SIDE_FRONT:
    case BITE_SIDE_BACK:
        return isnan(length + width) ? (double)NAN : fmin(length, width);
    case BITE_SIDE_LEFT:
    case BITE_SIDE_RIGHT:
        return isnan(length + width) ? (double)NAN : fmax(length, width);
    default:
        return bite_job_file_number(file->part, "thickness");
    }
}

/* The workholding must fit the length and thickness of the part. */
static void check_hold(bite_job_file_check *check, const bite_section *hold)
{
    const bite_section *part = check->file->part;
    double thickness = height_in(check->file, hold);
    double longest =
        hypot(bite_job_file_number(part, "length"), bite_job_file_number(part, "width"));
    check_name(check, hold, "method", BITE_HOLDS);
    check_clamp_keys(check, hold);
    whole(check, hold, "screws", "screws = 4", "the number of screws must be a whole number");
    whole(check, hold, "tabs", "tabs = 3", "the number of tabs must be a whole number");
    at_most(check, hold, "jaw_depth", thickness, "the jaws grip deeper than the part is thick",
            "jaw_depth is the height of the part inside the jaws");
    at_most(check, hold, "tab_height", thickness, "the tabs are thicker than the part",
            "tab_height is what the cut leaves of the thickness");
    at_most(check, hold, "screws_apart", longest,
            "the screws are farther apart than the part is long",
            "screws_apart is the distance from the first screw to the last");
    check_tabs(check, hold);
    if (bite_job_check_states(check, hold, "screw_class") &&
        bite_job_check_states(check, hold, "screw_shear")) {
        bite_job_check_complain(
            check, hold, "screw_shear", "remove one of the two",
            "screw_class and screw_shear are both stated, but the class determines the strength");
    }
    if (bite_job_check_states(check, hold, "torque") &&
        bite_job_check_states(check, hold, "clamp_force")) {
        bite_job_check_complain(
            check, hold, "torque", "remove one of the two",
            "torque and clamp_force are both stated, but torque determines the force");
    }
}

static void check_quantity(bite_job_file_check *check, const bite_section *pass, const char *key,
                           bite_kind kind, bite_kind also)
{
    const char *text = bite_job_file_text(pass, key);
    bite_error error = BITE_ERROR_INIT;
    double number = 0.0;
    if (text != NULL && bite_quantity_read(text, kind, &number, &error) != BITE_OK &&
        bite_quantity_read(text, also, &number, NULL) != BITE_OK) {
        bite_job_check_error(check, pass, key, NULL, &error);
    }
}

/* What only a feature with walls all around can have. */
static void check_stages(bite_job_file_check *check, const bite_section *pass, uint32_t work)
{
    static const char *const keys[] = {"rough_tool", "rest", "finish_lap"};
    const char *tool = bite_job_file_text(pass, "rough_tool");
    int pocket = work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH;
    for (size_t i = 0; i < COUNT(keys); i++) {
        int may = pocket || (i == 2 && work == BITE_WORK_BORE);
        if (!may && work < BITE_WORK_COUNT && bite_job_check_states(check, pass, keys[i])) {
            bite_job_check_complain(check, pass, keys[i], "leave it out",
                                    i == 2 ? "only a pocket or a bore has a wall to finish"
                                           : "only a pocket has corners for a smaller tool");
        }
    }
    if (tool != NULL) {
        check_tool(check, pass, "rough_tool", tool);
    }
}

static int enters_by_hole(const bite_section *pass)
{
    const char *entry = bite_job_file_text(pass, "entry");
    return entry != NULL && bite_text_equals(entry, "hole");
}

static void check_entry(bite_job_file_check *check, const bite_section *pass, uint32_t work)
{
    int thread =
        work == BITE_WORK_THREAD || work == BITE_WORK_THREAD_MILL; /* has no entry at all */
    if (enters_by_hole(pass) && work < BITE_WORK_COUNT && !thread && !bite_plan_is_closed(work)) {
        bite_job_check_complain(check, pass, "entry", "leave it out",
                                "only a slot, a pocket, a bore or a path round is entered by a "
                                "hole");
    }
}

/* Keys of tapped and reamed holes. */
static void check_hole(bite_job_file_check *check, const bite_section *pass, uint32_t work)
{
    static const struct {
        const char *key;
        int mills; /* 1: also when milling a thread */
        int reams; /* 1: also when reaming */
    } owned[] = {{"thread", 1, 0}, {"hand", 1, 0}, {"lead", 0, 0}, {"hole", 1, 1}};
    const char *hole = bite_job_file_text(pass, "hole");
    for (size_t i = 0; i < COUNT(owned) && work < BITE_WORK_COUNT; i++) {
        char message[100];
        int mills = work == BITE_WORK_THREAD_MILL || work == BITE_WORK_THREAD;
        int has = work == BITE_WORK_TAP || (owned[i].mills && mills) ||
                  (owned[i].reams && work == BITE_WORK_REAM) ||
                  (strcmp(owned[i].key, "hole") == 0 && enters_by_hole(pass));
        if (!has && bite_job_check_states(check, pass, owned[i].key)) {
            (void)snprintf(message, sizeof message, "%s belongs to tapping%s", owned[i].key,
                           owned[i].reams   ? ", thread milling and reaming, and to entry = hole"
                           : owned[i].mills ? " and thread milling"
                                            : "");
            bite_job_check_complain(check, pass, owned[i].key,
                                    "remove it, or change the work of the pass", message);
        }
    }
    check_name(check, pass, "thread", BITE_THREADS);
    int threads =
        work == BITE_WORK_TAP || work == BITE_WORK_THREAD_MILL || work == BITE_WORK_THREAD;
    if (threads && !bite_job_check_states(check, pass, "thread")) {
        bite_job_check_complain(
            check, pass, "thread", "thread = M4, or 1/4-20; coolbite list threads shows all",
            work == BITE_WORK_TAP      ? "the pass names no thread to be tapped"
            : work == BITE_WORK_THREAD ? "the pass names no thread to be made"
                                       : "the pass names no thread to be milled");
    }
    if (work == BITE_WORK_TAP && bite_job_check_states(check, pass, "tool")) {
        bite_job_check_complain(check, pass, "tool", "remove it",
                                "the tap is that of the thread, and needs no tool");
    }
    if (hole != NULL && bite_job_file_pass(check->file, hole) == NULL &&
        !bite_table_has_unread_sections(check->file->table)) {
        char message[140];
        (void)snprintf(message, sizeof message, "hole names the pass %.60s, which does not exist",
                       hole);
        bite_job_check_complain(check, pass, "hole",
                                "state the NAME of the [pass.NAME] that drills", message);
    } else if (hole != NULL && bite_job_file_pass(check->file, hole) == pass) {
        bite_job_check_complain(check, pass, "hole",
                                "state the NAME of the [pass.NAME] that drills",
                                "the pass cannot make its own hole");
    }
}

/* The groove of a thread gives the cut of its mill, which enters on the hole's axis. Where the plan
 * decides how it is made, settings of one way make no sense. */
static void check_thread_mill(bite_job_file_check *check, const bite_section *pass, uint32_t work)
{
    static const char *const keys[] = {"width",      "pass_depth", "entry",   "ramp_angle",
                                       "entry_feed", "tool",       "spindle", "feed"};
    size_t count = work == BITE_WORK_THREAD ? COUNT(keys) : work == BITE_WORK_THREAD_MILL ? 5 : 0;
    for (size_t i = 0; i < count; i++) {
        char message[100];
        if (!bite_job_check_states(check, pass, keys[i])) {
            continue;
        }
        (void)snprintf(message, sizeof message,
                       i < 5 ? "%s has no effect when a thread is milled"
                             : "%s depends on whether the thread is tapped or milled",
                       keys[i]);
        bite_job_check_complain(check, pass, keys[i],
                                i < 5 ? "remove it: thread, hole and mill give the cut"
                                      : "remove it, or state work = tap or work = thread-mill",
                                message);
    }
}

/* A boss has a size, and stands inside the part. */
static void check_boss(bite_job_file_check *check, const bite_section *pass)
{
    double longest = fmax(bite_job_file_number(check->file->part, "length"),
                          bite_job_file_number(check->file->part, "width"));
    if (!bite_job_check_states(check, pass, "length") ||
        !bite_job_check_states(check, pass, "across")) {
        bite_job_check_complain(check, pass, "around", "length = 20 mm and across = 12 mm",
                                "the boss does not state its size");
    }
    at_most(check, pass, "length", longest, "the boss is longer than the part",
            "length and across are the sides of the boss, not of the path");
    at_most(check, pass, "across", longest, "the boss is wider than the part",
            "length and across are the sides of the boss, not of the path");
    if (bite_job_check_states(check, pass, "inside_radius")) {
        bite_job_check_complain(check, pass, "inside_radius", "remove it",
                                "the path round a boss has outside corners only");
    }
}

static void check_pass(bite_job_file_check *check, const bite_section *pass)
{
    const bite_section *part = check->file->part;
    const bite_section *stock = check->file->stock;
    double thickness = bite_job_file_number(part, "thickness");
    double number = bite_job_file_setup_of(pass);
    const bite_section *setup =
        number >= 1.0 && number <= BITE_SETUPS_MAX ? check->file->setups[(size_t)number - 1] : NULL;
    int flat = bite_job_file_word(setup, "side", BITE_SIDE_TOP) <= BITE_SIDE_BOTTOM;
    double thick = flat ? fmax(thickness, fmax(bite_job_file_number(stock, "nominal"),
                                               bite_job_file_number(stock, "thickest")))
                        : height_in(check->file, setup);
    const char *tool = bite_job_file_text(pass, "tool");
    uint32_t work = bite_job_file_word(pass, "work", BITE_WORK_COUNT);
    if (!bite_job_check_states(check, pass, "work")) {
        bite_job_check_complain(check, pass, "work",
                                "state one of face, rough, slot, pocket, bore, drill, contour, "
                                "finish, chamfer, cut-free, tap, ream, thread-mill, thread",
                                "the pass does not state its work");
    }
    if (tool != NULL) {
        check_tool(check, pass, "tool", tool);
    } else if (work == BITE_WORK_DRILL || work == BITE_WORK_REAM) {
        bite_job_check_complain(
            check, pass, "tool", "state its diameter: tool = 2mm",
            work == BITE_WORK_DRILL
                ? "the pass names no tool, and the drill determines the size of the hole"
                : "the pass names no tool, and the reamer determines the size of the hole");
    }
    check_entry(check, pass, work);
    check_hole(check, pass, work);
    check_thread_mill(check, pass, work);
    if (!flat || bite_job_file_number(stock, "nominal") > 0.0 ||
        bite_job_file_number(stock, "thickest") > 0.0) {
        at_most(check, pass, "depth", bite_job_file_deepest(work, thick),
                flat ? "the pass is deeper than the sheet" : "the pass is deeper than the part",
                "depth is that of the whole feature, from its own face");
    }
    if (bite_job_file_number(pass, "pass_depth") >
        bite_job_file_number(pass, "depth") * (1.0 + 1e-9)) {
        bite_job_check_complain(check, pass, "pass_depth", "depth is that of the whole feature",
                                "pass_depth exceeds the depth of the whole feature");
    }
    if (work == BITE_WORK_FACE && !flat && !bite_job_check_states(check, pass, "depth")) {
        bite_job_check_complain(check, pass, "depth", "state what comes off: depth = 1 mm",
                                "the pass states no depth, and what an edge loses does not follow "
                                "from the sheet");
    }
    if (work == BITE_WORK_CHAMFER && !bite_job_check_states(check, pass, "depth")) {
        bite_job_check_complain(check, pass, "depth", "state its leg: depth = 0.3 mm",
                                "the pass states no depth, which is the size of a chamfer");
    }
    if (work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH || work == BITE_WORK_BORE) {
        double length = bite_job_file_number(part, "length");
        double longest = isnan(length + bite_job_file_number(part, "width"))
                             ? (double)NAN
                             : fmax(length, bite_job_file_number(part, "width"));
        at_most(check, pass, "length", longest, "the feature is longer than the part",
                "length is that of the feature itself, not of the path");
        at_most(check, pass, "across", longest, "the feature is wider than the part",
                "across is the shorter side, or the diameter of a bore");
    }
    if (work == BITE_WORK_SLOT && bite_job_check_states(check, pass, "width")) {
        bite_job_check_complain(check, pass, "width",
                                "state across = 3 mm for the width of the slot",
                                "width is the engagement of a side cut, and a slot has none");
    }
    if (bite_job_check_states(check, pass, "around") && work != BITE_WORK_CONTOUR &&
        work != BITE_WORK_FINISH && work != BITE_WORK_CHAMFER) {
        bite_job_check_complain(check, pass, "around", "remove it",
                                "around belongs to a contour, a finishing cut or a chamfer");
    } else if (bite_pass_rounds_boss(pass)) {
        check_boss(check, pass);
    }
    if (!bite_job_check_states(check, pass, "wall") &&
        (bite_job_check_states(check, pass, "wall_height") ||
         bite_job_check_states(check, pass, "wall_length"))) {
        bite_job_check_complain(
            check, pass,
            bite_job_check_states(check, pass, "wall_height") ? "wall_height" : "wall_length",
            "state wall = 1 mm, its thickness, too", "the height or length of a wall without one");
    }
    whole(check, pass, "setup", "setup = 2", "the setup must be a whole number");
    whole(check, pass, "count", "count = 4", "the number of features must be a whole number");
    check_stages(check, pass, work);
    check_quantity(check, pass, "spindle", BITE_KIND_ROTATION, BITE_KIND_SURFACE_SPEED);
    check_quantity(check, pass, "feed", BITE_KIND_SPEED, BITE_KIND_TOOTH_FEED);
}

static void check_fluids(bite_job_file_check *check)
{
    static const char *const keys[] = {"coolant_fluid", "cleaner", "remover", "marking", "tapping"};
    for (size_t i = 0; i < COUNT(keys); i++) {
        const char *name = bite_job_file_text(check->file->fluids, keys[i]);
        const bite_item_record *fluid = NULL;
        bite_error error = BITE_ERROR_INIT;
        if (name != NULL && bite_fluid_find(check->library, name, &fluid, &error) != BITE_OK) {
            bite_job_check_error(check, check->file->fluids, keys[i], NULL, &error);
        }
    }
}

void bite_job_check_sense(bite_job_file_check *check)
{
    check_part(check);
    check_stock(check);
    check_name(check, check->file->machine, "name", BITE_MACHINES);
    check_name(check, check->file->machine, "holder", BITE_HOLDERS);
    if (check->file->hold != NULL) {
        check_hold(check, check->file->hold);
    }
    for (size_t i = 0; i < BITE_SETUPS_MAX; i++) {
        if (check->file->setups[i] != NULL) {
            check_hold(check, check->file->setups[i]);
        }
    }
    check_tools(check);
    check_fluids(check);
    for (size_t i = 0; i < check->file->pass_count; i++) {
        check_pass(check, check->file->passes[i]);
    }
    bite_job_check_order(check);
    for (size_t i = 0; i < check->file->check_count; i++) {
        bite_job_check_inspection(check, check->file->checks[i]);
    }
}
