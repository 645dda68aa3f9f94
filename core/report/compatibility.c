/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fluids on materials: one pair in full, all fluids on a material as a table, and the lines about
 * fluids on a material's own page. */
#include "core/report/compatibility.h"
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/job/fluid_compatibility.h"
#include "core/job/plan_text.h"
#include "core/library/collection.h"
#include "core/library/listing.h"
#include "core/library/material.h"
#include "core/report/csv.h"
#include "core/report/json.h"
#include "core/report/style_check.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define COLUMN 24
#define TITLES_MAX 600 /* bytes of a list of titles */

/* As a page shows a rating: a refusal has to be seen. */
static const char *const shown[] = {"safe", "RISK", "NO", "unknown"};
static const int tints[] = {1, 2, 3, 0};

static const char *show(uint32_t rating)
{
    return rating <= BITE_RATED_UNKNOWN ? shown[rating] : "-";
}

/* Opens the page of a style, which may ask for CSV. */
static bite_status open_page(bite_page *page, const bite_style *style, bite_sink sink, void *user,
                             bite_error *error)
{
    bite_status status =
        bite_style_check(style, sink, BITE_STYLE_PAGE | BITE_STYLE_FORMAT(BITE_CSV), error);
    if (status != BITE_OK) {
        return status;
    }
    bite_style plain;
    if (style != NULL) {
        plain = bite_style_copy(style);
        plain.format = BITE_TEXT;
    }
    return bite_page_open(page, style == NULL ? NULL : &plain, sink, user, error)
               ? BITE_OK
               : BITE_BAD_ARGUMENT;
}

/* ---- one pair ---- */

static void pair_line(bite_page *page, const char *name, const char *text)
{
    char left[64];
    if (text[0] != 0) {
        (void)snprintf(left, sizeof left, "  %s  ", name);
        bite_page_column(page, left, COLUMN, text);
    }
}

static void state_line(bite_page *page, const char *state, uint32_t rating, const char *text,
                       const char *source)
{
    char line[1200];
    if (rating == BITE_RATED_UNKNOWN && text[0] == 0) {
        pair_line(page, state, "not stated");
        return;
    }
    (void)snprintf(line, sizeof line, "%s%s%s%s%s%s", show(rating), text[0] == 0 ? "" : ": ", text,
                   source[0] == 0 ? "" : " [", source, source[0] == 0 ? "" : "]");
    pair_line(page, state, line);
}

static const char *annealing_text(const bite_compatibility *pair)
{
    return pair->machined == BITE_RATED_UNKNOWN || pair->annealed == BITE_RATED_UNKNOWN ? ""
           : pair->annealed == pair->machined ? "changes nothing"
           : pair->annealed == BITE_RATED_SAFE
               ? "makes it safe, if the part then carries no load and no thread or press fit"
               : "lowers the danger, but does not make it safe";
}

static void conflict_lines(bite_page *page, const bite_compatibility *pair)
{
    char line[1200];
    if (pair->other != BITE_RATED_UNKNOWN) {
        (void)snprintf(line, sizeof line, "%s [%s]", show(pair->other), pair->other_source);
        pair_line(page, "another source says", line);
    }
    if (pair->overridden != BITE_RATED_UNKNOWN && pair->overridden != pair->machined) {
        (void)snprintf(line, sizeof line, "%s in %s, which %s replaces: check which is right",
                       show(pair->overridden), pair->overridden_table, pair->table);
        pair_line(page, "another table says", line);
    }
}

static void watch_line(bite_page *page, const bite_compatibility *pair)
{
    char time[48];
    char line[600];
    if (isnan(pair->watch)) {
        pair_line(page, "look for", pair->signs);
        return;
    }
    (void)bite_plan_duration(pair->watch, time, sizeof time);
    (void)snprintf(line, sizeof line, "%s after the last contact before shipping%s%s", time,
                   pair->signs[0] == 0 ? "" : "; look for ", pair->signs);
    pair_line(page, "watch for", line);
}

/* How the part is tried if nothing is known, or sources do not suffice; ISO 22088-3. */
static const char strip_test[] =
    "clamp a strip of the same stock bent over a radius of 150 times its thickness, wet it for a "
    "day next to a dry one, and look at both in raking light";

static int is_substance(const bite_material *material, bite_substance substance)
{
    return bite_item_word(&material->record, "substance", BITE_METAL) == (uint32_t)substance;
}

/* Only in a glassy polymer does the state of stress decide. */
static void state_lines(bite_page *page, const bite_compatibility *pair, int glassy)
{
    state_line(page, glassy ? "as machined" : "rating", pair->machined, pair->reason, pair->source);
    if (glassy || pair->annealed != pair->machined) {
        state_line(page, "annealed since", pair->annealed, "", "");
        pair_line(page, "annealing", annealing_text(pair));
    }
    if (glassy || pair->sheet != BITE_RATED_UNKNOWN) {
        state_line(page, "unstressed sheet", pair->sheet, "", pair->sheet_source);
    }
}

static void pair_text(bite_page *page, const bite_compatibility *pair,
                      const bite_material *material, const char *instead)
{
    int glassy = is_substance(material, BITE_AMORPHOUS);
    int plastic = glassy || is_substance(material, BITE_CRYSTALLINE);
    char line[300];
    (void)snprintf(line, sizeof line, "%s: %s on %s", show(pair->machined), pair->title,
                   pair->material);
    bite_page_tint(page, 4, line);
    bite_page_line(page, "");
    state_lines(page, pair, glassy);
    conflict_lines(page, pair);
    watch_line(page, pair);
    if (pair->machined != BITE_RATED_SAFE) {
        pair_line(page, "safe instead", instead);
    }
    if (plastic && (pair->machined == BITE_RATED_RISK || pair->machined == BITE_RATED_UNKNOWN)) {
        pair_line(page, "try first", strip_test);
    }
    if (pair->machined != BITE_RATED_NO) {
        pair_line(page, "hazard to people", pair->hazard);
    }
    bite_page_wrap(page, "  ", "  ",
                   "The safety data sheet and the stock maker's own list take precedence.");
}

static json_t *pair_json(const bite_compatibility *pair, const char *instead)
{
    json_t *root = json_object();
    int failed = root == NULL;
    failed |= bite_json_text(root, "fluid", pair->fluid);
    failed |= bite_json_text(root, "title", pair->title);
    failed |= bite_json_text(root, "use", pair->use);
    failed |= bite_json_text(root, "material", pair->material);
    failed |= bite_json_text(root, "rating", bite_rating_name(pair->machined));
    failed |= bite_json_text(root, "annealed", bite_rating_name(pair->annealed));
    failed |= bite_json_text(root, "sheet", bite_rating_name(pair->sheet));
    failed |= bite_json_text(root, "reason", pair->reason);
    failed |= bite_json_text(root, "source", pair->source);
    failed |= bite_json_text(root, "sheet_source", pair->sheet_source);
    failed |= bite_json_text(root, "other", bite_rating_name(pair->other));
    failed |= bite_json_text(root, "other_source", pair->other_source);
    failed |= bite_json_text(root, "table", pair->table);
    failed |= bite_json_text(root, "overridden", bite_rating_name(pair->overridden));
    failed |= bite_json_text(root, "overridden_table", pair->overridden_table);
    failed |= bite_json_put(root, "watch", bite_json_number(pair->watch));
    failed |= bite_json_text(root, "signs", pair->signs);
    failed |= bite_json_text(root, "hazard", pair->hazard);
    failed |= instead == NULL ? 0 : bite_json_text(root, "instead", instead);
    if (failed) {
        json_decref(root);
        root = NULL;
    }
    return root;
}

static void csv_head(bite_page *page)
{
    static const char *const heads[] = {"fluid",    "title",        "use",    "material",  "rating",
                                        "annealed", "sheet",        "reason", "watch [h]", "other",
                                        "source",   "other source", "hazard"};
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++) {
        bite_csv_field(page, i == 0, heads[i]);
    }
    bite_csv_end(page);
}

static void pair_csv(bite_page *page, const bite_compatibility *pair)
{
    char watch[40] = "";
    if (isfinite(pair->watch)) {
        (void)bite_number_write(pair->watch / 3600.0, 6, watch, sizeof watch);
    }
    const char *const fields[] = {pair->fluid,
                                  pair->title,
                                  pair->use,
                                  pair->material,
                                  bite_rating_name(pair->machined),
                                  bite_rating_name(pair->annealed),
                                  bite_rating_name(pair->sheet),
                                  pair->reason,
                                  watch,
                                  pair->other == BITE_RATED_UNKNOWN ? ""
                                                                    : bite_rating_name(pair->other),
                                  pair->source,
                                  pair->other_source,
                                  pair->hazard};
    for (size_t i = 0; i < sizeof fields / sizeof *fields; i++) {
        bite_csv_field(page, i == 0, fields[i]);
    }
    bite_csv_end(page);
}

bite_status bite_compatibility_write(const bite_library *library, const char *fluid,
                                     const char *material, const bite_style *style, bite_sink sink,
                                     void *user, bite_error *error)
{
    bite_page page;
    bite_compatibility pair = {.struct_size = (uint32_t)sizeof pair};
    const bite_item_record *record = NULL;
    const bite_material *grade = NULL;
    char instead[TITLES_MAX] = "";
    bite_error_clear(error);
    bite_status status = bite_compatibility_find(library, fluid, material, &pair, error);
    status = status != BITE_OK ? status : open_page(&page, style, sink, user, error);
    status = status != BITE_OK ? status : bite_fluid_find(library, fluid, &record, error);
    status = status != BITE_OK ? status : bite_library_grade(library, material, &grade, error);
    status = status != BITE_OK ? status
                               : bite_fluid_safe_titles(library, grade, record, NULL, instead,
                                                        sizeof instead, error);
    if (status != BITE_OK) {
        return status;
    }
    if (style != NULL && style->format == BITE_JSON) {
        return bite_json_write(pair_json(&pair, instead), page.compact, sink, user, error);
    }
    if (style != NULL && style->format == BITE_CSV) {
        csv_head(&page);
        pair_csv(&page, &pair);
    } else {
        pair_text(&page, &pair, grade, instead);
    }
    return bite_page_close(&page, error);
}

/* ---- all fluids on a material ---- */

/* Receives each fluid, the refused ones first. Nonzero ends the list. */
typedef int (*pair_sink)(void *user, const bite_compatibility *pair);

static bite_status each_of_rating(const bite_library *library, const bite_material *material,
                                  uint32_t rating, size_t count, pair_sink put, void *user,
                                  bite_error *error)
{
    bite_status status = BITE_OK;
    for (size_t i = 0; status == BITE_OK && i < count; i++) {
        bite_item item;
        bite_compatibility pair;
        const bite_item_record *fluid = NULL;
        status = bite_library_item(library, BITE_FLUIDS, i, &item, error);
        status = status != BITE_OK
                     ? status
                     : bite_library_record(library, BITE_FLUIDS, item.name, &fluid, error);
        status = status != BITE_OK
                     ? status
                     : bite_fluid_compatibility(library, fluid, material, &pair, error);
        if (status == BITE_OK && pair.machined == rating && put(user, &pair) != 0) {
            status = bite_error_set(error, BITE_NO_MEMORY, "no memory for the list of fluids");
        }
    }
    return status;
}

static bite_status each_pair(const bite_library *library, const bite_material *material,
                             pair_sink put, void *user, bite_error *error)
{
    static const uint32_t order[] = {BITE_RATED_NO, BITE_RATED_RISK, BITE_RATED_UNKNOWN,
                                     BITE_RATED_SAFE};
    size_t count = 0;
    bite_status status = bite_library_size(library, BITE_FLUIDS, &count, error);
    for (size_t i = 0; status == BITE_OK && i < sizeof order / sizeof *order; i++) {
        status = each_of_rating(library, material, order[i], count, put, user, error);
    }
    return status;
}

static int list_text(void *user, const bite_compatibility *pair)
{
    bite_page *page = user;
    char left[200];
    char name[64];
    char reason[700];
    (void)snprintf(name, sizeof name, "%s", pair->fluid);
    (void)snprintf(left, sizeof left, "%-8s%-18s %s  ", show(pair->machined), name, pair->use);
    (void)snprintf(reason, sizeof reason, "%s%s%s", pair->reason,
                   pair->reason[0] == 0 || pair->annealed == pair->machined ? "" : "; ",
                   pair->annealed == pair->machined    ? ""
                   : pair->annealed == BITE_RATED_SAFE ? "safe once annealed"
                                                       : "less so once annealed");
    bite_page_column(page, left, 46, reason[0] != 0 ? reason : pair->title);
    return 0;
}

static int list_csv(void *user, const bite_compatibility *pair)
{
    pair_csv(user, pair);
    return 0;
}

static int list_json(void *user, const bite_compatibility *pair)
{
    json_t *object = pair_json(pair, NULL);
    return bite_json_append(user, object, object == NULL);
}

static bite_status write_json_list(const bite_library *library, const bite_material *material,
                                   bool compact, bite_sink sink, void *user, bite_error *error)
{
    json_t *root = json_object();
    json_t *list = json_array();
    int failed = root == NULL || list == NULL;
    bite_status status = failed ? BITE_OK : each_pair(library, material, list_json, list, error);
    failed |= bite_json_put(root, "schema", json_integer(1));
    failed |= bite_json_text(root, "coolbite", bite_version());
    failed |= bite_json_text(root, "material", material->record.name);
    failed |= bite_json_put(root, "fluids", list);
    if (failed || status != BITE_OK) {
        json_decref(root);
        root = NULL;
    }
    return status != BITE_OK ? status : bite_json_write(root, compact, sink, user, error);
}

bite_status bite_compatibility_list_write(const bite_library *library, const char *material,
                                          const bite_style *style, bite_sink sink, void *user,
                                          bite_error *error)
{
    bite_page page;
    const bite_material *grade = NULL;
    bite_error_clear(error);
    if (library == NULL || material == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an open library and a material were expected");
    }
    bite_status status = open_page(&page, style, sink, user, error);
    status = status != BITE_OK ? status : bite_library_grade(library, material, &grade, error);
    if (status != BITE_OK) {
        return status;
    }
    if (style != NULL && style->format == BITE_JSON) {
        return write_json_list(library, grade, page.compact, sink, user, error);
    }
    if (style != NULL && style->format == BITE_CSV) {
        csv_head(&page);
        status = each_pair(library, grade, list_csv, &page, error);
    } else {
        char line[200];
        (void)snprintf(line, sizeof line, "Fluids on %s%s:", grade->record.name,
                       is_substance(grade, BITE_AMORPHOUS) ? ", as machined and not annealed since"
                                                           : "");
        bite_page_wrap(&page, "", "  ", line);
        status = each_pair(library, grade, list_text, &page, error);
    }
    return status != BITE_OK ? status : bite_page_close(&page, error);
}

/* ---- on a material's own page ---- */

/* The names of the fluids of each rating. */
typedef struct rated_names {
    char names[BITE_RATED_UNKNOWN + 1][TITLES_MAX];
} rated_names;

static int collect_name(void *user, const bite_compatibility *pair)
{
    char *names = ((rated_names *)user)->names[pair->machined];
    size_t used = strlen(names);
    if (used + strlen(pair->fluid) + 3 < TITLES_MAX) {
        (void)snprintf(names + used, TITLES_MAX - used, "%s%s", used > 0 ? ", " : "", pair->fluid);
    }
    return 0;
}

bite_status bite_material_fluids_text(bite_page *page, const bite_library *library,
                                      const bite_material *material, bite_error *error)
{
    static const uint32_t order[] = {BITE_RATED_NO, BITE_RATED_RISK, BITE_RATED_SAFE};
    rated_names rated;
    memset(&rated, 0, sizeof rated);
    bite_status status = each_pair(library, material, collect_name, &rated, error);
    for (size_t i = 0; status == BITE_OK && i < sizeof order / sizeof *order; i++) {
        char left[48];
        if (rated.names[order[i]][0] != 0) {
            (void)snprintf(left, sizeof left, "  fluids %s: ", shown[order[i]]);
            bite_page_wrap_tinted(page, tints[order[i]], left, "    ", rated.names[order[i]]);
        }
    }
    return status;
}

static int collect_json(void *user, const bite_compatibility *pair)
{
    json_t *list = json_object_get(user, bite_rating_name(pair->machined));
    return json_array_append_new(list, json_string(pair->fluid));
}

bite_status bite_material_fluids_json(const bite_library *library, const bite_material *material,
                                      json_t **fluids, bite_error *error)
{
    json_t *object = json_object();
    int failed = object == NULL;
    for (uint32_t rating = 0; rating <= BITE_RATED_UNKNOWN; rating++) {
        failed |= bite_json_put(object, bite_rating_name(rating), json_array());
    }
    bite_status status = failed
                             ? bite_error_set(error, BITE_NO_MEMORY, "no memory for the JSON text")
                             : each_pair(library, material, collect_json, object, error);
    if (status != BITE_OK) {
        json_decref(object);
        object = NULL;
    }
    *fluids = object;
    return status;
}
