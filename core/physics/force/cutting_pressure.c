/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutting pressure of a material, converted once to the linear edge form, so that the size
 * effect is never counted twice. */
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/force/orthogonal_cutting.h"
#include <math.h>

/* Chip thicknesses between which a power law is replaced by its chord: the range of small end
 * mills. */
static const double chord_thin = 12.5e-6; /* m */
static const double chord_thick = 50e-6;

/* Bounds of the factor by which edge terms grow with the edge radius: they neither vanish for a
 * keen edge nor explode for a dull one. */
static const double edge_scale_least = 0.3;
static const double edge_scale_most = 2.0;

/* Published ratios of a sharp tool scatter from 0.2 to 0.5; thrust passes the cutting force as h
 * falls to re (James 2014, PMMA). */
static const double radial_share = 0.3;
static const double edge_radial_share = 1.2;

/* Ploughing: Ke = 0.5 G + c sigma re; c from slip-line fields of a blunt edge, 0.4 to 1.8. */
static const double ploughing = 0.9;
static const double toughness_share = 0.5;

/* Kienzle: force per unit of width for a chip of thickness h, kc1.1 h (h/1 mm)^-mc, N/m; kc1.1 in
 * Pa. */
static double power_law(double pressure_at_1mm, double exponent, double chip)
{
    return pressure_at_1mm * chip * pow(chip / 1e-3, -exponent);
}

/* Kienzle to linear edge: chord of kc1.1 h^(1-mc) between chips of 12.5 and 50 um. kc at 1 mm in
 * Pa; *pressure Pa, *edge N/m. */
static void chord(double pressure_at_1mm, double exponent, double *pressure, double *edge)
{
    double thin = power_law(pressure_at_1mm, exponent, chord_thin);
    double thick = power_law(pressure_at_1mm, exponent, chord_thick);
    *pressure = (thick - thin) / (chord_thick - chord_thin);
    *edge = thin - *pressure * chord_thin;
}

double bite_curve_at(const bite_curve *curve, double temperature, double plain)
{
    uint32_t count = curve->count;
    if (count == 0) {
        return plain;
    }
    if (temperature <= curve->temperature[0]) {
        return curve->value[0];
    }
    for (uint32_t i = 1; i < count; i++) {
        if (temperature <= curve->temperature[i]) {
            double share = (temperature - curve->temperature[i - 1]) /
                           (curve->temperature[i] - curve->temperature[i - 1]);
            return curve->value[i - 1] + share * (curve->value[i] - curve->value[i - 1]);
        }
    }
    return curve->value[count - 1];
}

static double clamp(double value, double low, double high)
{
    return fmin(fmax(value, low), high);
}

/* Strength of the stock relative to that at the temperature of the measurement, times the effect of
 * a different rake. */
static double condition(const bite_pressure_inputs *inputs)
{
    double factor = 1.0;
    if (isnan(inputs->softening.transition) && inputs->strength_curve->count > 0) {
        factor = bite_curve_at(inputs->strength_curve, inputs->start_temperature, 1.0) /
                 bite_curve_at(inputs->strength_curve, inputs->reference_temperature, 1.0);
    }
    if (!isnan(inputs->rake_slope)) {
        factor *=
            clamp(1.0 - inputs->rake_slope * (inputs->rake - inputs->reference_rake), 0.5, 2.0);
    }
    return factor;
}

/* Axial over tangential pressure by the oblique transformation. */
static double oblique_share(const bite_pressure_inputs *inputs)
{
    double friction = isnan(inputs->friction) ? 0.4 : inputs->friction;
    return bite_orthogonal_axial_share(atan(friction), inputs->rake, inputs->helix);
}

bite_pressure bite_pressure_thicker(const bite_pressure *pressure, double factor)
{
    bite_pressure thicker = *pressure;
    thicker.tangential *= factor;
    thicker.radial *= factor;
    thicker.axial *= factor;
    return thicker;
}

double bite_pressure_ratio(double stated_radial, const bite_pressure *pressure)
{
    return isnan(stated_radial) ? radial_share : pressure->radial / pressure->tangential;
}

static double or_default(double stated, double share, double base)
{
    return isnan(stated) ? share * base : stated;
}

/* The time for which a chip is sheared in the tests that the figures come from, s: 60 um at 3 m/s
 * (estimate). */
static const double reference_shear_time = 20e-6;

/* K of a polymer, braked by the heat of its own shear at this speed and start temperature. It takes
 * the place of the strength curve, which is the same fall measured slowly. */
static double braked(const bite_pressure_inputs *inputs, double stated)
{
    const bite_softening_law *law = &inputs->softening;
    double reference =
        bite_softening_temperature(law, reference_shear_time, 0.0) - inputs->reference_temperature;
    double margin =
        bite_softening_temperature(law, inputs->shear_time, 0.0) - inputs->start_temperature;
    if (!(reference > 0.0 && margin > 0.0)) {
        return stated;
    }
    double cold = bite_softening_cold_strength(stated, inputs->heating, reference);
    return bite_softening_braked(cold, inputs->heating, margin);
}

static void fill_others(const bite_pressure_inputs *inputs, double scale, double factor,
                        bite_pressure *pressure)
{
    double helix_sign = inputs->helix > 0.0 ? 1.0 : inputs->helix < 0.0 ? -1.0 : 0.0;
    pressure->radial =
        isnan(inputs->radial) ? radial_share * pressure->tangential : factor * inputs->radial;
    pressure->edge_radial =
        or_default(scale * inputs->edge_radial, edge_radial_share, pressure->edge_tangential);
    pressure->axial = isnan(inputs->axial) ? oblique_share(inputs) * pressure->tangential
                                           : factor * helix_sign * inputs->axial;
    pressure->edge_axial =
        isnan(inputs->edge_axial) ? 0.0 : helix_sign * scale * inputs->edge_axial;
}

static bool from_strength(const bite_pressure_inputs *inputs, double factor,
                          bite_pressure *pressure)
{
    if (isnan(inputs->shear_strength) || isnan(inputs->friction) ||
        isnan(inputs->fracture_energy) || isnan(inputs->yield)) {
        return false;
    }
    pressure->tangential = braked(
        inputs, factor * inputs->shear_strength *
                    bite_orthogonal_merchant_pressure(inputs->friction, inputs->reference_rake));
    pressure->fracture = toughness_share * inputs->fracture_energy;
    pressure->edge_tangential =
        pressure->fracture + ploughing * inputs->yield * inputs->edge_radius;
    fill_others(inputs, 1.0, factor, pressure);
    return true;
}

bool bite_pressure_from(const bite_pressure_inputs *inputs, bite_pressure *pressure)
{
    double factor = condition(inputs);
    pressure->fracture = 0.0;
    double scale = clamp(inputs->edge_radius / inputs->reference_edge_radius, edge_scale_least,
                         edge_scale_most);
    switch (inputs->form) {
    case BITE_PRESSURE_STRENGTH:
        return from_strength(inputs, factor, pressure);
    case BITE_PRESSURE_EDGE:
        pressure->tangential = inputs->tangential;
        pressure->edge_tangential = inputs->edge_tangential;
        break;
    case BITE_PRESSURE_POWER:
        chord(inputs->tangential, inputs->exponent, &pressure->tangential,
              &pressure->edge_tangential);
        break;
    default:
        return false;
    }
    if (isnan(pressure->tangential) || isnan(pressure->edge_tangential)) {
        return false;
    }
    pressure->tangential *= factor;
    pressure->edge_tangential *= scale;
    fill_others(inputs, scale, factor, pressure);
    return true;
}
