/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * coolbite/coolbite.h - the public interface of libcoolbite: will this cut hold, and what do I
 * enter at the machine?
 *
 * There are three ways in, each built on the one before:
 *   1. bite_cut_pass: flat numbers in, flat numbers out; no files, no allocation, any thread;
 *      bite_batch_run: the same for many passes at once
 *   2. bite_library_*, bite_request_*: fill in those numbers by name, from tables and families
 *   3. bite_answer_*: a judged result with cautions and sources, ready to be shown
 *
 * Rules for all of it:
 *   - Members and arguments are in SI units; rotation is in revolutions per second (1/s), angles in
 *     rad, temperatures in K. NaN means "not given".
 *   - Plain structures that a caller hands over begin with struct_size. Each has an _init, which
 *     sets it to the size in the caller's header and everything else to 0, NULL or NaN, which is
 * the usual choice of every option. Such a structure grows at its end alone, and programs that were
 *     built with another header go on working: what both sides know is copied, what one side lacks
 *     is usual. A size that no header had, and a member that is set and not known, are refused.
 *   - Structures without struct_size are elements of arrays, or filled by the library: those that a
 *     caller allocates never change.
 *   - Nothing here prints, exits, or touches process-wide state.
 *   - `error` may be NULL. Outputs are written on success only, unless the function says otherwise.
 *   - Calls that return a status answer BITE_BAD_ARGUMENT for a NULL where one is not allowed and
 *     BITE_NO_MEMORY if the allocator fails; the comments name the other errors.
 *   - Once its _open or _new has returned, many threads may read a handle at the same time.
 *   - Ownership: *owned* (free it with the function named), *borrowed* (until ...), *copied*.
 */
#ifndef COOLBITE_COOLBITE_H
#define COOLBITE_COOLBITE_H

#include <stddef.h>
#include <stdint.h>

#define BITE_VERSION_MAJOR 0
#define BITE_VERSION_MINOR 1
#define BITE_VERSION_PATCH 0
#define BITE_VERSION_TEXT "0.1.0"
/** As one number, for comparisons: 10000 major + 100 minor + patch. */
#define BITE_VERSION_NUMBER                                                                        \
    (BITE_VERSION_MAJOR * 10000 + BITE_VERSION_MINOR * 100 + BITE_VERSION_PATCH)

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

/* ---- status and errors ----------------------------------------------------------------------- */

/** What a call returns. The values are frozen; new ones are appended. */
typedef enum bite_status {
    BITE_OK = 0,
    BITE_NO_MEMORY = 1,     /**< the allocator returned NULL; nothing was done in part */
    BITE_BAD_ARGUMENT = 2,  /**< a NULL, a wrong struct_size, an index: an error of the caller */
    BITE_BAD_QUANTITY = 3,  /**< text that is not a quantity, or has no unit, or the wrong one */
    BITE_OUT_OF_RANGE = 4,  /**< outside anything a shop runs; error.hint: the likely mistake */
    BITE_MISSING = 5,       /**< an input without which there is no answer */
    BITE_UNKNOWN_NAME = 6,  /**< no such material, tool, key ...; error.hint: the nearest one */
    BITE_NOT_FOUND = 7,     /**< no such file or folder */
    BITE_BAD_FILE = 8,      /**< a table, job or record that breaks the rules of its format */
    BITE_UNSAFE = 9,        /**< a plugin or a table that another user could have placed there */
    BITE_BAD_PLUGIN = 10,   /**< wrong ABI, no entry point, or it failed its own check */
    BITE_CANNOT_WRITE = 11, /**< the target is unchanged */
    BITE_IO = 12,           /**< reading or writing failed partway */
    BITE_BUSY = 13,         /**< a record that another program is using */
    BITE_NO_ANSWER = 14,    /**< the physics does not cover these inputs; reported, not guessed */
    BITE_FAULT = 15,        /**< a fault in the library; please report it */
    BITE_STOPPED = 16       /**< the caller asked to stop; what was done until then is valid */
} bite_status;

/** The name ("BITE_BAD_FILE") and the text of a status. Borrowed, for ever. Since 0.1. */
BITE_API const char *bite_status_name(bite_status status);
BITE_API const char *bite_status_text(bite_status status);

/** What went wrong, and where. Caller-owned. The texts are UTF-8, ended by 0, "" if they do not
 * apply, and can be displayed anywhere: they are written as bite_text_escape writes them. */
typedef struct bite_error {
    uint32_t struct_size; /**< sizeof (bite_error) */
    int32_t status;       /**< a bite_status */
    uint32_t line;        /**< from 1; 0: no line */
    uint32_t column;      /**< from 1, in bytes; 0: no column */
    uint32_t faults;      /**< how many faults were found in all; this is the first one */
    uint32_t reserved;
    char message[256]; /**< what is wrong, and what was expected */
    char hint[128];    /**< what to do: the nearest name, the likely mistake */
    char key[128];     /**< "section:key", or the name of the argument */
    char file[512];    /**< the path; its front is dropped if it is too long */
} bite_error;

#define BITE_ERROR_INIT                                                                            \
    {                                                                                              \
        (uint32_t)sizeof(bite_error), 0, 0, 0, 0, 0, "", "", "", ""                                \
    }

/** The same as a call. The function is for the size that a header has: sizes that none had, and
 * NULL, change nothing; the same holds for every _init_sized. Since 0.1. */
BITE_API void bite_error_init_sized(bite_error *error, size_t size);
static inline void bite_error_init(bite_error *error)
{
    bite_error_init_sized(error, sizeof *error);
}

/**
 * Hears how far a long call is, and may stop it.
 *
 * done, total: of units of work that take about as long each (tools, passes, points of a grid,
 * rows); total may grow, done never falls; the same numbers may come again. Called by the thread
 * that made the call or by its helpers, never by two at a time; it must not use what the call is
 * making. A nonzero result stops the call, which soon returns BITE_STOPPED. Since 0.1.
 */
typedef int (*bite_progress)(void *user, uint64_t done, uint64_t total);

/**
 * Makes any text safe to display, also on a terminal.
 *
 * Bytes that are not UTF-8, control characters (line ends included) and characters that change the
 * direction of writing are written as \x1b or \u202e; everything else is unchanged. Returns the
 * bytes needed without the 0, as snprintf does; if size is too small, out ends before the first
 * character that does not fit. text: NULL counts as "". out: may be NULL if size is 0. Since 0.1.
 */
BITE_API size_t bite_text_escape(const char *text, char *out, size_t size);

/** Receives every fault of a file, in its order. The fault is borrowed for the call. */
typedef void (*bite_fault_sink)(void *user, const bite_error *fault);

/** Receives a piece of the text as it is made; size > 0, not ended by 0, borrowed during the call.
 * A nonzero result stops the writer, which then returns BITE_CANNOT_WRITE. */
typedef int (*bite_sink)(void *user, const char *text, size_t size);

/**
 * Writes a file completely or not at all: to a temporary file beside the target, which is synced
 * and then renamed over the target.
 *
 * The mode of an existing file is kept. Links are followed; a link to a file that does not exist
 * yet creates that file. A character device or a pipe is opened and written (a pipe waits for its
 * reader). A path that names a descriptor of this process (/dev/stdout, /dev/fd/N,
 * /proc/self/fd/N) is written through that descriptor. BITE_CANNOT_WRITE: a file is unchanged; a
 * device, pipe or descriptor may have received a part. The same for a folder, a disk, a socket, a
 * cycle of links, a file that the caller may not write, and a link of another user in a folder that
 * everyone may write. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_file_write(const char *path, const char *text, size_t size,
                                                  bite_error *error);

/** A file that is written in pieces. Opaque; for one thread at a time. */
typedef struct bite_file_output bite_file_output;

/** Opens a path for writing, which it follows as bite_file_write does: nothing is at that path
 * until bite_file_output_keep, except in a device, a pipe or a descriptor. *output: owned, ended by
 * bite_file_output_keep or bite_file_output_drop. BITE_CANNOT_WRITE as bite_file_write. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_file_output_open(const char *path, bite_file_output **output,
                                                        bite_error *error);
/** Writes the next piece. BITE_CANNOT_WRITE: the output is still to be dropped. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_file_output_write(bite_file_output *output, const char *text,
                                                         size_t size, bite_error *error);
/** Syncs the file and puts it in its place. The output is ended in any case; on an error the old
 * file is unchanged. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_file_output_keep(bite_file_output *output,
                                                        bite_error *error);
/** Ends the output; the old file is unchanged. NULL is allowed. Since 0.1. */
BITE_API void bite_file_output_drop(bite_file_output *output);

/** 1: both paths lead to the same regular file, through hard or symbolic links, or would create the
 * same new file; otherwise 0, also for NULL. Paths are followed as bite_file_write follows them.
 * Since 0.1. */
BITE_API int bite_file_same(const char *first, const char *second);

/* ---- quantities: numbers with units ---------------------------------------------------------- */

/** What a number measures, and so which units it may have. Frozen, append only. */
typedef enum bite_kind {
    BITE_KIND_NUMBER = 0,           /**< 1 */
    BITE_KIND_LENGTH = 1,           /**< m */
    BITE_KIND_ANGLE = 2,            /**< rad */
    BITE_KIND_ROTATION = 3,         /**< 1/s: revolutions, not radians */
    BITE_KIND_SPEED = 4,            /**< m/s: feed rate */
    BITE_KIND_SURFACE_SPEED = 5,    /**< m/s, shown in m/min or ft/min */
    BITE_KIND_TOOTH_FEED = 6,       /**< m (per tooth) */
    BITE_KIND_TEMPERATURE = 7,      /**< K */
    BITE_KIND_RISE = 8,             /**< K, a temperature difference */
    BITE_KIND_FORCE = 9,            /**< N */
    BITE_KIND_STRESS = 10,          /**< Pa */
    BITE_KIND_POWER = 11,           /**< W */
    BITE_KIND_TORQUE = 12,          /**< N m */
    BITE_KIND_TIME = 13,            /**< s */
    BITE_KIND_FRACTION = 14,        /**< 1, shown in % */
    BITE_KIND_AREA = 15,            /**< m2 */
    BITE_KIND_ACCELERATION = 16,    /**< m/s2 */
    BITE_KIND_STIFFNESS = 17,       /**< N/m */
    BITE_KIND_EDGE_FORCE = 18,      /**< N/m, force per length of edge */
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

/** The unit system in which quantities are shown. */
typedef enum bite_units { BITE_METRIC = 0, BITE_INCH = 1 } bite_units;

/**
 * Reads a quantity as a shop writes it: "1-1/4in", "18000rpm", "20degC" ...
 *
 * *si: the value in the SI unit of the kind. A number without a unit is refused unless the kind is
 * a plain number or a fraction. BITE_BAD_QUANTITY: not a number, no unit, or not a unit of this
 * kind; BITE_OUT_OF_RANGE: implausible in any shop; BITE_BAD_ARGUMENT: NULL, or no such kind. Since
 * 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_quantity_read(const char *text, bite_kind kind, double *si,
                                                     bite_error *error);

/**
 * Writes a quantity with its unit, as a shop of this unit system writes it.
 *
 * si: finite. *length: the bytes needed without the 0, also if size is too small; buffer is then
 * "". buffer: may be NULL if size is 0. BITE_BAD_ARGUMENT: si is not finite, or there is no such
 * kind or unit system. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_quantity_write(double si, bite_kind kind, bite_units units,
                                                      char *buffer, size_t size, size_t *length,
                                                      bite_error *error);

/* ---- one pass: flat numbers in --------------------------------------------------------------- */

/** Direction of a side cut. */
typedef enum bite_side { BITE_CLIMB = 0, BITE_CONVENTIONAL = 1 } bite_side;
/** What cools the tool and clears the chips. */
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
    BITE_CHAMFER = 2, /**< along an edge, with a conical tool */
    BITE_TAP = 3,     /**< a thread in a hole that is there, with a tap: one pitch each turn */
    BITE_REAM = 4     /**< a hole that is there to its size, with a reamer */
} bite_operation;

/** How the tool enters the material. */
typedef enum bite_entry {
    BITE_ENTRY_OUTSIDE = 0, /**< from beside it, or where it has been cut already */
    BITE_ENTRY_PLUNGE = 1,  /**< straight down */
    BITE_ENTRY_RAMP = 2,    /**< down a slope, full width */
    BITE_ENTRY_HELIX = 3    /**< down a helix, full width */
} bite_entry;
/** What the ends of a thin wall are. */
typedef enum bite_wall_ends {
    BITE_WALL_FREE = 0,
    BITE_WALL_HELD = 1 /**< by the other walls of a pocket */
} bite_wall_ends;
/** Material of the tool. */
typedef enum bite_tool_material {
    BITE_TOOL_CARBIDE = 0,
    BITE_TOOL_HSS = 1,
    BITE_TOOL_DIAMOND = 2
} bite_tool_material;

/** Class of the material; decides which limits are checked. */
typedef enum bite_substance {
    BITE_METAL = 0,
    BITE_AMORPHOUS = 1,   /**< glassy polymer: limited by its glass transition */
    BITE_CRYSTALLINE = 2, /**< semi-crystalline polymer: limited by its melting point */
    BITE_THERMOSET = 3,   /**< laminate, board, wood: chars, does not melt */
    BITE_MINERAL = 4      /**< graphite and the like: turns to dust */
} bite_substance;

/** Form of the chips of a metal, which determines how well they leave the flutes. */
typedef enum bite_chip_form {
    BITE_CHIP_UNSTATED = 0, /**< plastics and boards: only packing_limit counts */
    BITE_CHIP_SOFT = 1,     /**< long and soft: packs into the flutes and sticks */
    BITE_CHIP_TOUGH = 2,    /**< long and tough, or curled */
    BITE_CHIP_SHORT = 3,    /**< breaks by itself */
    BITE_CHIP_DUST = 4      /**< crumbs and dust */
} bite_chip_form;

/** How the cutting pressure of the material is stated; bite_cut_pass converts each form to K and
 * Ke. */
typedef enum bite_pressure_model {
    BITE_PRESSURE_NONE = 0,    /**< not stated: no force can be computed */
    BITE_PRESSURE_EDGE = 1,    /**< linear edge: pressure_t and edge_t, at edge_reference */
    BITE_PRESSURE_POWER = 2,   /**< Kienzle: pressure_t at a chip of 1 mm, pressure_exponent */
    BITE_PRESSURE_STRENGTH = 3 /**< from shear_strength, friction, fracture_energy, yield: an
                                  estimate, and marked as one */
} bite_pressure_model;

/** The most points of a curve. */
#define BITE_CURVE_POINTS 8
/** A property over temperature: linear between points, constant outside them; with 0 points the
 * plain member of bite_cut applies. */
typedef struct bite_curve {
    uint32_t count;    /**< 0 to BITE_CURVE_POINTS; the points beyond it are not read */
    uint32_t reserved; /**< 0 */
    double temperature[BITE_CURVE_POINTS]; /**< K, rising, 50 to 3500 */
    double value[BITE_CURVE_POINTS];       /**< SI, within the range of its input */
} bite_curve;

/** Figures of a plugin that a cut has room for. */
#define BITE_OWN_FIGURES 8

/** The limits of a plugin, as the library keeps them. Opaque. */
typedef struct bite_own_limits bite_own_limits;

/**
 * One pass: everything that the physics needs to know.
 *
 * NaN: not given. bite_cut_pass returns BITE_MISSING for a number that it needs
 * (bite_input.fallback is NaN and bite_input.needed is 1) and uses the documented default for the
 * others; a bite_request fills in better values and records where each came from.
 */
typedef struct bite_cut {
    uint32_t struct_size;
    uint32_t side;          /**< bite_side */
    uint32_t coolant;       /**< bite_coolant */
    uint32_t tool_material; /**< bite_tool_material */
    uint32_t pressure;      /**< bite_pressure_model */
    uint32_t substance;     /**< bite_substance */
    uint32_t chip_form;     /**< bite_chip_form */
    uint32_t blind;     /**< 1: the slot has a floor and both walls; chips can leave only upwards */
    uint32_t entry;     /**< bite_entry */
    uint32_t operation; /**< bite_operation; for a drill, depth is that of a peck and feature_depth
                           that of the hole; for a chamfer, depth is its leg; for a tap or reamer,
                           that of the thread or hole */
    uint32_t wall_ends; /**< bite_wall_ends */
    uint32_t reserved;  /**< 0 */

    /* motion */
    double spindle_speed; /**< n, 1/s */
    double feed_rate;     /**< vf, m/s, of the tool's centre */
    double depth;         /**< ap, m, axial depth of this pass */
    double width; /**< ae, m, width of the cut; NaN: from feature_width, or a full slot if that is
                     NaN too */
    double path_length; /**< m, of one pass; NaN: long enough to warm up */
    double entry_feed;  /**< m/s, along the entry move; NaN: a third of feed_rate in a plunge,
                           otherwise half of it */
    double ramp_angle;  /**< rad, of a ramp or helix */
    double point_angle; /**< rad, of a drill */
    double tip_below; /**< m, from the lower end of a chamfer down to the tip; NaN: a quarter of the
                         depth */

    /* tool */
    double diameter;       /**< D, m */
    double flutes;         /**< z, a whole number */
    double corner_radius;  /**< m; D/2 makes a ball end */
    double helix;          /**< beta, rad; negative: left hand */
    double rake;           /**< gamma, rad */
    double edge_radius;    /**< re, m, of the new edge, or as measured in use */
    double edge_wear;      /**< edge radius in use / edge_radius, 1; NaN: 1 if edge_radius is given,
                              otherwise that of a tool in mid life */
    double runout;         /**< TIR, m, total indicated, at the tip */
    double flute_length;   /**< m */
    double neck_diameter;  /**< m; NaN: no neck */
    double neck_length;    /**< m, from the end of the flutes */
    double shank_diameter; /**< m */
    double stickout;       /**< m, from the holder's face to the tip */
    double stiff_share;    /**< diameter of a plain shaft as stiff as the fluted part / D, 1 */
    double core_share;     /**< core diameter / D, for strength and heat, 1 */
    double tool_modulus;   /**< E, Pa */
    double tool_poisson;   /**< 1 */
    double tool_strength;  /**< Pa, largest stress allowed */
    double tooth_strength; /**< Pa, edge load that one tooth withstands / its diameter, at D = 6 mm
                              and one flute */
    double tool_damping;   /**< damping ratio of the tool's own bending, 1 */
    double tool_frequency_share; /**< frequency of that bending in a holder / clamped rigidly, 1 */
    double tool_conductivity;    /**< W/(m K) */
    double tool_density;         /**< kg/m3 */
    double tool_heat_capacity;   /**< J/(kg K) */
    double tool_speed_limit; /**< m/s at the edge, in a slot, for this material and tool material */
    double tool_turn_limit;  /**< 1/s, marked on the tool or the holder */
    double taper;            /**< rad, of the cone of a chamfer tool, from its axis */
    double tip_diameter;     /**< m, of the flat at the tip of that cone; NaN: a tenth of D */

    /* machine */
    double spindle_slowest;    /**< 1/s */
    double spindle_fastest;    /**< 1/s */
    double feed_fastest;       /**< m/s, reached while keeping to the path */
    double acceleration;       /**< m/s2 */
    double power_limit;        /**< W at the cutter, continuous */
    double torque_limit;       /**< N m at the cutter, at and above torque_speed */
    double torque_speed;       /**< 1/s, below which the torque falls */
    double torque_exponent;    /**< 1: torque = torque_limit (n / torque_speed)^exponent below it */
    double machine_stiffness;  /**< N/m, of holder and machine, pushed at the holder */
    double cooling;            /**< W/(m2 K), on the tool; NaN: from coolant */
    double room_temperature;   /**< K */
    double holder_temperature; /**< K; NaN: room + 5 K */
    double surface_cooling;    /**< W/(m2 K), on wall, floor and chips; NaN: from coolant */
    double frame_share;        /**< share of the machine's compliance that is the frame's, 1 */
    double frame_frequency;    /**< Hz */
    double frame_damping;      /**< damping ratio, 1 */
    double spindle_frequency;  /**< Hz, of spindle and holder, the rest of the compliance */
    double spindle_damping;    /**< 1 */
    double mode_frequency;     /**< Hz, measured, of tool, spindle or part; NaN: not known */
    double mode_stiffness;     /**< N/m, of that mode at the tip; NaN: machine_stiffness */
    double mode_damping;       /**< damping ratio, 1 */
    double mode2_frequency;    /**< Hz, of a second measured mode; NaN: none */
    double mode2_stiffness;    /**< N/m; NaN: machine_stiffness */
    double mode2_damping;      /**< 1 */
    double mode3_frequency;    /**< Hz, of a third; NaN: none */
    double mode3_stiffness;    /**< N/m; NaN: machine_stiffness */
    double mode3_damping;      /**< 1 */

    /* part */
    double tolerance;        /**< m, plus or minus */
    double finish;           /**< m, required Ra */
    double inside_radius;    /**< m, of the smallest inside corner */
    double feature_depth;    /**< m, of the whole feature */
    double floor_thickness;  /**< m, left under the tool, down to the bond */
    double wall_thickness;   /**< m, of the thin wall beside the cut; NaN: no wall is thin */
    double wall_height;      /**< m; NaN: feature_depth, or depth */
    double wall_length;      /**< m; NaN: long, the middle counts; otherwise the free end */
    double floor_span;       /**< m, short side of a floor that is not supported from below; NaN:
                                supported everywhere */
    double floor_length;     /**< m, long side; NaN: long */
    double gap;              /**< m, narrowest passage that the tool must go through */
    double bond_area;        /**< m2, bonded area left under the part at the end of the cut */
    double bond_width;       /**< m, shorter side of that area; NaN: the area is a square */
    double bond_shear;       /**< Pa, shear strength of the bond at 60 s and 23 degC */
    double bond_pull;        /**< Pa, tensile strength over its area, likewise */
    double bond_exponent;    /**< m in time^-m, its strength over time, 1; NaN: it does not creep */
    double bond_halving;     /**< K, temperature rise that halves its strength; NaN: none does */
    double bond_modulus;     /**< Pa, Young's modulus of its soft layer; NaN: it is rigid */
    double bond_thickness;   /**< m, thickness of that layer */
    double bond_limit;       /**< K, above which the bond fails */
    double bond_temperature; /**< K; NaN: as computed, or room_temperature without a floor */
    double bond_force;       /**< factor on the side force and the lift, for vibration, 1 */
    double load_time;        /**< s, time for which the bond has been under load */
    double flatness;         /**< m, required of the part once it is released */
    double part_span;        /**< m, its longest side */
    double part_thickness;   /**< m, its thickest section */
    double stock_thickness;  /**< m, nominal, of the sheet */
    double stock_tolerance;  /**< m, plus or minus */
    double skim; /**< m, least thickness to be removed from both faces together; NaN: none, the
                    faces stay as delivered */
    double removed_top;   /**< m, from the top face by all passes */
    double removed_below; /**< m, from the bottom face by all passes */
    double face_strain;   /**< strain by which one face of the part is longer than the other, from
                             heat or moisture, 1; NaN: none */
    double bridge_span;   /**< m, of a strip left between two cuts, held at both ends; NaN: none */
    double bridge_width;  /**< m, along the tool's axis; NaN: depth */
    double bridge_thickness; /**< m, in the direction of the side force */
    double feature_width; /**< m, stock to be removed sideways over the whole feature; NaN: as much
                             as one pass removes */

    /* material; bite_request_use fills these from a grade */
    double density;           /**< kg/m3 */
    double heat_capacity;     /**< J/(kg K) */
    double conductivity;      /**< W/(m K) */
    double chip_ratio;        /**< chip thickness after / before the cut, 1; sets the shear angle */
    double heat_share;        /**< share of the plastic work that turns into heat, 1 */
    double friction_share;    /**< share of the cutting work that is friction on the rake face, 1 */
    double sublayer_share;    /**< share of the friction heat that reaches the interface, 1 */
    double pressure_t;        /**< K, Pa */
    double pressure_r;        /**< Pa; NaN: 0.3 K */
    double pressure_a;        /**< Pa, for a right-hand helix; NaN: oblique transformation */
    double edge_t;            /**< Ke, N/m */
    double edge_r;            /**< N/m; NaN: 1.2 Ke */
    double edge_a;            /**< N/m; NaN: 0 */
    double edge_reference;    /**< m, edge radius of those tests; NaN: 10 um */
    double pressure_exponent; /**< mc, 1 */
    double pressure_rake;     /**< 1/rad, fall of K with rake above pressure_rake_at; NaN: none */
    double pressure_rake_at;  /**< rad, at which the pressure was measured */
    double pressure_temperature; /**< K, at which the pressure was measured */
    double shear_strength;       /**< Pa, mean on the shear plane, at cutting strain rates */
    double yield;                /**< Pa, flow stress at the edge, at cutting strain rates */
    double friction;             /**< coefficient on the tool, 1 */
    double fracture_energy;      /**< J/m2 */
    double minimum_chip;         /**< h_min / re, 1 */
    double hardening;            /**< degree of work hardening of the cut skin, 0 to 1 */
    double transition;           /**< K, glass transition, or melting point if crystalline */
    double wlf_c1;               /**< C1 of a glassy polymer's shift of time with temperature, from
                                    its glass transition; NaN: crystalline, or not a polymer */
    double wlf_c2;               /**< C2 of that shift, K */
    double tack_decades;  /**< powers of ten in time by which chips clog later than they flow, 1 */
    double softening;     /**< K, shop limit of the surface of a board or laminate */
    double welding;       /**< K, above which the chip sticks; NaN: does not weld */
    double packing_limit; /**< ap / D of a slot that one flute can still clear dry, 1 */
    double charted_chip;  /**< m, largest published feed per tooth of a tool of one flute
                             and 6.35 mm; NaN: none is known */
    double charted_exponent; /**< exponent of its growth with the diameter, 1 */
    double modulus;          /**< E, Pa */
    double poisson;          /**< 1 */
    double expansion;        /**< 1/K */
    double crazing;          /**< Pa, borne for a long time without crazing; NaN: does not craze */
    double chip_edge;    /**< m, chip thickness at which exit edges break out; NaN: they do not */
    double refraction;   /**< refractive index, 1; NaN: not clear */
    double taylor_speed; /**< m/s, at which an edge lasts one minute; NaN: no data */
    double taylor_exponent; /**< n in v T^n = C, 1 */
    double skin_stress;     /**< Pa, in the skins of the sheet as delivered, balanced by half of it
                               inside */
    double bond_adhesion;   /**< share of its strength that a tape or glue reaches, 1 */

    /* free constants of the model */
    double skin_depth;  /**< depth of the ploughed skin / edge radius, 1 */
    double edge_share;  /**< fraction of sublayer_share that applies to the energy of the edge, 1 */
    double walk_share;  /**< factor on the share of its own heat that the cutter meets again, 1 */
    double spring_back; /**< height by which the surface springs back behind the edge / edge radius,
                           1 */
    double rub_heat;    /**< heat of a rub on the sprung-back surface / heat of a cut, 1 */
    double wall_heat;   /**< factor on the sustained rise of wall and floor, 1 */
    double rub_share;   /**< chip thickness below which the edge rubs / edge radius, 1 */
    double runout_share; /**< runout that breaks a tool / D, 1 */
    double stable_share; /**< depth at which chatter is heard / vibration grows, 1 */
    double chip_bulk; /**< space of a chip in its flute / its solid volume, 1; NaN: from chip_form
                       */
    double packing_share; /**< factor on the depth that flutes clear, 1 */
    double plunge_share;  /**< plunge feed above which small tools break / side feed, 1 */
    double recutting;     /**< work of cutting the chips of a full flute again / cutting work, 1 */

    bite_curve heat_capacity_curve; /**< J/(kg K); read at the start temperature of the work */
    bite_curve strength_curve; /**< strength over temperature / strength at pressure_temperature, 1;
                                  0.001 to 100 */

    /* later additions: bite_input.group says what each belongs to */
    double spring_passes; /**< laps of a side cut that are repeated at the same setting, a whole
                             number, 0 to 3 */
    double tap_lead;      /**< threads in the chamfer of a tap, 1 */
    double hole_diameter; /**< m, of the hole before it is tapped or reamed; NaN: from thread_share
                             or ream_stock */
    double pitch;         /**< m, of the thread to be tapped */
    double thread_share;  /**< height of the thread / 0.65 pitch, which is a full one, 1 */
    double ream_stock;    /**< m, on the diameter, left for a reamer */
    double tap_drag;      /**< torque of a tap / that of its cutting teeth, 1 */

    /* of the plugin of the material's family; bite_request_cut fills them. Since 0.1 */
    double own_figure[BITE_OWN_FIGURES]; /**< SI, what its limits read; NaN: none */
    const bite_own_limits *own;          /**< borrowed from the library; NULL: none */
} bite_cut;

/** What one member of bite_cut is. Options, tables, JSON and bands are made from this one list. */
typedef struct bite_input {
    const char *name;    /**< of the member, and the key in tables and JSON; borrowed, for ever */
    const char *unit;    /**< SI, as in JSON; borrowed, for ever */
    const char *summary; /**< one line; borrowed, for ever */
    size_t offset;       /**< of the member in bite_cut */
    double least;        /**< smallest value accepted, SI; 0: that, or at least 1e-12 of most */
    double most;         /**< largest value accepted, SI */
    double fallback; /**< used if nothing is given, SI; NaN: there is none, or it depends on other
                        inputs */
    uint32_t kind;   /**< a bite_kind */
    uint32_t group;  /**< a bite_group */
    uint32_t
        words; /**< > 0: the member is a uint32_t, one of this many words; see bite_input_word */
    uint32_t needed; /**< 1: without it there is no answer */
    uint32_t whole;  /**< 1: a count; only whole numbers are accepted */
    uint32_t reserved;
} bite_input;

/** What an input belongs to. */
typedef enum bite_group {
    BITE_GROUP_MOTION = 0,
    BITE_GROUP_TOOL = 1,
    BITE_GROUP_MACHINE = 2,
    BITE_GROUP_PART = 3,
    BITE_GROUP_MATERIAL = 4,
    BITE_GROUP_MODEL = 5
} bite_group;

/** A word of an input that is one of several words ("climb"); NULL: no such word. Borrowed, for
 * ever. Since 0.1. */
BITE_API const char *bite_input_word(const bite_input *input, uint32_t index);

/** The inputs in the order of their list; bite_input_find: by name, NULL if there is none.
 * Borrowed, for ever. Since 0.1. */
BITE_API size_t bite_input_count(void);
BITE_API const bite_input *bite_input_at(size_t index); /**< NULL: no such index */
BITE_API const bite_input *bite_input_find(const char *name);

/** As bite_input_at; from bite_input_count() on, the figures in own_figure of this cut, as its
 * plugin names them. NULL: no such input or figure. Since 0.1. */
BITE_API const bite_input *bite_cut_input_at(const bite_cut *cut, size_t index);

/** Sets all numbers to NaN, all words to 0, and struct_size. Since 0.1. */
BITE_API void bite_cut_init_sized(bite_cut *cut, size_t size);
static inline void bite_cut_init(bite_cut *cut)
{
    bite_cut_init_sized(cut, sizeof *cut);
}

/* ---- one pass: flat numbers out -------------------------------------------------------------- */

/** Computed values. Frozen, append only; bite_value_name gives the name in JSON. */
typedef enum bite_value_id {
    BITE_SURFACE_SPEED = 0,
    BITE_SPINDLE_SPEED,
    BITE_FEED_RATE,
    BITE_CHIP_LOAD,          /**< fz as programmed */
    BITE_CHIP_LOAD_HEAVY,    /**< of the tooth that runout loads most */
    BITE_CHIP_LOAD_LIGHT,    /**< of the tooth that runout loads least */
    BITE_CHIP_THICKNESS_MAX, /**< at this engagement, without runout */
    BITE_CHIP_THICKNESS_MEAN,
    BITE_CHIP_THICKNESS_LEAST, /**< h_min, below which the edge rubs */
    BITE_ENGAGEMENT,           /**< rad, arc of contact */
    BITE_REMOVAL_RATE,
    BITE_FORCE_TANGENTIAL_PEAK,
    BITE_FORCE_SIDE_PEAK,
    BITE_FORCE_SIDE_MEAN,
    BITE_FORCE_LIFT_PEAK, /**< on the part, upwards is positive */
    BITE_TORQUE_PEAK,
    BITE_POWER_MEAN,
    BITE_SPECIFIC_ENERGY,
    BITE_CHIP_TEMPERATURE,
    BITE_SURFACE_TEMPERATURE, /**< of the finished wall or floor, sustained from tooth to tooth */
    BITE_FILM_TEMPERATURE,    /**< of the film under the edge */
    BITE_TOOL_TEMPERATURE,    /**< of the tool's body at the edge */
    BITE_PART_TEMPERATURE,    /**< at the bond */
    BITE_PREHEAT,             /**< temperature rise of the work that the next tooth meets */
    BITE_HEAT_TO_PART,
    BITE_DEFLECTION_TIP,
    BITE_WALL_ERROR, /**< magnitude of the error of the worse wall */
    BITE_TOOL_STRESS,
    BITE_ROUGHNESS_FLOOR,     /**< Rt, height of the feed marks */
    BITE_ROUGHNESS_WALL,      /**< Rt */
    BITE_STABILITY_DEPTH,     /**< above which the cut chatters */
    BITE_TIP_FREQUENCY,       /**< Hz, of the tool clamped in its holder; from bite_cut_band only */
    BITE_HAZE,                /**< share of the light that a floor of a clear part scatters, 1 */
    BITE_TOOL_LIFE,           /**< s */
    BITE_SURFACE_SPEED_SMALL, /**< at the small end of a chamfer */
    BITE_FLASH_TEMPERATURE,   /**< of the skin under the edge, for about a tenth of a millisecond */
    BITE_SURFACE_DWELL,       /**< s, time for which the finished surface stays warm */
    BITE_FLOW_TEMPERATURE,    /**< at which the surface would flow within that time */
    BITE_WALL_CLIMB, /**< error of the wall that is climb milled; positive: material is left */
    BITE_WALL_CONVENTIONAL,    /**< of the wall that is milled conventionally */
    BITE_EDGE_LOAD,            /**< N/m, on the tooth with the heaviest load */
    BITE_STABILITY_DEPTH_TOOL, /**< above which the tool itself chatters */
    BITE_VALUE_COUNT           /**< of this header; a newer library may have more */
} bite_value_id;

/** The limits that a cut is checked against. Frozen, append only. */
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
    BITE_LIMIT_HOLD,
    BITE_LIMIT_BOND_HEAT,
    BITE_LIMIT_PART_BEND,
    BITE_LIMIT_GAP,
    BITE_LIMIT_WEAR,
    BITE_LIMIT_WARP,
    BITE_LIMIT_STOCK_THICKNESS,
    BITE_LIMIT_TOOL_GROSS_BEND,
    BITE_LIMIT_PART_GROSS_BEND,
    BITE_LIMIT_FEED_TOOTH,
    BITE_LIMIT_CHATTER_TOOL,
    BITE_LIMIT_UNPROVEN,
    BITE_LIMIT_PLUNGE_FEED,
    BITE_LIMIT_OWN_1, /**< those of the plugin of the material's family: bite_cut_limit_name */
    BITE_LIMIT_OWN_2,
    BITE_LIMIT_OWN_3,
    BITE_LIMIT_OWN_4,
    BITE_LIMIT_COUNT, /**< of this header; a newer library may have more */
    /* no limits of a cut: what bite_choice_active_limit names besides */
    BITE_LIMIT_LARGEST_TOOTH = 1000, /**< the largest feed per tooth that may be chosen */
    BITE_LIMIT_GOAL = 1001           /**< the level at which the goal is met */
} bite_limit_id;

/** Without draws: over if utilization > 1, tight if utilization > 0.7 (never for exact sizes and
 * rated speeds), otherwise clear. With draws: over if the chance > 0.5, tight if it is at least 1 -
 * confidence, otherwise clear. */
typedef enum bite_verdict {
    BITE_NOT_JUDGED = 0,
    BITE_CLEAR = 1,
    BITE_TIGHT = 2,
    BITE_OVER = 3,
    BITE_UNKNOWN = 4 /**< a figure that this substance needs is missing, and nothing is over */
} bite_verdict;

/** Why a limit does not apply. Frozen, append only; bite_limit_why gives the sentence. */
typedef enum bite_why {
    BITE_WHY_APPLIES = 0,
    BITE_WHY_NOT_GIVEN = 1, /**< an input that the limit needs was not given */
    BITE_WHY_NO_DATA = 2,   /**< the tables have no value for it */
    BITE_WHY_ONE_FLUTE = 3, /**< at least two teeth are needed */
    BITE_WHY_NOT_A_METAL = 4,
    BITE_WHY_METAL = 5, /**< metals do not soften at shop temperatures */
    BITE_WHY_DOES_NOT_WELD = 6,
    BITE_WHY_DOES_NOT_WEAR = 7, /**< an unfilled plastic hardly wears the edge */
    BITE_WHY_DOES_NOT_CRAZE = 8,
    BITE_WHY_DRILL = 9,      /**< checked for milling only */
    BITE_WHY_CHAMFER = 10,   /**< checked for walls and slots, not for a chamfer */
    BITE_WHY_TOLERANCE = 11, /**< checked only if no tolerance was given */
    BITE_WHY_MEASURED = 12,  /**< the measured modes are checked instead */
    BITE_WHY_NO_LIMIT =
        13, /**< BITE_LIMIT_OWN_1 to 4: the family has no plugin with such a limit */
    BITE_WHY_NOT_ASKED = 14,  /**< its plugin does not judge cuts of this kind */
    BITE_WHY_BAD_NUMBER = 15, /**< its plugin gave no usable number: the cut is not judged */
    BITE_WHY_COUNT
} bite_why;

/** A number and its 90 % band, in the SI unit of bite_value_unit. NaN: no data; without draws low
 * and high are NaN. */
typedef struct bite_value {
    double value;
    double low;  /**< 5 % */
    double high; /**< 95 % */
} bite_value;

/** Demand against capacity. Temperatures are rises above the start temperature of the work, so that
 * utilization is the share used of the rise that is available. */
typedef struct bite_limit {
    double demand;      /**< SI unit of the limit */
    double capacity;    /**< the same unit; >= 0 */
    double utilization; /**< demand / capacity; at most 1e6, also if the capacity is zero */
    double chance;      /**< share of draws with demand > capacity, 0 to 1; NaN without draws */
    double utilization_high; /**< 95 % end of the utilization; NaN without draws */
    uint32_t verdict;        /**< a bite_verdict */
    uint32_t applies;        /**< 0: see why */
    uint32_t why;            /**< a bite_why: not checked, no data, wrong kind of material ... */
    /** What governs: 0: the straight path; 1: the inside corner; 2: the entry move. */
    uint32_t in_corner;
    uint32_t advisory; /**< 1: never over, and does not restrict a choice */
    uint32_t reserved;
} bite_limit;

/** Array sizes of bite_result: room for values and limits of later versions. */
#define BITE_VALUE_SLOTS 64
#define BITE_LIMIT_SLOTS 64

/** In bite_result.widest: there is no such input. */
#define BITE_NO_INPUT UINT32_MAX

/** The result of one pass. Caller-owned; set struct_size before the call. */
typedef struct bite_result {
    uint32_t struct_size;
    uint32_t verdict;     /**< a bite_verdict, from the joint chance; without draws from the largest
                             utilization of the limits that are not advisory */
    uint32_t value_count; /**< of values, filled by this library; the others are NaN */
    uint32_t limit_count; /**< of limits */
    uint32_t draws;       /**< 0: no bands */
    uint32_t worst; /**< the bite_limit_id that is most likely to be exceeded among those that are
                       not advisory; of equally likely ones and without draws, the one with the
                       largest utilization */
    /** That any limit that is not advisory is exceeded, 0 to 1; NaN without draws. */
    double chance;
    uint32_t widest[2];   /**< the two inputs that widen the result most, as bite_input indices;
                             BITE_NO_INPUT: none; bite_input_count() or more: a figure of a plugin,
                             see bite_cut_input_at */
    double heat_share[4]; /**< to chip, tool and part, and stored in the chip; adds up to 1 */
    bite_value values[BITE_VALUE_SLOTS];
    bite_limit limits[BITE_LIMIT_SLOTS];
    uint32_t judged;         /**< count of limits that apply */
    uint32_t not_applicable; /**< count of limits that do not; places for limits of a plugin that
                                the family does not have (BITE_WHY_NO_LIMIT) count nowhere */
    uint32_t not_judged; /**< count of limits that this substance requires, but for which a figure
                            is missing: see bite_cut_missing_figure */
    uint32_t reserved;   /**< 0 */
} bite_result;

/** Begins a result, of which the calls that fill it read the size. Since 0.1. */
BITE_API void bite_result_init_sized(bite_result *result, size_t size);
static inline void bite_result_init(bite_result *result)
{
    bite_result_init_sized(result, sizeof *result);
}

/** Name of an input whose figure is missing, so that the cut cannot be judged; index from 0. NULL:
 * there are no more. cut: NULL is allowed. Borrowed, for ever. Since 0.1. */
BITE_API const char *bite_cut_missing_figure(const bite_cut *cut, size_t index);

/** Name, SI unit (as in JSON) and kind of a value or a limit, the sentence for a bite_why, and the
 * word of a verdict. Names and units are NULL for an unknown id. Borrowed, for ever. Since 0.1. */
BITE_API const char *bite_value_name(bite_value_id id);
BITE_API const char *bite_value_unit(bite_value_id id);
BITE_API bite_kind bite_value_kind(bite_value_id id);
BITE_API const char *bite_limit_name(bite_limit_id id);
BITE_API const char *bite_limit_unit(bite_limit_id id);
BITE_API bite_kind bite_limit_kind(bite_limit_id id);
BITE_API const char *bite_limit_why(uint32_t why);

/** The same of a limit of this cut: BITE_LIMIT_OWN_1 to 4 have the names that the plugin of its
 * material gives them, and are NULL where it has no such limit. Borrowed as long as the library of
 * the cut is open. Since 0.1. */
BITE_API const char *bite_cut_limit_name(const bite_cut *cut, bite_limit_id id);
BITE_API const char *bite_cut_limit_unit(const bite_cut *cut, bite_limit_id id);
BITE_API bite_kind bite_cut_limit_kind(const bite_cut *cut, bite_limit_id id);
BITE_API const char *bite_verdict_name(bite_verdict verdict);

/**
 * Computes one pass at its best estimates. Pure; takes some 10 us: it is a block of one, and many
 * passes take a tenth of that each in bite_batch_run.
 *
 * cut: borrowed during the call; result: struct_size set by the caller. Bands are NaN, the verdict
 * is from utilization alone, and tip_frequency is NaN: only bite_cut_band computes it.
 *
 * Every member of cut is checked first; error.key names the one at fault. BITE_BAD_ARGUMENT:
 * struct_size, a word, the points of a curve. BITE_MISSING: a number that is needed.
 * BITE_OUT_OF_RANGE: a number outside its range, or infinite. BITE_NO_ANSWER: a number that a limit
 * needs has no finite result. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_cut_pass(const bite_cut *cut, bite_result *result,
                                                bite_error *error);

/** The distribution of an uncertain input. */
typedef enum bite_shape {
    BITE_SHAPE_LEVEL = 1,    /**< uniform between low and high */
    BITE_SHAPE_NORMAL = 2,   /**< low and high are at 5 and 95 %; each side has its own width */
    BITE_SHAPE_LOGNORMAL = 3 /**< the same in the logarithm; low > 0 */
} bite_shape;

/** How one input is spread about its best estimate. */
typedef struct bite_spread {
    uint32_t input; /**< a bite_input index */
    uint32_t shape; /**< a bite_shape */
    uint32_t group; /**< 0, or 1 to 7: the inputs of one group are correlated */
    uint32_t reserved;
    double low;  /**< 5 % (uniform: the end), SI, finite, at most the best estimate of the input */
    double high; /**< 95 % (uniform: the end), SI, finite, at least the best estimate */
    double together; /**< share of the variance that the group has in common, 0 to 1 */
} bite_spread;

/** The most inputs that may be uncertain; with their groups they are the dimensions of one Sobol
 * sequence. */
#define BITE_SPREAD_MAX 72
/** The most draws. */
#define BITE_DRAWS_MAX 65536

/**
 * Computes the pass with its band: values at 5 and 95 %, the chance that each limit is exceeded,
 * and the chance that any limit is exceeded that is not advisory.
 *
 * spreads: `count` of them, at most BITE_SPREAD_MAX, each for another input. draws: shifted Sobol
 * points, 16 to BITE_DRAWS_MAX; a seed gives the same ones on every machine. confidence: 0 for
 * 0.90, or 0.5 to 0.999; a limit is clear if its chance is below 1 - confidence, and over if it is
 * above one half. The values are best estimates and lie within their bands. Errors as
 * bite_cut_pass; BITE_BAD_ARGUMENT for a spread, a number of draws or a confidence that is not
 * valid; BITE_NO_MEMORY: memory for the draws is needed. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_cut_band(const bite_cut *cut, const bite_spread *spreads,
                                                size_t count, size_t draws, uint64_t seed,
                                                double confidence, bite_result *result,
                                                bite_error *error);

/* ---- memory -----------------------------------------------------------------------------------
 */

/** An allocator of the caller: all three functions or none. SECURITY.md lists the memory that does
 * not come from it. They must be safe to call from the
 * threads that use the library. */
typedef struct bite_allocator {
    void *(*allocate)(void *user, size_t size);
    void *(*resize)(void *user, void *memory, size_t size);
    void (*release)(void *user, void *memory);
    void *user;
} bite_allocator;

/* ---- many passes at once --------------------------------------------------------------------- */

/** What a batch computes for each cut. */
typedef enum bite_batch_kind {
    BITE_BATCH_VALUE = 0,       /**< id: a bite_value_id; SI */
    BITE_BATCH_UTILIZATION = 1, /**< id: a bite_limit_id; NaN: the limit does not apply */
    BITE_BATCH_DEMAND = 2,      /**< id: a bite_limit_id; SI, NaN as above */
    BITE_BATCH_CAPACITY = 3,    /**< id: a bite_limit_id; SI, NaN as above */
    BITE_BATCH_VERDICT = 4,     /**< a bite_verdict; id: 0 */
    BITE_BATCH_WORST = 5 /**< a bite_limit_id, the limit of the highest utilization that is not
                            advisory; id: 0 */
} bite_batch_kind;

/** One output of a batch. */
typedef struct bite_batch_output {
    uint32_t kind; /**< a bite_batch_kind */
    uint32_t id;
} bite_batch_output;

/** A column of numbers: that of row i is data[i * stride]. */
typedef struct bite_column {
    const double *data; /**< borrowed; NaN: not given in that row */
    size_t stride;      /**< 0: the same number in every row */
} bite_column;

/** A column that is written. */
typedef struct bite_result_column {
    double *data;
    size_t stride; /**< 1 or more */
} bite_result_column;

/** A cut of which some inputs vary from row to row. Opaque, immutable: any number of threads may
 * run one batch at a time. */
typedef struct bite_batch bite_batch;

/**
 * Prepares many passes that are like one cut, except for some of its numbers.
 *
 * cut: the template, copied; it need not be valid by itself, each row is checked. inputs:
 * `input_count` different bite_input indices of numbers (not of words). outputs: `output_count` of
 * them. allocator: copied; NULL: the C library's. *batch: owned, bite_batch_free.
 * BITE_BAD_ARGUMENT: a NULL, a struct_size, an index that is not valid or named twice.
 * BITE_NO_MEMORY. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_batch_new(const bite_allocator *allocator,
                                                 const bite_cut *cut, const uint32_t *inputs,
                                                 size_t input_count,
                                                 const bite_batch_output *outputs,
                                                 size_t output_count, bite_batch **batch,
                                                 bite_error *error);
BITE_API void bite_batch_free(bite_batch *batch); /* NULL is allowed */

/**
 * Computes `rows` passes: each row is what bite_cut_pass returns for the template with the numbers
 * of that row, to 1e-12 of each number.
 *
 * in: one column for each input, in the order of bite_batch_new; out: one for each output; they
 * must not overlap. status: NULL, or rows numbers, each the bite_status of its row, as of
 * bite_cut_pass: the outputs of a row that is refused are NaN, and no other row is affected.
 * threads: 0 counts as 1. stop: NULL, or a flag that another thread or a signal handler may set to
 * a number other than 0, by an atomic store (the library reads it by atomic loads): the call then
 * returns BITE_STOPPED soon, rows that were not computed have that status and NaN.
 * BITE_BAD_ARGUMENT: a NULL, a stride of 0 of an output. BITE_NO_MEMORY: nothing was computed. The
 * numbers do not depend on the count of threads. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_batch_run(const bite_batch *batch, size_t rows,
                                                 const bite_column *in,
                                                 const bite_result_column *out, uint32_t *status,
                                                 size_t threads, const volatile int *stop,
                                                 bite_error *error);

/** How a batch is run. */
typedef struct bite_batch_options {
    uint32_t struct_size;
    uint32_t threads;         /**< 0 counts as 1 */
    const volatile int *stop; /**< as bite_batch_run */
    bite_progress progress;   /**< in rows; NULL: nobody hears of it */
    void *progress_user;
} bite_batch_options;

/** Begins the options: as NULL. Since 0.1. */
BITE_API void bite_batch_options_init_sized(bite_batch_options *options, size_t size);
static inline void bite_batch_options_init(bite_batch_options *options)
{
    bite_batch_options_init_sized(options, sizeof *options);
}

/** The same as bite_batch_run, with options: NULL is one thread. BITE_STOPPED also after progress
 * asked to stop. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_batch_run_with(
    const bite_batch *batch, size_t rows, const bite_column *in, const bite_result_column *out,
    uint32_t *status, const bite_batch_options *options, bite_error *error);

/* ---- how a result is shown ------------------------------------------------------------------- */

/** The form in which something is written. */
typedef enum bite_format {
    BITE_TEXT = 0,
    BITE_JSON = 1,
    BITE_CSV = 2,  /**< for a window or a record */
    BITE_SVG = 3,  /**< for a window */
    BITE_HTML = 4, /**< for a job or a record: pages to print; for a window: a page for a tablet */
    BITE_QIF = 5   /**< for a record: measurement results of QIF 3.0 (ISO 23952) */
} bite_format;

/** How JSON is laid out; the members are the same. */
typedef enum bite_json_layout {
    BITE_JSON_INDENTED = 0, /**< by two blanks; lists of the library have an entry a line */
    BITE_JSON_COMPACT = 1   /**< without blanks, on one line */
} bite_json_layout;

/** How a result is to be shown. NULL instead of a style: text, metric, 80 columns, no colour. */
typedef struct bite_style {
    uint32_t struct_size;
    uint32_t format;     /**< a bite_format */
    uint32_t units;      /**< a bite_units */
    uint32_t columns;    /**< width of text; 0: 80; otherwise brought within 30 to 400 */
    uint32_t colour;     /**< 1: terminal colours */
    uint32_t ascii;      /**< 1: ASCII characters only */
    uint32_t sources;    /**< 1: write the sources too */
    uint32_t all_limits; /**< 1: write all limits, not only the most important ones */
    uint32_t json;       /**< a bite_json_layout */
    uint32_t reserved;   /**< 0 */
} bite_style;

/** Begins a style: as NULL. Since 0.1. */
BITE_API void bite_style_init_sized(bite_style *style, size_t size);
static inline void bite_style_init(bite_style *style)
{
    bite_style_init_sized(style, sizeof *style);
}

/* ---- what the shop has ----------------------------------------------------------------------- */

/** The tables and plugins that are available. Opaque; immutable once it is open, for any number of
 * threads. */
typedef struct bite_library bite_library;

/** Where a library is read from. Texts are copied. */
typedef struct bite_library_options {
    size_t struct_size;
    const bite_allocator *allocator; /**< copied; NULL: the C library's */
    const char *family_path; /**< folders of plugins, separated by colons, searched first; then
                                those of the environment, that of the user, the installed one */
    const char *table_path;  /**< the same for tables */
} bite_library_options;

/** Begins the options: as NULL. Since 0.1. */
BITE_API void bite_library_options_init_sized(bite_library_options *options, size_t size);
static inline void bite_library_options_init(bite_library_options *options)
{
    bite_library_options_init_sized(options, sizeof *options);
}

/**
 * Finds the tables. Each is read when something in it is first asked for, as a whole or not at all:
 * a fault in a table that was not needed is not reported, except by BITE_LEFT_OUT, which reads all.
 *
 * options: NULL for the defaults. *library: owned, bite_library_close; everything that was made
 * from it must be freed first. A plugin or table that cannot be used is left out and listed in
 * BITE_LEFT_OUT. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_library_open(const bite_library_options *options,
                                                    bite_library **library, bite_error *error);
BITE_API void bite_library_close(bite_library *library);

/** 1: the path leads, through hard or symbolic links, to a table or a plugin in the folders that
 * this library reads; otherwise 0. Since 0.1. */
BITE_API int bite_library_has_file(const bite_library *library, const char *path);

/** The collections of things that a library has. Frozen, append only. */
typedef enum bite_collection {
    BITE_FAMILIES = 0,
    BITE_GRADES = 1,
    BITE_TOOLS = 2,
    BITE_HOLDERS = 3,
    BITE_MACHINES = 4,
    BITE_COOLANTS = 5,
    BITE_HOLDS = 7,        /**< workholding: tapes, glues ... */
    BITE_SYMPTOMS = 8,     /**< what can go wrong, for bite_diagnosis_new */
    BITE_FLUIDS = 9,       /**< coolants, cleaners and removers, by chemical class */
    BITE_SHEETS = 10,      /**< sheet stock as it is sold */
    BITE_TIMES = 11,       /**< measured times of the shop's own jobs */
    BITE_LAYERS = 12,      /**< the layers of a workholding, from the fixture up: tapes, glues */
    BITE_INSTRUMENTS = 13, /**< measuring instruments */
    BITE_DRILLS = 14,      /**< drills by size; a request takes them as tools, too */
    BITE_THREADS = 15,     /**< threads: diameter and pitch */
    BITE_INSERTS = 16,     /**< threaded inserts for plastics */
    BITE_LEFT_OUT = 6 /**< plugins and tables that could not be used; summary gives the reason */
} bite_collection;

/** One thing in a collection. Texts are borrowed until the library is closed. */
typedef struct bite_item {
    const char *name;    /**< as bite_library_show and the others accept it */
    const char *title;   /**< as the trade writes it: "6061-T6" */
    const char *summary; /**< one line */
    const char *file;    /**< the file that it is from */
} bite_item;

/** How many things a collection has; 0 for an unknown collection, and where memory ran out, which
 * bite_library_item reports. Since 0.1. */
BITE_API size_t bite_library_count(const bite_library *library, bite_collection collection);
/** One of them, by index. BITE_BAD_ARGUMENT: no such collection or index. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_library_item(const bite_library *library,
                                                    bite_collection collection, size_t index,
                                                    bite_item *item, bite_error *error);

/** How many tables, and plugins of materials, that a collection is read from were left out. No
 * other table is read; BITE_LEFT_OUT reads all and counts all. *count: written on success only.
 * BITE_BAD_ARGUMENT, BITE_NO_MEMORY. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_library_left_out(const bite_library *library,
                                                        bite_collection collection, size_t *count,
                                                        bite_error *error);

/**
 * Writes a collection as a list: as BITE_TEXT a name and its summary on a line, wrapped to the
 * style's columns ("nothing" for an empty collection); as BITE_JSON an array of objects with the
 * texts name, summary and more, which is the file. Entries are in the order of bite_library_item.
 *
 * library: borrowed. style: NULL is the default style. user: passed to sink. BITE_BAD_ARGUMENT: no
 * library or sink, or a style that is not valid; BITE_CANNOT_WRITE: sink refused the output;
 * BITE_NO_MEMORY; errors of bite_library_item. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_library_list_write(const bite_library *library,
                                                          bite_collection collection,
                                                          const bite_style *style, bite_sink sink,
                                                          void *user, bite_error *error);

/**
 * Reads a tool list: these tools instead of those of the tables, which are then found by name only.
 *
 * path: a table of tools (coolbite-tables(5)), a CSV whose columns are symbols of ISO 13399, or the
 * cutting tools of an asset of MTConnect 2.4. Call it right after bite_library_open, before the
 * library is used. Nothing is taken unless the whole list is sound: BITE_BAD_FILE with file, line,
 * tool and column; BITE_NOT_FOUND. BITE_BAD_ARGUMENT: tools were read already. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_library_use_tools(bite_library *library, const char *path,
                                                         bite_error *error);

/** Which tools are listed. Texts are borrowed during the call. */
typedef struct bite_tool_filter {
    uint32_t struct_size;
    uint32_t reserved;     /**< 0 */
    double diameter_least; /**< m; 0 or NaN: any; the same below */
    double diameter_most;  /**< m */
    const char *kind;      /**< end-mill, ball-nose, bull-nose, chamfer, engraving, drill, tap,
                              reamer or thread-mill; NULL: any */
} bite_tool_filter;

/** Begins a filter: as NULL, any tool. Since 0.1. */
BITE_API void bite_tool_filter_init_sized(bite_tool_filter *filter, size_t size);
static inline void bite_tool_filter_init(bite_tool_filter *filter)
{
    bite_tool_filter_init_sized(filter, sizeof *filter);
}

/**
 * Writes the tools with their sizes: as BITE_TEXT in columns (diameter, flutes, kind, flute length,
 * stick-out; starred where the table states none and the usual length is taken), on a narrow page
 * as sentences; as BITE_JSON an array of objects with name, summary and more (the file), kind, and
 * in m and rad diameter, flutes, flute_length, stickout, corner_radius, taper, pitch_least,
 * pitch_most and full_form; as BITE_CSV with the symbols of ISO 13399 as columns and what the table
 * states.
 *
 * library: borrowed. filter: NULL lists all. BITE_UNKNOWN_NAME: no such kind; the hint names all.
 * Other errors as bite_library_list_write. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_tool_list_write(const bite_library *library,
                                                       const bite_tool_filter *filter,
                                                       const bite_style *style, bite_sink sink,
                                                       void *user, bite_error *error);

/**
 * Writes one thing completely: every figure with band, unit, source, grade and file.
 *
 * Formats: BITE_TEXT, BITE_JSON. A family is opened if it is needed. BITE_UNKNOWN_NAME: no such
 * thing; the hint names the nearest one. BITE_CANNOT_WRITE: the sink refused. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_library_show(const bite_library *library,
                                                    bite_collection collection, const char *name,
                                                    const bite_style *style, bite_sink sink,
                                                    void *user, bite_error *error);

/**
 * Writes two things of one collection side by side, one figure a line, with the differences marked;
 * sources as the style says. Formats and errors as bite_library_show; error names the thing that
 * does not exist. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_library_compare(const bite_library *library,
                                                       bite_collection collection,
                                                       const char *first, const char *second,
                                                       const bite_style *style, bite_sink sink,
                                                       void *user, bite_error *error);

/* ---- threads in a material ------------------------------------------------------------------- */

/** What to do for a thread in a material: tapped, and milled. Unpublished: it may change. */
typedef struct bite_thread_answer bite_thread_answer;

/** How a thread is made. Texts are borrowed during the call. */
typedef struct bite_thread_options {
    uint32_t struct_size;
    uint32_t left_hand;  /**< 1: a left-hand thread; 0: a right-hand one */
    const char *machine; /**< a name of BITE_MACHINES; NULL: the usual one */
    const char *tool;    /**< a thread mill: a name of BITE_TOOLS, or the diameter of a single-point
                            mill; NULL: a single-point mill as large as is advised */
} bite_thread_options;

/** Begins the options: as NULL. Since 0.1. */
BITE_API void bite_thread_options_init_sized(bite_thread_options *options, size_t size);
static inline void bite_thread_options_init(bite_thread_options *options)
{
    bite_thread_options_init_sized(options, sizeof *options);
}

/**
 * Finds out what to do for a thread in a material: tap drill and percent of thread, speed and feed,
 * torque against the strength of the tap, depth, wall, inserts; settings for a thread mill.
 *
 * thread: a name of BITE_THREADS, such as M3 or 1/4-20. material: as bite_request_use takes it.
 * options: NULL: a right-hand thread on the usual machine. *answer: owned, bite_thread_answer_free;
 * it borrows the library until then. BITE_UNKNOWN_NAME: no such thread, material, machine or tool;
 * the hint names the nearest one. BITE_OUT_OF_RANGE: the tool does not mill this thread.
 * BITE_BAD_ARGUMENT, BITE_NO_MEMORY, errors of bite_choice_new. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_thread_answer_new(const bite_library *library,
                                                         const char *thread, const char *material,
                                                         const bite_thread_options *options,
                                                         bite_thread_answer **answer,
                                                         bite_error *error);
BITE_API void bite_thread_answer_free(bite_thread_answer *answer);

/** Writes it, with cautions and sources, as BITE_TEXT or BITE_JSON. Errors as bite_answer_write.
 * Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_thread_answer_write(const bite_thread_answer *answer,
                                                           const bite_style *style, bite_sink sink,
                                                           void *user, bite_error *error);

/* ---- fluids on a material -------------------------------------------------------------------- */

/** What a fluid does to a material. Frozen, append only. */
typedef enum bite_rating {
    BITE_RATED_SAFE = 0,   /**< a wipe or a cut does no harm */
    BITE_RATED_RISK = 1,   /**< it may craze, crack, swell or corrode the part, perhaps later */
    BITE_RATED_NO = 2,     /**< it must not be used */
    BITE_RATED_UNKNOWN = 3 /**< nothing is stated: try it on a stressed strip first */
} bite_rating;

/** The word of a rating: "safe", "risk", "no", "unknown"; NULL: no such rating. Borrowed, for ever.
 * Since 0.1.
 */
BITE_API const char *bite_rating_name(uint32_t rating);

/**
 * A fluid on a material, for every state that the part may be in.
 *
 * Makers rate pieces without stress, which promises less than it seems to: machining leaves stress
 * in edges, holes and threads. Texts are "" if nothing is stated, and borrowed until the library
 * closes.
 */
typedef struct bite_compatibility {
    uint32_t struct_size;
    uint32_t machined;    /**< a bite_rating: milled, drilled or tapped, and not annealed since */
    uint32_t annealed;    /**< the same part annealed after machining, and under no load */
    uint32_t sheet;       /**< a face of sheet as supplied, under no stress */
    uint32_t other;       /**< by a source that disagrees; BITE_RATED_UNKNOWN: none does */
    uint32_t overridden;  /**< machined, by a table later in the search path, which is not used;
                             BITE_RATED_UNKNOWN: there is none */
    const char *fluid;    /**< its name: "isopropanol" */
    const char *title;    /**< "isopropyl alcohol" */
    const char *use;      /**< words separated by blanks: coolant, cleaner, remover, tapping ... */
    const char *hazard;   /**< to people, if it is used at all */
    const char *material; /**< "acrylic/cast" */
    const char *reason;   /**< one line */
    const char *signs;    /**< what to look for */
    const char *source;   /**< "grade: where" of machined and annealed */
    const char *sheet_source;     /**< of sheet */
    const char *other_source;     /**< of other */
    const char *table;            /**< the file of the rating */
    const char *overridden_table; /**< the file of the one that is not used */
    double watch; /**< s after contact in which damage may still appear; NaN: not stated */
} bite_compatibility;

/** Begins a pair that bite_compatibility_find fills. Since 0.1. */
BITE_API void bite_compatibility_init_sized(bite_compatibility *pair, size_t size);
static inline void bite_compatibility_init(bite_compatibility *pair)
{
    bite_compatibility_init_sized(pair, sizeof *pair);
}

/**
 * Rates a fluid on a material.
 *
 * fluid: a name, a title or another name in BITE_FLUIDS; case is ignored, and a blank counts as a
 * hyphen ("IPA", "methylated spirit"). material: as bite_request_use takes it. result: its
 * struct_size is set by the caller. A pair of which nothing is known is not an error: its ratings
 * are BITE_RATED_UNKNOWN. BITE_UNKNOWN_NAME: no such fluid or material; the hint names the nearest
 * one. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_compatibility_find(const bite_library *library,
                                                          const char *fluid, const char *material,
                                                          bite_compatibility *result,
                                                          bite_error *error);

/** Writes that as BITE_TEXT, BITE_JSON or BITE_CSV, with the fluids that are safe instead. Errors
 * as bite_compatibility_find and bite_answer_write. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_compatibility_write(const bite_library *library,
                                                           const char *fluid, const char *material,
                                                           const bite_style *style, bite_sink sink,
                                                           void *user, bite_error *error);

/** Writes a table of all fluids on a material, the refused ones first: fluid, use, rating, reason.
 * Formats and errors as bite_compatibility_write. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_compatibility_list_write(const bite_library *library,
                                                                const char *material,
                                                                const bite_style *style,
                                                                bite_sink sink, void *user,
                                                                bite_error *error);

/**
 * Adds a table from memory, as if it were the file `name` in a folder that comes first on the
 * search path.
 *
 * name: as below a folder of tables, "materials/soap.ini" or "tools.ini"; faults name it, not a
 * path. text: size bytes, copied. The table is checked as a file is: every fault goes to `fault`
 * (may be NULL), the first to error with its line and key, and of a faulty table nothing is taken.
 * What a grade of it is like is looked up when it is first used. Call it before any table of that
 * name is used; of several of one name the last comes first. BITE_BAD_ARGUMENT: no library, name or
 * text, a name that no table has, or too late. BITE_BAD_FILE, BITE_NO_MEMORY. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_library_add_table(bite_library *library, const char *name,
                                                         const char *text, size_t size,
                                                         bite_fault_sink fault, void *user,
                                                         bite_error *error);

/* ---- a judged cut ---------------------------------------------------------------------------- */

/** A request: the flat numbers of one cut, and where each came from. For one thread at a time while
 * it is being changed. */
typedef struct bite_request bite_request;

/** An empty request. *request: owned, bite_request_free. It borrows the library until then. Since
 * 0.1. */
BITE_CHECKED BITE_API bite_status bite_request_new(const bite_library *library,
                                                   bite_request **request, bite_error *error);
BITE_API void bite_request_free(bite_request *request);

/**
 * Selects a thing by name: BITE_GRADES "acrylic/cast", BITE_TOOLS "1/32in" (a diameter stands for a
 * plain tool), BITE_MACHINES ...
 *
 * Collections: BITE_FAMILIES or BITE_GRADES, BITE_TOOLS, BITE_HOLDERS, BITE_MACHINES,
 * BITE_COOLANTS, BITE_HOLDS; BITE_BAD_ARGUMENT for the others. A second thing of a collection
 * replaces the first. BITE_UNKNOWN_NAME: the hint names the nearest one. For a grade also the
 * errors of its plugin. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_request_use(bite_request *request,
                                                   bite_collection collection, const char *name,
                                                   bite_error *error);

/**
 * Sets an input from text ("0.02mm/tooth", "45m/min", "climb"); it counts as given.
 *
 * An input that depends on others (feed per tooth: on flutes and spindle speed) is converted when
 * the request is evaluated, so the order of the calls does not matter. Errors as
 * bite_quantity_read; BITE_UNKNOWN_NAME: no such input, or no such word of it; the hint names the
 * nearest one. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_request_set(bite_request *request, const char *input,
                                                   const char *text, bite_error *error);

/** Sets an input to a number in its SI unit (bite_input.unit), as bite_request_set does with the
 * same quantity as text; it counts as given. A spindle speed is in 1/s, a feed rate in m/s.
 * BITE_UNKNOWN_NAME: there is no such input; BITE_BAD_ARGUMENT: it takes a word;
 * BITE_BAD_QUANTITY: not a finite number; BITE_OUT_OF_RANGE: outside least to most of the input. On
 * an error the request stays as it was. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_request_set_number(bite_request *request, const char *input,
                                                          double si, bite_error *error);

/** How many threads an answer, a choice or a window of this request may use while it is made: 1 to
 * 16, initially 1. The threads end before the call returns, block all signals, and do not change
 * any number. BITE_OUT_OF_RANGE: another number. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_request_threads(bite_request *request, size_t threads,
                                                       bite_error *error);

/**
 * Sets inputs and records from a JSON object, whose keys are the columns of cases: an input by
 * name, also with a unit in brackets ("depth [mm]"), or material, tool, holder, machine, hold or
 * thread.
 *
 * A value is a text as bite_request_set and bite_request_use take it; a number where the key names
 * the unit, or none is needed; true and false are yes and no; null is not given. id and note are
 * passed over. text: `length` bytes, at most 1 MiB. BITE_BAD_FILE: not JSON, or not an object of
 * such members; BITE_OUT_OF_RANGE: too long; else errors of those calls. error.key: the key at
 * fault; error.line and error.column: where it is in the text. On an error the request stays as it
 * was. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_request_json(bite_request *request, const char *text,
                                                    size_t length, bite_error *error);

/** The flat numbers that would be used, defaults included. *cut is written completely, to its size.
 * BITE_MISSING: no material, no tool or another input without which there are no numbers. Since
 * 0.1. */
BITE_CHECKED BITE_API bite_status bite_request_cut_sized(const bite_request *request, bite_cut *cut,
                                                         size_t size, bite_error *error);
BITE_CHECKED static inline bite_status bite_request_cut(const bite_request *request, bite_cut *cut,
                                                        bite_error *error)
{
    return bite_request_cut_sized(request, cut, sizeof *cut, error);
}

/** A judged cut. */
typedef struct bite_answer bite_answer;

/** As a number of draws: none. Best estimates only, verdicts from utilization. */
#define BITE_DRAWS_NONE 1

/**
 * Judges a request.
 *
 * draws: 0 for the default number, BITE_DRAWS_NONE, or as bite_cut_band; confidence: 0 for 0.90, or
 * as there.
 * *answer: owned, bite_answer_free; it may outlive the request, but not the library. Errors as
 * bite_request_cut and bite_cut_band, and BITE_BAD_PLUGIN if the plugin of the family fails. Since
 * 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_answer_new(const bite_request *request, size_t draws,
                                                  double confidence, bite_answer **answer,
                                                  bite_error *error);
BITE_API void bite_answer_free(bite_answer *answer);
/** The numbers of the answer. Borrowed until the answer is freed, as everything here. Since 0.1. */
BITE_API const bite_result *bite_answer_result(const bite_answer *answer);

/** A caution of an answer. Texts are borrowed until the answer is freed. */
typedef struct bite_caution {
    const char *name;   /**< [a-z0-9_]+, stable */
    const char *text;   /**< sentences, with their numbers in metric units */
    const char *source; /**< "grade: where" */
    uint32_t severity;  /**< 1: note, 2: care, 3: danger */
    uint32_t reserved;
} bite_caution;

/** How many cautions an answer has. Since 0.1. */
BITE_API size_t bite_answer_caution_count(const bite_answer *answer);
/** One of them, by index. BITE_BAD_ARGUMENT: no such index. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_answer_caution(const bite_answer *answer, size_t index,
                                                      bite_caution *caution, bite_error *error);
/** What helps with a limit in this cut; "" if there is no advice. Since 0.1. */
BITE_API const char *bite_answer_advice(const bite_answer *answer, bite_limit_id limit);

/** Where the number of an input came from. Frozen, append only. */
typedef enum bite_origin {
    BITE_ORIGIN_NONE = 0,    /**< not given and without a default: stays open */
    BITE_ORIGIN_USER = 1,    /**< the request */
    BITE_ORIGIN_TABLE = 2,   /**< the record of a tool, machine, coolant or grade */
    BITE_ORIGIN_DEFAULT = 3, /**< the usual one */
    BITE_ORIGIN_SHOP = 4     /**< the shop's own set-up */
} bite_origin;

/** An input as an answer used it. Texts are borrowed until the library is closed. */
typedef struct bite_used_input {
    uint32_t struct_size;
    uint32_t input;     /**< its bite_input index */
    uint32_t origin;    /**< a bite_origin */
    uint32_t word;      /**< of an input that takes words: which one */
    const char *name;   /**< "stickout" */
    const char *unit;   /**< SI; "" of a number without one, and of a word */
    const char *text;   /**< the word; "" of a number */
    const char *grade;  /**< of the source: "standard", "paper", "memory" ...; "" if it was given */
    const char *source; /**< where the number stands, or from what it follows; "" */
    const char *file;   /**< the table; "" */
    double value;       /**< SI; NaN: a word, or not given and without a number */
    double low;         /**< 5 % end of its band, value itself if it is exact */
    double high;        /**< 95 % */
} bite_used_input;

/** Begins an input that bite_answer_input fills. Since 0.1. */
BITE_API void bite_used_input_init_sized(bite_used_input *used, size_t size);
static inline void bite_used_input_init(bite_used_input *used)
{
    bite_used_input_init_sized(used, sizeof *used);
}

/** How many inputs an answer used, in the order of the list of inputs. 0: no answer. Since 0.1. */
BITE_API size_t bite_answer_input_count(const bite_answer *answer);
/** One of them, by index. used: begun with bite_used_input_init. BITE_BAD_ARGUMENT: no such index.
 * Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_answer_input(const bite_answer *answer, size_t index,
                                                    bite_used_input *used, bite_error *error);
/** One of them, by name. BITE_UNKNOWN_NAME: there is no such input; the hint names the nearest one.
 * BITE_MISSING: the answer used none of that name. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_answer_input_find(const bite_answer *answer,
                                                         const char *name, bite_used_input *used,
                                                         bite_error *error);

/** The record that an answer used: the name of its grade (BITE_GRADES), family, tool, drill or the
 * diameter by which it was named, holder, machine, hold or thread. NULL: none, or a collection that
 * an answer does not use. Borrowed until the answer is freed. Since 0.1. */
BITE_API const char *bite_answer_record(const bite_answer *answer, bite_collection collection);

/** A figure without which a limit of this answer could not be judged (bite_result.not_judged counts
 * these limits); index from 0. NULL: there are no more. Borrowed, for ever. Since 0.1. */
BITE_API const char *bite_answer_missing_figure(const bite_answer *answer, size_t index);

/** Where a number came from, with its grade: by the name of an input, a value or a limit. Since
 * 0.1. */
BITE_API const char *bite_answer_source(const bite_answer *answer, const char *name);

/** Writes the answer as BITE_TEXT or BITE_JSON. style: NULL for the defaults. BITE_BAD_ARGUMENT: a
 * style or format that is not valid here; BITE_CANNOT_WRITE: the sink refused. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_answer_write(const bite_answer *answer,
                                                    const bite_style *style, bite_sink sink,
                                                    void *user, bite_error *error);

/**
 * Runs the self-tests of a family, [case.NAME] in its tables (coolbite-tables(5)): each is judged
 * with the usual draws, and its verdict and numbers are compared with what it expects.
 *
 * family: as bite_request_use takes a material. Each number that is beyond what was expected, and
 * each case that cannot be judged, goes to `fault` (may be NULL) with file, line and key, the first
 * to error with their count. *cases: how many there are; not written on other errors.
 * BITE_BAD_FILE: some expectation was not met. BITE_BAD_ARGUMENT, BITE_NO_MEMORY; errors of
 * bite_request_use for the family. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_library_check_family(const bite_library *library,
                                                            const char *family,
                                                            bite_fault_sink fault, void *user,
                                                            size_t *cases, bite_error *error);

/** What a file is to an audit. Frozen, append only. */
typedef enum bite_audit_kind {
    BITE_AUDIT_OTHER = 0, /**< neither: a job, a record, a shop's set-up; it was not judged */
    BITE_AUDIT_TABLE = 1,
    BITE_AUDIT_PLUGIN = 2
} bite_audit_kind;

/** Hears what is done next, before code of a plugin may run: "opening the plugin", "completing
 * acrylic/cast". The text is borrowed for the call. */
typedef void (*bite_audit_stage)(void *user, const char *doing);

/** How a file is audited. Borrowed during the call. */
typedef struct bite_audit_options {
    uint32_t struct_size;
    uint32_t reserved;                   /**< 0 */
    const bite_library_options *library; /**< the tables and plugins beside it; NULL: the usual */
    bite_fault_sink fault;               /**< hears every fault; may be NULL */
    bite_audit_stage stage;              /**< may be NULL */
    void *user;                          /**< of both */
} bite_audit_options;

/** Begins the options: as NULL. Since 0.1. */
BITE_API void bite_audit_options_init_sized(bite_audit_options *options, size_t size);
static inline void bite_audit_options_init(bite_audit_options *options)
{
    bite_audit_options_init_sized(options, sizeof *options);
}

/** What an audit has judged. */
typedef struct bite_audit {
    uint32_t struct_size;
    uint32_t kind;       /**< a bite_audit_kind */
    uint32_t grades;     /**< that were opened */
    uint32_t cases;      /**< self-tests that were run */
    uint32_t cuts;       /**< trial cuts that were judged */
    uint32_t unfinished; /**< grades that lack a figure for every trial cut; no fault by itself */
} bite_audit;

/** Begins a result. Since 0.1. */
BITE_API void bite_audit_init_sized(bite_audit *audit, size_t size);
static inline void bite_audit_init(bite_audit *audit)
{
    bite_audit_init_sized(audit, sizeof *audit);
}

/**
 * Judges a table or a plugin before it is trusted, with every fault at once.
 *
 * path: a table of any kind (*.ini) wherever it lies, or a plugin FAMILY.so. A table is checked by
 * itself, then as the first of the search path: names, units, ranges, physical bounds, sources,
 * what its grades are like, its self-tests; each grade and record is tried in a few cuts. A plugin
 * is loaded, which runs its code in this process, with rights and faults: a program that does not
 * trust it calls this in a child process. options: NULL for the usual ones. *audit: begun by its
 * _init; written unless the arguments are wrong, also on errors.
 *
 * BITE_OK: sound, or of another kind. BITE_BAD_FILE: some fault was told; error is the first, with
 * their number. BITE_NOT_FOUND, BITE_IO: the file cannot be read; BITE_BAD_ARGUMENT,
 * BITE_NO_MEMORY. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_audit_file(const char *path,
                                                  const bite_audit_options *options,
                                                  bite_audit *audit, bite_error *error);

/* ---- cases: many requests as lines of text --------------------------------------------------- */

/** Another name of an input, for columns. Texts are borrowed as long as the cases exist. */
typedef struct bite_case_word {
    const char *word;
    const char *input;
} bite_case_word;

/** How cases are read and written. Zeros are the usual choice. Arrays and texts, except those of
 * words, are borrowed until the cases are freed. */
typedef struct bite_case_options {
    uint32_t struct_size;
    uint32_t format;     /**< BITE_CSV with a first line of names, or BITE_JSON: an object a line */
    uint32_t units;      /**< a bite_units, of the results as CSV; as JSON they are SI */
    uint32_t reserved;   /**< 0 */
    size_t draws;        /**< 0 or BITE_DRAWS_NONE: none, verdicts from utilization */
    double confidence;   /**< 0: 0.90; otherwise as bite_cut_band */
    size_t threads;      /**< 0 counts as 1; at most 16 are used */
    size_t result_count; /**< at most 64 */
    /** verdict, chance, worst_limit, worst_utilization, an input (as used), a value (NAME.low and
     * NAME.high are its band), a limit (its utilization; NAME.chance); NULL: a usual set */
    const char *const *results;
    const bite_case_word *words; /**< NULL: none */
    size_t word_count;
    /** Called for each row that is refused, after the row has been written; error.line is its line.
     * NULL: nobody asks. It runs in the thread that pushes. */
    void (*refused)(void *user, const bite_error *error);
    void *refused_user;
    const volatile int *stop; /**< NULL, or a flag as of bite_batch_run */
} bite_case_options;

/** Begins the options; the format must be set. Since 0.1. */
BITE_API void bite_case_options_init_sized(bite_case_options *options, size_t size);
static inline void bite_case_options_init(bite_case_options *options)
{
    bite_case_options_init_sized(options, sizeof *options);
}

/** What became of the rows so far. */
typedef struct bite_case_summary {
    uint32_t struct_size;
    uint32_t reserved;
    uint64_t rows;        /**< read, those that were refused included */
    uint64_t refused;     /**< without a result */
    uint64_t verdicts[5]; /**< rows of each bite_verdict */
} bite_case_summary;

/** Begins a summary that bite_cases_summary fills. Since 0.1. */
BITE_API void bite_case_summary_init_sized(bite_case_summary *summary, size_t size);
static inline void bite_case_summary_init(bite_case_summary *summary)
{
    bite_case_summary_init_sized(summary, sizeof *summary);
}

/** Rows of text that become rows of results, in their order and in constant memory. Opaque; for one
 * thread at a time. */
typedef struct bite_cases bite_cases;

/**
 * Prepares cases that are like a request, except for what their columns say.
 *
 * A column is an input by name, with its unit in brackets after it ("depth [mm]") or in each field;
 * a record (material, tool, holder, machine, hold, thread); or id or note, which are only copied.
 * An empty field or a JSON null is not given. request: copied; its library is borrowed until the
 * cases are freed. sink: gets whole rows: the text of the row, then the results, and in the last
 * column `fault` (as JSON a member of a refused row alone) what was wrong. *cases: owned,
 * bite_cases_free. BITE_BAD_ARGUMENT, BITE_UNKNOWN_NAME: of a result; the hint names the nearest
 * one. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_cases_new(const bite_request *request,
                                                 const bite_case_options *options, bite_sink sink,
                                                 void *user, bite_cases **cases, bite_error *error);

/** Takes the next piece of text, which may end anywhere. A row that cannot be judged has a fault
 * and spoils no other. BITE_BAD_FILE: the first line of a CSV, with line and key;
 * BITE_CANNOT_WRITE; BITE_STOPPED; BITE_NO_MEMORY: after any of them only bite_cases_free is left.
 * Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_cases_push(bite_cases *cases, const char *text, size_t size,
                                                  bite_error *error);
/** Judges what is left. Errors as bite_cases_push. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_cases_end(bite_cases *cases, bite_error *error);
/** What became of the rows so far; struct_size is set by the caller. Since 0.1. */
BITE_API void bite_cases_summary(const bite_cases *cases, bite_case_summary *summary);
BITE_API void bite_cases_free(bite_cases *cases); /* NULL is allowed */

/* ---- the shop's own set-up ---------------------------------------------------------------------
 */

/** What a shop has and prefers, from coolbite.ini: what is used where nothing else is stated. The
 * library reads it only when it is asked to. */
typedef struct bite_shop bite_shop;

/**
 * Reads a set-up (coolbite-shop(5)).
 *
 * path: NULL is the user's own, which the environment variable COOLBITE_CONFIG names ("none":
 * none), else $XDG_CONFIG_HOME/coolbite/coolbite.ini or ~/.config/coolbite/coolbite.ini; if there
 * is no such file the set-up states nothing. The environment is ignored in a process that has more
 * rights than its caller. *shop: owned, bite_shop_free. BITE_BAD_FILE with file, line and key;
 * BITE_NOT_FOUND: a file that was named is not there. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_shop_open(const char *path, bite_shop **shop,
                                                 bite_error *error);
BITE_API void bite_shop_free(bite_shop *shop);

/** Path of its file; "" if there is none. Borrowed until the set-up is freed. Since 0.1. */
BITE_API const char *bite_shop_path(const bite_shop *shop);

/** What it states for units, machine, coolant, at_hand, hold, tolerance, confidence, instruments or
 * tool_list (as a path that can be opened); NULL: nothing, or no such key. Borrowed until the
 * set-up is freed. Since 0.1.
 */
BITE_API const char *bite_shop_text(const bite_shop *shop, const char *key);

/** The number that it states for tolerance (m) or confidence; NaN: none. Since 0.1. */
BITE_API double bite_shop_number(const bite_shop *shop, const char *key);

/** The line of a key in its file; 0: not stated. Since 0.1. */
BITE_API size_t bite_shop_line(const bite_shop *shop, const char *key);

/** The index-th tool at hand, a name or a diameter; NULL: no more. Borrowed until the set-up is
 * freed. Since 0.1. */
BITE_API const char *bite_shop_tool(const bite_shop *shop, size_t index);

/** Whether a library has the machine, the workholding and the tools at hand. BITE_BAD_FILE with
 * file, line and key of the first that it has not; errors of the tables. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_shop_check(const bite_shop *shop,
                                                  const bite_library *library, bite_error *error);

/**
 * Uses machine, coolant, hold and tolerance of a set-up in a request that states nothing yet; what
 * is set or used afterwards replaces them. Answers list what remains as taken from the set-up.
 *
 * shop: borrowed until the request and all that was made of it are freed. Errors as
 * bite_shop_check. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_request_use_shop(bite_request *request,
                                                        const bite_shop *shop, bite_error *error);

/** Notes that the caller took the value of a key from the set-up (units, at_hand, confidence), so
 * that answers list it. BITE_BAD_ARGUMENT: the request uses no set-up which states it. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_request_take_from_shop(bite_request *request,
                                                              const char *key, bite_error *error);

/* ---- which settings to enter ----------------------------------------------------------------- */

/** What the best settings are best at; all of them keep within the limits. The goals cool and
 * fine count as met at half of the capacity of their limit, gentle at four fifths of every capacity
 * at the confidence, or, if that is not possible, at nearly the best that is; among the settings
 * that meet them the fastest are chosen. */
typedef enum bite_goal {
    BITE_GOAL_USUAL = 0,  /**< cool in plastics that melt, otherwise fast */
    BITE_GOAL_GENTLE = 1, /**< smallest utilization of the limit that is used most */
    /** smallest error of the wall and smallest roughness, each relative to its capacity */
    BITE_GOAL_FINE = 2,
    BITE_GOAL_FAST = 3, /**< largest removal rate */
    BITE_GOAL_COOL = 4, /**< smallest temperature rise of the surface that is left */
    BITE_GOAL_COUNT     /**< of this header */
} bite_goal;

/** How thoroughly the best settings are searched for. */
typedef enum bite_effort_kind {
    BITE_EFFORT_WHOLE = 0,
    BITE_EFFORT_QUICK = 1 /**< a tenth of the time: a coarse grid, without the active limits and
                             without the best single change */
} bite_effort_kind;

/** The best settings for a cut, with the judged cut at these settings. */
typedef struct bite_choice bite_choice;

/** What is searched for. Arrays and texts are borrowed during the call. */
typedef struct bite_choice_options {
    uint32_t struct_size;
    uint32_t goal;            /**< a bite_goal */
    uint32_t units;           /**< a bite_units: settings are rounded to what is entered in them */
    uint32_t effort;          /**< a bite_effort_kind */
    const char *const *tools; /**< names or diameters to choose from; NULL: the tool of the request;
                                 "any": all of the tool table */
    size_t tool_count;        /**< at most 1024; no element may be NULL */
    size_t draws;             /**< as bite_answer_new */
    double confidence;        /**< as bite_answer_new */
    const double *steps; /**< 1/s, each within the range of spindle_speed: the only speeds that the
                            spindle has (belts, gears); NULL: any speed */
    size_t step_count;   /**< at most 1024 */
    uint32_t beyond_charts; /**< 1: feed per tooth and edge speed may exceed published values */
    uint32_t reserved;      /**< 0 */
    bite_progress progress; /**< NULL: nobody hears of it */
    void *progress_user;
} bite_choice_options;

/** Begins the options: the usual goal, the tool of the request. Since 0.1. */
BITE_API void bite_choice_options_init_sized(bite_choice_options *options, size_t size);
static inline void bite_choice_options_init(bite_choice_options *options)
{
    bite_choice_options_init_sized(options, sizeof *options);
}

/**
 * Finds the spindle speed and the feed rate and, over the depth and width of a feature, the number
 * of passes.
 *
 * What the request has set is kept. Free are the spindle speed, the feed rate (or the feed per
 * tooth), the depth of a pass if feature_depth is set and depth is not, and its width if
 * feature_width is set and width is not. The feed per tooth that is chosen is at most the largest
 * published one (charted_chip), and the edge no faster than tool_speed_limit, unless beyond_charts
 * is set; for settings of the request both are advisory only. All limits together keep the
 * confidence: the worst utilization of each draw, at that quantile, is at most 1. If no settings
 * are clear, the result is the least bad one: its verdict says so, and the limits that conflict are
 * named, with the smallest change of one input that makes some clear (bite_choice_freed_by), which
 * takes several times as long. *choice: owned, bite_choice_free; it must not outlive the library.
 * options: NULL: the usual ones. Errors as bite_answer_new; BITE_OUT_OF_RANGE for a step;
 * BITE_NO_ANSWER: no tool of the table can make this cut. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_choice_new(const bite_request *request,
                                                  const bite_choice_options *options,
                                                  bite_choice **choice, bite_error *error);
BITE_API void bite_choice_free(bite_choice *choice);

/** The judged cut at the chosen settings. Borrowed until the choice is freed. Since 0.1. */
BITE_API const bite_answer *bite_choice_answer(const bite_choice *choice);

/** Number of passes over the depth of the feature; 1 if no such depth was given. Since 0.1. */
BITE_API size_t bite_choice_passes(const bite_choice *choice);

/** Number of passes side by side over the width of the feature, at each depth; 1 if no such width
 * was given. Since 0.1. */
BITE_API size_t bite_choice_side_passes(const bite_choice *choice);

/** The tool that was chosen: its name in the tables, or the diameter by which it was named. ""
 * without a choice. Borrowed until the choice is freed. Since 0.1. */
BITE_API const char *bite_choice_tool(const bite_choice *choice);

/** The index-th pass over the depth, from 0: it goes from *from to *to, m below the top of the
 * feature. Passes are equal, except that the last one ends at the depth of the feature. Returns 1;
 * 0 if there is no such pass, and nothing is written. Since 0.1. */
BITE_API int bite_choice_pass(const bite_choice *choice, size_t index, double *from, double *to);
/** The same over the width, at each depth; m from the side where the first one begins. 0 also if
 * the cut has no width of its own (a drill). Since 0.1. */
BITE_API int bite_choice_side_pass(const bite_choice *choice, size_t index, double *from,
                                   double *to);

/**
 * The index-th limit that restricts the choice. Returns 1; 0 if there is no such limit.
 *
 * *gain: what one percent more capacity of it gains, in percent of the goal, or of the removal rate
 * once the goal is met. *limit: BITE_LIMIT_LARGEST_TOOTH stands for the largest feed per tooth that
 * may be chosen, BITE_LIMIT_GOAL for the goal itself. Since 0.1.
 */
BITE_API int bite_choice_active_limit(const bite_choice *choice, size_t index, bite_limit_id *limit,
                                      double *gain);

/**
 * A change of one input with which there are clear settings, if there are none without it: index 0
 * is the smallest change of a number, or of the tool to another of the table, by the ratio of new
 * to old; index 1 another coolant or workholding. Each was verified by a search with the change.
 *
 * *input: the name of an input, "tool", "hold" or "confidence"; *to: what to set it to, as
 * bite_request_set and bite_request_use accept it ("38 mm"). Borrowed until the choice is freed.
 * Returns 1; 0 if there is no such change, or effort was BITE_EFFORT_QUICK. Since 0.1.
 */
BITE_API int bite_choice_freed_by(const bite_choice *choice, size_t index, const char **input,
                                  const char **to);

/** Writes the choice with the limits that restrict it. Formats and errors as bite_answer_write.
 * Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_choice_write(const bite_choice *choice,
                                                    const bite_style *style, bite_sink sink,
                                                    void *user, bite_error *error);

/** The word of a goal; NULL: no such goal. Borrowed, for ever. Since 0.1. */
BITE_API const char *bite_goal_word(uint32_t goal);
static inline const char *bite_goal_name(uint32_t goal)
{
    return bite_goal_word(goal);
}

/* ---- what went wrong ------------------------------------------------------------------------- */

/** After a problem: what in the settings explains it, and which single change to try first. */
typedef struct bite_diagnosis bite_diagnosis;

/**
 * Examines the judged cut that caused a problem.
 *
 * symptom: a name, a title or another name in BITE_SYMPTOMS ("melted-edge", "melted"). Changes are
 * ranked by the chance that they leave that a limit of the symptom is exceeded, from the draws of
 * the answer; of changes that leave the same, and without draws, by what they leave of its limits'
 * utilization. A change that would exceed another limit is not proposed.
 * *diagnosis: owned, bite_diagnosis_free; it borrows the answer until then. BITE_UNKNOWN_NAME: no
 * such symptom; the hint names the nearest one. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_diagnosis_new(const bite_answer *answer, const char *symptom,
                                                     bite_diagnosis **diagnosis, bite_error *error);
BITE_API void bite_diagnosis_free(bite_diagnosis *diagnosis);

/** Writes the diagnosis. Formats and errors as bite_answer_write. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_diagnosis_write(const bite_diagnosis *diagnosis,
                                                       const bite_style *style, bite_sink sink,
                                                       void *user, bite_error *error);

/* ---- the operating window: where each limit lies --------------------------------------------- */

/** A map over two inputs of where each limit is kept. */
typedef struct bite_window bite_window;

/** The axes and the grid of a window. Texts are borrowed during the call. */
typedef struct bite_window_options {
    uint32_t struct_size;
    uint32_t columns;    /**< grid points across, 2 to 401; 0: 97; an input that is a count has one
                            point for each whole number */
    uint32_t rows;       /**< grid points up; 0: 73 */
    uint32_t reserved;   /**< 0 */
    const char *across;  /**< an input that is a number; NULL: spindle_speed */
    const char *up;      /**< another one; NULL: feed_rate */
    double across_least; /**< SI; NaN, or 0 at both ends: from the machine, or around the point in
                            use */
    double across_most;  /**< the same */
    double up_least;     /**< the same */
    double up_most;      /**< the same */
    bite_progress progress; /**< NULL: nobody hears of it */
    void *progress_user;
} bite_window_options;

/** Begins the options: spindle speed against feed rate. Since 0.1. */
BITE_API void bite_window_options_init_sized(bite_window_options *options, size_t size);
static inline void bite_window_options_init(bite_window_options *options)
{
    bite_window_options_init_sized(options, sizeof *options);
}

/**
 * Computes the pass at every point of a grid around a judged cut, which is the point in use.
 *
 * Bands are computed from draws at 9 x 7 points of the grid and interpolated linearly between them;
 * they are those of each limit alone. *window: owned, bite_window_free; it borrows the answer until
 * then. BITE_UNKNOWN_NAME, BITE_BAD_ARGUMENT: not an input that an axis can show; BITE_MISSING: the
 * input of an axis has no number in the answer. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_window_new(const bite_answer *answer,
                                                  const bite_window_options *options,
                                                  bite_window **window, bite_error *error);
BITE_API void bite_window_free(bite_window *window);

/** Writes the picture as BITE_SVG, for a terminal as BITE_TEXT, or for a tablet as BITE_HTML (a
 * page that reads every limit at any place of the grid and needs no network), and its numbers as
 * BITE_CSV or BITE_JSON. Errors as bite_answer_write. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_window_write(const bite_window *window,
                                                    const bite_style *style, bite_sink sink,
                                                    void *user, bite_error *error);

/* ---- a whole job ----------------------------------------------------------------------------- */

/** A planned job file: stock, warp, passes with their settings, tools, workholding, fluids, time.
 * Unpublished: it may change. */
typedef struct bite_job bite_job;

/** How a job is planned. */
typedef struct bite_job_options {
    uint32_t struct_size;
    uint32_t units;       /**< a bite_units, if the file states none */
    uint32_t units_given; /**< 1: units overrides what the file states */
    uint32_t threads;     /**< as bite_request_threads; 0 is 1 */
    size_t draws;         /**< as bite_answer_new */
    double confidence;    /**< as bite_answer_new */
    uint32_t windows;     /**< 1: with the operating windows that BITE_HTML shows; 0: without */
    uint32_t reserved;    /**< 0 */
    /** what is used where the file states nothing (machine, coolant, at_hand, hold, tolerance,
     * instruments, units); NULL: none. Borrowed until the job is freed. */
    const struct bite_shop *shop;
    bite_progress progress; /**< NULL: nobody hears of it */
    void *progress_user;
} bite_job_options;

/** Begins the options. Since 0.1. */
BITE_API void bite_job_options_init_sized(bite_job_options *options, size_t size);
static inline void bite_job_options_init(bite_job_options *options)
{
    bite_job_options_init_sized(options, sizeof *options);
}

/**
 * Reads and plans a job file. What it leaves out is chosen, and listed among the remarks.
 *
 * Every fault of the file is reported to `fault` (may be NULL), the first one also to error, with
 * their number: BITE_BAD_FILE. BITE_NOT_FOUND: no such file. *job: owned, bite_job_free; it must
 * not outlive the library. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_job_open(const bite_library *library, const char *path,
                                                const bite_job_options *options,
                                                bite_fault_sink fault, void *user, bite_job **job,
                                                bite_error *error);
BITE_API void bite_job_free(bite_job *job);

/** The worst verdict of its passes, its workholding and its fluids. Since 0.1. */
BITE_API bite_verdict bite_job_verdict(const bite_job *job);

/** The plan as BITE_TEXT, BITE_JSON, or BITE_HTML: one page to print for each setup. Errors as
 * bite_answer_write. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_job_write(const bite_job *job, const bite_style *style,
                                                 bite_sink sink, void *user, bite_error *error);

/**
 * Records how long a job took, in s, in the user's own table of times; later plans are corrected by
 * it.
 *
 * A second time for exactly the same title replaces the first; everything else in the table is
 * kept. BITE_CANNOT_WRITE: the table cannot be written, or is full (the hint says what to do);
 * BITE_OUT_OF_RANGE: the title is longer than 980 bytes; BITE_BUSY: another program is using the
 * table; BITE_BAD_FILE: it is damaged. In all of these cases the table is unchanged. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_job_time_add(const bite_job *job, double seconds,
                                                    bite_error *error);
/** Removes the time of a job with this title from that table. BITE_UNKNOWN_NAME: none is recorded;
 * otherwise as bite_job_time_add. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_job_time_remove(const bite_job *job, bite_error *error);

/** Writes two cuts side by side: which inputs differ, and which limits change. Formats and errors
 * as bite_answer_write. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_answer_compare(const bite_answer *first,
                                                      const bite_answer *second,
                                                      const bite_style *style, bite_sink sink,
                                                      void *user, bite_error *error);

/* ---- what was measured ----------------------------------------------------------------------- */

/**
 * A record of readings (coolbite-record(5)): a head that says what is measured, and lines that are
 * only ever appended. Several programs may append to one at the same time; a handle sees what
 * others have appended whenever it appends itself. For one thread at a time.
 */
typedef struct bite_record bite_record;

/** What is measured on each part. Texts are borrowed until the record is freed, "" if they are not
 * stated. Lengths in m; NaN: not stated. */
typedef struct bite_characteristic {
    uint32_t number;   /**< from 1, as in the job's inspection plan */
    uint32_t measures; /**< 0 thickness, 1 outside, 2 inside, 3 depth, 4 height, 5 flatness, 6 gap,
                          7 thread, 8 appearance, 9 stress, 10 not stated */
    uint32_t judged;   /**< 1: accepted or rejected, has no number */
    uint32_t every;    /**< measured on each so many parts, the first and the last; at least 1 */
    uint32_t pass;     /**< number of the pass of the plan that makes the size; 0: not stated */
    uint32_t reserved;
    const char *what;
    const char *zone;
    const char *designator;
    const char *note;
    const char *limits_from;      /**< "stated", "ISO 2768-1 m" ... */
    const char *instrument;       /**< name in the tables; "" */
    const char *instrument_title; /**< for people */
    const char *pass_title;
    const char *tool;
    double nominal;
    double lower;
    double upper;
    double uncertainty; /**< standard, of one reading; NaN: not known */
    double resolution;
    double instrument_expansion; /**< 1/K */
    double expansion;            /**< of the part's material, 1/K */
    double expansion_spread;     /**< its standard uncertainty */
    double pressed;              /**< by which the instrument's force changes the reading; 0 */
    double wall_error;           /**< predicted for that pass, best estimate, and its band */
    double wall_error_low;
    double wall_error_high;
} bite_characteristic;

/** Whether a reading counts. Frozen, append only. */
typedef enum bite_reading_state {
    BITE_READING_STANDS = 0,
    BITE_READING_REPLACED = 1,  /**< a later line corrects it; it stays in the file */
    BITE_READING_WITHDRAWN = 2, /**< undone */
    BITE_READING_SKIPPED = 3    /**< no value: the person passed over it, with the reason in note */
} bite_reading_state;

/** One reading of a record, or a characteristic that was skipped. Texts are borrowed until the
 * record is freed. */
typedef struct bite_reading {
    uint64_t line;           /**< of the file, from 1 */
    uint64_t replaces;       /**< line of the reading that it corrects; 0 */
    uint64_t closed_by;      /**< line that corrects or withdraws it; 0 */
    uint32_t characteristic; /**< index into characteristics */
    uint32_t part;           /**< 1, 2 ... */
    uint32_t trial;          /**< 1, 2 ...: repeats of one person on one part; 0: skipped */
    uint32_t state;          /**< a bite_reading_state */
    uint32_t corrected;      /**< 1: value_20 is corrected to 20 degC; 0: it is the value itself */
    uint32_t reserved;
    const char *text;   /**< the value as it was typed, with its unit; "" if it was skipped */
    const char *person; /**< "" */
    const char *note;   /**< "" */
    double value;       /**< as read, m (a judged one: 1 accepted, 0 rejected); NaN: skipped */
    double temperature; /**< of the part, K; NaN */
    double time;        /**< seconds since 1970 UTC; NaN */
    double value_20;    /**< corrected to 20 degC; value if no temperature or expansion is known */
    double
        uncertainty_20; /**< standard, with what temperature and correction add; NaN: not known */
} bite_reading;

/** Begins a record from a job's inspection plan: what is measured, limits, instruments and the
 * errors that are predicted, with the part, material, machine and customer of the job file.
 *
 * path: must not exist yet. fields: `count` pairs of a text of the head and its value, such as
 * {"part_number", "LC-7"}; they replace those of the job. BITE_CANNOT_WRITE: the file exists, or
 * cannot be made; BITE_UNKNOWN_NAME, BITE_OUT_OF_RANGE: a field; BITE_MISSING: the job measures
 * nothing. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_record_new(const bite_job *job, const char *path,
                                                  const char *const (*fields)[2], size_t count,
                                                  bite_error *error);

/**
 * Reads a record.
 *
 * Every fault is reported to `fault` (may be NULL), the first one also to error, with their number:
 * BITE_BAD_FILE. *record: owned, bite_record_free. It is set beside BITE_BAD_FILE too, with all
 * that is sound, unless its head has faults (then NULL). A last line that was cut off is not a
 * fault: bite_record_torn_line. BITE_NOT_FOUND: no such file, or not a regular one; BITE_IO. Since
 * 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_record_open(const char *path, bite_fault_sink fault,
                                                   void *user, bite_record **record,
                                                   bite_error *error);
BITE_API void bite_record_free(bite_record *record); /* NULL: nothing happens */

/** Lines that are damaged or missing and that nobody has settled, and a head that was changed.
 * Above 0 the record proves nothing: such a line may have corrected any reading. Since 0.1. */
BITE_API size_t bite_record_unsettled(const bite_record *record);

/** The number of a last line that was cut off, by a power cut for example, and was never
 * confirmed; the next append closes it. 0: there is none. Since 0.1. */
BITE_API uint64_t bite_record_torn_line(const bite_record *record);

/** A text of the head by its key ("part_number"); "" if it is not stated, NULL: no such key.
 * Borrowed until the record is freed. Since 0.1. */
BITE_API const char *bite_record_text(const bite_record *record, const char *key);

/** The units in which readings are shown and, without a unit, typed: a bite_units. Since 0.1. */
BITE_API uint32_t bite_record_units(const bite_record *record);

/** The number of parts; NaN: not stated. Since 0.1. */
BITE_API double bite_record_parts(const bite_record *record);

/** Characteristics by their numbers, and readings in the order of the file. NULL beyond the last.
 * Borrowed: a characteristic until the record is freed, a reading until the next append. Since 0.1.
 */
BITE_API const bite_characteristic *bite_record_characteristic(const bite_record *record,
                                                               size_t index);
BITE_API const bite_reading *bite_record_reading(const bite_record *record, size_t index);

/** What a line of a record does. Frozen, append only. */
typedef enum bite_record_action {
    BITE_RECORD_READ = 0,    /**< a reading */
    BITE_RECORD_CORRECT = 1, /**< a reading that replaces another one, which is kept */
    BITE_RECORD_UNDO = 2,    /**< withdraws a reading or a correction, or settles a damaged line */
    BITE_RECORD_SKIP = 3,    /**< a characteristic that is not measured on a part, and why */
    BITE_RECORD_SEAL = 4     /**< confirms a head that was changed by hand */
} bite_record_action;

/** A line that is to be appended. Texts are borrowed during the call; NULL is "". */
typedef struct bite_record_entry {
    uint32_t struct_size;
    uint32_t action;         /**< a bite_record_action */
    uint32_t characteristic; /**< index; of a reading or a skip */
    uint32_t part;           /**< 1 to 10000; of a reading or a skip */
    uint32_t trial;          /**< of a reading; 0: the next one of this person */
    uint32_t reserved;       /**< 0 */
    uint64_t of;             /**< line that is corrected or withdrawn */
    const char *value;       /**< as typed: "12.03", "12.03mm", "0.4735in"; accept or reject */
    const char *person;      /**< at most 103 bytes */
    const char *note;        /**< at most 303 bytes; needed to skip and to seal: why */
    double temperature;      /**< of the part, K; 0 or NaN: not noted */
    double time;             /**< seconds since 1970 UTC; 0 or NaN: not noted */
} bite_record_entry;

/** Begins an entry. Since 0.1. */
BITE_API void bite_record_entry_init_sized(bite_record_entry *entry, size_t size);
static inline void bite_record_entry_init(bite_record_entry *entry)
{
    bite_record_entry_init_sized(entry, sizeof *entry);
}

/** How a reading lies to its limits, by its guard bands (ISO 14253-1, 95 %). Frozen, append only.
 */
typedef enum bite_reading_place {
    BITE_PLACE_NONE = 0,   /**< no limits */
    BITE_PLACE_INSIDE = 1, /**< conforms: proven, if uncertainty_20 is known */
    BITE_PLACE_GUARD = 2,  /**< in a guard band: neither is proven */
    BITE_PLACE_OUTSIDE = 3 /**< does not conform: proven, if uncertainty_20 is known */
} bite_reading_place;

/** What is odd about a reading, so that a person is asked before it is appended. Frozen, append
 * only. */
typedef enum bite_slip {
    BITE_SLIP_NONE = 0,
    BITE_SLIP_FACTOR = 1, /**< far outside, and inside if divided by 10, 25.4 ...: `likely` */
    BITE_SLIP_FINER = 2,  /**< finer than the instrument resolves: `likely` */
    BITE_SLIP_FAR = 3     /**< several times too large or too small, by no such factor */
} bite_slip;

/** A reading that is not appended yet, judged. */
typedef struct bite_review {
    uint32_t struct_size;
    uint32_t place;        /**< a bite_reading_place */
    uint32_t slip;         /**< a bite_slip */
    uint32_t corrected;    /**< 1: value_20 is corrected to 20 degC */
    double value;          /**< m; judged: 1 accepted, 0 rejected */
    double value_20;       /**< m */
    double uncertainty_20; /**< m, standard; NaN: not known */
    double likely;         /**< m, what may have been meant; NaN: not known */
    char text[64];         /**< the value with its unit, as it would be recorded */
} bite_review;

/** Begins a review that bite_record_review fills. Since 0.1. */
BITE_API void bite_review_init_sized(bite_review *review, size_t size);
static inline void bite_review_init(bite_review *review)
{
    bite_review_init_sized(review, sizeof *review);
}

/**
 * Reads and judges a value as it is typed: a number without a unit is one of the record's units.
 *
 * Of entry, characteristic, value and temperature are used. *review: struct_size is set by the
 * caller. BITE_BAD_QUANTITY, BITE_OUT_OF_RANGE: not a value. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_record_review(const bite_record *record,
                                                     const bite_record_entry *entry,
                                                     bite_review *review, bite_error *error);

/**
 * Appends a line; on BITE_OK it is durable.
 *
 * The file is locked meanwhile, what others have appended is read, and a last line that was cut off
 * is closed; nothing that is in the file is changed. *line (may be NULL): its number. BITE_BUSY:
 * another program has had the lock for seconds; BITE_CANNOT_WRITE: a full disk, a file or folder
 * that may not be written, a file system without locks. In these cases the line is not in the file.
 * BITE_BAD_QUANTITY, BITE_OUT_OF_RANGE, BITE_MISSING, BITE_UNKNOWN_NAME: the entry has a fault.
 * BITE_IO: the disk failed, or the file is not the one that was opened; BITE_NO_MEMORY. After these
 * two the record must be opened anew before it is appended to, and the line is in the file if the
 * hint of the error says that it was recorded. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_record_append(bite_record *record,
                                                     const bite_record_entry *entry, uint64_t *line,
                                                     bite_error *error);

/**
 * Appends the readings of a CSV text, whose first line names the columns: characteristic (its
 * number or what it is), part and value, and, as needed, trial, person, temperature, time and note.
 *
 * All rows are checked first: every fault is reported to `fault` (may be NULL), the first one also
 * to error, with their number: BITE_BAD_FILE, and nothing is appended. A value that is likely to be
 * a slip, other than one that is too fine, is a fault unless ! follows it. Without the column
 * trial, readings of one person, part and characteristic are counted. A reading that the record has
 * already, with the same trial and value, is passed over, so that a run that was interrupted can be
 * repeated. path: for messages. defaults: part, person, temperature and time of rows that do not
 * state them. *appended (may be NULL): the readings that were appended, also if it fails later.
 * Other errors as bite_record_append. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_record_append_csv(bite_record *record, const char *text,
                                                         size_t size, const char *path,
                                                         const bite_record_entry *defaults,
                                                         bite_fault_sink fault, void *user,
                                                         size_t *appended, bite_error *error);

/**
 * What is to be measured next: part by part, each characteristic on the parts that it is measured
 * on.
 *
 * person, trials: trials readings of this person are wanted of each; trials 0: one of anybody.
 * from: the part to begin with. Returns 1, and *characteristic (an index) and *part; 0: nothing is
 * left. Since 0.1.
 */
BITE_API int bite_record_next(const bite_record *record, const char *person, uint32_t trials,
                              uint32_t from, size_t *characteristic, uint32_t *part);

/**
 * What the readings of a record prove: BITE_CLEAR, all that was planned conforms; BITE_TIGHT,
 * something is not proven, or planned readings are missing; BITE_OVER, something does not conform;
 * BITE_UNKNOWN, there is nothing to judge.
 *
 * *verdict: a bite_verdict, written on success only. BITE_NO_MEMORY. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_record_verdict(const bite_record *record, uint32_t *verdict,
                                                      bite_error *error);

/**
 * Judges the readings of a record and writes what they prove.
 *
 * Formats: BITE_TEXT; BITE_HTML, a report to print, whose first sheet a customer can file;
 * BITE_CSV, a line for each reading; BITE_JSON; BITE_QIF, measurement results of QIF 3.0 (ISO
 * 23952). Units are those of the style. Errors as bite_answer_write, and BITE_NO_MEMORY;
 * BITE_OUT_OF_RANGE: a reading of 1e12 mm or more, which QIF cannot hold. Since 0.1.
 */
BITE_CHECKED BITE_API bite_status bite_record_report_write(const bite_record *record,
                                                           const bite_style *style, bite_sink sink,
                                                           void *user, bite_error *error);

/* ---- looking things up ----------------------------------------------------------------------- */

/** Writes what a value, a limit or an input means: equation, range, source. Formats and errors as
 * bite_answer_write; BITE_UNKNOWN_NAME: the hint names the nearest name. Since 0.1. */
BITE_CHECKED BITE_API bite_status bite_explain_write(const char *name, const bite_style *style,
                                                     bite_sink sink, void *user, bite_error *error);

/** Version of the library that is running: BITE_VERSION_TEXT and BITE_VERSION_NUMBER of its own
 * header. The text is borrowed, for ever. Since 0.1. */
BITE_API const char *bite_version(void);
BITE_API uint32_t bite_version_number(void);

#ifdef __cplusplus
}
#endif

#endif /* COOLBITE_COOLBITE_H */
