/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tool as a stepped shaft on an elastic machine: its deflection, the error that it leaves on
 * the wall, and its stress. */
#ifndef BITE_PHYSICS_ELASTIC_TOOL_DEFLECTION_H
#define BITE_PHYSICS_ELASTIC_TOOL_DEFLECTION_H

#include "core/physics/elastic/stepped_shaft.h"
#include "core/physics/force/square_end_mill.h"
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

/** The shaft from tip to holder: flutes at share * D, neck, cone of 15 degrees to the shank, shank.
 * The shaft of a conical tool begins at the load on its cone. */
void bite_tool_shaft_init(const bite_tool_body *tool, double share, bite_shaft *shaft);

typedef struct bite_tool_deflection {
    double compliance; /* at the load, ap/2 above the tip, machine included, m/N */
    double tool;       /* the part of it that is the tool's own, m/N */
    double slope;      /* rad/N, of the tool there */
    double load;       /* height of the load above the beginning of the shaft, m */
    bite_shaft shaft;
} bite_tool_deflection;

/** Tool in series with holder and machine. */
bite_tool_deflection bite_tool_deflection_init(const bite_tool_body *tool);

/** Deflection at a height above the tip for 1 N at the load, m/N. */
double bite_tool_deflection_at(const bite_tool_deflection *deflection, double height);

/** An instant at which a height of the finished wall is cut. */
typedef struct bite_wall_point {
    double height; /* above the tip, m */
    double sign; /* +1 on the wall at -y (climb), where a push to +y leaves stock; -1 on the wall at
                    +y */
    double met[BITE_EDGE_TERMS];
} bite_wall_point;

#define BITE_WALL_POINTS 96

/** The instants at which the walls are finished, from foot to top. A slot has two walls. */
typedef struct bite_wall {
    int count; /* above BITE_WALL_POINTS: the wall has this many points, which are computed again
                  each time */
    bite_wall_point points[BITE_WALL_POINTS];
} bite_wall;

void bite_wall_init(bite_wall *wall, const bite_edge_integrals *edges, bite_arc arc);

/** Deflection of each finished wall, m; > 0: stock left on the part. NaN: no such wall. */
typedef struct bite_wall_errors {
    double climb;        /* the wall at -y */
    double conventional; /* the wall at +y */
} bite_wall_errors;

/** Largest magnitude over each wall's heights, each finished at its own instant phi_tip = phi_wall
 * + height tan(beta)/R. wall: of the same edges and arc. */
bite_wall_errors bite_tool_deflection_wall_errors(const bite_tool_deflection *deflection,
                                                  const bite_pressure *pressure,
                                                  const bite_edge_integrals *edges, bite_arc arc,
                                                  const bite_wall *wall);

/** Largest stress over the steps of the shaft at core_share, Pa: principal for brittle tools, von
 * Mises for high-speed steel. side N, torque N m. */
double bite_tool_stress(const bite_tool_body *tool, double side, double torque);

#endif
