/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The remarks of a plan: an id, a severity, a subject, a source, and named values. Their wording is
 * in core/report/job/remark_text.c.
 */
#ifndef BITE_JOB_REMARKS_H
#define BITE_JOB_REMARKS_H

#include "core/job/remark_list.h"

/** All remarks, grouped by the step that makes them. */
typedef enum bite_remark_id {
    BITE_REMARK_CAUTION = 0,
    BITE_REMARK_CAUTION_OF_PASS,
    BITE_REMARK_FLAMMABLE,
    BITE_REMARK_SPINDLE_SPEED,
    BITE_REMARK_CYANOACRYLATE,
    BITE_REMARK_MIST,
    BITE_REMARK_AIR_AND_NOISE,
    BITE_REMARK_DEFAULTS,
    BITE_REMARK_SHEET_AS_SUPPLIED,
    BITE_REMARK_SHEET_SHORT,
    BITE_REMARK_NO_SHEET_THICKNESS,
    BITE_REMARK_NO_FACING_PASS,
    BITE_REMARK_NO_SHEET_TABLE,
    BITE_REMARK_PARTING,
    BITE_REMARK_PARTING_UNKNOWN,
    BITE_REMARK_FILM,
    BITE_REMARK_GAP_NARROW,
    BITE_REMARK_NO_FRAME,
    BITE_REMARK_SLOTS_MEET,
    BITE_REMARK_MARGIN_NARROW,
    BITE_REMARK_PARTS_DO_NOT_FIT,
    BITE_REMARK_SEVERAL_BLANKS,
    BITE_REMARK_SWEEPS_INTO,
    BITE_REMARK_CUTS_TABS,
    BITE_REMARK_HOLDER_HITS,
    BITE_REMARK_HOLDER_OVER,
    BITE_REMARK_SCREWS_NOT_PLACED,
    BITE_REMARK_PASSES_NOT_PLACED,
    BITE_REMARK_DATUM_ERROR,
    BITE_REMARK_DATUM_STATED,
    BITE_REMARK_BREAKS_THROUGH,
    BITE_REMARK_SECOND_ZERO,
    BITE_REMARK_FIRST_PASS_DEEPER,
    BITE_REMARK_BEYOND_TRAVEL,
    BITE_REMARK_NEAR_TRAVEL,
    BITE_REMARK_NO_TRAVEL,
    BITE_REMARK_STACK_TOO_HIGH,
    BITE_REMARK_OVERHANGS_TABLE,
    BITE_REMARK_VISE_TOO_SMALL,
    BITE_REMARK_OVERHANGS_JAWS,
    BITE_REMARK_FACING_ORDER,
    BITE_REMARK_FEATURE_SIZE,
    BITE_REMARK_DEPTH_FROM_FLOOR,
    BITE_REMARK_AREA_NOT_REDUCED,
    BITE_REMARK_DEFAULT_PASSES,
    BITE_REMARK_DRILL_THROUGH,
    BITE_REMARK_DRILL_BELOW,
    BITE_REMARK_NO_TOOL_AT_HAND,
    BITE_REMARK_NO_TOOL_IN_TABLE,
    BITE_REMARK_THREAD_MILLED,
    BITE_REMARK_MILL_INSTEAD,
    BITE_REMARK_NO_MILL_INSTEAD,
    BITE_REMARK_NO_WORKHOLDING,
    BITE_REMARK_RELEASE_SOLVENT,
    BITE_REMARK_BOND_MAY_FAIL,
    BITE_REMARK_VACUUM_GROOVE,
    BITE_REMARK_CUTS_BELOW_TAPE,
    BITE_REMARK_NO_BOARD,
    BITE_REMARK_TAPE_ON_TOOL,
    BITE_REMARK_FILM_TAPE,
    BITE_REMARK_GLUE_CURE,
    BITE_REMARK_POOR_ADHESION,
    BITE_REMARK_HOLDING_NOT_JUDGED,
    BITE_REMARK_CLAMP_SLIPS,
    BITE_REMARK_CLAMP_LEVERS,
    BITE_REMARK_CLAMP_STRIPS,
    BITE_REMARK_CLAMP_SHEARS,
    BITE_REMARK_CLAMP_CRUSHES,
    BITE_REMARK_CLAMP_STRETCHES,
    BITE_REMARK_CLAMP_BREAKS,
    BITE_REMARK_JAW_FORCE,
    BITE_REMARK_SCREW_FORCE,
    BITE_REMARK_BUCKLING,
    BITE_REMARK_CUTTER_HITS_JAWS,
    BITE_REMARK_CUTS_VISE_BED,
    BITE_REMARK_GRIPPED_SO,
    BITE_REMARK_LOOSE_IN_JAWS,
    BITE_REMARK_HELD_BY_OWN_SCREWS,
    BITE_REMARK_TABS,
    BITE_REMARK_TABS_IF_CUT_FREE,
    BITE_REMARK_FRAME_CLAMPS,
    BITE_REMARK_FLUID_NO,
    BITE_REMARK_FLUID_RISK,
    BITE_REMARK_FLUID_UNKNOWN,
    BITE_REMARK_COOLANT_UNNAMED,
    BITE_REMARK_LASER_EDGE,
    BITE_REMARK_CORNERS,
    BITE_REMARK_ENTRY_HOLE,
    BITE_REMARK_ENTRY_BY_PASS,
    BITE_REMARK_ENTRY_PLUNGE,
    BITE_REMARK_ENTRY_SHORT,
    BITE_REMARK_FINISH_ALLOWANCE,
    BITE_REMARK_NO_LEAD,
    BITE_REMARK_FLOOR_BENDS,
    BITE_REMARK_WEB_BENDS,
    BITE_REMARK_FLOOR_COSTS,
    BITE_REMARK_SUPPORT_ASSUMED,
    BITE_REMARK_WALL_BENDS,
    BITE_REMARK_WALL_DERIVED,
    BITE_REMARK_SPRINGS,
    BITE_REMARK_SPRINGS_DO_NOT_HELP,
    BITE_REMARK_VACUUM_FLOOR,
    BITE_REMARK_BOW_SPRINGS_BACK,
    BITE_REMARK_SOAK_PAUSE,
    BITE_REMARK_SOAK_COOL,
    BITE_REMARK_SOAK_SIZE,
    BITE_REMARK_GAUGE_RATIO,
    BITE_REMARK_GAUGE_CANNOT,
    BITE_REMARK_SHOP_CANNOT,
    BITE_REMARK_NOTHING_PROVES,
    BITE_REMARK_GAUGE_PRESSES,
    BITE_REMARK_GAUGE_DENTS,
    BITE_REMARK_GAUGE_BUCKLES,
    BITE_REMARK_GAUGE_WARMTH,
    BITE_REMARK_TABLE_LEFT_OUT,
    BITE_REMARK_COUNT
} bite_remark_id;

/** The kind of a value of a remark, which decides how it is written. */
typedef enum bite_remark_kind {
    BITE_REMARK_NONE = 0,
    BITE_REMARK_TEXT,
    BITE_REMARK_LENGTH,       /* m */
    BITE_REMARK_ROUND_LENGTH, /* m; advice, shown in inches with two digits */
    BITE_REMARK_FORCE,        /* N */
    BITE_REMARK_TIME,         /* s */
    BITE_REMARK_SHARE,        /* 1, shown in whole % */
    BITE_REMARK_NUMBER,       /* 1, shown as a whole number */
    BITE_REMARK_RISE,         /* K, of a temperature; two digits */
    BITE_REMARK_ROTATION,     /* 1/s */
    BITE_REMARK_SPEED         /* m/s */
} bite_remark_kind;

/** A remark as the plan defines it. */
typedef struct bite_remark_definition {
    const char *name; /* of the id, as JSON has it: "bond-may-fail" */
    uint32_t severity;
    const char *about;  /* "stock", "warp", "hold", "fluids", "tools", "passes", "time", "material",
                           "safety" */
    const char *source; /* "grade: where"; "" */
    struct {
        const char *name; /* "utilization" */
        bite_remark_kind kind;
    } values[BITE_REMARK_VALUES_MAX]; /* ended by BITE_REMARK_NONE */
} bite_remark_definition;

/** The definition of an id; NULL beyond the last. */
const bite_remark_definition *bite_remark_define(uint32_t id);

/** What a remark is about; a danger from a caution is about "safety". */
const char *bite_remark_about(const bite_remark *remark);

/** Adds a remark with its values in the order of its definition; texts are borrowed or in the
 * arena. A remark equal to an earlier one is not repeated. */
void bite_plan_remark(bite_job *job, bite_remark_id id, const bite_remark_value *values,
                      size_t count);

#endif
