/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sections and keys of every kind of table, with the bounds of each figure in SI. A value
 * outside its bounds is treated as a misprint and refused. */
#include "core/library/schema.h"
#include "core/library/input_field.h"
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)

#define UM 1e-6
#define RPM (1.0 / 60.0)

/* The members of one bite_field. */
#define FIGURE(name, kind, least, most) name, BITE_FIELD_FIGURE, kind, least, most, NULL
#define CURVE(name, kind, least, most) name, BITE_FIELD_CURVE, kind, least, most, NULL
#define TEXT(name) name, BITE_FIELD_TEXT, 0, 0, 0, NULL
#define PARENT(name) name, BITE_FIELD_PARENT, 0, 0, 0, NULL
#define WORD(name, words) name, BITE_FIELD_WORD, 0, 0, 0, words

static const char *const tool_material_words[] = {"carbide", "hss", "diamond", NULL};

static const char *const no_yes_words[] = {"no", "yes", NULL};

static const char *const operation_words[] = {"mill", "drill", "chamfer", "tap", "ream", NULL};

static const bite_field tool_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {WORD("tool_material", tool_material_words)},
    {FIGURE("diameter", BITE_KIND_LENGTH, 50 * UM, 0.05)},
    {FIGURE("flutes", BITE_KIND_NUMBER, 1, 16)},
    {FIGURE("corner_radius", BITE_KIND_LENGTH, 0, 0.025)},
    {FIGURE("helix", BITE_KIND_ANGLE, -1.23, 1.23)},
    {FIGURE("rake", BITE_KIND_ANGLE, -0.53, 0.7)},
    {FIGURE("edge_radius", BITE_KIND_LENGTH, 0.05 * UM, 200 * UM)},
    {FIGURE("edge_wear", BITE_KIND_NUMBER, 0.5, 20)},
    {FIGURE("runout", BITE_KIND_LENGTH, 0, 1e-3)},
    {FIGURE("flute_length", BITE_KIND_LENGTH, 50 * UM, 0.2)},
    {FIGURE("neck_diameter", BITE_KIND_LENGTH, 20 * UM, 0.05)},
    {FIGURE("neck_length", BITE_KIND_LENGTH, 0, 0.2)},
    {FIGURE("shank_diameter", BITE_KIND_LENGTH, 50 * UM, 0.06)},
    {FIGURE("stickout", BITE_KIND_LENGTH, 200 * UM, 0.3)},
    {FIGURE("tool_turn_limit", BITE_KIND_ROTATION, RPM, 500000 * RPM)},
    {FIGURE("taper", BITE_KIND_ANGLE, 0.017, 1.4)},
    {FIGURE("tip_diameter", BITE_KIND_LENGTH, 1 * UM, 0.05)},
    {WORD("engraves", no_yes_words)},
    {WORD("thread_mill", no_yes_words)},
    {WORD("full_form", no_yes_words)},
    {FIGURE("pitch_least", BITE_KIND_LENGTH, 50 * UM, 0.02)},
    {FIGURE("pitch_most", BITE_KIND_LENGTH, 50 * UM, 0.02)},
    {WORD("centre_cutting", no_yes_words)},
    {WORD("operation", operation_words)},
    {FIGURE("point_angle", BITE_KIND_ANGLE, 0.69, 3.15)},
    {FIGURE("tap_lead", BITE_KIND_NUMBER, 1, 12)},
};

static const bite_field tool_material_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {FIGURE("tool_modulus", BITE_KIND_STRESS, 10e9, 1200e9)},
    {FIGURE("tool_poisson", BITE_KIND_NUMBER, 0, 0.49)},
    {FIGURE("tool_strength", BITE_KIND_STRESS, 10e6, 10e9)},
    {FIGURE("tool_conductivity", BITE_KIND_CONDUCTIVITY, 0.5, 2500)},
    {FIGURE("tool_density", BITE_KIND_DENSITY, 1000, 25000)},
    {FIGURE("tool_heat_capacity", BITE_KIND_HEAT_CAPACITY, 50, 3000)},
    {FIGURE("stiff_share", BITE_KIND_NUMBER, 0.3, 1)},
    {FIGURE("core_share", BITE_KIND_NUMBER, 0.2, 1)},
};

static const bite_field holder_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {FIGURE("runout", BITE_KIND_LENGTH, 0, 1e-3)},
    {FIGURE("holder_diameter", BITE_KIND_LENGTH, 0.003, 0.5)},
};

static const bite_field machine_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {FIGURE("spindle_slowest", BITE_KIND_ROTATION, 0, 500000 * RPM)},
    {FIGURE("spindle_fastest", BITE_KIND_ROTATION, RPM, 500000 * RPM)},
    {FIGURE("feed_fastest", BITE_KIND_SPEED, 1e-3 / 60.0, 200.0 / 60.0)},
    {FIGURE("acceleration", BITE_KIND_ACCELERATION, 0.001, 200)},
    {FIGURE("power_limit", BITE_KIND_POWER, 0.1, 200e3)},
    {FIGURE("torque_limit", BITE_KIND_TORQUE, 1e-4, 5000)},
    {FIGURE("torque_speed", BITE_KIND_ROTATION, RPM, 500000 * RPM)},
    {FIGURE("torque_exponent", BITE_KIND_NUMBER, 0, 5)},
    {FIGURE("machine_stiffness", BITE_KIND_STIFFNESS, 1e3, 1e10)},
    {FIGURE("frame_share", BITE_KIND_NUMBER, 0.05, 0.95)},
    {FIGURE("frame_frequency", BITE_KIND_FREQUENCY, 1, 1e5)},
    {FIGURE("frame_damping", BITE_KIND_NUMBER, 1e-4, 0.5)},
    {FIGURE("spindle_frequency", BITE_KIND_FREQUENCY, 1, 1e5)},
    {FIGURE("spindle_damping", BITE_KIND_NUMBER, 1e-4, 0.5)},
    {FIGURE("runout", BITE_KIND_LENGTH, 0, 1e-3)},
    {WORD("backlash", no_yes_words)},
    {WORD("tool_changer", no_yes_words)},
    {FIGURE("tool_change", BITE_KIND_TIME, 0, 7200)},
    {FIGURE("spindle_start", BITE_KIND_TIME, 0, 600)},
    {FIGURE("set_zero", BITE_KIND_TIME, 0, 36000)},
    {FIGURE("rapid", BITE_KIND_SPEED, 1e-3 / 60.0, 200.0 / 60.0)},
    {FIGURE("travel_x", BITE_KIND_LENGTH, 0.005, 20)},
    {FIGURE("travel_y", BITE_KIND_LENGTH, 0.005, 20)},
    {FIGURE("travel_z", BITE_KIND_LENGTH, 0.005, 5)},
    {FIGURE("table_length", BITE_KIND_LENGTH, 0.005, 20)},
    {FIGURE("table_width", BITE_KIND_LENGTH, 0.005, 20)},
    {FIGURE("spindle_to_table", BITE_KIND_LENGTH, 0.005, 5)},
    {FIGURE("holder_length", BITE_KIND_LENGTH, 0, 1)},
    {FIGURE("holder_diameter", BITE_KIND_LENGTH, 0.003, 0.5)},
    {FIGURE("vise_width", BITE_KIND_LENGTH, 0.005, 1)},
    {FIGURE("vise_opening", BITE_KIND_LENGTH, 0.005, 2)},
    {FIGURE("vise_depth", BITE_KIND_LENGTH, 0.001, 0.5)},
    {FIGURE("vise_height", BITE_KIND_LENGTH, 0, 1)},
};

static const bite_field coolant_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {FIGURE("cooling", BITE_KIND_HEAT_TRANSFER, 0, 1e5)},
    {FIGURE("surface_cooling", BITE_KIND_HEAT_TRANSFER, 0, 1e5)},
};

static const char *const hold_sort_words[] = {"bond", "vacuum", "clamp", NULL};
static const char *const hold_clamp_words[] = {"jaws", "screws", "tabs", NULL};
static const bite_field hold_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {WORD("sort", hold_sort_words)},
    {WORD("clamp", hold_clamp_words)},
    {TEXT("layers")},
    {TEXT("solvent")},
    {TEXT("put_on")},
    {TEXT("release")},
    {WORD("glued", no_yes_words)},
    {FIGURE("put_on_time", BITE_KIND_TIME, 0, 1e6)},
    {FIGURE("release_time", BITE_KIND_TIME, 0, 1e6)},
    {FIGURE("put_on_wait", BITE_KIND_TIME, 0, 1e6)},
    {FIGURE("release_wait", BITE_KIND_TIME, 0, 1e6)},
    {FIGURE("friction", BITE_KIND_NUMBER, 0.01, 2)},
    {FIGURE("clamp_force", BITE_KIND_FORCE, 1, 1e6)},
    {FIGURE("jaw_depth", BITE_KIND_LENGTH, 100 * UM, 1)},
    {FIGURE("screws", BITE_KIND_NUMBER, 1, 1000)},
    {FIGURE("screw", BITE_KIND_LENGTH, 500 * UM, 0.1)},
    {FIGURE("torque", BITE_KIND_TORQUE, 1e-4, 5000)},
    {FIGURE("engaged", BITE_KIND_LENGTH, 100 * UM, 1)},
    {FIGURE("plate_shear", BITE_KIND_STRESS, 1e4, 1e10)},
    {FIGURE("screw_shear", BITE_KIND_STRESS, 1e4, 1e10)},
    {FIGURE("tabs", BITE_KIND_NUMBER, 1, 1000)},
    {FIGURE("tab_width", BITE_KIND_LENGTH, 10 * UM, 1)},
    {FIGURE("tab_share", BITE_KIND_FRACTION, 0.01, 1)},
    {FIGURE("bond_shear", BITE_KIND_STRESS, 10, 1e9)},
    {FIGURE("bond_pull", BITE_KIND_STRESS, 10, 1e9)},
    {FIGURE("bond_exponent", BITE_KIND_NUMBER, 0, 1)},
    {FIGURE("bond_halving", BITE_KIND_RISE, 1, 1000)},
    {FIGURE("bond_modulus", BITE_KIND_STRESS, 1e3, 100e9)},
    {FIGURE("bond_thickness", BITE_KIND_LENGTH, 1 * UM, 0.05)},
    {FIGURE("bond_adhesion", BITE_KIND_FRACTION, 0.01, 2)},
    {FIGURE("bond_limit", BITE_KIND_TEMPERATURE, 250, 1000)},
};

static const bite_field layer_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {FIGURE("bond_shear", BITE_KIND_STRESS, 10, 1e9)},
    {FIGURE("bond_pull", BITE_KIND_STRESS, 10, 1e9)},
    {FIGURE("bond_exponent", BITE_KIND_NUMBER, 0, 1)},
    {FIGURE("bond_halving", BITE_KIND_RISE, 1, 1000)},
    {FIGURE("bond_modulus", BITE_KIND_STRESS, 1e3, 100e9)},
    {FIGURE("bond_limit", BITE_KIND_TEMPERATURE, 250, 1000)},
    {FIGURE("thickness", BITE_KIND_LENGTH, 1 * UM, 0.05)},
};

static const bite_field sheet_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {TEXT("standard")},
    {FIGURE("fixed", BITE_KIND_LENGTH, 0, 0.01)},
    {FIGURE("share", BITE_KIND_FRACTION, 0, 0.9)},
    {FIGURE("thin_share", BITE_KIND_FRACTION, 0, 0.9)},
    {FIGURE("thin_under", BITE_KIND_LENGTH, 0, 1)},
    {TEXT("nominals")},
    {TEXT("sizes")},
    {TEXT("steps")},
    {TEXT("inch_standard")},
    {FIGURE("inch_fixed", BITE_KIND_LENGTH, 0, 0.01)},
    {FIGURE("inch_share", BITE_KIND_FRACTION, 0, 0.9)},
    {TEXT("inch_nominals")},
    {TEXT("inch_sizes")},
    {TEXT("inch_steps")},
    {WORD("over_only", no_yes_words)},
    {TEXT("lists")},
    {TEXT("score")},
    {TEXT("saw")},
    {TEXT("laser")},
};

static const char *const rating_words[] = {"safe", "risk", "no", NULL};
static const bite_field fluid_fields[] = {{TEXT("title")}, {TEXT("summary")}, {TEXT("also")},
                                          {TEXT("like")},  {TEXT("use")},     {TEXT("hazard")}};
static const bite_field rating_fields[] = {
    {TEXT("source")},
    {WORD("verdict", rating_words)},
    {WORD("annealed", rating_words)},
    {WORD("sheet", rating_words)},
    {TEXT("sheet_source")},
    {WORD("other", rating_words)},
    {TEXT("other_source")},
    {TEXT("says")},
    {TEXT("look")},
    {FIGURE("watch", BITE_KIND_TIME, 0, 1e8)},
};

static const bite_field symptom_fields[] = {
    {TEXT("title")},  {TEXT("summary")}, {TEXT("also")},   {TEXT("like")},
    {TEXT("limits")}, {TEXT("lacking")}, {TEXT("causes")}, {TEXT("beyond")},
};
static const bite_field cause_fields[] = {
    {TEXT("title")}, {TEXT("summary")}, {TEXT("also")}, {TEXT("like")}};

static const bite_field time_fields[] = {{TEXT("title")},
                                         {TEXT("summary")},
                                         {TEXT("also")},
                                         {TEXT("like")},
                                         {FIGURE("planned", BITE_KIND_TIME, 0, 1e9)},
                                         {FIGURE("took", BITE_KIND_TIME, 0, 1e9)}};

static const char *const contact_words[] = {"none", "flat", "ball", "blades", NULL};
static const bite_field instrument_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {TEXT("measures")},
    {WORD("judges", no_yes_words)},
    {FIGURE("resolution", BITE_KIND_LENGTH, 1e-9, 0.01)},
    {FIGURE("error_limit", BITE_KIND_LENGTH, 0, 0.01)},
    {FIGURE("error_share", BITE_KIND_FRACTION, 0, 0.1)},
    {FIGURE("handling", BITE_KIND_LENGTH, 0, 0.01)},
    {FIGURE("force", BITE_KIND_FORCE, 0, 1000)},
    {WORD("contact", contact_words)},
    {FIGURE("contact_size", BITE_KIND_LENGTH, 1 * UM, 1)},
    {FIGURE("expansion", BITE_KIND_EXPANSION, 0, 1e-3)},
    {FIGURE("least", BITE_KIND_LENGTH, 0, 10)},
    {FIGURE("most", BITE_KIND_LENGTH, 0, 100)},
};

static const bite_field thread_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {FIGURE("thread_diameter", BITE_KIND_LENGTH, 200 * UM, 0.05)},
    {FIGURE("pitch", BITE_KIND_LENGTH, 50 * UM, 8e-3)},
};

/* The keys of hole_work.ini are found by the family or substance of the material. */
static const bite_field tapping_fields[] = {
    {TEXT("like")},
    {FIGURE("speed", BITE_KIND_SURFACE_SPEED, 0.005, 5)},
    {FIGURE("thread_share", BITE_KIND_FRACTION, 0.3, 1)},
    {FIGURE("length", BITE_KIND_NUMBER, 0.5, 5)},
    {FIGURE("wall", BITE_KIND_NUMBER, 0.1, 5)},
    {WORD("forms", no_yes_words)},
    {TEXT("tap")},
    {TEXT("fluid")},
    {TEXT("says")},
};
static const bite_field reaming_fields[] = {
    {TEXT("like")},
    {FIGURE("speed", BITE_KIND_SURFACE_SPEED, 0.005, 20)},
    {TEXT("says")},
};
static const bite_field drilling_fields[] = {
    {TEXT("like")},
    {FIGURE("point", BITE_KIND_ANGLE, 0.69, 3.15)},
    {FIGURE("point_blind", BITE_KIND_ANGLE, 0.69, 3.15)},
    {FIGURE("rake", BITE_KIND_ANGLE, -0.53, 0.7)},
    {FIGURE("pilot", BITE_KIND_LENGTH, 1e-3, 0.1)},
    {TEXT("says")},
};
static const bite_field thread_milling_fields[] = {
    {TEXT("like")},
    {FIGURE("speed", BITE_KIND_SURFACE_SPEED, 0.005, 20)},
    {FIGURE("tooth_feed", BITE_KIND_NUMBER, 1e-4, 0.1)},
    {TEXT("says")},
};
static const bite_field insert_fields[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("like")},
    {FIGURE("outer", BITE_KIND_NUMBER, 1, 3)},
    {FIGURE("hole", BITE_KIND_NUMBER, 0.5, 1)},
    {FIGURE("wall", BITE_KIND_NUMBER, 0.1, 5)},
    {WORD("melts", no_yes_words)},
    {WORD("brittle", no_yes_words)},
    {TEXT("says")},
};

static const char *const shape_words[] = {"exact", "level", "normal", "lognormal", "shift", NULL};
static const bite_field spread_fields[] = {
    {WORD("shape", shape_words)},
    {FIGURE("low", BITE_KIND_NUMBER, 0.001, 1)},
    {FIGURE("high", BITE_KIND_NUMBER, 1, 1000)},
    {FIGURE("minus", BITE_KIND_NUMBER, 0, 1e4)},
    {FIGURE("plus", BITE_KIND_NUMBER, 0, 1e4)},
    {FIGURE("group", BITE_KIND_NUMBER, 1, 7)},
    {FIGURE("together", BITE_KIND_NUMBER, 0, 1)},
};

static const bite_section_schema tool_sections[] = {
    {"tool.", tool_fields, COUNT(tool_fields), 1, 1},
    {"tool_material.", tool_material_fields, COUNT(tool_material_fields), 1, 1},
};
static const bite_section_schema holder_sections[] = {
    {"holder.", holder_fields, COUNT(holder_fields), 1, 1}};
static const bite_section_schema machine_sections[] = {
    {"machine.", machine_fields, COUNT(machine_fields), 1, 1}};
static const bite_section_schema coolant_sections[] = {
    {"coolant.", coolant_fields, COUNT(coolant_fields), 1, 1}};
static const bite_section_schema hold_sections[] = {
    {"hold.", hold_fields, COUNT(hold_fields), 1, 1},
    {"layer.", layer_fields, COUNT(layer_fields), 1, 1}};
static const bite_section_schema sheet_sections[] = {
    {"sheet.", sheet_fields, COUNT(sheet_fields), 1, 1}};
static const bite_section_schema fluid_sections[] = {
    {"fluid.", fluid_fields, COUNT(fluid_fields), 1, 1},
    {"rating.", rating_fields, COUNT(rating_fields), 1, 1}};
static const bite_section_schema symptom_sections[] = {
    {"symptom.", symptom_fields, COUNT(symptom_fields), 1, 1},
    {"cause.", cause_fields, COUNT(cause_fields), 1, 1}};
static const bite_section_schema time_sections[] = {
    {"time.", time_fields, COUNT(time_fields), 1, 1}};
static const bite_section_schema instrument_sections[] = {
    {"instrument.", instrument_fields, COUNT(instrument_fields), 1, 1}};
static const bite_section_schema thread_sections[] = {
    {"thread.", thread_fields, COUNT(thread_fields), 1, 1}};
static const bite_section_schema hole_sections[] = {
    {"tapping.", tapping_fields, COUNT(tapping_fields), 1, 1},
    {"reaming.", reaming_fields, COUNT(reaming_fields), 1, 1},
    {"drilling.", drilling_fields, COUNT(drilling_fields), 1, 1},
    {"thread_milling.", thread_milling_fields, COUNT(thread_milling_fields), 1, 1},
    {"insert.", insert_fields, COUNT(insert_fields), 1, 1}};
static const bite_section_schema spread_sections[] = {
    {"spread.", spread_fields, COUNT(spread_fields), 1, 1}};

/* Tools and tool materials share a file, and so do holds and layers, fluids and ratings, symptoms
 * and causes. */
static const bite_collection_file files[BITE_COLLECTION_FILES] = {
    [COLLECTION_TOOLS] = {"tools.ini",
                          "tool.",
                          {"tools", 1, tool_sections, COUNT(tool_sections), 0}},
    [COLLECTION_TOOL_MATERIALS] = {"tools.ini",
                                   "tool_material.",
                                   {"tools", 1, tool_sections, COUNT(tool_sections), 0}},
    [COLLECTION_HOLDERS] = {"holders.ini",
                            "holder.",
                            {"holders", 1, holder_sections, COUNT(holder_sections), 0}},
    [COLLECTION_MACHINES] = {"machines.ini",
                             "machine.",
                             {"machines", 1, machine_sections, COUNT(machine_sections), 0}},
    [COLLECTION_COOLANTS] = {"coolants.ini",
                             "coolant.",
                             {"coolants", 1, coolant_sections, COUNT(coolant_sections), 0}},
    [COLLECTION_HOLDS] = {"workholding.ini",
                          "hold.",
                          {"holds", 1, hold_sections, COUNT(hold_sections), 0}},
    [COLLECTION_LAYERS] = {"workholding.ini",
                           "layer.",
                           {"holds", 1, hold_sections, COUNT(hold_sections), 0}},
    [COLLECTION_SHEETS] = {"sheet_stock.ini",
                           "sheet.",
                           {"sheets", 1, sheet_sections, COUNT(sheet_sections), 0}},
    [COLLECTION_FLUIDS] = {"fluids.ini",
                           "fluid.",
                           {"fluids", 1, fluid_sections, COUNT(fluid_sections), 0}},
    [COLLECTION_RATINGS] = {"fluids.ini",
                            "rating.",
                            {"fluids", 1, fluid_sections, COUNT(fluid_sections), 0}},
    [COLLECTION_TIMES] = {"times.ini",
                          "time.",
                          {"times", 1, time_sections, COUNT(time_sections), 0}},
    [COLLECTION_SYMPTOMS] = {"symptoms.ini",
                             "symptom.",
                             {"symptoms", 1, symptom_sections, COUNT(symptom_sections), 0}},
    [COLLECTION_INSTRUMENTS] = {"instruments.ini",
                                "instrument.",
                                {"instruments", 1, instrument_sections, COUNT(instrument_sections),
                                 0}},
    [COLLECTION_DRILLS] = {"drills.ini",
                           "tool.",
                           {"tools", 1, tool_sections, COUNT(tool_sections), 0}},
    [COLLECTION_THREADS] = {"threads.ini",
                            "thread.",
                            {"threads", 1, thread_sections, COUNT(thread_sections), 0}},
    [COLLECTION_TAPPING] = {"hole_work.ini",
                            "tapping.",
                            {"hole_work", 1, hole_sections, COUNT(hole_sections), 0}},
    [COLLECTION_REAMING] = {"hole_work.ini",
                            "reaming.",
                            {"hole_work", 1, hole_sections, COUNT(hole_sections), 0}},
    [COLLECTION_DRILLING] = {"hole_work.ini",
                             "drilling.",
                             {"hole_work", 1, hole_sections, COUNT(hole_sections), 0}},
    [COLLECTION_THREAD_MILLING] = {"hole_work.ini",
                                   "thread_milling.",
                                   {"hole_work", 1, hole_sections, COUNT(hole_sections), 0}},
    [COLLECTION_INSERTS] = {"hole_work.ini",
                            "insert.",
                            {"hole_work", 1, hole_sections, COUNT(hole_sections), 0}},
    [COLLECTION_CAUSES] = {"symptoms.ini",
                           "cause.",
                           {"symptoms", 1, symptom_sections, COUNT(symptom_sections), 0}},
    [COLLECTION_SPREADS] = {"uncertainty.ini",
                            "spread.",
                            {"model", 1, spread_sections, COUNT(spread_sections), 0}},
};

const bite_collection_file *bite_collection_file_at(int collection)
{
    return &files[collection];
}

const bite_table_schema *bite_time_records_schema(void)
{
    return &files[COLLECTION_TIMES].schema;
}

/* What a grade may state in addition to the material inputs of the physics: for cautions, for
 * display, and for the planning of a job. */
static const bite_field table_only[] = {
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("also")},
    {TEXT("near")},
    {PARENT("like")},
    {TEXT("note")},
    {TEXT("annealing_how")},
    {TEXT("moisture")},
    {TEXT("state")},
    {CURVE("heat_capacity.at", BITE_KIND_HEAT_CAPACITY, 50, 6000)},
    {CURVE("strength.at", BITE_KIND_NUMBER, 0.001, 100)},
    {FIGURE("speed_carbide", BITE_KIND_SURFACE_SPEED, 0.01, 200)},
    {FIGURE("speed_hss", BITE_KIND_SURFACE_SPEED, 0.01, 200)},
    {FIGURE("speed_diamond", BITE_KIND_SURFACE_SPEED, 0.01, 200)},
    {FIGURE("tensile_yield", BITE_KIND_STRESS, 0.1e6, 5e9)},
    {FIGURE("tensile_strength", BITE_KIND_STRESS, 0.1e6, 5e9)},
    {FIGURE("compressive_strength", BITE_KIND_STRESS, 0.1e6, 5e9)},
    {FIGURE("hardness_ball", BITE_KIND_STRESS, 0.1e6, 20e9)},
    {FIGURE("hardness_brinell", BITE_KIND_NUMBER, 1, 1000)},
    {FIGURE("relaxing", BITE_KIND_TEMPERATURE, 200, 2000)},
    {FIGURE("melting", BITE_KIND_TEMPERATURE, 200, 4000)},
    {FIGURE("service_temperature", BITE_KIND_TEMPERATURE, 250, 2000)},
    {FIGURE("annealing", BITE_KIND_TEMPERATURE, 250, 1500)},
    {FIGURE("water_uptake", BITE_KIND_FRACTION, 0, 0.5)},
    {FIGURE("sheet_stress", BITE_KIND_STRESS, 0, 1e9)},
    {"own.", BITE_FIELD_OWN, BITE_KIND_NUMBER, 0, 0, NULL}, /* figures of the family's plugin */
};

/* By bite_plugin_need. */
static const char *const plugin_words[] = {"optional", "required", NULL};
static const bite_field family_fields[] = {
    {TEXT("name")},
    {TEXT("title")},
    {TEXT("summary")},
    {TEXT("default")},
    {TEXT("also")},
    {PARENT("like")},
    {WORD("plugin", plugin_words)},
};

static const char *const severity_words[] = {"note", "care", "danger", NULL};
static const bite_field caution_fields[] = {
    {WORD("severity", severity_words)},
    {TEXT("when")},
    {TEXT("text")},
    {TEXT("source")},
};

const bite_field *bite_material_fields(bite_arena *arena, size_t *count)
{
    size_t most = bite_input_count() + COUNT(table_only);
    bite_field *fields = bite_arena_alloc(arena, most, sizeof *fields);
    if (fields == NULL) {
        return NULL;
    }
    size_t used = 0;
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        if (input->group != BITE_GROUP_MATERIAL) {
            continue;
        }
        if (!bite_input_field(arena, input, &fields[used++])) {
            return NULL;
        }
    }
    memcpy(fields + used, table_only, sizeof table_only);
    *count = used + COUNT(table_only);
    return fields;
}

bite_table_schema bite_material_schema(const bite_library *library,
                                       bite_section_schema sections[BITE_MATERIAL_SECTIONS])
{
    bite_section_schema family = {"family", family_fields, COUNT(family_fields), 0, 0};
    bite_section_schema grade = {"grade.", library->grade_fields, library->grade_field_count, 1, 1};
    bite_section_schema caution = {"caution.", caution_fields, COUNT(caution_fields), 1, 0};
    bite_section_schema self_test = {"case.", library->case_fields, library->case_field_count, 1,
                                     0};
    sections[0] = family;
    sections[1] = grade;
    sections[2] = caution;
    sections[3] = self_test;
    bite_table_schema schema = {"material", 1, sections, BITE_MATERIAL_SECTIONS, 0};
    return schema;
}
