/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The types of a planned job: stock, warp, passes with their settings, tools, workholding, fluids,
 * time, remarks and checks.
 *
 * A plan is made once and then only read. Its texts are in its arena or borrowed from the library;
 * quantities in texts are in the job's units, all other numbers in SI.
 */
#ifndef BITE_JOB_PLAN_H
#define BITE_JOB_PLAN_H

#include "core/inspection/gauge_effect.h"
#include "core/job/fluid_compatibility.h"
#include "core/job/job_file.h"
#include "core/job/positions.h"
#include "core/job/sheet_stock.h"
#include "core/job/swept_area.h"
#include "core/library/material.h"
#include "core/library/material_record.h"
#include "core/physics/holding/workholding.h"
#include "core/request/answer.h"
#include "core/search/thread_milling.h"
#include "core/tables/typed_table.h"
#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

#define BITE_STEPS_MAX 24
#define BITE_LAYERS_MAX 6
#define BITE_FLUIDS_MAX 8

#define BITE_REMARK_VALUES_MAX 7
#define BITE_PLANNED_WINDOWS_MAX 2

/** How the blank is parted from its sheet: the words of the job key `parted_by`. */
enum { BITE_PARTED_BOUGHT, BITE_PARTED_SAW, BITE_PARTED_SCORE, BITE_PARTED_LASER };

/** How the workholding clamps: the words of its table key `clamp`. */
enum { BITE_CLAMP_JAWS, BITE_CLAMP_SCREWS, BITE_CLAMP_TABS, BITE_CLAMP_NONE };

/** A value of a remark: a text (a name, or a sentence of a table) or a quantity. */
typedef struct bite_remark_value {
    const char *text; /* borrowed; NULL: a quantity */
    double quantity;  /* SI, of the kind in the remark's definition; NaN: none, or a text */
} bite_remark_value;

/** A caution, or information on what was chosen. The report words it and converts its units. */
typedef struct bite_remark {
    uint32_t id;        /* a bite_remark_id */
    uint32_t severity;  /* a bite_severity, 1 note to 3 danger; 0: information */
    const char *source; /* "grade: where"; "" */
    bite_remark_value values[BITE_REMARK_VALUES_MAX];
} bite_remark;

/** The operating window of a pass. */
typedef struct bite_planned_window {
    bite_window *window; /* owned by the job */
    size_t pass;         /* index into passes */
} bite_planned_window;

/** A tool of the job. */
typedef struct bite_planned_tool {
    const char *name;
    const char *kind; /* "drill", "chamfer mill" or "end mill": one name may be several tools */
    double diameter;
    double flutes;
    double stickout;
    double flute_length;
    uint32_t passes; /* of the job that use it */
    uint32_t place;  /* 1, 2 ... in the order of use */
    const char *why;
    const char *better; /* "" */
} bite_planned_tool;

/** What a planned pass is of the pass of the job file: all of it, or one of those that it became.
 */
enum {
    BITE_STAGE_WHOLE,
    BITE_STAGE_ROUGH,   /* with a tool too large for the corners, or short of the wall */
    BITE_STAGE_MIDDLE,  /* some of what that tool left in them, for a smaller one */
    BITE_STAGE_CORNERS, /* what those tools left in them */
    BITE_STAGE_WALL     /* one lap to size */
};

/** The ways to cut a pocket that were compared: with one tool, or with a larger one and the corners
 * with a smaller one. Times of all parts. */
typedef struct bite_planned_ways {
    const char *alone; /* the one tool; NULL: nothing was compared */
    const char *rough; /* the larger one */
    uint32_t staged;   /* 1: the two were taken */
    uint32_t stated;   /* 1: because the job file states it */
    double alone_seconds;
    double
        staged_seconds; /* NaN: not planned, for one tool takes less than the change to another */
    double change_seconds; /* of the additional tool changes of the two */
    const char *middle;    /* a third tool between them; NULL: none was compared */
    uint32_t three;        /* 1: it was taken */
    double middle_seconds; /* with all three */
    double middle_change;  /* s, more for it */
} bite_planned_ways;

/** How a tool gets into its feature: the words of the job key `entry`, and a drill. */
enum {
    BITE_ENTER_OUTSIDE,
    BITE_ENTER_PLUNGE,
    BITE_ENTER_RAMP,
    BITE_ENTER_HELIX,
    BITE_ENTER_HOLE,  /* lowered into a hole that was drilled before */
    BITE_ENTER_DRILL, /* it is a drill */
    BITE_ENTER_ARC    /* from the axis of a hole onto its wall */
};

/** The entry move of a pass, once for each step over the depth. */
typedef struct bite_planned_entry {
    uint32_t kind;
    uint32_t stated;  /* 1: as the job file states it */
    uint32_t plunges; /* 1: the tool cuts at its centre */
    double feed;      /* m/s along the move; NaN: none */
    double angle;     /* rad, slope of a ramp or helix; NaN: neither */
    double length;    /* m, of the move; NaN: none */
    double leg;       /* m, level length for one leg of a ramp; INFINITY: along a path around */
    double legs;      /* of a ramp there and back; 1: in one go; 0: not a ramp */
    double helix;     /* m, diameter of the path of the tool's centre that fits */
    double pitch;     /* m, of a helix; 0: none */
    double hole;      /* m, diameter of a hole to enter by */
    const char *why;  /* "" */
} bite_planned_entry;

/** What else of the path has to be entered. Lengths: NaN if the pass has none. */
typedef struct bite_planned_path {
    uint32_t conventional; /* 1: against the feed; 0: climb */
    double step_over;      /* m, between neighbouring laps */
    double allowance;      /* m, left on the wall for the pass that finishes it */
    size_t allowance_for;  /* index of that pass */
    double lead;           /* m, radius of the arc on and off the wall */
    double tip_depth;      /* m, of the tip of a chamfer mill below the upper edge */
    double tip_offset;     /* m, from the wall to the tool's axis */
} bite_planned_path;

/** A thread mill in one thread. Lengths in m, feeds in m/s. */
typedef struct bite_planned_thread_mill {
    uint32_t passes; /* radial ones, of equal section; 0: no such work */
    uint32_t upward; /* 1: from the bottom up */
    bite_thread_mill tool;
    bite_thread_path path; /* of the centre, with feeds as they are entered */
    double edge_feed;
    double length; /* of the path on the wall, all passes */
    double feed;   /* mean over that length */
} bite_planned_thread_mill;

/** The hole of a pass that drills, taps, reams or mills a thread. Lengths in m. */
typedef struct bite_planned_hole {
    const bite_item_record *thread; /* NULL: none */
    const char *made_by; /* the pass that makes the hole that is tapped, reamed ...; NULL: none */
    double pitch;        /* NaN: no thread */
    double share;        /* of thread, 1 */
    double diameter;     /* of that hole */
    double depth;        /* of that hole at its full diameter; INFINITY: it goes through */
    double point;        /* of a drill, beyond the full diameter */
    double pilot;        /* diameter of a hole to drill first; NaN: none is needed */
    uint32_t blind;      /* 1: it does not go through the part */
    uint32_t left_hand;  /* 1: its thread is */
    bite_planned_thread_mill mill;
} bite_planned_hole;

/** Answers that a pass makes: its settings, with support, with the sheet, with the time under load;
 * twice if all passes together need more care. */
#define BITE_ANSWERS_MADE 8

/** A choice that was made to pick a tool, for the pass that asks for the same with that tool. */
typedef struct bite_planned_choice {
    bite_request request;
    bite_choice *choice; /* owned by the job */
} bite_planned_choice;

/** Support under a floor that the settings of a pass assume, though the job does not state it. */
typedef struct bite_planned_support {
    uint32_t kind;   /* a word of the job key `support`; 0: none is assumed */
    uint32_t passes; /* that the pass would take without it */
    double depth;    /* m, of each of them */
    double seconds;  /* of all parts */
} bite_planned_support;

/** What a pass sweeps at each of its positions. */
typedef struct bite_pass_sweeps {
    bite_swept_area *areas;
    size_t count; /* 0: its place or its size is not known */
} bite_pass_sweeps;

/** One pass of the job, in the order of work. */
typedef struct bite_planned_pass {
    const char *name; /* that of its section */
    const char *title;
    uint32_t work;        /* a bite_work */
    uint32_t setup;       /* 1, 2 ... */
    uint32_t count;       /* of such features on each part */
    uint32_t passes;      /* over the feature's depth */
    uint32_t tool;        /* index into tools */
    uint32_t chosen;      /* 1: spindle and feed were chosen; 0: as the job file states them */
    uint32_t stage;       /* of its section */
    uint32_t unfinished;  /* 1: it leaves stock on the wall for a stage that finishes it */
    double leaves;        /* m, that stock; 0: none */
    double depth;         /* of the whole feature */
    double width;         /* NaN: a full slot */
    double inside_radius; /* m, of the corners that the path has to follow; NaN: any */
    double corner_from;   /* m, radius of the corners that a stage finds; NaN */
    double corner_to;     /* m, and leaves; NaN */
    double area;          /* m2, seen from above, that it takes off one feature; NaN: not known */
    bite_planned_ways ways;
    double step_down; /* m, depth of each step but the last; of the only one */
    double last_step; /* m, of the last: all of them together are the depth of the feature */
    bite_planned_entry entry;
    bite_planned_path path;
    bite_planned_hole hole;
    bite_planned_support support;
    double lap;          /* m, the path of one lap of one feature */
    double corners;      /* of a lap */
    bite_answer *answer; /* one of those below, or of an equal pass */
    bite_answer *made[BITE_ANSWERS_MADE];
    size_t made_count;
    double seconds;       /* for all parts: cutting, the moves between cuts, and pauses */
    double pause;         /* s, after each lap of a part but the last; 0: none */
    double cool_down;     /* s, before the next pass of the setup, once for each blank; 0: none */
    double pause_seconds; /* of the time, in which the part cools: both, for all parts */
    double entry_seconds; /* of them, into the feature */
    double move_seconds;  /* of them, approach, retract and rapids */
    double feed_seconds;  /* lap / feed alone */
    double slowed;        /* chip load at the slowest corner / chip load, at most 1 */
    double hold_utilization; /* of the workholding; NaN: not known */
    double first_leaves;     /* m, on the wall after the first lap; NaN: not a finishing pass */
    double spring_leaves;    /* m, after the last */
    double soak_rise;        /* K, of the zone around the path at the end of its laps */
    double mean_rise;        /* K, of the whole part, likewise */
    uint32_t springs;        /* laps that are repeated at the same setting */
    double floor_thin;       /* m, remaining under a blind pass where the work is thinnest; NaN */
    double floor_thick;      /* where it is thickest */
    double clearance;        /* m, from what it sweeps to the nearest thing; negative: into it; NaN:
                                not known */
    const char *nearest;     /* that thing; "" */
    double holder_clearance; /* m, from its holder or shank to the nearest thing that rises above
                                their lower end; negative: into it; NaN: there is none */
    const char *holder_nearest; /* that thing; "" */
} bite_planned_pass;

typedef struct bite_planned_stock {
    const bite_item_record *sheet; /* NULL: the tables have no such sheet */
    double nominal;
    double tolerance; /* plus or minus, about the middle of thin and thick */
    double thin;
    double thick;
    double short_by; /* what the thin end lacks of the part and what is skimmed; 0: nothing */
    uint32_t breaks_through; /* 1: a blind pass does at the thin end */
    double needed;           /* part and skim */
    double skim;             /* both faces together */
    double share_top;
    uint32_t chosen;   /* 1: the nominal was chosen */
    uint32_t measured; /* 1: thin and thick were measured */
    uint32_t as_sold;  /* 1: both faces are left as supplied */
    uint32_t off_size; /* of faces left as supplied: 1 if one end of the range of thickness is off
                          size, 2 if its middle is */
    bite_sheet_stock_removal removal;
    double gap; /* between parts */
    double margin;
    double reach;       /* by which a pass sweeps beyond the edge of its part, at most */
    int furthest;       /* index of that pass; -1: none does */
    double web;         /* that is to stand between the slots of neighbours */
    bite_layout layout; /* of the parts on one blank */
    uint32_t blanks;    /* pieces of stock */
    uint32_t on_each;   /* parts on each of them but the last */
    uint32_t on_last;
    uint32_t split;         /* 1: more blanks than wanted, because of a size that limits them */
    uint32_t strikes_parts; /* 1: a pass cuts into a neighbour, or leaves no frame */
    uint32_t strikes_hold;  /* 1: a pass sweeps into a screw, a clamp or the tabs */
    double sheet_length;    /* NaN: not stated */
    double sheet_width;
    double sold_length; /* of the sheets to buy: as stated, otherwise as sold; NaN: not known */
    double sold_width;
    uint32_t sheets; /* to buy; 0: not known */
    uint32_t inch;   /* 1: bought in inch sizes */
    uint32_t yield;  /* parts from that sheet */
    uint32_t parting;
    const char *parting_text; /* how the blank is parted; "" */
    bite_limit limit;         /* stock_thickness */
} bite_planned_stock;

/** A dimension that the zero of its setup decides. */
enum {
    BITE_DIMENSION_THICKNESS, /* of the part, by its last face */
    BITE_DIMENSION_FLOOR,     /* what remains under a pass */
    BITE_DIMENSION_DEPTH,     /* from the top */
    BITE_DIMENSION_END,       /* of a through cut */
    BITE_DIMENSION_NONE
};

/** Z zero of a setup, and the pass that decides where it is. */
typedef struct bite_planned_datum {
    uint32_t setup;
    uint32_t on_fixture;  /* 1: on what the stock lies on; 0: on its top, or on a face cut before */
    const char *stated;   /* the word of the job file for it; "": it is computed */
    int pass;             /* index; -1: no dimension depends on it */
    uint32_t dimension;   /* of that pass */
    double error_top;     /* m, plus or minus, with zero on the top */
    double error_fixture; /* the same on the fixture */
    double tolerance;
} bite_planned_datum;

/** What the work needs of the machine: X, Y, Z. */
typedef struct bite_planned_envelope {
    const bite_item_record *machine; /* NULL: none is known */
    uint32_t stated;                 /* 0: the usual machine was assumed */
    uint32_t turned;                 /* 1: the blank's length lies along Y */
    uint32_t beyond;                 /* 1: the work does not fit the machine that is named */
    double travel[3];                /* m; NaN: not known */
    double needs[3];                 /* m, of travel */
    double fixture;                  /* m, height of what the stock lies on */
    double stickout;                 /* m, of the longest tool */
    double stack;                    /* m, from the table to the spindle above the stock */
} bite_planned_envelope;

typedef struct bite_planned_warp {
    bite_limit limit;  /* warp */
    double span;       /* m */
    double stress;     /* Pa, of the skin */
    double one_sided;  /* m, bow if everything came off one face */
    double as_planned; /* m, bow from the difference between the faces at the thick end */
    double warmth;     /* m, bow while one face is 5 K warmer */
    double coupon;     /* m, bow of a coupon of 100 mm at that stress, skimmed on one face */
    double coupon_cut;
    const char *anneal; /* how; "" */
    double anneal_at;   /* K; NaN */
} bite_planned_warp;

typedef struct bite_planned_hold {
    const bite_item_record *hold; /* NULL: not stated */
    const bite_item_record *layers[BITE_LAYERS_MAX];
    size_t layer_count;
    int weakest;              /* index into layers; -1: none */
    uint32_t refused;         /* 1: it may not be used on this part */
    uint32_t strikes;         /* 1: a cut hits the workholding */
    uint32_t loose;           /* 1: the part is no longer held at the end of its last cut */
    double area;              /* m2, of one part at the end of its last cut */
    double along;             /* m, of that area */
    double across;            /* m */
    double utilization;       /* the highest of all passes; NaN: not known */
    double chance;            /* probability that the workholding fails, 0 to 1; NaN: not known */
    int worst_pass;           /* -1 */
    const char *failure_mode; /* how a clamp fails first: slip, lever, strip, shear, crush, stretch,
                                 break, buckle; "" for bonds */
    double force;             /* N, between the jaws or in each screw; NaN: neither */
    double needs;             /* N, required of it by the hardest cut; NaN: unknown */
    bite_workholding_stress stress;
    double shear; /* Pa, strength of the bond at the worst pass; the same for pull */
    double pull;
    double tape; /* m, thickness of the layer under the part that a through cut may end in; NaN */
    double break_through; /* m, below the part */
    double cure;          /* s; NaN */
    const char *mounting[BITE_STEPS_MAX];
    size_t mounting_count;
    const char *release[BITE_STEPS_MAX];
    size_t release_count;
    const bite_item_record *solvent; /* that releases it; NULL: none */
} bite_planned_hold;

/** The largest pocket in the face that a part lies on. */
typedef struct bite_planned_hollow {
    double across; /* m, its shorter side; NaN: there is none, or the file does not state it */
    double along;
    double depth;
} bite_planned_hollow;

/** One mounting of the part, with all passes until it is released. */
typedef struct bite_planned_setup {
    uint32_t number;             /* 1, 2 ... */
    uint32_t separate;           /* 1: an earlier setup has cut the parts free */
    uint32_t mountings;          /* the number of parts if each is clamped by itself, otherwise 1 */
    const bite_section *section; /* [setup.N]; NULL: the file has none */
    const bite_section *shared;  /* [hold], if it is the hold of this setup; NULL */
    uint32_t side;               /* the face that is up */
    uint32_t side_given;         /* 1: the job file states it */
    const char *datum_xy;        /* where X and Y are zero; "" */
    const char *datum_z;
    const char *note; /* "" */
    uint32_t verdict; /* the worst of its passes and its hold */
    double cut_away;  /* m2, of the face below, by all passes up to the end of this setup */
    bite_planned_hollow hollow;
    bite_planned_hold hold;
} bite_planned_setup;

/** The time of a job, s. Every sum is of the members that its comment names. */
typedef struct bite_planned_time {
    double feed_only; /* all laps at their programmed feeds */
    double cornering; /* more, by acceleration and in corners */
    double cutting;   /* feed_only and cornering */
    double entries;   /* into features: ramps, helices, plunges, arcs onto walls */
    double air;       /* approach and retract */
    double rapids;    /* between features and parts */
    double ways;      /* entries, air and rapids */
    double pauses;    /* in which the part cools on the machine */
    double tool_changing;
    double spindle_starts;
    double zeroing;  /* once in each setup */
    double changes;  /* tool_changing, spindle_starts and zeroing */
    double mounting; /* by hand */
    double cure;     /* of glue, or what a tape needs */
    double loading;  /* mounting and cure */
    double releasing;
    double soak; /* in solvent, or until it is warm */
    double cleaning;
    double release;       /* releasing, soak and cleaning */
    double whole;         /* cutting, ways, pauses, changes, loading and release */
    double hands;         /* of it, that needs hands */
    double machine_alone; /* of it, while the machine runs by itself */
    double waiting;       /* of it, cure and soak: these three are the whole too */
    double overlapped;    /* a blank takes if the next is mounted meanwhile; NaN: it cannot be */
    double corrected;     /* by the shop's own times; NaN: there are too few */
    uint32_t records;     /* the number of those times */
    uint32_t tool_changes;
    uint32_t tool_changer; /* 1: the machine changes tools by itself */
} bite_planned_time;

/** A characteristic that is inspected. Lengths in m; NaN: not stated, not known or not of that
 * kind.
 */
typedef struct bite_planned_check {
    uint32_t number; /* 1, 2 ... */
    const char *what;
    const char *zone;       /* of the drawing; "" */
    const char *designator; /* of a special characteristic; "" */
    uint32_t measures;      /* a bite_measured */
    double nominal;
    double tolerance; /* plus or minus; NaN: none, or the two limits are unlike */
    double lower;     /* limits of the size */
    double upper;
    const char *limits_from;            /* "stated", "ISO 2768-1 m", "the part's tolerance" */
    const char *limits_source;          /* "grade: where"; "" */
    const char *with;                   /* what measures it, for people */
    const bite_item_record *instrument; /* NULL: not known */
    uint32_t chosen;                    /* 1: the instrument was chosen, not stated */
    double uncertainty;                 /* standard, of one reading with that instrument */
    double ratio;                       /* tolerance over twice the expanded uncertainty */
    double warmth;                      /* growth for each kelvin */
    double pressed;                     /* by which the instrument's force changes the reading */
    bite_gauge_effect effect;
    uint32_t pass;      /* index of the pass that makes the size; UINT32_MAX: not stated */
    double wall_error;  /* of that pass, the high end of its band */
    uint32_t every;     /* each so many parts, the first and the last */
    const char *reason; /* why so many */
    const char *note;
} bite_planned_check;

struct bite_job {
    bite_allocator allocator;
    bite_arena *arena;
    bite_watch *watch; /* of the call that plans it */
    const bite_library *library;
    bite_job_file file_data;
    const bite_shop *shop; /* NULL: none */
    uint32_t shop_keys;    /* bits of the bite_shop_key that were used */
    const bite_material *grade;
    bite_grade_match grade_match;
    bite_units units;
    const char *title;
    const char *file;
    double confidence;
    double care; /* share of a pass's usual share of the chance that it may use, at most 1 */
    size_t draws;
    size_t threads;

    /* the request of a pass with its tool (pass_request.h); the selection of tools needs it too */
    bite_status (*request_of)(const bite_job *job, size_t index, bite_request **request,
                              bite_error *error);

    /* the part */
    double length;
    double width;
    double thickness;
    double thinnest;
    double count;
    uint32_t clear;    /* 1: transparent */
    uint32_t annealed; /* 1: annealed after machining and before any fluid */

    bite_planned_stock stock;
    bite_planned_envelope envelope;
    bite_planned_warp warp;
    bite_planned_setup *setup_plan; /* one for each setup of the file, in their order */
    bite_planned_hold hold;         /* that of the setup whose hold is the weakest */
    uint32_t hold_setup;            /* its number */
    bite_planned_time time;
    bite_planned_pass *passes; /* in the order of work */
    size_t pass_count;
    const bite_positions **places; /* of the features of each pass, then of each obstacle */
    bite_pass_sweeps *sweeps;      /* of each pass */
    uint32_t **drilled;            /* for each position of an obstacle, the passes up to its hole */
    uint32_t setups;
    bite_planned_datum *datums; /* one for each setup */
    bite_planned_tool *tools;   /* in the order of use */
    size_t tool_count;
    bite_planned_choice **choices;
    size_t choice_count;
    bite_fluid_rating fluids[BITE_FLUIDS_MAX];
    const char *fluid_uses[BITE_FLUIDS_MAX];    /* "coolant", "cleaner" ... */
    const char *fluid_instead[BITE_FLUIDS_MAX]; /* of one that may harm, titles of safe ones; "" */
    size_t fluid_count;
    bite_fluid_rating *bench_fluids; /* cleaners and removers of the tables, safe ones first */
    size_t bench_fluid_count;
    bite_planned_check *checks;
    size_t check_count;
    bite_remark *remarks; /* danger first */
    size_t remark_count;
    size_t remark_capacity;
    bite_planned_window windows[BITE_PLANNED_WINDOWS_MAX]; /* the least favourable pass first */
    size_t window_count;    /* 0 unless the options request windows */
    uint32_t verdict;       /* the worst of all */
    double chance;          /* that a limit is exceeded in some pass, from the joint draws; NaN:
                               without draws */
    uint32_t out_of_memory; /* 1: a text found no memory; such a plan is not returned */

    /* faults of the file that only planning reveals */
    bite_fault_sink fault; /* may be NULL */
    void *fault_user;
    uint32_t faults;
    bite_error first_fault;
};

#endif
