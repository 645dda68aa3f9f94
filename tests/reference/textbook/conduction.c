/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Closed forms of conduction that the engine does not use. */
#include "tests/reference/textbook/conduction.h"
#include <gsl/gsl_errno.h>
#include <gsl/gsl_sf_bessel.h>
#include <math.h>

/* exp(z) K_n(z), n 0 or 1, z > 0; 0 if it underflows. */
static double scaled_bessel(int order, double z)
{
    gsl_sf_result result = {0.0, 0.0};
    if (!(z > 0.0) || !(z < 1e300)) {
        return 0.0;
    }
    int status =
        order == 0 ? gsl_sf_bessel_K0_scaled_e(z, &result) : gsl_sf_bessel_K1_scaled_e(z, &result);
    return status == GSL_SUCCESS ? result.val : 0.0;
}

double textbook_conduction_band(double peclet)
{
    double z = 2.0 * peclet;
    return z * (scaled_bessel(0, z) + scaled_bessel(1, z)) - 1.0;
}

double textbook_conduction_effusivity(double conductivity, double density, double heat_capacity)
{
    return sqrt(conductivity * density * heat_capacity);
}

double textbook_conduction_contact(double effusivity_1, double temperature_1, double effusivity_2,
                                   double temperature_2)
{
    return (effusivity_1 * temperature_1 + effusivity_2 * temperature_2) /
           (effusivity_1 + effusivity_2);
}

double textbook_conduction_flux(double flux, double conductivity, double diffusivity, double time,
                                double depth)
{
    double spread = sqrt(diffusivity * time);
    double surface = 2.0 * flux * spread / (sqrt(M_PI) * conductivity) *
                     exp(-depth * depth / (4.0 * diffusivity * time));
    return surface - flux * depth / conductivity * erfc(depth / (2.0 * spread));
}

double textbook_conduction_pulse(double energy, double density, double heat_capacity,
                                 double diffusivity, double time, double depth)
{
    return energy / (density * heat_capacity * sqrt(M_PI * diffusivity * time)) *
           exp(-depth * depth / (4.0 * diffusivity * time));
}

double textbook_conduction_convected(double transfer, double conductivity, double diffusivity,
                                     double time)
{
    double b = transfer * sqrt(diffusivity * time) / conductivity;
    if (b > 5.0) {
        /* exp(b^2) erfc(b) by its asymptotic series, if the product would be infinity times zero */
        double i = 1.0 / (2.0 * b * b);
        return 1.0 -
               (1.0 - i * (1.0 - 3.0 * i * (1.0 - 5.0 * i * (1.0 - 7.0 * i)))) / (b * sqrt(M_PI));
    }
    return 1.0 - exp(b * b) * erfc(b);
}

double textbook_conduction_skin(double depth, double diffusivity, double time)
{
    return erf(depth / sqrt(4.0 * diffusivity * time));
}

double textbook_conduction_thick(double power, double speed, double conductivity,
                                 double diffusivity, double ahead, double distance)
{
    return power / (2.0 * M_PI * conductivity * distance) *
           exp(-speed * (ahead + distance) / (2.0 * diffusivity));
}

double textbook_conduction_lumped(double transfer, double area, double density,
                                  double heat_capacity, double volume)
{
    return transfer * area / (density * heat_capacity * volume);
}

double textbook_conduction_loewen_chip(double diffusivity, double strain, double speed, double chip)
{
    return 1.0 / (1.0 + 1.328 * sqrt(diffusivity * strain / (speed * chip)));
}

double textbook_conduction_cook(double specific_energy, double volumetric_heat, double speed,
                                double chip, double diffusivity)
{
    return 0.4 * specific_energy / volumetric_heat * pow(speed * chip / diffusivity, 0.333);
}

double textbook_conduction_rake(double power_per_width, double volumetric_heat, double speed,
                                double chip, double conductivity, double shear_angle, double rake)
{
    return 1.13 * power_per_width /
           sqrt(volumetric_heat * speed * chip * conductivity * (1.0 + tan(shear_angle - rake)));
}

double textbook_conduction_held_stress(double modulus, double expansion, double poisson)
{
    return modulus * expansion / (1.0 - poisson);
}
