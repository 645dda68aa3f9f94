/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How fluids are rated on materials. */
#include "core/job/fluid_compatibility.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

const char *bite_rating_name(uint32_t rating)
{
    static const char *const names[] = {"safe", "risk", "no", "unknown"};
    return rating <= BITE_RATED_UNKNOWN ? names[rating] : NULL;
}

static int is_also(const bite_item_record *fluid, const char *name)
{
    const bite_field_value *also = bite_item_field(fluid, "also");
    for (const char *at = also == NULL ? "" : also->text; *at != 0;) {
        size_t length = strcspn(at, " ");
        if (bite_text_equals_part(at, length, name)) {
            return 1;
        }
        at += length;
        at += strspn(at, " ");
    }
    return 0;
}

bite_status bite_fluid_find(const bite_library *library, const char *name,
                            const bite_item_record **fluid, bite_error *error)
{
    size_t count = 0;
    bite_status status = bite_library_size(library, BITE_FLUIDS, &count, error);
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        bite_item item;
        const bite_item_record *record = NULL;
        status = bite_library_item(library, BITE_FLUIDS, i, &item, error);
        status = status != BITE_OK
                     ? status
                     : bite_library_record(library, BITE_FLUIDS, item.name, &record, error);
        if (status == BITE_OK && is_also(record, name)) {
            *fluid = record;
            return BITE_OK;
        }
    }
    return status != BITE_OK ? status
                             : bite_library_record(library, BITE_FLUIDS, name, fluid, error);
}

/* The word of a grade's substance ("amorphous"). */
static const char *substance_of(const bite_material *material)
{
    const bite_field_value *field_value = bite_item_field(&material->record, "substance");
    return field_value == NULL ? "any" : field_value->field->words[field_value->word];
}

bite_status bite_fluid_rate(const bite_library *library, const bite_item_record *fluid,
                            const bite_material *material, int annealed, bite_fluid_rating *result,
                            bite_error *error)
{
    const char *const of[] = {material->family_name, substance_of(material), "any"};
    bite_fluid_rating none = {fluid, BITE_RATED_UNKNOWN, BITE_RATED_UNKNOWN, "", "",
                              "",    (double)NAN};
    *result = none;
    for (size_t i = 0; i < sizeof of / sizeof *of; i++) {
        char name[200];
        const bite_item_record *rating = NULL;
        (void)snprintf(name, sizeof name, "%s.%s", fluid->name, of[i]);
        bite_status status = bite_library_rating(library, name, &rating, NULL);
        if (status == BITE_UNKNOWN_NAME) {
            continue;
        }
        if (status != BITE_OK) {
            return bite_library_rating(library, name, &rating, error);
        }
        const bite_field_value *watch = bite_item_field(rating, "watch");
        result->rating =
            bite_item_word(rating, annealed ? "annealed" : "verdict", BITE_RATED_UNKNOWN);
        result->other = bite_item_word(rating, "other", BITE_RATED_UNKNOWN);
        result->says = bite_item_text(rating, "says");
        result->source = bite_item_text(rating, "source");
        result->other_source = bite_item_text(rating, "other_source");
        result->watch = watch == NULL ? (double)NAN : watch->value;
        return BITE_OK;
    }
    return BITE_OK;
}
