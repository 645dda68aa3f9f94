/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of units and kinds, and their lookup. Inch, pound and horsepower are exact by
 * definition (1959 agreement; 1 hp = 550 ft lbf/s). */
#include "core/units/unit_table.h"
#include "core/base/text.h"
#include <math.h>
#include <string.h>

#define INCH 0.0254
#define FOOT 0.3048
#define POUND 0.45359237
#define GRAVITY 9.80665
#define LBF (POUND * GRAVITY)
#define RAD_PER_DEG 0.017453292519943295

const bite_unit bite_unit_table[] = {
    {"mm", BITE_KIND_LENGTH, 1e-3, 0},
    {"um", BITE_KIND_LENGTH, 1e-6, 0},
    {"\xc2\xb5m", BITE_KIND_LENGTH, 1e-6, 0},
    {"\xce\xbcm", BITE_KIND_LENGTH, 1e-6, 0},
    {"nm", BITE_KIND_LENGTH, 1e-9, 0},
    {"cm", BITE_KIND_LENGTH, 1e-2, 0},
    {"m", BITE_KIND_LENGTH, 1, 0},
    {"in", BITE_KIND_LENGTH, INCH, 0},
    {"inch", BITE_KIND_LENGTH, INCH, 0},
    {"\"", BITE_KIND_LENGTH, INCH, 0},
    {"thou", BITE_KIND_LENGTH, INCH * 1e-3, 0},
    {"mil", BITE_KIND_LENGTH, INCH * 1e-3, 0},
    {"tenth", BITE_KIND_LENGTH, INCH * 1e-4, 0},
    {"tenths", BITE_KIND_LENGTH, INCH * 1e-4, 0},
    {"uin", BITE_KIND_LENGTH, INCH * 1e-6, 0},
    {"ft", BITE_KIND_LENGTH, FOOT, 0},

    {"deg", BITE_KIND_ANGLE, RAD_PER_DEG, 0},
    {"\xc2\xb0", BITE_KIND_ANGLE, RAD_PER_DEG, 0},
    {"rad", BITE_KIND_ANGLE, 1, 0},

    {"rpm", BITE_KIND_ROTATION, 1.0 / 60.0, 0},
    {"1/min", BITE_KIND_ROTATION, 1.0 / 60.0, 0},
    {"hz", BITE_KIND_ROTATION, 1, 0},
    {"1/s", BITE_KIND_ROTATION, 1, 0},
    {"rev/s", BITE_KIND_ROTATION, 1, 0},

    {"mm/min", BITE_KIND_SPEED, 1e-3 / 60.0, 0},
    {"mm/s", BITE_KIND_SPEED, 1e-3, 0},
    {"m/min", BITE_KIND_SPEED, 1.0 / 60.0, 0},
    {"m/s", BITE_KIND_SPEED, 1, 0},
    {"in/min", BITE_KIND_SPEED, INCH / 60.0, 0},
    {"ipm", BITE_KIND_SPEED, INCH / 60.0, 0},
    {"in/s", BITE_KIND_SPEED, INCH, 0},
    {"ft/min", BITE_KIND_SPEED, FOOT / 60.0, 0},

    {"m/min", BITE_KIND_SURFACE_SPEED, 1.0 / 60.0, 0},
    {"m/s", BITE_KIND_SURFACE_SPEED, 1, 0},
    {"sfm", BITE_KIND_SURFACE_SPEED, FOOT / 60.0, 0},
    {"fpm", BITE_KIND_SURFACE_SPEED, FOOT / 60.0, 0},
    {"ft/min", BITE_KIND_SURFACE_SPEED, FOOT / 60.0, 0},

    {"mm/tooth", BITE_KIND_TOOTH_FEED, 1e-3, 0},
    {"um/tooth", BITE_KIND_TOOTH_FEED, 1e-6, 0},
    {"in/tooth", BITE_KIND_TOOTH_FEED, INCH, 0},
    {"ipt", BITE_KIND_TOOTH_FEED, INCH, 0},
    {"thou/tooth", BITE_KIND_TOOTH_FEED, INCH * 1e-3, 0},
    {"mil/tooth", BITE_KIND_TOOTH_FEED, INCH * 1e-3, 0},

    {"degc", BITE_KIND_TEMPERATURE, 1, 273.15},
    {"\xc2\xb0"
     "c",
     BITE_KIND_TEMPERATURE, 1, 273.15},
    {"degf", BITE_KIND_TEMPERATURE, 1.0 / 1.8, 459.67 / 1.8},
    {"\xc2\xb0"
     "f",
     BITE_KIND_TEMPERATURE, 1.0 / 1.8, 459.67 / 1.8},
    {"k", BITE_KIND_TEMPERATURE, 1, 0},

    {"k", BITE_KIND_RISE, 1, 0},
    {"degc", BITE_KIND_RISE, 1, 0},
    {"degf", BITE_KIND_RISE, 1.0 / 1.8, 0},

    {"N", BITE_KIND_FORCE, 1, 0},
    {"kN", BITE_KIND_FORCE, 1e3, 0},
    {"mN", BITE_KIND_FORCE, 1e-3, 0},
    {"lbf", BITE_KIND_FORCE, LBF, 0},

    {"Pa", BITE_KIND_STRESS, 1, 0},
    {"kPa", BITE_KIND_STRESS, 1e3, 0},
    {"MPa", BITE_KIND_STRESS, 1e6, 0},
    {"GPa", BITE_KIND_STRESS, 1e9, 0},
    {"N/mm2", BITE_KIND_STRESS, 1e6, 0},
    {"psi", BITE_KIND_STRESS, LBF / (INCH * INCH), 0},
    {"ksi", BITE_KIND_STRESS, 1e3 * LBF / (INCH * INCH), 0},

    {"W", BITE_KIND_POWER, 1, 0},
    {"kW", BITE_KIND_POWER, 1e3, 0},
    {"hp", BITE_KIND_POWER, 550.0 * FOOT *LBF, 0},

    {"Nm", BITE_KIND_TORQUE, 1, 0},
    {"N m", BITE_KIND_TORQUE, 1, 0},
    {"Nmm", BITE_KIND_TORQUE, 1e-3, 0},
    {"mNm", BITE_KIND_TORQUE, 1e-3, 0},
    {"in-lbf", BITE_KIND_TORQUE, INCH *LBF, 0},
    {"lbf-in", BITE_KIND_TORQUE, INCH *LBF, 0},
    {"ozf-in", BITE_KIND_TORQUE, INCH *LBF / 16.0, 0},

    {"s", BITE_KIND_TIME, 1, 0},
    {"min", BITE_KIND_TIME, 60, 0},
    {"h", BITE_KIND_TIME, 3600, 0},

    {"%", BITE_KIND_FRACTION, 1e-2, 0},

    {"m2", BITE_KIND_AREA, 1, 0},
    {"cm2", BITE_KIND_AREA, 1e-4, 0},
    {"mm2", BITE_KIND_AREA, 1e-6, 0},
    {"in2", BITE_KIND_AREA, INCH *INCH, 0},

    {"m/s2", BITE_KIND_ACCELERATION, 1, 0},
    {"mm/s2", BITE_KIND_ACCELERATION, 1e-3, 0},
    {"in/s2", BITE_KIND_ACCELERATION, INCH, 0},

    {"N/um", BITE_KIND_STIFFNESS, 1e6, 0},
    {"N/mm", BITE_KIND_STIFFNESS, 1e3, 0},
    {"N/m", BITE_KIND_STIFFNESS, 1, 0},
    {"lbf/in", BITE_KIND_STIFFNESS, LBF / INCH, 0},

    {"N/mm", BITE_KIND_EDGE_FORCE, 1e3, 0},
    {"N/m", BITE_KIND_EDGE_FORCE, 1, 0},
    {"kN/m", BITE_KIND_EDGE_FORCE, 1e3, 0},
    {"lbf/in", BITE_KIND_EDGE_FORCE, LBF / INCH, 0},

    {"J/m2", BITE_KIND_SURFACE_ENERGY, 1, 0},
    {"kJ/m2", BITE_KIND_SURFACE_ENERGY, 1e3, 0},

    {"kg/m3", BITE_KIND_DENSITY, 1, 0},
    {"g/cm3", BITE_KIND_DENSITY, 1e3, 0},
    {"lb/in3", BITE_KIND_DENSITY, POUND / (INCH * INCH * INCH), 0},

    {"J/kg/K", BITE_KIND_HEAT_CAPACITY, 1, 0},
    {"J/g/K", BITE_KIND_HEAT_CAPACITY, 1e3, 0},
    {"kJ/kg/K", BITE_KIND_HEAT_CAPACITY, 1e3, 0},

    {"W/m/K", BITE_KIND_CONDUCTIVITY, 1, 0},

    {"1/K", BITE_KIND_EXPANSION, 1, 0},
    {"um/m/K", BITE_KIND_EXPANSION, 1e-6, 0},

    {"W/m2/K", BITE_KIND_HEAT_TRANSFER, 1, 0},

    {"mm3/s", BITE_KIND_REMOVAL_RATE, 1e-9, 0},
    {"mm3/min", BITE_KIND_REMOVAL_RATE, 1e-9 / 60.0, 0},
    {"cm3/min", BITE_KIND_REMOVAL_RATE, 1e-6 / 60.0, 0},
    {"in3/min", BITE_KIND_REMOVAL_RATE, INCH *INCH *INCH / 60.0, 0},
    {"m3/s", BITE_KIND_REMOVAL_RATE, 1, 0},

    {"J/mm3", BITE_KIND_SPECIFIC_ENERGY, 1e9, 0},
    {"J/m3", BITE_KIND_SPECIFIC_ENERGY, 1, 0},

    {"Hz", BITE_KIND_FREQUENCY, 1, 0},
    {"kHz", BITE_KIND_FREQUENCY, 1e3, 0},
    {"1/deg", BITE_KIND_PER_ANGLE, 1.0 / RAD_PER_DEG, 0},
    {"1/rad", BITE_KIND_PER_ANGLE, 1, 0},
};
const size_t bite_unit_table_count = sizeof bite_unit_table / sizeof *bite_unit_table;

/* The bounds are beyond anything a shop enters: they catch mistakes, not bad practice. */
const bite_kind_entry bite_kind_table[BITE_KIND_COUNT] = {
    [BITE_KIND_NUMBER] = {"a plain number", "", -1e12, 1e12, 0, "", ""},
    [BITE_KIND_LENGTH] = {"a length", "m", 0, 100, 1, "mm", "in"},
    [BITE_KIND_ANGLE] = {"an angle", "rad", -6.3, 6.3, 1, "deg", "rad"},
    [BITE_KIND_ROTATION] = {"a spindle speed", "1/s", 0, 20000, 1, "rpm", "Hz"},
    [BITE_KIND_SPEED] = {"a feed rate", "m/s", 0, 10, 1, "mm/min", "in/min"},
    [BITE_KIND_SURFACE_SPEED] = {"a surface speed", "m/s", 0, 500, 1, "m/min", "sfm"},
    [BITE_KIND_TOOTH_FEED] = {"a feed per tooth", "m", 0, 0.01, 1, "mm/tooth", "in/tooth"},
    [BITE_KIND_TEMPERATURE] = {"a temperature", "K", 0, 5000, 1, "degC", "degF"},
    [BITE_KIND_RISE] = {"a temperature rise", "K", -5000, 5000, 1, "K", "degF"},
    [BITE_KIND_FORCE] = {"a force", "N", -1e6, 1e6, 1, "N", "lbf"},
    [BITE_KIND_STRESS] = {"a stress", "Pa", 0, 1e13, 1, "MPa", "ksi"},
    [BITE_KIND_POWER] = {"a power", "W", 0, 1e6, 1, "W", "hp"},
    [BITE_KIND_TORQUE] = {"a torque", "N m", 0, 1e5, 1, "Nm", "in-lbf"},
    [BITE_KIND_TIME] = {"a time", "s", 0, 1e9, 1, "s", "min"},
    [BITE_KIND_FRACTION] = {"a fraction", "", -10, 10, 0, "%", "%"},
    [BITE_KIND_AREA] = {"an area", "m2", 0, 1e4, 1, "mm2", "in2"},
    [BITE_KIND_ACCELERATION] = {"an acceleration", "m/s2", 0, 1e4, 1, "m/s2", "mm/s2"},
    [BITE_KIND_STIFFNESS] = {"a stiffness", "N/m", 0, 1e12, 1, "N/um", "lbf/in"},
    [BITE_KIND_EDGE_FORCE] = {"a force per length of edge", "N/m", 0, 1e7, 1, "N/mm", "lbf/in"},
    [BITE_KIND_SURFACE_ENERGY] = {"an energy per area", "J/m2", 0, 1e8, 1, "J/m2", "kJ/m2"},
    [BITE_KIND_DENSITY] = {"a density", "kg/m3", 0, 1e5, 1, "kg/m3", "g/cm3"},
    [BITE_KIND_HEAT_CAPACITY] = {"a heat capacity", "J/kg/K", 0, 1e5, 1, "J/kg/K", "J/g/K"},
    [BITE_KIND_CONDUCTIVITY] = {"a thermal conductivity", "W/m/K", 0, 1e4, 1, "W/m/K", "W/m/K"},
    [BITE_KIND_EXPANSION] = {"a thermal expansion", "1/K", -1, 1, 1, "um/m/K", "1/K"},
    [BITE_KIND_HEAT_TRANSFER] = {"a heat transfer coefficient", "W/m2/K", 0, 1e7, 1, "W/m2/K",
                                 "W/m2/K"},
    [BITE_KIND_REMOVAL_RATE] = {"a removal rate", "m3/s", 0, 1, 1, "cm3/min", "in3/min"},
    [BITE_KIND_SPECIFIC_ENERGY] = {"a specific energy", "J/m3", 0, 1e14, 1, "J/mm3", "J/m3"},
    [BITE_KIND_FREQUENCY] = {"a frequency", "Hz", 0, 1e7, 1, "Hz", "kHz"},
    [BITE_KIND_PER_ANGLE] = {"a change per angle", "1/rad", -1e4, 1e4, 1, "1/deg", "1/rad"},
};

#define M BITE_METRIC
#define I BITE_INCH
const bite_shop_unit bite_shop_unit_table[] = {
    {BITE_KIND_NUMBER, M, 0, "", 4},
    {BITE_KIND_NUMBER, I, 0, "", 4},
    {BITE_KIND_LENGTH, M, 0.1e-3, "mm", 5},
    {BITE_KIND_LENGTH, M, 0, "um", 4},
    {BITE_KIND_LENGTH, I, 0.01 * INCH, "in", 4},
    {BITE_KIND_LENGTH, I, 0.01e-3 * INCH, "thou", 4},
    {BITE_KIND_LENGTH, I, 0, "uin", 4},
    {BITE_KIND_ANGLE, M, 0, "deg", 4},
    {BITE_KIND_ANGLE, I, 0, "deg", 4},
    {BITE_KIND_ROTATION, M, 0, "rpm", 6},
    {BITE_KIND_ROTATION, I, 0, "rpm", 6},
    {BITE_KIND_SPEED, M, 0, "mm/min", 5},
    {BITE_KIND_SPEED, I, 0, "in/min", 5},
    {BITE_KIND_SURFACE_SPEED, M, 0, "m/min", 4},
    {BITE_KIND_SURFACE_SPEED, I, 0, "sfm", 4},
    {BITE_KIND_TOOTH_FEED, M, 0.1e-3, "mm/tooth", 4},
    {BITE_KIND_TOOTH_FEED, M, 0, "um/tooth", 4},
    {BITE_KIND_TOOTH_FEED, I, 0, "thou/tooth", 4},
    {BITE_KIND_TEMPERATURE, M, 0, "degC", 3},
    {BITE_KIND_TEMPERATURE, I, 0, "degF", 3},
    {BITE_KIND_RISE, M, 0, "K", 3},
    {BITE_KIND_RISE, I, 0, "degF", 3},
    {BITE_KIND_FORCE, M, 0, "N", 4},
    {BITE_KIND_FORCE, I, 0, "lbf", 4},
    {BITE_KIND_STRESS, M, 1e9, "GPa", 4},
    {BITE_KIND_STRESS, M, 0, "MPa", 4},
    {BITE_KIND_STRESS, I, 0, "ksi", 4},
    {BITE_KIND_POWER, M, 1e3, "kW", 4},
    {BITE_KIND_POWER, M, 0, "W", 4},
    {BITE_KIND_POWER, I, 0, "hp", 4},
    {BITE_KIND_TORQUE, M, 1, "Nm", 4},
    {BITE_KIND_TORQUE, M, 0, "mNm", 4},
    {BITE_KIND_TORQUE, I, 0, "in-lbf", 4},
    {BITE_KIND_TIME, M, 120, "min", 4},
    {BITE_KIND_TIME, M, 0, "s", 4},
    {BITE_KIND_TIME, I, 120, "min", 4},
    {BITE_KIND_TIME, I, 0, "s", 4},
    {BITE_KIND_FRACTION, M, 0, "%", 4},
    {BITE_KIND_FRACTION, I, 0, "%", 4},
    {BITE_KIND_AREA, M, 0, "mm2", 4},
    {BITE_KIND_AREA, I, 0, "in2", 4},
    {BITE_KIND_ACCELERATION, M, 0, "m/s2", 4},
    {BITE_KIND_ACCELERATION, I, 0, "in/s2", 4},
    {BITE_KIND_STIFFNESS, M, 0, "N/um", 4},
    {BITE_KIND_STIFFNESS, I, 0, "lbf/in", 4},
    {BITE_KIND_EDGE_FORCE, M, 0, "N/mm", 4},
    {BITE_KIND_EDGE_FORCE, I, 0, "lbf/in", 4},
    {BITE_KIND_SURFACE_ENERGY, M, 0, "J/m2", 4},
    {BITE_KIND_SURFACE_ENERGY, I, 0, "J/m2", 4},
    {BITE_KIND_DENSITY, M, 0, "kg/m3", 4},
    {BITE_KIND_DENSITY, I, 0, "lb/in3", 4},
    {BITE_KIND_HEAT_CAPACITY, M, 0, "J/kg/K", 4},
    {BITE_KIND_HEAT_CAPACITY, I, 0, "J/kg/K", 4},
    {BITE_KIND_CONDUCTIVITY, M, 0, "W/m/K", 4},
    {BITE_KIND_CONDUCTIVITY, I, 0, "W/m/K", 4},
    {BITE_KIND_EXPANSION, M, 0, "um/m/K", 4},
    {BITE_KIND_EXPANSION, I, 0, "um/m/K", 4},
    {BITE_KIND_HEAT_TRANSFER, M, 0, "W/m2/K", 4},
    {BITE_KIND_HEAT_TRANSFER, I, 0, "W/m2/K", 4},
    {BITE_KIND_REMOVAL_RATE, M, 1e-6 / 60.0, "cm3/min", 4},
    {BITE_KIND_REMOVAL_RATE, M, 0, "mm3/min", 4},
    {BITE_KIND_REMOVAL_RATE, I, 0, "in3/min", 4},
    {BITE_KIND_SPECIFIC_ENERGY, M, 0, "J/mm3", 4},
    {BITE_KIND_SPECIFIC_ENERGY, I, 0, "J/mm3", 4},
    {BITE_KIND_FREQUENCY, M, 1e3, "kHz", 4},
    {BITE_KIND_FREQUENCY, M, 0, "Hz", 4},
    {BITE_KIND_FREQUENCY, I, 1e3, "kHz", 4},
    {BITE_KIND_FREQUENCY, I, 0, "Hz", 4},
    {BITE_KIND_PER_ANGLE, M, 0, "1/deg", 4},
    {BITE_KIND_PER_ANGLE, I, 0, "1/deg", 4},
};
#undef M
#undef I
const size_t bite_shop_unit_count = sizeof bite_shop_unit_table / sizeof *bite_shop_unit_table;

const char *bite_unit_si(bite_kind kind)
{
    return (unsigned)kind < BITE_KIND_COUNT ? bite_kind_table[kind].si : "";
}

const char *bite_unit_noun(bite_kind kind)
{
    return (unsigned)kind < BITE_KIND_COUNT ? bite_kind_table[kind].noun : "a quantity";
}

/* Two units may differ in case alone (mN, MN), so the exact spelling comes first. */
const bite_unit *bite_unit_find(const char *name, size_t length, bite_kind kind)
{
    for (int exact = 1; exact >= 0; exact--) {
        for (size_t i = 0; i < bite_unit_table_count; i++) {
            const bite_unit *unit = &bite_unit_table[i];
            if (unit->kind != kind) {
                continue;
            }
            bool same = exact
                            ? strlen(unit->name) == length && memcmp(unit->name, name, length) == 0
                            : bite_text_equals_part(name, length, unit->name);
            if (same) {
                return unit;
            }
        }
    }
    return NULL;
}

const bite_unit *bite_unit_find_any_kind(const char *name, size_t length)
{
    for (size_t i = 0; i < bite_unit_table_count; i++) {
        if (bite_text_equals_part(name, length, bite_unit_table[i].name)) {
            return &bite_unit_table[i];
        }
    }
    return NULL;
}
