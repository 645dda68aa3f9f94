/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cuts for tests of limits, and one limit of a cut. */
#include "tests/support/limit_cuts.h"
#include "tests/support/support.h"
#include "tests/support/test_cuts.h"
#include <math.h>

bite_limit bite_test_limit(const bite_cut *cut, bite_limit_id id)
{
    bite_result result = bite_test_pass(cut);
    return result.limits[id];
}

double bite_test_utilization(const bite_cut *cut, bite_limit_id id)
{
    bite_limit limit = bite_test_limit(cut, id);
    ck_assert_msg(limit.applies, "%s does not apply: %s", bite_limit_name(id),
                  bite_limit_why(limit.why));
    return limit.utilization;
}

bite_cut bite_test_part_cut(void)
{
    bite_cut cut = bite_test_acrylic();
    cut.width = 0.2e-3;
    cut.feature_depth = 2e-3;
    cut.floor_thickness = 0.6e-3;
    cut.tolerance = 0.05e-3;
    cut.modulus = 3.3e9;
    cut.poisson = 0.37;
    cut.expansion = 70e-6;
    cut.crazing = 10.34e6;
    cut.chip_edge = 0.15e-3;
    cut.refraction = 1.49;
    cut.bond_area = 200e-6;
    cut.bond_shear = 0.03e6;
    cut.bond_pull = 0.03e6;
    cut.bond_limit = 333.15;
    cut.wall_thickness = 0.8e-3;
    cut.floor_span = 10e-3;
    cut.gap = 1e-3;
    return cut;
}

bite_cut bite_test_bridge_cut(void)
{
    bite_cut cut = bite_test_part_cut();
    cut.wall_thickness = cut.floor_span = (double)NAN;
    cut.bridge_span = 6e-3;
    cut.bridge_thickness = 0.5e-3;
    return cut;
}

bite_cut bite_test_rod_cut(double diameter, double stickout)
{
    bite_cut cut = bite_test_acrylic();
    cut.diameter = cut.shank_diameter = diameter;
    cut.stickout = cut.flute_length = stickout;
    cut.stiff_share = 1.0;
    cut.depth = 1e-6;
    cut.edge_radius = 3e-6;
    cut.runout = 0.0;
    cut.helix = 0.0;
    cut.spindle_speed = 300.0;
    cut.feed_rate = 20e-6 * 600.0;
    cut.machine_stiffness = 20e6;
    cut.mode_damping = 0.03;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = 600e6;
    cut.edge_t = 12e3;
    return cut;
}
