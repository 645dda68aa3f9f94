/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Jaws, screws and tabs of whole jobs, worked by hand from the forces of the pass: the side force F
 * at its peak and the lift Z, both times 1.1, because the part rings (core/physics/holding/bond.h).
 * The equations are those of statics in core/physics/holding/workholding.h; written out here with
 * the numbers of the job.
 *
 * The plate is 40 x 30 mm and 2 mm thick. F acts on its upper face, at the end of its longer side,
 * 20 mm from the middle.
 */
#include "core/library/item.h"
#include "tests/job/job_fixture.h"
#include <math.h>

#define PLATE ACRYLIC "[stock]\nthinnest = 2 mm\nthickest = 2 mm\nfaces = none\n"
#define POCKET                                                                                     \
    "[pass.a]\nwork = pocket\ntool = 2mm\nlength = 20 mm\nacross = 10 mm\ndepth = 0.5 mm\n" GIVEN

static double side_force(const bite_job *job)
{
    return 1.1 * job->passes[0].answer->result.values[BITE_FORCE_SIDE_PEAK].value;
}

static double lift_force(const bite_job *job)
{
    return 1.1 * fmax(0.0, job->passes[0].answer->result.values[BITE_FORCE_LIFT_PEAK].value);
}

/* The chance that a load exceeds what bears it, ln u/s beyond the middle of a normal distribution,
 * by Simpson's rule over its density. */
static double chance_of(double utilization, double scatter)
{
    enum { N = 2000 };
    double to = log(utilization) / scatter;
    double sum = 0.0;
    for (int i = 0; i <= N; i++) {
        double x = to * i / N;
        sum += (i == 0 || i == N ? 1.0 : i % 2 == 1 ? 4.0 : 2.0) * exp(-0.5 * x * x);
    }
    return 0.5 + sum * to / N / 3.0 / sqrt(2.0 * M_PI);
}

static double mean_distance(double a, double b)
{
    enum { N = 500 };
    double sum = 0.0;
    for (int x = 0; x < N; x++) {
        for (int y = 0; y < N; y++) {
            sum += hypot(a * ((x + 0.5) / N - 0.5), b * ((y + 0.5) / N - 0.5));
        }
    }
    return sum / N / N;
}

#define JAWS "[hold]\nmethod = vise\njaw_depth = 1 mm\n"

/* Jaws 1 mm deep along the sides of 40 mm, with 200 N: F is 1.5 mm above the middle of the jaws. It
 * levers the plate out by F/200 (1 + 2 x 1.5/1) = F/50; in the other direction by F/200 (1 + 2 x
 * 20/40) = F/100. With a friction of 0.1 it slips first: (sqrt(F^2 + Z^2) + F x 1.5/r)/(2 x 0.1 x
 * 200), r the mean distance of a face of 40 x 1 mm from its middle. */
START_TEST(a_plate_in_the_vise)
{
    bite_job *firm = plan(HEAD PLATE JAWS "clamp_force = 200 N\nfriction = 0.3\n" POCKET);
    bite_job *oily = plan(HEAD PLATE JAWS "clamp_force = 200 N\nfriction = 0.1\n" POCKET);
    double f = side_force(firm);
    ck_assert_double_gt(f, 0.0);
    bite_assert_near(firm->passes[0].hold_utilization, f / 50.0, 1e-9);
    bite_assert_near(firm->hold.needs, 4.0 * f, 1e-9);
    double lever = f * 1.5e-3 / mean_distance(40e-3, 1e-3);
    bite_assert_near(oily->passes[0].hold_utilization, (hypot(f, lift_force(oily)) + lever) / 40.0,
                     1e-5);
    bite_job_free(firm);
    bite_job_free(oily);
}
END_TEST

/* A thin plate buckles: P = pi^2 E h^2/(12 (1 - nu^2) 30^2) x 40 h, h = 2 mm. Of a force that the
 * job states 0.25 is what the logarithm scatters, a factor of 1.28; of one that it does not, known
 * within a factor of two, sqrt(0.25^2 + (ln 2/1.645)^2) = 0.489977. Such a force is a third of P,
 * because the 5 kN of usual tightening are more. */
START_TEST(a_thin_plate_is_tightened_with_care)
{
    bite_job *hard = plan(HEAD PLATE JAWS "clamp_force = 1 kN\nfriction = 0.3\n" POCKET);
    bite_job *usual = plan(HEAD PLATE JAWS POCKET);
    const bite_cut *cut = &hard->passes[0].answer->full;
    double stress =
        9.8696044 * cut->modulus * 4.0 / (12.0 * (1.0 - cut->poisson * cut->poisson) * 900.0);
    double buckles = stress * 40e-3 * 2e-3;
    ck_assert_double_lt(buckles, 15e3);
    ck_assert_str_eq(hard->hold.failure_mode, "buckle");
    bite_assert_near(hard->hold.utilization, 1000.0 / buckles, 1e-7);
    bite_assert_near(hard->hold.chance, chance_of(1000.0 / buckles, 0.25), 1e-6);
    bite_assert_near(usual->hold.force, buckles / 3.0, 1e-7);
    ck_assert_str_eq(usual->hold.failure_mode, "buckle");
    bite_assert_near(usual->hold.chance, chance_of(1.0 / 3.0, 0.489977), 1e-4);
    bite_job_free(hard);
    bite_job_free(usual);
}
END_TEST

/* Four screws of 4 mm, tightened with 0.05 Nm to 0.05/(0.2 x 0.004) = 62.5 N each, 0.8 x 40 = 32 mm
 * apart: F (1 + 2 x 20/32) = 2.25 F against 0.03 (4 x 62.5 - Z). */
START_TEST(a_plate_under_screws)
{
    bite_job *job = plan(HEAD PLATE "[hold]\nmethod = screws\nscrews = 4\nscrew = 4 mm\n"
                                    "torque = 0.05 Nm\nfriction = 0.03\n" POCKET);
    double slip = 2.25 * side_force(job) / (0.03 * (250.0 - lift_force(job)));
    bite_assert_near(job->hold.force, 62.5, 1e-9);
    bite_assert_near(job->passes[0].hold_utilization, slip, 1e-9);
    bite_assert_near(job->hold.utilization, slip, 1e-9);
    bite_assert_near(job->hold.chance, chance_of(slip, 0.25), 1e-6);
    ck_assert_str_eq(job->hold.failure_mode, "slip");
    bite_job_free(job);
}
END_TEST

/* Four tabs of 6 x 0.05 mm, as long as the tool of 2 mm is wide; F acts 2 - 0.025 = 1.975 mm above
 * their middle. Each bears V = F (1 + 2 x 20/30)/4 sideways and W = (Z + 2 F x 1.975/30)/4 upward:
 * a bending of 3 V 2/(0.05 x 6^2) and 3 W 2/(6 x 0.05^2), and V/0.3 of shear, in N and mm. */
START_TEST(a_plate_on_tabs)
{
    bite_job *job = plan(HEAD PLATE "[hold]\nmethod = tabs\ntabs = 4\ntab_width = 6 mm\n"
                                    "tab_height = 0.05 mm\n" ONE_PASS);
    double f = side_force(job);
    double v = 7.0 / 12.0 * f;
    double w = 0.25 * (lift_force(job) + 3.95 / 30.0 * f);
    double bending = 6.0 * v / 1.8 + 6.0 * w / 0.015;
    double shear = v / 0.3;
    double stress = 1e6 * sqrt(bending * bending + 3.0 * shear * shear);
    const bite_item_record *grade = &job->grade->record;
    double strength =
        bite_item_figure_or(grade, "tensile_yield", bite_item_figure(grade, "tensile_strength"));
    bite_assert_near(job->passes[0].hold_utilization, stress / strength, 1e-8);
    bite_assert_near(job->hold.chance, chance_of(stress / strength, 0.25), 1e-6);
    ck_assert_str_eq(job->hold.failure_mode, "break");
    bite_job_free(job);
}
END_TEST

/* A vacuum of 85 kPa sucks a clamped strip of 2 mm into a groove by p g^4/(384 D), D = E 2^3/(12 (1
 * - nu^2)): over 30 mm more than a fifth of the tolerance of 0.1 mm, over 20 mm, the usual groove,
 * not; there a plate of 1 mm, eight times as soft, sinks in too. */
START_TEST(a_plate_over_a_groove)
{
    bite_job *wide = plan(HEAD PLATE "[hold]\nmethod = vacuum\ngroove = 30 mm\n" POCKET);
    bite_job *usual = plan(HEAD PLATE "[hold]\nmethod = vacuum\n" POCKET);
    const bite_cut *cut = &wide->passes[0].answer->full;
    double rigidity = cut->modulus * 8e-9 / (12.0 * (1.0 - cut->poisson * cut->poisson));
    const bite_remark *remark = remark_of(wide, "hold", "groove");
    ck_assert_ptr_nonnull(remark);
    bite_assert_near(remark->values[0].quantity, 30e-3, 1e-12);
    bite_assert_near(remark->values[1].quantity, 85e3 * 8.1e-7 / (384.0 * rigidity), 1e-9);
    for (size_t i = 0; i < usual->remark_count; i++) {
        ck_assert_uint_ne(usual->remarks[i].id, remark->id);
    }
    bite_job_free(wide);
    bite_job_free(usual);
    bite_job *thin = plan(HEAD "[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\n"
                               "thickness = 1 mm\n[stock]\nthinnest = 1 mm\nthickest = 1 mm\n"
                               "faces = none\n[hold]\nmethod = vacuum\n" POCKET);
    cut = &thin->passes[0].answer->full;
    rigidity = cut->modulus * 1e-9 / (12.0 * (1.0 - cut->poisson * cut->poisson));
    remark = remark_of(thin, "hold", "groove");
    ck_assert_ptr_nonnull(remark);
    bite_assert_near(remark->values[0].quantity, 20e-3, 1e-12);
    bite_assert_near(remark->values[1].quantity, 85e3 * 1.6e-7 / (384.0 * rigidity), 1e-9);
    bite_job_free(thin);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("worked holds");
    TCase *tests = tcase_create("worked holds");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, a_plate_in_the_vise);
    tcase_add_test(tests, a_thin_plate_is_tightened_with_care);
    tcase_add_test(tests, a_plate_under_screws);
    tcase_add_test(tests, a_plate_on_tabs);
    tcase_add_test(tests, a_plate_over_a_groove);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
