/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The changes of a request that a shop can make: which, in what direction, and what is entered. */
#include "core/library/collection.h"
#include "core/search/request_change.h"
#include "tests/search/search_request.h"
#include "tests/support/open_library.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)
enum { INPUTS = 14 };

/* A request, the same with nothing asked of it, and its answer. */
typedef struct asked {
    search_request made;
    bite_answer *answer;
} asked;

static void ask(const search_input *inputs, asked *to)
{
    bite_error error = BITE_ERROR_INIT;
    search_request_begin(BITE_GOAL_FAST, &to->made);
    search_request_put_all(&to->made, inputs, INPUTS);
    ck_assert_msg(bite_answer_new(to->made.request, BITE_DRAWS_NONE, 0.0, &to->answer, &error) ==
                      BITE_OK,
                  "%s: %s", error.key, error.message);
}

static void end(asked *one)
{
    bite_answer_free(one->answer);
    search_request_end(&one->made);
}

/* All changes of one size, as "name to: ..." in the order in which they are tried. */
static void changes_of(const search_input *inputs, double size, char *text, size_t room)
{
    asked one;
    ask(inputs, &one);
    text[0] = 0;
    for (size_t at = 0; at < bite_request_change_count(); at++) {
        static bite_request request; /* a copy, as the search makes them */
        bite_request_change change;
        request = *one.made.request;
        if (bite_request_change_number(at, size, one.made.request, BITE_METRIC, one.answer,
                                       &request, &change)) {
            size_t used = strlen(text);
            (void)snprintf(text + used, room - used, "%s %s; ", change.what, change.to_word);
            ck_assert_double_ge(change.size, size - 1e-9);
            bite_assert_near(change.size, fabs(log(change.to / change.from)), 1e-9);
        }
    }
    end(&one);
}

/* A tenth more or less, e^0.1 = 1.10517, rounded away from what it was, to two digits, or to three
 * if two would be 2 % further: 30 mm to 27.1451, so 27; a default of 14 mm to 12.668, so 12.6, for
 * 12 is 5 % less; 333 mm/min to 301.31, so 300, and to 368.02, so 370; 12000 rpm to 10858, so
 * 10800, and to 13262, so 13300; 0.03 mm to 27.145 um, so 27, and to 33.155, so 33.2; 0.5 mm to
 * 0.4524, so 0.45; 1000 mm2 to 1105.2, so 1110; 1.7 mm to 1.8788, so 1.9; 6 mm to 6.631, so 6.7;
 * flutes are whole. What was not given, a tolerance say, restricts nothing and stays; defaults of
 * the tool change: 9 mm of flutes to 9.947, so 10; 10 um of runout to 9.048, so 9. */
START_TEST(numbers_go_the_way_that_helps)
{
    static const struct {
        search_input inputs[INPUTS];
        const char *changes;
    } cases[] = {
        {{{"material", "acrylic/cast"},
          {"tool", "3mm"},
          {"stickout", "30mm"},
          {"spindle_speed", "12000rpm"},
          {"feed_rate", "333mm/min"},
          {"depth", "0.5mm"},
          {"width", "2mm"},
          {"tolerance", "0.1mm"},
          {"finish", "2um"},
          {"inside_radius", "1.7mm"},
          {"path_length", "100mm"},
          {"bond_area", "1000mm2"}},
         "stickout 27 mm; flute_length 10 mm; runout 9 um; flutes 1; feed_rate 300 mm/min; "
         "feed_rate 370 mm/min; spindle_speed 10800 rpm; spindle_speed 13300 rpm; depth 0.45 mm; "
         "width 1.8 mm; path_length 90 mm; bond_area 1110 mm2; tolerance 0.111 mm; finish 2.22 um; "
         "inside_radius 1.9 mm; "},
        {{{"material", "acrylic/cast"},
          {"tool", "3mm"},
          {"spindle_speed", "12000rpm"},
          {"feed_rate", "0.03mm/tooth"},
          {"feature_depth", "5mm"},
          {"wall_thickness", "1mm"},
          {"wall_height", "5mm"},
          {"gap", "6mm"},
          {"width", "1mm"}},
         "stickout 12.6 mm; flute_length 10 mm; runout 9 um; flutes 1; feed_rate 27 um/tooth; "
         "feed_rate 33.2 um/tooth; spindle_speed 10800 rpm; spindle_speed 13300 rpm; width 0.9 mm; "
         "feature_depth 4.5 mm; gap 6.7 mm; wall_thickness 1.11 mm; wall_height 4.5 mm; "},
        {{{"material", "acrylic/cast"},
          {"tool", "3mm"},
          {"spindle_speed", "12000rpm"},
          {"feed_rate", "0.03mm/tooth"},
          {"depth", "0.5mm"},
          {"floor_thickness", "1mm"},
          {"floor_span", "30mm"},
          {"flatness", "0.1mm"},
          {"stock_thickness", "3mm"}},
         "stickout 12.6 mm; flute_length 10 mm; runout 9 um; flutes 1; feed_rate 27 um/tooth; "
         "feed_rate 33.2 um/tooth; spindle_speed 10800 rpm; spindle_speed 13300 rpm; depth 0.45 "
         "mm; floor_thickness 1.11 mm; floor_span 27 mm; flatness 0.111 mm; stock_thickness 3.32 "
         "mm; "},
    };
    char text[1200];
    changes_of(cases[_i].inputs, 0.1, text, sizeof text);
    ck_assert_str_eq(text, cases[_i].changes);
}
END_TEST

/* A default scatters; stating it as measured is a change of no size. A given number is none. */
START_TEST(defaults_can_be_stated)
{
    static const search_input inputs[INPUTS] = {
        {"material", "acrylic/cast"}, {"tool", "3mm"},    {"spindle_speed", "12000rpm"},
        {"feed_rate", "330mm/min"},   {"depth", "0.5mm"}, {"runout", "8um"}};
    char text[1200];
    changes_of(inputs, 0.0, text, sizeof text);
    ck_assert_str_eq(text, "stickout 14 mm; flute_length 9 mm; flutes 2; ");
}
END_TEST

/* The collet clamps on the shank: not on 9 mm of flutes, nor on 7 mm of neck beside them. */
START_TEST(the_shank_is_clamped)
{
    static const search_input plain[INPUTS] = {
        {"material", "acrylic/cast"}, {"tool", "3mm"},    {"spindle_speed", "12000rpm"},
        {"feed_rate", "333mm/min"},   {"depth", "0.5mm"}, {"stickout", "20mm"},
        {"flute_length", "9mm"}};
    static const search_input necked[INPUTS] = {
        {"material", "acrylic/cast"}, {"tool", "3mm"},        {"spindle_speed", "12000rpm"},
        {"feed_rate", "333mm/min"},   {"depth", "0.5mm"},     {"stickout", "20mm"},
        {"flute_length", "9mm"},      {"neck_length", "7mm"}, {"neck_diameter", "2.8mm"}};
    static const struct {
        const search_input *inputs;
        double size;
        const char *begins;
    } cases[] = {{plain, 0.79, "stickout 9 mm; "},
                 {plain, 0.82, "flute_length "},
                 {necked, 0.2, "stickout 16.3 mm; "},
                 {necked, 0.25, "flute_length "}};
    char text[1200];
    for (size_t i = 0; i < COUNT(cases); i++) {
        changes_of(cases[i].inputs, cases[i].size, text, sizeof text);
        ck_assert_msg(strncmp(text, cases[i].begins, strlen(cases[i].begins)) == 0, "%zu: %s", i,
                      text);
    }
}
END_TEST

/* Only a stronger coolant, another workholding, another tool. */
START_TEST(words_are_changed_to_others)
{
    static const search_input inputs[INPUTS] = {{"material", "6061"},
                                                {"tool", "em-3-2"},
                                                {"spindle_speed", "9000rpm"},
                                                {"feed_rate", "300mm/min"},
                                                {"depth", "0.5mm"},
                                                {"coolant", "mist"},
                                                {"hold", "vise"}};
    static bite_request request;
    bite_request_change change;
    asked one;
    ask(inputs, &one);
    const bite_request *made = one.made.request;
    static const int stronger[] = {0, 0, 0, 1, 0}; /* none, air, mist, flood, and no word */
    for (uint32_t word = 0; word < COUNT(stronger); word++) {
        request = *made;
        int changed = bite_request_change_coolant(word, one.answer, &request, &change);
        ck_assert_int_eq(changed, stronger[word]);
        if (changed) {
            ck_assert_str_eq(change.what, "coolant");
            ck_assert_str_eq(change.from_word, "mist");
            ck_assert_str_eq(change.to_word, "flood");
            ck_assert(isnan(change.size) && !change.by_default);
        }
    }
    static const struct {
        bite_collection shelf;
        const char *name;
        int changes;
    } records[] = {{BITE_HOLDS, "vise", 0},
                   {BITE_HOLDS, "tape", 1},
                   {BITE_TOOLS, "em-3-2", 0},
                   {BITE_TOOLS, "em-6-2", 1},
                   {BITE_TOOLS, "drill-3", 0}};
    for (size_t i = 0; i < COUNT(records); i++) {
        const bite_item_record *record = NULL;
        ck_assert_int_eq(
            bite_library_record(library, records[i].shelf, records[i].name, &record, NULL),
            BITE_OK);
        request = *made;
        int changed = records[i].shelf == BITE_HOLDS
                          ? bite_request_change_hold(record, &request, &change)
                          : bite_request_change_tool(record, one.answer, &request, &change);
        ck_assert_msg(changed == records[i].changes, "%s", records[i].name);
        if (changed) {
            ck_assert_str_eq(change.to_word, records[i].name);
            ck_assert_ptr_eq(records[i].shelf == BITE_HOLDS ? request.hold : request.tool, record);
        }
    }
    end(&one);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("request change");
    TCase *tests = tcase_create("request change");
    tcase_add_unchecked_fixture(tests, open_library, close_library);
    tcase_add_loop_test(tests, numbers_go_the_way_that_helps, 0, 3);
    tcase_add_test(tests, defaults_can_be_stated);
    tcase_add_test(tests, the_shank_is_clamped);
    tcase_add_test(tests, words_are_changed_to_others);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
