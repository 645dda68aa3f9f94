/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A thread in a material: as text and as JSON. */
#include "core/base/error.h"
#include "core/report/json.h"
#include "core/report/text_page.h"
#include "core/request/thread_advice.h"
#include "core/search/thread_milling.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define NUMBER 48
#define LINE 1200

static const char *quantity(bite_page *page, double si, bite_kind kind, char *to)
{
    if (isnan(si)) {
        (void)snprintf(to, NUMBER, "-");
    } else {
        bite_page_quantity(page, si, kind, to, NUMBER);
    }
    return to;
}

static const char *length(bite_page *page, double si, char *to)
{
    return quantity(page, si, BITE_KIND_LENGTH, to);
}

static void drills(bite_page *page, const bite_thread_advice *advice)
{
    char line[LINE];
    char a[NUMBER];
    size_t used = 0;
    if (advice->drill_count == 0) {
        (void)snprintf(line, sizeof line, "%s for %.0f %% of thread; the table has no such drill",
                       length(page, advice->hole, a), 100.0 * advice->share);
        bite_page_wrap(page, "Tap drill  ", "  ", line);
        return;
    }
    for (size_t i = 0; i < advice->drill_count && used < sizeof line; i++) {
        const bite_thread_drill *drill = &advice->drills[i];
        used +=
            (size_t)snprintf(line + used, sizeof line - used,
                             i == 0   ? "%s (%s), %.0f %% of thread"
                             : i == 1 ? "; otherwise %s (%s) for %.0f %%"
                                      : ", %s (%s) for %.0f %%",
                             length(page, drill->diameter, a), drill->name, 100.0 * drill->share);
    }
    bite_page_wrap(page, "Tap drill  ", "  ", line);
    (void)snprintf(line, sizeof line, "%s (D - P/2); torque two to three times that of cutting",
                   length(page, advice->forming_hole, a));
    if (!isnan(advice->forming_hole)) {
        bite_page_wrap(page, "Forming    ", "  ", line);
    }
}

/* The point and the lips of the drill, where those of a usual drill are not right. */
static void point(bite_page *page, const bite_thread_advice *advice)
{
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    const char *says = advice->drilling == NULL ? "" : bite_item_text(advice->drilling, "says");
    const bite_field_value *through =
        advice->drilling == NULL ? NULL : bite_item_field(advice->drilling, "point");
    const bite_field_value *blind =
        advice->drilling == NULL ? NULL : bite_item_field(advice->drilling, "point_blind");
    if (says[0] == 0 || through == NULL || blind == NULL) {
        return;
    }
    (void)snprintf(line, sizeof line, "point %s for a through hole, %s for a blind one. %s",
                   quantity(page, through->value, BITE_KIND_ANGLE, a),
                   quantity(page, blind->value, BITE_KIND_ANGLE, b), says);
    bite_page_wrap(page, "Drill      ", "  ", line);
}

static void settings(bite_page *page, const bite_thread_advice *advice)
{
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    char d[NUMBER];
    if (!isnan(advice->speed)) {
        (void)snprintf(line, sizeof line, "%s, feed %s: %s each turn, in step with the spindle",
                       quantity(page, advice->turns, BITE_KIND_ROTATION, a),
                       quantity(page, advice->feed, BITE_KIND_SPEED, b),
                       length(page, advice->pitch, c));
        bite_page_wrap(page, "Spindle    ", "  ", line);
    }
    if (!isnan(advice->torque)) {
        (void)snprintf(line, sizeof line, "%s (%s to %s); the tap breaks at about %s",
                       quantity(page, advice->torque, BITE_KIND_TORQUE, a),
                       quantity(page, advice->torque_low, BITE_KIND_TORQUE, b),
                       quantity(page, advice->torque_high, BITE_KIND_TORQUE, c),
                       quantity(page, advice->strength, BITE_KIND_TORQUE, d));
        bite_page_wrap(page, "Torque     ", "  ", line);
    }
    (void)snprintf(
        line, sizeof line,
        "%s of thread; a blind hole %s deep at full diameter: the chamfer of the tap (2.5 "
        "threads) and a pitch deeper",
        length(page, advice->length, a), length(page, advice->blind, b));
    bite_page_wrap(page, "Depth      ", "  ", line);
    if (!isnan(advice->wall)) {
        (void)snprintf(line, sizeof line, "%s or more around the thread",
                       length(page, advice->wall, a));
        bite_page_wrap(page, "Wall       ", "  ", line);
    }
}

static void milling(bite_page *page, const bite_thread_milling *mill)
{
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    char d[NUMBER];
    char e[NUMBER];
    char most[NUMBER];
    if (mill->passes == 0) {
        return;
    }
    (void)snprintf(
        line, sizeof line,
        "instead of tapping: a single-point mill of %s (at most %s), %u pass%s; "
        "spindle %s, feed of the centre %s (%s at the edge), chip %s; %s, chance of exceeding a "
        "limit %.0f %%. Climb, right-hand thread from the bottom up, one pitch each turn; on and "
        "off the wall by half a turn. No reversing; one mill cuts every size of its pitch.",
        length(page, mill->tool, a), length(page, mill->most, most), mill->passes,
        mill->passes > 1 ? "es of equal section" : "",
        quantity(page, mill->turns, BITE_KIND_ROTATION, c),
        quantity(page, mill->centre_feed, BITE_KIND_SPEED, d),
        quantity(page, mill->edge_feed, BITE_KIND_SPEED, e), length(page, mill->chip, b),
        bite_verdict_name(mill->verdict), 100.0 * mill->chance);
    bite_page_wrap(page, "Milling    ", "  ", line);
}

static void words(bite_page *page, const bite_thread_advice *advice)
{
    static const struct {
        const char *key;
        const char *label;
    } all[] = {{"tap", "Tap        "}, {"fluid", "Fluid      "}, {"says", "Caution    "}};
    for (size_t i = 0; advice->usual != NULL && i < sizeof all / sizeof *all; i++) {
        const char *text = bite_item_text(advice->usual, all[i].key);
        if (text[0] != 0) {
            bite_page_wrap(page, all[i].label, "  ", text);
        }
    }
    bite_page_wrap(page, "Holder     ", "  ",
                   "a spindle that reverses in step with the feed, or a holder with length "
                   "compensation in tension and compression; else mill the thread");
}

static void inserts(bite_page *page, const bite_thread_advice *advice)
{
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    for (size_t i = 0; i < advice->insert_count; i++) {
        const bite_thread_insert *insert = &advice->inserts[i];
        if (insert->unfit) {
            (void)snprintf(line, sizeof line, "%s: not in this material", insert->record->title);
        } else {
            (void)snprintf(
                line, sizeof line,
                "%s: about %s outside, hole %s, boss %s across. Follow its maker's size.",
                insert->record->title, length(page, insert->outer, a),
                length(page, insert->hole, b), length(page, insert->boss, c));
        }
        bite_page_wrap(page, i == 0 ? "Inserts    " : "           ", "  ", line);
    }
}

static void sources(bite_page *page, const bite_thread_advice *advice)
{
    const bite_field_value *major = bite_item_field(advice->thread, "thread_diameter");
    const bite_field_value *speed =
        advice->usual == NULL ? NULL : bite_item_field(advice->usual, "speed");
    if (major != NULL && major->source != NULL) {
        bite_page_wrap(page, "Sources    ", "  ", major->source);
    }
    if (speed != NULL && speed->source != NULL) {
        bite_page_wrap(page, "           ", "  ", speed->source);
    }
}

static bite_status write_text(const bite_thread_advice *advice, const bite_thread_milling *mill,
                              const bite_style *style, bite_sink sink, void *user,
                              bite_error *error)
{
    bite_page page;
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    (void)snprintf(line, sizeof line, "%s in %s: %s x %s", advice->thread->title,
                   advice->material->record.name, length(&page, advice->diameter, a),
                   length(&page, advice->pitch, b));
    bite_page_wrap(&page, "", "  ", line);
    drills(&page, advice);
    point(&page, advice);
    settings(&page, advice);
    milling(&page, mill);
    words(&page, advice);
    inserts(&page, advice);
    sources(&page, advice);
    return bite_page_close(&page, error);
}

static int put_number(json_t *object, const char *name, double number)
{
    return bite_json_put(object, name, bite_json_number(number));
}

static json_t *drill_array(const bite_thread_advice *advice)
{
    json_t *array = json_array();
    for (size_t i = 0; array != NULL && i < advice->drill_count; i++) {
        json_t *drill = json_object();
        int failed = drill == NULL || bite_json_text(drill, "name", advice->drills[i].name) ||
                     put_number(drill, "diameter", advice->drills[i].diameter) ||
                     put_number(drill, "thread_share", advice->drills[i].share);
        if (failed || json_array_append_new(array, drill) != 0) {
            json_decref(array);
            return NULL;
        }
    }
    return array;
}

static json_t *insert_array(const bite_thread_advice *advice)
{
    json_t *array = json_array();
    for (size_t i = 0; array != NULL && i < advice->insert_count; i++) {
        const bite_thread_insert *at = &advice->inserts[i];
        json_t *insert = json_object();
        int failed = insert == NULL || bite_json_text(insert, "name", at->record->name) ||
                     bite_json_put(insert, "fits", json_boolean(!at->unfit)) ||
                     put_number(insert, "outer", at->outer) ||
                     put_number(insert, "hole", at->hole) || put_number(insert, "boss", at->boss) ||
                     bite_json_text(insert, "says", bite_item_text(at->record, "says"));
        if (failed || json_array_append_new(array, insert) != 0) {
            json_decref(array);
            return NULL;
        }
    }
    return array;
}

static json_t *milling_object(const bite_thread_milling *mill)
{
    if (mill->passes == 0) {
        return json_null();
    }
    json_t *object = json_object();
    int failed = object == NULL || put_number(object, "tool", mill->tool) ||
                 put_number(object, "tool_most", mill->most) ||
                 put_number(object, "passes", mill->passes) ||
                 put_number(object, "spindle_speed", mill->turns) ||
                 put_number(object, "edge_feed", mill->edge_feed) ||
                 put_number(object, "centre_feed", mill->centre_feed) ||
                 put_number(object, "chip", mill->chip) ||
                 bite_json_text(object, "verdict", bite_verdict_name(mill->verdict)) ||
                 put_number(object, "chance", mill->chance) ||
                 bite_json_text(object, "closest", bite_limit_name((bite_limit_id)mill->closest));
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static json_t *advice_object(const bite_thread_advice *advice, const bite_thread_milling *mill)
{
    const struct {
        const char *name;
        double number;
    } numbers[] = {{"thread_diameter", advice->diameter},
                   {"pitch", advice->pitch},
                   {"thread_share", advice->share},
                   {"hole_diameter", advice->hole},
                   {"speed", advice->speed},
                   {"spindle_speed", advice->turns},
                   {"feed_rate", advice->feed},
                   {"torque", advice->torque},
                   {"torque_low", advice->torque_low},
                   {"torque_high", advice->torque_high},
                   {"tap_strength", advice->strength},
                   {"length", advice->length},
                   {"blind_depth", advice->blind},
                   {"wall", advice->wall},
                   {"forming_hole", advice->forming_hole}};
    json_t *root = json_object();
    int failed = root == NULL || bite_json_text(root, "thread", advice->thread->name) ||
                 bite_json_text(root, "material", advice->material->record.name);
    for (size_t i = 0; !failed && i < sizeof numbers / sizeof *numbers; i++) {
        failed |= put_number(root, numbers[i].name, numbers[i].number);
    }
    failed = failed || bite_json_put(root, "drills", drill_array(advice));
    static const char *const texts[] = {"tap", "fluid", "says"};
    for (size_t i = 0; !failed && i < sizeof texts / sizeof *texts; i++) {
        failed |= bite_json_text(
            root, texts[i], advice->usual == NULL ? "" : bite_item_text(advice->usual, texts[i]));
    }
    failed = failed || bite_json_put(root, "milling", milling_object(mill)) ||
             bite_json_put(root, "inserts", insert_array(advice));
    if (failed) {
        json_decref(root);
        return NULL;
    }
    return root;
}

bite_status bite_thread_write(const bite_library *library, const char *thread, const char *material,
                              const bite_style *style, bite_sink sink, void *user,
                              bite_error *error)
{
    bite_thread_advice advice;
    bite_thread_milling mill;
    bite_error_clear(error);
    if (library == NULL || thread == NULL || material == NULL || sink == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT,
                              "an open library, a thread, a material and a sink were expected");
    }
    bite_status status = bite_thread_advise(library, thread, material, &advice, error);
    status = status != BITE_OK ? status : bite_thread_mill(library, &advice, NULL, &mill, error);
    if (status != BITE_OK) {
        return status;
    }
    return style != NULL && style->format == BITE_JSON
               ? bite_json_write(advice_object(&advice, &mill), sink, user, error)
               : write_text(&advice, &mill, style, sink, user, error);
}
