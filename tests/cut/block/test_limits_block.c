/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of blocks of random cuts: the limits of a cut do not depend on the others of its block. */
#include "core/cut/block/entry_block.h"
#include "core/cut/block/pass_block.h"
#include "core/cut/limits.h"
#include "core/cut/pass.h"
#include "core/names/registry.h"
#include "tests/support/any_cut.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include "tests/support/test_segment.h"
#include <math.h>
#include <stddef.h>
#include <string.h>

#define SEGMENT_ROWS (sizeof(bite_block_segment) / sizeof(bite_lanes))

/* One lane of a bite_block_segment: all members are rows. */
typedef struct lane {
    double row[SEGMENT_ROWS];
} lane;

/* One cut and its segments. */
typedef struct judged {
    bite_checked_cut checked;
    double move[BITE_BLOCK_ROWS]; /* the numbers of the entry move */
    double along;                 /* m/s, feed along it */
    lane straight;
    lane turn;
    lane down;
    int turns;
    int enters;
} judged;

/* ---- the segments of a cut, as a pass computes them ---- */

static bite_block_space space;

static void take_lane(const bite_block_segment *segment, lane *to)
{
    const bite_lanes *rows = &segment->enter;
    for (size_t i = 0; i < SEGMENT_ROWS; i++) {
        to->row[i] = rows[i][0];
    }
}

static void enter(judged *out)
{
    bite_entry_rows before;
    bite_block_start(&space, &out->checked, NULL, 0);
    bite_block_entry(&space.block, &space.work, &before, &space.other);
    take_lane(&space.other, &out->down);
    out->along = before.along[0];
    for (size_t i = 0; i < BITE_BLOCK_ROWS; i++) {
        out->move[i] = space.block.number[i][0];
    }
}

/* 0: the cut is refused. */
static int judge(const bite_cut *cut, judged *out)
{
    if (bite_checked_cut_init(cut, &out->checked, NULL) != BITE_OK) {
        return 0;
    }
    const bite_cut *full = &out->checked.full;
    bite_checked_cut path = out->checked;
    path.full.entry = BITE_ENTRY_OUTSIDE;
    bite_block_space_init(&space);
    bite_block_start(&space, &path, NULL, 0);
    bite_block_evaluate(&space, 1, NULL);
    take_lane(&space.straight, &out->straight);
    double diameter = space.straight.diameter[0];
    double width = full->operation == BITE_CHAMFER ? full->depth * tan(full->taper)
                   : isnan(full->taper)            ? fmin(full->width, diameter)
                                                   : diameter;
    out->turns =
        !isnan(full->inside_radius) && width < diameter && full->operation != BITE_DRILL_HOLE;
    if (out->turns) {
        take_lane(&space.other, &out->turn);
    }
    out->enters = full->entry != BITE_ENTRY_OUTSIDE && full->operation == BITE_MILL;
    if (out->enters) {
        enter(out);
    }
    return 1;
}

/* A cut, and others like it that have the same segments. 0: there are none. */
static int judge_all(uint64_t *seed, judged cuts[BITE_LANES])
{
    bite_cut cut = bite_test_any_cut(seed);
    if (!judge(&cut, &cuts[0])) {
        return 0;
    }
    int count = 1;
    for (int tries = 0; tries < 4 * BITE_LANES && count < BITE_LANES; tries++) {
        bite_cut similar = bite_test_similar_cut(&cut, seed);
        count += judge(&similar, &cuts[count]) && cuts[count].turns == cuts[0].turns &&
                 cuts[count].enters == cuts[0].enters;
    }
    return count == BITE_LANES;
}

/* ---- blocks of them ---- */

static void set_cut(const judged *one, const double *numbers, bite_block *block, int k)
{
    block->tolerance[k] = one->checked.requested.tolerance;
    block->finish[k] = one->checked.requested.finish;
    for (size_t i = 0; i < BITE_BLOCK_ROWS; i++) {
        block->number[i][k] = numbers[i];
    }
}

static void set_segment(const lane *from, bite_block_segment *segment, int k)
{
    bite_lanes *rows = &segment->enter;
    for (size_t i = 0; i < SEGMENT_ROWS; i++) {
        rows[i][k] = from->row[i];
    }
}

static bite_block block;
static bite_block move;
static bite_block_segment straight;
static bite_block_segment turn;
static bite_block_segment down;
static bite_lanes along;

static void set_blocks(const judged *cuts, int count)
{
    block.lanes = move.lanes = (count + BITE_LANE_STEP - 1) / BITE_LANE_STEP * BITE_LANE_STEP;
    block.flutes = move.flutes = (int)cuts->checked.full.flutes;
    block.cut = &cuts->checked.full;
    move.cut = &cuts->checked.full;
    for (int k = 0; k < block.lanes; k++) {
        const judged *one = &cuts[k < count ? k : count - 1];
        set_cut(one, &one->checked.full.spindle_speed, &block, k);
        set_segment(&one->straight, &straight, k);
        set_segment(&one->turn, &turn, k);
        set_cut(one, one->move, &move, k);
        set_segment(&one->down, &down, k);
        along[k] = one->along;
    }
}

static void judge_block(const judged *cuts, int count, const uint8_t *wanted,
                        bite_block_limits_result *limits)
{
    set_blocks(cuts, count);
    bite_block_limits(&block, &straight, wanted, limits);
    if (cuts->turns) {
        bite_block_limits_corner(&block, &turn, limits);
    }
    if (cuts->enters) {
        bite_block_limits_entry(&move, &down, along, limits);
    }
}

/* ---- tests ---- */

static void expect_near(double one, double other)
{
    if (one != other) { /* a depth that is infinite is the same */
        bite_assert_near(one, other, 1e-12);
    }
}

static void expect_same(const bite_limit *one, const bite_limit *other, bite_limit_id id)
{
    ck_assert_msg(one->applies == other->applies && one->why == other->why &&
                      one->advisory == other->advisory && one->verdict == other->verdict &&
                      one->in_corner == other->in_corner,
                  "%s", bite_limit_name(id));
    if (one->applies) {
        expect_near(one->demand, other->demand);
        expect_near(one->capacity, other->capacity);
        expect_near(one->utilization, other->utilization);
    }
}

static judged cuts[BITE_LANES];
static bite_block_limits_result limits;

START_TEST(a_cut_has_the_same_limits_in_any_block)
{
    static bite_limit alone[BITE_LANES][BITE_LIMIT_COUNT];
    uint64_t seed = 27;
    for (int round = 0; round < 700; round++) {
        if (!judge_all(&seed, cuts)) {
            continue;
        }
        for (int k = 0; k < BITE_LANES; k++) {
            judge_block(&cuts[k], 1, NULL, &limits);
            for (bite_limit_id id = 0; id < BITE_LIMIT_COUNT; id++) {
                bite_block_limit_of(&limits, id, 0, &alone[k][id]);
            }
        }
        const int counts[] = {5, BITE_LANES};
        for (int i = 0; i < 2; i++) {
            judge_block(cuts, counts[i], NULL, &limits);
            for (int k = 0; k < counts[i]; k++) {
                for (bite_limit_id id = 0; id < BITE_LIMIT_COUNT; id++) {
                    bite_limit limit;
                    bite_block_limit_of(&limits, id, k, &limit);
                    expect_same(&limit, &alone[k][id], id);
                }
            }
        }
    }
}
END_TEST

/* The pass of each cut has the limits of the block; every limit, every reason that a limit may have
 * and all segments occur. */
START_TEST(a_pass_has_the_limits_of_its_block)
{
    uint64_t seed = 28;
    int applied[BITE_LIMIT_COUNT] = {0};
    int reasons[BITE_WHY_COUNT] = {0};
    int segments[3] = {0};
    for (int round = 0; round < 700; round++) {
        if (!judge_all(&seed, cuts)) {
            continue;
        }
        judge_block(cuts, BITE_LANES, NULL, &limits);
        for (int k = 0; k < BITE_LANES; k += 5) {
            double values[BITE_VALUE_COUNT];
            bite_limit of_pass[BITE_LIMIT_COUNT];
            bite_test_evaluate(&cuts[k].checked, &space, values, of_pass);
            for (bite_limit_id id = 0; id < BITE_LIMIT_COUNT; id++) {
                bite_limit limit;
                bite_block_limit_of(&limits, id, k, &limit);
                expect_same(&limit, &of_pass[id], id);
                applied[id] += limit.applies != 0;
                reasons[limit.why]++;
                segments[limit.in_corner]++;
            }
        }
    }
    for (int id = 0; id < BITE_LIMIT_OWN_1; id++) { /* these cuts have no plugin */
        ck_assert_msg(applied[id] > 20, "%s: %d", bite_limit_name((bite_limit_id)id), applied[id]);
    }
    for (int why = 0; why <= BITE_WHY_NO_LIMIT; why++) { /* those behind it are of plugins */
        if (why != BITE_WHY_ONE_FLUTE && why != BITE_WHY_NOT_A_METAL) { /* of values */
            ck_assert_msg(reasons[why] > 20, "%s: %d", bite_limit_why((bite_why)why), reasons[why]);
        }
    }
    for (int i = 0; i < 3; i++) {
        ck_assert_int_gt(segments[i], 20);
    }
}
END_TEST

START_TEST(limits_that_are_not_wanted_do_not_apply)
{
    static bite_block_limits_result all;
    uint64_t seed = 29;
    for (int round = 0; round < 300; round++) {
        uint8_t wanted[BITE_LIMIT_COUNT];
        if (!judge_all(&seed, cuts)) {
            continue;
        }
        for (int id = 0; id < BITE_LIMIT_COUNT; id++) {
            wanted[id] = bite_test_between(&seed, 0.0, 1.0) < 0.5;
        }
        judge_block(cuts, BITE_LANES, NULL, &all);
        judge_block(cuts, BITE_LANES, wanted, &limits);
        for (bite_limit_id id = 0; id < BITE_LIMIT_COUNT; id++) {
            bite_limit limit;
            bite_limit unrestricted;
            bite_block_limit_of(&limits, id, 3, &limit);
            bite_block_limit_of(&all, id, 3, &unrestricted);
            if (wanted[id]) {
                expect_same(&limit, &unrestricted, id);
            } else {
                ck_assert_uint_eq(limit.applies, 0);
                ck_assert(isnan(limits.utilization[id][3]));
            }
        }
    }
}
END_TEST

/* A lane without the figure that its limit needs has no utilization, and no other lane is touched.
 */
START_TEST(a_lane_without_data_does_not_spoil_the_others)
{
    uint64_t seed = 30;
    do {
    } while (!judge_all(&seed, cuts));
    judge_block(cuts, BITE_LANES, NULL, &limits);
    static bite_block_limits_result lacking;
    straight.value[BITE_TOOL_STRESS][2] = (double)NAN;
    bite_block_limits(&block, &straight, NULL, &lacking);
    bite_limit limit;
    bite_block_limit_of(&lacking, BITE_LIMIT_TOOL_BREAK, 2, &limit);
    ck_assert_uint_eq(limit.applies, 0);
    ck_assert_uint_eq(limit.why, BITE_WHY_NO_DATA);
    bite_block_limit_of(&lacking, BITE_LIMIT_TOOL_BREAK, 3, &limit);
    ck_assert_uint_eq(limit.applies, 1);
    ck_assert_uint_eq(lacking.applies[BITE_LIMIT_TOOL_BREAK], 1);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("block of limits");
    TCase *tests = tcase_create("limits");
    tcase_set_timeout(tests, 120.0);
    tcase_add_test(tests, a_cut_has_the_same_limits_in_any_block);
    tcase_add_test(tests, a_pass_has_the_limits_of_its_block);
    tcase_add_test(tests, limits_that_are_not_wanted_do_not_apply);
    tcase_add_test(tests, a_lane_without_data_does_not_spoil_the_others);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
