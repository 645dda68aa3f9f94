/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Floors on supports and under pressure, against finite differences. */
#include "core/physics/elastic/thin_plate.h"
#include "tests/support/support.h"
#include <math.h>

#define GRID 39 /* inner points of a side */

/* A point of the plate; w and its slope are 0 at the edge, so that a point beyond mirrors the first
 * one inside. */
static double at(const double *w, int i, int j)
{
    i = i == -2 ? 0 : i == GRID + 1 ? GRID - 1 : i;
    j = j == -2 ? 0 : j == GRID + 1 ? GRID - 1 : j;
    return i < 0 || j < 0 || i >= GRID || j >= GRID ? 0.0 : w[i * GRID + j];
}

/* Applies d4/dx4 + 2 d4/dx2dy2 + d4/dy4 + k on a clamped square of side 1, D = 1. */
static void bend(const double *w, double support, double *result)
{
    const double step = 1.0 / (GRID + 1);
    for (int i = 0; i < GRID; i++) {
        for (int j = 0; j < GRID; j++) {
            double near = at(w, i - 1, j) + at(w, i + 1, j) + at(w, i, j - 1) + at(w, i, j + 1);
            double far = at(w, i - 2, j) + at(w, i + 2, j) + at(w, i, j - 2) + at(w, i, j + 2);
            double corner = at(w, i - 1, j - 1) + at(w, i - 1, j + 1) + at(w, i + 1, j - 1) +
                            at(w, i + 1, j + 1);
            result[i * GRID + j] =
                (20.0 * at(w, i, j) - 8.0 * near + 2.0 * corner + far) / pow(step, 4.0) +
                support * at(w, i, j);
        }
    }
}

static double dot(const double *a, const double *b)
{
    double sum = 0.0;
    for (int i = 0; i < GRID * GRID; i++) {
        sum += a[i] * b[i];
    }
    return sum;
}

/* The deflection of the middle by conjugate gradients: under a unit load there, or under a unit
 * pressure. */
static double middle(double support, int pressure)
{
    static double w[GRID * GRID];
    static double left[GRID * GRID];
    static double way[GRID * GRID];
    static double bent[GRID * GRID];
    const int centre = (GRID / 2) * GRID + GRID / 2;
    for (int i = 0; i < GRID * GRID; i++) {
        w[i] = 0.0;
        left[i] = pressure ? 1.0 : i == centre ? (GRID + 1.0) * (GRID + 1.0) : 0.0;
        way[i] = left[i];
    }
    double square = dot(left, left);
    const double first = square;
    for (int n = 0; n < 20000 && square > 1e-20 * first; n++) {
        bend(way, support, bent);
        double share = square / dot(way, bent);
        for (int i = 0; i < GRID * GRID; i++) {
            w[i] += share * way[i];
            left[i] -= share * bent[i];
        }
        double next = dot(left, left);
        for (int i = 0; i < GRID * GRID; i++) {
            way[i] = left[i] + next / square * way[i];
        }
        square = next;
    }
    return w[centre];
}

/* A floor that is both clamped and supported: the smaller of the two spans is right at both ends
 * and on the safe side between them. */
START_TEST(supported_floors_match_finite_differences)
{
    static const double ratios[] = {0.1, 2.0, 3.0, 4.0, 4.7, 5.5, 7.0, 9.0};
    for (size_t i = 0; i < sizeof ratios / sizeof *ratios; i++) {
        double support = pow(ratios[i], 4.0); /* side/l, D = 1 */
        double span = fmin(1.0, bite_plate_supported_span(1.0, support));
        double model = bite_plate_floor(1.0) * span * span;
        double exact = middle(support, 0);
        ck_assert_msg(model / exact > 0.97 && model / exact < (i == 0 || i == 7 ? 1.03 : 1.6),
                      "side %g l: %g of the exact deflection", ratios[i], model / exact);
    }
}
END_TEST

/* Poisson 0.3 is that of the handbook's figure. */
START_TEST(floors_under_pressure_match_finite_differences)
{
    double rigidity = bite_plate_rigidity(3e9, 0.3, 1e-3);
    double side = 30e-3;
    double exact = middle(0.0, 1) * 80e3 * pow(side, 4.0) / rigidity;
    bite_assert_near(bite_plate_floor_sag(80e3, 3e9, 1e-3, side, side), exact, 0.02);
    /* a long one: p a^4/(384 D) of a clamped strip */
    bite_assert_near(bite_plate_floor_sag(80e3, 3e9, 1e-3, side, 100.0 * side),
                     80e3 * pow(side, 4.0) / (384.0 * rigidity), 0.01);
}
END_TEST

/* A stiffer support or a thinner floor on the same support: a smaller span. */
START_TEST(more_support_bends_less)
{
    double last = 0.0;
    for (int i = 1; i < 200; i++) {
        double thickness = 0.05e-3 * i;
        double rigidity = bite_plate_rigidity(3.2e9, 0.37, thickness);
        double soft = bite_plate_supported_span(rigidity, 7e9);
        double stiff = bite_plate_supported_span(rigidity, 14e9);
        double bend_soft = bite_plate_floor(1.0) * soft * soft / rigidity;
        double bend_stiff = bite_plate_floor(1.0) * stiff * stiff / rigidity;
        ck_assert_double_lt(bend_stiff, bend_soft);
        ck_assert(i == 1 || bend_soft < last); /* thicker: stiffer */
        bite_assert_near(bend_soft, 1.0 / (8.0 * sqrt(7e9 * rigidity)), 1e-12);
        last = bend_soft;
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("thin floor");
    TCase *tests = tcase_create("thin floor");
    tcase_add_test(tests, supported_floors_match_finite_differences);
    tcase_add_test(tests, floors_under_pressure_match_finite_differences);
    tcase_add_test(tests, more_support_bends_less);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
