/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a request to flat numbers: tables first, then the inputs that were given, which override
 * them, then the defaults, with the provenance of each number. */
#include "core/request/resolve.h"
#include "core/base/error.h"
#include "core/base/struct_size.h"
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/library/collection.h"
#include "core/names/registry.h"
#include "core/physics/geometry/kinematics.h"
#include "core/physics/geometry/thread.h"
#include "core/request/consistency.h"
#include "core/request/request.h"
#include "core/request/tap_drill.h"
#include "core/request/tool_check.h"
#include "core/tables/provenance.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

const char bite_usual_machine[] = "bench-24k";

typedef struct input_resolution {
    const bite_request *request;
    bite_cut *cut;
    bite_provenance *provenance;
} input_resolution;

static void note(input_resolution *resolution, const bite_input *input, bite_origin origin,
                 const bite_field_value *field_value, const char *file)
{
    bite_provenance *provenance = &resolution->provenance[bite_input_index(input)];
    provenance->origin = origin;
    provenance->grade = field_value == NULL ? BITE_GRADE_NONE : field_value->grade;
    provenance->low = field_value == NULL ? (double)NAN : field_value->low;
    provenance->high = field_value == NULL ? (double)NAN : field_value->high;
    provenance->source =
        field_value == NULL || field_value->source == NULL ? "" : field_value->source;
    provenance->file = file == NULL ? "" : file;
}

static void apply_value(input_resolution *resolution, const char *name,
                        const bite_field_value *field_value, const char *file)
{
    const bite_input *input = bite_input_find(name);
    if (input == NULL) {
        return;
    }
    if (input->words > 0 && field_value->field->type == BITE_FIELD_WORD) {
        for (uint32_t i = 0; i < input->words; i++) {
            if (strcmp(bite_input_word(input, i), field_value->field->words[field_value->word]) ==
                0) {
                *bite_input_choice(resolution->cut, input) = i;
                note(resolution, input, BITE_ORIGIN_TABLE, field_value, file);
            }
        }
    } else if (input->words == 0 && field_value->field->type == BITE_FIELD_FIGURE) {
        *bite_input_number(resolution->cut, input) = field_value->value;
        note(resolution, input, BITE_ORIGIN_TABLE, field_value, file);
    }
}

static void apply_record(input_resolution *resolution, const bite_item_record *record)
{
    for (size_t i = 0; record != NULL && i < record->value_count; i++) {
        const bite_field_value *value = &record->values[i];
        apply_value(resolution, value->field->name, value,
                    value->file == NULL ? record->file : value->file);
    }
}

static const char *const bond_keys[] = {"bond_shear",     "bond_pull",    "bond_limit",
                                        "bond_exponent",  "bond_halving", "bond_modulus",
                                        "bond_thickness", "bond_adhesion"};
enum { SHEAR, PULL, LIMIT, WEAKEST_KEYS, BOND_KEYS = sizeof bond_keys / sizeof *bond_keys };

/* The layers of a bond so far. */
typedef struct layer_stack {
    const bite_field_value *least[WEAKEST_KEYS];
    const char *files[WEAKEST_KEYS];
    const bite_item_record *weakest; /* in shear; NULL: none */
    double compliance;               /* thickness over modulus of all layers, m/Pa */
} layer_stack;

static void add_layer(layer_stack *stack, const bite_item_record *layer)
{
    for (size_t i = 0; i < WEAKEST_KEYS; i++) {
        const bite_field_value *field_value = bite_item_field(layer, bond_keys[i]);
        if (field_value != NULL &&
            (stack->least[i] == NULL || field_value->value < stack->least[i]->value)) {
            stack->least[i] = field_value;
            stack->files[i] = layer->file;
            stack->weakest = i == SHEAR ? layer : stack->weakest;
        }
    }
    stack->compliance +=
        bite_item_figure(layer, "thickness") / bite_item_figure(layer, "bond_modulus");
}

/* The weakest layer, as thick as it would be if it gave as much as all layers do. */
static void apply_stack(input_resolution *resolution, const layer_stack *stack)
{
    for (size_t i = 0; i < WEAKEST_KEYS; i++) {
        if (stack->least[i] != NULL) {
            apply_value(resolution, bond_keys[i], stack->least[i], stack->files[i]);
        }
    }
    for (size_t i = WEAKEST_KEYS; stack->weakest != NULL && i < BOND_KEYS; i++) {
        const bite_field_value *field_value = bite_item_field(stack->weakest, bond_keys[i]);
        if (field_value != NULL) {
            apply_value(resolution, bond_keys[i], field_value, stack->weakest->file);
        }
    }
    const bite_field_value *thickness =
        stack->weakest == NULL ? NULL : bite_item_field(stack->weakest, "thickness");
    if (thickness != NULL && !isnan(stack->compliance)) {
        bite_field_value whole = *thickness;
        whole.value = stack->compliance * bite_item_figure(stack->weakest, "bond_modulus");
        whole.low *= whole.value / thickness->value;
        whole.high *= whole.value / thickness->value;
        apply_value(resolution, "bond_thickness", &whole, stack->weakest->file);
    }
}

/* A bond is as strong as its weakest layer: in shear, in tension and in heat, each on its own. */
static bite_status apply_layers(input_resolution *resolution, const bite_field_value *layers,
                                bite_error *error)
{
    layer_stack stack = {{NULL}, {NULL}, NULL, 0.0};
    const char *at = layers->text;
    while (*at != 0) {
        char name[BITE_TYPED_MAX];
        const bite_item_record *layer = NULL;
        size_t length = strcspn(at, " ");
        (void)snprintf(name, sizeof name, "%.*s", (int)length, at);
        bite_status status =
            length == 0 ? BITE_OK
                        : bite_library_layer(resolution->request->library, name, &layer, error);
        if (status != BITE_OK) {
            return status;
        }
        if (layer != NULL) {
            add_layer(&stack, layer);
        }
        at += length;
        at += *at == ' ';
    }
    apply_stack(resolution, &stack);
    return BITE_OK;
}

/* A figure of the hold itself overrides its layers and, as a vacuum does not stick, the adhesion of
 * the material. Only the keys of bonds count: clamps state a friction too, which is not that of the
 * tool. */
static bite_status apply_hold(input_resolution *resolution, bite_error *error)
{
    const bite_item_record *hold = resolution->request->hold;
    const bite_field_value *layers = hold == NULL ? NULL : bite_item_field(hold, "layers");
    bite_status status = layers == NULL ? BITE_OK : apply_layers(resolution, layers, error);
    for (size_t i = 0; hold != NULL && i < BOND_KEYS; i++) {
        const bite_field_value *field_value = bite_item_field(hold, bond_keys[i]);
        if (field_value != NULL) {
            apply_value(resolution, bond_keys[i], field_value, hold->file);
        }
    }
    return status;
}

static void apply_curve(bite_curve *curve, const bite_item_record *record, const char *key)
{
    const bite_field_value *field_value = bite_item_field(record, key);
    if (field_value != NULL && field_value->field->type == BITE_FIELD_CURVE) {
        *curve = field_value->curve;
    }
}

/* The speed that the cutting edge withstands depends on the tool material. */
static void apply_edge_speed(input_resolution *resolution, const bite_item_record *grade)
{
    static const char *const keys[] = {"speed_carbide", "speed_hss", "speed_diamond"};
    if (resolution->cut->tool_material < sizeof keys / sizeof *keys) {
        const bite_field_value *field_value =
            bite_item_field(grade, keys[resolution->cut->tool_material]);
        if (field_value != NULL) {
            apply_value(resolution, "tool_speed_limit", field_value, grade->file);
        }
    }
}

static void apply_given(input_resolution *resolution)
{
    size_t count = bite_input_count();
    for (size_t i = 0; i < count && i < BITE_INPUTS_MAX; i++) {
        const bite_typed_input *typed = &resolution->request->typed[i];
        const bite_input *input = bite_input_at(i);
        if (!typed->given) {
            continue;
        }
        bool of_shop = (resolution->request->shop_keys & bite_request_shop_bit(input->name)) != 0;
        note(resolution, input, of_shop ? BITE_ORIGIN_SHOP : BITE_ORIGIN_USER, NULL,
             of_shop ? resolution->request->shop->shown : NULL);
        if (input->words > 0) {
            *bite_input_choice(resolution->cut, input) = typed->word;
        } else if (typed->kind == input->kind) {
            *bite_input_number(resolution->cut, input) = typed->value;
        }
    }
}

static const bite_typed_input *typed_as(const bite_request *request, const char *name,
                                        bite_kind kind)
{
    const bite_typed_input *typed = &request->typed[bite_input_index(bite_input_find(name))];
    return typed->given && typed->kind == (uint32_t)kind ? typed : NULL;
}

/* The surface speed of a cone is that of the upper end of the cut. */
static double turning_diameter(const bite_cut *cut)
{
    if (cut->operation != BITE_CHAMFER && !bite_cut_is_groove(cut)) {
        return cut->diameter;
    }
    bite_cut full = *cut;
    bite_defaults_fill(&full);
    return bite_cutting_diameter(&full);
}

/* Converts a surface speed or a feed per tooth to a spindle speed or a feed rate, now that diameter
 * and flutes are known. */
static void convert_speeds(input_resolution *resolution)
{
    bite_cut *cut = resolution->cut;
    const bite_typed_input *speed =
        typed_as(resolution->request, "spindle_speed", BITE_KIND_SURFACE_SPEED);
    if (speed != NULL) {
        cut->spindle_speed = bite_kinematics_spindle_speed(turning_diameter(cut), speed->value);
    }
    const bite_typed_input *feed = typed_as(resolution->request, "feed_rate", BITE_KIND_TOOTH_FEED);
    if (feed != NULL) {
        double flutes = isnan(cut->flutes) ? bite_flutes_default(cut) : cut->flutes;
        cut->feed_rate = bite_kinematics_feed_rate(feed->value, cut->spindle_speed, flutes);
    }
    if (cut->operation == BITE_TAP && !isnan(cut->pitch)) {
        cut->feed_rate = cut->pitch * cut->spindle_speed; /* synchronous */
        note(resolution, bite_input_find("feed_rate"), BITE_ORIGIN_DEFAULT, NULL, NULL);
        resolution->provenance[bite_input_index(bite_input_find("feed_rate"))].source =
            "common-practice: a tap advances by its pitch each turn";
        resolution->provenance[bite_input_index(bite_input_find("feed_rate"))].grade =
            BITE_GRADE_COMMON_PRACTICE;
    }
}

static void default_depth(input_resolution *resolution)
{
    bite_cut *cut = resolution->cut;
    if (isnan(cut->depth)) {
        const bite_input *input = bite_input_find("depth");
        double share = bite_cut_is_axial(cut)                                      ? 1.0
                       : cut->operation == BITE_CHAMFER || bite_cut_is_groove(cut) ? 0.1
                       : cut->substance == BITE_METAL                              ? 0.15
                                                                                   : 0.5;
        int hole = cut->operation == BITE_TAP || cut->operation == BITE_REAM;
        int whole = (cut->operation == BITE_CHAMFER || bite_cut_is_groove(cut) || hole) &&
                    !isnan(cut->feature_depth); /* cut in one pass */
        cut->depth =
            whole ? cut->feature_depth
                  : fmin(share * cut->diameter, cut->feature_depth); /* fmin passes over NaN */
        note(resolution, input, BITE_ORIGIN_DEFAULT, NULL, NULL);
        resolution->provenance[bite_input_index(input)].source =
            "common-practice: half the diameter, 0.15 of it in metals; for a drill's peck, a "
            "thread or "
            "a reamed hole its diameter; for a chamfer or an engraved groove a tenth of it";
        resolution->provenance[bite_input_index(input)].grade = BITE_GRADE_COMMON_PRACTICE;
    }
}

/* A closed slot or pocket has to be entered: down a helix if it is wider than the tool but not
 * twice as wide, otherwise down a slope. */
static void default_entry(input_resolution *resolution)
{
    bite_cut *cut = resolution->cut;
    const bite_input *input = bite_input_find("entry");
    bite_provenance *provenance = &resolution->provenance[bite_input_index(input)];
    if (provenance->origin != BITE_ORIGIN_NONE || cut->blind != 1 || cut->operation != BITE_MILL ||
        !isnan(cut->taper)) {
        return;
    }
    int helix = cut->feature_width > 1.01 * cut->diameter && /* NaN: a slot */
                cut->feature_width < 2.0 * cut->diameter;
    cut->entry = helix ? BITE_ENTRY_HELIX : BITE_ENTRY_RAMP;
    note(resolution, input, BITE_ORIGIN_DEFAULT, NULL, NULL);
    provenance->source = "common-practice: a closed feature is entered down a ramp or a helix of a "
                         "few degrees";
    provenance->grade = BITE_GRADE_COMMON_PRACTICE;
}

/* A hole that is not given is that of the drill that comes closest to the usual thread. */
static bite_status default_hole(input_resolution *resolution, bite_error *error)
{
    bite_cut *cut = resolution->cut;
    const bite_item_record *drill = NULL;
    if (cut->operation != BITE_TAP || !isnan(cut->hole_diameter) ||
        isnan(cut->diameter + cut->pitch) || isnan(cut->thread_share)) {
        return BITE_OK;
    }
    double hole = bite_thread_hole(cut->diameter, cut->pitch, cut->thread_share);
    bite_status status = bite_tap_drill(resolution->request->library, hole,
                                        bite_thread_is_metric(cut->pitch), &drill, error);
    const bite_field_value *diameter =
        status == BITE_OK && drill != NULL ? bite_item_field(drill, "diameter") : NULL;
    if (diameter != NULL && bite_thread_share(cut->diameter, cut->pitch, diameter->value) <= 1.0) {
        apply_value(resolution, "hole_diameter", diameter, drill->file);
    }
    return status;
}

static bite_status check_records(const bite_request *request, bite_error *error)
{
    if (request->grade == NULL) {
        bite_error_set(error, BITE_MISSING, "no material was named");
        bite_error_key(error, "material");
        bite_error_hint(error, "for example acrylic/cast; list materials shows all of them");
        return BITE_MISSING;
    }
    if (request->tool == NULL && request->thread == NULL &&
        !request->typed[bite_input_index(bite_input_find("diameter"))].given) {
        bite_error_set(error, BITE_MISSING, "no tool was named");
        bite_error_key(error, "tool");
        bite_error_hint(
            error,
            "give a diameter such as 0.8mm or 1/32in, or a name; list tools shows all names");
        return BITE_MISSING;
    }
    return BITE_OK;
}

/* The operation, before the records that depend on it are read: as it was given, else that of the
 * tool, and a thread is tapped. */
static void find_operation(input_resolution *resolution)
{
    const bite_request *request = resolution->request;
    const bite_input *input = bite_input_find("operation");
    const bite_typed_input *typed = &request->typed[bite_input_index(input)];
    int of_tool = request->tool != NULL && bite_item_field(request->tool, "operation") != NULL;
    if (typed->given) {
        resolution->cut->operation = typed->word;
    } else if (request->thread != NULL && !of_tool) {
        resolution->cut->operation = BITE_TAP;
        note(resolution, input, BITE_ORIGIN_DEFAULT, NULL, NULL);
        resolution->provenance[bite_input_index(input)].source =
            "common-practice: a thread was named";
        resolution->provenance[bite_input_index(input)].grade = BITE_GRADE_COMMON_PRACTICE;
    }
}

/* A tap is as wide as its thread. */
static void apply_thread(input_resolution *resolution)
{
    const bite_item_record *thread = resolution->request->thread;
    const bite_field_value *major =
        thread == NULL ? NULL : bite_item_field(thread, "thread_diameter");
    if (major != NULL && resolution->cut->operation == BITE_TAP) {
        apply_value(resolution, "pitch", bite_item_field(thread, "pitch"), thread->file);
        apply_value(resolution, "diameter", major, thread->file);
    }
}

/* Taps and reamers are of high-speed steel unless the tool says otherwise. */
static void default_tool_material(input_resolution *resolution)
{
    const bite_input *input = bite_input_find("tool_material");
    bite_provenance *provenance = &resolution->provenance[bite_input_index(input)];
    int hole = resolution->cut->operation == BITE_TAP || resolution->cut->operation == BITE_REAM;
    if (hole && provenance->origin == BITE_ORIGIN_NONE) {
        resolution->cut->tool_material = BITE_TOOL_HSS;
        note(resolution, input, BITE_ORIGIN_DEFAULT, NULL, NULL);
        provenance->source = "common-practice: taps and reamers are of high-speed steel";
        provenance->grade = BITE_GRADE_COMMON_PRACTICE;
    }
}

/* Carbide taps and reamers run at a multiple of the speed of high-speed steel (memory: two to three
 * times). */
static const double carbide_speed = 2.0;

/* What is usual in this material: the speed of the edge, and the height of the thread. */
static bite_status apply_hole_work(input_resolution *resolution, bite_error *error)
{
    const bite_cut *cut = resolution->cut;
    const bite_item_record *usual = NULL;
    if (cut->operation != BITE_TAP && cut->operation != BITE_REAM) {
        return BITE_OK;
    }
    bite_status status = bite_library_hole_work(
        resolution->request->library,
        cut->operation == BITE_TAP ? BITE_HOLE_TAPPING : BITE_HOLE_REAMING,
        resolution->request->grade, bite_input_word(bite_input_find("substance"), cut->substance),
        &usual, error);
    if (status != BITE_OK) { /* without the table, the speed of the grade and the defaults */
        return status == BITE_UNKNOWN_NAME ? BITE_OK : status;
    }
    const bite_field_value *speed = bite_item_field(usual, "speed");
    const bite_field_value *share = bite_item_field(usual, "thread_share");
    if (speed != NULL) {
        double factor = cut->tool_material == BITE_TOOL_HSS ? 1.0 : carbide_speed;
        bite_field_value own = *speed;
        own.value *= factor;
        own.low *= factor;
        own.high *= factor;
        apply_value(resolution, "tool_speed_limit", &own, usual->file);
    }
    if (share != NULL && cut->operation == BITE_TAP) {
        apply_value(resolution, "thread_share", share, usual->file);
    }
    return BITE_OK;
}

/* The word of tool_material is needed before the record of that name is read. */
static bite_status apply_tool_material(input_resolution *resolution, bite_error *error)
{
    const bite_input *input = bite_input_find("tool_material");
    const bite_typed_input *typed = &resolution->request->typed[bite_input_index(input)];
    uint32_t word = typed->given ? typed->word : resolution->cut->tool_material;
    resolution->cut->tool_material = word;
    const bite_item_record *record = NULL;
    bite_status status = bite_library_tool_material(resolution->request->library,
                                                    bite_input_word(input, word), &record, error);
    if (status == BITE_OK) {
        apply_record(resolution, record);
    } else if (status == BITE_UNKNOWN_NAME) {
        status = BITE_OK; /* no record: the defaults of the physics apply */
    }
    return status;
}

static bite_status apply_coolant(input_resolution *resolution, bite_error *error)
{
    const bite_input *input = bite_input_find("coolant");
    const bite_typed_input *typed = &resolution->request->typed[bite_input_index(input)];
    const bite_item_record *record = NULL;
    bite_status status =
        bite_library_record(resolution->request->library, BITE_COOLANTS,
                            bite_input_word(input, typed->given ? typed->word : 0), &record, error);
    if (status == BITE_OK) {
        apply_record(resolution, record);
    } else if (status == BITE_UNKNOWN_NAME) {
        status = BITE_OK;
    }
    return status;
}

static bite_status apply_machine(input_resolution *resolution, bite_error *error)
{
    const bite_item_record *machine = resolution->request->machine;
    bite_status status = BITE_OK;
    if (machine == NULL) {
        status = bite_library_record(resolution->request->library, BITE_MACHINES,
                                     bite_usual_machine, &machine, error);
        status = status == BITE_UNKNOWN_NAME ? BITE_OK : status;
    }
    if (status == BITE_OK) {
        apply_record(resolution, machine);
    }
    return status;
}

/* Figures that the limits of the family's plugin read. */
static void apply_own(input_resolution *resolution)
{
    const bite_material *material = resolution->request->grade;
    resolution->cut->own = material->own;
    for (size_t i = 0; i < BITE_OWN_FIGURES; i++) {
        const bite_field_value *value = material->own_values[i];
        if (value != NULL) {
            resolution->cut->own_figure[i] = value->value;
            note(resolution, bite_input_entry(bite_input_count() + i), BITE_ORIGIN_TABLE, value,
                 material->record.file);
        }
    }
}

static void apply_grade(input_resolution *resolution)
{
    const bite_item_record *grade = &resolution->request->grade->record;
    apply_record(resolution, grade);
    apply_curve(&resolution->cut->heat_capacity_curve, grade, "heat_capacity.at");
    apply_curve(&resolution->cut->strength_curve, grade, "strength.at");
    apply_edge_speed(resolution, grade);
    apply_own(resolution);
}

static void note_defaults(input_resolution *resolution, const bite_cut *before)
{
    size_t count = bite_input_count();
    for (size_t i = 0; i < count && i < BITE_INPUTS_MAX; i++) {
        const bite_input *input = bite_input_at(i);
        bite_provenance *provenance = &resolution->provenance[i];
        if (provenance->origin != BITE_ORIGIN_NONE) {
            continue;
        }
        int defaulted = input->words > 0 || (isnan(*bite_input_number_of(before, input)) &&
                                             !isnan(*bite_input_number_of(resolution->cut, input)));
        if (defaulted) {
            const char *where;
            bite_source_grade grade = BITE_GRADE_NONE;
            const char *source = bite_defaults_source(input->name);
            note(resolution, input, BITE_ORIGIN_DEFAULT, NULL, NULL);
            provenance->source = source;
            if (bite_source_read(source, &grade, &where)) {
                provenance->grade = grade;
            }
        }
    }
}

bite_status bite_request_resolve_records(const bite_request *request, bite_cut *requested,
                                         bite_provenance *provenance, bite_error *error)
{
    bite_status status = check_records(request, error);
    if (status != BITE_OK) {
        return status;
    }
    input_resolution resolution = {request, requested, provenance};
    bite_provenance empty = {BITE_ORIGIN_NONE, BITE_GRADE_NONE, (double)NAN, (double)NAN, "", ""};
    for (size_t i = 0; i < BITE_INPUTS_MAX; i++) {
        provenance[i] = empty;
    }
    bite_cut_init(requested);
    status = apply_machine(&resolution, error);
    if (status != BITE_OK) {
        return status;
    }
    apply_record(&resolution, request->holder);
    apply_record(&resolution, request->tool);
    find_operation(&resolution);
    apply_thread(&resolution);
    default_tool_material(&resolution);
    status = apply_tool_material(&resolution, error);
    if (status == BITE_OK) {
        status = apply_coolant(&resolution, error);
    }
    if (status != BITE_OK) {
        return status;
    }
    apply_grade(&resolution);
    status = apply_hole_work(&resolution, error);
    return status == BITE_OK ? apply_hold(&resolution, error) : status;
}

bite_status bite_request_resolve_given(const bite_request *request, bite_cut *requested,
                                       bite_provenance *provenance, bite_error *error)
{
    input_resolution resolution = {request, requested, provenance};
    bite_status status = check_records(request, error);
    if (status != BITE_OK) {
        return status;
    }
    apply_given(&resolution);
    status = bite_request_check_tool(request, requested, error);
    status = status != BITE_OK ? status : bite_request_check_consistency(request, requested, error);
    status = status != BITE_OK ? status : default_hole(&resolution, error);
    if (status != BITE_OK) {
        return status;
    }
    default_depth(&resolution);
    default_entry(&resolution);
    convert_speeds(&resolution);
    return BITE_OK;
}

bite_status bite_request_resolve(const bite_request *request, bite_cut *requested, bite_cut *full,
                                 bite_provenance *provenance, bite_error *error)
{
    bite_status status = bite_request_resolve_records(request, requested, provenance, error);
    if (status == BITE_OK) {
        status = bite_request_resolve_given(request, requested, provenance, error);
    }
    if (status == BITE_OK) {
        input_resolution resolution = {request, full, provenance};
        *full = *requested;
        bite_defaults_fill(full);
        note_defaults(&resolution, requested);
    }
    return status;
}

bite_status bite_request_cut_sized(const bite_request *request, bite_cut *cut, size_t size,
                                   bite_error *error)
{
    bite_error_clear(error);
    if (request == NULL || cut == NULL || !bite_struct_may_be(&bite_struct_cut, size)) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "a request, and a cut of the size of some header, were expected");
    }
    bite_cut requested;
    bite_cut full;
    bite_provenance provenance[BITE_INPUTS_MAX];
    bite_status status = bite_request_resolve(request, &requested, &full, provenance, error);
    if (status == BITE_OK) {
        bite_struct_start(&bite_struct_cut, cut, size);
        bite_struct_write(&bite_struct_cut, &full, cut);
    }
    return status;
}
