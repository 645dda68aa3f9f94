/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * coolbite/coolbite.h - the public interface of libcoolbite: will this cut hold, and what do I type
 * in?
 *
 * Three ways in, each standing on the one before:
 *   1. bite_cut_pass               flat numbers in, flat numbers out; no files, no allocation, any
 * thread
 *   2. bite_library_*, bite_request_*  fills those numbers from tables and families, by name
 *   3. bite_answer_*               a judged result with cautions and sources, ready to show
 *
 * Rules for all of it. Members and arguments are SI; rotation is in revolutions per second (1/s),
 * angles in rad, temperatures in K. NaN means "not given". Every structure of the caller begins
 * with struct_size; its _init sets it. Nothing here prints, exits, or touches process-wide state.
 * `error` may be NULL. Outputs are written on success only. A handle may be read by many threads at
 * once once its _open or _new has returned. Ownership: *owned* (free it with the function named),
 * *borrowed* (until ...), *copied*.
 */
#ifndef COOLBITE_COOLBITE_H
#define COOLBITE_COOLBITE_H

#include <stddef.h>
#include <stdint.h>

#define BITE_VERSION_MAJOR 0
#define BITE_VERSION_MINOR 1
#define BITE_VERSION_PATCH 0
#define BITE_VERSION_TEXT "0.1.0"

#if defined(__GNUC__)
#define BITE_API __attribute__((visibility("default")))
#define BITE_CHECKED __attribute__((warn_unused_result))
#else
#define BITE_API
#define BITE_CHECKED
#endif

#ifdef __cplusplus
extern "C" {
#endif

/* ---- status and errors
 * -------------------------------------------------------------------------------------------------
 */

/** What a call answers. Values are frozen; new ones are appended. */
typedef enum bite_status {
    BITE_OK = 0,
    BITE_NO_MEMORY = 1, /**< the allocator gave NULL; nothing is half done */
    BITE_BAD_ARGUMENT =
        2, /**< a NULL, a wrong struct_size, an index out of range: the caller's slip */
    BITE_BAD_QUANTITY = 3, /**< text that is no quantity, or has no unit, or the wrong one */
    BITE_OUT_OF_RANGE = 4, /**< a number that no shop runs; error.hint names the likely slip */
    BITE_MISSING = 5,      /**< an input without which there is no answer */
    BITE_UNKNOWN_NAME =
        6, /**< no such material, tool, machine, key ...; error.hint names the nearest */
    BITE_NOT_FOUND = 7,     /**< no such file or folder */
    BITE_BAD_FILE = 8,      /**< a table, job or record that breaks its rules */
    BITE_UNSAFE = 9,        /**< a plugin that another user could have put there */
    BITE_BAD_PLUGIN = 10,   /**< wrong ABI, no entry, failed its own check */
    BITE_CANNOT_WRITE = 11, /**< the target is as it was before */
    BITE_IO = 12,           /**< reading or writing failed midway */
    BITE_BUSY = 13,         /**< a record that another program holds */
    BITE_NO_ANSWER = 14,    /**< the physics does not reach these inputs; said, not guessed */
    BITE_FAULT = 15         /**< a fault of ours; please report it */
} bite_status;

/** The name ("BITE_BAD_FILE") and the text of a status. Borrowed, for ever. */
BITE_API const char *bite_status_name(bite_status status);
BITE_API const char *bite_status_text(bite_status status);

/** Where and why. Caller-owned; texts are UTF-8, ended by 0, "" where they do not apply, and can be
 * shown anywhere: whatever was in them is as bite_text_escape makes it. */
typedef struct bite_error {
    uint32_t struct_size; /**< sizeof (bite_error) */
    int32_t status;       /**< a bite_status */
    uint32_t line;        /**< from 1; 0: no line */
    uint32_t column;      /**< from 1, in bytes; 0: no column */
    uint32_t faults;      /**< how many faults were found in all; this is the first */
    uint32_t reserved;
    char message[256]; /**< what is wrong, and what was expected */
    char hint[128];    /**< what to do: the nearest name, the likely slip */
    char key[128];     /**< "section:key", or the argument's name */
    char file[512];    /**< the path; its front is cut off if it is longer */
} bite_error;

#define BITE_ERROR_INIT                                                                            \
    {                                                                                              \
        (uint32_t)sizeof(bite_error), 0, 0, 0, 0, 0, "", "", "", ""                                \
    }

/**
 * Makes a text of any origin fit to be shown, on a terminal too.
 *
 * What is not UTF-8, control characters (ends of lines among them) and marks that turn the
 * direction of writing are written as \x1b or \u202e; all else stays as it is. Returns the bytes
 * needed without the 0, as snprintf does; where size is too small, out ends before the first
 * character that does not fit. text: NULL is "". out: NULL where size is 0.
 */
BITE_API size_t bite_text_escape(const char *text, char *out, size_t size);

/** Receives text as it is made; size > 0, not ended by 0. Nonzero stops the writer, which then
 * answers BITE_CANNOT_WRITE. */
typedef int (*bite_sink)(void *user, const char *text, size_t size);

/**
 * Writes a file whole or not at all: beside its target first, synced, then renamed over it.
 *
 * The mode of an existing file is kept. Links are followed; a link that leads to no file yet makes
 * one there. A character device or a pipe is opened and written (a pipe waits for its reader). A
 * path that names a descriptor of this process (/dev/stdout, /dev/fd/N, /proc/self/fd/N) is written
 * through that descriptor. BITE_CANNOT_WRITE: a file is as it was; a device, pipe or descriptor may
 * have taken a part. Also for a folder, a disk, a socket, a circle of links, a file that the caller
 * may not write, and another user's link in a folder that everyone may write.
 */
BITE_CHECKED BITE_API bite_status bite_file_write(const char *path, const char *text, size_t size,
                                                  bite_error *error);

/** 1: both paths lead to one regular file, by links of either kind, or would make the same new one;
 * else 0. Paths are followed as bite_file_write does. */
BITE_API int bite_file_same(const char *first, const char *second);

/* ---- quantities at the door
 * -------------------------------------------------------------------------------------------- */

/** What a number measures, and so which units may stand behind it. Frozen, append only. */
typedef enum bite_kind {
    BITE_KIND_NUMBER = 0,           /**< 1 */
    BITE_KIND_LENGTH = 1,           /**< m */
    BITE_KIND_ANGLE = 2,            /**< rad */
    BITE_KIND_ROTATION = 3,         /**< 1/s: revolutions, not radians */
    BITE_KIND_SPEED = 4,            /**< m/s: feed rate */
    BITE_KIND_SURFACE_SPEED = 5,    /**< m/s, shown in m/min or ft/min */
    BITE_KIND_TOOTH_FEED = 6,       /**< m (a tooth) */
    BITE_KIND_TEMPERATURE = 7,      /**< K */
    BITE_KIND_RISE = 8,             /**< K, a difference of temperatures */
    BITE_KIND_FORCE = 9,            /**< N */
    BITE_KIND_STRESS = 10,          /**< Pa */
    BITE_KIND_POWER = 11,           /**< W */
    BITE_KIND_TORQUE = 12,          /**< N m */
    BITE_KIND_TIME = 13,            /**< s */
    BITE_KIND_FRACTION = 14,        /**< 1, shown in % */
    BITE_KIND_AREA = 15,            /**< m2 */
    BITE_KIND_ACCELERATION = 16,    /**< m/s2 */
    BITE_KIND_STIFFNESS = 17,       /**< N/m */
    BITE_KIND_EDGE_FORCE = 18,      /**< N/m, force on each metre of edge */
    BITE_KIND_SURFACE_ENERGY = 19,  /**< J/m2 */
    BITE_KIND_DENSITY = 20,         /**< kg/m3 */
    BITE_KIND_HEAT_CAPACITY = 21,   /**< J/(kg K) */
    BITE_KIND_CONDUCTIVITY = 22,    /**< W/(m K) */
    BITE_KIND_EXPANSION = 23,       /**< 1/K */
    BITE_KIND_HEAT_TRANSFER = 24,   /**< W/(m2 K) */
    BITE_KIND_REMOVAL_RATE = 25,    /**< m3/s */
    BITE_KIND_SPECIFIC_ENERGY = 26, /**< J/m3 */
    BITE_KIND_PER_ANGLE = 27,       /**< 1/rad */
    BITE_KIND_FREQUENCY = 28,       /**< Hz, of vibrations */
    BITE_KIND_COUNT                 /**< of this header */
} bite_kind;

typedef enum bite_units { BITE_METRIC = 0, BITE_INCH = 1 } bite_units;

/** Reads "1-1/4in", "18000rpm", "20degC" ... A bare number is refused where two units are usual. */
BITE_CHECKED BITE_API bite_status bite_quantity_read(const char *text, bite_kind kind, double *si,
                                                     bite_error *error);

/** Writes a number with its unit as a shop would; *length is what was needed without the 0, also
 * when size was too small. */
BITE_CHECKED BITE_API bite_status bite_quantity_write(double si, bite_kind kind, bite_units units,
                                                      char *buffer, size_t size, size_t *length,
                                                      bite_error *error);

/* ---- one pass: flat numbers in
 * ----------------------------------------------------------------------------------------- */

typedef enum bite_side { BITE_CLIMB = 0, BITE_CONVENTIONAL = 1 } bite_side;
typedef enum bite_coolant {
    BITE_COOLANT_NONE = 0,
    BITE_COOLANT_AIR = 1,
    BITE_COOLANT_MIST = 2,
    BITE_COOLANT_FLOOD = 3
} bite_coolant;
/** What the tool does. */
typedef enum bite_operation {
    BITE_MILL = 0,
    BITE_DRILL_HOLE = 1,
    BITE_CHAMFER = 2 /**< along an edge, with a cone */
} bite_operation;

/** How the tool gets into the material. */
typedef enum bite_entry {
    BITE_ENTRY_OUTSIDE = 0, /**< beside it, or where it has been cut */
    BITE_ENTRY_PLUNGE = 1,  /**< straight down */
    BITE_ENTRY_RAMP = 2,    /**< down a slope, full width */
    BITE_ENTRY_HELIX = 3    /**< down a helix, full width */
} bite_entry;
/** What the ends of a thin wall are. */
typedef enum bite_wall_ends {
    BITE_WALL_FREE = 0,
    BITE_WALL_HELD = 1 /**< by the other walls of a pocket */
} bite_wall_ends;
typedef enum bite_tool_material {
    BITE_TOOL_CARBIDE = 0,
    BITE_TOOL_HSS = 1,
    BITE_TOOL_DIAMOND = 2
} bite_tool_material;

/** How the material gives way; settles which limits are asked. */
typedef enum bite_substance {
    BITE_METAL = 0,
    BITE_AMORPHOUS = 1,   /**< glassy polymer: limited by its glass transition */
    BITE_CRYSTALLINE = 2, /**< semi-crystalline polymer: limited by its melting point */
    BITE_THERMOSET = 3,   /**< laminate, board, wood: chars, does not melt */
    BITE_MINERAL = 4      /**< graphite and the like: dust */
} bite_substance;

/** How the cutting pressure of the material is stated; the pass turns each into K and Ke once. */
typedef enum bite_pressure_model {
    BITE_PRESSURE_NONE = 0,  /**< no force can be told */
    BITE_PRESSURE_EDGE = 1,  /**< linear edge: pressure_t and edge_t, at edge_reference */
    BITE_PRESSURE_POWER = 2, /**< Kienzle: pressure_t at a chip of 1 mm, pressure_exponent */
    BITE_PRESSURE_STRENGTH =
        3 /**< from shear_strength, friction, fracture_energy, yield: an estimate, and marked so */
} bite_pressure_model;

/** A property over temperature: straight between points, level outside them; 0 points: the plain
 * member holds. */
#define BITE_CURVE_POINTS 8
typedef struct bite_curve {
    uint32_t count;    /**< 0 to BITE_CURVE_POINTS; what stands behind it is not read */
    uint32_t reserved; /**< 0 */
    double temperature[BITE_CURVE_POINTS]; /**< K, rising, 50 to 3500 */
    double value[BITE_CURVE_POINTS];       /**< SI of the property, within its input's range */
} bite_curve;

/**
 * One pass: everything that the physics knows.
 *
 * NaN: not given. bite_cut_pass answers BITE_MISSING for what it cannot do without
 * (bite_input.fallback is NaN and bite_input.needed is 1) and takes the documented default for the
 * rest; a bite_request fills in better ones and keeps account of them.
 */
typedef struct bite_cut {
    uint32_t struct_size;
    uint32_t side;          /**< bite_side */
    uint32_t coolant;       /**< bite_coolant */
    uint32_t tool_material; /**< bite_tool_material */
    uint32_t pressure;      /**< bite_pressure_model */
    uint32_t substance;     /**< bite_substance */
    uint32_t blind;         /**< 1: the slot has a floor and both walls; chips leave upwards only */
    uint32_t entry;         /**< bite_entry */
    uint32_t operation; /**< bite_operation; of a drill depth is a peck, feature_depth the hole's;
                           of a chamfer its leg */
    uint32_t wall_ends; /**< bite_wall_ends */

    /* motion */
    double spindle_speed; /**< n, 1/s */
    double feed_rate;     /**< vf, m/s, of the tool's centre */
    double depth;         /**< ap, m, along the axis, of this pass */
    double width; /**< ae, m, across; NaN: by feature_width, a full slot where that is NaN too */
    double path_length; /**< m, of one pass; NaN: long enough to warm up */
    double entry_feed; /**< m/s, along the way in; NaN: a third of feed_rate in a plunge, half of it
                          else */
    double ramp_angle; /**< rad, of a ramp or helix */
    double point_angle; /**< rad, of a drill */
    double tip_below; /**< m, from the lower end of a chamfer down to the tip; NaN: a quarter of the
                         depth */

    /* tool */
    double diameter;           /**< D, m */
    double flutes;             /**< z, a whole number */
    double corner_radius;      /**< m; D/2: a ball */
    double helix;              /**< beta, rad; negative: left hand */
    double rake;               /**< gamma, rad */
    double edge_radius;        /**< re, m */
    double runout;             /**< TIR, m, total indicated, at the tip */
    double flute_length;       /**< m */
    double neck_diameter;      /**< m; NaN: no neck */
    double neck_length;        /**< m, from the end of the flutes */
    double shank_diameter;     /**< m */
    double stickout;           /**< m, from the holder's face */
    double stiff_share;        /**< diameter of equal stiffness / D, of the fluted part */
    double core_share;         /**< core diameter / D, for strength and heat */
    double tool_modulus;       /**< E, Pa */
    double tool_poisson;       /**< 1 */
    double tool_strength;      /**< Pa, peak stress allowed */
    double tool_conductivity;  /**< W/(m K) */
    double tool_density;       /**< kg/m3 */
    double tool_heat_capacity; /**< J/(kg K) */
    double tool_speed_limit; /**< m/s at the edge, in a slot, for this material and tool material */
    double tool_turn_limit;  /**< 1/s, marked on the tool or the holder */
    double taper;            /**< rad, of a chamfer's cone to its axis */
    double tip_diameter;     /**< m, of the flat at the tip of that cone; NaN: a tenth of D */

    /* machine */
    double spindle_slowest;    /**< 1/s */
    double spindle_fastest;    /**< 1/s */
    double feed_fastest;       /**< m/s, reached without deforming the path */
    double acceleration;       /**< m/s2 */
    double power_limit;        /**< W at the cutter, continuous */
    double torque_limit;       /**< N m at the cutter, at and above torque_speed */
    double torque_speed;       /**< 1/s, under which the torque falls */
    double torque_exponent;    /**< 1: torque = torque_limit (n / torque_speed)^exponent below it */
    double machine_stiffness;  /**< N/m, holder and machine at the tool's holder */
    double cooling;            /**< W/(m2 K), on the tool; NaN: by coolant */
    double room_temperature;   /**< K */
    double holder_temperature; /**< K; NaN: room + 5 K */
    double mode_frequency;     /**< Hz, measured, of tool, spindle or part; NaN: not known */
    double mode_stiffness;     /**< N/m of that mode at the tip; NaN: machine_stiffness */
    double mode_damping;       /**< 1 */
    double mode2_frequency;    /**< Hz, of a second mode that was measured; NaN: there is none */
    double mode2_stiffness;    /**< N/m; NaN: machine_stiffness */
    double mode2_damping;      /**< 1 */
    double mode3_frequency;    /**< Hz, of a third; NaN: there is none */
    double mode3_stiffness;    /**< N/m; NaN: machine_stiffness */
    double mode3_damping;      /**< 1 */

    /* part */
    double tolerance;       /**< m, plus or minus */
    double finish;          /**< m, Ra asked for */
    double inside_radius;   /**< m, smallest inside corner */
    double feature_depth;   /**< m, of the whole feature */
    double floor_thickness; /**< m, left under the tool, down to the bond */
    double wall_thickness;  /**< m, of the thin wall beside the cut; NaN: none is thin */
    double wall_height;     /**< m; NaN: feature_depth, or depth */
    double wall_length;     /**< m; NaN: long, its middle counts; else its free end */
    double floor_span;   /**< m, short side of a floor that nothing holds from below; NaN: held all
                            over */
    double floor_length; /**< m, long side; NaN: long */
    double gap;          /**< m, the narrowest way that the tool must pass */
    double bond_area;    /**< m2, left under the part at the end of the cut */
    double bond_shear;   /**< Pa, that what holds the part bears in shear */
    double bond_pull;    /**< Pa, in tension over its area */
    double bond_limit;   /**< K, above which it lets go */
    double flatness;     /**< m, asked of the part once it is free */
    double part_span;    /**< m, its longest side */
    double part_thickness;  /**< m, its thickest section */
    double stock_thickness; /**< m, nominal, of the sheet */
    double stock_tolerance; /**< m, plus or minus */
    double skim; /**< m, the least that must come off both faces together; NaN: none, the faces stay
                    as they came */
    double removed_top;   /**< m, off the top face, all passes together */
    double removed_below; /**< m, off the face below */
    double face_strain;   /**< by which one face of the part is longer than the other: warmth,
                             moisture; NaN: none, 1 */
    double bridge_span;   /**< m, of a strip left between two cuts, held at both ends; NaN: there is
                             none */
    double bridge_width;  /**< m, along the tool's axis; NaN: depth */
    double bridge_thickness; /**< m, in the direction of the side force */
    double feature_width; /**< m, stock to take off sideways of the whole feature; NaN: as much as
                             one pass takes */

    /* material; bite_request_use fills these from a grade */
    double density;           /**< kg/m3 */
    double heat_capacity;     /**< J/(kg K) */
    double conductivity;      /**< W/(m K) */
    double chip_ratio;        /**< chip thickness after / before, 1; sets the shear angle */
    double heat_share;        /**< of plastic work that turns into heat, 1 */
    double friction_share;    /**< of the cutting work that is rake friction, 1 */
    double sublayer_share;    /**< of friction heat that reaches the interface, 1 */
    double pressure_t;        /**< K, Pa */
    double pressure_r;        /**< Pa; NaN: 0.3 K */
    double pressure_a;        /**< Pa, for a right-hand helix; NaN: oblique transformation */
    double edge_t;            /**< Ke, N/m */
    double edge_r;            /**< N/m; NaN: 1.2 Ke */
    double edge_a;            /**< N/m; NaN: 0 */
    double edge_reference;    /**< m, edge radius of those tests; NaN: 10 um */
    double pressure_exponent; /**< mc, 1 */
    double pressure_rake;     /**< 1/rad, fall of K with rake above pressure_rake_at; NaN: none */
    double pressure_rake_at;  /**< rad, at which the pressure was found */
    double pressure_temperature; /**< K, at which the pressure was found */
    double shear_strength;       /**< Pa, mean on the shear plane, at the rate of cutting */
    double yield;                /**< Pa, flow stress at the edge, at rate */
    double friction;             /**< 1, on the tool */
    double fracture_energy;      /**< J/m2 */
    double minimum_chip;         /**< h_min / re, 1 */
    double transition;           /**< K, glass transition, or melting when crystalline */
    double softening;            /**< K, the grade's shop limit; NaN: none (metals) */
    double welding;              /**< K, above which the chip sticks; NaN: does not weld */
    double packing_limit;        /**< ap / D of a slot that still clears, one flute, dry, 1 */
    double modulus;              /**< E, Pa */
    double poisson;              /**< 1 */
    double expansion;            /**< 1/K */
    double relaxing;             /**< K, above which stress relaxes; NaN: transition - 20 K */
    double crazing;              /**< Pa, borne for long without crazes; NaN: does not craze */
    double chip_edge;            /**< m, chip from which exit edges break out; NaN: they do not */
    double refraction;           /**< refractive index; NaN: not clear */
    double taylor_speed;         /**< m/s at which an edge lasts a minute; NaN: no figure */
    double taylor_exponent;      /**< n of v T^n = C */
    double skin_stress; /**< Pa, in the skins of the sheet as it came, in balance with half of it
                           inside */

    /* free constants of the model */
    double skin_depth;    /**< depth of the ploughed skin in edge radii, 1 */
    double edge_share;    /**< of sublayer_share that holds for the energy of the edge, 1 */
    double walk_share; /**< factor on the share of its own heat that the cutter meets again, 1 */

    bite_curve heat_capacity_curve; /**< J/(kg K); read at the work's start temperature */
    bite_curve strength_curve; /**< strength over temperature / strength at pressure_temperature, 1;
                                  0.001 to 100 */
} bite_cut;

/** What one member of bite_cut is: the one list that options, tables, JSON and bands are made from.
 */
typedef struct bite_input {
    const char *name; /**< the member's name, and the key in tables and JSON; borrowed, for ever */
    const char *unit; /**< SI, as in JSON */
    const char *summary; /**< one line */
    size_t offset;       /**< of the member in bite_cut */
    double least;        /**< smallest sensible, SI */
    double most;         /**< largest sensible, SI */
    double fallback; /**< taken where nothing is given; NaN: there is none, or it depends on other
                        inputs */
    uint32_t kind;   /**< a bite_kind */
    uint32_t group;  /**< a bite_group */
    uint32_t words;  /**< > 0: the member is a uint32_t that takes one of so many words; see
                        bite_input_word */
    uint32_t needed; /**< 1: without it there is no answer */
    uint32_t whole;  /**< 1: it is counted, and takes whole numbers alone */
    uint32_t reserved;
} bite_input;

typedef enum bite_group {
    BITE_GROUP_MOTION = 0,
    BITE_GROUP_TOOL = 1,
    BITE_GROUP_MACHINE = 2,
    BITE_GROUP_PART = 3,
    BITE_GROUP_MATERIAL = 4,
    BITE_GROUP_MODEL = 5
} bite_group;

/** The word of an input that takes words ("climb"); NULL beyond the last. Borrowed, for ever. */
BITE_API const char *bite_input_word(const bite_input *input, uint32_t index);

BITE_API size_t bite_input_count(void);
BITE_API const bite_input *bite_input_at(size_t index); /**< NULL beyond the last */
BITE_API const bite_input *bite_input_find(const char *name);

/** All members NaN or 0, struct_size set. */
BITE_API void bite_cut_init(bite_cut *cut);

/* ---- one pass: flat numbers out
 * ---------------------------------------------------------------------------------------- */

/** Computed values. Frozen, append only; bite_value_name gives the JSON name. */
typedef enum bite_value_id {
    BITE_SURFACE_SPEED = 0,
    BITE_SPINDLE_SPEED,
    BITE_FEED_RATE,
    BITE_CHIP_LOAD,          /**< fz as programmed */
    BITE_CHIP_LOAD_HEAVY,    /**< the tooth that runout favours */
    BITE_CHIP_LOAD_LIGHT,    /**< the tooth that runout starves */
    BITE_CHIP_THICKNESS_MAX, /**< what engagement leaves of fz, without runout */
    BITE_CHIP_THICKNESS_MEAN,
    BITE_CHIP_THICKNESS_LEAST, /**< h_min, under which the edge rubs */
    BITE_ENGAGEMENT,           /**< rad, arc of contact */
    BITE_REMOVAL_RATE,
    BITE_FORCE_TANGENTIAL_PEAK,
    BITE_FORCE_SIDE_PEAK,
    BITE_FORCE_SIDE_MEAN,
    BITE_FORCE_LIFT_PEAK, /**< on the part, up is positive */
    BITE_TORQUE_PEAK,
    BITE_POWER_MEAN,
    BITE_SPECIFIC_ENERGY,
    BITE_CHIP_TEMPERATURE,
    BITE_SURFACE_TEMPERATURE, /**< the skin that stays on the part, walk-in heat included */
    BITE_FILM_TEMPERATURE,    /**< the film under the edge */
    BITE_TOOL_TEMPERATURE,    /**< the tool's body at the edge */
    BITE_PART_TEMPERATURE,    /**< at the bond */
    BITE_PREHEAT,             /**< rise that the next tooth meets */
    BITE_HEAT_TO_PART,
    BITE_DEFLECTION_TIP,
    BITE_WALL_ERROR, /**< material left is positive */
    BITE_TOOL_STRESS,
    BITE_ROUGHNESS_FLOOR,     /**< Rt, height of the feed marks */
    BITE_ROUGHNESS_WALL,      /**< Rt */
    BITE_STABILITY_DEPTH,     /**< depth from which it chatters */
    BITE_TIP_FREQUENCY,       /**< Hz, of the tool clamped in its holder */
    BITE_HAZE,                /**< share of light that a floor of a clear part scatters, 1 */
    BITE_TOOL_LIFE,           /**< s */
    BITE_SURFACE_SPEED_SMALL, /**< at the small end of a chamfer */
    BITE_VALUE_COUNT          /**< of this header; a newer library may have more */
} bite_value_id;

/** Limits, each a row. Frozen, append only. */
typedef enum bite_limit_id {
    BITE_LIMIT_SPINDLE_FAST = 0,
    BITE_LIMIT_SPINDLE_SLOW,
    BITE_LIMIT_FEED_FAST,
    BITE_LIMIT_EDGE_SPEED,
    BITE_LIMIT_POWER,
    BITE_LIMIT_TORQUE,
    BITE_LIMIT_RUBBING,
    BITE_LIMIT_RUNOUT,
    BITE_LIMIT_TOOL_BREAK,
    BITE_LIMIT_DEFLECTION,
    BITE_LIMIT_SOFTENING,
    BITE_LIMIT_CHIP_WELD,
    BITE_LIMIT_CHIP_PACKING,
    BITE_LIMIT_CORNER,
    BITE_LIMIT_REACH,
    BITE_LIMIT_FINISH,
    BITE_LIMIT_CHATTER,
    BITE_LIMIT_EDGE_CHIP,
    BITE_LIMIT_CRAZE,
    BITE_LIMIT_BOND_SIDE,
    BITE_LIMIT_BOND_LIFT,
    BITE_LIMIT_BOND_HEAT,
    BITE_LIMIT_PART_BEND,
    BITE_LIMIT_GAP,
    BITE_LIMIT_WEAR,
    BITE_LIMIT_WARP,
    BITE_LIMIT_STOCK_THICKNESS,
    BITE_LIMIT_TOOL_GROSS_DEFLECTION,
    BITE_LIMIT_PART_GROSS_DEFLECTION,
    BITE_LIMIT_COUNT /**< of this header; a newer library may have more */
} bite_limit_id;

/** Without draws: over when use > 1, tight when use > 0.7, else clear. */
typedef enum bite_verdict {
    BITE_NOT_JUDGED = 0,
    BITE_CLEAR = 1,
    BITE_TIGHT = 2,
    BITE_OVER = 3
} bite_verdict;

/** Why a row does not apply. Frozen, append only; bite_limit_why gives the sentence. */
typedef enum bite_why {
    BITE_WHY_APPLIES = 0,
    BITE_WHY_NOT_GIVEN = 1, /**< an input that the row needs was not given */
    BITE_WHY_NO_DATA = 2,   /**< the tables have no figure for it */
    BITE_WHY_ONE_FLUTE = 3, /**< needs two teeth or more */
    BITE_WHY_NOT_A_METAL = 4,
    BITE_WHY_METAL = 5, /**< metals do not soften at shop temperatures */
    BITE_WHY_DOES_NOT_WELD = 6,
    BITE_WHY_DOES_NOT_WEAR = 7, /**< an unfilled plastic hardly wears an edge */
    BITE_WHY_DOES_NOT_CRAZE = 8,
    BITE_WHY_DRILL = 9,      /**< asked of milling alone */
    BITE_WHY_CHAMFER = 10,   /**< asked of walls and slots, not of a chamfer */
    BITE_WHY_TOLERANCE = 11, /**< asked where no tolerance was given */
    BITE_WHY_COUNT
} bite_why;

/** A number and its 90 % band. NaN: no data; without draws low and high are NaN. */
typedef struct bite_value {
    double value;
    double low;  /**< 5 % */
    double high; /**< 95 % */
} bite_value;

/** Demand against room. Temperatures are rises above the work's start, so that use is a share of
 * what may be spent. */
typedef struct bite_limit {
    double demand;           /**< SI of the row */
    double capacity;         /**< the same unit; >= 0 */
    double utilization;      /**< demand / room; 1e6 at most, where there is no room at all */
    double chance;           /**< share of draws with demand > room; NaN without draws */
    double utilization_high; /**< use at 95 %; NaN without draws */
    uint32_t verdict;
    uint32_t applies; /**< 0: see why */
    uint32_t
        why; /**< a number for bite_limit_why: not asked, no data, wrong kind of material ... */
    uint32_t in_corner; /**< 1: the inside corner governs, not the straight; 2: the way in (entry)
                           does */
    uint32_t advisory;  /**< 1: never over, binds no choice */
    uint32_t reserved;
} bite_limit;

#define BITE_VALUE_SLOTS 64
#define BITE_LIMIT_SLOTS 64

#define BITE_NO_INPUT UINT32_MAX

typedef struct bite_result {
    uint32_t struct_size;
    uint32_t verdict;     /**< by the joint chance; without draws the worst binding row's use */
    uint32_t value_count; /**< filled by this library; the rest is NaN */
    uint32_t limit_count;
    uint32_t draws;       /**< 0: no band */
    uint32_t worst;       /**< the bite_limit_id whose use is largest among those that bind */
    double chance;        /**< that any binding row goes over; NaN without draws */
    uint32_t widest[2];   /**< the two inputs that widen the answer most, as bite_input indices;
                             BITE_NO_INPUT: none */
    double heat_share[4]; /**< chip, tool, part, stored in the chip: adds up to 1 */
    bite_value values[BITE_VALUE_SLOTS];
    bite_limit limits[BITE_LIMIT_SLOTS];
} bite_result;

BITE_API const char *bite_value_name(bite_value_id id);
BITE_API const char *bite_value_unit(bite_value_id id); /**< SI, as in JSON */
BITE_API bite_kind bite_value_kind(bite_value_id id);
BITE_API const char *bite_limit_name(bite_limit_id id);
BITE_API const char *bite_limit_unit(bite_limit_id id);
BITE_API bite_kind bite_limit_kind(bite_limit_id id);
BITE_API const char *bite_limit_why(uint32_t why);
BITE_API const char *bite_verdict_name(bite_verdict verdict);

/**
 * One pass at its best estimates. Pure; about 3 us. NaN bands, verdict by use alone; tip_frequency
 * is told by bite_cut_band alone.
 *
 * Every member of cut is checked first; error.key names the one at fault. BITE_BAD_ARGUMENT:
 * struct_size, a word, a curve's points. BITE_MISSING, BITE_OUT_OF_RANGE: a number, infinities
 * among them. BITE_NO_ANSWER: a number that a limit needs comes out as none.
 */
BITE_CHECKED BITE_API bite_status bite_cut_pass(const bite_cut *cut, bite_result *result,
                                                bite_error *error);

/** How an uncertain input scatters. */
typedef enum bite_shape {
    BITE_SHAPE_LEVEL = 1,    /**< evenly between low and high */
    BITE_SHAPE_NORMAL = 2,   /**< low and high at 5 and 95 %; each side has its own width */
    BITE_SHAPE_LOGNORMAL = 3 /**< the same in the logarithm; low > 0 */
} bite_shape;

typedef struct bite_spread {
    uint32_t input; /**< a bite_input index */
    uint32_t shape; /**< a bite_shape */
    uint32_t group; /**< 0, or a number from 1 to 7: inputs of one group move together */
    uint32_t reserved;
    double low;      /**< 5 % (level: the end), SI, finite, at most the input's best estimate */
    double high;     /**< 95 % (level: the end), SI */
    double together; /**< share of the variance that the group has in common, 0 to 1 */
} bite_spread;

#define BITE_SPREAD_MAX                                                                            \
    38 /**< inputs that scatter; with their groups they are dimensions of one Sobol sequence */
#define BITE_DRAWS_MAX 65536

/**
 * The pass with its band: values at 5 and 95 %, the chance of every row, the chance that any
 * binding row goes over.
 *
 * draws: shifted Sobol points, 16 to BITE_DRAWS_MAX, the same for a seed on every machine.
 * confidence: 0.5 to 0.999; a row is clear when its chance is under 1 - confidence, over when it is
 * above one half. BITE_NO_MEMORY: it needs room for the draws. The values are best estimates and
 * lie within their bands. Errors as bite_cut_pass; BITE_BAD_ARGUMENT for a spread that is none.
 */
BITE_CHECKED BITE_API bite_status bite_cut_band(const bite_cut *cut, const bite_spread *spreads,
                                                size_t count, size_t draws, uint64_t seed,
                                                double confidence, bite_result *result,
                                                bite_error *error);

/* ---- how a result is shown
 * ---------------------------------------------------------------------------------------------- */

typedef enum bite_format {
    BITE_TEXT = 0,
    BITE_JSON = 1,
    BITE_CSV = 2, /**< of a window */
    BITE_SVG = 3, /**< of a window */
    BITE_HTML = 4 /**< of a job: a page to print */
} bite_format;

typedef struct bite_style {
    uint32_t struct_size;
    uint32_t format;     /**< a bite_format */
    uint32_t units;      /**< a bite_units */
    uint32_t columns;    /**< of text; 0: 80 */
    uint32_t colour;     /**< 1: terminal colours */
    uint32_t ascii;      /**< 1: no characters beyond ASCII */
    uint32_t sources;    /**< 1: sources too */
    uint32_t all_limits; /**< 1: all rows, not the foremost alone */
} bite_style;

/* ---- what the shop has
 * -------------------------------------------------------------------------------------------------
 */

typedef struct bite_library bite_library;

/** The caller's allocator; all three or none. */
typedef struct bite_allocator {
    void *(*allocate)(void *user, size_t size);
    void *(*resize)(void *user, void *memory, size_t size);
    void (*release)(void *user, void *memory);
    void *user;
} bite_allocator;

typedef struct bite_library_options {
    size_t struct_size;
    const bite_allocator *allocator; /**< copied; NULL: the C library's */
    const char
        *family_path; /**< colon-separated, searched first; NULL: environment, then installed */
    const char *table_path; /**< the same */
} bite_library_options;

/** Opens the tables; families open when first used. options: NULL for the usual. *library: owned,
 * bite_library_close. */
BITE_CHECKED BITE_API bite_status bite_library_open(const bite_library_options *options,
                                                    bite_library **library, bite_error *error);
BITE_API void bite_library_close(bite_library *library);

/** 1: path leads, by links of either kind, to a table or a plugin in the folders that this library
 * reads; else 0. */
BITE_API int bite_library_has_file(const bite_library *library, const char *path);

typedef enum bite_collection {
    BITE_FAMILIES = 0,
    BITE_GRADES = 1,
    BITE_TOOLS = 2,
    BITE_HOLDERS = 3,
    BITE_MACHINES = 4,
    BITE_COOLANTS = 5,
    BITE_HOLDS = 7,    /**< what holds the part: tapes, glues ... */
    BITE_SYMPTOMS = 8, /**< what can go wrong, for bite_diagnosis_new */
    BITE_FLUIDS = 9,   /**< coolants, cleaners, removers, by chemical class */
    BITE_SHEETS = 10,  /**< sheet as it is sold */
    BITE_TIMES = 11,   /**< the shop's own measured times of jobs */
    BITE_LAYERS = 12,  /**< what a hold is made of, from the fixture up: tapes, glues */
    BITE_LEFT_OUT = 6  /**< plugins and tables that were not taken; summary says why */
} bite_collection;

typedef struct bite_item {
    const char *name;    /**< borrowed until the library closes, as all here */
    const char *title;   /**< as the trade writes it: "6061-T6" */
    const char *summary; /**< one line */
    const char *file;    /**< where it came from */
} bite_item;

BITE_API size_t bite_library_count(const bite_library *library, bite_collection collection);
BITE_CHECKED BITE_API bite_status bite_library_item(const bite_library *library,
                                                    bite_collection collection, size_t index,
                                                    bite_item *item, bite_error *error);

/**
 * Writes a collection as a list: as BITE_TEXT a name and its summary on a line, wrapped to the
 * style's columns ("nothing" for an empty collection); as BITE_JSON an array of objects with the
 * texts name, summary and more, which is the file. Entries are in the order of bite_library_item.
 *
 * library: borrowed. style: NULL is the default style. user: passed to sink. BITE_BAD_ARGUMENT: no
 * library or sink, or a style that is not valid; BITE_CANNOT_WRITE: sink refused the output;
 * BITE_NO_MEMORY; errors of bite_library_item.
 */
BITE_CHECKED BITE_API bite_status bite_library_list_write(const bite_library *library,
                                                          bite_collection collection,
                                                          const bite_style *style, bite_sink sink,
                                                          void *user, bite_error *error);

/** One thing whole: every figure with band, unit, source, grade and file. Formats: BITE_TEXT,
 * BITE_JSON. Families open when asked.
 */
BITE_CHECKED BITE_API bite_status bite_library_show(const bite_library *library,
                                                    bite_collection collection, const char *name,
                                                    const bite_style *style, bite_sink sink,
                                                    void *user, bite_error *error);

/** Two things of one shelf side by side, a figure a line, what differs marked; sources by style.
 * Formats and errors as bite_library_show; *error names the one that is not there. */
BITE_CHECKED BITE_API bite_status bite_library_compare(const bite_library *library,
                                                       bite_collection collection,
                                                       const char *first, const char *second,
                                                       const bite_style *style, bite_sink sink,
                                                       void *user, bite_error *error);

/* ---- a judged cut
 * ------------------------------------------------------------------------------------------------------
 */

/** A request: flat numbers, and where each came from. */
typedef struct bite_request bite_request;

/** *ask: owned, bite_request_free. It borrows the library until then. */
BITE_CHECKED BITE_API bite_status bite_request_new(const bite_library *library,
                                                   bite_request **request, bite_error *error);
BITE_API void bite_request_free(bite_request *request);

/** Takes a thing by name: BITE_GRADES "acrylic/cast", BITE_TOOLS "1/32in" (a diameter is a plain
 * tool), BITE_MACHINES ... */
BITE_CHECKED BITE_API bite_status bite_request_use(bite_request *request,
                                                   bite_collection collection, const char *name,
                                                   bite_error *error);

/** Sets an input as typed ("0.02mm/tooth", "45m/min", "climb"); it counts as given. What needs
 * another input (tooth feed: flutes and spindle) is settled when the ask is read, so the order of
 * the calls does not matter. */
BITE_CHECKED BITE_API bite_status bite_request_set(bite_request *request, const char *input,
                                                   const char *text, bite_error *error);

/** How many threads an answer, a choice or a window of this ask may take while it is made: 1 to 16;
 * 1 unless said. They end before the call does, take no signal, and change no number.
 * BITE_OUT_OF_RANGE otherwise. */
BITE_CHECKED BITE_API bite_status bite_request_threads(bite_request *request, size_t threads,
                                                       bite_error *error);

/** The flat numbers as they would be used, defaults included. */
BITE_CHECKED BITE_API bite_status bite_request_cut(const bite_request *request, bite_cut *cut,
                                                   bite_error *error);

typedef struct bite_answer bite_answer;

/** No draws: best estimates alone, verdicts by use. */
#define BITE_DRAWS_NONE 1

/** Judges the ask. draws: 0 for the usual number, BITE_DRAWS_NONE, or as bite_cut_band. *answer:
 * owned, bite_answer_free; it holds what it needs and outlives ask, but not the library. */
BITE_CHECKED BITE_API bite_status bite_answer_new(const bite_request *request, size_t draws,
                                                  double confidence, bite_answer **answer,
                                                  bite_error *error);
BITE_API void bite_answer_free(bite_answer *answer);
BITE_API const bite_result *bite_answer_result(
    const bite_answer *answer); /**< borrowed until the answer is freed, as all here */

typedef struct bite_caution {
    const char *name;
    const char *text;
    const char *source;
    uint32_t severity; /**< 1 note, 2 care, 3 danger */
    uint32_t reserved;
} bite_caution;

BITE_API size_t bite_answer_caution_count(const bite_answer *answer);
BITE_CHECKED BITE_API bite_status bite_answer_caution(const bite_answer *answer, size_t index,
                                                      bite_caution *caution, bite_error *error);
BITE_API const char *bite_answer_advice(const bite_answer *answer,
                                        bite_limit_id limit); /**< "" where there is none */

/** Where a number came from, with its grade: an input's, a value's or a row's name. */
BITE_API const char *bite_answer_source(const bite_answer *answer, const char *name);

BITE_CHECKED BITE_API bite_status bite_answer_write(const bite_answer *answer,
                                                    const bite_style *style, bite_sink sink,
                                                    void *user, bite_error *error);

/* ---- what do I type in
 * ----------------------------------------------------------------------------------------------------
 */

/** What the best settings are best at. All keep within the limits. Cool, gentle and fine count as
 * met at half of a limit's room, or a tenth of that room above the best there is; among what meets
 * them the fastest is chosen. */
typedef enum bite_goal {
    BITE_GOAL_COOL = 0,   /**< least rise of the surface that stays */
    BITE_GOAL_GENTLE = 1, /**< least use of the foremost limit */
    BITE_GOAL_FINE = 2,   /**< least error of the wall and roughness, each in units of its room */
    BITE_GOAL_FAST = 3,   /**< most removal */
    BITE_GOAL_COUNT,
    BITE_GOAL_USUAL = BITE_GOAL_COUNT /**< cool in plastics that melt, else fast */
} bite_goal;

/** How hard a choice is looked for. */
typedef enum bite_effort_kind {
    BITE_EFFORT_WHOLE = 0,
    BITE_EFFORT_QUICK = 1 /**< a tenth of the time: a coarse grid, no account of what holds it back,
                             no change to make first */
} bite_effort_kind;

typedef struct bite_choice bite_choice;

typedef struct bite_choice_options {
    uint32_t struct_size;
    uint32_t goal;   /**< a bite_goal */
    uint32_t units;  /**< a bite_units: numbers are rounded to what is typed in them */
    uint32_t effort; /**< a bite_effort_kind */
    const char *const *
        tools; /**< names or diameters to choose from; NULL: the ask's own; "any": the tool table */
    size_t tool_count;   /**< at most 1024, as step_count; none of them NULL */
    size_t draws;        /**< as bite_answer_new */
    double confidence;   /**< as bite_answer_new */
    const double *steps; /**< 1/s, each within spindle_speed's range: the only speeds that the
                            spindle has (belts, gears); NULL: any */
    size_t step_count;
} bite_choice_options;

/**
 * Finds the spindle speed and the feed, and over a feature's depth and width the number of passes.
 *
 * What the ask has set stays as it is; spindle, feed (or feed per tooth) and, where feature_depth
 * is set and depth is not, the depth of a pass are free; so is its width where feature_width is set
 * and width is not. Each limit keeps the margin that its band asks for, the joint chance the
 * confidence. Where nothing is clear, the answer is the least bad one, its verdict says so, and the
 * rows that conflict are named. *choice: owned, bite_choice_free; it does not outlive the library.
 */
BITE_CHECKED BITE_API bite_status bite_choice_new(const bite_request *request,
                                                  const bite_choice_options *options,
                                                  bite_choice **choice, bite_error *error);
BITE_API void bite_choice_free(bite_choice *choice);

/** The judged cut at the chosen settings; borrowed until the choice is freed. */
BITE_API const bite_answer *bite_choice_answer(const bite_choice *choice);

/** Passes over the feature's depth; 1 where none was given. */
BITE_API size_t bite_choice_passes(const bite_choice *choice);

/** Passes side by side over the feature's width, at each depth; 1 where none was given. */
BITE_API size_t bite_choice_side_passes(const bite_choice *choice);

/** The index-th row that holds the choice back, and what one percent more room for it gives, in
 * percent of the goal, or of the removal rate once the goal is as good as met. BITE_LIMIT_COUNT:
 * the largest feed per tooth that is chosen; BITE_LIMIT_COUNT + 1: the goal itself. 0: no such row.
 */
BITE_API int bite_choice_active_limit(const bite_choice *choice, size_t index, bite_limit_id *limit,
                                      double *gain);

/** Shown as bite_answer_write does, with what holds it back. */
BITE_CHECKED BITE_API bite_status bite_choice_write(const bite_choice *choice,
                                                    const bite_style *style, bite_sink sink,
                                                    void *user, bite_error *error);

/** The word of a goal; NULL beyond the last. Borrowed, for ever. */
BITE_API const char *bite_goal_name(uint32_t goal);

/* ---- what went wrong
 * ------------------------------------------------------------------------------------------------------
 */

/** After a trouble: what in the settings explains it, and which single change helps first. */
typedef struct bite_diagnosis bite_diagnosis;

/**
 * Looks into a judged cut, that which caused the trouble. symptom: a name of BITE_SYMPTOMS
 * ("melted-edge").
 *
 * Changes are ranked by what they leave of the symptom's foremost limit; none that breaks another
 * limit is proposed. *after: owned, bite_diagnosis_free; it borrows the answer until then.
 * BITE_UNKNOWN_NAME with the nearest name.
 */
BITE_CHECKED BITE_API bite_status bite_diagnosis_new(const bite_answer *answer, const char *symptom,
                                                     bite_diagnosis **diagnosis, bite_error *error);
BITE_API void bite_diagnosis_free(bite_diagnosis *diagnosis);

/** Formats and errors as bite_answer_write. */
BITE_CHECKED BITE_API bite_status bite_diagnosis_write(const bite_diagnosis *diagnosis,
                                                       const bite_style *style, bite_sink sink,
                                                       void *user, bite_error *error);

/* ---- the window: where each limit lies
 * ------------------------------------------------------------------------------------- */

/** Over two inputs, which limits hold: a picture of the room to move. */
typedef struct bite_window bite_window;

typedef struct bite_window_options {
    uint32_t struct_size;
    uint32_t columns;  /**< places of the grid across, 2 to 401; 0: the usual 97; of what is counted
                          one for each number */
    uint32_t rows;     /**< places up; 0: the usual 73 */
    uint32_t reserved; /**< 0 */
    const char *across;  /**< an input that is a number; NULL: spindle_speed */
    const char *up;      /**< another; NULL: feed_rate */
    double across_least; /**< SI; NaN: by the machine, or about the point in use */
    double across_most;
    double up_least;
    double up_most;
} bite_window_options;

/**
 * Makes the pass at every place of a grid about a judged cut, which is the point in use.
 *
 * Bands come from draws at 9 x 7 posts of the grid, straight in between; they mind each row alone.
 * *window: owned, bite_window_free; it borrows the answer until then. BITE_MISSING: an input of an
 * axis has no number in the answer.
 */
BITE_CHECKED BITE_API bite_status bite_window_new(const bite_answer *answer,
                                                  const bite_window_options *options,
                                                  bite_window **window, bite_error *error);
BITE_API void bite_window_free(bite_window *window);

/** The picture as BITE_SVG or for a terminal as BITE_TEXT, its numbers as BITE_CSV or BITE_JSON. */
BITE_CHECKED BITE_API bite_status bite_window_write(const bite_window *window,
                                                    const bite_style *style, bite_sink sink,
                                                    void *user, bite_error *error);

/* ---- a whole job
 * -----------------------------------------------------------------------------------------------------------
 */

/** A job file, planned: stock, warp, passes with their settings, tools, holding, fluids, time.
 * Unpublished: it may change. */
typedef struct bite_job bite_job;

typedef struct bite_job_options {
    uint32_t struct_size;
    uint32_t units;       /**< a bite_units, where the file says none */
    uint32_t units_given; /**< 1: units goes before what the file says */
    uint32_t threads;     /**< as bite_request_threads; 0 is 1 */
    size_t draws;         /**< as bite_answer_new */
    double confidence;    /**< as bite_answer_new */
} bite_job_options;

/** Hears of every fault of a file, in its order. The fault is borrowed for the call. */
typedef void (*bite_fault_sink)(void *user, const bite_error *fault);

/**
 * Reads and plans a job file. What it leaves out is chosen, and said.
 *
 * Every fault of the file goes to fault (may be NULL), the first to error with their count:
 * BITE_BAD_FILE. BITE_NOT_FOUND: no such file. *job: owned, bite_job_free; it does not outlive the
 * library.
 */
BITE_CHECKED BITE_API bite_status bite_job_open(const bite_library *library, const char *path,
                                                const bite_job_options *options,
                                                bite_fault_sink fault, void *user, bite_job **job,
                                                bite_error *error);
BITE_API void bite_job_free(bite_job *job);

/** The worst of its passes, of what holds the part, and of what is refused. */
BITE_API bite_verdict bite_job_verdict(const bite_job *job);

/** The plan as BITE_TEXT, BITE_JSON, or BITE_HTML: a page a setup to print. Errors as
 * bite_answer_write. */
BITE_CHECKED BITE_API bite_status bite_job_write(const bite_job *job, const bite_style *style,
                                                 bite_sink sink, void *user, bite_error *error);

/**
 * Keeps how long a job took, s, in the user's own table of times; later plans are corrected by it.
 *
 * A second time of the same whole title replaces the first; everything else in the table is kept.
 * BITE_CANNOT_WRITE: it cannot be written, or it is full (the hint says what to do);
 * BITE_OUT_OF_RANGE: the title is longer than 980 bytes; BITE_BUSY: another program holds it;
 * BITE_BAD_FILE: it is broken. In all of these the table is as it was.
 */
BITE_CHECKED BITE_API bite_status bite_job_time_add(const bite_job *job, double seconds,
                                                    bite_error *error);
/** Takes the time of a job of this title out of that table. BITE_UNKNOWN_NAME: none was kept; else
 * as bite_job_time_add. */
BITE_CHECKED BITE_API bite_status bite_job_time_remove(const bite_job *job, bite_error *error);

/** Two cuts side by side: which inputs differ, and which limits move. Formats as bite_answer_write.
 */
BITE_CHECKED BITE_API bite_status bite_answer_compare(const bite_answer *first,
                                                      const bite_answer *second,
                                                      const bite_style *style, bite_sink sink,
                                                      void *user, bite_error *error);

/* ---- looking things up
 * -------------------------------------------------------------------------------------------------
 */

/** What a value, row or input means: equation, range, source. */
BITE_CHECKED BITE_API bite_status bite_explain_write(const char *name, const bite_style *style,
                                                     bite_sink sink, void *user, bite_error *error);

/** Version of the library that is running: BITE_VERSION_TEXT of its own header. */
BITE_API const char *bite_version(void);

#ifdef __cplusplus
}
#endif

#endif /* COOLBITE_COOLBITE_H */
