/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Geometry of the cone that cuts a chamfer: its arc of contact at a height, and the inverse. */
#include "tests/oracle/closed_forms/cone_heights.h"
#include "core/base/gauss_legendre.h"
#include <math.h>

bite_cone bite_chamfer_cone_in(const bite_chamfer_shape *shape, bite_arc arc)
{
    return arc.corner > 0.0 ? bite_chamfer_cone_in_corner(shape, arc.corner)
                            : bite_chamfer_cone(shape);
}

/* The inverse: the height above which a tooth at the angle `away` from the wall is in contact.
 * *growth: its derivative, m/rad. */
static double height_on_straight(const bite_cone *cone, double away, double *growth)
{
    double cosine = cos(away);
    *growth = cone->small * sin(away) / (cosine * cosine * cone->slope);
    return bite_cone_height_straight(cone, sin(0.5 * away));
}

/* The same in a corner: the cone's radius at that height, the radius R - r_b of the path of the
 * tool's axis and R form a triangle. */
static double height_in_corner(const bite_cone *cone, double away, double *growth)
{
    double path = cone->inside - cone->small;
    double along = cone->small + path * cos(away);
    double half = sin(0.5 * away);
    double root = sqrt(along * along + 4.0 * path * cone->small * half * half);
    *growth = path * sin(away) * (1.0 - path * cos(away) / root) / cone->slope;
    return bite_cone_height_moving(cone, half);
}

double bite_cone_height_growth(const bite_cone *cone, double away, double *growth)
{
    if (isinf(cone->inside)) {
        return height_on_straight(cone, away, growth);
    }
    if (cone->inside > cone->small) {
        return height_in_corner(cone, away, growth);
    }
    double straight =
        fmax(away / 3.0, away - 0.5 * M_PI); /* inverse of bite_engagement_dead_corner */
    double height = height_on_straight(cone, straight, growth);
    *growth *= straight > away / 3.0 ? 1.0 : 1.0 / 3.0;
    return height;
}

double bite_cone_height(const bite_cone *cone, double away)
{
    double growth;
    return bite_cone_height_growth(cone, away, &growth);
}

double bite_chamfer_section(const bite_cone *cone)
{
    double section = 0.0;
    for (int i = 0; i < BITE_GAUSS_LEGENDRE_POINTS; i++) {
        double height = 0.5 * cone->depth * (1.0 + bite_gauss_legendre_point[i]);
        double half = sin(0.5 * bite_cone_span(cone, height));
        double width = 2.0 * (cone->small + height * cone->slope) * half * half;
        section += width * 0.5 * cone->depth * bite_gauss_legendre_weight[i];
    }
    return section;
}
