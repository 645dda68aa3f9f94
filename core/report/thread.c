/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A thread in a material: as text and as JSON. */
#include "core/base/error.h"
#include "core/report/json.h"
#include "core/report/style_check.h"
#include "core/report/text_page.h"
#include "core/search/thread_answer.h"
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

/* Taps of a left-hand thread turn the other way. */
static void turning(bite_page *page, const bite_thread_answer *answer)
{
    char line[LINE];
    char a[NUMBER];
    if (answer->left_hand) {
        bite_page_wrap(page, "Hand       ", "  ",
                       "left: a left-hand tap, in with the spindle turning counter-clockwise seen "
                       "from above, out clockwise; drill, depth and torque are those of the "
                       "right-hand thread");
    }
    if (answer->too_fast) {
        (void)snprintf(line, sizeof line,
                       "the slowest speed of %s, %s, is too fast for this tap: mill the thread, or "
                       "tap it by hand",
                       answer->machine->name,
                       quantity(page, answer->slowest, BITE_KIND_ROTATION, a));
        bite_page_wrap(page, "Machine    ", "  ", line);
    }
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

/* "a full-form mill of 4.2 mm (tmf-4.2, 9 rows of teeth)" */
static void mill_words(bite_page *page, const bite_thread_milling *mill, char *to, size_t size)
{
    char a[NUMBER];
    char b[NUMBER];
    const bite_thread_mill *tool = &mill->tool;
    int used =
        snprintf(to, size, "%s mill of %s (", tool->rows > 1.0 ? "full-form" : "single-point",
                 length(page, tool->diameter, a));
    size_t at = used < 0 ? 0 : (size_t)used;
    if (tool->record == NULL) {
        (void)snprintf(to + at, size - at, "at most %s)", length(page, mill->most, b));
    } else if (tool->rows > 1.0) {
        (void)snprintf(to + at, size - at, "%.40s, %.0f rows of teeth)", tool->record->name,
                       tool->rows);
    } else {
        (void)snprintf(to + at, size - at, "%.40s)", tool->record->name);
    }
}

static void milling(bite_page *page, const bite_thread_answer *answer)
{
    const bite_thread_milling *mill = &answer->milling;
    char line[LINE];
    char tool[160];
    char a[NUMBER];
    char b[NUMBER];
    char c[NUMBER];
    char d[NUMBER];
    if (mill->passes == 0) {
        return;
    }
    mill_words(page, mill, tool, sizeof tool);
    (void)snprintf(
        line, sizeof line,
        "instead of tapping: a %s, %u pass%s; spindle %s, feed of the centre %s (%s at the edge), "
        "chip %s; %s, chance of exceeding a limit %.0f %%. Climb, %s, one pitch each turn, %s; "
        "on and off the wall by half a turn. No reversing; %s.",
        tool, mill->passes, mill->passes > 1 ? "es of equal section" : "",
        quantity(page, mill->turns, BITE_KIND_ROTATION, a),
        quantity(page, mill->centre_feed, BITE_KIND_SPEED, b),
        quantity(page, mill->edge_feed, BITE_KIND_SPEED, c), length(page, mill->chip, d),
        bite_verdict_name(mill->verdict), 100.0 * mill->chance,
        answer->left_hand ? "left-hand thread from the top down"
                          : "right-hand thread from the bottom up",
        mill->tool.rows <= 1.0     ? "turn by turn"
        : mill->path.levels <= 1.0 ? "all of the thread in one turn"
                                   : "in several levels",
        mill->tool.rows > 1.0 ? "one mill cuts every size of its pitch that is large enough"
                              : "one mill cuts every size and hand of its pitch");
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

static bite_status write_text(const bite_thread_answer *answer, const bite_style *style,
                              bite_sink sink, void *user, bite_error *error)
{
    const bite_thread_advice *advice = &answer->advice;
    bite_page page;
    char line[LINE];
    char a[NUMBER];
    char b[NUMBER];
    if (!bite_page_open(&page, style, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    (void)snprintf(line, sizeof line, "%s%s in %s: %s x %s", advice->thread->title,
                   answer->left_hand ? " left-hand" : "", advice->material->record.name,
                   length(&page, advice->diameter, a), length(&page, advice->pitch, b));
    bite_page_wrap(&page, "", "  ", line);
    drills(&page, advice);
    point(&page, advice);
    turning(&page, answer);
    settings(&page, advice);
    milling(&page, answer);
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
        int failed = bite_json_text(drill, "name", advice->drills[i].name);
        failed |= put_number(drill, "diameter", advice->drills[i].diameter);
        failed |= put_number(drill, "thread_share", advice->drills[i].share);
        if (bite_json_append(array, drill, failed) != 0) {
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
        int failed = bite_json_text(insert, "name", at->record->name);
        failed |= bite_json_put(insert, "fits", json_boolean(!at->unfit));
        failed |= put_number(insert, "outer", at->outer);
        failed |= put_number(insert, "hole", at->hole);
        failed |= put_number(insert, "boss", at->boss);
        failed |= bite_json_text(insert, "says", bite_item_text(at->record, "says"));
        if (bite_json_append(array, insert, failed) != 0) {
            json_decref(array);
            return NULL;
        }
    }
    return array;
}

static json_t *milling_object(const bite_thread_answer *answer)
{
    const bite_thread_milling *mill = &answer->milling;
    const bite_thread_mill *tool = &mill->tool;
    if (mill->passes == 0) {
        return json_null();
    }
    json_t *object = json_object();
    int failed = put_number(object, "tool", tool->diameter);
    failed |= put_number(object, "tool_most", mill->most);
    failed |= bite_json_put(object, "tool_name",
                            tool->record == NULL ? json_null() : json_string(tool->record->name));
    failed |= put_number(object, "rows", tool->rows);
    failed |= put_number(object, "levels", mill->path.levels);
    failed |= bite_json_text(object, "from", answer->left_hand ? "top" : "bottom");
    failed |= put_number(object, "passes", mill->passes);
    failed |= put_number(object, "spindle_speed", mill->turns);
    failed |= put_number(object, "edge_feed", mill->edge_feed);
    failed |= put_number(object, "centre_feed", mill->centre_feed);
    failed |= put_number(object, "chip", mill->chip);
    failed |= put_number(object, "seconds", mill->seconds);
    failed |= bite_json_text(object, "verdict", bite_verdict_name(mill->verdict));
    failed |= put_number(object, "chance", mill->chance);
    failed |= bite_json_text(object, "closest", mill->closest);
    if (failed) {
        json_decref(object);
        return NULL;
    }
    return object;
}

static json_t *answer_object(const bite_thread_answer *answer)
{
    const bite_thread_advice *advice = &answer->advice;
    const struct {
        const char *name;
        double number;
    } numbers[] = {{"thread_diameter", advice->diameter},
                   {"pitch", advice->pitch},
                   {"thread_share", advice->share},
                   {"hole_diameter", advice->hole},
                   {"speed", advice->speed},
                   {"spindle_speed", advice->turns},
                   {"spindle_slowest", answer->slowest},
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
    int failed = bite_json_text(root, "thread", advice->thread->name);
    failed |= bite_json_text(root, "hand", answer->left_hand ? "left" : "right");
    failed |= bite_json_text(root, "material", advice->material->record.name);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        failed |= put_number(root, numbers[i].name, numbers[i].number);
    }
    failed |= bite_json_put(root, "drills", drill_array(advice));
    static const char *const texts[] = {"tap", "fluid", "says"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        failed |= bite_json_text(
            root, texts[i], advice->usual == NULL ? "" : bite_item_text(advice->usual, texts[i]));
    }
    failed |= bite_json_put(root, "milling", milling_object(answer));
    failed |= bite_json_put(root, "inserts", insert_array(advice));
    if (failed) {
        json_decref(root);
        return NULL;
    }
    return root;
}

bite_status bite_thread_answer_write(const bite_thread_answer *answer, const bite_style *style,
                                     bite_sink sink, void *user, bite_error *error)
{
    bite_error_clear(error);
    if (answer == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "an answer was expected");
    }
    bite_status status = bite_style_check(style, sink, BITE_STYLE_PAGE, error);
    if (status != BITE_OK) {
        return status;
    }
    return style != NULL && style->format == BITE_JSON
               ? bite_json_write(answer_object(answer), bite_style_is_compact(style), sink, user,
                                 error)
               : write_text(answer, style, sink, user, error);
}
