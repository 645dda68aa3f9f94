/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Geometry of the cone that cuts a chamfer: its arc of contact at a height, and the inverse. The
 * symbols are those of core/physics/force/chamfer_mill.h. */
#ifndef BITE_PHYSICS_FORCE_CHAMFER_CONE_H
#define BITE_PHYSICS_FORCE_CHAMFER_CONE_H

#include "core/physics/geometry/engagement.h"

typedef struct bite_cone {
    double depth;  /* of the chamfer along the axis, m */
    double slope;  /* tan(taper) */
    double sine;   /* of kappa */
    double cosine; /* of kappa */
    double small;  /* r_b, m: the radius at the chamfer's lower end */
    double large;  /* m, at its upper end */
    double inside; /* R, m: of the corner's wall at the lower end; INFINITY: a straight edge */
} bite_cone;

/** The conical tool and its position in the chamfer that it cuts. */
typedef struct bite_chamfer_shape {
    double depth;        /* m, of the chamfer along the axis */
    double taper;        /* rad, half angle of the cone */
    double tip_diameter; /* m, of the flat at the tip */
    double tip_below;    /* m, of the tip below the chamfer's lower end */
} bite_chamfer_shape;

/** The cone along a straight edge. */
bite_cone bite_chamfer_cone(const bite_chamfer_shape *shape);

/** The cone along a straight edge or in an inside corner, depending on the arc of contact at the
 * upper end. */
bite_cone bite_chamfer_cone_in(const bite_chamfer_shape *shape, bite_arc arc);

/** Removed section across the feed, m2; in a corner, the volume removed per m of path of the tool's
 * axis. */
double bite_chamfer_section(const bite_cone *cone);

/** Height of the centroid of the removed section above the tip, m: two thirds up the triangle. */
double bite_chamfer_load(const bite_chamfer_shape *shape);

/** The arc of contact at a height above the cone's thin end, rad. */
double bite_cone_span(const bite_cone *cone, double height);
/** The inverse: the height, m, above which a tooth at the angle `away` (rad) from the wall is in
 * contact. *growth: its derivative, m/rad. */
double bite_cone_height_growth(const bite_cone *cone, double away, double *growth);
/** The same without the derivative. */
double bite_cone_height(const bite_cone *cone, double away);

#endif
