/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A diagnosis as text or JSON: which limits explain the symptom, which change helps first, and what
 * to check that the settings do not show. */
#include "core/base/error.h"
#include "core/base/number.h"
#include "core/names/registry.h"
#include "core/report/cut_json.h"
#include "core/report/cut_text.h"
#include "core/report/json.h"
#include "core/request/answer.h"
#include "core/search/remedy.h"
#include "core/search/remedy_ranking.h"
#include "core/units/inch_text.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

/* The value before and after a change, such as "12000 rpm" and "6000 rpm"; words for an input that
 * has words. */
static void change_texts(bite_page *page, const bite_answer *answer, const bite_remedy *remedy,
                         char *from, char *to, size_t size)
{
    const bite_change *change = &remedy->change;
    const bite_input *input = bite_input_at(change->input);
    if (input == NULL) {
        (void)snprintf(from, size, "%s", answer->request.hold->name);
        (void)snprintf(to, size, "%s", remedy->hold->name);
        return;
    }
    if (input->words > 0) {
        (void)snprintf(from, size, "%s", bite_answer_word(answer, input->name));
        (void)snprintf(to, size, "%s", bite_input_word(input, change->word));
        return;
    }
    bite_page_quantity(page, change->from, (bite_kind)input->kind, from, size);
    bite_change_quantity_text(change->to, (bite_kind)input->kind, page->units, to, size);
}

/* Whether a limit is a suspect. One that no input could make apply here is not: the softening of a
 * metal, the runout of a single flute. */
static int is_suspect(const bite_suspect *suspect)
{
    return !isnan(suspect->share) || (suspect->is_limit && suspect->why == BITE_WHY_NOT_GIVEN);
}

static void write_suspects(bite_page *page, const bite_diagnosis *diagnosis)
{
    char line[700];
    int used = 0;
    line[0] = 0;
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        char share[32];
        if (!suspect->is_limit || !is_suspect(suspect) || used < 0 || (size_t)used >= sizeof line) {
            continue;
        }
        (void)bite_page_percent(suspect->share, share, sizeof share);
        used += snprintf(line + used, sizeof line - (size_t)used, "%s%s %s%s", used > 0 ? ", " : "",
                         suspect->name, isnan(suspect->share) ? "not requested" : share,
                         isnan(suspect->share) ? "" : " %");
    }
    if (used > 0) {
        bite_page_wrap(page, "Suspected limits, with utilization: ", "  ", line);
    }
    const bite_suspect *foremost = diagnosis->foremost < diagnosis->suspect_count
                                       ? &diagnosis->suspects[diagnosis->foremost]
                                       : NULL;
    if (foremost == NULL || (foremost->is_limit && foremost->share < BITE_EXPLAINS_FROM)) {
        bite_page_wrap(page, "", "  ",
                       "These settings alone do not explain it: start with the checks at the end.");
    }
}

/* The suspect that a change reduces most; suspect_count: it reduces none. */
static uint32_t most_reduced(const bite_diagnosis *diagnosis, const bite_remedy *remedy)
{
    uint32_t best = diagnosis->suspect_count;
    double most = 0.0;
    for (uint32_t i = 0; i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        double left =
            isnan(remedy->after[i]) ? 0.0 : bite_suspect_weight(suspect, remedy->after[i]);
        double gain = bite_suspect_weight(suspect, suspect->share) - left;
        if (gain > most) {
            most = gain;
            best = i;
        }
    }
    return best;
}

static void reduction_text(const bite_diagnosis *diagnosis, const bite_remedy *remedy, char *to,
                           size_t size)
{
    uint32_t at = most_reduced(diagnosis, remedy);
    char before[32];
    char left[32];
    to[0] = 0;
    if (at == diagnosis->suspect_count) {
        return;
    }
    const bite_suspect *suspect = &diagnosis->suspects[at];
    char name[48];
    (void)bite_page_percent(suspect->share, before, sizeof before);
    (void)bite_page_percent(remedy->after[at], left, sizeof left);
    bite_page_plain(suspect->name, name, sizeof name);
    if (isnan(remedy->after[at])) {
        (void)snprintf(to, size, "%s no longer applies", suspect->is_limit ? suspect->name : name);
    } else if (!suspect->is_limit) {
        (void)snprintf(to, size, "%s %s to %s %% of its present value", name,
                       suspect->lacking ? "grows" : "falls", left);
    } else if (strcmp(before, left) == 0) {
        to[0] = 0;
    } else {
        (void)snprintf(to, size, "%s goes from %s to %s %%", suspect->name, before, left);
    }
}

static const char *name_of(const bite_change *change)
{
    const bite_input *input = bite_input_at(change->input);
    return input == NULL ? "hold" : input->name;
}

/* What a change costs beside time. */
static const struct {
    const char *input;
    const char *cost;
} costs[] = {
    {"entry_feed", "changes the time of the entry only"},
    {"stickout", "costs setting the tool again"},
    {"runout", "needs a clean or better collet and an indicator"},
    {"edge_radius", "needs a new tool"},
    {"flutes", "needs another tool"},
    {"helix", "needs another tool"},
    {"side", "needs the path in the other direction"},
    {"bond_area", "needs more area under the part"},
    {"load_time", "needs a fresh bond halfway"},
};

static const char *cost_of(const bite_remedy *remedy)
{
    const bite_change *change = &remedy->change;
    const bite_input *input = bite_input_at(change->input);
    if (input == NULL) { /* what it is, and what it is not for */
        return remedy->hold->summary;
    }
    for (size_t i = 0; i < sizeof costs / sizeof *costs; i++) {
        if (bite_input_find(costs[i].input) == input) {
            return costs[i].cost;
        }
    }
    if (bite_input_find("coolant") == input) {
        return change->word == BITE_COOLANT_AIR
                   ? "needs an air nozzle"
                   : "needs a fluid that the material bears (coolbite list fluids --material)";
    }
    return "";
}

/* "takes 2 times as long", and what else it costs. */
static void cost_text(const bite_remedy *remedy, char *to, size_t size)
{
    const char *cost = cost_of(remedy);
    if (isnan(remedy->time)) {
        (void)snprintf(to, size, "%s", cost[0] != 0 ? cost : "takes no longer");
        return;
    }
    char times[40];
    int longer = remedy->time > 1.0;
    (void)bite_number_write(longer ? remedy->time : 1.0 / remedy->time, 2, times, sizeof times);
    (void)snprintf(to, size, "%s%s%s", longer ? "takes " : "is ", times,
                   longer ? " times as long" : " times as fast");
    size_t used = strlen(to);
    (void)snprintf(to + used, size - used, "%s%s", cost[0] == 0 ? "" : "; ", cost);
}

/* "falls from 38 to 4 %"; a rise is within the scatter of the draws and counts as no change. */
static void chance_text(double before, double after, char *to, size_t size)
{
    char chance[2][32];
    (void)bite_page_percent(before, chance[0], sizeof chance[0]);
    (void)bite_page_percent(after, chance[1], sizeof chance[1]);
    if (after < before && strcmp(chance[0], chance[1]) != 0) {
        (void)snprintf(to, size, "falls from %s to %s %%", chance[0], chance[1]);
    } else {
        (void)snprintf(to, size, "stays at %s %%", chance[0]);
    }
}

static void write_remedy(bite_page *page, const bite_diagnosis *diagnosis, uint32_t at)
{
    const bite_remedy *remedy = &diagnosis->remedies[at];
    char from[48];
    char to[48];
    char name[48];
    char helped[120];
    char chance[2][80];
    char cost[160];
    char line[800];
    change_texts(page, diagnosis->answer, remedy, from, to, sizeof from);
    bite_page_plain(name_of(&remedy->change), name, sizeof name);
    reduction_text(diagnosis, remedy, helped, sizeof helped);
    cost_text(remedy, cost, sizeof cost);
    if (isnan(remedy->trouble)) {
        (void)snprintf(line, sizeof line, "%s from %s to %s: %s%s%s", name, from, to, helped,
                       helped[0] == 0 ? "" : "; ", cost);
    } else {
        chance_text(diagnosis->trouble, remedy->trouble, chance[0], sizeof chance[0]);
        chance_text(remedy->change.before, remedy->change.after, chance[1], sizeof chance[1]);
        (void)snprintf(line, sizeof line,
                       "%s from %s to %s: the chance of this trouble %s, that of exceeding any "
                       "limit %s%s%s; %s",
                       name, from, to, chance[0], chance[1], helped[0] == 0 ? "" : "; ", helped,
                       cost);
    }
    (void)snprintf(from, sizeof from, "%u. ", at + 1);
    bite_page_wrap(page, from, "   ", line);
}

/* A text of a table, in inches for a shop that measures in them. arena: NULL: as it is. */
static const char *in_units(const bite_page *page, bite_arena *arena, const char *text)
{
    const char *inches =
        page->units == BITE_INCH && arena != NULL ? bite_text_inches(arena, text) : NULL;
    return inches == NULL ? text : inches;
}

static void write_causes(bite_page *page, const bite_diagnosis *diagnosis)
{
    bite_arena *arena = bite_arena_new(&diagnosis->allocator);
    if (diagnosis->cause_count > 0) {
        bite_page_line(page, "Check also, since the settings do not show it:");
    }
    for (size_t i = 0; i < diagnosis->cause_count; i++) {
        const bite_item_record *cause = diagnosis->causes[i];
        char line[1200];
        (void)snprintf(line, sizeof line, "%s: %s", cause->title,
                       in_units(page, arena, cause->summary));
        bite_page_wrap(page, "- ", "  ", line);
    }
    if (diagnosis->beyond[0] != 0) {
        bite_page_wrap(page, "Check also: ", "  ", in_units(page, arena, diagnosis->beyond));
    }
    bite_arena_free(arena);
}

static bite_status write_text(const bite_diagnosis *diagnosis, bite_page *page, bite_error *error)
{
    char line[400];
    char chance[32];
    bite_answer_title_text(page, diagnosis->answer, line, sizeof line);
    bite_page_wrap(page, "", "  ", line);
    (void)snprintf(line, sizeof line, "%s: %s", diagnosis->symptom->title,
                   diagnosis->symptom->summary);
    bite_page_wrap(page, "", "  ", line);
    write_suspects(page, diagnosis);
    if (!isnan(diagnosis->trouble)) {
        (void)bite_page_percent(diagnosis->trouble, chance, sizeof chance);
        (void)snprintf(line, sizeof line,
                       "Chance at these settings that one of them is exceeded: %s %%.", chance);
        bite_page_wrap(page, "", "  ", line);
    }
    if (diagnosis->remedy_count > 0) {
        bite_page_line(page, "Change first, one at a time:");
    } else {
        bite_page_line(page, "No single change to these settings helps.");
    }
    for (uint32_t i = 0; i < diagnosis->remedy_count; i++) {
        write_remedy(page, diagnosis, i);
    }
    write_causes(page, diagnosis);
    return bite_page_close(page, error);
}

static json_t *causes_of(const bite_diagnosis *diagnosis)
{
    json_t *list = json_array();
    for (size_t i = 0; list != NULL && i < diagnosis->cause_count; i++) {
        json_t *object = json_object();
        int failed = object == NULL;
        failed |= bite_json_text(object, "name", diagnosis->causes[i]->name);
        failed |= bite_json_text(object, "cause", diagnosis->causes[i]->title);
        failed |= bite_json_text(object, "check", diagnosis->causes[i]->summary);
        if (bite_json_append(list, object, failed) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}

static json_t *suspects_of(const bite_diagnosis *diagnosis)
{
    json_t *list = json_array();
    for (uint32_t i = 0; list != NULL && i < diagnosis->suspect_count; i++) {
        const bite_suspect *suspect = &diagnosis->suspects[i];
        json_t *object = json_object();
        int failed = object == NULL;
        failed |= bite_json_text(object, "name", suspect->name);
        failed |= bite_json_put(object, "utilization",
                                bite_json_number(suspect->is_limit ? suspect->share : (double)NAN));
        failed |= bite_json_put(object, "lacking", json_boolean(suspect->lacking));
        failed |= bite_json_text(object, "why", bite_limit_why(suspect->why));
        if (bite_json_append(list, object, failed) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}

static json_t *remedies_of(bite_page *page, const bite_diagnosis *diagnosis)
{
    json_t *list = json_array();
    for (uint32_t i = 0; list != NULL && i < diagnosis->remedy_count; i++) {
        const bite_remedy *remedy = &diagnosis->remedies[i];
        char from[48];
        char to[48];
        json_t *object = json_object();
        int failed = object == NULL;
        change_texts(page, diagnosis->answer, remedy, from, to, sizeof from);
        failed |= bite_json_text(object, "input", name_of(&remedy->change));
        failed |= bite_json_text(object, "from", from);
        failed |= bite_json_text(object, "to", to);
        uint32_t helped = most_reduced(diagnosis, remedy);
        int some = helped < diagnosis->suspect_count;
        failed |= bite_json_text(object, "helps", some ? diagnosis->suspects[helped].name : "");
        failed |=
            bite_json_put(object, "use_before",
                          bite_json_number(some ? diagnosis->suspects[helped].share : (double)NAN));
        failed |= bite_json_put(object, "use_after",
                                bite_json_number(some ? remedy->after[helped] : (double)NAN));
        failed |= bite_json_put(object, "left", bite_json_number(remedy->left));
        failed |= bite_json_put(object, "trouble_before", bite_json_number(diagnosis->trouble));
        failed |= bite_json_put(object, "trouble_after", bite_json_number(remedy->trouble));
        failed |= bite_json_put(object, "time",
                                bite_json_number(isnan(remedy->time) ? 1.0 : remedy->time));
        failed |= bite_json_text(object, "cost", cost_of(remedy));
        failed |= bite_json_put(object, "chance_before", bite_json_number(remedy->change.before));
        failed |= bite_json_put(object, "chance_after", bite_json_number(remedy->change.after));
        if (bite_json_append(list, object, failed) != 0) {
            json_decref(list);
            return NULL;
        }
    }
    return list;
}

bite_status bite_diagnosis_write(const bite_diagnosis *diagnosis, const bite_style *style,
                                 bite_sink sink, void *user, bite_error *error)
{
    bite_page page;
    bite_error_clear(error);
    if (diagnosis == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a diagnosis was expected");
    }
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    if (style == NULL || style->format != BITE_JSON) {
        return write_text(diagnosis, &page, error);
    }
    json_t *root = json_object();
    int failed = root == NULL;
    const bite_suspect *foremost = diagnosis->foremost < diagnosis->suspect_count
                                       ? &diagnosis->suspects[diagnosis->foremost]
                                       : NULL;
    failed |= bite_json_put(root, "schema", json_integer(1));
    failed |= bite_json_text(root, "coolbite", bite_version());
    failed |= bite_json_text(root, "symptom", diagnosis->symptom->name);
    failed |= bite_json_text(root, "foremost", foremost == NULL ? "" : foremost->name);
    failed |=
        bite_json_put(root, "explained",
                      json_boolean(foremost != NULL &&
                                   (!foremost->is_limit || foremost->share >= BITE_EXPLAINS_FROM)));
    failed |= bite_json_put(root, "suspects", suspects_of(diagnosis));
    failed |= bite_json_put(root, "change_first", remedies_of(&page, diagnosis));
    failed |= bite_json_put(root, "chance", bite_json_number(diagnosis->trouble));
    failed |= bite_json_put(root, "causes", causes_of(diagnosis));
    failed |= bite_json_text(root, "beyond", diagnosis->beyond);
    if (failed) {
        json_decref(root);
        root = NULL;
    }
    return bite_json_write(root, page.compact, sink, user, error);
}
