/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of physical bounds, and the check of a grade against it. The bounds are wider than
 * anything in the trade's books: they find a slip of a unit or of a decimal point, not a doubtful
 * measurement. */
#include "core/library/material_bounds.h"
#include "core/base/error.h"
#include "core/tables/section.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define METAL (1u << BITE_METAL)
#define AMORPHOUS (1u << BITE_AMORPHOUS)
#define CRYSTALLINE (1u << BITE_CRYSTALLINE)
#define THERMOSET (1u << BITE_THERMOSET)
#define MINERAL (1u << BITE_MINERAL)
#define PLASTIC (AMORPHOUS | CRYSTALLINE)
#define ORGANIC (PLASTIC | THERMOSET)
#define ALL (METAL | ORGANIC | MINERAL)

#define CELSIUS 273.15
#define DEG 0.017453292519943295
#define PER_MINUTE (1.0 / 60.0)

/* Rows of one key together; those of a kind of substance are more narrow than those of all. */
const bite_material_bound bite_material_bound_table[] = {
    {"density", METAL, 0, 1500, 23000, "memory: magnesium-lithium alloys 1500, osmium 22600 kg/m3"},
    {"density", PLASTIC, 0, 800, 4000, "memory: polymethylpentene 830 kg/m3; filled ones to 4000"},
    {"density", THERMOSET, 0, 30, 4000, "memory: foam boards from 30 kg/m3; filled ones to 4000"},
    {"density", MINERAL, 0, 1000, 16000, "memory: porous graphite; tungsten carbide 15600 kg/m3"},
    {"heat_capacity", METAL, 0, 100, 2000, "memory: lead 130, beryllium 1830 J/kg/K"},
    {"heat_capacity", ORGANIC, 0, 500, 3500, "memory: filled plastics 600, waxes 2900 J/kg/K"},
    {"heat_capacity", MINERAL, 0, 150, 1500, "memory: tungsten carbide 200, oxides to 1100 J/kg/K"},
    {"conductivity", METAL, 0, 4, 450, "memory: titanium alloys 6, silver 429 W/m/K"},
    {"conductivity", PLASTIC, 0, 0.05, 30, "memory: unfilled 0.1 to 0.5, filled with graphite 20"},
    {"conductivity", THERMOSET, 0, 0.015, 100, "memory: foams 0.02; laminates of pitch fibre 60"},
    {"conductivity", MINERAL, 0, 0.5, 2300, "memory: ceramics 1, graphite 150, diamond 2200 W/m/K"},
    {"modulus", METAL, 0, 10e9, 600e9, "memory: lead 16, iridium 530 GPa"},
    {"modulus", PLASTIC, 0, 50e6, 60e9, "memory: soft polyethylene 0.1, carbon-filled 45 GPa"},
    {"modulus", THERMOSET, 0, 1e6, 400e9, "memory: foam boards 10 MPa; laminates along the fibre"},
    {"modulus", MINERAL, 0, 1e9, 1200e9, "memory: porous graphite 5, diamond 1100 GPa"},
    {"poisson", ALL, 1, 0, 0.5, "memory: elastic solids of positive stiffness, at most 0.5"},
    {"expansion", METAL, 0, 0, 60e-6, "memory: invar 1, zinc 30, potassium 80 um/m/K"},
    {"expansion", ORGANIC, 0, 0, 400e-6, "memory: along fibres near 0; polyethylene to 250 um/m/K"},
    {"expansion", MINERAL, 0, 0, 30e-6, "memory: oxides and graphite 1 to 14 um/m/K"},
    {"transition", ORGANIC, 0, CELSIUS - 130, CELSIUS + 450,
     "memory: rubbers -110, polyimides 410 degC"},
    {"softening", ORGANIC, 0, CELSIUS + 0, CELSIUS + 400,
     "memory: every organic polymer decomposes in air below 400 to 500 degC"},
    {"welding", ORGANIC, 0, CELSIUS + 20, CELSIUS + 500,
     "memory: every organic polymer decomposes below 500 degC"},
    {"welding", METAL, 0, CELSIUS + 30, 3700, "memory: tungsten melts at 3695 K"},
    {"service_temperature", ORGANIC, 0, 250, CELSIUS + 400, "memory: polyimides 300 degC"},
    {"annealing", PLASTIC, 0, CELSIUS + 30, CELSIUS + 350, "memory: acrylic 80, PEEK 250 degC"},
    {"relaxing", ORGANIC, 0, 200, CELSIUS + 450, "estimate: as transition"},
    {"melting", METAL, 0, 234, 3700, "memory: mercury 234, tungsten 3695 K"},
    {"melting", PLASTIC, 0, 250, CELSIUS + 450, "memory: waxes 45, PEEK 343 degC"},
    {"melting", MINERAL, 0, 600, 4300, "memory: glasses 800, carbides 4200 K"},
    {"melting", THERMOSET, 0, 250, CELSIUS + 500, "memory: they decompose instead"},
    {"tensile_yield", METAL, 0, 1e6, 4e9, "memory: pure lead 5, drawn music wire 3000 MPa"},
    {"tensile_yield", ORGANIC | MINERAL, 0, 0.1e6, 1e9, "memory: plastics 5 to 150 MPa"},
    {"tensile_strength", METAL, 0, 1e6, 5e9, "memory: pure lead 12, music wire 3000 MPa"},
    {"tensile_strength", PLASTIC | MINERAL, 0, 0.1e6, 1e9, "memory: filled plastics 300 MPa"},
    {"tensile_strength", THERMOSET, 0, 0.05e6, 4e9, "memory: foam 0.2, laminates 3000 MPa"},
    {"compressive_strength", METAL | MINERAL, 0, 1e6, 10e9, "memory: tungsten carbide 6 GPa"},
    {"compressive_strength", ORGANIC, 0, 0.05e6, 2e9, "memory: foam 0.2, laminates 1000 MPa"},
    {"hardness_ball", ALL, 0, 0.5e6, 20e9, "memory: polyethylene 20 MPa, hard metal 15 GPa"},
    {"hardness_brinell", ALL, 0, 1, 1000, "memory: ISO 6506-1 ends at 650 HBW; beyond, estimates"},
    {"water_uptake", ALL, 0, 0, 0.5, "memory: wood to 30 %, nylon to 10 %"},
    {"sheet_stress", ALL, 0, 0, 1e9, "estimate: below the strength of any sheet"},
    {"skin_stress", ORGANIC | MINERAL, 0, 0, 200e6, "estimate: above it the sheet would break"},
    {"skin_stress", METAL, 0, 0, 1e9, "memory: cold-rolled steel 300 MPa"},
    {"crazing", ALL, 0, 0.1e6, 200e6, "memory: amorphous plastics 3 to 40 MPa"},
    {"chip_edge", ALL, 0, 1e-6, 5e-3, "estimate: (K1c/strength)^2 of brittle solids, 1 um to 1 mm"},
    {"refraction", ALL, 0, 1.2, 2.8, "memory: fluoropolymers 1.3, diamond 2.42"},
    {"bond_adhesion", ALL, 0, 0.01, 2, "estimate: a share of the strength on metal"},
    {"chip_ratio", ALL, 0, 1, 10, "memory: theory of the shear plane, shear angle of 5 degrees"},
    {"heat_share", ALL, 0, 0.1, 1, "memory: Taylor and Quinney's share is at most 1"},
    {"friction_share", ALL, 0, 0, 0.8, "estimate: shear takes a fifth of the work at least"},
    {"sublayer_share", ALL, 0, 0.01, 1, "estimate: a share"},
    {"skin_depth", ALL, 0, 0.1, 10, "estimate: the ploughed skin is of the size of the edge"},
    {"pressure_t", METAL, 0, 50e6, 12e9,
     "memory: lead 100 MPa; thin chips of nickel alloys 10 GPa"},
    {"pressure_t", ORGANIC, 0, 1e6, 5e9, "estimate: ten times the strength of laminates"},
    {"pressure_t", MINERAL, 0, 1e6, 20e9, "estimate: up to the hardness of ceramics"},
    {"pressure_r", ALL, 0, 0, 12e9, "estimate: as pressure_t"},
    {"pressure_a", ALL, 0, 0, 12e9, "estimate: as pressure_t"},
    {"edge_t", ALL, 0, 0, 0.5e6, "memory: worn edges in hard steel 200 N/mm"},
    {"edge_r", ALL, 0, 0, 1e6, "memory: worn edges in hard steel 400 N/mm"},
    {"edge_a", ALL, 0, 0, 1e6, "estimate: as edge_r"},
    {"edge_reference", ALL, 0, 0.1e-6, 200e-6, "memory: diamond 0.1, honed inserts 100 um"},
    {"pressure_exponent", ALL, 0, 0, 0.8, "memory: Kienzle exponents 0.1 to 0.5"},
    {"pressure_rake", ALL, 0, 0, 0.05 / DEG, "memory: 1 to 2 % a degree"},
    {"pressure_rake_at", ALL, 0, -30 * DEG, 40 * DEG, "common-practice"},
    {"pressure_temperature", ALL, 0, 200, 800, "estimate: a temperature of tests"},
    {"shear_strength", METAL, 0, 5e6, 3e9, "memory: lead 10 MPa, hard steel at rate 1500 MPa"},
    {"shear_strength", ORGANIC | MINERAL, 0, 0.1e6, 2e9, "estimate: as tensile strength at rate"},
    {"yield", ALL, 0, 0.1e6, 5e9, "estimate: hard steel at rate 3 GPa"},
    {"friction", ALL, 0, 0.01, 2, "memory: PTFE 0.05; metals without a film above 1"},
    {"fracture_energy", METAL, 0, 100, 1e6, "memory: tough steel 200 kJ/m2"},
    {"fracture_energy", ORGANIC | MINERAL, 0, 1, 1e5,
     "memory: glass 10, tough plastics 10000 J/m2"},
    {"minimum_chip", ALL, 0, 0.01, 2, "memory: published 0.1 to 0.7 of the edge radius"},
    {"hardening", ALL, 0, 0, 2, "estimate: the range of this library's scale"},
    {"wlf_c1", ALL, 0, 5, 60, "memory: Ferry's tables of viscoelastic constants"},
    {"wlf_c2", ALL, 0, 20, 200, "memory: Ferry's tables of viscoelastic constants"},
    {"tack_decades", ALL, 0, 0, 10, "estimate: the range of this library's scale"},
    {"packing_limit", ALL, 0, 0.05, 10, "estimate: depths that no chart reaches"},
    {"charted_chip", ALL, 0, 1e-6, 5e-3, "estimate: beyond any chart at 6.35 mm"},
    {"charted_exponent", ALL, 0, 0, 2, "estimate: charts have 0.5 to 1"},
    {"taylor_speed", ALL, 0, 0.05, 600, "memory: nickel alloys 50 m/min; plastics thousands"},
    {"taylor_exponent", ALL, 0, 0.05, 1, "memory: 0.1 of high-speed steel to 0.6 of ceramics"},
    {"speed_carbide", ALL, 0, 1 * PER_MINUTE, 6000 * PER_MINUTE, "common-practice"},
    {"speed_hss", ALL, 0, 1 * PER_MINUTE, 6000 * PER_MINUTE, "common-practice"},
    {"speed_diamond", ALL, 0, 1 * PER_MINUTE, 10000 * PER_MINUTE, "common-practice"},
};
const size_t bite_material_bound_count =
    sizeof bite_material_bound_table / sizeof *bite_material_bound_table;

const bite_material_order bite_material_order_table[] = {
    {"softening", "transition", PLASTIC,
     "common-practice: a plastic keeps its shape up to its glass transition or melting point at "
     "most"},
    {"transition", "melting", ALL,
     "common-practice: a solid passes its glass transition before it melts"},
    {"softening", "melting", ALL, "common-practice: a solid softens before it melts"},
    {"welding", "melting", METAL, "common-practice: chips of metals stick before they melt"},
    {"service_temperature", "transition", PLASTIC, "common-practice: parts are used below it"},
    {"annealing", "transition", AMORPHOUS, "common-practice: above it the part would deform"},
    {"annealing", "melting", ALL, "common-practice"},
    {"relaxing", "transition", PLASTIC, "common-practice: stress relaxes before the transition"},
    {"tensile_yield", "tensile_strength", METAL,
     "common-practice: a metal yields before it breaks"},
    {"crazing", "tensile_strength", ALL, "common-practice: plastics craze below their strength"},
    {"tensile_strength", "modulus", ALL,
     "common-practice: no solid bears a strain of 1 elastically"},
    {"tensile_yield", "modulus", ALL, "common-practice: no solid bears a strain of 1 elastically"},
    {"compressive_strength", "modulus", ALL,
     "common-practice: no solid bears a strain of 1 elastically"},
};
const size_t bite_material_order_count =
    sizeof bite_material_order_table / sizeof *bite_material_order_table;

/* The bits of a grade's substance; one that states none has all of them. */
static uint32_t substances_of(const bite_field_value *substance)
{
    return substance == NULL ? ALL : 1u << substance->word;
}

static const char *noun_of(const bite_field_value *substance)
{
    return substance == NULL ? "a material" : substance->field->words[substance->word];
}

static void write_value(double si, const bite_field_value *value, char *text, size_t size)
{
    size_t length = 0;
    if (bite_quantity_write(si, (bite_kind)value->field->kind, BITE_METRIC, text, size, &length,
                            NULL) != BITE_OK) {
        (void)snprintf(text, size, "%g", si);
    }
}

/* A value, or the end of its band that is beyond the bounds. */
static double beyond(const bite_field_value *value, const bite_material_bound *bound)
{
    const double ends[] = {value->value, value->low, value->high};
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        if (!(ends[i] >= bound->least && ends[i] <= bound->most) ||
            (bound->above && !(ends[i] > bound->least))) {
            return ends[i];
        }
    }
    return (double)NAN;
}

static bite_status refuse_bound(const bite_field_value *value, const bite_field_value *substance,
                                const bite_material_bound *bound, double wrong, bite_error *error)
{
    char is[48];
    char least[48];
    char most[48];
    write_value(wrong, value, is, sizeof is);
    write_value(bound->least, value, least, sizeof least);
    write_value(bound->most, value, most, sizeof most);
    bite_error_set(error, BITE_BAD_FILE, "%s of %s is beyond what %s can have: %s%s to %s (%.90s)",
                   value->field->name, is, noun_of(substance), bound->above ? "above " : "", least,
                   most, bound->source);
    bite_error_hint(error, "check the unit, the decimal point, and `substance`");
    return BITE_BAD_FILE;
}

/* One bound. *at: the value that is beyond it. */
static bite_status check_bound(const bite_section *grade, const bite_field_value *substance,
                               const bite_material_bound *bound, const bite_field_value **at,
                               bite_error *error)
{
    uint32_t bits = substances_of(substance);
    const bite_field_value *value =
        (bound->substances & bits) == bits ? bite_section_value(grade, bound->key) : NULL;
    double wrong = value == NULL ? (double)NAN : beyond(value, bound);
    if (isnan(wrong)) {
        return BITE_OK;
    }
    *at = value;
    return refuse_bound(value, substance, bound, wrong, error);
}

static bite_status check_order(const bite_section *grade, const bite_field_value *substance,
                               const bite_material_order *order, const bite_field_value **at,
                               const bite_field_value **other, bite_error *error)
{
    uint32_t bits = substances_of(substance);
    const bite_field_value *lower = bite_section_value(grade, order->lower);
    const bite_field_value *upper = bite_section_value(grade, order->upper);
    char low[48];
    char high[48];
    if ((order->substances & bits) != bits || lower == NULL || upper == NULL ||
        !(lower->value > upper->value)) {
        return BITE_OK;
    }
    write_value(lower->value, lower, low, sizeof low);
    write_value(upper->value, upper, high, sizeof high);
    bite_error_set(error, BITE_BAD_FILE, "%s of %s is above %s of %s, which cannot be (%.110s)",
                   order->lower, low, order->upper, high, order->source);
    bite_error_hint(error, "check both figures and their units");
    *at = lower;
    *other = upper;
    return BITE_BAD_FILE;
}

bite_status bite_material_bounds_next(const bite_section *grade, size_t *from,
                                      const bite_field_value **at, const bite_field_value **other,
                                      bite_error *error)
{
    const bite_field_value *substance = bite_section_value(grade, "substance");
    bite_status status = BITE_OK;
    while (status == BITE_OK && *from < bite_material_bound_count + bite_material_order_count) {
        size_t i = (*from)++;
        if (i >= bite_material_bound_count) {
            status = check_order(grade, substance,
                                 &bite_material_order_table[i - bite_material_bound_count], at,
                                 other, error);
            continue;
        }
        status = check_bound(grade, substance, &bite_material_bound_table[i], at, error);
        if (status != BITE_OK) {
            *other = substance == NULL ? *at : substance;
        }
    }
    return status;
}

bite_status bite_material_bounds_check(const bite_section *grade, const bite_field_value **at,
                                       const bite_field_value **other, bite_error *error)
{
    size_t from = 0;
    return bite_material_bounds_next(grade, &from, at, other, error);
}
