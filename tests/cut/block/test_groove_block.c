/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Grooves and drills in lanes: identities of power and of the stress in the tip. */
#include "core/cut/block/drill_block.h"
#include "core/cut/block/groove_block.h"
#include "core/cut/defaults.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/force/v_groove.h"
#include "tests/oracle/closed_forms/groove_tip.h"
#include "tests/support/support.h"
#include "tests/support/test_blocks.h"
#include "tests/support/test_cuts.h"
#include <math.h>
#include <string.h>

/* The stress in the tip and the pressure on the inclined edge are those of one groove, and the
 * removal rate is that of its trapezoid. */
START_TEST(groove_is_that_of_one_cut)
{
    static bite_test_block made;
    uint64_t seed = 121;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = bite_test_chamfer(&seed);
        cut.operation = BITE_MILL;
        bite_defaults_fill(&cut);
        bite_test_block_fill(&made, &cut, 1);
        bite_groove groove = bite_cut_groove(&cut);
        bite_lanes side = {10.0, 10.0, 10.0, 10.0};
        bite_lanes torque = {0.02, 0.02, 0.02, 0.02};
        bite_lanes stress;
        bite_pressure_lanes inclined;
        double heavy = made.segment.heavy_chip[0];
        bite_block_groove_tip_stress(&made.block, side, torque, stress);
        bite_block_groove_pressure(&made.block, &made.segment, &inclined);
        bite_block_groove_shape(&made.block, &made.segment);
        double along = cos(cut.taper);
        double section = groove.depth * (groove.tip_diameter + groove.depth * tan(cut.taper));
        bite_assert_near(stress[0],
                         bite_groove_tip_stress(&groove, cut.diameter, cut.core_share, 10.0, 0.02,
                                                cut.tool_material == BITE_TOOL_HSS),
                         1e-12);
        bite_assert_near(inclined.radial[0], made.segment.radial[0] * along, 1e-12);
        bite_assert_near(inclined.edge_tangential[0], made.segment.edge_tangential[0] / along,
                         1e-12);
        bite_assert_near(made.segment.heavy_chip[0], heavy * along, 1e-12);
        bite_assert_near(made.segment.value[BITE_REMOVAL_RATE][0], section * cut.feed_rate, 1e-12);
    }
}
END_TEST

/* Without edge force the power of a drill is K times the removal rate; the side force that
 * runout leaves is shared by the cut and the drill in series. */
START_TEST(drill_makes_the_power_of_its_hole)
{
    static bite_test_block made;
    bite_block_force force;
    uint64_t seed = 122;
    for (int i = 0; i < 300; i++) {
        bite_cut cut = bite_test_cut(&seed);
        cut.operation = BITE_DRILL_HOLE;
        cut.flutes = 2.0;
        cut.runout = fmax(cut.runout, 1e-6);
        bite_defaults_fill(&cut);
        bite_test_block_fill(&made, &cut, 1);
        bite_block_segment *segment = &made.segment;
        memset(segment->edge_tangential, 0, sizeof segment->edge_tangential);
        bite_block_drill(&made.block, segment, &force);
        bite_assert_near(2.0 * M_PI * cut.spindle_speed * force.mean_torque[0],
                         segment->tangential[0] * segment->value[BITE_REMOVAL_RATE][0], 1e-12);
        bite_assert_near(segment->contact_speed[0] * force.mean_tangential[0],
                         2.0 * M_PI * cut.spindle_speed * force.mean_torque[0], 1e-12);
        ck_assert(force.peak_lift[0] < 0.0);
        double bent =
            force.peak_side[0] * (segment->compliance[0] + segment->slope[0] * segment->load[0]);
        ck_assert(force.peak_side[0] > 0.0 && bent < cut.runout);
        double yields = force.peak_side[0];
        memset(segment->compliance, 0, sizeof segment->compliance);
        memset(segment->slope, 0, sizeof segment->slope);
        bite_block_drill(&made.block, segment, &force);
        /* rigid: S; in series with the drill: S runout/(runout + S compliance) */
        bite_assert_near(yields + force.peak_side[0] * bent / cut.runout, force.peak_side[0], 1e-9);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("groove block");
    TCase *grooves = tcase_create("groove block");
    tcase_add_test(grooves, groove_is_that_of_one_cut);
    tcase_add_test(grooves, drill_makes_the_power_of_its_hole);
    suite_add_tcase(suite, grooves);
    return bite_test_run(suite);
}
