/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Orthogonal cutting with a single shear plane, and its oblique transformation. */
#include "core/physics/force/orthogonal_cutting.h"
#include <math.h>

double bite_orthogonal_shear_angle(double chip_ratio, double rake)
{
    double ratio = 1.0 / chip_ratio;
    return atan2(ratio * cos(rake), 1.0 - ratio * sin(rake));
}

double bite_orthogonal_merchant_pressure(double friction, double rake)
{
    double friction_less_rake = atan(friction) - rake;
    return 2.0 * cos(friction_less_rake) / (1.0 - sin(friction_less_rake));
}

/* Proportions of the oblique forces along and across the cutting speed; a factor that both have in
 * common is left out. */
typedef struct force_shares {
    double friction_less_rake; /* friction angle in the normal plane, less the rake */
    double side;
    double tangential;
    double axial;
} force_shares;

static force_shares shares_of(double normal_friction, double rake, double flow)
{
    force_shares shares;
    shares.friction_less_rake = normal_friction - rake;
    shares.side = flow * sin(normal_friction);
    double along = cos(shares.friction_less_rake);
    shares.tangential = along + flow * shares.side;
    shares.axial = along * flow - shares.side;
    return shares;
}

static double normal_friction_of(double friction_angle, double inclination)
{
    return atan(tan(friction_angle) * cos(inclination));
}

double bite_orthogonal_axial_share(double friction_angle, double rake, double inclination)
{
    force_shares shares =
        shares_of(normal_friction_of(friction_angle, inclination), rake, tan(inclination));
    return shares.axial / shares.tangential;
}
