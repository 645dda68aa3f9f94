/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The orthogonal cut of one shear plane, and its oblique transformation. */
#include "core/physics/force/orthogonal_cutting.h"
#include <math.h>

double bite_orthogonal_shear_angle(double chip_ratio, double rake)
{
    double ratio = 1.0 / chip_ratio;
    return atan2(ratio * cos(rake), 1.0 - ratio * sin(rake));
}

double bite_orthogonal_strain(double shear_angle, double rake)
{
    return 1.0 / tan(shear_angle) + tan(shear_angle - rake);
}

double bite_orthogonal_merchant(double friction_angle, double rake)
{
    return 0.25 * M_PI - 0.5 * (friction_angle - rake);
}

double bite_orthogonal_slip_line(double friction_angle, double rake)
{
    return 0.25 * M_PI + rake - friction_angle;
}

bite_resolved bite_orthogonal_resolve(double cutting, double thrust, double shear_angle,
                                      double rake)
{
    bite_resolved out;
    out.shear = cutting * cos(shear_angle) - thrust * sin(shear_angle);
    out.shear_normal = cutting * sin(shear_angle) + thrust * cos(shear_angle);
    out.friction = cutting * sin(rake) + thrust * cos(rake);
    out.rake_normal = cutting * cos(rake) - thrust * sin(rake);
    return out;
}

void bite_orthogonal_forces(double shear_stress, double chip, double width, double shear_angle,
                            double friction_angle, double rake, double *cutting, double *thrust)
{
    double resultant =
        shear_stress * chip * width / (sin(shear_angle) * cos(shear_angle + friction_angle - rake));
    *cutting = resultant * cos(friction_angle - rake);
    *thrust = resultant * sin(friction_angle - rake);
}

double bite_orthogonal_merchant_pressure(double friction, double rake)
{
    double lean = atan(friction) - rake;
    return 2.0 * cos(lean) / (1.0 - sin(lean));
}

/* What the oblique forces along and across the speed go with, beside a size that both have. */
typedef struct force_shares {
    double lean; /* friction angle in the normal plane, less the rake */
    double side;
    double tangential;
    double axial;
} force_shares;

static force_shares shares_of(double normal_friction, double rake, double flow)
{
    force_shares shares;
    shares.lean = normal_friction - rake;
    shares.side = flow * sin(normal_friction);
    double along = cos(shares.lean);
    shares.tangential = along + flow * shares.side;
    shares.axial = along * flow - shares.side;
    return shares;
}

static double normal_friction_of(double friction_angle, double inclination)
{
    return atan(tan(friction_angle) * cos(inclination));
}

bite_oblique bite_orthogonal_oblique(double shear_stress, double friction_angle, double rake,
                                     double inclination, double chip_ratio)
{
    bite_oblique out;
    out.shear_angle = bite_orthogonal_shear_angle(chip_ratio, rake);
    out.friction_angle = normal_friction_of(friction_angle, inclination);
    force_shares shares = shares_of(out.friction_angle, rake, tan(inclination));
    double size = shear_stress / sin(out.shear_angle) /
                  hypot(cos(out.shear_angle + shares.lean), shares.side);
    out.tangential = size * shares.tangential;
    out.radial = size / cos(inclination) * sin(shares.lean);
    out.axial = size * shares.axial;
    return out;
}

double bite_orthogonal_axial_share(double friction_angle, double rake, double inclination)
{
    force_shares shares =
        shares_of(normal_friction_of(friction_angle, inclination), rake, tan(inclination));
    return shares.axial / shares.tangential;
}

double bite_orthogonal_least_chip(double friction_angle)
{
    return 1.0 - cos(0.25 * M_PI - 0.5 * friction_angle);
}
