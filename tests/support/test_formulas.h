/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas of core/physics put together, as the blocks of cuts do in stages. */
#ifndef BITE_TESTS_SUPPORT_TEST_FORMULAS_H
#define BITE_TESTS_SUPPORT_TEST_FORMULAS_H

#include "core/physics/elastic/tool_deflection.h"
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/heat/cutting_heat.h"
#include "core/physics/heat/heat_recirculation.h"
#include "core/physics/heat/wall_heat.h"

static inline bite_heat_shape bite_heat_shape_of(const bite_heat_case *heat_case)
{
    bite_angle rake = bite_orthogonal_angle(heat_case->rake);
    bite_heat_shape shape;
    shape.work_share = bite_conduction_weiner(bite_heat_peclet(heat_case, rake));
    shape.contact_length = bite_heat_contact_length(heat_case, rake);
    shape.rake_shape = bite_heat_contact_shape(heat_case->depth, shape.contact_length);
    shape.flank_shape = bite_heat_contact_shape(heat_case->depth, heat_case->flank_land);
    return shape;
}

static inline double bite_recirculation_peclet(double feed_rate, double radius, double width,
                                               double diffusivity)
{
    return exp(bite_recirculation_log_peclet(feed_rate, radius, width, diffusivity));
}

/** The same from Pe. */
static inline double bite_recirculation_share(double peclet, double floor_loss)
{
    return bite_recirculation_share_at(log(peclet), floor_loss);
}

/** The wall beside the tool. */
static inline bite_wall_heat bite_wall_heat_wall(const bite_wall_heat_case *heat_case)
{
    return bite_wall_heat_surface(heat_case, bite_wall_heat_wall_sweeps(heat_case));
}

/** The pressure for a chip that is thicker by `factor`: the cutting terms are multiplied by it, the
 * edge terms are unchanged. */
static inline bite_pressure bite_pressure_thicker(const bite_pressure *pressure, double factor)
{
    bite_pressure thicker = *pressure;
    thicker.tangential *= factor;
    thicker.radial *= factor;
    thicker.axial *= factor;
    return thicker;
}

/** Deflection at a height above the tip for 1 N at the load, m/N. */
static inline double bite_tool_deflection_at(const bite_tool_deflection *deflection, double height)
{
    return deflection->compliance + deflection->slope * (deflection->load - height);
}

#endif
