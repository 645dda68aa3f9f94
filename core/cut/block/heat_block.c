/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The heat of a block of cuts: chip, tool, finished surface and part, in closed form.
 *
 * Each step is a loop of its own over the lanes, short enough for the registers; the rows between
 * them are on the stack.
 */
#include "core/cut/block/heat_block.h"
#include "core/cut/block/material_rows.h"
#include "core/cut/physics_inputs.h"
#include "core/physics/heat/conduction.h"
#include "core/physics/heat/cutting_heat.h"
#include "core/physics/heat/heat_recirculation.h"
#include "core/physics/heat/softening_time.h"
#include "core/physics/heat/wall_heat.h"

/* Land in contact behind the edge, in edge radii (estimate). */
#define LAND_IN_RADII 2.0

/* Tangent of the dish angle of end teeth, about two degrees (memory). */
#define DISH_SLOPE 0.034920769491747730

/* What the steps hand on. */
typedef struct heat_rows {
    bite_lanes volumetric;  /* J/(m3 K) */
    bite_lanes diffusivity; /* m2/s */
    bite_lanes resistance;  /* K/W, of the tool from the edge outwards */
    bite_lanes sink;        /* K, of the tool without a cut */
    bite_lanes log_peclet;  /* of the feed, and the loss into the floor: recirculation */
    bite_lanes floor_loss;
    bite_lanes share_met;  /* of the heat in the work, by the chips of the next teeth */
    bite_lanes share_deep; /* of the preheat, by the finished surface */
    bite_lanes peclet;     /* of the shear plane */
    bite_lanes work_share; /* the members of bite_heat_shape */
    bite_lanes rake_length;
    bite_lanes rake_shape;
    bite_lanes flank_shape;
    bite_lanes edge_energy; /* J/m2 */
    bite_lanes cuts;        /* the members of bite_wall_sweeps */
    bite_lanes cuts_in_layer;
    bite_lanes rubs;
    bite_lanes flash_rise; /* K, uncapped */
    bite_lanes chip_time;  /* s, of the shear of a chip */
    bite_lanes flash_time; /* s, of the contact under the edge */
    bite_lanes chip_flow;  /* K, temperature at which the material flows within these times */
    bite_lanes flash_flow;
} heat_rows;

BITE_FORMULA void fill_material(const bite_block *restrict block, heat_rows *restrict rows)
{
    bite_block_volumetric_heat(block, rows->volumetric);
    BITE_EACH_LANE(k, block)
    {
        rows->diffusivity[k] = BITE_ROW(block, conductivity)[k] / rows->volumetric[k];
    }
}

/* The tool as a conductor from the edge outwards: its thermal resistance, and its temperature
 * without a cut. */
BITE_FORMULA void fill_tool(const bite_block *restrict block,
                            const bite_block_segment *restrict segment, heat_rows *restrict rows)
{
    BITE_EACH_LANE(k, block)
    {
        double holder = BITE_ROW(block, holder_temperature)[k];
        rows->resistance[k] = segment->fin_resistance[k];
        rows->sink[k] =
            holder + segment->fin_air_share[k] * (BITE_ROW(block, room_temperature)[k] - holder);
    }
    if (isnan(block->cut->path_length)) {
        return;
    }
    /* warmed up for as long as the path lasts: first order, with the time constant of the slowest
     * mode of a rod cooled at one end */
    BITE_EACH_LANE(k, block)
    {
        double room = BITE_ROW(block, room_temperature)[k];
        double stickout = BITE_ROW(block, stickout)[k];
        double capacity = BITE_ROW(block, tool_density)[k] * BITE_ROW(block, tool_heat_capacity)[k];
        double constant = 4.0 * stickout * stickout * capacity /
                          (M_PI * M_PI * BITE_ROW(block, tool_conductivity)[k]);
        double warm =
            -expm1(-BITE_ROW(block, path_length)[k] / (BITE_ROW(block, feed_rate)[k] * constant));
        rows->resistance[k] *= warm;
        rows->sink[k] = room + warm * (rows->sink[k] - room);
    }
}

BITE_FORMULA void fill_recirculation(const bite_block *restrict block,
                                     const bite_block_segment *restrict segment,
                                     heat_rows *restrict rows)
{
    BITE_EACH_LANE(k, block)
    {
        double feed = BITE_ROW(block, feed_rate)[k];
        double diffusivity = rows->diffusivity[k];
        double loss = bite_recirculation_floor(feed, BITE_ROW(block, depth)[k], diffusivity);
        rows->floor_loss[k] = BITE_ROW(block, floor_thickness)[k] == 0.0 ? 0.0 : loss;
        rows->log_peclet[k] =
            bite_recirculation_log_peclet(feed, 0.5 * segment->diameter[k],
                                          segment->engaged[k] * segment->diameter[k], diffusivity);
        rows->share_deep[k] =
            bite_recirculation_surface(diffusivity / (feed * segment->contact_feed[k]));
    }
    BITE_EACH_LANE(k, block)
    {
        double share = bite_recirculation_share_at(rows->log_peclet[k], rows->floor_loss[k]);
        rows->share_met[k] = bite_smaller(BITE_ROW(block, walk_share)[k] * share, 1.0);
    }
}

BITE_FORMULA bite_heat_case case_of(const bite_block *restrict block,
                                    const bite_block_segment *restrict segment,
                                    const heat_rows *restrict rows, int k)
{
    double chip = segment->chip_mean[k];
    double radius = segment->edge_radius[k];
    bite_heat_case heat_case = {
        .speed = segment->contact_speed[k],
        .chip = chip,
        .depth = segment->contact_length[k],
        .teeth_chip = segment->contact_teeth[k] * segment->contact_chip[k] / chip,
        .teeth_edge = segment->contact_teeth[k],
        .pressure = segment->tangential[k],
        .edge = segment->edge_tangential[k] - segment->fracture[k],
        .fracture = segment->fracture[k],
        .volumetric = rows->volumetric[k],
        .conductivity = BITE_ROW(block, conductivity)[k],
        .chip_ratio = BITE_ROW(block, chip_ratio)[k],
        .rake = BITE_ROW(block, rake)[k],
        .heat_share = BITE_ROW(block, heat_share)[k],
        .friction_share = BITE_ROW(block, friction_share)[k],
        .sublayer_share = BITE_ROW(block, sublayer_share)[k],
        .edge_born = BITE_ROW(block, edge_share)[k] * BITE_ROW(block, sublayer_share)[k],
        .transition = BITE_ROW(block, transition)[k],
        .flank_land = LAND_IN_RADII * radius,
        .skin = BITE_ROW(block, skin_depth)[k] * radius,
        .tool_conductivity = BITE_ROW(block, tool_conductivity)[k],
        .tool_effusivity =
            sqrt(BITE_ROW(block, tool_conductivity)[k] * BITE_ROW(block, tool_density)[k] *
                 BITE_ROW(block, tool_heat_capacity)[k]),
        .resistance = rows->resistance[k],
        .sink = rows->sink[k],
        .start = BITE_ROW(block, room_temperature)[k],
        .removal_rate = segment->value[BITE_REMOVAL_RATE][k],
        .share_met = rows->share_met[k],
        .share_deep = rows->share_deep[k],
    };
    return heat_case;
}

BITE_FORMULA void fill_shape(const bite_block *restrict block, bite_block_segment *restrict segment,
                             heat_rows *restrict rows)
{
    BITE_EACH_LANE(k, block)
    {
        double least = BITE_ROW(block, minimum_chip)[k] * segment->edge_radius[k];
        segment->chip_mean[k] = bite_larger(segment->contact_chip[k], least);
    }
    BITE_EACH_LANE(k, block)
    {
        bite_heat_case heat_case = case_of(block, segment, rows, k);
        bite_angle rake = bite_orthogonal_angle(heat_case.rake);
        rows->peclet[k] = bite_heat_peclet(&heat_case, rake);
        rows->rake_length[k] = bite_heat_contact_length(&heat_case, rake);
    }
    BITE_EACH_LANE(k, block)
    {
        rows->work_share[k] = bite_conduction_weiner(rows->peclet[k]);
    }
    BITE_EACH_LANE(k, block)
    {
        rows->rake_shape[k] =
            bite_heat_contact_shape(segment->contact_length[k], rows->rake_length[k]);
    }
    BITE_EACH_LANE(k, block)
    {
        rows->flank_shape[k] = bite_heat_contact_shape(segment->contact_length[k],
                                                       LAND_IN_RADII * segment->edge_radius[k]);
    }
}

BITE_FORMULA void store_heat(bite_block_segment *restrict segment, int k, const bite_heat *heat,
                             double start)
{
    double whole = 1.0 / heat->power;
    segment->chip_rise[k] = heat->chip - start;
    segment->value[BITE_CHIP_TEMPERATURE][k] = heat->chip;
    segment->value[BITE_FILM_TEMPERATURE][k] = heat->film;
    segment->value[BITE_TOOL_TEMPERATURE][k] = heat->tool;
    segment->value[BITE_PREHEAT][k] = heat->preheat;
    segment->value[BITE_HEAT_TO_PART][k] = heat->to_part;
    segment->heat_share[0][k] = heat->to_chip * whole;
    segment->heat_share[1][k] = heat->to_tool * whole;
    segment->heat_share[2][k] = heat->to_part * whole;
    segment->heat_share[3][k] = heat->stored * whole;
    segment->heat_power[k] = heat->power;
    segment->energy_gap[k] =
        (heat->power - heat->to_chip - heat->to_tool - heat->to_part - heat->stored) * whole;
}

BITE_FORMULA void fill_balance(const bite_block *restrict block,
                               bite_block_segment *restrict segment, heat_rows *restrict rows)
{
    BITE_EACH_LANE(k, block)
    {
        bite_heat heat;
        bite_heat_case heat_case = case_of(block, segment, rows, k);
        bite_heat_shape shape = {rows->work_share[k], rows->rake_length[k], rows->rake_shape[k],
                                 rows->flank_shape[k]};
        bite_heat_solve_shape(&heat_case, &shape, &heat);
        store_heat(segment, k, &heat, heat_case.start);
        rows->edge_energy[k] = heat.edge_energy;
    }
}

BITE_FORMULA bite_wall_heat_case surface_of(const bite_block *restrict block,
                                            const bite_block_segment *restrict segment,
                                            const heat_rows *restrict rows, int k)
{
    double radius = segment->edge_radius[k];
    bite_wall_heat_case surface = {
        .edge_energy = BITE_ROW(block, wall_heat)[k] * rows->edge_energy[k],
        .layer = BITE_ROW(block, skin_depth)[k] * radius,
        .feed_rate = BITE_ROW(block, feed_rate)[k],
        .feed_real = segment->contact_feed[k],
        .radius = 0.5 * segment->diameter[k],
        .width = segment->engaged[k] * segment->diameter[k],
        .spring_back = BITE_ROW(block, spring_back)[k] * radius,
        .rub_heat = BITE_ROW(block, rub_heat)[k],
        .dish = DISH_SLOPE,
        .cooling = BITE_ROW(block, surface_cooling)[k],
        .conductivity = BITE_ROW(block, conductivity)[k],
        .diffusivity = rows->diffusivity[k],
    };
    return surface;
}

/* The sustained rise of wall and floor; the flash under the edge. */
BITE_FORMULA void fill_rises(const bite_block *restrict block, bite_block_segment *restrict segment,
                             heat_rows *restrict rows)
{
    BITE_EACH_LANE(k, block)
    {
        bite_wall_heat_case surface = surface_of(block, segment, rows, k);
        bite_wall_sweeps sweeps = bite_wall_heat_wall_sweeps(&surface);
        rows->cuts[k] = sweeps.cuts;
        rows->cuts_in_layer[k] = sweeps.cuts_in_layer;
        rows->rubs[k] = sweeps.rubs;
    }
    BITE_EACH_LANE(k, block)
    {
        bite_wall_heat_case surface = surface_of(block, segment, rows, k);
        bite_wall_sweeps sweeps = {rows->cuts[k], rows->cuts_in_layer[k], rows->rubs[k]};
        bite_wall_heat wall = bite_wall_heat_surface(&surface, sweeps);
        segment->wall_rise[k] = wall.rise;
        segment->wall_dwell[k] = wall.dwell;
    }
    BITE_EACH_LANE(k, block)
    {
        /* a through cut, a hole or a chamfer has no floor */
        bite_wall_heat_case surface = surface_of(block, segment, rows, k);
        bite_wall_heat under = bite_wall_heat_floor(&surface);
        int through = BITE_ROW(block, floor_thickness)[k] == 0.0;
        segment->floor_rise[k] = through ? (double)NAN : under.rise;
        segment->floor_dwell[k] = under.dwell;
    }
    if (block->cut->operation != BITE_MILL) {
        BITE_EACH_LANE(k, block)
        {
            segment->floor_rise[k] = (double)NAN;
        }
    }
    BITE_EACH_LANE(k, block)
    {
        double radius = segment->edge_radius[k];
        rows->chip_time[k] = segment->chip_mean[k] / segment->contact_speed[k];
        rows->flash_time[k] = LAND_IN_RADII * radius / segment->contact_speed[k];
        rows->flash_rise[k] =
            bite_wall_heat_flash(rows->edge_energy[k], BITE_ROW(block, skin_depth)[k] * radius,
                                 rows->volumetric[k], rows->diffusivity[k], rows->flash_time[k]);
    }
}

/* Temperature of the part at its bond: a fast line source in a thin plate, at the distance at which
 * the heat has passed through the plate (Rosenthal 1941, thin plate). NaN: nothing is left. */
BITE_FORMULA double part_temperature(const bite_block *restrict block,
                                     const bite_block_segment *restrict segment,
                                     const heat_rows *restrict rows, int k)
{
    double thickness = BITE_ROW(block, floor_thickness)[k];
    double conductivity = BITE_ROW(block, conductivity)[k];
    double peak = bite_conduction_plate_peak(segment->value[BITE_HEAT_TO_PART][k],
                                             BITE_ROW(block, feed_rate)[k], thickness, conductivity,
                                             conductivity / rows->volumetric[k],
                                             0.5 * segment->diameter[k] + 0.5 * thickness);
    return thickness > 0.0 ? BITE_ROW(block, room_temperature)[k] + peak : (double)NAN;
}

/* A polymer is not heated above the temperature at which it flows at once, since the flow absorbs
 * the rest of the energy; flow NaN: not a polymer. Utilizations are therefore computed from
 * uncapped rises. */
BITE_FORMULA double capped(double temperature, double flow)
{
    return temperature > flow ? flow : temperature;
}

BITE_FORMULA void fill_temperatures(const bite_block *restrict block,
                                    bite_block_segment *restrict segment, heat_rows *restrict rows)
{
    bite_softening_law kind = bite_cut_softening(block->cut);
    double *dwell = segment->value[BITE_SURFACE_DWELL];
    double *flow = segment->value[BITE_FLOW_TEMPERATURE];
    BITE_EACH_LANE(k, block)
    {
        double floor = segment->floor_dwell[k];
        double wall = segment->wall_dwell[k];
        dwell[k] = segment->floor_rise[k] > segment->wall_rise[k] ? floor : wall;
    }
    bite_block_flow(block, &kind, dwell, flow);
    bite_block_flow(block, &kind, rows->chip_time, rows->chip_flow);
    bite_block_flow(block, &kind, rows->flash_time, rows->flash_flow);
    BITE_EACH_LANE(k, block)
    {
        double start = BITE_ROW(block, room_temperature)[k];
        double bond = part_temperature(block, segment, rows, k);
        double rise = bite_larger(segment->floor_rise[k], segment->wall_rise[k]);
        double surface = capped(start + rise, segment->value[BITE_FLOW_TEMPERATURE][k]);
        segment->value[BITE_SURFACE_TEMPERATURE][k] = surface;
        segment->value[BITE_CHIP_TEMPERATURE][k] =
            capped(segment->value[BITE_CHIP_TEMPERATURE][k], rows->chip_flow[k]);
        segment->value[BITE_FLASH_TEMPERATURE][k] =
            capped(start + rows->flash_rise[k], rows->flash_flow[k]);
        /* the bond is heated through the cut surface, and cannot be hotter than it */
        segment->value[BITE_PART_TEMPERATURE][k] = bond > surface ? surface : bond;
    }
}

BITE_IN_LANES void bite_block_heat(const bite_block *restrict block,
                                   bite_block_segment *restrict segment)
{
    heat_rows rows;
    fill_material(block, &rows);
    fill_tool(block, segment, &rows);
    fill_recirculation(block, segment, &rows);
    fill_shape(block, segment, &rows);
    fill_balance(block, segment, &rows);
    fill_rises(block, segment, &rows);
    fill_temperatures(block, segment, &rows);
}
