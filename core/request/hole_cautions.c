/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a machinist is told about drilling, tapping and reaming a material: general words here, and
 * those of hole_work.ini for the material. */
#include "core/request/hole_cautions.h"
#include "core/cut/physics_inputs.h"
#include "core/library/collection.h"
#include "core/names/registry.h"
#include "core/tables/provenance.h"
#include <math.h>
#include <string.h>

/* A drill whose point differs by more than this from the usual one is worth a word, rad. */
static const double point_slack = 0.18;

static const char practice[] = "common-practice";

static int say(const bite_case_view *view, const char *name, uint32_t severity, const char *text,
               const char *source)
{
    return view->caution(view->user, name, severity, text, source);
}

/* The source of the record's first figure, which is that of its section. */
static const char *source_of(const bite_item_record *usual)
{
    for (size_t i = 0; i < usual->value_count; i++) {
        if (usual->values[i].source != NULL) {
            return usual->values[i].source;
        }
    }
    return practice;
}

static int say_of_material(const bite_case_view *view, const char *name, uint32_t severity,
                           const bite_item_record *usual, const char *key)
{
    const char *text = bite_item_text(usual, key);
    return text[0] == 0 || say(view, name, severity, text, source_of(usual));
}

static int taps(const bite_answer *answer, const bite_case_view *view)
{
    const bite_cut *cut = &answer->full;
    int good =
        say(view, "synchronous", BITE_NOTE,
            "Rigid tapping needs a spindle that turns in step with the feed and reverses; without "
            "one use a holder with length compensation in tension and compression, or mill the "
            "thread. The feed is {pitch} each turn at any speed.",
            practice);
    return good &&
           say(view, "tap-kind", BITE_NOTE,
               cut->blind == 1
                   ? "Blind hole: spiral flutes lift the chips. Drill deeper than the thread "
                     "by the chamfer of the tap ({tap_lead} threads) and a pitch."
                   : "Through hole: a spiral point pushes the chips ahead; let the chamfer "
                     "of the tap ({tap_lead} threads) come out. For a blind hole state blind "
                     "= yes: spiral flutes, and a deeper hole.",
               practice);
}

static int drills(const bite_answer *answer, const bite_case_view *view,
                  const bite_item_record *usual)
{
    const bite_field_value *through = bite_item_field(usual, "point");
    const bite_field_value *blind = bite_item_field(usual, "point_blind");
    const bite_field_value *stated = through == NULL ? blind : through;
    int polymer = answer->full.substance == BITE_AMORPHOUS;
    double least = through == NULL ? (double)NAN : through->value;
    double most = blind == NULL ? least : blind->value;
    double point = answer->full.point_angle;
    int blunt = polymer && point > most + point_slack;
    int odd = blunt || (polymer && point > least + point_slack);
    return !odd || stated == NULL ||
           say(view, "drill-point", BITE_NOTE,
               "A point of {point_angle} digs in and breaks out the far side of a through "
               "hole in this material: coolbite list drills has drills that are ground "
               "for plastics (-plastics).",
               stated->source);
}

int bite_hole_cautions(const bite_answer *answer, const bite_case_view *view)
{
    static const struct {
        uint32_t operation;
        bite_hole_work work;
        const char *name;
    } works[] = {{BITE_TAP, BITE_HOLE_TAPPING, "tapping"},
                 {BITE_REAM, BITE_HOLE_REAMING, "reaming"},
                 {BITE_DRILL_HOLE, BITE_HOLE_DRILLING, "drilling"}};
    const bite_cut *cut = &answer->full;
    const bite_item_record *usual = NULL;
    for (size_t i = 0; i < sizeof works / sizeof *works; i++) {
        if (works[i].operation != cut->operation) {
            continue;
        }
        bite_status status = bite_library_hole_work(
            answer->request.library, works[i].work, answer->request.grade,
            bite_input_word(bite_input_find("substance"), cut->substance), &usual, NULL);
        int crazes = cut->substance == BITE_AMORPHOUS;
        int good = status != BITE_NO_MEMORY && (cut->operation != BITE_TAP || taps(answer, view));
        if (status != BITE_OK || !good) {
            return good;
        }
        good = cut->operation != BITE_DRILL_HOLE || drills(answer, view, usual);
        return good &&
               say_of_material(view, works[i].name, crazes ? BITE_CARE : BITE_NOTE, usual, "says");
    }
    return 1;
}
