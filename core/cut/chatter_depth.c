/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The depth above which a cut chatters, from the measured modes. */
#include "core/cut/chatter_depth.h"
#include "core/physics/dynamics/equal_axes_lobes.h"
#include "core/physics/dynamics/light_cut.h"
#include "core/physics/dynamics/mode_stability.h"
#include <math.h>

/* Below this width over diameter the zero-order solution errs by a tenth and more. */
static const double light_width = 0.4;

int bite_cut_has_measured_modes(const bite_cut *cut)
{
    return !isnan(cut->mode_frequency) || !isnan(cut->mode2_frequency) ||
           !isnan(cut->mode3_frequency);
}

/* The measured modes, assumed to be the same along both axes. */
static bite_axis_modes measured_modes(const bite_cut *cut)
{
    const double measured[][3] = {{cut->mode_frequency, cut->mode_stiffness, cut->mode_damping},
                                  {cut->mode2_frequency, cut->mode2_stiffness, cut->mode2_damping},
                                  {cut->mode3_frequency, cut->mode3_stiffness, cut->mode3_damping}};
    bite_axis_modes axis = {.count = 0};
    for (size_t i = 0; i < sizeof measured / sizeof *measured; i++) {
        if (!isnan(measured[i][0])) {
            double stiffness = isnan(measured[i][1]) ? cut->machine_stiffness : measured[i][1];
            axis.modes[axis.count++] = bite_mode_plain(measured[i][0], stiffness, measured[i][2]);
        }
    }
    return axis;
}

double bite_measured_depth(const bite_cut *cut, bite_arc arc, double tangential, double ratio,
                           double speed, bite_light_cut_room *room)
{
    bite_axis_modes modes = measured_modes(cut);
    bite_excitation excitation = {.teeth = cut->flutes,
                                  .speed = speed,
                                  .tangential = tangential,
                                  .span = arc.leave - arc.enter};
    if (0.5 * (1.0 - cos(excitation.span)) < light_width) {
        return bite_light_cut_depth(&modes, ratio, &excitation, room);
    }
    bite_direction_root roots[2];
    bite_mode_roots(arc, ratio, roots);
    return bite_equal_axes_depth(&modes, roots, excitation.teeth, tangential, speed);
}
