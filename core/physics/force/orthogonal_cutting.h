/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Orthogonal cutting with a single shear plane, and its oblique transformation. Angles in rad,
 * forces in N, stresses in Pa. */
#ifndef BITE_PHYSICS_FORCE_ORTHOGONAL_CUTTING_H
#define BITE_PHYSICS_FORCE_ORTHOGONAL_CUTTING_H

#include "core/base/lane_math.h"
#include "core/physics/geometry/angle.h"

/** An angle of less than a quarter turn either way, as rake and helix are: its cosine is the root
 * of 1 - sin^2, so that no lane computes both functions. */
BITE_FORMULA bite_angle bite_orthogonal_angle(double at)
{
    double sine = sin(at);
    bite_angle angle = {at, sine, sqrt(1.0 - sine * sine)};
    return angle;
}

/** Tangent of the shear angle from the chip ratio (chip thickness after / before): tan(phi) = rc
 * cos(g)/(1 - rc sin(g)), rc = 1/chip_ratio. chip_ratio > sin(g). */
BITE_FORMULA double bite_orthogonal_shear_tangent(double chip_ratio, bite_angle rake)
{
    return rake.cosine / (chip_ratio - rake.sine);
}

/** K / (shear strength) at Merchant's shear angle: 2 cos(b - g)/(1 - sin(b - g)), b =
 * atan(friction). */
BITE_FORMULA double bite_orthogonal_merchant_pressure(double friction, double rake)
{
    bite_angle angle = bite_orthogonal_angle(rake);
    /* by the addition theorems, with 1/cos(b) = sqrt(1 + friction^2) taken out */
    return 2.0 * (angle.cosine + friction * angle.sine) /
           (sqrt(1.0 + friction * friction) - friction * angle.cosine + angle.sine);
}

/**
 * Axial over tangential pressure by the oblique transformation; inclination i and chip flow are
 * both the helix angle (Armarego; Stabler's rule), and shear stress and shear angle cancel.
 *
 * With bn = atan(friction cos(i)), the friction angle in the normal plane, the forces are in
 * proportion to cos(bn - g) tan(i) - tan(i) sin(bn) along the axis and cos(bn - g) + tan(i)^2
 * sin(bn) along the speed; divided by cos(bn) and times cos(i), no angle but i and g is left.
 */
BITE_FORMULA double bite_orthogonal_axial_share(double friction, double rake, double inclination)
{
    bite_angle face = bite_orthogonal_angle(rake);
    bite_angle edge = bite_orthogonal_angle(inclination);
    double along = face.cosine + friction * edge.cosine * face.sine;
    return edge.sine * (along - friction * edge.cosine) /
           (along * edge.cosine + friction * edge.sine * edge.sine);
}

#endif
