/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading a job file. */
#include "core/job/job_file.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/job/fluid_compatibility.h"
#include "core/library/collection.h"
#include "core/library/library.h"
#include "core/library/material.h"
#include "core/names/registry.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define UM 1e-6
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
static const char *const goal_words[] = {"cool", "gentle", "fine", "fast", NULL};
static const char *const face_words[] = {"both", "top", "none", NULL};
static const char *const parting_words[] = {"bought", "saw", "score", "laser", NULL};
static const char *const coolant_words[] = {"none", "air", "mist", "flood", NULL};
static const char *const entry_words[] = {"outside", "plunge", "ramp", "helix", NULL};
static const char *const work_words[] = {"face",    "rough",    "slot",    "pocket",
                                         "bore",    "drill",    "contour", "finish",
                                         "chamfer", "cut-free", NULL};
static const char *const work_titles[] = {
    "face",         "rough",           "slot",     "pocket", "bore", "drill", "cut a contour",
    "finish walls", "chamfer an edge", "cut free", NULL};

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
    FIGURE("room", BITE_KIND_TEMPERATURE, 250, 340),
};
static const bite_field tools_fields[] = {TEXT("at_hand"),
                                          FIGURE("change", BITE_KIND_TIME, 0, 7200)};
static const bite_field hold_fields[] = {
    TEXT("method"),
    FIGURE("area", BITE_KIND_AREA, 1e-9, 10),
    LENGTH("glue_gap", 0, 1e-3),
    LENGTH("between_jaws", 1e-3, 2),
    FIGURE("clamp_force", BITE_KIND_FORCE, 1, 1e6),
    LENGTH("groove", 0, 1),
    LENGTH("break_through", 0, 0.01),
    FIGURE("friction", BITE_KIND_NUMBER, 0.01, 2),
    LENGTH("jaw_depth", 100 * UM, 1),
    FIGURE("screws", BITE_KIND_NUMBER, 1, 1000),
    LENGTH("screw", 500 * UM, 0.1),
    FIGURE("torque", BITE_KIND_TORQUE, 1e-4, 5000), /* of each screw */
    LENGTH("engaged", 100 * UM, 1),
    LENGTH("screws_apart", 1e-3, 10),
    FIGURE("plate_shear", BITE_KIND_STRESS, 1e4, 1e10),
    FIGURE("screw_shear", BITE_KIND_STRESS, 1e4, 1e10),
    FIGURE("tabs", BITE_KIND_NUMBER, 1, 1000),
    LENGTH("tab_width", 10 * UM, 1),
    LENGTH("tab_height", 10 * UM, 0.3),
};
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
    FIGURE("setup", BITE_KIND_NUMBER, 1, 2),
    FIGURE("count", BITE_KIND_NUMBER, 1, 10000),
    LENGTH("depth", 1 * UM, 0.3),
    LENGTH("pass_depth", 1 * UM, 0.3),
    LENGTH("width", 1 * UM, 0.1),
    LENGTH("length", 1 * UM, 100),
    LENGTH("across", 1 * UM, 10),
    LENGTH("floor", 0, 0.3),
    LENGTH("wall", 10 * UM, 0.3),
    LENGTH("gap", 10 * UM, 10),
    LENGTH("tolerance", 1e-7, 0.01),
    LENGTH("inside_radius", 10 * UM, 1),
    LENGTH("finish", 1e-9, 1e-3),
    TEXT("spindle"),
    TEXT("feed"),
    WORD("entry", entry_words),
    WORD("coolant", coolant_words),
    TEXT("after"),
};
static const bite_field check_fields[] = {TEXT("what"), LENGTH("nominal", 0, 10),
                                          LENGTH("tolerance", 0, 1), TEXT("with"), TEXT("note")};

static const bite_section_schema sections[] = {
    {"job", job_fields, COUNT(job_fields), 0, 0},
    {"part", part_fields, COUNT(part_fields), 0, 0},
    {"stock", stock_fields, COUNT(stock_fields), 0, 0},
    {"machine", machine_fields, COUNT(machine_fields), 0, 0},
    {"tools", tools_fields, COUNT(tools_fields), 0, 0},
    {"hold", hold_fields, COUNT(hold_fields), 0, 0},
    {"fluids", fluids_fields, COUNT(fluids_fields), 0, 0},
    {"pass.", pass_fields, COUNT(pass_fields), 1, 0},
    {"check.", check_fields, COUNT(check_fields), 1, 0},
};
static const bite_table_schema job_schema = {"job", 1, sections, COUNT(sections), 1};

const char *bite_work_word(uint32_t work)
{
    return work < BITE_WORK_COUNT ? work_words[work] : NULL;
}

const char *bite_work_title(uint32_t work)
{
    return work < BITE_WORK_COUNT ? work_titles[work] : NULL;
}

double bite_job_file_deepest(uint32_t work, double thick)
{
    const double below = 3e-3; /* m, of a drill's point or a tool's end in what lies under the
                                  sheet; common practice */
    int through = work == BITE_WORK_SLOT || work == BITE_WORK_BORE || work == BITE_WORK_DRILL ||
                  work == BITE_WORK_CONTOUR || work == BITE_WORK_FREE;
    return through ? thick + below : thick;
}

double bite_job_file_number(const bite_section *section, const char *key)
{
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    return field_value == NULL ? (double)NAN : field_value->value;
}

const char *bite_job_file_text(const bite_section *section, const char *key)
{
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    return field_value == NULL ? NULL : field_value->text;
}

uint32_t bite_job_file_word(const bite_section *section, const char *key, uint32_t otherwise)
{
    const bite_field_value *field_value = section == NULL ? NULL : bite_section_value(section, key);
    return field_value == NULL ? otherwise : field_value->word;
}

int bite_job_file_name(const char *text, size_t index, char *name, size_t size)
{
    for (size_t at = 0; text != NULL && *text != 0; at++) {
        text += strspn(text, " \t");
        size_t length = strcspn(text, " \t");
        if (length == 0) {
            return 0;
        }
        if (at == index) {
            (void)snprintf(name, size, "%.*s", (int)length, text);
            return 1;
        }
        text += length;
    }
    return 0;
}

/* ---- what only the sense of it tells ---- */

/* Faults found so far; the first is kept. */
typedef struct file_check {
    const bite_library *library;
    const bite_job_file *file;
    const char *path;
    bite_ini_fault fault;
    void *user;
    bite_error first;
    uint32_t faults;
    bite_status stop; /* BITE_NO_MEMORY ends it all */
} file_check;

static void find_fault(void *user, const bite_error *fault)
{
    file_check *check = user;
    if (check->faults++ == 0) {
        check->first = *fault;
    }
    if (check->fault != NULL) {
        check->fault(check->user, fault);
    }
}

static void complain(file_check *check, const bite_section *section, const char *key,
                     const char *hint, const bite_error *why)
{
    bite_error error = *why;
    if (why->status == BITE_NO_MEMORY) { /* of the library, not of the file */
        check->stop = BITE_NO_MEMORY;
        return;
    }
    const bite_field_value *field_value =
        section == NULL || key == NULL ? NULL : bite_section_value(section, key);
    bite_error_place(&error, check->path,
                     field_value != NULL ? field_value->line
                     : section != NULL   ? section->line
                                         : 0,
                     0);
    if (section != NULL && key != NULL) {
        bite_error_key(&error, "%s:%s", section->name, key);
    } else if (section != NULL) {
        bite_error_key(&error, "%s", section->name);
    } else if (key != NULL) {
        bite_error_key(&error, "%s", key);
    }
    if (hint != NULL) {
        bite_error_hint(&error, "%s", hint);
    }
    find_fault(check, &error);
}

static void complain_of(file_check *check, const bite_section *section, const char *key,
                        const char *hint, const char *message)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    complain(check, section, key, hint, &error);
}

/* A name that must be on a shelf. */
static void check_name(file_check *check, const bite_section *section, const char *key,
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
        complain(check, section, key, NULL, &error);
    }
}

/* A tool of the table, or a diameter. */
static void check_tool(file_check *check, const bite_section *section, const char *key,
                       const char *name)
{
    const bite_item_record *record = NULL;
    bite_error error = BITE_ERROR_INIT;
    double diameter = 0.0;
    const bite_input *range = bite_input_find("diameter");
    if (bite_library_record(check->library, BITE_TOOLS, name, &record, &error) == BITE_OK) {
        return;
    }
    if (bite_quantity_read(name, BITE_KIND_LENGTH, &diameter, NULL) == BITE_OK) {
        if (diameter < range->least || diameter > range->most) {
            complain_of(check, section, key, "look for a slip in the unit",
                        "no end mill is of such a diameter: 50 um to 50 mm");
        }
        return;
    }
    complain(check, section, key, NULL, &error);
}

static void check_tools(file_check *check)
{
    const char *at_hand = bite_job_file_text(check->file->tools, "at_hand");
    char name[64];
    size_t count = 0;
    for (; bite_job_file_name(at_hand, count, name, sizeof name); count++) {
        check_tool(check, check->file->tools, "at_hand", name);
    }
    if (count > BITE_TOOLS_AT_HAND_MAX) {
        complain_of(check, check->file->tools, "at_hand", "name those that this job may need",
                    "more tools than are looked at");
    }
}

/* A key that is there and wrong was complained of already. */
static int states(const file_check *check, const bite_section *section, const char *key)
{
    return bite_table_has_key(check->file->table, section->name, key);
}

static void need(file_check *check, const bite_section *section, const char *name, const char *key,
                 const char *hint)
{
    if (section == NULL) {
        return; /* its absence is said once */
    }
    if (!states(check, section, key)) {
        char message[120];
        (void)snprintf(message, sizeof message, "[%s] does not state %s", name, key);
        complain_of(check, section, key, hint, message);
    }
}

/* One length may not exceed another. */
static void at_most(file_check *check, const bite_section *section, const char *key, double most,
                    const char *message, const char *hint)
{
    double number = bite_job_file_number(section, key);
    if (number > most * (1.0 + 1e-9)) {
        complain_of(check, section, key, hint, message);
    }
}

static void whole(file_check *check, const bite_section *section, const char *key, const char *hint,
                  const char *message)
{
    double number = bite_job_file_number(section, key);
    if (!isnan(number) && number != floor(number)) {
        complain_of(check, section, key, hint, message);
    }
}

static void check_part(file_check *check)
{
    const bite_section *part = check->file->part;
    if (part == NULL && bite_table_has_unread_sections(check->file->table)) {
        return;
    }
    if (part == NULL) {
        complain_of(check, NULL, "part", "[part] with material, length, width and thickness",
                    "the job has no part");
        return;
    }
    need(check, part, "part", "material",
         "for example material = acrylic/cast; list materials shows what there is");
    need(check, part, "part", "length", "the longer side: length = 40 mm");
    need(check, part, "part", "width", "the shorter side: width = 30 mm");
    need(check, part, "part", "thickness", "of its thickest section: thickness = 1.6 mm");
    check_name(check, part, "material", BITE_GRADES);
    at_most(check, part, "thinnest", bite_job_file_number(part, "thickness"),
            "the thinnest section is thicker than the thickest", "swap them?");
    whole(check, part, "count", "count = 6", "parts are counted in whole numbers");
}

static void check_stock(file_check *check)
{
    const bite_section *stock = check->file->stock;
    const bite_section *part = check->file->part;
    double thickness = bite_job_file_number(part, "thickness");
    double thickest = bite_job_file_number(stock, "thickest");
    int half =
        stock != NULL && states(check, stock, "thinnest") != states(check, stock, "thickest");
    if (half) {
        complain_of(check, stock, states(check, stock, "thinnest") ? "thinnest" : "thickest",
                    "measure five places, give the least and the most",
                    "a sheet that was measured has a thinnest and a thickest place");
    }
    at_most(check, stock, "thinnest", thickest,
            "the thinnest place of the sheet is thicker than the thickest", "swap them?");
    if (bite_job_file_number(stock, "nominal") < thickness * (1.0 - 1e-9)) {
        complain_of(check, stock, "nominal", "leave it out to have it chosen",
                    "the sheet is thinner than the part");
    }
    if (thickest < thickness * (1.0 - 1e-9)) {
        complain_of(check, stock, "thickest", "measure again, or another sheet",
                    "the sheet as measured is thinner than the part");
    }
}

/* What only one way of clamping asks for is not dropped in another. */
static void check_clamp_keys(file_check *check)
{
    static const struct {
        const char *key;
        const char *clamp; /* words of the hold's `clamp` */
    } owned[] = {
        {"between_jaws", "jaws"},   {"jaw_depth", "jaws"},     {"screws", "screws"},
        {"screw", "screws"},        {"torque", "screws"},      {"engaged", "screws"},
        {"screws_apart", "screws"}, {"plate_shear", "screws"}, {"screw_shear", "screws"},
        {"tabs", "tabs"},           {"tab_width", "tabs"},     {"tab_height", "tabs"},
    };
    const bite_section *hold = check->file->hold;
    const char *method = bite_job_file_text(hold, "method");
    const bite_item_record *record = NULL;
    if (method == NULL ||
        bite_library_record(check->library, BITE_HOLDS, method, &record, NULL) != BITE_OK) {
        return;
    }
    const char *clamp = bite_item_text(record, "clamp");
    for (size_t i = 0; i < COUNT(owned); i++) {
        if (states(check, hold, owned[i].key) && strcmp(owned[i].clamp, clamp) != 0) {
            char message[160];
            (void)snprintf(message, sizeof message,
                           "%s is of holding by %s, and the method is %.60s", owned[i].key,
                           owned[i].clamp, method);
            complain_of(check, hold, owned[i].key, "take it out, or name another method", message);
        }
    }
}

/* Tabs stand side by side about the part, and what is between them is cut. */
static void check_tabs(file_check *check)
{
    const bite_section *hold = check->file->hold;
    const bite_section *part = check->file->part;
    double about =
        2.0 * (bite_job_file_number(part, "length") + bite_job_file_number(part, "width"));
    double wide = bite_job_file_number(hold, "tab_width");
    double tabs = bite_job_file_number(hold, "tabs");
    if ((isnan(tabs) ? 1.0 : tabs) * wide >= about) {
        complain_of(check, hold, states(check, hold, "tabs") ? "tabs" : "tab_width",
                    "tabs = 4, tab_width = 3 mm",
                    "so many tabs of this width leave nothing to be cut about the part");
    }
}

/* What holds is as long and as thick as the part lets it. */
static void check_hold(file_check *check)
{
    const bite_section *hold = check->file->hold;
    const bite_section *part = check->file->part;
    double thickness = bite_job_file_number(part, "thickness");
    double longest =
        hypot(bite_job_file_number(part, "length"), bite_job_file_number(part, "width"));
    check_name(check, hold, "method", BITE_HOLDS);
    check_clamp_keys(check);
    whole(check, hold, "screws", "screws = 4", "screws are counted in whole numbers");
    whole(check, hold, "tabs", "tabs = 3", "tabs are counted in whole numbers");
    at_most(check, hold, "jaw_depth", thickness, "the jaws grip deeper than the part is thick",
            "how far up the jaws it stands");
    at_most(check, hold, "tab_height", thickness, "the tabs are thicker than the part",
            "what the cut leaves of the thickness");
    at_most(check, hold, "screws_apart", longest,
            "the screws are farther apart than the part is long", "from the first to the last");
    check_tabs(check);
    if (states(check, hold, "torque") && states(check, hold, "clamp_force")) {
        complain_of(check, hold, "torque", "take one of the two out",
                    "a screw's torque tells its force: both are stated");
    }
}

static const bite_section *pass_named(const bite_job_file *file, const char *name)
{
    for (size_t i = 0; i < file->pass_count; i++) {
        if (bite_text_equals(file->passes[i]->tail, name)) {
            return file->passes[i];
        }
    }
    return NULL;
}

static double setup_of(const bite_section *pass)
{
    double setup = bite_job_file_number(pass, "setup");
    return isnan(setup) ? 1.0 : setup;
}

/* The names behind `after` are passes, none waits for itself, and none for a later setup. */
static void check_after(file_check *check, const bite_section *pass)
{
    const char *after = bite_job_file_text(pass, "after");
    char name[64];
    for (size_t i = 0; bite_job_file_name(after, i, name, sizeof name); i++) {
        const bite_section *first = pass_named(check->file, name);
        char message[140];
        if (first == NULL && bite_table_has_unread_sections(check->file->table)) {
            continue;
        }
        if (first == NULL) {
            (void)snprintf(message, sizeof message, "there is no pass %s to come after", name);
            complain_of(check, pass, "after", "the NAME of another [pass.NAME]", message);
        } else if (first == pass) {
            complain_of(check, pass, "after", "the NAME of another [pass.NAME]",
                        "the pass waits for itself");
        } else if (setup_of(first) > setup_of(pass)) {
            (void)snprintf(message, sizeof message,
                           "it waits for %.60s, which is made in a later setup", name);
            complain_of(check, pass, "after",
                        "a setup is done before the next: change one of the two setups", message);
        }
    }
}

/* The passes that each waits for, one after the other, back to where it began. */
typedef struct order_cycle {
    const bite_job_file *order;
    unsigned char seen[BITE_PASSES_MAX];
    unsigned char told[BITE_PASSES_MAX]; /* it stands in a circle that was complained of */
    uint16_t way[BITE_PASSES_MAX];
    size_t length;
} order_cycle;

static size_t place_of(const bite_job_file *file, const bite_section *pass)
{
    size_t i = 0;
    while (i < file->pass_count && file->passes[i] != pass) {
        i++;
    }
    return i;
}

static int leads_back(order_cycle *circle, size_t from, size_t to)
{
    const char *after = bite_job_file_text(circle->order->passes[from], "after");
    char name[64];
    circle->seen[from] = 1;
    circle->way[circle->length++] = (uint16_t)from;
    for (size_t i = 0; bite_job_file_name(after, i, name, sizeof name); i++) {
        size_t next = place_of(circle->order, pass_named(circle->order, name));
        if (next < circle->order->pass_count && next != from &&
            (next == to || (!circle->seen[next] && leads_back(circle, next, to)))) {
            return 1;
        }
    }
    circle->length--;
    return 0;
}

static void check_circles(file_check *check)
{
    order_cycle round;
    memset(&round, 0, sizeof round);
    round.order = check->file;
    for (size_t i = 0; i < check->file->pass_count; i++) {
        memset(round.seen, 0, sizeof round.seen);
        round.length = 0;
        if (round.told[i] || !leads_back(&round, i, i)) {
            continue;
        }
        char message[200] = "";
        size_t used = 0;
        for (size_t k = 0; k < round.length; k++) {
            round.told[round.way[k]] = 1;
            if (k < 4) {
                used +=
                    (size_t)snprintf(message + used, sizeof message - used, "%s%.20s",
                                     k == 0 ? "" : ", ", check->file->passes[round.way[k]]->tail);
            }
        }
        (void)snprintf(message + used, sizeof message - used, "%s wait for each other in a circle",
                       round.length > 4 ? " and more" : "");
        complain_of(check, check->file->passes[i], "after", "take one of them out of after",
                    message);
    }
}

static void check_quantity(file_check *check, const bite_section *pass, const char *key,
                           bite_kind kind, bite_kind also)
{
    const char *text = bite_job_file_text(pass, key);
    bite_error error = BITE_ERROR_INIT;
    double number = 0.0;
    if (text != NULL && bite_quantity_read(text, kind, &number, &error) != BITE_OK &&
        bite_quantity_read(text, also, &number, NULL) != BITE_OK) {
        complain(check, pass, key, NULL, &error);
    }
}

static void check_pass(file_check *check, const bite_section *pass)
{
    const bite_section *part = check->file->part;
    const bite_section *stock = check->file->stock;
    double thickness = bite_job_file_number(part, "thickness");
    double thick = fmax(thickness, fmax(bite_job_file_number(stock, "nominal"),
                                        bite_job_file_number(stock, "thickest")));
    const char *tool = bite_job_file_text(pass, "tool");
    uint32_t work = bite_job_file_word(pass, "work", BITE_WORK_COUNT);
    if (!states(check, pass, "work")) {
        complain_of(
            check, pass, "work",
            "one of face, rough, slot, pocket, bore, drill, contour, finish, chamfer, cut-free",
            "the pass does not state its work");
    }
    if (tool != NULL) {
        check_tool(check, pass, "tool", tool);
    } else if (work == BITE_WORK_DRILL) {
        complain_of(check, pass, "tool", "its diameter: tool = 2mm",
                    "a hole's size is its drill's: the pass names no tool");
    }
    if (bite_job_file_number(stock, "nominal") > 0.0 ||
        bite_job_file_number(stock, "thickest") > 0.0) {
        at_most(check, pass, "depth", bite_job_file_deepest(work, thick),
                "the pass is deeper than the sheet",
                "depth of the whole feature, from its own face");
    }
    if (bite_job_file_number(pass, "pass_depth") >
        bite_job_file_number(pass, "depth") * (1.0 + 1e-9)) {
        complain_of(check, pass, "pass_depth", "depth is of the whole feature",
                    "one pass is deeper than the whole feature");
    }
    if (work == BITE_WORK_CHAMFER && !states(check, pass, "depth")) {
        complain_of(check, pass, "depth", "its leg: depth = 0.3 mm",
                    "a chamfer's size is its depth: the pass names none");
    }
    if (work == BITE_WORK_POCKET || work == BITE_WORK_ROUGH || work == BITE_WORK_BORE) {
        double length = bite_job_file_number(part, "length");
        double longest = isnan(length + bite_job_file_number(part, "width"))
                             ? (double)NAN
                             : fmax(length, bite_job_file_number(part, "width"));
        at_most(check, pass, "length", longest, "the feature is longer than the part",
                "of the pocket itself, not of the path");
        at_most(check, pass, "across", longest, "the feature is wider than the part",
                "its shorter side, or a bore's diameter");
    }
    if (work == BITE_WORK_SLOT && states(check, pass, "width")) {
        complain_of(check, pass, "width", "across = 3 mm for the slot's own width",
                    "width is what a side cut takes off; a slot has none");
    }
    whole(check, pass, "setup", "setup = 1 or 2", "setups are counted in whole numbers");
    whole(check, pass, "count", "count = 4", "features are counted in whole numbers");
    check_quantity(check, pass, "spindle", BITE_KIND_ROTATION, BITE_KIND_SURFACE_SPEED);
    check_quantity(check, pass, "feed", BITE_KIND_SPEED, BITE_KIND_TOOTH_FEED);
    check_after(check, pass);
}

static void check_fluids(file_check *check)
{
    static const char *const keys[] = {"coolant_fluid", "cleaner", "remover", "marking", "tapping"};
    for (size_t i = 0; i < COUNT(keys); i++) {
        const char *name = bite_job_file_text(check->file->fluids, keys[i]);
        const bite_item_record *fluid = NULL;
        bite_error error = BITE_ERROR_INIT;
        if (name != NULL && bite_fluid_find(check->library, name, &fluid, &error) != BITE_OK) {
            complain(check, check->file->fluids, keys[i], NULL, &error);
        }
    }
}

static void check_sense(file_check *check)
{
    check_part(check);
    check_stock(check);
    check_name(check, check->file->machine, "name", BITE_MACHINES);
    check_name(check, check->file->machine, "holder", BITE_HOLDERS);
    if (check->file->hold != NULL) {
        check_hold(check);
    }
    check_tools(check);
    check_fluids(check);
    for (size_t i = 0; i < check->file->pass_count; i++) {
        check_pass(check, check->file->passes[i]);
    }
    check_circles(check);
}

static void take_sections(file_check *check, bite_job_file *file)
{
    const struct {
        const char *name;
        const bite_section **at;
    } single[] = {{"job", &file->job},         {"part", &file->part},   {"stock", &file->stock},
                  {"machine", &file->machine}, {"tools", &file->tools}, {"hold", &file->hold},
                  {"fluids", &file->fluids}};
    for (size_t i = 0; i < bite_table_count(file->table); i++) {
        const bite_section *section = bite_table_at(file->table, i);
        for (size_t k = 0; k < COUNT(single); k++) {
            if (strcmp(section->name, single[k].name) == 0) {
                *single[k].at = section;
            }
        }
        if (strncmp(section->name, "pass.", 5) == 0) {
            if (file->pass_count == BITE_PASSES_MAX) {
                complain_of(check, section, NULL, "split the job",
                            "more passes than a job may have");
                return;
            }
            file->passes[file->pass_count++] = section;
        } else if (strncmp(section->name, "check.", 6) == 0) {
            if (file->check_count == BITE_CHECKS_MAX) {
                complain_of(check, section, NULL, "keep those that decide",
                            "more checks than a job may have");
                return;
            }
            file->checks[file->check_count++] = section;
        }
    }
}

bite_status bite_job_file_open(const bite_library *library, const char *path, const char *bytes,
                               size_t size, bite_ini_fault fault, void *user, bite_job_file *file,
                               bite_error *error)
{
    file_check check = {library, file,   path == NULL ? "job" : path, fault, user, BITE_ERROR_INIT,
                        0,       BITE_OK};
    const bite_allocator *allocator = bite_library_allocator(library);
    bite_error own = BITE_ERROR_INIT;
    memset(file, 0, sizeof *file);
    bite_status status =
        bytes != NULL
            ? bite_table_parse(allocator, bytes, size, check.path, &job_schema, find_fault, &check,
                               &file->table, &own)
            : bite_table_open(allocator, path, &job_schema, find_fault, &check, &file->table, &own);
    if (file->table == NULL) { /* no INI at all, no such file, no memory */
        if (error != NULL) {
            *error = own;
        }
        return status;
    }
    take_sections(&check, file);
    check_sense(&check);
    if (check.stop == BITE_OK && check.faults == 0) {
        return BITE_OK;
    }
    bite_job_file_free(file);
    if (check.stop != BITE_OK) {
        return bite_error_set(error, check.stop, "no memory for a job");
    }
    if (error != NULL) {
        *error = check.first;
        error->faults = check.faults;
    }
    return BITE_BAD_FILE;
}

void bite_job_file_free(bite_job_file *file)
{
    bite_table_free(file->table);
    memset(file, 0, sizeof *file);
}
