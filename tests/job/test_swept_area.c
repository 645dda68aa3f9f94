/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Swept areas: distances against points sampled in both areas. */
#include "core/job/swept_area.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

enum { AREAS = 300, POINTS = 60 };

static bite_round_area random_area(uint64_t *seed)
{
    int circle = bite_test_between(seed, 0.0, 1.0) < 0.3;
    bite_round_area area = {
        bite_test_between(seed, -30.0, 30.0), bite_test_between(seed, -30.0, 30.0),
        circle ? 0.0 : bite_test_between(seed, 0.0, 20.0),
        circle ? 0.0 : bite_test_between(seed, 0.0, 20.0), bite_test_between(seed, 0.0, 8.0)};
    return area;
}

/* The index-th of POINTS x 4 points on the edge of an area. */
static void edge_point(const bite_round_area *area, int index, double *x, double *y)
{
    double angle = 2.0 * M_PI * index / (4.0 * POINTS) + 1e-3;
    double c = cos(angle);
    double s = sin(angle);
    /* corners turn through a quarter each; sides are reached by the corners that they join */
    *x = area->x + (c > 0.0 ? area->half_x : -area->half_x) + area->radius * c;
    *y = area->y + (s > 0.0 ? area->half_y : -area->half_y) + area->radius * s;
}

static int contains(const bite_round_area *area, double x, double y)
{
    double dx = fmax(0.0, fabs(x - area->x) - area->half_x);
    double dy = fmax(0.0, fabs(y - area->y) - area->half_y);
    return hypot(dx, dy) < area->radius || (dx <= 0.0 && dy <= 0.0);
}

static double distance_to(const bite_round_area *area, double x, double y)
{
    double dx = fmax(0.0, fabs(x - area->x) - area->half_x);
    double dy = fmax(0.0, fabs(y - area->y) - area->half_y);
    return fmax(0.0, hypot(dx, dy) - area->radius);
}

/* A grid of points over an area: whether one of them is in another. */
static int grid_meets(const bite_round_area *one, const bite_round_area *other)
{
    double wide = one->half_x + one->radius;
    double high = one->half_y + one->radius;
    for (int i = 0; i <= POINTS; i++) {
        for (int k = 0; k <= POINTS; k++) {
            double x = one->x + wide * (2.0 * i / POINTS - 1.0);
            double y = one->y + high * (2.0 * k / POINTS - 1.0);
            if (contains(one, x, y) && contains(other, x, y)) {
                return 1;
            }
        }
    }
    return 0;
}

START_TEST(gaps_agree_with_sampled_points)
{
    uint64_t seed = 61;
    int apart = 0;
    int together = 0;
    for (int i = 0; i < AREAS; i++) {
        bite_round_area one = random_area(&seed);
        bite_round_area other = random_area(&seed);
        double gap = bite_round_area_gap(&one, &other);
        ck_assert_double_eq_tol(gap, bite_round_area_gap(&other, &one), 1e-12);
        double nearest = INFINITY;
        for (int k = 0; k < 4 * POINTS; k++) {
            double x = 0.0;
            double y = 0.0;
            edge_point(&one, k, &x, &y);
            nearest = fmin(nearest, distance_to(&other, x, y));
        }
        if (gap > 0.0) {
            apart++;
            ck_assert(!grid_meets(&one, &other));
            ck_assert_double_ge(nearest, gap - 1e-9); /* no sampled point is nearer */
        } else if (gap < -2.0) {
            together++;
            ck_assert(grid_meets(&one, &other) || grid_meets(&other, &one));
        }
        /* moved apart by the overlap along the better axis, they touch */
        bite_round_area moved = other;
        double x = fabs(one.x - other.x) - one.half_x - other.half_x;
        double y = fabs(one.y - other.y) - one.half_y - other.half_y;
        if (gap < 0.0 && fmax(x, y) < 0.0) {
            moved.x += x > y ? copysign(-gap, other.x - one.x) : 0.0;
            moved.y += x > y ? 0.0 : copysign(-gap, other.y - one.y);
            ck_assert_double_ge(bite_round_area_gap(&one, &moved), -1e-9);
        }
    }
    ck_assert_int_gt(apart, 80);
    ck_assert_int_gt(together, 80);
}
END_TEST

/* In the hole of a band, an area is free of it if and only if no sampled point of it is outside the
 * hole; the distance is that of its nearest point to the hole's edge. */
START_TEST(bands_leave_their_holes_free)
{
    uint64_t seed = 62;
    int inside = 0;
    for (int i = 0; i < 4 * AREAS; i++) {
        bite_round_area hole = random_area(&seed);
        bite_round_area small = random_area(&seed);
        bite_swept_area band = {hole, hole, 1};
        small.x = hole.x + bite_test_between(&seed, -0.8, 0.8) * (hole.half_x + hole.radius);
        small.y = hole.y + bite_test_between(&seed, -0.8, 0.8) * (hole.half_y + hole.radius);
        small.half_x *= 0.1;
        small.half_y *= 0.1;
        small.radius *= 0.2;
        band.outer.radius += 5.0;
        double gap = bite_swept_area_gap(&band, &small);
        int leaves = 0;
        for (int k = 0; k < 4 * POINTS; k++) {
            double x = 0.0;
            double y = 0.0;
            edge_point(&small, k, &x, &y);
            leaves |= !contains(&hole, x, y) && distance_to(&hole, x, y) > 1e-9;
        }
        inside += gap > 0.0;
        ck_assert(gap <= 0.0 || !leaves);
        ck_assert(gap >= -0.1 || leaves); /* points are apart by less than that */
    }
    ck_assert_int_gt(inside, 200);
    /* a tool of 3 mm round a part of 40 x 20 mm: a screw in its middle is 5 mm from the slot, one
     * outside 2 mm beyond it; one from 39 mm to 43 mm has 3 mm to go back to the hole */
    bite_swept_area slot = {{20.0, 10.0, 20.0, 10.0, 3.0}, {20.0, 10.0, 20.0, 10.0, 0.0}, 1};
    bite_round_area middle = {20.0, 10.0, 0.0, 0.0, 5.0};
    bite_round_area outside = {48.0, 10.0, 0.0, 0.0, 3.0};
    bite_round_area corner = {43.0, 24.0, 0.0, 0.0, 1.0};
    bite_round_area in_it = {41.0, 10.0, 0.0, 0.0, 2.0};
    ck_assert_double_eq_tol(bite_swept_area_gap(&slot, &middle), 5.0, 1e-12);
    ck_assert_double_eq_tol(bite_swept_area_gap(&slot, &outside), 2.0, 1e-12);
    ck_assert_double_eq_tol(bite_swept_area_gap(&slot, &corner), 1.0, 1e-12);
    ck_assert_double_eq_tol(bite_swept_area_gap(&slot, &in_it), -3.0, 1e-12);
}
END_TEST

/* Tools of 3 mm and 5 mm on the same path round a part of 40 x 20 mm, 1.5 mm beside it: the wider
 * one goes 1 mm further out and 1 mm into the part. One of 30 mm leaves nothing of it. */
START_TEST(a_wider_tool_sweeps_more)
{
    bite_swept_area slot = {{20.0, 10.0, 20.0, 10.0, 3.0}, {20.0, 10.0, 20.0, 10.0, 0.0}, 1};
    bite_swept_area wide = bite_swept_area_widened(slot, 1.0);
    bite_swept_area all = bite_swept_area_widened(slot, 13.5);
    bite_round_area middle = {20.0, 10.0, 0.0, 0.0, 5.0};
    bite_round_area outside = {48.0, 10.0, 0.0, 0.0, 3.0};
    ck_assert_double_eq_tol(bite_swept_area_gap(&wide, &middle), 4.0, 1e-12);
    ck_assert_double_eq_tol(bite_swept_area_gap(&wide, &outside), 1.0, 1e-12);
    ck_assert_uint_eq(all.hollow, 0);
    /* 10 mm to the long edge, 16.5 mm beyond it, and the radius of the thing */
    ck_assert_double_eq_tol(bite_swept_area_gap(&all, &middle), -31.5, 1e-12);
    /* a round corner goes first, then the sides */
    bite_round_area shrunk = bite_round_area_shrunk(slot.outer, 4.0);
    ck_assert_double_eq_tol(shrunk.radius, 0.0, 1e-12);
    ck_assert_double_eq_tol(shrunk.half_x, 19.0, 1e-12);
    ck_assert_double_eq_tol(shrunk.half_y, 9.0, 1e-12);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("swept area");
    TCase *tests = tcase_create("swept area");
    tcase_add_test(tests, gaps_agree_with_sampled_points);
    tcase_add_test(tests, bands_leave_their_holes_free);
    tcase_add_test(tests, a_wider_tool_sweeps_more);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
