# SPDX-License-Identifier: GPL-3.0-or-later
# Made by generate.py from include/coolbite/coolbite.h: do not edit.
VERSION = "0.1.0"
SONAME_NUMBER = 0
# Words of the command for inputs, where they differ.
INPUT_WORDS = {
    "shank": "shank_diameter",
    "spindle": "spindle_speed",
    "feed": "feed_rate",
    "floor": "floor_thickness",
    "wall": "wall_thickness",
    "hole": "hole_diameter",
    "room": "room_temperature",
    "path": "path_length",
}
# Words of the command for records, and their collections.
RECORD_WORDS = {
    "material": "BITE_GRADES",
    "tool": "BITE_TOOLS",
    "holder": "BITE_HOLDERS",
    "machine": "BITE_MACHINES",
    "hold": "BITE_HOLDS",
    "thread": "BITE_THREADS",
}
DECLARATIONS = """
#define BITE_VERSION_MAJOR 0
#define BITE_VERSION_MINOR 1
#define BITE_VERSION_PATCH 0
#define BITE_CURVE_POINTS 8
#define BITE_OWN_FIGURES 8
#define BITE_VALUE_SLOTS 64
#define BITE_LIMIT_SLOTS 64
#define BITE_NO_INPUT 0xffffffff
#define BITE_SPREAD_MAX 72
#define BITE_DRAWS_MAX 65536
#define BITE_DRAWS_NONE 1
typedef enum bite_status {
BITE_OK = 0, BITE_NO_MEMORY = 1, BITE_BAD_ARGUMENT = 2, BITE_BAD_QUANTITY = 3, BITE_OUT_OF_RANGE
    = 4, BITE_MISSING = 5, BITE_UNKNOWN_NAME = 6, BITE_NOT_FOUND = 7, BITE_BAD_FILE = 8,
    BITE_UNSAFE = 9, BITE_BAD_PLUGIN = 10, BITE_CANNOT_WRITE = 11, BITE_IO = 12, BITE_BUSY = 13,
    BITE_NO_ANSWER = 14, BITE_FAULT = 15, BITE_STOPPED = 16 }
bite_status;
const char *bite_status_name(bite_status status);
const char *bite_status_text(bite_status status);
typedef struct bite_error {
uint32_t struct_size;
int32_t status;
uint32_t line;
uint32_t column;
uint32_t faults;
uint32_t reserved;
char message[256];
char hint[128];
char key[128];
char file[512];
}
bite_error;
void bite_error_init_sized(bite_error *error, size_t size);
typedef int (*bite_progress)(void *user, uint64_t done, uint64_t total);
size_t bite_text_escape(const char *text, char *out, size_t size);
typedef void (*bite_fault_sink)(void *user, const bite_error *fault);
typedef int (*bite_sink)(void *user, const char *text, size_t size);
bite_status bite_file_write(const char *path, const char *text, size_t size, bite_error *error);
typedef struct bite_file_output bite_file_output;
bite_status bite_file_output_open(const char *path, bite_file_output **output, bite_error
    *error);
bite_status bite_file_output_write(bite_file_output *output, const char *text, size_t size,
    bite_error *error);
bite_status bite_file_output_keep(bite_file_output *output, bite_error *error);
void bite_file_output_drop(bite_file_output *output);
int bite_file_same(const char *first, const char *second);
typedef enum bite_kind {
BITE_KIND_NUMBER = 0, BITE_KIND_LENGTH = 1, BITE_KIND_ANGLE = 2, BITE_KIND_ROTATION = 3,
    BITE_KIND_SPEED = 4, BITE_KIND_SURFACE_SPEED = 5, BITE_KIND_TOOTH_FEED = 6,
    BITE_KIND_TEMPERATURE = 7, BITE_KIND_RISE = 8, BITE_KIND_FORCE = 9, BITE_KIND_STRESS = 10,
    BITE_KIND_POWER = 11, BITE_KIND_TORQUE = 12, BITE_KIND_TIME = 13, BITE_KIND_FRACTION = 14,
    BITE_KIND_AREA = 15, BITE_KIND_ACCELERATION = 16, BITE_KIND_STIFFNESS = 17,
    BITE_KIND_EDGE_FORCE = 18, BITE_KIND_SURFACE_ENERGY = 19, BITE_KIND_DENSITY = 20,
    BITE_KIND_HEAT_CAPACITY = 21, BITE_KIND_CONDUCTIVITY = 22, BITE_KIND_EXPANSION = 23,
    BITE_KIND_HEAT_TRANSFER = 24, BITE_KIND_REMOVAL_RATE = 25, BITE_KIND_SPECIFIC_ENERGY = 26,
    BITE_KIND_PER_ANGLE = 27, BITE_KIND_FREQUENCY = 28, BITE_KIND_COUNT }
bite_kind;
typedef enum bite_units {
BITE_METRIC = 0, BITE_INCH = 1 }
bite_units;
bite_status bite_quantity_read(const char *text, bite_kind kind, double *si, bite_error *error);
bite_status bite_quantity_write(double si, bite_kind kind, bite_units units, char *buffer,
    size_t size, size_t *length, bite_error *error);
typedef enum bite_side {
BITE_CLIMB = 0, BITE_CONVENTIONAL = 1 }
bite_side;
typedef enum bite_coolant {
BITE_COOLANT_NONE = 0, BITE_COOLANT_AIR = 1, BITE_COOLANT_MIST = 2, BITE_COOLANT_FLOOD = 3 }
bite_coolant;
typedef enum bite_operation {
BITE_MILL = 0, BITE_DRILL_HOLE = 1, BITE_CHAMFER = 2, BITE_TAP = 3, BITE_REAM = 4 }
bite_operation;
typedef enum bite_entry {
BITE_ENTRY_OUTSIDE = 0, BITE_ENTRY_PLUNGE = 1, BITE_ENTRY_RAMP = 2, BITE_ENTRY_HELIX = 3 }
bite_entry;
typedef enum bite_wall_ends {
BITE_WALL_FREE = 0, BITE_WALL_HELD = 1 }
bite_wall_ends;
typedef enum bite_tool_material {
BITE_TOOL_CARBIDE = 0, BITE_TOOL_HSS = 1, BITE_TOOL_DIAMOND = 2 }
bite_tool_material;
typedef enum bite_substance {
BITE_METAL = 0, BITE_AMORPHOUS = 1, BITE_CRYSTALLINE = 2, BITE_THERMOSET = 3, BITE_MINERAL = 4 }
bite_substance;
typedef enum bite_chip_form {
BITE_CHIP_UNSTATED = 0, BITE_CHIP_SOFT = 1, BITE_CHIP_TOUGH = 2, BITE_CHIP_SHORT = 3,
    BITE_CHIP_DUST = 4 }
bite_chip_form;
typedef enum bite_pressure_model {
BITE_PRESSURE_NONE = 0, BITE_PRESSURE_EDGE = 1, BITE_PRESSURE_POWER = 2, BITE_PRESSURE_STRENGTH
    = 3 }
bite_pressure_model;
typedef struct bite_curve {
uint32_t count;
uint32_t reserved;
double temperature[BITE_CURVE_POINTS];
double value[BITE_CURVE_POINTS];
}
bite_curve;
typedef struct bite_own_limits bite_own_limits;
typedef struct bite_cut {
uint32_t struct_size;
uint32_t side;
uint32_t coolant;
uint32_t tool_material;
uint32_t pressure;
uint32_t substance;
uint32_t chip_form;
uint32_t blind;
uint32_t entry;
uint32_t operation;
uint32_t wall_ends;
uint32_t reserved;
double spindle_speed;
double feed_rate;
double depth;
double width;
double path_length;
double entry_feed;
double ramp_angle;
double point_angle;
double tip_below;
double diameter;
double flutes;
double corner_radius;
double helix;
double rake;
double edge_radius;
double edge_wear;
double runout;
double flute_length;
double neck_diameter;
double neck_length;
double shank_diameter;
double stickout;
double stiff_share;
double core_share;
double tool_modulus;
double tool_poisson;
double tool_strength;
double tooth_strength;
double tool_damping;
double tool_frequency_share;
double tool_conductivity;
double tool_density;
double tool_heat_capacity;
double tool_speed_limit;
double tool_turn_limit;
double taper;
double tip_diameter;
double spindle_slowest;
double spindle_fastest;
double feed_fastest;
double acceleration;
double power_limit;
double torque_limit;
double torque_speed;
double torque_exponent;
double machine_stiffness;
double cooling;
double room_temperature;
double holder_temperature;
double surface_cooling;
double frame_share;
double frame_frequency;
double frame_damping;
double spindle_frequency;
double spindle_damping;
double mode_frequency;
double mode_stiffness;
double mode_damping;
double mode2_frequency;
double mode2_stiffness;
double mode2_damping;
double mode3_frequency;
double mode3_stiffness;
double mode3_damping;
double tolerance;
double finish;
double inside_radius;
double feature_depth;
double floor_thickness;
double wall_thickness;
double wall_height;
double wall_length;
double floor_span;
double floor_length;
double gap;
double bond_area;
double bond_width;
double bond_shear;
double bond_pull;
double bond_exponent;
double bond_halving;
double bond_modulus;
double bond_thickness;
double bond_limit;
double bond_temperature;
double bond_force;
double load_time;
double flatness;
double part_span;
double part_thickness;
double stock_thickness;
double stock_tolerance;
double skim;
double removed_top;
double removed_below;
double face_strain;
double bridge_span;
double bridge_width;
double bridge_thickness;
double feature_width;
double density;
double heat_capacity;
double conductivity;
double chip_ratio;
double heat_share;
double friction_share;
double sublayer_share;
double pressure_t;
double pressure_r;
double pressure_a;
double edge_t;
double edge_r;
double edge_a;
double edge_reference;
double pressure_exponent;
double pressure_rake;
double pressure_rake_at;
double pressure_temperature;
double shear_strength;
double yield;
double friction;
double fracture_energy;
double minimum_chip;
double hardening;
double transition;
double wlf_c1;
double wlf_c2;
double tack_decades;
double softening;
double welding;
double packing_limit;
double charted_chip;
double charted_exponent;
double modulus;
double poisson;
double expansion;
double crazing;
double chip_edge;
double refraction;
double taylor_speed;
double taylor_exponent;
double skin_stress;
double bond_adhesion;
double skin_depth;
double edge_share;
double walk_share;
double spring_back;
double rub_heat;
double wall_heat;
double rub_share;
double runout_share;
double stable_share;
double chip_bulk;
double packing_share;
double plunge_share;
double recutting;
bite_curve heat_capacity_curve;
bite_curve strength_curve;
double spring_passes;
double tap_lead;
double hole_diameter;
double pitch;
double thread_share;
double ream_stock;
double tap_drag;
double own_figure[BITE_OWN_FIGURES];
const bite_own_limits *own;
}
bite_cut;
typedef struct bite_input {
const char *name;
const char *unit;
const char *summary;
size_t offset;
double least;
double most;
double fallback;
uint32_t kind;
uint32_t group;
uint32_t words;
uint32_t needed;
uint32_t whole;
uint32_t reserved;
}
bite_input;
typedef enum bite_group {
BITE_GROUP_MOTION = 0, BITE_GROUP_TOOL = 1, BITE_GROUP_MACHINE = 2, BITE_GROUP_PART = 3,
    BITE_GROUP_MATERIAL = 4, BITE_GROUP_MODEL = 5 }
bite_group;
const char *bite_input_word(const bite_input *input, uint32_t index);
size_t bite_input_count(void);
const bite_input *bite_input_at(size_t index);
const bite_input *bite_input_find(const char *name);
const bite_input *bite_cut_input_at(const bite_cut *cut, size_t index);
void bite_cut_init_sized(bite_cut *cut, size_t size);
typedef enum bite_value_id {
BITE_SURFACE_SPEED = 0, BITE_SPINDLE_SPEED, BITE_FEED_RATE, BITE_CHIP_LOAD,
    BITE_CHIP_LOAD_HEAVY, BITE_CHIP_LOAD_LIGHT, BITE_CHIP_THICKNESS_MAX,
    BITE_CHIP_THICKNESS_MEAN, BITE_CHIP_THICKNESS_LEAST, BITE_ENGAGEMENT, BITE_REMOVAL_RATE,
    BITE_FORCE_TANGENTIAL_PEAK, BITE_FORCE_SIDE_PEAK, BITE_FORCE_SIDE_MEAN,
    BITE_FORCE_LIFT_PEAK, BITE_TORQUE_PEAK, BITE_POWER_MEAN, BITE_SPECIFIC_ENERGY,
    BITE_CHIP_TEMPERATURE, BITE_SURFACE_TEMPERATURE, BITE_FILM_TEMPERATURE,
    BITE_TOOL_TEMPERATURE, BITE_PART_TEMPERATURE, BITE_PREHEAT, BITE_HEAT_TO_PART,
    BITE_DEFLECTION_TIP, BITE_WALL_ERROR, BITE_TOOL_STRESS, BITE_ROUGHNESS_FLOOR,
    BITE_ROUGHNESS_WALL, BITE_STABILITY_DEPTH, BITE_TIP_FREQUENCY, BITE_HAZE, BITE_TOOL_LIFE,
    BITE_SURFACE_SPEED_SMALL, BITE_FLASH_TEMPERATURE, BITE_SURFACE_DWELL, BITE_FLOW_TEMPERATURE,
    BITE_WALL_CLIMB, BITE_WALL_CONVENTIONAL, BITE_EDGE_LOAD, BITE_STABILITY_DEPTH_TOOL,
    BITE_VALUE_COUNT }
bite_value_id;
typedef enum bite_limit_id {
BITE_LIMIT_SPINDLE_FAST = 0, BITE_LIMIT_SPINDLE_SLOW, BITE_LIMIT_FEED_FAST,
    BITE_LIMIT_EDGE_SPEED, BITE_LIMIT_POWER, BITE_LIMIT_TORQUE, BITE_LIMIT_RUBBING,
    BITE_LIMIT_RUNOUT, BITE_LIMIT_TOOL_BREAK, BITE_LIMIT_DEFLECTION, BITE_LIMIT_SOFTENING,
    BITE_LIMIT_CHIP_WELD, BITE_LIMIT_CHIP_PACKING, BITE_LIMIT_CORNER, BITE_LIMIT_REACH,
    BITE_LIMIT_FINISH, BITE_LIMIT_CHATTER, BITE_LIMIT_EDGE_CHIP, BITE_LIMIT_CRAZE,
    BITE_LIMIT_HOLD, BITE_LIMIT_BOND_HEAT, BITE_LIMIT_PART_BEND, BITE_LIMIT_GAP,
    BITE_LIMIT_WEAR, BITE_LIMIT_WARP, BITE_LIMIT_STOCK_THICKNESS, BITE_LIMIT_TOOL_GROSS_BEND,
    BITE_LIMIT_PART_GROSS_BEND, BITE_LIMIT_FEED_TOOTH, BITE_LIMIT_CHATTER_TOOL,
    BITE_LIMIT_UNPROVEN, BITE_LIMIT_PLUNGE_FEED, BITE_LIMIT_OWN_1, BITE_LIMIT_OWN_2,
    BITE_LIMIT_OWN_3, BITE_LIMIT_OWN_4, BITE_LIMIT_COUNT, BITE_LIMIT_LARGEST_TOOTH = 1000,
    BITE_LIMIT_GOAL = 1001 }
bite_limit_id;
typedef enum bite_verdict {
BITE_NOT_JUDGED = 0, BITE_CLEAR = 1, BITE_TIGHT = 2, BITE_OVER = 3, BITE_UNKNOWN = 4 }
bite_verdict;
typedef enum bite_why {
BITE_WHY_APPLIES = 0, BITE_WHY_NOT_GIVEN = 1, BITE_WHY_NO_DATA = 2, BITE_WHY_ONE_FLUTE = 3,
    BITE_WHY_NOT_A_METAL = 4, BITE_WHY_METAL = 5, BITE_WHY_DOES_NOT_WELD = 6,
    BITE_WHY_DOES_NOT_WEAR = 7, BITE_WHY_DOES_NOT_CRAZE = 8, BITE_WHY_DRILL = 9,
    BITE_WHY_CHAMFER = 10, BITE_WHY_TOLERANCE = 11, BITE_WHY_MEASURED = 12, BITE_WHY_NO_LIMIT =
    13, BITE_WHY_NOT_ASKED = 14, BITE_WHY_BAD_NUMBER = 15, BITE_WHY_COUNT }
bite_why;
typedef struct bite_value {
double value;
double low;
double high;
}
bite_value;
typedef struct bite_limit {
double demand;
double capacity;
double utilization;
double chance;
double utilization_high;
uint32_t verdict;
uint32_t applies;
uint32_t why;
uint32_t in_corner;
uint32_t advisory;
uint32_t reserved;
}
bite_limit;
typedef struct bite_result {
uint32_t struct_size;
uint32_t verdict;
uint32_t value_count;
uint32_t limit_count;
uint32_t draws;
uint32_t worst;
double chance;
uint32_t widest[2];
double heat_share[4];
bite_value values[BITE_VALUE_SLOTS];
bite_limit limits[BITE_LIMIT_SLOTS];
uint32_t judged;
uint32_t not_applicable;
uint32_t not_judged;
uint32_t reserved;
}
bite_result;
void bite_result_init_sized(bite_result *result, size_t size);
const char *bite_cut_missing_figure(const bite_cut *cut, size_t index);
const char *bite_value_name(bite_value_id id);
const char *bite_value_unit(bite_value_id id);
bite_kind bite_value_kind(bite_value_id id);
const char *bite_limit_name(bite_limit_id id);
const char *bite_limit_unit(bite_limit_id id);
bite_kind bite_limit_kind(bite_limit_id id);
const char *bite_limit_why(uint32_t why);
const char *bite_cut_limit_name(const bite_cut *cut, bite_limit_id id);
const char *bite_cut_limit_unit(const bite_cut *cut, bite_limit_id id);
bite_kind bite_cut_limit_kind(const bite_cut *cut, bite_limit_id id);
const char *bite_verdict_name(bite_verdict verdict);
bite_status bite_cut_pass(const bite_cut *cut, bite_result *result, bite_error *error);
typedef enum bite_shape {
BITE_SHAPE_LEVEL = 1, BITE_SHAPE_NORMAL = 2, BITE_SHAPE_LOGNORMAL = 3 }
bite_shape;
typedef struct bite_spread {
uint32_t input;
uint32_t shape;
uint32_t group;
uint32_t reserved;
double low;
double high;
double together;
}
bite_spread;
bite_status bite_cut_band(const bite_cut *cut, const bite_spread *spreads, size_t count, size_t
    draws, uint64_t seed, double confidence, bite_result *result, bite_error *error);
typedef struct bite_allocator {
void *(*allocate)(void *user, size_t size);
void *(*resize)(void *user, void *memory, size_t size);
void (*release)(void *user, void *memory);
void *user;
}
bite_allocator;
typedef enum bite_batch_kind {
BITE_BATCH_VALUE = 0, BITE_BATCH_UTILIZATION = 1, BITE_BATCH_DEMAND = 2, BITE_BATCH_CAPACITY =
    3, BITE_BATCH_VERDICT = 4, BITE_BATCH_WORST = 5 }
bite_batch_kind;
typedef struct bite_batch_output {
uint32_t kind;
uint32_t id;
}
bite_batch_output;
typedef struct bite_column {
const double *data;
size_t stride;
}
bite_column;
typedef struct bite_result_column {
double *data;
size_t stride;
}
bite_result_column;
typedef struct bite_batch bite_batch;
bite_status bite_batch_new(const bite_allocator *allocator, const bite_cut *cut, const uint32_t
    *inputs, size_t input_count, const bite_batch_output *outputs, size_t output_count,
    bite_batch **batch, bite_error *error);
void bite_batch_free(bite_batch *batch);
bite_status bite_batch_run(const bite_batch *batch, size_t rows, const bite_column *in, const
    bite_result_column *out, uint32_t *status, size_t threads, const volatile int *stop,
    bite_error *error);
typedef struct bite_batch_options {
uint32_t struct_size;
uint32_t threads;
const volatile int *stop;
bite_progress progress;
void *progress_user;
}
bite_batch_options;
void bite_batch_options_init_sized(bite_batch_options *options, size_t size);
bite_status bite_batch_run_with( const bite_batch *batch, size_t rows, const bite_column *in,
    const bite_result_column *out, uint32_t *status, const bite_batch_options *options,
    bite_error *error);
typedef enum bite_format {
BITE_TEXT = 0, BITE_JSON = 1, BITE_CSV = 2, BITE_SVG = 3, BITE_HTML = 4, BITE_QIF = 5 }
bite_format;
typedef enum bite_json_layout {
BITE_JSON_INDENTED = 0, BITE_JSON_COMPACT = 1 }
bite_json_layout;
typedef struct bite_style {
uint32_t struct_size;
uint32_t format;
uint32_t units;
uint32_t columns;
uint32_t colour;
uint32_t ascii;
uint32_t sources;
uint32_t all_limits;
uint32_t json;
uint32_t reserved;
}
bite_style;
void bite_style_init_sized(bite_style *style, size_t size);
typedef struct bite_library bite_library;
typedef struct bite_library_options {
size_t struct_size;
const bite_allocator *allocator;
const char *family_path;
const char *table_path;
}
bite_library_options;
void bite_library_options_init_sized(bite_library_options *options, size_t size);
bite_status bite_library_open(const bite_library_options *options, bite_library **library,
    bite_error *error);
void bite_library_close(bite_library *library);
int bite_library_has_file(const bite_library *library, const char *path);
typedef enum bite_collection {
BITE_FAMILIES = 0, BITE_GRADES = 1, BITE_TOOLS = 2, BITE_HOLDERS = 3, BITE_MACHINES = 4,
    BITE_COOLANTS = 5, BITE_HOLDS = 7, BITE_SYMPTOMS = 8, BITE_FLUIDS = 9, BITE_SHEETS = 10,
    BITE_TIMES = 11, BITE_LAYERS = 12, BITE_INSTRUMENTS = 13, BITE_DRILLS = 14, BITE_THREADS =
    15, BITE_INSERTS = 16, BITE_LEFT_OUT = 6 }
bite_collection;
typedef struct bite_item {
const char *name;
const char *title;
const char *summary;
const char *file;
}
bite_item;
size_t bite_library_count(const bite_library *library, bite_collection collection);
bite_status bite_library_item(const bite_library *library, bite_collection collection, size_t
    index, bite_item *item, bite_error *error);
bite_status bite_library_left_out(const bite_library *library, bite_collection collection,
    size_t *count, bite_error *error);
bite_status bite_library_list_write(const bite_library *library, bite_collection collection,
    const bite_style *style, bite_sink sink, void *user, bite_error *error);
bite_status bite_library_use_tools(bite_library *library, const char *path, bite_error *error);
typedef struct bite_tool_filter {
uint32_t struct_size;
uint32_t reserved;
double diameter_least;
double diameter_most;
const char *kind;
}
bite_tool_filter;
void bite_tool_filter_init_sized(bite_tool_filter *filter, size_t size);
bite_status bite_tool_list_write(const bite_library *library, const bite_tool_filter *filter,
    const bite_style *style, bite_sink sink, void *user, bite_error *error);
bite_status bite_library_show(const bite_library *library, bite_collection collection, const
    char *name, const bite_style *style, bite_sink sink, void *user, bite_error *error);
bite_status bite_library_compare(const bite_library *library, bite_collection collection, const
    char *first, const char *second, const bite_style *style, bite_sink sink, void *user,
    bite_error *error);
typedef struct bite_thread_answer bite_thread_answer;
typedef struct bite_thread_options {
uint32_t struct_size;
uint32_t left_hand;
const char *machine;
const char *tool;
}
bite_thread_options;
void bite_thread_options_init_sized(bite_thread_options *options, size_t size);
bite_status bite_thread_answer_new(const bite_library *library, const char *thread, const char
    *material, const bite_thread_options *options, bite_thread_answer **answer, bite_error
    *error);
void bite_thread_answer_free(bite_thread_answer *answer);
bite_status bite_thread_answer_write(const bite_thread_answer *answer, const bite_style *style,
    bite_sink sink, void *user, bite_error *error);
typedef enum bite_rating {
BITE_RATED_SAFE = 0, BITE_RATED_RISK = 1, BITE_RATED_NO = 2, BITE_RATED_UNKNOWN = 3 }
bite_rating;
const char *bite_rating_name(uint32_t rating);
typedef struct bite_compatibility {
uint32_t struct_size;
uint32_t machined;
uint32_t annealed;
uint32_t sheet;
uint32_t other;
uint32_t overridden;
const char *fluid;
const char *title;
const char *use;
const char *hazard;
const char *material;
const char *reason;
const char *signs;
const char *source;
const char *sheet_source;
const char *other_source;
const char *table;
const char *overridden_table;
double watch;
}
bite_compatibility;
void bite_compatibility_init_sized(bite_compatibility *pair, size_t size);
bite_status bite_compatibility_find(const bite_library *library, const char *fluid, const char
    *material, bite_compatibility *result, bite_error *error);
bite_status bite_compatibility_write(const bite_library *library, const char *fluid, const char
    *material, const bite_style *style, bite_sink sink, void *user, bite_error *error);
bite_status bite_compatibility_list_write(const bite_library *library, const char *material,
    const bite_style *style, bite_sink sink, void *user, bite_error *error);
bite_status bite_library_add_table(bite_library *library, const char *name, const char *text,
    size_t size, bite_fault_sink fault, void *user, bite_error *error);
typedef struct bite_request bite_request;
bite_status bite_request_new(const bite_library *library, bite_request **request, bite_error
    *error);
void bite_request_free(bite_request *request);
bite_status bite_request_use(bite_request *request, bite_collection collection, const char
    *name, bite_error *error);
bite_status bite_request_set(bite_request *request, const char *input, const char *text,
    bite_error *error);
bite_status bite_request_set_number(bite_request *request, const char *input, double si,
    bite_error *error);
bite_status bite_request_threads(bite_request *request, size_t threads, bite_error *error);
bite_status bite_request_json(bite_request *request, const char *text, size_t length, bite_error
    *error);
bite_status bite_request_cut_sized(const bite_request *request, bite_cut *cut, size_t size,
    bite_error *error);
typedef struct bite_answer bite_answer;
bite_status bite_answer_new(const bite_request *request, size_t draws, double confidence,
    bite_answer **answer, bite_error *error);
void bite_answer_free(bite_answer *answer);
const bite_result *bite_answer_result(const bite_answer *answer);
typedef struct bite_caution {
const char *name;
const char *text;
const char *source;
uint32_t severity;
uint32_t reserved;
}
bite_caution;
size_t bite_answer_caution_count(const bite_answer *answer);
bite_status bite_answer_caution(const bite_answer *answer, size_t index, bite_caution *caution,
    bite_error *error);
const char *bite_answer_advice(const bite_answer *answer, bite_limit_id limit);
typedef enum bite_origin {
BITE_ORIGIN_NONE = 0, BITE_ORIGIN_USER = 1, BITE_ORIGIN_TABLE = 2, BITE_ORIGIN_DEFAULT = 3,
    BITE_ORIGIN_SHOP = 4 }
bite_origin;
typedef struct bite_used_input {
uint32_t struct_size;
uint32_t input;
uint32_t origin;
uint32_t word;
const char *name;
const char *unit;
const char *text;
const char *grade;
const char *source;
const char *file;
double value;
double low;
double high;
}
bite_used_input;
void bite_used_input_init_sized(bite_used_input *used, size_t size);
size_t bite_answer_input_count(const bite_answer *answer);
bite_status bite_answer_input(const bite_answer *answer, size_t index, bite_used_input *used,
    bite_error *error);
bite_status bite_answer_input_find(const bite_answer *answer, const char *name, bite_used_input
    *used, bite_error *error);
const char *bite_answer_record(const bite_answer *answer, bite_collection collection);
const char *bite_answer_missing_figure(const bite_answer *answer, size_t index);
const char *bite_answer_source(const bite_answer *answer, const char *name);
bite_status bite_answer_write(const bite_answer *answer, const bite_style *style, bite_sink
    sink, void *user, bite_error *error);
bite_status bite_library_check_family(const bite_library *library, const char *family,
    bite_fault_sink fault, void *user, size_t *cases, bite_error *error);
typedef enum bite_audit_kind {
BITE_AUDIT_OTHER = 0, BITE_AUDIT_TABLE = 1, BITE_AUDIT_PLUGIN = 2 }
bite_audit_kind;
typedef void (*bite_audit_stage)(void *user, const char *doing);
typedef struct bite_audit_options {
uint32_t struct_size;
uint32_t reserved;
const bite_library_options *library;
bite_fault_sink fault;
bite_audit_stage stage;
void *user;
}
bite_audit_options;
void bite_audit_options_init_sized(bite_audit_options *options, size_t size);
typedef struct bite_audit {
uint32_t struct_size;
uint32_t kind;
uint32_t grades;
uint32_t cases;
uint32_t cuts;
uint32_t unfinished;
}
bite_audit;
void bite_audit_init_sized(bite_audit *audit, size_t size);
bite_status bite_audit_file(const char *path, const bite_audit_options *options, bite_audit
    *audit, bite_error *error);
typedef struct bite_case_word {
const char *word;
const char *input;
}
bite_case_word;
typedef struct bite_case_options {
uint32_t struct_size;
uint32_t format;
uint32_t units;
uint32_t reserved;
size_t draws;
double confidence;
size_t threads;
size_t result_count;
const char *const *results;
const bite_case_word *words;
size_t word_count;
void (*refused)(void *user, const bite_error *error);
void *refused_user;
const volatile int *stop;
}
bite_case_options;
void bite_case_options_init_sized(bite_case_options *options, size_t size);
typedef struct bite_case_summary {
uint32_t struct_size;
uint32_t reserved;
uint64_t rows;
uint64_t refused;
uint64_t verdicts[5];
}
bite_case_summary;
void bite_case_summary_init_sized(bite_case_summary *summary, size_t size);
typedef struct bite_cases bite_cases;
bite_status bite_cases_new(const bite_request *request, const bite_case_options *options,
    bite_sink sink, void *user, bite_cases **cases, bite_error *error);
bite_status bite_cases_push(bite_cases *cases, const char *text, size_t size, bite_error
    *error);
bite_status bite_cases_end(bite_cases *cases, bite_error *error);
void bite_cases_summary(const bite_cases *cases, bite_case_summary *summary);
void bite_cases_free(bite_cases *cases);
typedef struct bite_shop bite_shop;
bite_status bite_shop_open(const char *path, bite_shop **shop, bite_error *error);
void bite_shop_free(bite_shop *shop);
const char *bite_shop_path(const bite_shop *shop);
const char *bite_shop_text(const bite_shop *shop, const char *key);
double bite_shop_number(const bite_shop *shop, const char *key);
size_t bite_shop_line(const bite_shop *shop, const char *key);
const char *bite_shop_tool(const bite_shop *shop, size_t index);
bite_status bite_shop_check(const bite_shop *shop, const bite_library *library, bite_error
    *error);
bite_status bite_request_use_shop(bite_request *request, const bite_shop *shop, bite_error
    *error);
bite_status bite_request_take_from_shop(bite_request *request, const char *key, bite_error
    *error);
typedef enum bite_goal {
BITE_GOAL_USUAL = 0, BITE_GOAL_GENTLE = 1, BITE_GOAL_FINE = 2, BITE_GOAL_FAST = 3,
    BITE_GOAL_COOL = 4, BITE_GOAL_COUNT }
bite_goal;
typedef enum bite_effort_kind {
BITE_EFFORT_WHOLE = 0, BITE_EFFORT_QUICK = 1 }
bite_effort_kind;
typedef struct bite_choice bite_choice;
typedef struct bite_choice_options {
uint32_t struct_size;
uint32_t goal;
uint32_t units;
uint32_t effort;
const char *const *tools;
size_t tool_count;
size_t draws;
double confidence;
const double *steps;
size_t step_count;
uint32_t beyond_charts;
uint32_t reserved;
bite_progress progress;
void *progress_user;
}
bite_choice_options;
void bite_choice_options_init_sized(bite_choice_options *options, size_t size);
bite_status bite_choice_new(const bite_request *request, const bite_choice_options *options,
    bite_choice **choice, bite_error *error);
void bite_choice_free(bite_choice *choice);
const bite_answer *bite_choice_answer(const bite_choice *choice);
size_t bite_choice_passes(const bite_choice *choice);
size_t bite_choice_side_passes(const bite_choice *choice);
const char *bite_choice_tool(const bite_choice *choice);
int bite_choice_pass(const bite_choice *choice, size_t index, double *from, double *to);
int bite_choice_side_pass(const bite_choice *choice, size_t index, double *from, double *to);
int bite_choice_active_limit(const bite_choice *choice, size_t index, bite_limit_id *limit,
    double *gain);
int bite_choice_freed_by(const bite_choice *choice, size_t index, const char **input, const char
    **to);
bite_status bite_choice_write(const bite_choice *choice, const bite_style *style, bite_sink
    sink, void *user, bite_error *error);
const char *bite_goal_word(uint32_t goal);
typedef struct bite_diagnosis bite_diagnosis;
bite_status bite_diagnosis_new(const bite_answer *answer, const char *symptom, bite_diagnosis
    **diagnosis, bite_error *error);
void bite_diagnosis_free(bite_diagnosis *diagnosis);
bite_status bite_diagnosis_write(const bite_diagnosis *diagnosis, const bite_style *style,
    bite_sink sink, void *user, bite_error *error);
typedef struct bite_window bite_window;
typedef struct bite_window_options {
uint32_t struct_size;
uint32_t columns;
uint32_t rows;
uint32_t reserved;
const char *across;
const char *up;
double across_least;
double across_most;
double up_least;
double up_most;
bite_progress progress;
void *progress_user;
}
bite_window_options;
void bite_window_options_init_sized(bite_window_options *options, size_t size);
bite_status bite_window_new(const bite_answer *answer, const bite_window_options *options,
    bite_window **window, bite_error *error);
void bite_window_free(bite_window *window);
bite_status bite_window_write(const bite_window *window, const bite_style *style, bite_sink
    sink, void *user, bite_error *error);
typedef struct bite_job bite_job;
typedef struct bite_job_options {
uint32_t struct_size;
uint32_t units;
uint32_t units_given;
uint32_t threads;
size_t draws;
double confidence;
uint32_t windows;
uint32_t reserved;
const struct bite_shop *shop;
bite_progress progress;
void *progress_user;
}
bite_job_options;
void bite_job_options_init_sized(bite_job_options *options, size_t size);
bite_status bite_job_open(const bite_library *library, const char *path, const bite_job_options
    *options, bite_fault_sink fault, void *user, bite_job **job, bite_error *error);
void bite_job_free(bite_job *job);
bite_verdict bite_job_verdict(const bite_job *job);
bite_status bite_job_write(const bite_job *job, const bite_style *style, bite_sink sink, void
    *user, bite_error *error);
bite_status bite_job_time_add(const bite_job *job, double seconds, bite_error *error);
bite_status bite_job_time_remove(const bite_job *job, bite_error *error);
bite_status bite_answer_compare(const bite_answer *first, const bite_answer *second, const
    bite_style *style, bite_sink sink, void *user, bite_error *error);
typedef struct bite_record bite_record;
typedef struct bite_characteristic {
uint32_t number;
uint32_t measures;
uint32_t judged;
uint32_t every;
uint32_t pass;
uint32_t reserved;
const char *what;
const char *zone;
const char *designator;
const char *note;
const char *limits_from;
const char *instrument;
const char *instrument_title;
const char *pass_title;
const char *tool;
double nominal;
double lower;
double upper;
double uncertainty;
double resolution;
double instrument_expansion;
double expansion;
double expansion_spread;
double pressed;
double wall_error;
double wall_error_low;
double wall_error_high;
}
bite_characteristic;
typedef enum bite_reading_state {
BITE_READING_STANDS = 0, BITE_READING_REPLACED = 1, BITE_READING_WITHDRAWN = 2,
    BITE_READING_SKIPPED = 3 }
bite_reading_state;
typedef struct bite_reading {
uint64_t line;
uint64_t replaces;
uint64_t closed_by;
uint32_t characteristic;
uint32_t part;
uint32_t trial;
uint32_t state;
uint32_t corrected;
uint32_t reserved;
const char *text;
const char *person;
const char *note;
double value;
double temperature;
double time;
double value_20;
double uncertainty_20;
}
bite_reading;
bite_status bite_record_new(const bite_job *job, const char *path, const char *const
    (*fields)[2], size_t count, bite_error *error);
bite_status bite_record_open(const char *path, bite_fault_sink fault, void *user, bite_record
    **record, bite_error *error);
void bite_record_free(bite_record *record);
size_t bite_record_unsettled(const bite_record *record);
uint64_t bite_record_torn_line(const bite_record *record);
const char *bite_record_text(const bite_record *record, const char *key);
uint32_t bite_record_units(const bite_record *record);
double bite_record_parts(const bite_record *record);
const bite_characteristic *bite_record_characteristic(const bite_record *record, size_t index);
const bite_reading *bite_record_reading(const bite_record *record, size_t index);
typedef enum bite_record_action {
BITE_RECORD_READ = 0, BITE_RECORD_CORRECT = 1, BITE_RECORD_UNDO = 2, BITE_RECORD_SKIP = 3,
    BITE_RECORD_SEAL = 4 }
bite_record_action;
typedef struct bite_record_entry {
uint32_t struct_size;
uint32_t action;
uint32_t characteristic;
uint32_t part;
uint32_t trial;
uint32_t reserved;
uint64_t of;
const char *value;
const char *person;
const char *note;
double temperature;
double time;
}
bite_record_entry;
void bite_record_entry_init_sized(bite_record_entry *entry, size_t size);
typedef enum bite_reading_place {
BITE_PLACE_NONE = 0, BITE_PLACE_INSIDE = 1, BITE_PLACE_GUARD = 2, BITE_PLACE_OUTSIDE = 3 }
bite_reading_place;
typedef enum bite_slip {
BITE_SLIP_NONE = 0, BITE_SLIP_FACTOR = 1, BITE_SLIP_FINER = 2, BITE_SLIP_FAR = 3 }
bite_slip;
typedef struct bite_review {
uint32_t struct_size;
uint32_t place;
uint32_t slip;
uint32_t corrected;
double value;
double value_20;
double uncertainty_20;
double likely;
char text[64];
}
bite_review;
void bite_review_init_sized(bite_review *review, size_t size);
bite_status bite_record_review(const bite_record *record, const bite_record_entry *entry,
    bite_review *review, bite_error *error);
bite_status bite_record_append(bite_record *record, const bite_record_entry *entry, uint64_t
    *line, bite_error *error);
bite_status bite_record_append_csv(bite_record *record, const char *text, size_t size, const
    char *path, const bite_record_entry *defaults, bite_fault_sink fault, void *user, size_t
    *appended, bite_error *error);
int bite_record_next(const bite_record *record, const char *person, uint32_t trials, uint32_t
    from, size_t *characteristic, uint32_t *part);
bite_status bite_record_verdict(const bite_record *record, uint32_t *verdict, bite_error
    *error);
bite_status bite_record_report_write(const bite_record *record, const bite_style *style,
    bite_sink sink, void *user, bite_error *error);
bite_status bite_explain_write(const char *name, const bite_style *style, bite_sink sink, void
    *user, bite_error *error);
const char *bite_version(void);
uint32_t bite_version_number(void);
"""
