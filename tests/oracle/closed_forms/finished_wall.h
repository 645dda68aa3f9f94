/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The error that the deflection of a square end mill leaves on the wall that tooth 0 finishes. */
#ifndef BITE_TESTS_ORACLE_FINISHED_WALL_H
#define BITE_TESTS_ORACLE_FINISHED_WALL_H

#include "core/physics/elastic/tool_deflection.h"
#include "tests/oracle/closed_forms/square_end_mill.h"

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

#endif
