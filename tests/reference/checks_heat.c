/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reference rows on conduction and on the heat model. */
#include "core/physics/elastic/shaft_fin.h"
#include "core/physics/elastic/stepped_shaft.h"
#include "core/physics/force/orthogonal_cutting.h"
#include "core/physics/heat/conduction.h"
#include "core/physics/heat/cutting_heat.h"
#include "tests/reference/check.h"
#include "tests/reference/textbook/conduction.h"
#include "tests/reference/textbook/orthogonal.h"
#include "tests/support/test_formulas.h"
#include <math.h>

#define IN(name) bite_in(given, name)

static double diffusivity(const bite_given *given)
{
    return IN("k") / (IN("rho") * IN("c"));
}

/* The shear angle of the worked example: slip lines. */
static double example_angle(const bite_given *given)
{
    return textbook_orthogonal_slip_line(atan(IN("mu")), IN("g"));
}

static int thermal_number(const bite_given *given, double *out)
{
    out[0] = IN("v") * IN("h") / diffusivity(given);
    out[1] = out[0] * tan(example_angle(given));
    return 2;
}

static int rake_rise(const bite_given *given, double *out)
{
    double angle = example_angle(given);
    double cutting = 0.0;
    double thrust = 0.0;
    textbook_orthogonal_forces(IN("tau"), IN("h"), IN("b"), angle, atan(IN("mu")), IN("g"),
                               &cutting, &thrust);
    double friction = textbook_orthogonal_resolve(cutting, thrust, angle, IN("g")).friction;
    double chip_speed = IN("v") * sin(angle) / cos(angle - IN("g"));
    out[0] = textbook_conduction_rake(friction * chip_speed / IN("b"), IN("rho") * IN("c"), IN("v"),
                                      IN("h"), IN("k"), angle, IN("g"));
    return 1;
}

static int cook(const bite_given *given, double *out)
{
    out[0] = textbook_conduction_cook(IN("u"), IN("C"), IN("v"), IN("h"), IN("a"));
    return 1;
}

static int pulse(const bite_given *given, double *out)
{
    out[0] = IN("T0") +
             textbook_conduction_pulse(IN("E"), IN("rho"), IN("c"), IN("a"), IN("t"), IN("x"));
    return 1;
}

static int flux(const bite_given *given, double *out)
{
    out[0] = IN("T0") + textbook_conduction_flux(IN("q"), IN("k"), IN("a"), IN("t"), IN("x"));
    return 1;
}

/* The time at which the surface reaches T, by bisection. */
static int convected_time(const bite_given *given, double *out)
{
    double share = (IN("T") - IN("T0")) / (IN("Tinf") - IN("T0"));
    double least = 1e-6;
    double most = 1e3;
    for (int i = 0; i < 80; i++) {
        double middle = sqrt(least * most);
        if (textbook_conduction_convected(IN("h"), IN("k"), IN("a"), middle) < share) {
            least = middle;
        } else {
            most = middle;
        }
    }
    out[0] = most;
    return 1;
}

static int skin(const bite_given *given, double *out)
{
    /* depth = sqrt(4 a t) for any a and t */
    out[0] = textbook_conduction_skin(IN("d"), 0.25, IN("four"));
    return 1;
}

static int skin3(const bite_given *given, double *out)
{
    for (int i = 1; i <= 3; i++) {
        out[i - 1] = textbook_conduction_skin(IN("d"), IN("a"), bite_in_at(given, "t", i));
    }
    return 3;
}

static int lumped(const bite_given *given, double *out)
{
    double diameter = IN("D");
    out[0] = textbook_conduction_lumped(IN("h"), M_PI * diameter * diameter, IN("rho"), IN("c"),
                                        M_PI * pow(diameter, 3.0) / 6.0);
    out[1] = log(100.0) / out[0];
    return 2;
}

static int lumped_sheet(const bite_given *given, double *out)
{
    double rate = textbook_conduction_lumped(IN("h"), 1.0, IN("rho"), IN("c"), IN("d"));
    out[0] = log((IN("from") - IN("Tinf")) / (IN("to") - IN("Tinf"))) / rate;
    return 1;
}

/* The resistance of an infinitely long fin. */
static double long_resistance(const bite_given *given, double conductivity)
{
    bite_shaft shaft = {1, {{10.0, IN("D"), IN("D")}}};
    return bite_shaft_fin(&shaft, 0, conductivity, IN("h")).resistance;
}

static int long_fin(const bite_given *given, double *out)
{
    for (int i = 1; i <= 3; i++) {
        out[i - 1] = IN("theta") / long_resistance(given, bite_in_at(given, "k", i));
    }
    return 3;
}

static int long_fin_length(const bite_given *given, double *out)
{
    double area = 0.25 * M_PI * IN("D") * IN("D");
    for (int i = 1; i <= 3; i++) {
        double conductivity = bite_in_at(given, "k", i);
        out[i - 1] = 2.65 * long_resistance(given, conductivity) * conductivity *
                     area; /* 2.65/m, 1/R = k A m */
    }
    return 3;
}

static int thick(const bite_given *given, double *out)
{
    out[0] = IN("T0") + textbook_conduction_thick(IN("Q"), IN("v"), IN("k"), IN("a"), IN("x"),
                                                  hypot(IN("x"), IN("y")));
    return 1;
}

static int weiner5(const bite_given *given, double *out)
{
    for (int i = 1; i <= 5; i++) {
        out[i - 1] = bite_conduction_weiner(bite_in_at(given, "x", i));
    }
    return 5;
}

static int loewen_shear(const bite_given *given, double *out)
{
    double strain = textbook_orthogonal_strain(example_angle(given), IN("g"));
    out[0] = textbook_conduction_loewen_chip(diffusivity(given), strain, IN("v"), IN("h"));
    out[1] = out[0] * IN("tau") * strain / (IN("rho") * IN("c"));
    return 2;
}

static int band6(const bite_given *given, double *out)
{
    for (int i = 1; i <= 6; i++) {
        out[i - 1] = textbook_conduction_band(bite_in_at(given, "L", i));
    }
    return 6;
}

static int band_fast4(const bite_given *given, double *out)
{
    for (int i = 1; i <= 4; i++) {
        double peclet = bite_in_at(given, "L", i);
        out[i - 1] = textbook_conduction_band(peclet) / sqrt(4.0 * M_PI * peclet);
    }
    return 4;
}

static int effusivity4(const bite_given *given, double *out)
{
    for (int i = 1; i <= 4; i++) {
        out[i - 1] = textbook_conduction_effusivity(
            bite_in_at(given, "k", i), bite_in_at(given, "r", i), bite_in_at(given, "c", i));
    }
    return 4;
}

static int contact2(const bite_given *given, double *out)
{
    double tool = textbook_conduction_effusivity(IN("kt"), IN("rt"), IN("ct"));
    for (int i = 1; i <= 2; i++) {
        double work = textbook_conduction_effusivity(
            bite_in_at(given, "k", i), bite_in_at(given, "r", i), bite_in_at(given, "c", i));
        out[i - 1] = textbook_conduction_contact(tool, IN("Tt"), work, IN("Tw"));
    }
    return 2;
}

static int adiabatic4(const bite_given *given, double *out)
{
    for (int i = 1; i <= 4; i++) {
        out[i - 1] = 1e6 / bite_in_at(given, "C", i);
    }
    return 4;
}

static int energy_to2(const bite_given *given, double *out)
{
    for (int i = 1; i <= 2; i++) {
        out[i - 1] = bite_in_at(given, "C", i) * (bite_in_at(given, "T", i) - IN("T0"));
    }
    return 2;
}

static double held(const bite_given *given, int i)
{
    return textbook_conduction_held_stress(bite_in_at(given, "E", i), bite_in_at(given, "a", i),
                                           bite_in_at(given, "n", i));
}

static int held_stress3(const bite_given *given, double *out)
{
    for (int i = 1; i <= 3; i++) {
        out[i - 1] = held(given, i);
    }
    return 3;
}

static int step_to_stress3(const bite_given *given, double *out)
{
    for (int i = 1; i <= 3; i++) {
        out[i - 1] = bite_in_at(given, "s", i) / held(given, i);
    }
    return 3;
}

static int locked_stress2(const bite_given *given, double *out)
{
    for (int i = 1; i <= 2; i++) {
        out[i - 1] = held(given, i) * (bite_in_at(given, "T", i) - IN("T0"));
    }
    return 2;
}

/* The engine's formula in the limit of a fast source. */
static int plate_peak(const bite_given *given, double *out)
{
    out[0] =
        bite_conduction_plate_peak(IN("Q"), IN("v"), IN("d"), IN("k"), IN("k") / IN("C"), IN("y"));
    return 1;
}

static int rectangle4(const bite_given *given, double *out)
{
    for (int i = 1; i <= 4; i++) {
        out[i - 1] = bite_conduction_rectangle(bite_in_at(given, "r", i));
    }
    return 4;
}

/* The four-temperature model as in the notes: an infinitely long chip, all edge energy at the
 * interface, no recirculation, all work becomes heat. */
static bite_heat model_of(const bite_given *given)
{
    double area = 0.25 * M_PI * IN("core") * IN("core");
    double m = sqrt(4.0 * IN("hair") / (IN("kt") * IN("core")));
    bite_heat_case heat_case = {
        .speed = IN("v"),
        .chip = IN("h"),
        .depth = IN("b"),
        .teeth_chip = 1.0,
        .teeth_edge = 1.0,
        .pressure = IN("Ktc"),
        .edge = IN("Kte"),
        .volumetric = IN("rho") * IN("c"),
        .conductivity = IN("k"),
        .chip_ratio = cos(IN("phi") - IN("g")) / sin(IN("phi")),
        .rake = IN("g"),
        .heat_share = 1.0,
        .friction_share = IN("ff"),
        .sublayer_share = IN("eta"),
        .edge_born = IN("eta"),
        .transition = (double)NAN,
        .edge_radius = IN("re"),
        .flank_land = 2.0 * IN("re"),
        .skin = IN("re"),
        .tool_conductivity = IN("kt"),
        .tool_effusivity = sqrt(IN("kt") * IN("rt") * IN("ct")),
        .resistance = tanh(m * IN("L")) / (IN("kt") * area * m),
        .sink = IN("Th"),
        .start = IN("Tw"),
        .removal_rate = 1.0,
        .endless_chip = 1,
    };
    bite_heat heat;
    bite_heat_shape shape = bite_heat_shape_of(&heat_case);
    bite_heat_solve_shape(&heat_case, &shape, &heat);
    return heat;
}

static int model(const bite_given *given, double *out)
{
    bite_heat heat = model_of(given);
    out[0] = heat.shear;
    out[1] = heat.chip;
    out[2] = heat.tool;
    out[3] = heat.skin;
    out[4] = heat.film;
    out[5] = heat.power;
    out[6] = heat.to_tool;
    out[7] = heat.to_part;
    return 8;
}

static int model_dull(const bite_given *given, double *out)
{
    bite_heat heat = model_of(given);
    out[0] = heat.tool;
    out[1] = heat.film;
    out[2] = heat.skin;
    out[3] = heat.power;
    out[4] = heat.to_part;
    return 5;
}

static int model_metal(const bite_given *given, double *out)
{
    bite_heat heat = model_of(given);
    out[0] = heat.work_share;
    out[1] = heat.shear;
    out[2] = heat.tool;
    out[3] = heat.to_part / heat.power;
    return 4;
}

static int model_closure(const bite_given *given, double *out)
{
    bite_heat heat = model_of(given);
    out[0] = (heat.to_chip + heat.to_tool + heat.to_part + heat.stored) / heat.power;
    return 1;
}

const bite_check bite_checks_heat[] = {
    {"thermal_number", thermal_number, "textbook_orthogonal_slip_line"},
    {"rake_rise", rake_rise, "textbook_conduction_rake"},
    {"cook", cook, "textbook_conduction_cook"},
    {"pulse", pulse, "textbook_conduction_pulse"},
    {"flux", flux, "textbook_conduction_flux"},
    {"convected_time", convected_time, "textbook_conduction_convected"},
    {"skin", skin, "textbook_conduction_skin"},
    {"skin3", skin3, "textbook_conduction_skin"},
    {"lumped", lumped, "textbook_conduction_lumped"},
    {"lumped_sheet", lumped_sheet, "textbook_conduction_lumped"},
    {"long_fin", long_fin, "bite_shaft_fin"},
    {"long_fin_length", long_fin_length, "bite_shaft_fin"},
    {"thick", thick, "textbook_conduction_thick"},
    {"weiner5", weiner5, "bite_conduction_weiner"},
    {"loewen_shear", loewen_shear, "textbook_orthogonal_strain"},
    {"band6", band6, "textbook_conduction_band"},
    {"band_fast4", band_fast4, "textbook_conduction_band"},
    {"effusivity4", effusivity4, "textbook_conduction_effusivity"},
    {"contact2", contact2, "textbook_conduction_contact"},
    {"adiabatic4", adiabatic4, NULL},
    {"energy_to2", energy_to2, NULL},
    {"held_stress3", held_stress3, "textbook_conduction_held_stress"},
    {"step_to_stress3", step_to_stress3, "textbook_conduction_held_stress"},
    {"locked_stress2", locked_stress2, "textbook_conduction_held_stress"},
    {"plate_peak", plate_peak, "bite_conduction_plate_peak"},
    {"rectangle4", rectangle4, "bite_conduction_rectangle"},
    {"model", model, "bite_heat_solve_shape"},
    {"model_dull", model_dull, "bite_heat_solve_shape"},
    {"model_metal", model_metal, "bite_heat_solve_shape"},
    {"model_closure", model_closure, "bite_heat_solve_shape"},
};
const size_t bite_checks_heat_count = BITE_COUNT(bite_checks_heat);
