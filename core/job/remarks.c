/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The remarks of a plan. */
#include "core/job/remarks.h"
#include <math.h>
#include <string.h>

#define STATICS "estimate: statics of a rigid part, peak forces of this plan"
#define MAY_FAIL(name)                                                                             \
    {                                                                                              \
        name, BITE_CARE, "hold", STATICS,                                                          \
        {                                                                                          \
            {"method", BITE_REMARK_TEXT}, {"pass", BITE_REMARK_TEXT},                              \
                {"utilization", BITE_REMARK_SHARE}, {"chance", BITE_REMARK_SHARE},                 \
        }                                                                                          \
    }

#define BEYOND(name, severity)                                                                     \
    {                                                                                              \
        name, severity, "stock", "",                                                               \
        {                                                                                          \
            {"what", BITE_REMARK_TEXT}, {"needs", BITE_REMARK_LENGTH},                             \
                {"has", BITE_REMARK_LENGTH}, {"machine", BITE_REMARK_TEXT},                        \
        }                                                                                          \
    }

static const bite_remark_definition definitions[BITE_REMARK_COUNT] = {
    [BITE_REMARK_CAUTION] = {"caution", BITE_NOTE, "material", "", {{"text", BITE_REMARK_TEXT}}},
    [BITE_REMARK_CAUTION_OF_PASS] = {"caution-of-pass",
                                     BITE_NOTE,
                                     "material",
                                     "",
                                     {{"pass", BITE_REMARK_TEXT}, {"text", BITE_REMARK_TEXT}}},
    [BITE_REMARK_FLAMMABLE] =
        {"flammable", BITE_DANGER, "safety", "common-practice", {{"fluid", BITE_REMARK_TEXT}}},
    [BITE_REMARK_SPINDLE_SPEED] =
        {"spindle-speed", BITE_DANGER, "safety", "common-practice", {{0}}},
    [BITE_REMARK_CYANOACRYLATE] = {"cyanoacrylate",
                                   BITE_DANGER,
                                   "safety",
                                   "standard: ethyl cyanoacrylate, ACGIH 0.2 ppm (8 h), as a "
                                   "safety data sheet states it",
                                   {{0}}},
    [BITE_REMARK_MIST] = {"mist",
                          BITE_DANGER,
                          "safety",
                          "standard: NIOSH 98-102, 0.5 mg/m3 of metalworking fluid, 10 h",
                          {{0}}},
    [BITE_REMARK_AIR_AND_NOISE] = {"air-and-noise",
                                   BITE_NOTE,
                                   "safety",
                                   "standard: 29 CFR 1910.242(b), 30 psi dead-ended; 29 CFR "
                                   "1910.95, action level 85 dBA",
                                   {{0}}},
    [BITE_REMARK_DEFAULTS] = {"defaults", 0, "passes", "", {{"defaults", BITE_REMARK_TEXT}}},
    [BITE_REMARK_SHEET_AS_SUPPLIED] = {"sheet-as-supplied",
                                       BITE_CARE,
                                       "stock",
                                       "common-practice",
                                       {{"thin", BITE_REMARK_LENGTH},
                                        {"thick", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_SHEET_SHORT] = {"sheet-short",
                                 BITE_CARE,
                                 "stock",
                                 "",
                                 {{"thin", BITE_REMARK_LENGTH},
                                  {"missing", BITE_REMARK_LENGTH},
                                  {"needed", BITE_REMARK_LENGTH},
                                  {"under", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_NO_SHEET_THICKNESS] =
        {"no-sheet-thickness", BITE_CARE, "stock", "", {{"needed", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_NO_FACING_PASS] = {"no-facing-pass", BITE_CARE, "stock", "", {{0}}},
    [BITE_REMARK_NO_SHEET_TABLE] = {"no-sheet-table", BITE_NOTE, "stock", "", {{0}}},
    [BITE_REMARK_PARTING] =
        {"parting", BITE_CARE, "stock", "common-practice", {{"text", BITE_REMARK_TEXT}}},
    [BITE_REMARK_PARTING_UNKNOWN] = {"parting-unknown",
                                     BITE_CARE,
                                     "stock",
                                     "",
                                     {{"material", BITE_REMARK_TEXT},
                                      {"method", BITE_REMARK_TEXT}}},
    [BITE_REMARK_FILM] = {"film", BITE_CARE, "stock", "common-practice", {{0}}},
    [BITE_REMARK_GAP_NARROW] = {"gap-narrow",
                                BITE_CARE,
                                "stock",
                                "",
                                {{"pass", BITE_REMARK_TEXT},
                                 {"reach", BITE_REMARK_LENGTH},
                                 {"gap", BITE_REMARK_LENGTH},
                                 {"into", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_NO_FRAME] = {"no-frame",
                              BITE_CARE,
                              "stock",
                              "",
                              {{"pass", BITE_REMARK_TEXT},
                               {"slots", BITE_REMARK_LENGTH},
                               {"gap", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_SLOTS_MEET] = {"slots-meet",
                                BITE_NOTE,
                                "stock",
                                "",
                                {{"pass", BITE_REMARK_TEXT},
                                 {"slots", BITE_REMARK_LENGTH},
                                 {"gap", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_MARGIN_NARROW] = {"margin-narrow",
                                   BITE_NOTE,
                                   "stock",
                                   "common-practice",
                                   {{"pass", BITE_REMARK_TEXT},
                                    {"over", BITE_REMARK_LENGTH},
                                    {"margin", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_PARTS_DO_NOT_FIT] = {"parts-do-not-fit",
                                      BITE_CARE,
                                      "stock",
                                      "",
                                      {{"length", BITE_REMARK_LENGTH},
                                       {"width", BITE_REMARK_LENGTH},
                                       {"sheet_length", BITE_REMARK_LENGTH},
                                       {"sheet_width", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_SEVERAL_BLANKS] = {"several-blanks",
                                    BITE_NOTE,
                                    "stock",
                                    "",
                                    {{"blanks", BITE_REMARK_NUMBER},
                                     {"on_each", BITE_REMARK_NUMBER},
                                     {"on_last", BITE_REMARK_NUMBER},
                                     {"because", BITE_REMARK_TEXT}}},
    [BITE_REMARK_SWEEPS_INTO] = {"sweeps-into",
                                 BITE_DANGER,
                                 "passes",
                                 "common-practice",
                                 {{"pass", BITE_REMARK_TEXT},
                                  {"by", BITE_REMARK_LENGTH},
                                  {"thing", BITE_REMARK_TEXT}}},
    [BITE_REMARK_CUTS_TABS] = {"cuts-tabs",
                               BITE_CARE,
                               "hold",
                               "common-practice",
                               {{"pass", BITE_REMARK_TEXT}, {"by", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_HOLDER_HITS] = {"holder-hits",
                                 BITE_DANGER,
                                 "passes",
                                 "common-practice",
                                 {{"pass", BITE_REMARK_TEXT},
                                  {"body", BITE_REMARK_TEXT},
                                  {"diameter", BITE_REMARK_LENGTH},
                                  {"from_tip", BITE_REMARK_LENGTH},
                                  {"by", BITE_REMARK_LENGTH},
                                  {"thing", BITE_REMARK_TEXT},
                                  {"missing", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_HOLDER_OVER] = {"holder-over",
                                 BITE_CARE,
                                 "passes",
                                 "common-practice",
                                 {{"pass", BITE_REMARK_TEXT},
                                  {"body", BITE_REMARK_TEXT},
                                  {"diameter", BITE_REMARK_LENGTH},
                                  {"level", BITE_REMARK_LENGTH},
                                  {"thing", BITE_REMARK_TEXT}}},
    [BITE_REMARK_SCREWS_NOT_PLACED] = {"screws-not-placed", BITE_NOTE, "hold", "", {{0}}},
    [BITE_REMARK_PASSES_NOT_PLACED] =
        {"passes-not-placed", BITE_NOTE, "passes", "", {{"passes", BITE_REMARK_TEXT}}},
    [BITE_REMARK_DATUM_ERROR] = {"datum-error",
                                 BITE_CARE,
                                 "stock",
                                 "estimate: range of the sheet's thickness",
                                 {{"pass", BITE_REMARK_TEXT},
                                  {"dimension", BITE_REMARK_TEXT},
                                  {"error", BITE_REMARK_LENGTH},
                                  {"zero", BITE_REMARK_TEXT},
                                  {"tolerance", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_DATUM_STATED] = {"datum-stated",
                                  BITE_CARE,
                                  "stock",
                                  "estimate: range of the sheet's thickness",
                                  {{"pass", BITE_REMARK_TEXT},
                                   {"dimension", BITE_REMARK_TEXT},
                                   {"error", BITE_REMARK_LENGTH},
                                   {"zero", BITE_REMARK_TEXT},
                                   {"tolerance", BITE_REMARK_LENGTH},
                                   {"other", BITE_REMARK_TEXT},
                                   {"error_other", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_BREAKS_THROUGH] = {"breaks-through",
                                    BITE_CARE,
                                    "stock",
                                    "estimate: range of the sheet's thickness",
                                    {{"pass", BITE_REMARK_TEXT},
                                     {"by", BITE_REMARK_LENGTH},
                                     {"thick", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_SECOND_ZERO] = {"second-zero",
                                 BITE_NOTE,
                                 "stock",
                                 "estimate: range of the sheet's thickness",
                                 {{"pass", BITE_REMARK_TEXT}, {"error", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_FIRST_PASS_DEEPER] = {"first-pass-deeper",
                                       BITE_NOTE,
                                       "stock",
                                       "estimate: range of the sheet's thickness",
                                       {{"pass", BITE_REMARK_TEXT},
                                        {"deeper", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_BEYOND_TRAVEL] = BEYOND("beyond-travel", BITE_CARE),
    [BITE_REMARK_NEAR_TRAVEL] = BEYOND("near-travel", BITE_NOTE),
    [BITE_REMARK_NO_TRAVEL] =
        {"no-travel", BITE_NOTE, "stock", "", {{"machine", BITE_REMARK_TEXT}}},
    [BITE_REMARK_STACK_TOO_HIGH] = BEYOND("stack-too-high", BITE_CARE),
    [BITE_REMARK_OVERHANGS_TABLE] = {"overhangs-table",
                                     BITE_NOTE,
                                     "stock",
                                     "",
                                     {{"by", BITE_REMARK_LENGTH},
                                      {"machine", BITE_REMARK_TEXT},
                                      {"setups", BITE_REMARK_TEXT}}},
    [BITE_REMARK_VISE_TOO_SMALL] = BEYOND("vise-too-small", BITE_CARE),
    [BITE_REMARK_OVERHANGS_JAWS] = {"overhangs-jaws",
                                    BITE_NOTE,
                                    "hold",
                                    "common-practice",
                                    {{"length", BITE_REMARK_LENGTH},
                                     {"jaws", BITE_REMARK_LENGTH},
                                     {"setup", BITE_REMARK_TEXT}}},
    [BITE_REMARK_FACING_ORDER] = {"facing-order",
                                  0,
                                  "warp",
                                  "estimate: layer removal from a sheet with skin stress",
                                  {{"one_sided", BITE_REMARK_LENGTH},
                                   {"as_planned", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_FEATURE_SIZE] =
        {"feature-size", BITE_NOTE, "passes", "", {{"pass", BITE_REMARK_TEXT}}},
    [BITE_REMARK_DEPTH_FROM_FLOOR] = {"depth-from-floor",
                                      0,
                                      "passes",
                                      "",
                                      {{"pass", BITE_REMARK_TEXT},
                                       {"depth", BITE_REMARK_LENGTH},
                                       {"thickness", BITE_REMARK_LENGTH},
                                       {"floor", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_AREA_NOT_REDUCED] = {"area-not-reduced",
                                      BITE_CARE,
                                      "hold",
                                      "",
                                      {{"pass", BITE_REMARK_TEXT}, {"setup", BITE_REMARK_NUMBER}}},
    [BITE_REMARK_DEFAULT_PASSES] = {"default-passes", BITE_NOTE, "passes", "", {{0}}},
    [BITE_REMARK_DRILL_THROUGH] = {"drill-through",
                                   BITE_CARE,
                                   "passes",
                                   "estimate: point of 118 degrees",
                                   {{"pass", BITE_REMARK_TEXT},
                                    {"point", BITE_REMARK_LENGTH},
                                    {"below", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_DRILL_BELOW] = {"drill-below",
                                 BITE_NOTE,
                                 "passes",
                                 "estimate: point of 118 degrees",
                                 {{"pass", BITE_REMARK_TEXT},
                                  {"below", BITE_REMARK_LENGTH},
                                  {"point", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_NO_TOOL_AT_HAND] = {"no-tool-at-hand",
                                     BITE_CARE,
                                     "tools",
                                     "",
                                     {{"pass", BITE_REMARK_TEXT},
                                      {"depth", BITE_REMARK_LENGTH},
                                      {"tool", BITE_REMARK_TEXT}}},
    [BITE_REMARK_THREAD_MILLED] = {"thread-milled",
                                   BITE_NOTE,
                                   "tools",
                                   "",
                                   {{"pass", BITE_REMARK_TEXT},
                                    {"tap_speed", BITE_REMARK_ROTATION},
                                    {"speed_share", BITE_REMARK_SHARE},
                                    {"limit", BITE_REMARK_TEXT}}},
    [BITE_REMARK_MILL_INSTEAD] = {"mill-instead",
                                  BITE_CARE,
                                  "tools",
                                  "",
                                  {{"pass", BITE_REMARK_TEXT},
                                   {"tool", BITE_REMARK_TEXT},
                                   {"spindle", BITE_REMARK_ROTATION},
                                   {"centre_feed", BITE_REMARK_SPEED},
                                   {"passes", BITE_REMARK_NUMBER},
                                   {"seconds", BITE_REMARK_TIME},
                                   {"chance", BITE_REMARK_SHARE}}},
    [BITE_REMARK_NO_MILL_INSTEAD] = {"no-mill-instead",
                                     BITE_CARE,
                                     "tools",
                                     "",
                                     {{"pass", BITE_REMARK_TEXT}, {"where", BITE_REMARK_TEXT}}},
    [BITE_REMARK_NO_TOOL_IN_TABLE] = {"no-tool-in-table",
                                      BITE_CARE,
                                      "tools",
                                      "",
                                      {{"pass", BITE_REMARK_TEXT},
                                       {"depth", BITE_REMARK_LENGTH},
                                       {"tool", BITE_REMARK_TEXT}}},
    [BITE_REMARK_NO_WORKHOLDING] = {"no-workholding", BITE_CARE, "hold", "", {{0}}},
    [BITE_REMARK_RELEASE_SOLVENT] = {"release-solvent",
                                     BITE_CARE,
                                     "hold",
                                     "",
                                     {{"method", BITE_REMARK_TEXT},
                                      {"fluid", BITE_REMARK_TEXT},
                                      {"material", BITE_REMARK_TEXT}}},
    [BITE_REMARK_BOND_MAY_FAIL] = {"bond-may-fail",
                                   BITE_CARE,
                                   "hold",
                                   "estimate: forces of this plan, creep and warmth of the bond",
                                   {{"method", BITE_REMARK_TEXT},
                                    {"pass", BITE_REMARK_TEXT},
                                    {"utilization", BITE_REMARK_SHARE},
                                    {"chance", BITE_REMARK_SHARE}}},
    [BITE_REMARK_VACUUM_GROOVE] = {"vacuum-groove",
                                   BITE_CARE,
                                   "hold",
                                   "estimate: strip clamped at its edges, 85 kPa",
                                   {{"groove", BITE_REMARK_LENGTH}, {"sag", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_CUTS_BELOW_TAPE] = {"cuts-below-tape",
                                     BITE_CARE,
                                     "hold",
                                     "common-practice",
                                     {{"break_through", BITE_REMARK_LENGTH},
                                      {"tape", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_NO_BOARD] = {"no-board", BITE_NOTE, "hold", "common-practice", {{0}}},
    [BITE_REMARK_TAPE_ON_TOOL] = {"tape-on-tool", BITE_NOTE, "hold", "common-practice", {{0}}},
    [BITE_REMARK_FILM_TAPE] = {"film-tape", BITE_CARE, "hold", "common-practice", {{0}}},
    [BITE_REMARK_GLUE_CURE] = {"glue-cure",
                               0,
                               "hold",
                               "handbook: Handbook of Adhesive Technology, 10 s without a gap, 600 "
                               "s at 0.127 mm, steel on steel",
                               {{"gap", BITE_REMARK_LENGTH}, {"cure", BITE_REMARK_TIME}}},
    [BITE_REMARK_POOR_ADHESION] = {"poor-adhesion",
                                   BITE_CARE,
                                   "hold",
                                   "estimate: surface energy, and the peel of one tape on several "
                                   "plastics",
                                   {{"material", BITE_REMARK_TEXT}, {"share", BITE_REMARK_SHARE}}},
    [BITE_REMARK_HOLDING_NOT_JUDGED] =
        {"holding-not-judged", BITE_CARE, "hold", "", {{"method", BITE_REMARK_TEXT}}},
    [BITE_REMARK_CLAMP_SLIPS] = MAY_FAIL("clamp-slips"),
    [BITE_REMARK_CLAMP_LEVERS] = MAY_FAIL("clamp-levers"),
    [BITE_REMARK_CLAMP_STRIPS] = MAY_FAIL("clamp-strips"),
    [BITE_REMARK_CLAMP_SHEARS] = MAY_FAIL("clamp-shears"),
    [BITE_REMARK_CLAMP_CRUSHES] = MAY_FAIL("clamp-crushes"),
    [BITE_REMARK_CLAMP_STRETCHES] = MAY_FAIL("clamp-stretches"),
    [BITE_REMARK_CLAMP_BREAKS] = MAY_FAIL("clamp-breaks"),
    [BITE_REMARK_JAW_FORCE] =
        {"jaw-force", 0, "hold", "", {{"force", BITE_REMARK_FORCE}, {"needs", BITE_REMARK_FORCE}}},
    [BITE_REMARK_SCREW_FORCE] = {"screw-force",
                                 0,
                                 "hold",
                                 "",
                                 {{"force", BITE_REMARK_FORCE}, {"needs", BITE_REMARK_FORCE}}},
    [BITE_REMARK_BUCKLING] = {"buckling",
                              BITE_CARE,
                              "hold",
                              "estimate: Euler buckling of a plate between two edges",
                              {{"buckles", BITE_REMARK_FORCE},
                               {"share", BITE_REMARK_SHARE},
                               {"shorter", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_CUTTER_HITS_JAWS] = {"cutter-hits-jaws",
                                      BITE_DANGER,
                                      "hold",
                                      "common-practice",
                                      {{"pass", BITE_REMARK_TEXT}, {"by", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_CUTS_VISE_BED] = {"cuts-vise-bed",
                                   BITE_DANGER,
                                   "hold",
                                   "",
                                   {{"pass", BITE_REMARK_TEXT},
                                    {"below", BITE_REMARK_LENGTH},
                                    {"room", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_GRIPPED_SO] = {"gripped-so",
                                BITE_NOTE,
                                "hold",
                                "",
                                {{"setup", BITE_REMARK_TEXT},
                                 {"depth", BITE_REMARK_LENGTH},
                                 {"between", BITE_REMARK_LENGTH},
                                 {"jaws", BITE_REMARK_LENGTH},
                                 {"room", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_LOOSE_IN_JAWS] = {"loose-in-jaws", BITE_CARE, "hold", "common-practice", {{0}}},
    [BITE_REMARK_HELD_BY_OWN_SCREWS] =
        {"held-by-own-screws", BITE_NOTE, "hold", "common-practice", {{0}}},
    [BITE_REMARK_TABS] = {"tabs",
                          0,
                          "hold",
                          "",
                          {{"tabs", BITE_REMARK_NUMBER},
                           {"width", BITE_REMARK_LENGTH},
                           {"height", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_TABS_IF_CUT_FREE] = {"tabs-if-cut-free",
                                      0,
                                      "hold",
                                      "",
                                      {{"tabs", BITE_REMARK_NUMBER},
                                       {"width", BITE_REMARK_LENGTH},
                                       {"height", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_FRAME_CLAMPS] = {"frame-clamps", BITE_NOTE, "hold", "common-practice", {{0}}},
    [BITE_REMARK_FLUID_NO] = {"fluid-no",
                              BITE_CARE,
                              "fluids",
                              "",
                              {{"fluid", BITE_REMARK_TEXT},
                               {"use", BITE_REMARK_TEXT},
                               {"material", BITE_REMARK_TEXT},
                               {"says", BITE_REMARK_TEXT},
                               {"watch", BITE_REMARK_TIME},
                               {"instead", BITE_REMARK_TEXT}}},
    [BITE_REMARK_FLUID_RISK] = {"fluid-risk",
                                BITE_CARE,
                                "fluids",
                                "",
                                {{"fluid", BITE_REMARK_TEXT},
                                 {"use", BITE_REMARK_TEXT},
                                 {"material", BITE_REMARK_TEXT},
                                 {"says", BITE_REMARK_TEXT},
                                 {"watch", BITE_REMARK_TIME},
                                 {"instead", BITE_REMARK_TEXT}}},
    [BITE_REMARK_FLUID_UNKNOWN] = {"fluid-unknown",
                                   BITE_CARE,
                                   "fluids",
                                   "",
                                   {{"fluid", BITE_REMARK_TEXT}, {"material", BITE_REMARK_TEXT}}},
    [BITE_REMARK_COOLANT_UNNAMED] = {"coolant-unnamed",
                                     BITE_CARE,
                                     "fluids",
                                     "common-practice",
                                     {{"coolant", BITE_REMARK_TEXT},
                                      {"material", BITE_REMARK_TEXT},
                                      {"safe", BITE_REMARK_TEXT},
                                      {"refused", BITE_REMARK_TEXT}}},
    [BITE_REMARK_LASER_EDGE] = {"laser-edge",
                                BITE_CARE,
                                "fluids",
                                "datasheet: crazing of laser-cut acrylic edges by solvents and "
                                "ammonia cleaner; soapy water is fine",
                                {{"fluid", BITE_REMARK_TEXT},
                                 {"mill_off", BITE_REMARK_ROUND_LENGTH}}},
    [BITE_REMARK_CORNERS] = {"corners",
                             BITE_CARE,
                             "time",
                             "estimate: corner speed from acceleration and deviation",
                             {{"pass", BITE_REMARK_TEXT}, {"share", BITE_REMARK_SHARE}}},
    [BITE_REMARK_ENTRY_HOLE] = {"entry-hole",
                                BITE_CARE,
                                "passes",
                                "common-practice",
                                {{"pass", BITE_REMARK_TEXT},
                                 {"hole", BITE_REMARK_LENGTH},
                                 {"why", BITE_REMARK_TEXT}}},
    [BITE_REMARK_ENTRY_BY_PASS] = {"entry-by-pass",
                                   BITE_NOTE,
                                   "passes",
                                   "common-practice",
                                   {{"pass", BITE_REMARK_TEXT},
                                    {"by", BITE_REMARK_TEXT},
                                    {"hole", BITE_REMARK_LENGTH},
                                    {"why", BITE_REMARK_TEXT}}},
    [BITE_REMARK_ENTRY_PLUNGE] =
        {"entry-plunge", BITE_CARE, "passes", "common-practice", {{"pass", BITE_REMARK_TEXT}}},
    [BITE_REMARK_ENTRY_SHORT] = {"entry-short",
                                 BITE_CARE,
                                 "passes",
                                 "common-practice",
                                 {{"pass", BITE_REMARK_TEXT},
                                  {"entry", BITE_REMARK_TEXT},
                                  {"room", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_FINISH_ALLOWANCE] = {"finish-allowance",
                                      BITE_CARE,
                                      "passes",
                                      "estimate: deflection of tool and machine, and runout",
                                      {{"pass", BITE_REMARK_TEXT},
                                       {"allowance", BITE_REMARK_LENGTH},
                                       {"wall_error", BITE_REMARK_LENGTH},
                                       {"finish", BITE_REMARK_TEXT}}},
    [BITE_REMARK_NO_LEAD] = {"no-lead",
                             BITE_CARE,
                             "passes",
                             "common-practice",
                             {{"pass", BITE_REMARK_TEXT},
                              {"room", BITE_REMARK_LENGTH},
                              {"takes", BITE_REMARK_LENGTH},
                              {"diameter", BITE_REMARK_ROUND_LENGTH},
                              {"overlap", BITE_REMARK_ROUND_LENGTH}}},
    [BITE_REMARK_FLOOR_BENDS] = {"floor-bends",
                                 BITE_CARE,
                                 "hold",
                                 "estimate: plate clamped on all sides, axial force of the cut at "
                                 "its middle",
                                 {{"pass", BITE_REMARK_TEXT},
                                  {"floor", BITE_REMARK_LENGTH},
                                  {"across", BITE_REMARK_LENGTH},
                                  {"bend", BITE_REMARK_ROUND_LENGTH},
                                  {"needed", BITE_REMARK_ROUND_LENGTH}}},
    [BITE_REMARK_WEB_BENDS] = {"web-bends",
                               BITE_CARE,
                               "hold",
                               "estimate: plate clamped on all sides, axial force of the cut at "
                               "its middle",
                               {{"pass", BITE_REMARK_TEXT},
                                {"floor", BITE_REMARK_LENGTH},
                                {"across", BITE_REMARK_LENGTH},
                                {"bend", BITE_REMARK_ROUND_LENGTH},
                                {"needed", BITE_REMARK_ROUND_LENGTH}}},
    [BITE_REMARK_FLOOR_COSTS] = {"floor-costs",
                                 BITE_CARE,
                                 "passes",
                                 "estimate: the same pass chosen with tape under the floor",
                                 {{"pass", BITE_REMARK_TEXT},
                                  {"passes", BITE_REMARK_NUMBER},
                                  {"depth", BITE_REMARK_LENGTH},
                                  {"passes_supported", BITE_REMARK_NUMBER},
                                  {"depth_supported", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_SUPPORT_ASSUMED] =
        {"support-assumed",
         BITE_CARE,
         "passes",
         "estimate: the same pass chosen with that support under the floor",
         {{"pass", BITE_REMARK_TEXT},
          {"support", BITE_REMARK_TEXT},
          {"unsupported", BITE_REMARK_TIME}}},
    [BITE_REMARK_WALL_BENDS] = {"wall-bends",
                                BITE_CARE,
                                "passes",
                                "",
                                {{"pass", BITE_REMARK_TEXT},
                                 {"wall", BITE_REMARK_LENGTH},
                                 {"height", BITE_REMARK_LENGTH},
                                 {"bend", BITE_REMARK_ROUND_LENGTH},
                                 {"step", BITE_REMARK_ROUND_LENGTH}}},
    [BITE_REMARK_WALL_DERIVED] = {"wall-derived",
                                  0,
                                  "passes",
                                  "estimate: half of what the pocket leaves of the part",
                                  {{"wall", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_SPRINGS] = {"springs",
                             BITE_NOTE,
                             "passes",
                             "estimate: the same lap with what the one before left as its width",
                             {{"pass", BITE_REMARK_TEXT},
                              {"first", BITE_REMARK_LENGTH},
                              {"springs", BITE_REMARK_NUMBER},
                              {"leaves", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_SPRINGS_DO_NOT_HELP] =
        {"springs-do-not-help",
         BITE_CARE,
         "passes",
         "estimate: the same lap with what the one before left as its width",
         {{"pass", BITE_REMARK_TEXT},
          {"first", BITE_REMARK_LENGTH},
          {"springs", BITE_REMARK_NUMBER},
          {"leaves", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_VACUUM_FLOOR] = {"vacuum-floor",
                                  BITE_CARE,
                                  "hold",
                                  "handbook: Mechanical Engineer's Data Handbook, 1.10.2, plate "
                                  "clamped on all sides, 85 kPa",
                                  {{"web", BITE_REMARK_LENGTH},
                                   {"across", BITE_REMARK_LENGTH},
                                   {"sag", BITE_REMARK_ROUND_LENGTH}}},
    [BITE_REMARK_BOW_SPRINGS_BACK] = {"bow-springs-back",
                                      BITE_CARE,
                                      "warp",
                                      "common-practice",
                                      {{"method", BITE_REMARK_TEXT}, {"bow", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_SOAK_PAUSE] =
        {"soak-pause",
         BITE_CARE,
         "hold",
         "estimate: the warm zone beside the path as one body on a cold fixture",
         {{"pass", BITE_REMARK_TEXT},
          {"rise", BITE_REMARK_RISE},
          {"allowed", BITE_REMARK_RISE},
          {"pauses", BITE_REMARK_NUMBER},
          {"pause", BITE_REMARK_TIME}}},
    [BITE_REMARK_SOAK_COOL] =
        {"soak-cool",
         BITE_CARE,
         "hold",
         "estimate: the warm zone beside the path as one body on a cold fixture",
         {{"pass", BITE_REMARK_TEXT}, {"rise", BITE_REMARK_RISE}, {"allowed", BITE_REMARK_RISE}}},
    [BITE_REMARK_SOAK_SIZE] = {"soak-size",
                               BITE_CARE,
                               "passes",
                               "estimate: the part as one body on a cold fixture",
                               {{"pass", BITE_REMARK_TEXT},
                                {"rise", BITE_REMARK_RISE},
                                {"grows", BITE_REMARK_ROUND_LENGTH},
                                {"wait", BITE_REMARK_TIME},
                                {"before", BITE_REMARK_TEXT}}},
    [BITE_REMARK_GAUGE_RATIO] = {"gauge-ratio",
                                 BITE_NOTE,
                                 "inspection",
                                 "memory: ANSI/NCSL Z540.3, a ratio of 4",
                                 {{"check", BITE_REMARK_TEXT},
                                  {"instrument", BITE_REMARK_TEXT},
                                  {"uncertainty", BITE_REMARK_LENGTH},
                                  {"tolerance", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_GAUGE_CANNOT] = {"gauge-cannot-prove",
                                  BITE_CARE,
                                  "inspection",
                                  "standard: ISO 14253-1 by summaries, the guard bands meet",
                                  {{"check", BITE_REMARK_TEXT},
                                   {"instrument", BITE_REMARK_TEXT},
                                   {"uncertainty", BITE_REMARK_LENGTH},
                                   {"tolerance", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_SHOP_CANNOT] = {"shop-cannot",
                                 BITE_CARE,
                                 "inspection",
                                 "",
                                 {{"what", BITE_REMARK_TEXT},
                                  {"with", BITE_REMARK_TEXT},
                                  {"instead", BITE_REMARK_TEXT}}},
    [BITE_REMARK_NOTHING_PROVES] = {"nothing-proves",
                                    BITE_CARE,
                                    "inspection",
                                    "",
                                    {{"what", BITE_REMARK_TEXT}, {"with", BITE_REMARK_TEXT}}},
    [BITE_REMARK_GAUGE_PRESSES] = {"gauge-presses",
                                   BITE_CARE,
                                   "inspection",
                                   "estimate: contact and bending under the instrument's force",
                                   {{"check", BITE_REMARK_TEXT},
                                    {"instrument", BITE_REMARK_TEXT},
                                    {"pressed", BITE_REMARK_LENGTH},
                                    {"tolerance", BITE_REMARK_LENGTH}}},
    [BITE_REMARK_GAUGE_DENTS] = {"gauge-dents",
                                 BITE_CARE,
                                 "inspection",
                                 "estimate: Hertz, yield at 1.6 times the yield stress",
                                 {{"check", BITE_REMARK_TEXT},
                                  {"instrument", BITE_REMARK_TEXT},
                                  {"force", BITE_REMARK_FORCE},
                                  {"dent_force", BITE_REMARK_FORCE}}},
    [BITE_REMARK_GAUGE_BUCKLES] = {"gauge-buckles",
                                   BITE_CARE,
                                   "inspection",
                                   "estimate: a plate between two edges",
                                   {{"check", BITE_REMARK_TEXT},
                                    {"instrument", BITE_REMARK_TEXT},
                                    {"force", BITE_REMARK_FORCE},
                                    {"buckling_force", BITE_REMARK_FORCE}}},
    [BITE_REMARK_GAUGE_WARMTH] = {"gauge-warmth",
                                  BITE_NOTE,
                                  "inspection",
                                  "standard: ISO 1, sizes hold at 20 degC",
                                  {{"check", BITE_REMARK_TEXT},
                                   {"instrument", BITE_REMARK_TEXT},
                                   {"growth", BITE_REMARK_LENGTH},
                                   {"tolerance", BITE_REMARK_LENGTH}}},
};

const bite_remark_definition *bite_remark_define(uint32_t id)
{
    return id < BITE_REMARK_COUNT ? &definitions[id] : NULL;
}

const char *bite_remark_about(const bite_remark *remark)
{
    const bite_remark_definition *definition = bite_remark_define(remark->id);
    int caution = remark->id == BITE_REMARK_CAUTION || remark->id == BITE_REMARK_CAUTION_OF_PASS;
    return definition == NULL                           ? ""
           : caution && remark->severity == BITE_DANGER ? "safety"
                                                        : definition->about;
}

bite_remark_value bite_remark_text(const char *text)
{
    bite_remark_value value = {text == NULL ? "" : text, (double)NAN};
    return value;
}

bite_remark_value bite_remark_number(double quantity)
{
    bite_remark_value value = {NULL, quantity};
    return value;
}

static int same_value(const bite_remark_value *a, const bite_remark_value *b)
{
    if (a->text != NULL || b->text != NULL) {
        return a->text != NULL && b->text != NULL && strcmp(a->text, b->text) == 0;
    }
    return a->quantity == b->quantity || (isnan(a->quantity) && isnan(b->quantity));
}

static int same_remark(const bite_remark *a, const bite_remark *b)
{
    int same = a->id == b->id;
    for (size_t i = 0; i < BITE_REMARK_VALUES_MAX && same; i++) {
        same = same_value(&a->values[i], &b->values[i]);
    }
    return same;
}

static int has_remark(const bite_job *job, const bite_remark *remark)
{
    for (size_t i = 0; i < job->remark_count; i++) {
        if (same_remark(&job->remarks[i], remark)) {
            return 1;
        }
    }
    return 0;
}

static int make_space(bite_job *job)
{
    if (job->remark_count < job->remark_capacity) {
        return 1;
    }
    size_t capacity = job->remark_capacity == 0 ? 64 : 2 * job->remark_capacity;
    bite_remark *more = bite_arena_alloc(job->arena, capacity, sizeof *more);
    if (more == NULL) {
        job->out_of_memory = 1;
        return 0;
    }
    if (job->remark_count > 0) {
        memcpy(more, job->remarks, job->remark_count * sizeof *more);
    }
    job->remarks = more;
    job->remark_capacity = capacity;
    return 1;
}

void bite_plan_remark_from(bite_job *job, bite_remark_id id, uint32_t severity, const char *source,
                           const bite_remark_value *values, size_t count)
{
    bite_remark remark;
    memset(&remark, 0, sizeof remark);
    remark.id = id;
    remark.severity = severity;
    remark.source = source;
    for (size_t i = 0; i < BITE_REMARK_VALUES_MAX; i++) {
        remark.values[i] = i < count ? values[i] : bite_remark_number((double)NAN);
    }
    if (!has_remark(job, &remark) && make_space(job)) {
        job->remarks[job->remark_count++] = remark;
    }
}

void bite_plan_remark(bite_job *job, bite_remark_id id, const bite_remark_value *values,
                      size_t count)
{
    bite_plan_remark_from(job, id, definitions[id].severity, definitions[id].source, values, count);
}

void bite_plan_sort_remarks(bite_job *job)
{
    for (size_t i = 1; i < job->remark_count; i++) {
        bite_remark moved = job->remarks[i];
        size_t at = i;
        for (; at > 0 && job->remarks[at - 1].severity < moved.severity; at--) {
            job->remarks[at] = job->remarks[at - 1];
        }
        job->remarks[at] = moved;
    }
}
