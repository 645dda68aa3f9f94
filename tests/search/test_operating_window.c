/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window and what comes after a trouble: they say what the pass says, keep their frames, and
 * bear bad calls and no memory. */
#include "core/names/registry.h"
#include "core/report/window/contour.h"
#include "core/search/diagnosis.h"
#include "core/search/operating_window.h"
#include "tests/support/test_tables.h"
#include <math.h>
#include <string.h>

static bite_test_shop shop;
static bite_library *library;

static void setup(void)
{
    bite_test_shop_make(&shop);
    library = bite_test_shop_open(&shop, NULL);
}

static void teardown(void)
{
    bite_library_close(library);
    bite_test_remove(shop.root);
}

static bite_answer *answer_of(const bite_library *of, size_t draws)
{
    static const char *const typed[][2] = {{"spindle_speed", "12000rpm"},
                                           {"feed_rate", "200mm/min"},
                                           {"depth", "0.2mm"},
                                           {"stickout", "6mm"},
                                           {"tolerance", "0.05mm"}};
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_new(of, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "0.8mm", NULL), BITE_OK);
    for (size_t i = 0; i < sizeof typed / sizeof *typed; i++) {
        ck_assert_int_eq(bite_request_set(request, typed[i][0], typed[i][1], NULL), BITE_OK);
    }
    ck_assert_int_eq(bite_answer_new(request, draws, 0.95, &answer, NULL), BITE_OK);
    bite_request_free(request);
    return answer;
}

static bite_window_options options_of(uint32_t columns, uint32_t rows)
{
    bite_window_options options = {(uint32_t)sizeof options,
                                   columns,
                                   rows,
                                   0,
                                   NULL,
                                   NULL,
                                   (double)NAN,
                                   (double)NAN,
                                   (double)NAN,
                                   (double)NAN};
    return options;
}

/* Every place is the pass there; the point in use lies within; margins are none without draws. */
START_TEST(places_are_passes)
{
    bite_answer *answer = answer_of(library, 256);
    bite_window_options options = options_of(9, 7);
    bite_window *window = NULL;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    for (size_t up = 0; up < 7; up++) {
        for (size_t across = 0; across < 9; across++) {
            bite_cut cut = answer->full;
            bite_result result = {0};
            result.struct_size = (uint32_t)sizeof result;
            cut.tolerance = answer->requested.tolerance;
            cut.finish = answer->requested.finish;
            cut.spindle_speed = bite_axis_at(&window->across, (double)across / 8.0);
            cut.feed_rate = bite_axis_at(&window->up, (double)up / 6.0);
            ck_assert_int_eq(bite_cut_pass(&cut, &result, NULL), BITE_OK);
            double worst = 0.0;
            for (size_t i = 0; i < BITE_LIMIT_COUNT; i++) {
                double utilization = bite_window_utilization(window, i, across, up);
                ck_assert(result.limits[i].applies ? utilization == result.limits[i].utilization
                                                   : isnan(utilization));
                ck_assert_double_ge(bite_window_margin(window, i, across, up), 1.0);
                worst = result.limits[i].applies && !result.limits[i].advisory
                            ? fmax(worst, utilization)
                            : worst;
            }
            ck_assert((bite_window_verdict(window, across, up) == BITE_OVER) == (worst > 1.0));
        }
    }
    double share = bite_axis_share(&window->across, window->across.here);
    ck_assert(share > 0.0 && share < 1.0);
    bite_assert_near(bite_axis_at(&window->across, share), 200.0, 1e-12);
    bite_window_free(window);
    bite_answer_free(answer);
    answer = answer_of(library, BITE_DRAWS_NONE);
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    ck_assert_double_eq(bite_window_margin(window, BITE_LIMIT_SOFTENING, 3, 3), 1.0);
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

START_TEST(bad_windows_are_refused)
{
    bite_answer *answer = answer_of(library, 64);
    bite_window *window = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_window_options options = options_of(1, 7);
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    options = options_of(401, 401);
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    options = options_of(0, 0);
    options.across = "side";
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    options.across = "nothing";
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_UNKNOWN_NAME);
    options.across = "finish";
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_MISSING);
    options.across = "feed_rate";
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    options.across = "depth";
    options.across_least = -1.0;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_OUT_OF_RANGE);
    options.struct_size = 1;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_BAD_ARGUMENT);
    ck_assert_ptr_null(window);
    bite_answer_free(answer);
    bite_window_free(NULL);
}
END_TEST

/* What is counted goes in whole steps, ends and all. */
START_TEST(counted_axes)
{
    bite_answer *answer = answer_of(library, 64);
    bite_window_options options = options_of(0, 9);
    bite_window *window = NULL;
    bite_error error = BITE_ERROR_INIT;
    options.across = "flutes";
    options.across_least = 1.0;
    options.across_most = 4.0;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_OK);
    ck_assert_uint_eq(window->across.count, 4);
    for (size_t i = 0; i < 4; i++) {
        ck_assert_double_eq(bite_axis_at(&window->across, (double)i / 3.0), 1.0 + (double)i);
        ck_assert(bite_window_verdict(window, i, 4) != BITE_NOT_JUDGED);
    }
    ck_assert(!isnan(bite_window_utilization(window, BITE_LIMIT_RUNOUT, 1, 4)) &&
              isnan(bite_window_utilization(window, BITE_LIMIT_RUNOUT, 0, 4)));
    bite_window_free(window);
    options.across_most = 2.5;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, &error), BITE_OUT_OF_RANGE);
    bite_answer_free(answer);
}
END_TEST

static int swallow(void *user, const char *text, size_t size)
{
    size_t *left = user;
    (void)text;
    if (size > *left) {
        return 1;
    }
    *left -= size;
    return 0;
}

/* Every format, and a sink that takes no more at any time: an answer, never a crash. */
START_TEST(sinks_that_refuse)
{
    bite_answer *answer = answer_of(library, 64);
    bite_window_options options = options_of(21, 17);
    bite_window *window = NULL;
    bite_diagnosis *diagnosis = NULL;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    ck_assert_int_eq(bite_diagnosis_new(answer, "strings", &diagnosis, NULL), BITE_OK);
    bite_style style = {(uint32_t)sizeof style, (uint32_t)_i, BITE_METRIC, 0, 0, 0, 0, 0};
    size_t whole = 1u << 24;
    ck_assert_int_eq(bite_window_write(window, &style, swallow, &whole, NULL), BITE_OK);
    size_t size = (1u << 24) - whole;
    ck_assert_uint_gt(size, 500);
    for (size_t capacity = 0; capacity < size; capacity += 1 + size / 50) {
        size_t left = capacity;
        ck_assert_int_eq(bite_window_write(window, &style, swallow, &left, NULL),
                         BITE_CANNOT_WRITE);
    }
    size_t little = 100;
    bite_status status = bite_diagnosis_write(diagnosis, &style, swallow, &little, NULL);
    ck_assert_int_eq(status, style.format > BITE_JSON ? BITE_BAD_ARGUMENT : BITE_CANNOT_WRITE);
    bite_diagnosis_free(diagnosis);
    bite_window_free(window);
    bite_answer_free(answer);
}
END_TEST

/* No memory at any call: said, and nothing is left behind. */
START_TEST(memory_runs_out)
{
    for (size_t fail = 1; fail < 400; fail++) {
        bite_test_memory memory = {0, 0, 0};
        bite_allocator allocator = bite_test_allocator(&memory);
        bite_library *of = bite_test_shop_open(&shop, &allocator);
        bite_answer *answer = answer_of(of, 64);
        bite_window_options options = options_of(9, 7);
        bite_style style = {(uint32_t)sizeof style, BITE_SVG, BITE_METRIC, 0, 0, 0, 0, 0};
        bite_window *window = NULL;
        size_t capacity = 1u << 24;
        memory.calls = 0;
        memory.fail_at = fail;
        bite_status status = bite_window_new(answer, &options, &window, NULL);
        status = status != BITE_OK ? status
                                   : bite_window_write(window, &style, swallow, &capacity, NULL);
        size_t calls = memory.calls;
        memory.fail_at = 0;
        bite_window_free(window);
        bite_answer_free(answer);
        bite_library_close(of);
        ck_assert_uint_eq(memory.held, 0);
        if (fail > calls) {
            ck_assert_int_eq(status, BITE_OK);
            return;
        }
        ck_assert_int_eq(status, BITE_NO_MEMORY);
    }
    ck_abort_msg("memory never sufficed");
}
END_TEST

/* A remedy leaves less of what is suspected, the best first; it makes what is suspected first no
 * worse, and is one that a machinist can make. */
START_TEST(remedies_help)
{
    static const char *const symptoms[] = {"melted-edge", "strings",   "dust",
                                           "broken-tool", "dull-haze", "squeal"};
    bite_answer *answer = answer_of(library, 256);
    bite_diagnosis *diagnosis = NULL;
    ck_assert_int_eq(bite_diagnosis_new(answer, symptoms[_i], &diagnosis, NULL), BITE_OK);
    ck_assert_uint_gt(diagnosis->suspect_count, 0);
    ck_assert_uint_lt(diagnosis->foremost, diagnosis->suspect_count);
    ck_assert_uint_gt(diagnosis->remedy_count, 0);
    double before = 0.0;
    uint32_t first = 0;
    while (isnan(diagnosis->suspects[first].share)) {
        first++;
    }
    for (uint32_t i = 0; i < diagnosis->remedy_count; i++) {
        const bite_remedy *remedy = &diagnosis->remedies[i];
        ck_assert_double_le(remedy->left, 1.0);
        ck_assert_double_ge(remedy->left, before);
        ck_assert(!(remedy->after[first] > 1.1 * diagnosis->suspects[first].share));
        before = remedy->left;
        for (uint32_t k = 0; k < i; k++) {
            ck_assert_uint_ne(diagnosis->remedies[k].change.input, remedy->change.input);
        }
        ck_assert(remedy->change.after >= 0.0 &&
                  remedy->change.after <= remedy->change.before + 0.1);
    }
    bite_diagnosis_free(diagnosis);
    ck_assert_int_eq(bite_diagnosis_new(answer, "bad-mood", &diagnosis, NULL), BITE_UNKNOWN_NAME);
    bite_answer_free(answer);
}
END_TEST

/* A point that is clear lies in its own range along either axis, and what lies beside it is judged
 * at the point, not half a step off: a full slot is the end of its axis, and a spindle's mark is a
 * place that the grid has not. */
START_TEST(ranges_hold_the_point)
{
    static const struct {
        const char *operation;
        const char *across;
        const char *up;
        const char *spindle;
        double wide[2]; /* most over least, at least */
    } cases[] = {{"mill", "depth", "width", "18000rpm", {2.0, 2.0}},
                 {"mill", "spindle_speed", "feed_rate", "24000rpm", {2.0, 2.0}},
                 {"drill", "spindle_speed", "feed_rate", "24000rpm", {2.0, 2.0}}};
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_window *window = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "6061", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "bench-24k", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "operation", cases[_i].operation, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "coolant", "air", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", cases[_i].spindle, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "900mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "0.45mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, 256, 0.95, &answer, NULL), BITE_OK);
    ck_assert_uint_eq(answer->result.verdict, BITE_CLEAR);
    bite_window_options options = options_of(0, 0);
    options.across = cases[_i].across;
    options.up = cases[_i].up;
    ck_assert_int_eq(bite_window_new(answer, &options, &window, NULL), BITE_OK);
    for (int up = 0; up < 2; up++) {
        const bite_axis *axis = up ? &window->up : &window->across;
        double least = 0.0;
        double most = 0.0;
        ck_assert_int_eq(bite_window_clear(window, up, &least, &most), 1);
        ck_assert(least <= axis->here && axis->here <= most);
        ck_assert(least >= axis->least * (1.0 - 1e-12) && most <= axis->most * (1.0 + 1e-12));
        ck_assert_double_ge(most / least, cases[_i].wide[up]);
        if (axis->input == bite_input_find("width")) {
            bite_assert_near(axis->most, 3e-3, 1e-12); /* a wider cut is none */
        }
        if (axis->here == 400.0) {
            ck_assert_double_eq(most, axis->here); /* the spindle's fastest */
        }
    }
    bite_window_free(window);
    bite_answer_free(answer);
    bite_request_free(request);
}
END_TEST

static const bite_remedy *remedy_of(const bite_diagnosis *diagnosis, const char *input)
{
    for (uint32_t i = 0; i < diagnosis->remedy_count; i++) {
        if (bite_input_at(diagnosis->remedies[i].change.input) == bite_input_find(input)) {
            return &diagnosis->remedies[i];
        }
    }
    return NULL;
}

static bite_answer *creeping(const char *edge)
{
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, "acrylic/cast", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_MACHINES, "trim-router", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", "24000rpm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", "600mm/min", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", "1.5mm", NULL), BITE_OK);
    if (edge != NULL) {
        ck_assert_int_eq(bite_request_set(request, "edge_radius", edge, NULL), BITE_OK);
    }
    ck_assert_int_eq(bite_answer_new(request, 0, 0.95, &answer, NULL), BITE_OK);
    bite_request_free(request);
    return answer;
}

static bite_diagnosis *after_of(const bite_answer *answer, const char *symptom)
{
    bite_diagnosis *diagnosis = NULL;
    ck_assert_int_eq(bite_diagnosis_new(answer, symptom, &diagnosis, NULL), BITE_OK);
    return diagnosis;
}

/* Whose edge melts at 12 um a tooth feeds more: best estimates say little of it, the draws say that
 * a third of the chance goes. What is promised is what a cut with that feed comes to. An edge that
 * was taken is new already, and none keener is to be had; a worn one is to be a new one. */
START_TEST(who_creeps_feeds_more)
{
    bite_answer *answer = creeping(NULL);
    bite_diagnosis *diagnosis = after_of(answer, "melted-edge");
    const bite_remedy *feed = remedy_of(diagnosis, "feed_rate");
    ck_assert_ptr_nonnull(feed);
    bite_assert_near(feed->change.to, 1.2 / 60.0, 1e-12);
    ck_assert_double_eq(feed->change.before, answer->result.chance);
    ck_assert_double_lt(feed->change.after, 0.8 * feed->change.before);
    ck_assert_ptr_null(remedy_of(diagnosis, "edge_radius"));
    ck_assert(answer->change.input != (uint32_t)bite_input_index(bite_input_find("edge_radius")));
    bite_diagnosis_free(diagnosis);
    bite_answer_free(answer);
    answer = creeping("12um");
    diagnosis = after_of(answer, "melted-edge");
    const bite_remedy *edge = remedy_of(diagnosis, "edge_radius");
    ck_assert_ptr_nonnull(edge);
    bite_assert_near(edge->change.from, 12e-6, 1e-15);
    bite_assert_near(edge->change.to, 3e-6, 1e-12);
    bite_diagnosis_free(diagnosis);
    bite_answer_free(answer);
}
END_TEST

/* What a machinist would do, in metal and in plastic: strings want thicker chips, never thinner;
 * squeal wants a shorter tool too; and nobody feeds faster once a tool broke. */
START_TEST(remedies_are_a_machinists)
{
    static const struct {
        const char *grade;
        const char *spindle;
        const char *feed;
        const char *depth;
    } cuts[] = {{"acrylic/cast", "18000rpm", "400mm/min", "2mm"},
                {"polycarbonate/sheet", "18000rpm", "400mm/min", "2mm"},
                {"6061", "18000rpm", "400mm/min", "0.5mm"},
                {"304", "6000rpm", "200mm/min", "0.5mm"}};
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    ck_assert_int_eq(bite_request_new(library, &request, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_GRADES, cuts[_i].grade, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_use(request, BITE_TOOLS, "3mm", NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "spindle_speed", cuts[_i].spindle, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "feed_rate", cuts[_i].feed, NULL), BITE_OK);
    ck_assert_int_eq(bite_request_set(request, "depth", cuts[_i].depth, NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, 256, 0.95, &answer, NULL), BITE_OK);
    const bite_cut *full = &answer->full;
    bite_diagnosis *diagnosis = after_of(answer, "strings");
    const bite_remedy *feed = remedy_of(diagnosis, "feed_rate");
    const bite_remedy *spindle = remedy_of(diagnosis, "spindle_speed");
    ck_assert(feed != NULL || spindle != NULL);
    ck_assert(feed == NULL || feed->change.to > full->feed_rate);
    ck_assert(spindle == NULL || spindle->change.to < full->spindle_speed);
    bite_diagnosis_free(diagnosis);
    diagnosis = after_of(answer, "squeal");
    ck_assert_ptr_nonnull(remedy_of(diagnosis, "stickout"));
    ck_assert_double_lt(remedy_of(diagnosis, "stickout")->change.to, full->stickout);
    ck_assert_ptr_nonnull(remedy_of(diagnosis, "depth"));
    bite_diagnosis_free(diagnosis);
    diagnosis = after_of(answer, "broken-tool");
    feed = remedy_of(diagnosis, "feed_rate");
    ck_assert(feed == NULL || feed->change.to < full->feed_rate);
    bite_diagnosis_free(diagnosis);
    diagnosis = after_of(answer, "burr");
    ck_assert_ptr_null(remedy_of(
        diagnosis,
        "edge_radius")); /* a new edge was taken: what is dull stands in what no settings tell */
    bite_diagnosis_free(diagnosis);
    bite_answer_free(answer);
    ck_assert_int_eq(bite_request_set(request, "edge_radius", "15um", NULL), BITE_OK);
    ck_assert_int_eq(bite_answer_new(request, 256, 0.95, &answer, NULL), BITE_OK);
    diagnosis = after_of(answer, "burr");
    ck_assert_ptr_nonnull(remedy_of(diagnosis, "edge_radius"));
    bite_diagnosis_free(diagnosis);
    bite_answer_free(answer);
    bite_request_free(request);
}
END_TEST

/* ---- contours ---- */

static double bowl(const void *user, size_t across, size_t up)
{
    double x = (double)across - 20.0;
    double y = (double)up - 15.0;
    (void)user;
    return hypot(x, y);
}

static double holed(const void *user, size_t across, size_t up)
{
    return across == 20 && up == 15 ? (double)NAN : bowl(user, across, up);
}

static double area_of(const bite_spot *corner, size_t count)
{
    double twice = 0.0;
    for (size_t i = 0; i < count; i++) {
        const bite_spot *next = &corner[(i + 1) % count];
        twice += corner[i].x * next->y - next->x * corner[i].y;
    }
    return 0.5 * twice;
}

/* Bands of levels share out the whole grid; the circle's line is closed and its area that of a
 * circle. */
START_TEST(contours_share_out_the_grid)
{
    bite_grid grid = {41, 31, bowl, NULL};
    double levels[] = {-INFINITY, 5.0, 10.0, INFINITY};
    double area[3] = {0.0, 0.0, 0.0};
    for (size_t up = 0; up < 30; up++) {
        for (size_t across = 0; across < 40; across++) {
            for (int i = 0; i < 3; i++) {
                bite_spot corner[BITE_CORNERS_MAX];
                size_t count =
                    bite_contour_cell(&grid, across, up, levels[i], levels[i + 1], corner);
                area[i] += area_of(corner, count);
            }
        }
    }
    bite_assert_near(area[0] + area[1] + area[2], 1200.0, 1e-9);
    bite_assert_near(area[0], M_PI * 25.0, 0.02);
    bite_assert_near(area[1], M_PI * 75.0, 0.02);
    bite_contour contour;
    ck_assert(bite_contour_find(&grid, 10.0, bite_memory_default(), &contour));
    ck_assert_uint_eq(contour.line_count, 1);
    ck_assert_double_eq(contour.spots[0].x, contour.spots[contour.spot_count - 1].x);
    ck_assert_double_eq(contour.spots[0].y, contour.spots[contour.spot_count - 1].y);
    for (size_t i = 0; i < contour.spot_count; i++) {
        bite_assert_near(hypot(contour.spots[i].x - 20.0, contour.spots[i].y - 15.0), 10.0, 0.01);
    }
    bite_contour_free(bite_memory_default(), &contour);
    grid.at = holed;
    ck_assert(bite_contour_find(&grid, 0.5, bite_memory_default(), &contour));
    ck_assert_uint_eq(contour.line_count, 0); /* the hole takes it all */
    bite_contour_free(bite_memory_default(), &contour);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("window");
    TCase *window = tcase_create("window");
    tcase_add_checked_fixture(window, setup, teardown);
    tcase_add_test(window, places_are_passes);
    tcase_add_test(window, bad_windows_are_refused);
    tcase_add_loop_test(window, sinks_that_refuse, BITE_TEXT, BITE_SVG + 1);
    tcase_add_test(window, memory_runs_out);
    tcase_add_test(window, counted_axes);
    tcase_add_loop_test(window, remedies_help, 0, 6);
    tcase_add_loop_test(window, ranges_hold_the_point, 0, 3);
    tcase_add_test(window, who_creeps_feeds_more);
    tcase_add_loop_test(window, remedies_are_a_machinists, 0, 4);
    tcase_add_test(window, contours_share_out_the_grid);
    tcase_set_timeout(window, 120);
    suite_add_tcase(suite, window);
    return bite_test_run(suite);
}
