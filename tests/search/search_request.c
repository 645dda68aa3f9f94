/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Random requests of every operation, with the command line that makes the same one. */
#include "tests/search/search_request.h"
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const grades[] = {"acrylic/cast",
                                     "pc",
                                     "acetal",
                                     "polyethylene/hdpe",
                                     "petg",
                                     "nylon",
                                     "peek",
                                     "6061",
                                     "7075",
                                     "brass/c360",
                                     "copper",
                                     "304",
                                     "titanium/6al-4v",
                                     "1018",
                                     "mdf",
                                     "glass-laminate/g10",
                                     "cast-iron",
                                     "6061",
                                     "acrylic/cast",
                                     "plywood",
                                     "graphite"};
static const char *const machines[] = {"bench-24k",  "small-vmc",     "gantry-router",
                                       "board-mill", "desktop-light", "knee-mill"};
static const char *const cones[] = {"vg-30-01", "vg-60-02", "vg-90-01"};
static const char *const chamfer_mills[] = {"cm-3-90", "cm-6-90", "cm-6-60"};
static const char *const coolants[] = {"none", "air", "mist", "flood"};
static const char *const sides[] = {"climb", "conventional"};
static const char *const flutes[] = {"1", "2", "3", "4"};
static const char *const tolerances[] = {"0.02mm", "0.05mm", "0.2mm"};
static const char *const finishes[] = {"0.8um", "1.6um", "3.2um"};
static const char *const speeds[] = {"2400rpm", "6000rpm", "9500rpm"};

/* Tools by diameter. */
static const struct {
    const char *name;
    double mm;
} diameters[] = {{"0.8mm", 0.8}, {"1mm", 1.0}, {"1.5mm", 1.5}, {"2mm", 2.0},
                 {"3mm", 3.0},   {"4mm", 4.0}, {"6mm", 6.0}};
enum { DIAMETERS = sizeof diameters / sizeof *diameters };

typedef enum tool_form { PLAIN, BALL, CORNER_RADIUS, CONE, CHAMFER_MILL, DRILL } tool_form;

/* Sizes in diameters; of cones in millimetres. */
static const struct search_kind {
    const char *name;
    tool_form form;
    double depth[2];
    double width[2]; /* 0: none */
    double corner;   /* 0, or the radius of the inside corner is up to this many tool radii */
    int features;    /* 1: the whole feature may be given instead of a pass; 2: it always is */
    const char *entry;
} kinds[] = {
    {"slot", PLAIN, {0.05, 0.8}, {0.0, 0.0}, 0.0, 1, NULL},
    {"side", PLAIN, {0.1, 1.5}, {0.03, 0.6}, 0.0, 1, NULL},
    {"corner", PLAIN, {0.1, 1.0}, {0.03, 0.5}, 2.0, 0, NULL},
    {"ball", BALL, {0.05, 0.5}, {0.0, 0.0}, 0.0, 1, NULL},
    {"ball side", BALL, {0.05, 0.5}, {0.03, 0.5}, 0.0, 0, NULL},
    {"corner radius", CORNER_RADIUS, {0.05, 0.7}, {0.03, 0.6}, 0.0, 1, NULL},
    {"chamfer", CHAMFER_MILL, {0.1, 0.8}, {0.0, 0.0}, 0.0, 0, NULL},
    {"groove", CONE, {0.05, 0.5}, {0.0, 0.0}, 0.0, 0, NULL},
    {"drill", DRILL, {0.3, 3.0}, {0.0, 0.0}, 0.0, 1, NULL},
    {"plunge", PLAIN, {0.1, 0.6}, {0.0, 0.0}, 0.0, 0, "plunge"},
    {"ramp", PLAIN, {0.1, 0.6}, {0.0, 0.0}, 0.0, 1, "ramp"},
    {"helix", PLAIN, {0.1, 0.6}, {0.0, 0.0}, 0.0, 1, "helix"},
    {"pocket", PLAIN, {0.3, 2.5}, {0.3, 4.0}, 0.0, 2, NULL},
};
enum { KINDS = sizeof kinds / sizeof *kinds };

size_t search_kind_count(void)
{
    return KINDS;
}

const char *search_kind_name(size_t kind)
{
    return kinds[kind % KINDS].name;
}

static size_t index_below(uint64_t *seed, size_t count)
{
    return (size_t)bite_test_between(seed, 0.0, (double)count - 1e-9);
}

#define PICK(list, seed) (list)[index_below(seed, sizeof(list) / sizeof *(list))]

static int happens(uint64_t *seed, double chance)
{
    return bite_test_between(seed, 0.0, 1.0) < chance;
}

/* ---- inputs ---- */

/* Options that are not the name of their input. */
static const struct {
    const char *input;
    const char *option;
} options[] = {{"spindle_speed", "--spindle "},
               {"feed_rate", "--feed "},
               {"corner_radius", "--corner-radius "},
               {"feature_depth", "--feature-depth "},
               {"feature_width", "--feature-width "},
               {"inside_radius", "--inside-radius "},
               {"mode_frequency", "--set mode_frequency="},
               {"mode_stiffness", "--set mode_stiffness="},
               {"mode_damping", "--set mode_damping="}};

static void write_option(search_request *made, const char *name, const char *text)
{
    char plain[40];
    const char *option = plain;
    size_t length = strlen(made->line);
    (void)snprintf(plain, sizeof plain, "--%s ", name);
    for (size_t i = 0; i < sizeof options / sizeof *options; i++) {
        option = strcmp(options[i].input, name) == 0 ? options[i].option : option;
    }
    ck_assert_int_lt(snprintf(made->line + length, sizeof made->line - length, "%s%s%s",
                              length > 0 ? " " : "", option, text),
                     (int)(sizeof made->line - length));
}

void search_request_put(search_request *made, const char *name, const char *text)
{
    static const struct {
        const char *name;
        bite_collection collection;
    } things[] = {{"material", BITE_GRADES},
                  {"machine", BITE_MACHINES},
                  {"tool", BITE_TOOLS},
                  {"hold", BITE_HOLDS}};
    bite_error error = BITE_ERROR_INIT;
    bite_status status = BITE_UNKNOWN_NAME;
    int is_thing = 0;
    for (size_t i = 0; i < sizeof things / sizeof *things; i++) {
        if (strcmp(things[i].name, name) == 0) {
            status = bite_request_use(made->request, things[i].collection, text, &error);
            is_thing = 1;
        }
    }
    status = is_thing ? status : bite_request_set(made->request, name, text, &error);
    ck_assert_msg(status == BITE_OK, "%s %s: %s", name, text, error.message);
    write_option(made, name, text);
}

static double read_length(const char *text)
{
    double si = (double)NAN;
    ck_assert_int_eq(bite_quantity_read(text, BITE_KIND_LENGTH, &si, NULL), BITE_OK);
    return si;
}

void search_request_put_all(search_request *made, const search_input *inputs, size_t count)
{
    for (size_t i = 0; i < count && inputs[i].name != NULL; i++) {
        search_request_put(made, inputs[i].name, inputs[i].value);
    }
}

/* Returns what was set, in m. */
static double put_mm(search_request *made, const char *name, double mm)
{
    char text[40];
    (void)snprintf(text, sizeof text, "%.3gmm", mm);
    search_request_put(made, name, text);
    return read_length(text);
}

void search_request_begin(uint32_t goal, search_request *made)
{
    memset(made, 0, sizeof *made);
    made->goal = goal;
    made->tooth = made->feature_depth = made->feature_width = (double)NAN;
    made->tolerance = made->finish = (double)NAN;
    ck_assert_int_eq(bite_request_new(library, &made->request, NULL), BITE_OK);
    write_option(made, "goal", bite_goal_name(goal));
}

void search_request_put_tool(search_request *made, const char *name)
{
    made->tools[made->tool_count++] = name;
    search_request_put(made, "tool", name);
}

void search_request_take_tool(const search_request *made, size_t tool)
{
    if (made->tool_count > 1) { /* a diameter would replace what was set of a single tool */
        ck_assert_int_eq(bite_request_use(made->request, BITE_TOOLS, made->tools[tool], NULL),
                         BITE_OK);
    }
}

/* ---- a random request ---- */

/* Returns the size, in mm, in which depth and width are stated. */
static double choose_tools(const struct search_kind *kind, uint64_t *seed, search_request *made)
{
    size_t at = index_below(seed, DIAMETERS);
    double mm = diameters[at].mm;
    if (kind->form == CONE || kind->form == CHAMFER_MILL) {
        search_request_put_tool(made,
                                kind->form == CONE ? PICK(cones, seed) : PICK(chamfer_mills, seed));
        return 1.0;
    }
    search_request_put_tool(made, diameters[at].name);
    if (kind->form == BALL) {
        (void)put_mm(made, "corner_radius", 0.5 * mm);
    } else if (kind->form == CORNER_RADIUS) {
        (void)put_mm(made, "corner_radius", mm * bite_test_between(seed, 0.05, 0.3));
    } else if (kind->form == PLAIN && kind->corner <= 0.0 && happens(seed, 0.2)) {
        size_t more = 1 + index_below(seed, SEARCH_TOOLS - 1);
        for (size_t i = 1; i <= more; i++) {
            search_request_put_tool(made, diameters[(at + 3 * i) % DIAMETERS].name);
        }
    }
    if (made->tool_count == 1 && kind->form != DRILL && happens(seed, 0.3)) {
        search_request_put(made, "flutes", PICK(flutes, seed));
    }
    return mm;
}

/* The diameter of the narrowest of several tools, mm; INFINITY: there is one. */
static double narrowest(const search_request *made)
{
    double least = INFINITY;
    for (size_t i = 0; i < made->tool_count && made->tool_count > 1; i++) {
        least = fmin(least, 1e3 * read_length(made->tools[i]));
    }
    return least;
}

static void choose_sizes(const struct search_kind *kind, uint64_t *seed, double mm,
                         search_request *made)
{
    double share = kind->features == 2 ? 1.0 : kind->features == 1 ? 0.35 : 0.0;
    double deep = mm * bite_test_between(seed, kind->depth[0], kind->depth[1]);
    if (happens(seed, share)) {
        made->feature_depth = put_mm(made, "feature_depth", 1.7 * deep);
    } else {
        (void)put_mm(made, "depth", deep);
    }
    if (kind->width[1] > 0.0) {
        double wide = mm * bite_test_between(seed, kind->width[0], kind->width[1]);
        if (happens(seed, share)) {
            made->feature_width = put_mm(made, "feature_width", wide);
        } else {
            (void)put_mm(made, "width", fmin(wide, narrowest(made)));
        }
        search_request_put(made, "side", PICK(sides, seed));
        if (kind->corner > 0.0) {
            (void)put_mm(made, "inside_radius",
                         0.5 * mm * bite_test_between(seed, 1.05, kind->corner));
        }
    }
}

/* What cools, and what is asked of the part. */
static void choose_part(const struct search_kind *kind, uint64_t *seed, search_request *made)
{
    if (happens(seed, 0.6)) {
        search_request_put(made, "coolant", PICK(coolants, seed));
    }
    if (kind->form != DRILL && happens(seed, 0.4)) {
        const char *tolerance = PICK(tolerances, seed);
        made->tolerance = read_length(tolerance);
        search_request_put(made, "tolerance", tolerance);
    }
    if (kind->form != DRILL && happens(seed, 0.2)) {
        const char *finish = PICK(finishes, seed);
        made->finish = read_length(finish);
        search_request_put(made, "finish", finish);
    }
}

static void put_mode(uint64_t *seed, search_request *made)
{
    char text[40];
    (void)snprintf(text, sizeof text, "%.0fHz", bite_test_between(seed, 400.0, 2500.0));
    search_request_put(made, "mode_frequency", text);
    (void)snprintf(text, sizeof text, "%.3gN/um", bite_test_decades(seed, 1.0, 20.0));
    search_request_put(made, "mode_stiffness", text);
    search_request_put(made, "mode_damping", "0.03");
}

/* A fixed speed, a fixed feed per tooth, or a measured mode. */
static void choose_motion(const struct search_kind *kind, uint64_t *seed, double mm,
                          search_request *made)
{
    char text[40];
    double dice = bite_test_between(seed, 0.0, 1.0);
    int cone = kind->form == CONE || kind->form == CHAMFER_MILL;
    if (dice < 0.1) {
        made->fixed_spindle = 1;
        search_request_put(made, "spindle_speed", PICK(speeds, seed));
    } else if (dice < 0.2 && !cone) {
        (void)snprintf(text, sizeof text, "%.3gmm/tooth",
                       mm * bite_test_decades(seed, 0.003, 0.02));
        ck_assert_int_eq(bite_quantity_read(text, BITE_KIND_TOOTH_FEED, &made->tooth, NULL),
                         BITE_OK);
        search_request_put(made, "feed_rate", text);
    } else if (dice < 0.4 && (kind->form == PLAIN || kind->form == CORNER_RADIUS)) {
        put_mode(seed, made);
    }
}

void search_request_random(size_t number, search_request *made)
{
    static const uint32_t operations[] = {[CHAMFER_MILL] = BITE_CHAMFER, [DRILL] = BITE_DRILL_HOLE};
    const struct search_kind *kind = &kinds[number % KINDS];
    uint64_t seed = 20261130 + 1000003 * (uint64_t)number;
    search_request_begin(bite_test_goal(number), made); /* KINDS is odd: all pairs occur */
    search_request_put(made, "material", PICK(grades, &seed));
    search_request_put(made, "machine", PICK(machines, &seed));
    made->operation = operations[kind->form];
    if (made->operation != BITE_MILL) {
        search_request_put(made, "operation",
                           made->operation == BITE_CHAMFER ? "chamfer" : "drill");
    }
    if (kind->entry != NULL) {
        search_request_put(made, "entry", kind->entry);
    }
    double mm = choose_tools(kind, &seed, made);
    choose_sizes(kind, &seed, mm, made);
    choose_part(kind, &seed, made);
    choose_motion(kind, &seed, mm, made);
}

void search_request_end(search_request *made)
{
    bite_request_free(made->request);
    made->request = NULL;
}

bite_choice *search_request_choose(const search_request *made)
{
    bite_choice_options wanted = {.struct_size = (uint32_t)sizeof wanted,
                                  .goal = made->goal,
                                  .tools = made->tools,
                                  .tool_count = made->tool_count > 1 ? made->tool_count : 0,
                                  .confidence = 0.90};
    bite_error error = BITE_ERROR_INIT;
    bite_choice *choice = NULL;
    ck_assert_msg(bite_choice_new(made->request, &wanted, &choice, &error) == BITE_OK, "%s: %s",
                  made->line, error.message);
    return choice;
}
