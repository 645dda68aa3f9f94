/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How fluids are rated on materials. */
#include "core/job/fluid_compatibility.h"
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/alias.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include "core/library/material.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

const char *bite_rating_name(uint32_t rating)
{
    static const char *const names[] = {"safe", "risk", "no", "unknown"};
    return rating <= BITE_RATED_UNKNOWN ? names[rating] : NULL;
}

bite_status bite_fluid_find(const bite_library *library, const char *name,
                            const bite_item_record **fluid, bite_error *error)
{
    return bite_library_record_also(library, BITE_FLUIDS, name, fluid, error);
}

/* The rating of a fluid on a grade: of the family, else of those that the grade is like, else of
 * its kind of substance, else of any. NULL: there is none. name: the rating's own,
 * "isopropanol.acrylic". */
static bite_status find_rating(const bite_library *library, const bite_item_record *fluid,
                               const bite_material *material, char *name, size_t size,
                               const bite_item_record **rating, bite_error *error)
{
    const char *const of[] = {bite_material_substance(material), "any"};
    *rating = NULL;
    for (size_t i = 0; i < material->kin_count + sizeof of / sizeof *of; i++) {
        (void)snprintf(name, size, "%s.%s", fluid->name,
                       i < material->kin_count ? material->kin[i].family
                                               : of[i - material->kin_count]);
        bite_error_clear(error); /* of the name before */
        bite_status status = bite_library_rating(library, name, rating, error);
        if (status != BITE_UNKNOWN_NAME) {
            return status;
        }
    }
    bite_error_clear(error);
    return BITE_OK;
}

bite_status bite_fluid_rate(const bite_library *library, const bite_item_record *fluid,
                            const bite_material *material, int annealed, bite_fluid_rating *result,
                            bite_error *error)
{
    bite_compatibility all;
    bite_status status = bite_fluid_compatibility(library, fluid, material, &all, error);
    bite_fluid_rating rated = {fluid,      annealed ? all.annealed : all.machined,
                               all.other,  all.reason,
                               all.source, all.other_source,
                               all.watch};
    if (status == BITE_OK) {
        *result = rated;
    }
    return status;
}

/* What to look for if no rating says it: only glassy polymers craze. */
static const char *usual_signs(const bite_material *material)
{
    return strcmp(bite_material_substance(material), "amorphous") == 0
               ? "fine bright lines that run in from edges, holes, corners and threads, seen in "
                 "raking light against a dark ground"
               : "";
}

static void fill_rating(const bite_item_record *rating, bite_compatibility *result)
{
    const bite_field_value *watch = bite_item_field(rating, "watch");
    const char *look = bite_item_text(rating, "look");
    result->machined = bite_item_word(rating, "verdict", BITE_RATED_UNKNOWN);
    result->annealed = bite_item_word(rating, "annealed", BITE_RATED_UNKNOWN);
    result->sheet = bite_item_word(rating, "sheet", BITE_RATED_UNKNOWN);
    result->other = bite_item_word(rating, "other", BITE_RATED_UNKNOWN);
    result->reason = bite_item_text(rating, "says");
    result->source = bite_item_text(rating, "source");
    result->sheet_source = bite_item_text(rating, "sheet_source");
    result->other_source = bite_item_text(rating, "other_source");
    result->table = rating->file;
    result->watch = watch == NULL ? (double)NAN : watch->value;
    result->signs = look[0] != 0 ? look : isnan(result->watch) ? "" : result->signs;
}

bite_status bite_fluid_compatibility(const bite_library *library, const bite_item_record *fluid,
                                     const bite_material *material, bite_compatibility *result,
                                     bite_error *error)
{
    char name[200];
    const bite_item_record *rating = NULL;
    bite_item_record behind;
    bite_compatibility all;
    memset(&all, 0, sizeof all);
    all.struct_size = (uint32_t)sizeof all;
    all.machined = all.annealed = all.sheet = all.other = all.overridden = BITE_RATED_UNKNOWN;
    all.fluid = fluid->name;
    all.title = fluid->title;
    all.use = bite_item_text(fluid, "use");
    all.hazard = bite_fluid_hazard(fluid);
    all.material = material->record.name;
    all.reason = all.signs = all.source = all.sheet_source = all.other_source = "";
    all.table = all.overridden_table = "";
    all.watch = (double)NAN;
    bite_status status = find_rating(library, fluid, material, name, sizeof name, &rating, error);
    if (status == BITE_OK && rating != NULL) {
        all.signs = usual_signs(material);
        fill_rating(rating, &all);
        status = bite_library_rating_overridden(library, name, &behind, error);
        if (status == BITE_OK && behind.file != NULL) {
            all.overridden = bite_item_word(&behind, "verdict", BITE_RATED_UNKNOWN);
            all.overridden_table = behind.file;
        }
    }
    if (status == BITE_OK) {
        *result = all;
    }
    return status;
}

bite_status bite_compatibility_find(const bite_library *library, const char *fluid,
                                    const char *material, bite_compatibility *result,
                                    bite_error *error)
{
    const bite_item_record *record = NULL;
    const bite_material *grade = NULL;
    bite_error_clear(error);
    if (library == NULL || fluid == NULL || material == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an open library, a fluid and a material were expected");
    }
    bite_compatibility made;
    bite_status status = bite_struct_check(&bite_struct_compatibility, result, "result", error);
    status = status != BITE_OK ? status : bite_library_grade(library, material, &grade, error);
    status = status != BITE_OK ? status : bite_fluid_find(library, fluid, &record, error);
    status =
        status != BITE_OK ? status : bite_fluid_compatibility(library, record, grade, &made, error);
    if (status == BITE_OK) {
        bite_struct_write(&bite_struct_compatibility, &made, result);
    }
    return status;
}

int bite_fluid_has_use(const bite_item_record *fluid, const char *use)
{
    const char *list = bite_item_text(fluid, "use");
    while (*list != 0) {
        size_t length = strcspn(list, " ,");
        if (length > 0 && bite_text_equals_part(list, length, use)) {
            return 1;
        }
        list += length + (list[length] != 0);
    }
    return 0;
}

/* Whether a fluid can do what another was to do. */
static int shares_use(const bite_item_record *fluid, const bite_item_record *other)
{
    static const char *const uses[] = {"coolant", "cleaner", "remover", "marking", "tapping"};
    for (size_t i = 0; i < sizeof uses / sizeof *uses; i++) {
        if (bite_fluid_has_use(fluid, uses[i]) && bite_fluid_has_use(other, uses[i])) {
            return 1;
        }
    }
    return 0;
}

bite_status bite_fluid_safe_titles(const bite_library *library, const bite_material *material,
                                   const bite_item_record *instead_of, const char *use,
                                   char *buffer, size_t size, bite_error *error)
{
    size_t count = 0;
    size_t used = 0;
    buffer[0] = 0;
    bite_status status = bite_library_size(library, BITE_FLUIDS, &count, error);
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        bite_item item;
        bite_compatibility all;
        const bite_item_record *fluid = NULL;
        status = bite_library_item(library, BITE_FLUIDS, i, &item, error);
        status = status != BITE_OK
                     ? status
                     : bite_library_record(library, BITE_FLUIDS, item.name, &fluid, error);
        if (status != BITE_OK ||
            (use != NULL ? !bite_fluid_has_use(fluid, use) : !shares_use(fluid, instead_of))) {
            continue;
        }
        status = bite_fluid_compatibility(library, fluid, material, &all, error);
        if (status == BITE_OK && all.hazard[0] != 0) {
            continue; /* what harms people is not recommended */
        }
        size_t length = strlen(fluid->title) + (used > 0 ? 2 : 0);
        if (status == BITE_OK && all.machined == BITE_RATED_SAFE && used + length < size) {
            (void)snprintf(buffer + used, size - used, "%s%s", used > 0 ? ", " : "", fluid->title);
            used += length;
        }
    }
    return status;
}

const char *bite_fluid_hazard(const bite_item_record *fluid)
{
    return bite_item_text(fluid, "hazard");
}

int bite_fluid_is_flammable(const bite_item_record *fluid)
{
    return strstr(bite_fluid_hazard(fluid), "flammable") != NULL ||
           strstr(fluid->summary, "flammable") != NULL;
}
