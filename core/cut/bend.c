/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool as a stepped shaft on a yielding machine. */
#include "core/cut/bend.h"
#include <math.h>

/* Half angle of the cone between flutes or neck and shank (memory: as small end mills are ground). */
static const double cone_tangent = 0.26794919243112270; /* tan 15 degrees */

/* Heights of the wall at which the error is asked: the force changes over it with the lag of the helix, smoothly but for kinks. */
static int heights_over(double lag)
{
    double parts = 4.0 + 2.0 * fabs(lag) / 0.5;
    return parts < 32.0 ? (int)parts : 32;
}

/* Adds a step, cut off where the holder begins. */
static double add_step(bite_shaft *shaft, double left, double length, double tip, double holder)
{
    if (!(left > 0.0) || !(length > 0.0)) {
        return left;
    }
    if (length > left) {
        holder = tip + (holder - tip) * left / length;
        length = left;
    }
    bite_step step = {length, tip, holder};
    shaft->steps[shaft->count++] = step;
    return left - length;
}

void bite_bend_shaft(const bite_cut *cut, double share, bite_shaft *shaft)
{
    double fluted = share * cut->diameter;
    double thick = cut->diameter;
    double left = cut->stickout;
    shaft->count = 0;
    left = add_step(shaft, left, cut->flute_length, fluted, fluted);
    if (!isnan(cut->neck_diameter) && !isnan(cut->neck_length)) {
        thick = cut->neck_diameter;
        left = add_step(shaft, left, cut->neck_length, thick, thick);
    }
    double cone = 0.5 * (cut->shank_diameter - thick) / cone_tangent;
    left = add_step(shaft, left, cone, thick, cut->shank_diameter);
    add_step(shaft, left, left, cut->shank_diameter, cut->shank_diameter);
}

bite_bend bite_bend_form(const bite_cut *cut)
{
    bite_shaft shaft;
    bite_bend bend;
    bite_bend_shaft(cut, cut->stiff_share, &shaft);
    bend.load = fmin(0.5 * cut->depth, 0.5 * cut->stickout);
    bite_yielding tool = bite_shaft_bend(&shaft, cut->tool_modulus, cut->tool_poisson, bend.load);
    bend.compliance = tool.bending + tool.shear + 1.0 / cut->machine_stiffness;
    bend.slope = tool.slope;
    return bend;
}

double bite_bend_at(const bite_bend *bend, double height)
{
    return bend->compliance + bend->slope * (bend->load - height);
}

/* sign: +1 on the wall at -y (climb), where a push to +y leaves stock; -1 on the wall at +y. */
static double wall_at(const bite_bend *bend, const bite_force *force, double phi_wall, double sign)
{
    double worst = 0.0;
    int heights = heights_over(force->lag * force->depth);
    for (int i = 0; i <= heights; i++) {
        double height = force->depth * i / heights;
        double left = sign * bite_force_at(force, phi_wall + height * force->lag).y * bite_bend_at(bend, height);
        if (fabs(left) > fabs(worst)) {
            worst = left;
        }
    }
    return worst;
}

double bite_bend_wall(const bite_bend *bend, const bite_force *force, bite_arc arc)
{
    /* The edge that finishes is about to enter or has just left: a hair inside the arc, where it still cuts. */
    const double hair = 1e-9;
    double error = 0.0;
    if (arc.leave >= M_PI) {
        error = wall_at(bend, force, M_PI - hair, 1.0);
    }
    if (arc.enter <= 0.0) {
        double other = wall_at(bend, force, hair, -1.0);
        error = fabs(other) > fabs(error) ? other : error;
    }
    return error;
}

double bite_bend_stress(const bite_cut *cut, double side, double torque)
{
    bite_shaft shaft;
    bite_bend_shaft(cut, cut->core_share, &shaft);
    double load = fmin(0.5 * cut->depth, 0.5 * cut->stickout);
    return bite_shaft_stress(&shaft, load, side, torque, cut->tool_material == BITE_TOOL_HSS);
}
