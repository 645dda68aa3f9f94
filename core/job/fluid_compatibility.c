/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fluids against materials. */
#include "core/job/fluid_compatibility.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

const char *bite_rating_name(uint32_t rating)
{
    static const char *const names[] = {"safe", "risk", "no", "unknown"};
    return rating <= BITE_RATED_UNKNOWN ? names[rating] : NULL;
}

static int is_also(const bite_thing *fluid, const char *name)
{
    const bite_cell *also = bite_thing_cell(fluid, "also");
    for (const char *at = also == NULL ? "" : also->text; *at != 0;) {
        size_t length = strcspn(at, " ");
        if (bite_text_same_part(at, length, name)) {
            return 1;
        }
        at += length;
        at += strspn(at, " ");
    }
    return 0;
}

bite_status bite_fluid_find(const bite_library *library, const char *name, const bite_thing **fluid, bite_error *error)
{
    size_t count = bite_library_count(library, BITE_FLUIDS);
    for (size_t i = 0; i < count; i++) {
        bite_item item;
        const bite_thing *thing = NULL;
        if (bite_library_item(library, BITE_FLUIDS, i, &item, NULL) == BITE_OK &&
            bite_library_thing(library, BITE_FLUIDS, item.name, &thing, NULL) == BITE_OK && is_also(thing, name)) {
            *fluid = thing;
            return BITE_OK;
        }
    }
    return bite_library_thing(library, BITE_FLUIDS, name, fluid, error);
}

/* The word of a grade's substance ("amorphous"). */
static const char *substance_of(const bite_grade_card *card)
{
    const bite_cell *cell = bite_thing_cell(&card->thing, "substance");
    return cell == NULL ? "any" : cell->field->words[cell->word];
}

bite_status bite_fluid_judge(const bite_library *library, const bite_thing *fluid, const bite_grade_card *card, int annealed,
                             bite_fluid_judged *judged, bite_error *error)
{
    const char *const of[] = {card->family_name, substance_of(card), "any"};
    bite_fluid_judged none = {fluid, BITE_RATED_UNKNOWN, BITE_RATED_UNKNOWN, "", "", "", (double)NAN};
    *judged = none;
    for (size_t i = 0; i < sizeof of / sizeof *of; i++) {
        char name[200];
        const bite_thing *rating = NULL;
        (void)snprintf(name, sizeof name, "%s.%s", fluid->name, of[i]);
        bite_status status = bite_library_rating(library, name, &rating, NULL);
        if (status == BITE_UNKNOWN_NAME) {
            continue;
        }
        if (status != BITE_OK) {
            return bite_library_rating(library, name, &rating, error);
        }
        const bite_cell *watch = bite_thing_cell(rating, "watch");
        judged->rating = bite_thing_word(rating, annealed ? "annealed" : "verdict", BITE_RATED_UNKNOWN);
        judged->other = bite_thing_word(rating, "other", BITE_RATED_UNKNOWN);
        judged->says = bite_thing_text(rating, "says");
        judged->source = bite_thing_text(rating, "source");
        judged->other_source = bite_thing_text(rating, "other_source");
        judged->watch = watch == NULL ? (double)NAN : watch->value;
        return BITE_OK;
    }
    return BITE_OK;
}
