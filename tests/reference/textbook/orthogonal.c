/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for the orthogonal cut that the engine does not use. */
#include "tests/reference/textbook/orthogonal.h"
#include "core/physics/force/orthogonal_cutting.h"
#include <math.h>

double textbook_orthogonal_strain(double shear_angle, double rake)
{
    return 1.0 / tan(shear_angle) + tan(shear_angle - rake);
}

double textbook_orthogonal_merchant(double friction_angle, double rake)
{
    return 0.25 * M_PI - 0.5 * (friction_angle - rake);
}

double textbook_orthogonal_slip_line(double friction_angle, double rake)
{
    return 0.25 * M_PI + rake - friction_angle;
}

textbook_resolved textbook_orthogonal_resolve(double cutting, double thrust, double shear_angle,
                                              double rake)
{
    textbook_resolved out;
    out.shear = cutting * cos(shear_angle) - thrust * sin(shear_angle);
    out.shear_normal = cutting * sin(shear_angle) + thrust * cos(shear_angle);
    out.friction = cutting * sin(rake) + thrust * cos(rake);
    out.rake_normal = cutting * cos(rake) - thrust * sin(rake);
    return out;
}

void textbook_orthogonal_forces(double shear_stress, double chip, double width, double shear_angle,
                                double friction_angle, double rake, double *cutting, double *thrust)
{
    double resultant =
        shear_stress * chip * width / (sin(shear_angle) * cos(shear_angle + friction_angle - rake));
    *cutting = resultant * cos(friction_angle - rake);
    *thrust = resultant * sin(friction_angle - rake);
}

textbook_oblique textbook_orthogonal_oblique(double shear_stress, double friction_angle,
                                             double rake, double inclination, double chip_ratio)
{
    textbook_oblique out;
    double flow = tan(inclination); /* Stabler: the chip flows at the angle of inclination */
    out.shear_angle = atan(bite_orthogonal_shear_tangent(chip_ratio, bite_orthogonal_angle(rake)));
    out.friction_angle = atan(tan(friction_angle) * cos(inclination));
    double lean = out.friction_angle - rake;
    double side = flow * sin(out.friction_angle);
    double size = shear_stress / sin(out.shear_angle) / hypot(cos(out.shear_angle + lean), side);
    out.tangential = size * (cos(lean) + flow * side);
    out.radial = size / cos(inclination) * sin(lean);
    out.axial = size * (cos(lean) * flow - side);
    return out;
}

double textbook_orthogonal_least_chip(double friction_angle)
{
    return 1.0 - cos(0.25 * M_PI - 0.5 * friction_angle);
}
