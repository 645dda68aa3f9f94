/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The symbols of ISO 13399 for what the tool table states, and the kinds of tools. The symbols are
 * those of makers' public lists; ZEFP, NOF, LPR, GAMF, TP, TPN and TPX are recalled. */
#include "core/library/tool_symbols.h"
#include "core/base/text.h"
#include <math.h>
#include <string.h>

const bite_tool_symbol bite_tool_symbols[] = {
    {"DC", "diameter", BITE_KIND_LENGTH, BITE_SYMBOL_SAME},
    {"DCX", "tip_diameter", BITE_KIND_LENGTH, BITE_SYMBOL_LARGEST},
    {"ZEFP", "flutes", BITE_KIND_NUMBER, BITE_SYMBOL_SAME},
    {"NOF", "flutes", BITE_KIND_NUMBER, BITE_SYMBOL_SAME},
    {"APMX", "flute_length", BITE_KIND_LENGTH, BITE_SYMBOL_SAME},
    {"LU", "neck_length", BITE_KIND_LENGTH, BITE_SYMBOL_REACH},
    {"DN", "neck_diameter", BITE_KIND_LENGTH, BITE_SYMBOL_SAME},
    {"DCONMS", "shank_diameter", BITE_KIND_LENGTH, BITE_SYMBOL_SAME},
    {"LPR", "stickout", BITE_KIND_LENGTH, BITE_SYMBOL_SAME},
    {"RE", "corner_radius", BITE_KIND_LENGTH, BITE_SYMBOL_SAME},
    {"FHA", "helix", BITE_KIND_ANGLE, BITE_SYMBOL_SAME},
    {"GAMF", "rake", BITE_KIND_ANGLE, BITE_SYMBOL_SAME},
    {"SIG", "point_angle", BITE_KIND_ANGLE, BITE_SYMBOL_SAME},
    {"KAPR", "taper", BITE_KIND_ANGLE, BITE_SYMBOL_LEAD},
    {"PSIR", "taper", BITE_KIND_ANGLE, BITE_SYMBOL_TAPER},
    {"RPMX", "tool_turn_limit", BITE_KIND_ROTATION, BITE_SYMBOL_SAME},
    {"SUBSTRATE", "tool_material", BITE_KIND_NUMBER, BITE_SYMBOL_SUBSTRATE},
    {"TPN", "pitch_least", BITE_KIND_LENGTH, BITE_SYMBOL_SAME},
    {"TPX", "pitch_most", BITE_KIND_LENGTH, BITE_SYMBOL_SAME},
    {"TP", "pitch_most", BITE_KIND_LENGTH, BITE_SYMBOL_PITCH},
    {"BD", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"LH", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"LCF", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"LF", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"OAL", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"CHW", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"TCDC", "", BITE_KIND_NUMBER, BITE_SYMBOL_NONE},
    {"TCDMM", "", BITE_KIND_NUMBER, BITE_SYMBOL_NONE},
    {"CZC", "", BITE_KIND_NUMBER, BITE_SYMBOL_NONE},
    {"CZCMS", "", BITE_KIND_NUMBER, BITE_SYMBOL_NONE},
    {"CZCWS", "", BITE_KIND_NUMBER, BITE_SYMBOL_NONE},
    {"COATING", "", BITE_KIND_NUMBER, BITE_SYMBOL_NONE},
    {"RETOLL", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"RETOLU", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"SDL", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"IC", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
    {"S", "", BITE_KIND_LENGTH, BITE_SYMBOL_NONE},
};
const size_t bite_tool_symbol_count = sizeof bite_tool_symbols / sizeof *bite_tool_symbols;

const bite_tool_symbol *bite_tool_symbol_find(const char *symbol, size_t length)
{
    for (size_t i = 0; i < bite_tool_symbol_count; i++) {
        if (bite_text_equals_part(symbol, length, bite_tool_symbols[i].symbol)) {
            return &bite_tool_symbols[i];
        }
    }
    return NULL;
}

enum { END_MILL, BALL_NOSE, BULL_NOSE, CHAMFER, ENGRAVING, DRILL, TAP, REAMER, THREAD_MILL, KINDS };

static const char *const kinds[KINDS] = {
    [END_MILL] = "end-mill", [BALL_NOSE] = "ball-nose", [BULL_NOSE] = "bull-nose",
    [CHAMFER] = "chamfer",   [ENGRAVING] = "engraving", [DRILL] = "drill",
    [TAP] = "tap",           [REAMER] = "reamer",       [THREAD_MILL] = "thread-mill"};

const char *bite_tool_kind(const bite_item_record *tool)
{
    static const struct {
        const char *operation; /* of the tool table */
        int kind;
    } by_operation[] = {{"drill", DRILL}, {"tap", TAP}, {"ream", REAMER}, {"chamfer", CHAMFER}};
    const bite_field_value *operation = bite_item_field(tool, "operation");
    for (size_t i = 0; operation != NULL && i < sizeof by_operation / sizeof *by_operation; i++) {
        if (bite_text_equals(operation->text, by_operation[i].operation)) {
            return kinds[by_operation[i].kind];
        }
    }
    if (bite_item_is_yes(tool, "thread_mill")) {
        return kinds[THREAD_MILL];
    }
    if (!isnan(bite_item_figure(tool, "taper"))) {
        return kinds[bite_item_is_yes(tool, "engraves") ? ENGRAVING : CHAMFER];
    }
    double radius = bite_item_figure(tool, "corner_radius");
    double ball =
        0.499 * bite_item_figure(tool, "diameter"); /* half of it, rounded to what is printed */
    return kinds[radius >= ball ? BALL_NOSE : radius > 0.0 ? BULL_NOSE : END_MILL];
}

bool bite_tool_makes_holes(const bite_item_record *tool)
{
    const char *kind = bite_tool_kind(tool);
    return kind == kinds[DRILL] || kind == kinds[TAP] || kind == kinds[REAMER] ||
           kind == kinds[THREAD_MILL];
}

const char *bite_tool_kind_at(size_t index)
{
    return index < KINDS ? kinds[index] : NULL;
}
