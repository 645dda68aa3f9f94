/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The smallest change that makes a request clear: applied, it does; half of it does not. */
#include "core/names/registry.h"
#include "core/search/choice.h"
#include "tests/support/open_library.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define WORDS_MOST 12

/* Requests without clear settings, as names and texts in turns. */
static const struct {
    const char *words[WORDS_MOST];
    const char *what; /* the input that is expected to change; NULL: any */
    double direction; /* 1: it grows; 0: words */
    const char *word; /* the coolant or workholding that also frees; NULL: none */
} all[] = {
    /* a hole deeper than its drill */
    {{"grade", "6061", "tool", "3mm", "operation", "drill", "feature_depth", "60mm"},
     "feature_depth",
     -1.0,
     NULL},
    /* a thin wall beyond its tolerance */
    {{"grade", "acrylic/cast", "tool", "6mm", "feature_depth", "4mm", "wall_thickness", "0.4mm",
      "tolerance", "0.02mm", "feature_width", "1mm"},
     NULL,
     0.0,
     NULL},
    /* a tool that sticks out too far */
    {{"grade", "6061", "tool", "3mm", "feature_depth", "5mm", "stickout", "60mm", "tolerance",
      "0.02mm"},
     "stickout",
     -1.0,
     NULL},
    /* workholding that is too weak */
    {{"grade", "abs", "tool", "3mm", "depth", "1mm", "hold", "vacuum", "bond_area", "300mm2"},
     NULL,
     0.0,
     "tape"},
    /* more feed per tooth than the teeth withstand */
    {{"grade", "6061", "tool", "3mm", "feature_depth", "3mm", "feed_rate", "0.3mm/tooth"},
     "feed_rate",
     -1.0,
     NULL},
    /* a spindle that does not run so fast */
    {{"grade", "6061", "tool", "3mm", "feature_depth", "1mm", "spindle_speed", "30000rpm"},
     "spindle_speed",
     -1.0,
     NULL},
    /* a gap that is narrower than the tool */
    {{"grade", "6061", "tool", "3mm", "feature_depth", "1mm", "gap", "2.5mm"}, NULL, 0.0, NULL},
    /* more depth than the flutes clear at this feed */
    {{"grade", "6061", "tool", "3mm", "depth", "1.5mm", "feed_rate", "3000mm/min"},
     "depth",
     -1.0,
     NULL},
    /* a deep groove that melts, unless mist cools it */
    {{"grade", "petg", "tool", "3mm", "depth", "3mm"}, "depth", -1.0, "mist"},
    /* settings that are too warm for two flutes; one is enough, and so is air */
    {{"grade", "polystyrene", "tool", "3mm", "depth", "2mm", "spindle_speed", "24000rpm",
      "feed_rate", "600mm/min"},
     "tool",
     0.0,
     "air"},
    /* a drill in a hard metal, which nothing eases: a higher chance is accepted */
    {{"grade", "304", "tool", "drill-3", "operation", "drill", "feature_depth", "9mm"},
     "confidence",
     -1.0,
     NULL},
};
enum { CASES = sizeof all / sizeof *all };

static void set_word(bite_request *request, const char *name, const char *text)
{
    bite_error error = BITE_ERROR_INIT;
    bite_status status =
        strcmp(name, "grade") == 0  ? bite_request_use(request, BITE_GRADES, text, &error)
        : strcmp(name, "tool") == 0 ? bite_request_use(request, BITE_TOOLS, text, &error)
        : strcmp(name, "hold") == 0 ? bite_request_use(request, BITE_HOLDS, text, &error)
                                    : bite_request_set(request, name, text, &error);
    ck_assert_msg(status == BITE_OK, "%s %s: %s", name, text, error.message);
}

/* words: names and texts in turns, WORDS_MOST of them or ended by NULL. */
static bite_request *request_with(const char *const *words)
{
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    for (int i = 0; i < WORDS_MOST && words[i] != NULL; i += 2) {
        set_word(request, words[i], words[i + 1]);
    }
    return request;
}

static bite_request *request_of(int at)
{
    return request_with(all[at].words);
}

static bite_choice *choose(const bite_request *request, uint32_t effort, double confidence)
{
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = BITE_GOAL_USUAL;
    options.effort = effort;
    options.draws = 1024;
    options.confidence = confidence;
    bite_error error = BITE_ERROR_INIT;
    bite_choice *choice = NULL;
    ck_assert_msg(bite_choice_new(request, &options, &choice, &error) == BITE_OK, "%s (%s)",
                  error.message, error.hint);
    return choice;
}

static int is_clear(const bite_request *request, double confidence)
{
    bite_choice *choice = choose(request, BITE_EFFORT_WHOLE, confidence);
    int clear = bite_answer_result(bite_choice_answer(choice))->verdict == BITE_CLEAR;
    bite_choice_free(choice);
    return clear;
}

/* Enters a number for what a change changes. */
static void enter(bite_request *request, const bite_request_change *change, double number)
{
    bite_typed_input *typed = &request->typed[bite_input_index(bite_input_find(change->what))];
    typed->given = 1;
    typed->kind = change->kind;
    typed->value = number;
}

/* Half of a change of a number; a change to another tool, to the next whole number, or of a default
 * that need only be known, has no half. */
static void half_is_not_enough(int at, const bite_request_change *change)
{
    const bite_input *input = bite_input_find(change->what);
    bite_request *request = request_of(at);
    double half = sqrt(change->from * change->to);
    if (input != NULL && !input->whole && change->size > 1e-6) {
        enter(request, change, half);
        ck_assert_msg(!is_clear(request, 0.90), "%s: %g of %g is enough", change->what, half,
                      change->to);
    }
    bite_request_free(request);
}

START_TEST(named_change_frees_and_half_of_it_does_not)
{
    bite_request *request = request_of(_i);
    bite_choice *choice = choose(request, BITE_EFFORT_WHOLE, 0.90);
    const bite_request_change *change = &choice->freeing[0].change;
    ck_assert_uint_ge(bite_answer_result(choice->answer)->verdict, BITE_TIGHT);
    ck_assert_uint_gt(choice->active_count, 0); /* the limits in conflict */
    ck_assert_msg(change->what != NULL, "case %d: none", _i);
    ck_assert_msg(all[_i].what == NULL || strcmp(change->what, all[_i].what) == 0, "%s to %s",
                  change->what, change->to_word);
    ck_assert(all[_i].what == NULL || all[_i].direction == 0.0 ||
              all[_i].direction * (change->to - change->from) > 0.0);
    int accepts = strcmp(change->what, "confidence") == 0;
    double confidence = accepts ? change->to : 0.90;
    ck_assert_double_lt(choice->freeing[0].chance, 1.0 - confidence);
    const char *input = NULL;
    const char *to = NULL;
    ck_assert(bite_choice_freed_by(choice, 0, &input, &to));
    ck_assert(input == change->what && to == change->to_word);
    ck_assert(!bite_choice_freed_by(choice, BITE_FREEING_MAX, &input, &to));
    if (accepts) { /* in whole percent, few more than needed */
        double chance = bite_answer_result(choice->answer)->chance;
        bite_assert_near(100.0 * change->to, round(100.0 * change->to), 1e-9);
        ck_assert(change->to < 1.0 - chance && change->to > 0.93 - chance);
    } else {
        set_word(request, change->what, change->to_word);
    }
    ck_assert_msg(is_clear(request, confidence), "%s to %s is not clear", change->what,
                  change->to_word);
    half_is_not_enough(_i, change);
    bite_request_free(request);
    change = &choice->freeing[1].change; /* a coolant or another workholding */
    ck_assert(all[_i].word == NULL ? change->what == NULL
                                   : strcmp(change->to_word, all[_i].word) == 0);
    if (change->what != NULL) {
        request = request_of(_i);
        ck_assert(isnan(change->size));
        set_word(request, change->what, change->to_word);
        ck_assert_msg(is_clear(request, 0.90), "%s to %s is not clear", change->what,
                      change->to_word);
        bite_request_free(request);
    }
    bite_choice_free(choice);
}
END_TEST

/* With clear settings, and where a quick search was asked for, no change is looked for. */
START_TEST(nothing_is_changed_without_need)
{
    bite_request *request = request_of(2);
    bite_choice *choice = choose(request, BITE_EFFORT_QUICK, 0.90);
    ck_assert(!choice->clear && choice->freeing[0].change.what == NULL);
    bite_choice_free(choice);
    set_word(request, "stickout", "14mm");
    choice = choose(request, BITE_EFFORT_WHOLE, 0.90);
    ck_assert(choice->clear);
    ck_assert(choice->freeing[0].change.what == NULL && choice->freeing[1].change.what == NULL);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* A slot is as wide as its tool: one of 3 mm would bear the depth, but the slot would be another.
 * Where the feature is wider than the tool, the larger one is named. */
START_TEST(slot_keeps_its_width)
{
    static const char *const more[][2] = {{NULL, NULL}, {"feature_width", "6mm"}};
    bite_request *request = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    set_word(request, "grade", "304");
    set_word(request, "tool", "1.5mm");
    set_word(request, "depth", "0.75mm");
    if (more[_i][0] != NULL) {
        set_word(request, more[_i][0], more[_i][1]);
    }
    bite_choice *choice = choose(request, BITE_EFFORT_WHOLE, 0.90);
    const char *what = choice->freeing[0].change.what;
    ck_assert(!choice->clear);
    ck_assert_msg((what != NULL && strcmp(what, "tool") == 0) == (_i == 1), "%s: %s to %s",
                  more[_i][0], what, choice->freeing[0].change.to_word);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

/* The change that frees the best of several tools frees the choice among all of them; half of it
 * does not. */
START_TEST(among_tools_the_change_frees_the_choice)
{
    static const char *const words[][WORDS_MOST] = {
        {"grade", "6061", "feature_depth", "3mm", "feed_rate", "0.3mm/tooth"},
        {"grade", "acrylic/cast", "feature_depth", "3mm", "tolerance", "0.003mm", "width", "0.5mm",
         "stickout", "14mm"}};
    static const char *const tools[] = {"em-1-2", "em-2-2"};
    bite_choice_options options;
    bite_choice *choice = NULL;
    bite_request *request = request_with(words[_i]);
    bite_choice_options_init(&options);
    options.draws = 1024;
    options.tools = tools;
    options.tool_count = 2;
    ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
    const bite_request_change change = choice->freeing[0].change;
    ck_assert(!choice->clear);
    ck_assert_msg(change.what != NULL && bite_input_find(change.what) != NULL, "no change");
    bite_choice_free(choice);
    for (uint32_t whole = 0; whole < 2; whole++) {
        double number = whole ? change.to : sqrt(change.from * change.to);
        enter(request, &change, number);
        ck_assert_int_eq(bite_choice_new(request, &options, &choice, NULL), BITE_OK);
        ck_assert_msg(choice->clear == whole, "%s %g: clear %u", change.what, number,
                      choice->clear);
        bite_choice_free(choice);
    }
    bite_request_free(request);
}
END_TEST

static int append(void *user, const char *text, size_t size)
{
    char *page = user;
    size_t used = strlen(page);
    if (used + size >= 65536) {
        return 1;
    }
    memcpy(page + used, text, size);
    page[used + size] = 0;
    return 0;
}

/* Text and JSON name the input and the value to enter. */
START_TEST(change_is_reported)
{
    static char page[65536];
    char expected[160];
    bite_style style = {.struct_size = (uint32_t)sizeof style, .columns = 400};
    bite_request *request = request_of(2);
    bite_choice *choice = choose(request, BITE_EFFORT_WHOLE, 0.90);
    const bite_request_change *change = &choice->freeing[0].change;
    page[0] = 0;
    ck_assert_int_eq(bite_choice_write(choice, &style, append, page, NULL), BITE_OK);
    (void)snprintf(expected, sizeof expected,
                   "Smallest change that makes it clear: stickout from 60 mm to %s (",
                   change->to_word);
    ck_assert_msg(strstr(page, expected) != NULL, "%s", page);
    ck_assert(strstr(page, "Change first: ") == NULL);
    style.format = BITE_JSON;
    page[0] = 0;
    ck_assert_int_eq(bite_choice_write(choice, &style, append, page, NULL), BITE_OK);
    (void)snprintf(expected, sizeof expected, "\"enter\": \"%s\"", change->to_word);
    ck_assert_msg(strstr(page, "\"freed_by\"") != NULL && strstr(page, expected) != NULL, "%s",
                  page);
    bite_choice_free(choice);
    bite_request_free(request);
}
END_TEST

static bite_status change_once(void *with, bite_error *error)
{
    const bite_request *request = with;
    bite_choice_options options;
    bite_choice_options_init(&options);
    options.goal = BITE_GOAL_FAST;
    options.draws = 16;
    options.confidence = 0.90;
    bite_choice *choice = NULL;
    bite_status status = bite_choice_new(request, &options, &choice, error);
    ck_assert((status == BITE_OK) == (choice != NULL));
    ck_assert(choice == NULL || choice->freeing[0].change.what != NULL);
    bite_choice_free(choice);
    return status;
}

START_TEST(change_reports_failed_allocations)
{
    bite_test_memory memory = {0};
    bite_allocator allocator = bite_test_allocator(&memory);
    bite_library *shared = library;
    library = bite_test_shop_open(&shop, &allocator);
    bite_request *request = request_of(5);
    ck_assert_int_eq(change_once(request, NULL), BITE_OK); /* reads what the library keeps */
    bite_test_fail_allocations(&memory, 10, 100, change_once, request);
    bite_request_free(request);
    bite_library_close(library);
    ck_assert_uint_eq(memory.held, 0);
    library = shared;
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("freeing_change");
    TCase *freeing = tcase_create("freeing_change");
    tcase_add_checked_fixture(freeing, open_library, close_library);
    tcase_add_loop_test(freeing, named_change_frees_and_half_of_it_does_not, 0, CASES);
    tcase_add_loop_test(freeing, slot_keeps_its_width, 0, 2);
    tcase_add_loop_test(freeing, among_tools_the_change_frees_the_choice, 0, 2);
    tcase_add_test(freeing, nothing_is_changed_without_need);
    tcase_add_test(freeing, change_is_reported);
    tcase_add_test(freeing, change_reports_failed_allocations);
    tcase_set_timeout(freeing, 240);
    suite_add_tcase(suite, freeing);
    return bite_test_run(suite);
}
