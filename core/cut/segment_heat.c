/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat of a segment: chip, tool, finished surface and part, in closed form. */
#include "core/cut/segment_heat.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/heat/conduction.h"
#include "core/physics/heat/cutting_heat.h"
#include "core/physics/heat/heat_recirculation.h"
#include "core/physics/heat/softening_time.h"
#include <math.h>

/* Land in contact behind the edge, in edge radii (estimate). */
static const double land_in_radii = 2.0;

/* Tangent of the dish angle of end teeth, about two degrees (memory). */
static const double dish_slope = 0.034920769491747730;

/* The tool as a conductor from the edge outwards: its thermal resistance, and its temperature
 * without a cut, warmed up for as long as the path lasts. */
static void fill_tool_conduction(const bite_cut *cut, bite_fin_cache *fin,
                                 bite_heat_case *heat_case)
{
    bite_fin_cache_fill(fin, cut);
    heat_case->resistance = fin->resistance;
    heat_case->sink = cut->holder_temperature +
                      fin->air_share * (cut->room_temperature - cut->holder_temperature);
    if (!isnan(cut->path_length)) {
        /* first order, with the time constant of the slowest mode of a rod cooled at one end */
        double diffusivity = cut->tool_conductivity / (cut->tool_density * cut->tool_heat_capacity);
        double constant = 4.0 * cut->stickout * cut->stickout / (M_PI * M_PI * diffusivity);
        double warm = -expm1(-cut->path_length / (cut->feed_rate * constant));
        heat_case->resistance *= warm;
        heat_case->sink = cut->room_temperature + warm * (heat_case->sink - cut->room_temperature);
    }
}

static void fill_recirculation(const bite_cut *cut, double feed_real, double diffusivity,
                               const bite_segment *segment, bite_heat_case *heat_case)
{
    double radius = 0.5 * bite_cutting_diameter(cut);
    double width = segment->engaged * 2.0 * radius;
    double floor_loss = cut->floor_thickness == 0.0
                            ? 0.0
                            : bite_recirculation_floor(cut->feed_rate, cut->depth, diffusivity);
    double share = bite_recirculation_share(
        bite_recirculation_peclet(cut->feed_rate, radius, width, diffusivity), floor_loss);
    heat_case->share_met = fmin(1.0, cut->walk_share * share);
    heat_case->share_deep = bite_recirculation_surface(diffusivity / (cut->feed_rate * feed_real));
}

/* Temperature of the part at its bond: a fast line source in a thin plate, at the distance at which
 * the heat has passed through the plate (Rosenthal 1941, thin plate). */
static double part_temperature(const bite_cut *cut, double to_part, double diffusivity)
{
    double thickness = cut->floor_thickness;
    if (!(thickness > 0.0)) {
        return (double)NAN;
    }
    double away = 0.5 * bite_cutting_diameter(cut) + 0.5 * thickness;
    return cut->room_temperature + bite_conduction_plate_peak(to_part, cut->feed_rate, thickness,
                                                              cut->conductivity, diffusivity, away);
}

/* A polymer is not heated above the temperature at which it flows at once, since the flow absorbs
 * the rest of the energy. Utilizations are therefore computed from uncapped rises. */
static double capped(const bite_softening_law *law, double temperature, double time)
{
    double flow = bite_softening_temperature(law, time, 0.0);
    return temperature > flow ? flow : temperature; /* flow NaN: not a polymer */
}

/* The finished surface: the sustained temperature of wall and floor, and the flash under the edge.
 */
static void fill_surface(const bite_cut *cut, const bite_edge_contact *at, const bite_heat *heat,
                         const bite_softening_law *law, bite_segment *segment)
{
    double volumetric = bite_cut_volumetric_heat(cut);
    double *value = segment->value;
    bite_wall_heat_case surface = {
        .edge_energy = cut->wall_heat * heat->edge_energy,
        .layer = cut->skin_depth * bite_cut_edge_radius(cut),
        .feed_rate = cut->feed_rate,
        .feed_real = at->feed_real,
        .radius = 0.5 * bite_cutting_diameter(cut),
        .width = segment->engaged * bite_cutting_diameter(cut),
        .spring_back = cut->spring_back * bite_cut_edge_radius(cut),
        .rub_heat = cut->rub_heat,
        .dish = dish_slope,
        .cooling = cut->surface_cooling,
        .conductivity = cut->conductivity,
        .diffusivity = cut->conductivity / volumetric,
    };
    double contact = land_in_radii * bite_cut_edge_radius(cut) / at->speed;
    segment->wall = bite_wall_heat_wall(&surface);
    segment->floor = bite_wall_heat_floor(&surface);
    if (cut->operation != BITE_MILL || cut->floor_thickness == 0.0) {
        segment->floor.rise = (double)NAN; /* a through cut, a hole or a chamfer has no floor */
    }
    const bite_wall_heat *warmer =
        segment->floor.rise > segment->wall.rise ? &segment->floor : &segment->wall;
    double flow = bite_softening_temperature(law, warmer->dwell, 0.0);
    double start = cut->room_temperature;
    value[BITE_SURFACE_TEMPERATURE] = capped(law, start + warmer->rise, warmer->dwell);
    value[BITE_SURFACE_DWELL] = warmer->dwell;
    value[BITE_FLOW_TEMPERATURE] = flow;
    value[BITE_FLASH_TEMPERATURE] =
        capped(law,
               start + bite_wall_heat_flash(heat->edge_energy, surface.layer, volumetric,
                                            surface.diffusivity, contact),
               contact);
}

void bite_segment_fill_heat(const bite_cut *cut, const bite_edge_contact *at,
                            const bite_pressure *pressure, bite_fin_cache *fin,
                            bite_segment *segment)
{
    double *value = segment->value;
    double volumetric = bite_cut_volumetric_heat(cut);
    double diffusivity = cut->conductivity / volumetric;
    double chip = fmax(at->chip, bite_cut_least_chip(cut));
    bite_heat_case heat_case = {
        .speed = at->speed,
        .chip = chip,
        .depth = at->length,
        .teeth_chip = at->teeth * at->chip / chip,
        .teeth_edge = at->teeth,
        .pressure = pressure->tangential,
        .edge = pressure->edge_tangential - pressure->fracture,
        .fracture = pressure->fracture,
        .volumetric = volumetric,
        .conductivity = cut->conductivity,
        .chip_ratio = cut->chip_ratio,
        .rake = cut->rake,
        .heat_share = cut->heat_share,
        .friction_share = cut->friction_share,
        .sublayer_share = cut->sublayer_share,
        .edge_born = cut->edge_share * cut->sublayer_share,
        .transition = cut->transition,
        .edge_radius = bite_cut_edge_radius(cut),
        .flank_land = land_in_radii * bite_cut_edge_radius(cut),
        .skin = cut->skin_depth * bite_cut_edge_radius(cut),
        .tool_conductivity = cut->tool_conductivity,
        .tool_effusivity =
            sqrt(cut->tool_conductivity * cut->tool_density * cut->tool_heat_capacity),
        .start = cut->room_temperature,
        .removal_rate = value[BITE_REMOVAL_RATE],
    };
    bite_heat heat;
    fill_tool_conduction(cut, fin, &heat_case);
    fill_recirculation(cut, at->feed_real, diffusivity, segment, &heat_case);
    bite_heat_solve(&heat_case, &heat);
    bite_softening_law law = bite_cut_softening(cut);
    segment->chip_mean = chip;
    segment->chip_rise = heat.chip - cut->room_temperature;
    value[BITE_CHIP_TEMPERATURE] = capped(&law, heat.chip, chip / at->speed);
    fill_surface(cut, at, &heat, &law, segment);
    value[BITE_FILM_TEMPERATURE] = heat.film;
    value[BITE_TOOL_TEMPERATURE] = heat.tool;
    value[BITE_PREHEAT] = heat.preheat;
    value[BITE_HEAT_TO_PART] = heat.to_part;
    /* the bond is heated through the cut surface, and cannot be hotter than it */
    double bond = part_temperature(cut, heat.to_part, diffusivity);
    value[BITE_PART_TEMPERATURE] =
        bond > value[BITE_SURFACE_TEMPERATURE] ? value[BITE_SURFACE_TEMPERATURE] : bond;
    segment->heat_share[0] = heat.to_chip / heat.power;
    segment->heat_share[1] = heat.to_tool / heat.power;
    segment->heat_share[2] = heat.to_part / heat.power;
    segment->heat_share[3] = heat.stored / heat.power;
    segment->heat_power = heat.power;
    segment->energy_gap =
        (heat.power - heat.to_chip - heat.to_tool - heat.to_part - heat.stored) / heat.power;
}
