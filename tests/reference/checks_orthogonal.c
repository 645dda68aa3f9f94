/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reference rows on the orthogonal and the oblique cut. */
#include "core/physics/force/orthogonal_cutting.h"
#include "tests/reference/check.h"
#include "tests/reference/textbook/orthogonal.h"
#include <math.h>

#define IN(name) bite_in(given, name)

static double shear_angle_of(const bite_given *given)
{
    return atan(bite_orthogonal_shear_tangent(IN("tc") / IN("t"), bite_orthogonal_angle(IN("g"))));
}

static double shear_stress_of(const bite_given *given, const char *width, double angle)
{
    textbook_resolved forces = textbook_orthogonal_resolve(IN("Fc"), IN("Ft"), angle, IN("g"));
    return forces.shear / (IN("t") * bite_in(given, width) / sin(angle));
}

static int shear_angle(const bite_given *given, double *out)
{
    out[0] = shear_angle_of(given);
    return 1;
}

static int shear_angle_strain(const bite_given *given, double *out)
{
    out[0] = shear_angle_of(given);
    out[1] = textbook_orthogonal_strain(out[0], IN("g"));
    return 2;
}

static int friction_stress(const bite_given *given, double *out)
{
    double angle = shear_angle_of(given);
    textbook_resolved forces = textbook_orthogonal_resolve(IN("Fc"), IN("Ft"), angle, IN("g"));
    out[0] = forces.friction / forces.rake_normal;
    out[1] = shear_stress_of(given, "w", angle);
    return 2;
}

static int forces_at(const bite_given *given, double angle, double *out)
{
    out[0] = angle;
    textbook_orthogonal_forces(IN("tau"), IN("t"), IN("w"), angle, atan(IN("mu")), IN("g"), &out[1],
                               &out[2]);
    return 3;
}

static int merchant_forces(const bite_given *given, double *out)
{
    return forces_at(given, textbook_orthogonal_merchant(atan(IN("mu")), IN("g")), out);
}

static int slip_line_forces(const bite_given *given, double *out)
{
    return forces_at(given, textbook_orthogonal_slip_line(atan(IN("mu")), IN("g")), out);
}

static int shear_force_stress(const bite_given *given, double *out)
{
    out[0] = textbook_orthogonal_resolve(IN("Fc"), IN("Ft"), IN("phi"), IN("g")).shear;
    out[1] = shear_stress_of(given, "w", IN("phi"));
    return 2;
}

/* Merchant's relation solved for the friction angle, by bisection. */
static int friction_of_merchant(const bite_given *given, double *out)
{
    double least = 0.0;
    double most = 0.5 * M_PI;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (least + most);
        if (textbook_orthogonal_merchant(middle, IN("g")) > IN("phi")) {
            least = middle;
        } else {
            most = middle;
        }
    }
    out[0] = least;
    return 1;
}

static int orthogonal_all(const bite_given *given, double *out)
{
    out[0] = shear_angle_of(given);
    textbook_resolved forces = textbook_orthogonal_resolve(IN("Fc"), IN("Ft"), out[0], IN("g"));
    out[1] = atan(forces.friction / forces.rake_normal);
    out[2] = shear_stress_of(given, "b", out[0]);
    out[3] = IN("v") * IN("t") / IN("tc");
    out[4] = textbook_orthogonal_strain(out[0], IN("g"));
    return 5;
}

static int shear_force(const bite_given *given, double *out)
{
    out[0] = textbook_orthogonal_resolve(IN("Fc"), IN("Ft"), shear_angle_of(given), IN("g")).shear;
    return 1;
}

static int forces_energy(const bite_given *given, double *out)
{
    textbook_resolved forces =
        textbook_orthogonal_resolve(IN("Fc"), IN("Ft"), shear_angle_of(given), IN("g"));
    out[0] = forces.shear;
    out[1] = forces.shear_normal;
    out[2] = forces.friction;
    out[3] = forces.friction / forces.rake_normal;
    out[4] = IN("Fc") / (IN("t") * IN("b"));
    return 5;
}

static int oblique(const bite_given *given, double *out)
{
    textbook_oblique of =
        textbook_orthogonal_oblique(IN("tau"), IN("beta"), IN("g"), IN("i"), 1.0 / IN("rc"));
    out[0] = of.shear_angle;
    out[1] = of.friction_angle;
    out[2] = of.tangential;
    out[3] = of.radial;
    out[4] = of.axial;
    return 5;
}

static int oblique_constants(const bite_given *given, double *out)
{
    textbook_oblique of =
        textbook_orthogonal_oblique(IN("tau"), IN("beta"), IN("g"), IN("i"), 1.0 / IN("rc"));
    out[0] = of.tangential;
    out[1] = of.radial;
    out[2] = of.axial;
    return 3;
}

static int least_chips(const bite_given *given, double *out)
{
    for (int i = 1; i <= 3; i++) {
        out[i - 1] = textbook_orthogonal_least_chip(bite_in_at(given, "b", i));
    }
    return 3;
}

static int slip_line_angle(const bite_given *given, double *out)
{
    out[0] = textbook_orthogonal_slip_line(atan(IN("mu")), IN("g"));
    return 1;
}

static int slip_line_cutting(const bite_given *given, double *out)
{
    double friction = atan(IN("mu"));
    textbook_orthogonal_forces(IN("tau"), IN("h"), IN("b"),
                               textbook_orthogonal_slip_line(friction, IN("g")), friction, IN("g"),
                               &out[0], &out[1]);
    return 2;
}

const bite_check bite_checks_orthogonal[] = {
    {"shear_angle", shear_angle, "bite_orthogonal_shear_tangent"},
    {"shear_angle_strain", shear_angle_strain, "textbook_orthogonal_strain"},
    {"friction_stress", friction_stress, "textbook_orthogonal_resolve"},
    {"merchant_forces", merchant_forces, "textbook_orthogonal_merchant"},
    {"slip_line_forces", slip_line_forces, "textbook_orthogonal_slip_line"},
    {"shear_force_stress", shear_force_stress, "textbook_orthogonal_resolve"},
    {"friction_of_merchant", friction_of_merchant, "textbook_orthogonal_merchant"},
    {"orthogonal_all", orthogonal_all, "textbook_orthogonal_strain"},
    {"shear_force", shear_force, "textbook_orthogonal_resolve"},
    {"forces_energy", forces_energy, "textbook_orthogonal_resolve"},
    {"oblique", oblique, "textbook_orthogonal_oblique"},
    {"oblique_constants", oblique_constants, "textbook_orthogonal_oblique"},
    {"least_chips", least_chips, "textbook_orthogonal_least_chip"},
    {"slip_line_angle", slip_line_angle, "textbook_orthogonal_slip_line"},
    {"slip_line_cutting", slip_line_cutting, "textbook_orthogonal_slip_line"},
};
const size_t bite_checks_orthogonal_count = BITE_COUNT(bite_checks_orthogonal);
