/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Textbook formulas that the engine does not use: they verify that a row was copied correctly, and
 * nothing about the engine. */
#include "core/physics/force/orthogonal_cutting.h"
#include "core/physics/heat/conduction.h"
#include "tests/reference/check.h"
#include "tests/reference/textbook/conduction.h"
#include "tests/reference/textbook/orthogonal.h"
#include <math.h>

#define IN(name) bite_in(given, name)

static int textbook_mean_chip(const bite_given *given, double *out)
{
    out[0] = IN("vf") / (IN("n") * IN("z")) * sqrt(IN("d") / IN("D"));
    return 1;
}

static int power_size_effect(const bite_given *given, double *out)
{
    out[0] = IN("U") * pow(IN("t") / 1e-3, -IN("e")) * IN("w") * IN("d") * IN("vf");
    return 1;
}

/* Kienzle: kc1.1 (h/1 mm)^-mc. The engine approximates it by a chord. */
static int power_law(const bite_given *given, double *out)
{
    out[0] = IN("kc") * pow(IN("h") / 1e-3, -IN("mc")) * IN("w") * IN("d") * IN("vf");
    return 1;
}

/* The mean of sin^p over half a turn, p = 1 - mc, over the same power of the mean: by the beta
 * function. */
static int textbook_mean_chip_error(const bite_given *given, double *out)
{
    double p = 1.0 - IN("mc");
    double mean = tgamma(0.5 * (p + 1.0)) / (sqrt(M_PI) * tgamma(0.5 * p + 1.0));
    out[0] = mean / pow(2.0 / M_PI, p);
    return 1;
}

static int textbook_weibull(const bite_given *given, double *out)
{
    for (int i = 1; i <= 2; i++) {
        out[i - 1] = -expm1(-pow(bite_in_at(given, "s", i) / IN("s0"), bite_in_at(given, "m", i)));
    }
    return 2;
}

static double log_share(double x)
{
    return 0.15 * log(27.5 / x);
}

static double example_x(const bite_given *given, double *angle)
{
    *angle = textbook_orthogonal_slip_line(atan(IN("mu")), IN("g"));
    return IN("v") * IN("h") * IN("rho") * IN("c") / IN("k") * tan(*angle);
}

static int textbook_log_share(const bite_given *given, double *out)
{
    double angle;
    out[0] = log_share(example_x(given, &angle));
    return 1;
}

static int textbook_log_shares(const bite_given *given, double *out)
{
    out[0] = log_share(IN("x1"));
    out[1] = log_share(IN("x2"));
    return 2;
}

static int textbook_shear_rise(const bite_given *given, double *out)
{
    double angle;
    double share = log_share(example_x(given, &angle));
    out[0] = (1.0 - share) * IN("tau") * textbook_orthogonal_strain(angle, IN("g")) /
             (IN("rho") * IN("c"));
    return 1;
}

static int textbook_rake_temperature(const bite_given *given, double *out)
{
    double angle;
    double cutting = 0.0;
    double thrust = 0.0;
    (void)example_x(given, &angle);
    (void)textbook_shear_rise(given, out);
    textbook_orthogonal_forces(IN("tau"), IN("h"), IN("b"), angle, atan(IN("mu")), IN("g"),
                               &cutting, &thrust);
    double friction = textbook_orthogonal_resolve(cutting, thrust, angle, IN("g")).friction *
                      IN("v") * sin(angle) / cos(angle - IN("g"));
    out[0] += IN("T0") + textbook_conduction_rake(friction / IN("b"), IN("rho") * IN("c"), IN("v"),
                                                  IN("h"), IN("k"), angle, IN("g"));
    return 1;
}

static int textbook_penetration(const bite_given *given, double *out)
{
    out[0] = pow(IN("d") / 3.64, 2.0) / IN("a");
    return 1;
}

/* The heating rate of a plate with convection and radiation; degC, with 273 as in the example. */
static double radiating_rate(const bite_given *given, double t)
{
    double gain = IN("h") * (IN("Tinf") - t) +
                  5.67e-8 * IN("eps") * (pow(IN("Tinf") + 273.0, 4.0) - pow(t + 273.0, 4.0));
    return gain / (IN("rho") * IN("c") * IN("d"));
}

/* Fourth-order Runge-Kutta in small steps until the temperature is passed; the last step by the
 * secant. */
static int textbook_radiating_plate(const bite_given *given, double *out)
{
    const double step = 0.01;
    double t = IN("from");
    double way = IN("to") > t ? 1.0 : -1.0;
    for (double time = 0.0; time < 1e4; time += step) {
        double k1 = radiating_rate(given, t);
        double k2 = radiating_rate(given, t + 0.5 * step * k1);
        double k3 = radiating_rate(given, t + 0.5 * step * k2);
        double k4 = radiating_rate(given, t + step * k3);
        double next = t + step * (k1 + 2.0 * k2 + 2.0 * k3 + k4) / 6.0;
        if (way * (next - IN("to")) >= 0.0) {
            out[0] = time + step * (IN("to") - t) / (next - t);
            return 1;
        }
        t = next;
    }
    return 0;
}

static int textbook_cross_flow(const bite_given *given, double *out)
{
    out[0] = IN("V") * IN("D") / IN("nu");
    out[1] = IN("C") * pow(out[0], IN("m")) * pow(IN("Pr"), IN("n")) *
             pow(IN("Pr") / IN("Prs"), 0.25) * IN("k") / IN("D");
    return 2;
}

/* Two bars of different section between rigid walls, cooled: one force, two stresses. */
static int textbook_held_bar(const bite_given *given, double *out)
{
    double force = fabs(IN("alpha") * IN("dT") * 2.0 * IN("L")) * IN("E") /
                   (IN("L") / IN("A1") + IN("L") / IN("A2"));
    out[0] = force / IN("A1");
    out[1] = force / IN("A2");
    return 2;
}

static int textbook_loewen_interface(const bite_given *given, double *out)
{
    double angle;
    (void)example_x(given, &angle);
    double volumetric = IN("rho") * IN("c");
    double a = IN("k") / volumetric;
    double strain = textbook_orthogonal_strain(angle, IN("g"));
    double chip_share = textbook_conduction_loewen_chip(a, strain, IN("v"), IN("h"));
    double shear = chip_share * IN("tau") * strain / volumetric;
    double cutting = 0.0;
    double thrust = 0.0;
    textbook_orthogonal_forces(IN("tau"), IN("h"), IN("b"), angle, atan(IN("mu")), IN("g"),
                               &cutting, &thrust);
    double chip_speed = IN("v") * sin(angle) / cos(angle - IN("g"));
    double friction = textbook_orthogonal_resolve(cutting, thrust, angle, IN("g")).friction *
                      chip_speed / (IN("b") * IN("h") * IN("v"));
    double l2 = chip_speed * IN("lc") / (4.0 * a);
    double chip_side = 0.377 * friction * IN("v") * IN("h") / (IN("k") * sqrt(l2));
    double tool_side = friction * IN("v") * IN("h") *
                       bite_conduction_rectangle(IN("b") / (2.0 * IN("lc"))) / IN("kt");
    out[0] = (tool_side - shear) / (tool_side + chip_side);
    out[1] = IN("T0") + shear + out[0] * chip_side;
    return 2;
}

/* Martin's round jet, averaged over a radius: Nu = G F Pr^0.42, F = 2 Re^0.5 (1 + 0.005
 * Re^0.55)^0.5, G of D/r and H/D. */
static double jet(double diameter, double speed, const bite_given *given, double *reynolds,
                  double *nusselt)
{
    double ratio = diameter / IN("R");
    double away = IN("H") / diameter;
    *reynolds = speed * diameter / IN("nu");
    double f = 2.0 * sqrt(*reynolds) * sqrt(1.0 + 0.005 * pow(*reynolds, 0.55));
    double g = ratio * (1.0 - 1.1 * ratio) / (1.0 + 0.1 * (away - 6.0) * ratio);
    *nusselt = g * f * pow(IN("Pr"), 0.42);
    return *nusselt * IN("k") / diameter;
}

static int textbook_jet(const bite_given *given, double *out)
{
    out[2] = jet(IN("D"), IN("V"), given, &out[0], &out[1]);
    return 3;
}

static int textbook_jets(const bite_given *given, double *out)
{
    double reynolds;
    double nusselt;
    for (int i = 1; i <= 2; i++) {
        out[i - 1] =
            jet(bite_in_at(given, "D", i), bite_in_at(given, "V", i), given, &reynolds, &nusselt);
    }
    return 2;
}

/* Churchill and Bernstein: a cylinder in cross flow. */
static int textbook_cylinders(const bite_given *given, double *out)
{
    for (int i = 1; i <= 2; i++) {
        double reynolds = bite_in_at(given, "V", i) * IN("D") / IN("nu");
        double low = 0.62 * sqrt(reynolds) * cbrt(IN("Pr")) /
                     pow(1.0 + pow(0.4 / IN("Pr"), 2.0 / 3.0), 0.25);
        double nusselt = 0.3 + low * pow(1.0 + pow(reynolds / 282000.0, 0.625), 0.8);
        out[i - 1] = nusselt * IN("k") / IN("D");
    }
    return 2;
}

const bite_check bite_checks_textbook[] = {
    {"textbook_mean_chip", textbook_mean_chip, "textbook_mean_chip"},
    {"power_size_effect", power_size_effect, "power_size_effect"},
    {"power_law", power_law, "power_law"},
    {"textbook_mean_chip_error", textbook_mean_chip_error, "textbook_mean_chip_error"},
    {"textbook_weibull", textbook_weibull, "textbook_weibull"},
    {"textbook_log_share", textbook_log_share, "textbook_log_share"},
    {"textbook_log_shares", textbook_log_shares, "textbook_log_shares"},
    {"textbook_shear_rise", textbook_shear_rise, "textbook_shear_rise"},
    {"textbook_rake_temperature", textbook_rake_temperature, "textbook_rake_temperature"},
    {"textbook_penetration", textbook_penetration, "textbook_penetration"},
    {"textbook_radiating_plate", textbook_radiating_plate, "textbook_radiating_plate"},
    {"textbook_cross_flow", textbook_cross_flow, "textbook_cross_flow"},
    {"textbook_held_bar", textbook_held_bar, "textbook_held_bar"},
    {"textbook_loewen_interface", textbook_loewen_interface, "textbook_loewen_interface"},
    {"textbook_jet", textbook_jet, "textbook_jet"},
    {"textbook_jets", textbook_jets, "textbook_jets"},
    {"textbook_cylinders", textbook_cylinders, "textbook_cylinders"},
};
const size_t bite_checks_textbook_count = BITE_COUNT(bite_checks_textbook);
