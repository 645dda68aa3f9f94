/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool as a stepped shaft on an elastic machine: its deflection and its stress. */
#ifndef BITE_PHYSICS_ELASTIC_TOOL_DEFLECTION_H
#define BITE_PHYSICS_ELASTIC_TOOL_DEFLECTION_H

#include "core/base/lane_math.h"
#include "core/physics/elastic/stepped_shaft.h"
#include <stdbool.h>

/** The tool and the machine behind it. All members are set, except those that say otherwise. */
typedef struct bite_tool_body {
    double diameter;          /* m, over the flutes */
    double stickout;          /* m, from the holder's face to the tip */
    double flute_length;      /* m */
    double neck_diameter;     /* m; NaN: no neck */
    double neck_length;       /* m; NaN: no neck */
    double shank_diameter;    /* m */
    double taper;             /* rad, half angle of the cone; read for a conical tool only */
    double tip_diameter;      /* m, of the cone; read for a conical tool only */
    double load;              /* m, height of the load above the tip; capped at half the stickout */
    double stiff_share;       /* diameter of an equally stiff cylinder over the flutes' diameter */
    double core_share;        /* diameter of the core over the flutes' diameter */
    double modulus;           /* Pa */
    double poisson;           /* Poisson's ratio */
    double machine_stiffness; /* N/m, of holder, spindle and machine in series */
    bool conical;             /* the tip is a cone, as of a chamfer mill */
    bool ductile;             /* high-speed steel: von Mises stress rather than principal stress */
} bite_tool_body;

/* A step, cut off where the holder begins; *left: the length that is left for the rest. */
BITE_FORMULA bite_step bite_tool_step(double *left, double length, double tip, double holder)
{
    double at_cut = tip + (holder - tip) * *left / length;
    bite_step step = {bite_larger(bite_smaller(length, *left), 0.0), tip,
                      length > *left ? at_cut : holder};
    *left -= step.length;
    return step;
}

BITE_FORMULA bite_step bite_tool_cylinder(double *left, double length, double diameter)
{
    bite_step step = {bite_larger(bite_smaller(length, *left), 0.0), diameter, diameter};
    *left -= step.length;
    return step;
}

/* The load on a cone acts where the shaft begins: what lies below it neither bends nor conducts
 * heat. */
BITE_FORMULA double bite_tool_load_height(const bite_tool_body *tool)
{
    return bite_smaller(tool->load, 0.5 * tool->stickout);
}

BITE_FORMULA double bite_tool_load_on_shaft(const bite_tool_body *tool)
{
    return tool->conical ? 0.0 : bite_tool_load_height(tool);
}

/** The shaft from tip to holder: flutes at share * D, neck, cone of 15 degrees to the shank, shank.
 * The shaft of a conical tool begins at the load on its cone, behind which are the rest of its
 * flutes. A step that a tool does not have has length 0: the number of steps is the same for all
 * tools that are conical or not. */
BITE_FORMULA void bite_tool_shaft_init(const bite_tool_body *tool, double share, bite_shaft *shaft)
{
    /* half angle of the cone between flutes or neck and shank: 15 degrees (memory: as small end
     * mills are ground) */
    const double cone_tangent = 0.26794919243112270;
    double fluted = share * tool->diameter;
    double left = tool->stickout;
    double flutes = tool->flute_length;
    size_t count = 0;
    if (tool->conical) {
        double load = bite_tool_load_height(tool);
        double slope = 2.0 * tan(tool->taper);
        double whole = (tool->diameter - tool->tip_diameter) / slope;
        left -= load;
        shaft->steps[count++] = bite_tool_step(&left, whole - load,
                                               share * (tool->tip_diameter + slope * load), fluted);
        flutes -= bite_larger(load, whole);
    }
    shaft->steps[count++] = bite_tool_cylinder(&left, flutes, fluted);
    double neck = tool->neck_diameter * tool->neck_length; /* NaN: none */
    double thick = neck == neck ? tool->neck_diameter : tool->diameter;
    shaft->steps[count++] =
        bite_tool_cylinder(&left, neck == neck ? tool->neck_length : 0.0, thick);
    double cone = (tool->shank_diameter - thick) * (0.5 / cone_tangent);
    shaft->steps[count++] = bite_tool_step(&left, cone, thick, tool->shank_diameter);
    shaft->steps[count++] = bite_tool_cylinder(&left, left, tool->shank_diameter);
    shaft->count = count;
}

/** The steps of that shaft which are cylinders, for bite_shaft_fin. */
BITE_FORMULA unsigned bite_tool_cylinders(bool conical)
{
    return conical ? 0x16u : 0xbu; /* flutes, neck and shank */
}

typedef struct bite_tool_deflection {
    double compliance; /* at the load, ap/2 above the tip, machine included, m/N */
    double tool;       /* the part of it that is the tool's own, m/N */
    double slope;      /* rad/N, of the tool there */
    double load;       /* height of the load above the beginning of the shaft, m */
    bite_shaft shaft;
} bite_tool_deflection;

/** Tool in series with holder and machine. */
BITE_FORMULA bite_tool_deflection bite_tool_deflection_init(const bite_tool_body *tool)
{
    bite_tool_deflection deflection;
    bite_tool_shaft_init(tool, tool->stiff_share, &deflection.shaft);
    deflection.load = bite_tool_load_on_shaft(tool);
    bite_yielding yielding =
        bite_shaft_bend(&deflection.shaft, tool->modulus, tool->poisson, deflection.load);
    deflection.tool = yielding.bending + yielding.shear;
    deflection.compliance = deflection.tool + 1.0 / tool->machine_stiffness;
    deflection.slope = yielding.slope;
    return deflection;
}

/** Largest stress over the steps of the shaft at core_share, Pa: principal for brittle tools, von
 * Mises for high-speed steel. side N, torque N m. */
BITE_FORMULA double bite_tool_stress(const bite_tool_body *tool, double side, double torque)
{
    bite_shaft shaft;
    bite_tool_shaft_init(tool, tool->core_share, &shaft);
    return bite_shaft_stress(&shaft, bite_tool_load_on_shaft(tool), side, torque, tool->ductile);
}

#endif
