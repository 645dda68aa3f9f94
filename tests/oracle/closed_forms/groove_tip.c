/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The largest stress in the thin tip of a conical tool that engraves a groove. */
#include "tests/oracle/closed_forms/groove_tip.h"
#include "core/physics/elastic/stepped_shaft.h"
#include <math.h>

double bite_groove_tip_stress(const bite_groove *groove, double diameter, double core_share,
                              double side, double torque, int ductile)
{
    bite_groove_heights range = bite_groove_stress_heights(groove, diameter);
    double most = 0.0;
    for (int i = 0; i <= BITE_GROOVE_STRESS_STEPS; i++) {
        double height =
            range.low * pow(range.high / range.low, (double)i / BITE_GROOVE_STRESS_STEPS);
        bite_groove_stress at = bite_groove_stress_at(groove, core_share, side, torque, height);
        most = fmax(most, bite_shaft_combined_stress(at.bending, at.torsion, ductile));
    }
    return most;
}
