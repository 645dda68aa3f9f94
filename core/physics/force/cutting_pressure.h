/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutting pressure of a material, converted once to the linear edge form dF = (K h + Ke) db. */
#ifndef BITE_PHYSICS_FORCE_CUTTING_PRESSURE_H
#define BITE_PHYSICS_FORCE_CUTTING_PRESSURE_H

#include "core/base/lane_math.h"
#include "core/physics/force/orthogonal_cutting.h"
#include "core/physics/heat/softening_time.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

typedef struct bite_pressure {
    double tangential; /* K, Pa */
    double radial;
    double axial;           /* positive lifts the part; sign of the helix included */
    double edge_tangential; /* Ke, N/m */
    double edge_radial;
    double edge_axial;
    double fracture; /* the part of edge_tangential that creates new surface and heats neither tool
                        nor skin, N/m */
} bite_pressure;

/** Properties of the material and the edge from which the pressure is computed. NaN: not known. */
typedef struct bite_pressure_inputs {
    uint32_t form;                /* a bite_pressure_form: which of the members below are read */
    double tangential;            /* Pa, K at the reference conditions, or kc1.1 of a power law */
    double radial;                /* Pa */
    double axial;                 /* Pa, for a right-hand helix */
    double edge_tangential;       /* N/m, Ke at the reference edge radius */
    double edge_radial;           /* N/m */
    double edge_axial;            /* N/m */
    double exponent;              /* mc of a power law */
    double shear_strength;        /* Pa */
    double fracture_energy;       /* J/m2 */
    double yield;                 /* Pa */
    double friction;              /* chip on rake face */
    double rake_slope;            /* 1/rad: share by which K falls for each radian of rake */
    double edge_radius;           /* m, of this tool */
    double rake;                  /* rad, of this tool */
    double helix;                 /* rad, of this tool; left-hand: negative */
    double reference_edge_radius; /* m, at which the pressures were measured */
    double reference_rake;        /* rad, the same */
    double reference_temperature; /* K, the same */
    double start_temperature;     /* K, of the stock */
    bite_softening_law softening; /* of a polymer; transition NaN: strength_curve is used */
    double shear_time;            /* s, time for which the chip is sheared: h/v */
    double heating;               /* B (1 - f)/(rho c), K per Pa of shear strength */
    const bite_curve *strength_curve; /* relative strength over temperature; no points: constant */
} bite_pressure_inputs;

/* Published ratios of a sharp tool scatter from 0.2 to 0.5; thrust passes the cutting force as h
 * falls to re (James 2014, PMMA). */
#define BITE_PRESSURE_RADIAL_SHARE 0.3
#define BITE_PRESSURE_EDGE_RADIAL_SHARE 1.2

/* Friction of the chip on the rake face where none is known, for the axial pressure alone. */
#define BITE_PRESSURE_FRICTION 0.4

/* Ploughing: Ke = 0.5 G + c sigma re; c from slip-line fields of a blunt edge, 0.4 to 1.8. */
#define BITE_PRESSURE_PLOUGHING 0.9
#define BITE_PRESSURE_TOUGHNESS_SHARE 0.5

/* The time for which a chip is sheared in the tests that the figures come from, s: 60 um at 3 m/s
 * (estimate). */
#define BITE_PRESSURE_REFERENCE_TIME 20e-6

/** By how much a curve rises between its points i - 1 and i up to a temperature: 0 below the first
 * one, all of it above the second. The curve at a temperature is its first value and all its rises.
 */
BITE_FORMULA double bite_curve_rise(const bite_curve *curve, uint32_t i, double temperature)
{
    double share = (temperature - curve->temperature[i - 1]) /
                   (curve->temperature[i] - curve->temperature[i - 1]);
    return bite_within(share, 0.0, 1.0) * (curve->value[i] - curve->value[i - 1]);
}

/** A property at a temperature: the curve, or `plain` where it has no points. */
BITE_FORMULA double bite_curve_at(const bite_curve *curve, double temperature, double plain)
{
    double value = curve->count > 0 ? curve->value[0] : plain;
    for (uint32_t i = 1; i < curve->count; i++) {
        value += bite_curve_rise(curve, i, temperature);
    }
    return value;
}

/** A cutting term and an edge term. */
typedef struct bite_pressure_terms {
    double cutting; /* Pa */
    double edge;    /* N/m */
} bite_pressure_terms;

/* Kienzle: force per unit of width for a chip of thickness h, kc1.1 h (h/1 mm)^-mc, N/m; kc1.1 in
 * Pa. */
BITE_FORMULA double bite_pressure_power_law(double pressure_at_1mm, double exponent, double chip)
{
    return pressure_at_1mm * chip * exp(-exponent * log(chip / 1e-3));
}

/** Kienzle to linear edge: chord of kc1.1 h^(1-mc) between chips of 12.5 and 50 um, the range of
 * small end mills. kc at 1 mm in Pa. */
BITE_FORMULA bite_pressure_terms bite_pressure_chord(double pressure_at_1mm, double exponent)
{
    const double thin_chip = 12.5e-6; /* m */
    const double thick_chip = 50e-6;
    double thin = bite_pressure_power_law(pressure_at_1mm, exponent, thin_chip);
    double thick = bite_pressure_power_law(pressure_at_1mm, exponent, thick_chip);
    double cutting = (thick - thin) / (thick_chip - thin_chip);
    bite_pressure_terms terms = {cutting, thin - cutting * thin_chip};
    return terms;
}

/** Factor on the cutting terms for a rake that is not that of the test, 0.5 to 2. slope: 1/rad. */
BITE_FORMULA double bite_pressure_rake_factor(double slope, double rake, double reference_rake)
{
    return bite_within(1.0 - slope * (rake - reference_rake), 0.5, 2.0);
}

/** Factor on the edge terms for another edge radius; bounded, so that they neither vanish for a
 * keen edge nor explode for a dull one. */
BITE_FORMULA double bite_pressure_edge_scale(double edge_radius, double reference)
{
    return bite_within(edge_radius / reference, 0.3, 2.0);
}

/** K of a polymer, braked by the heat of its own shear at this speed and start temperature. It
 * takes the place of the strength curve, which is the same fall measured slowly. stated: Pa;
 * heating: K per Pa; reference and margin: K from the start to where it flows, in the tests and in
 * this cut; K is as stated unless both are > 0. */
BITE_FORMULA double bite_pressure_braked(double stated, double heating, double reference,
                                         double margin)
{
    int both = (reference > 0.0) & (margin > 0.0);
    double cold = bite_softening_cold_strength(stated, heating, both ? reference : 1.0);
    double braked = bite_softening_braked(cold, heating, both ? margin : 1.0);
    return both ? braked : stated;
}

/** Terms of a material whose strength, toughness and friction are known, before softening. */
BITE_FORMULA bite_pressure_terms bite_pressure_of_strength(double shear_strength, double friction,
                                                           double reference_rake, double fracture,
                                                           double yield, double edge_radius)
{
    bite_pressure_terms terms = {shear_strength *
                                     bite_orthogonal_merchant_pressure(friction, reference_rake),
                                 fracture + BITE_PRESSURE_PLOUGHING * yield * edge_radius};
    return terms;
}

/** 1 for a right-hand helix, -1 for a left-hand one, 0 for straight flutes. */
BITE_FORMULA double bite_pressure_helix_sign(double helix)
{
    return (helix > 0.0 ? 1.0 : 0.0) - (helix < 0.0 ? 1.0 : 0.0);
}

/** Ratio of the radial to the tangential pressure. stated_radial: as stated for the material, Pa;
 * NaN: the ratio is the default one, and so the same in every draw. */
BITE_FORMULA double bite_pressure_ratio(double stated_radial, const bite_pressure *pressure)
{
    double ratio = pressure->radial / pressure->tangential;
    return stated_radial == stated_radial ? ratio : BITE_PRESSURE_RADIAL_SHARE;
}

/* Strength of the stock relative to that at the temperature of the measurement, times the effect of
 * a different rake. */
BITE_FORMULA double bite_pressure_condition(const bite_pressure_inputs *inputs)
{
    const bite_curve *curve = inputs->strength_curve;
    double factor = 1.0;
    if (isnan(inputs->softening.transition) && curve->count > 0) {
        factor = bite_curve_at(curve, inputs->start_temperature, 1.0) /
                 bite_curve_at(curve, inputs->reference_temperature, 1.0);
    }
    if (!isnan(inputs->rake_slope)) {
        factor *=
            bite_pressure_rake_factor(inputs->rake_slope, inputs->rake, inputs->reference_rake);
    }
    return factor;
}

/** The radial terms: as stated, or a share of those along the speed. NaN: not stated. */
BITE_FORMULA double bite_pressure_radial(double stated, double tangential)
{
    return bite_or(stated, BITE_PRESSURE_RADIAL_SHARE * tangential);
}

BITE_FORMULA double bite_pressure_edge_radial(double stated, double edge_tangential)
{
    return bite_or(stated, BITE_PRESSURE_EDGE_RADIAL_SHARE * edge_tangential);
}

/** Axial over tangential pressure by the oblique transformation. friction: NaN: not known. */
BITE_FORMULA double bite_pressure_oblique(double friction, double rake, double helix)
{
    return bite_orthogonal_axial_share(bite_or(friction, BITE_PRESSURE_FRICTION), rake, helix);
}

/** The axial edge term: as stated for a right-hand helix, or none. */
BITE_FORMULA double bite_pressure_edge_axial(double stated, double helix)
{
    return bite_or(bite_pressure_helix_sign(helix) * stated, 0.0);
}

/* The terms that follow from those along the speed. */
BITE_FORMULA void bite_pressure_fill_others(const bite_pressure_inputs *inputs, double scale,
                                            double factor, bite_pressure *pressure)
{
    pressure->radial = bite_pressure_radial(factor * inputs->radial, pressure->tangential);
    pressure->edge_radial =
        bite_pressure_edge_radial(scale * inputs->edge_radial, pressure->edge_tangential);
    pressure->axial = isnan(inputs->axial)
                          ? bite_pressure_oblique(inputs->friction, inputs->rake, inputs->helix) *
                                pressure->tangential
                          : bite_pressure_helix_sign(inputs->helix) * factor * inputs->axial;
    pressure->edge_axial = bite_pressure_edge_axial(scale * inputs->edge_axial, inputs->helix);
}

/** Whether the figures that this form of the pressure needs are there. */
BITE_FORMULA bool bite_pressure_known(const bite_pressure_inputs *inputs)
{
    switch (inputs->form) {
    case BITE_PRESSURE_STRENGTH:
        return !(isnan(inputs->shear_strength) || isnan(inputs->friction) ||
                 isnan(inputs->fracture_energy) || isnan(inputs->yield));
    case BITE_PRESSURE_EDGE:
        return !(isnan(inputs->tangential) || isnan(inputs->edge_tangential));
    case BITE_PRESSURE_POWER:
        return !(isnan(inputs->tangential) || isnan(inputs->exponent));
    default:
        return false;
    }
}

/* The terms along the speed, of a pressure that is known. */
BITE_FORMULA bite_pressure_terms bite_pressure_along(const bite_pressure_inputs *inputs,
                                                     double scale, double factor)
{
    const bite_softening_law *law = &inputs->softening;
    bite_pressure_terms terms = {inputs->tangential, inputs->edge_tangential};
    if (inputs->form == BITE_PRESSURE_STRENGTH) {
        terms = bite_pressure_of_strength(factor * inputs->shear_strength, inputs->friction,
                                          inputs->reference_rake,
                                          BITE_PRESSURE_TOUGHNESS_SHARE * inputs->fracture_energy,
                                          inputs->yield, inputs->edge_radius);
        if (!isnan(law->transition)) {
            double reference = bite_softening_temperature(law, BITE_PRESSURE_REFERENCE_TIME, 0.0);
            double flow = bite_softening_temperature(law, inputs->shear_time, 0.0);
            terms.cutting = bite_pressure_braked(terms.cutting, inputs->heating,
                                                 reference - inputs->reference_temperature,
                                                 flow - inputs->start_temperature);
        }
        return terms;
    }
    if (inputs->form == BITE_PRESSURE_POWER) {
        terms = bite_pressure_chord(inputs->tangential, inputs->exponent);
    }
    terms.cutting *= factor;
    terms.edge *= scale;
    return terms;
}

/** Constants at the tool's edge radius, rake and helix and at the start temperature. False: the
 * material has no cutting pressure, and *pressure is not to be used. */
static inline bool bite_pressure_from(const bite_pressure_inputs *inputs, bite_pressure *pressure)
{
    if (!bite_pressure_known(inputs)) {
        return false;
    }
    int strength = inputs->form == BITE_PRESSURE_STRENGTH;
    double factor = bite_pressure_condition(inputs);
    double scale =
        strength ? 1.0
                 : bite_pressure_edge_scale(inputs->edge_radius, inputs->reference_edge_radius);
    bite_pressure_terms terms = bite_pressure_along(inputs, scale, factor);
    pressure->tangential = terms.cutting;
    pressure->edge_tangential = terms.edge;
    pressure->fracture = strength ? BITE_PRESSURE_TOUGHNESS_SHARE * inputs->fracture_energy : 0.0;
    bite_pressure_fill_others(inputs, scale, factor, pressure);
    return true;
}

#endif
