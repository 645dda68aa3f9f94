/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contour lines and bands of a grid. */
#include "core/report/window/contour.h"
#include "tests/support/support.h"
#include <math.h>

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

/* The bands between levels cover the whole grid, the line of a circle is closed, and its area is
 * that of a circle. */
START_TEST(contour_bands_cover_the_grid_and_lines_close)
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
    ck_assert_uint_eq(contour.line_count, 0); /* the whole circle is inside the hole */
    bite_contour_free(bite_memory_default(), &contour);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("contour");
    TCase *tests = tcase_create("contour");
    tcase_add_test(tests, contour_bands_cover_the_grid_and_lines_close);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
