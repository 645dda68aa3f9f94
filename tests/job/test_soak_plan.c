/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat soak over the laps of a job, and the pauses that it needs. */
#include "tests/job/job_fixture.h"
#include <math.h>

#define BLOCK(length, width)                                                                       \
    "[part]\nmaterial = steel/1018\nlength = " length " mm\nwidth = " width                        \
    " mm\nthickness = 4 mm\ntolerance = 0.02 mm\n[stock]\nthinnest = 4 mm\nthickest = 4.02 mm\n"   \
    "faces = none\ngap = 0 mm\nmargin = 0 mm\n[machine]\nname = small-vmc\n"
#define POCKET                                                                                     \
    "[pass.a]\nwork = pocket\ntool = 6mm\nlength = 12 mm\nacross = 9 mm\ndepth = 3 mm\n"           \
    "pass_depth = 0.3 mm\nspindle = 6000rpm\nfeed = 1200mm/min\n"

/* The zone reaches the whole part: the rise by small steps of C dT/dt = P - G T, with the table's
 * figures: tape 0.13 mm of 0.2 W/m/K, mist 1000 W/m2/K. */
START_TEST(a_small_part_warms_as_one_body)
{
    bite_job *job =
        plan(HEAD BLOCK("15", "10") "[hold]\nmethod = tape\n[fluids]\ncoolant = air\n" POCKET);
    const bite_planned_pass *pass = &job->passes[0];
    const bite_cut *cut = &pass->answer->full;
    double power = pass->answer->result.values[BITE_HEAT_TO_PART].value;
    double area = 15e-3 * 10e-3;
    double capacity = cut->density * cut->heat_capacity * area * 4e-3;
    double below = 1.0 / (2e-3 / cut->conductivity + 0.13e-3 / 0.2);
    double conductance = area * (below + cut->surface_cooling);
    double time = pass->passes * pass->lap / cut->feed_rate;
    double rise = 0.0;
    for (int i = 0; i < 200000; i++) {
        rise += time / 200000 * (power - conductance * rise) / capacity;
    }
    bite_assert_near(pass->soak_rise, rise, 0.001);
    bite_job_free(job);
}
END_TEST

/* In one lap, without a pause, the zone that is the whole part warms as the part does. */
START_TEST(a_small_part_is_its_own_zone)
{
    bite_job *job = plan(HEAD BLOCK(
        "15", "10") "[hold]\nmethod = tape\n[fluids]\ncoolant = air\n[pass.a]\n"
                    "work = pocket\ntool = 6mm\nlength = 12 mm\nacross = 9 mm\ndepth = 0.3 mm\n"
                    "pass_depth = 0.3 mm\nspindle = 6000rpm\nfeed = 1200mm/min\n");
    const bite_planned_pass *pass = &job->passes[0];
    ck_assert_uint_eq(pass->passes, 1);
    ck_assert_double_gt(pass->mean_rise, 0.0);
    bite_assert_near(pass->mean_rise, pass->soak_rise, 1e-9);
    bite_job_free(job);
}
END_TEST

/* Pauses are recommended where the tape would become too warm, and are enough. */
START_TEST(a_warm_bond_gets_pauses)
{
    bite_job *job = plan(HEAD BLOCK("15", "10") "[hold]\nmethod = tape\n" POCKET);
    const bite_planned_pass *pass = &job->passes[0];
    const bite_remark *remark = remark_of(job, "hold", "one after each lap");
    ck_assert_ptr_nonnull(remark);
    ck_assert_double_eq(remark->values[3].quantity, pass->passes - 1.0);
    double allowed = 0.6 * (60.0 - 20.0); /* bond_limit of the tape, room temperature */
    bite_assert_near(remark->values[2].quantity, allowed, 0.02);
    ck_assert_double_gt(pass->soak_rise, allowed);
    /* lap by lap, with those pauses */
    const bite_cut *cut = &pass->answer->full;
    double power = pass->answer->result.values[BITE_HEAT_TO_PART].value;
    double area = 15e-3 * 10e-3;
    double capacity = cut->density * cut->heat_capacity * area * 4e-3;
    double conductance =
        area * (1.0 / (2e-3 / cut->conductivity + 0.13e-3 / 0.2) + cut->surface_cooling);
    double lap = pass->lap / cut->feed_rate;
    double rise = 0.0;
    for (uint32_t n = 0; n < pass->passes; n++) {
        double steady = power / conductance;
        rise = steady + (rise - steady) * exp(-lap * conductance / capacity);
        ck_assert_double_lt(rise, 1.001 * remark->values[2].quantity);
        rise *= exp(-remark->values[4].quantity * conductance / capacity);
    }
    bite_job_free(job);
}
END_TEST

/* Two laps need one pause; of one lap nothing can be paused, and the part must be cooled. */
START_TEST(pauses_stand_between_laps)
{
    for (int laps = 1; laps <= 2; laps++) {
        bite_job *job =
            plan_of(HEAD BLOCK("15", "10") "[hold]\nmethod = tape\n[pass.a]\nwork = "
                                           "pocket\ntool = 6mm\nlength = 12 mm\nacross = 9 "
                                           "mm\ndepth = 1 mm\npass_depth = %.1f mm\n"
                                           "spindle = 6000rpm\nfeed = 1200mm/min\n",
                    laps == 1 ? 1.0 : 0.5);
        const bite_planned_pass *pass = &job->passes[0];
        const bite_remark *pause = remark_of(job, "hold", "one after each lap");
        ck_assert_uint_eq(pass->passes, (uint32_t)laps);
        ck_assert_int_eq(pause != NULL, laps == 2);
        ck_assert(laps == 1 ? pass->pause == 0.0 : pass->pause > 0.0);
        bite_assert_near(pass->pause_seconds, (laps - 1) * pass->pause, 1e-12);
        bite_job_free(job);
    }
}
END_TEST

/* What cools, cools: a coolant, screws on a plate, a larger part. */
START_TEST(cooling_cools)
{
    bite_job *dry = plan(HEAD BLOCK("15", "10") "[hold]\nmethod = tape\n" POCKET);
    bite_job *wet =
        plan(HEAD BLOCK("15", "10") "[hold]\nmethod = tape\n[fluids]\ncoolant = flood\n" POCKET);
    bite_job *large = plan(HEAD BLOCK("90", "60") "[hold]\nmethod = tape\n" POCKET);
    bite_job *vise =
        plan(HEAD BLOCK("15", "10") "[hold]\nmethod = vise\njaw_depth = 0.5 mm\n" POCKET);
    ck_assert_double_lt(wet->passes[0].soak_rise, 0.7 * dry->passes[0].soak_rise);
    ck_assert_double_lt(large->passes[0].mean_rise, 0.2 * dry->passes[0].mean_rise);
    ck_assert_double_gt(vise->passes[0].mean_rise, dry->passes[0].mean_rise);
    ck_assert_ptr_null(remark_of(vise, "hold", "its bond"));
    bite_job_free(dry);
    bite_job_free(wet);
    bite_job_free(large);
    bite_job_free(vise);
}
END_TEST

/* A part that is warm when its size is cut shrinks: said where it matters. */
START_TEST(a_warm_part_is_too_long)
{
    bite_job *job =
        plan(HEAD BLOCK("60", "12") "[hold]\nmethod = vise\njaw_depth = 0.5 mm\n" POCKET);
    const bite_remark *remark = remark_of(job, "passes", "longer, than it will be");
    const bite_planned_pass *pass = &job->passes[0];
    ck_assert_ptr_nonnull(remark);
    bite_assert_near(remark->values[2].quantity,
                     pass->answer->full.expansion * pass->mean_rise * 60e-3, 0.05);
    ck_assert_double_gt(remark->values[3].quantity, 0.0);
    bite_job_free(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("soak plan");
    TCase *tests = tcase_create("soak plan");
    tcase_add_checked_fixture(tests, job_setup, job_teardown);
    tcase_add_test(tests, a_small_part_warms_as_one_body);
    tcase_add_test(tests, a_small_part_is_its_own_zone);
    tcase_add_test(tests, a_warm_bond_gets_pauses);
    tcase_add_test(tests, pauses_stand_between_laps);
    tcase_add_test(tests, cooling_cools);
    tcase_add_test(tests, a_warm_part_is_too_long);
    tcase_set_timeout(tests, 240);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
