/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The keys of a job file: their kinds, words and ranges. */
#include "core/job/job_file_schema.h"
#include "core/job/job_file.h"
#include <string.h>

#define UM 1e-6
#define DEG 0.017453292519943295
#define TEXT(name)                                                                                 \
    {                                                                                              \
        name, BITE_FIELD_TEXT, 0, 0, 0, NULL                                                       \
    }
#define WORD(name, words)                                                                          \
    {                                                                                              \
        name, BITE_FIELD_WORD, 0, 0, 0, words                                                      \
    }
#define FIGURE(name, kind, least, most)                                                            \
    {                                                                                              \
        name, BITE_FIELD_FIGURE, kind, least, most, NULL                                           \
    }
#define LENGTH(name, least, most) FIGURE(name, BITE_KIND_LENGTH, least, most)
#define COUNT(list) (sizeof list / sizeof *list)

static const char *const no_yes[] = {"no", "yes", NULL};
static const char *const on_off[] = {"off", "on", NULL};
static const char *const units_words[] = {"metric", "inch", NULL};
/* in the order of bite_goal */
static const char *const goal_words[] = {"usual", "gentle", "fine", "fast", "cool", NULL};
static const char *const face_words[] = {"both", "top", "none", NULL};
static const char *const parting_words[] = {"bought", "saw", "score", "laser", NULL};
static const char *const coolant_words[] = {"none", "air", "mist", "flood", NULL};
static const char *const entry_words[] = {"outside", "plunge", "ramp", "helix", "hole", NULL};
static const char *const along_words[] = {"length", "width", NULL};
static const char *const on_words[] = {"part", "blank", NULL};
static const char *const around_words[] = {"part", "feature", "boss", NULL};
static const char *const support_words[] = {"none", "tape", "wax", "vacuum", NULL};
static const char *const screw_classes[] = {"4.6",  "4.8",   "5.8",   "8.8",   "10.9",
                                            "12.9", "a2-50", "a2-70", "a4-80", NULL};
static const char *const side_words[] = {"top", "bottom", "front", "back", "left", "right", NULL};
static const char *const hand_words[] = {"right", "left", NULL};
static const char *const datum_xy_words[] = {"blank-corner", "finished-edge", "centre",
                                             "hole",         "fixture",       NULL};
static const char *const datum_z_words[] = {"stock-top", "finished-face", "fixture", NULL};
static const char *const work_words[] = {"face",  "rough",   "slot",        "pocket",  "bore",
                                         "drill", "contour", "finish",      "chamfer", "cut-free",
                                         "tap",   "ream",    "thread-mill", "thread",  NULL};
static const char *const work_titles[] = {
    "face",  "rough",         "slot",          "pocket",          "bore",
    "drill", "cut a contour", "finish walls",  "chamfer an edge", "cut free",
    "tap",   "ream",          "mill a thread", "make a thread",   NULL};

static const bite_field job_fields[] = {
    TEXT("title"), TEXT("customer"),           TEXT("drawing"),          TEXT("shop"),
    TEXT("note"),  WORD("units", units_words), WORD("goal", goal_words), WORD("made_up", no_yes),
};
static const bite_field part_fields[] = {
    TEXT("name"),
    TEXT("material"),
    LENGTH("length", 100 * UM, 10),
    LENGTH("width", 100 * UM, 10),
    LENGTH("thickness", 10 * UM, 0.3),
    LENGTH("thinnest", 10 * UM, 0.3),
    FIGURE("count", BITE_KIND_NUMBER, 1, 10000),
    LENGTH("inside_radius", 10 * UM, 1),
    LENGTH("tolerance", 1e-7, 0.01),
    TEXT("class"), /* general tolerance of sizes that state none */
    LENGTH("flatness", 1 * UM, 0.1),
    LENGTH("finish", 1e-9, 1e-3),
    WORD("clear", no_yes),
};
static const bite_field stock_fields[] = {
    LENGTH("nominal", 10 * UM, 0.3),
    LENGTH("length", 1e-3, 10),
    LENGTH("width", 1e-3, 10),
    LENGTH("thinnest", 10 * UM, 0.3),
    LENGTH("thickest", 10 * UM, 0.3),
    LENGTH("skim", 0, 0.05),
    WORD("faces", face_words),
    FIGURE("share_top", BITE_KIND_FRACTION, 0, 1),
    WORD("parted_by", parting_words),
    WORD("film", on_off),
    WORD("annealed", no_yes),
    FIGURE("skin_stress", BITE_KIND_STRESS, 0, 1e9),
    FIGURE("face_strain", BITE_KIND_FRACTION, 0, 0.05),
    FIGURE("face_warmth", BITE_KIND_NUMBER, 0, 100),
    LENGTH("coupon_cut", 1 * UM, 0.1),
    LENGTH("coupon_bow", 0, 0.1),
    LENGTH("coupon_span", 1e-3, 1),
    FIGURE("moisture_strain", BITE_KIND_FRACTION, 0, 0.05),
    LENGTH("gap", 0, 0.1),
    LENGTH("margin", 0, 0.2),
    WORD("sold_in", units_words),
    FIGURE("per_blank", BITE_KIND_NUMBER, 1, 10000),
};
static const bite_field machine_fields[] = {
    TEXT("name"),
    TEXT("holder"),
    LENGTH("runout", 0, 1e-3),
    FIGURE("acceleration", BITE_KIND_ACCELERATION, 0.001, 200),
    LENGTH("corner_deviation", 0.1 * UM, 1e-3),
    FIGURE("ramp", BITE_KIND_TIME, 0, 10), /* to full acceleration: its rate is the jerk */
    FIGURE("rapid", BITE_KIND_SPEED, 1e-3 / 60.0, 200.0 / 60.0),
    FIGURE("spindle_start", BITE_KIND_TIME, 0, 600),
    FIGURE("set_zero", BITE_KIND_TIME, 0, 36000),
    FIGURE("room", BITE_KIND_TEMPERATURE, 250, 340),
    LENGTH("travel_x", 0.005, 20), /* these and the following as in the table of machines */
    LENGTH("travel_y", 0.005, 20),
    LENGTH("travel_z", 0.005, 5),
    LENGTH("table_length", 0.005, 20),
    LENGTH("table_width", 0.005, 20),
    LENGTH("spindle_to_table", 0.005, 5),
    LENGTH("holder_length", 0, 1),
    LENGTH("holder_diameter", 0.003, 0.5),
    LENGTH("vise_width", 0.005, 1),
    LENGTH("vise_opening", 0.005, 2),
    LENGTH("vise_depth", 0.001, 0.5),
    LENGTH("vise_height", 0, 1),
};
static const bite_field tools_fields[] = {TEXT("at_hand"),
                                          FIGURE("change", BITE_KIND_TIME, 0, 7200)};
/* torque is that of each screw */
#define HOLD_FIELDS                                                                                \
    TEXT("method"), FIGURE("area", BITE_KIND_AREA, 1e-9, 10), LENGTH("glue_gap", 0, 1e-3),         \
        LENGTH("between_jaws", 1e-3, 2), FIGURE("clamp_force", BITE_KIND_FORCE, 1, 1e6),           \
        LENGTH("groove", 0, 1), LENGTH("break_through", 0, 0.01),                                  \
        FIGURE("friction", BITE_KIND_NUMBER, 0.01, 2), LENGTH("jaw_depth", 100 * UM, 1),           \
        FIGURE("screws", BITE_KIND_NUMBER, 1, 1000), LENGTH("screw", 500 * UM, 0.1),               \
        FIGURE("torque", BITE_KIND_TORQUE, 1e-4, 5000), LENGTH("engaged", 100 * UM, 1),            \
        LENGTH("screws_apart", 1e-3, 10), FIGURE("plate_shear", BITE_KIND_STRESS, 1e4, 1e10),      \
        FIGURE("screw_shear", BITE_KIND_STRESS, 1e4, 1e10), WORD("screw_class", screw_classes),    \
        WORD("support", support_words), FIGURE("tabs", BITE_KIND_NUMBER, 1, 1000),                 \
        LENGTH("tab_width", 10 * UM, 1), LENGTH("tab_height", 10 * UM, 0.3),                       \
        LENGTH("height", 0, 1)
static const bite_field hold_fields[] = {HOLD_FIELDS};
static const bite_field setup_fields[] = {HOLD_FIELDS,
                                          WORD("side", side_words),
                                          WORD("datum_xy", datum_xy_words),
                                          WORD("datum_z", datum_z_words),
                                          WORD("coolant", coolant_words),
                                          TEXT("note")};
static const bite_field fluids_fields[] = {
    WORD("coolant", coolant_words),
    TEXT("coolant_fluid"),
    TEXT("cleaner"),
    TEXT("remover"),
    TEXT("marking"),
    TEXT("tapping"),
};
static const bite_field pass_fields[] = {
    TEXT("title"),
    WORD("work", work_words),
    TEXT("tool"),
    TEXT("rough_tool"),
    WORD("rest", no_yes),
    WORD("finish_lap", no_yes),
    FIGURE("setup", BITE_KIND_NUMBER, 1, BITE_SETUPS_MAX),
    FIGURE("count", BITE_KIND_NUMBER, 1, 10000),
    LENGTH("depth", 1 * UM, 0.3),
    LENGTH("pass_depth", 1 * UM, 0.3),
    LENGTH("width", 1 * UM, 0.1),
    LENGTH("length", 1 * UM, 100),
    LENGTH("across", 1 * UM, 10),
    LENGTH("floor", 0, 0.3),
    LENGTH("wall", 10 * UM, 0.3),
    LENGTH("wall_height", 10 * UM, 0.3),
    LENGTH("wall_length", 10 * UM, 10),
    LENGTH("gap", 10 * UM, 10),
    LENGTH("tolerance", 1e-7, 0.01),
    LENGTH("inside_radius", 10 * UM, 1),
    LENGTH("finish", 1e-9, 1e-3),
    TEXT("spindle"),
    TEXT("feed"),
    WORD("entry", entry_words),
    FIGURE("ramp_angle", BITE_KIND_ANGLE, 0.1 * DEG, 45 * DEG),
    FIGURE("entry_feed", BITE_KIND_SPEED, 0.1e-3 / 60.0, 200.0 / 60.0),
    LENGTH("tip_below", 0, 0.05),
    WORD("coolant", coolant_words),
    TEXT("after"),
    WORD("around", around_words),
    TEXT("thread"),
    WORD("hand", hand_words),
    TEXT("hole"),
    FIGURE("lead", BITE_KIND_NUMBER, 1, 12),
    TEXT("at"),
    WORD("along", along_words),
};
static const bite_field screw_fields[] = {TEXT("at"),
                                          WORD("on", on_words),
                                          LENGTH("head", 500 * UM, 0.1),
                                          LENGTH("below", 0, 0.3),
                                          LENGTH("height", 0, 0.5),
                                          FIGURE("setup", BITE_KIND_NUMBER, 1, 1000)};
static const bite_field clamp_fields[] = {TEXT("at"),
                                          WORD("on", on_words),
                                          LENGTH("length", 500 * UM, 10),
                                          LENGTH("width", 500 * UM, 10),
                                          LENGTH("below", 0, 0.3),
                                          LENGTH("height", 0, 0.5),
                                          FIGURE("setup", BITE_KIND_NUMBER, 1, 1000)};
static const bite_field check_fields[] = {
    TEXT("what"),
    LENGTH("nominal", 0, 10),
    LENGTH("tolerance", 0, 1),
    LENGTH("lower", 0, 10),
    LENGTH("upper", 0, 10),
    TEXT("class"),
    WORD("measures", bite_measured_words),
    TEXT("instrument"),
    TEXT("with"),
    TEXT("pass"),
    FIGURE("every", BITE_KIND_NUMBER, 1, 10000),
    TEXT("zone"),
    TEXT("designator"),
    TEXT("note"),
};

static const bite_section_schema sections[] = {
    {"job", job_fields, COUNT(job_fields), 0, 0},
    {"part", part_fields, COUNT(part_fields), 0, 0},
    {"stock", stock_fields, COUNT(stock_fields), 0, 0},
    {"machine", machine_fields, COUNT(machine_fields), 0, 0},
    {"tools", tools_fields, COUNT(tools_fields), 0, 0},
    {"hold", hold_fields, COUNT(hold_fields), 0, 0},
    {"fluids", fluids_fields, COUNT(fluids_fields), 0, 0},
    {"setup.", setup_fields, COUNT(setup_fields), 1, 0},
    {"pass.", pass_fields, COUNT(pass_fields), 1, 0},
    {"check.", check_fields, COUNT(check_fields), 1, 0},
    {"screw.", screw_fields, COUNT(screw_fields), 1, 0},
    {"clamp.", clamp_fields, COUNT(clamp_fields), 1, 0},
};
const bite_table_schema bite_job_file_schema = {"job", 1, sections, COUNT(sections), 1};

const bite_field *bite_job_file_field(const char *section, const char *name)
{
    for (size_t i = 0; i < bite_job_file_schema.section_count; i++) {
        const bite_section_schema *schema = &bite_job_file_schema.sections[i];
        for (size_t k = 0; strcmp(schema->name, section) == 0 && k < schema->field_count; k++) {
            if (strcmp(schema->fields[k].name, name) == 0) {
                return &schema->fields[k];
            }
        }
    }
    return NULL;
}

const char *bite_side_word(uint32_t side)
{
    return side < COUNT(side_words) - 1 ? side_words[side] : NULL;
}

const char *bite_datum_title(const char *word)
{
    static const char *const titles[][2] = {
        {"blank-corner", "a corner of the blank"},
        {"finished-edge", "a finished edge"},
        {"centre", "the centre of the part"},
        {"hole", "a finished hole"},
        {"stock-top", "the top of the stock"},
        {"finished-face", "a finished face"},
        {"fixture", "the fixture"},
    };
    for (size_t i = 0; i < COUNT(titles); i++) {
        if (strcmp(word, titles[i][0]) == 0) {
            return titles[i][1];
        }
    }
    return word;
}

const char *bite_work_word(uint32_t work)
{
    return work < BITE_WORK_COUNT ? work_words[work] : NULL;
}

const char *bite_work_title(uint32_t work)
{
    return work < BITE_WORK_COUNT ? work_titles[work] : NULL;
}
