/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat of a pass: chip, tool, skin and part, in closed form. */
#include "core/physics/heat/cutting_heat.h"
#include "core/physics/force/orthogonal_cutting.h"
#include "core/physics/heat/conduction.h"
#include <math.h>

/* Friction of a softened face: full up to 40 K below the transition, a tenth from 60 K above it on
 * (estimate: without it router cuts in acrylic that shops run every day would reach 200 to 300
 * degC). */
static const double soften_from = -40.0; /* K, from the transition */
static const double soften_to = 60.0;
static const double friction_least = 0.1;

/* Mean rise of a fast band source, 2/3 of the peak 1.128: the impedance of a sliding contact is
 * 0.752 sqrt(l/v)/e (Jaeger 1942; memory, limit re-derived). */
static const double sliding = 0.752;

/* The part of the case that does not depend on temperatures. */
typedef struct network {
    double shear_rise;        /* K, (1 - Gamma) u_s/(rho c) */
    double rake_drive;        /* K, eta q_f Z_c */
    double edge_drive;        /* K, q_e Z_w of the heat generated at the interface */
    double rake_tool;         /* m2 K/W, Z_t */
    double edge_split;        /* psi: share of the edge heat that would go into a cold tool */
    double rake_conductance;  /* W/K */
    double flank_conductance; /* W/K */
    double tool_conductance;  /* W/K, 1/resistance */
    double rake_area;         /* m2, N l_c b */
    double into_work;         /* W, before the share that the flank conducts into the tool */
    double friction;          /* W, on the rake */
    double stream_capacity;   /* W/K, N b rho c h v: the chip stream */
} network;

/* Temperatures and heat flows for one share s of friction. */
typedef struct state {
    double tool;
    double preheat;
    double into_rake;  /* W into the tool */
    double into_flank; /* W into the tool */
    double into_work;  /* W */
} state;

/* A stream of finite heat capacity C gives a wall at most C (T_in - T_wall): a heat exchanger with
 * one stream. */
static double stream_conductance(double area, double impedance, double capacity, int unlimited)
{
    double plain = area / impedance;
    return unlimited ? plain : capacity * -expm1(-plain / capacity);
}

static void fill_rake(const bite_heat_case *heat_case, double effusivity, double volumetric,
                      network *net, double *work_share)
{
    double diffusivity = heat_case->conductivity / volumetric;
    double angle = bite_orthogonal_shear_angle(heat_case->chip_ratio, heat_case->rake);
    *work_share =
        bite_conduction_weiner(heat_case->speed * heat_case->chip / diffusivity * tan(angle));
    double shear_heat =
        heat_case->heat_share * (1.0 - heat_case->friction_share) * heat_case->pressure; /* J/m3 */
    double length = heat_case->chip * heat_case->chip_ratio * (1.0 + tan(angle - heat_case->rake));
    double chip_speed = heat_case->speed / heat_case->chip_ratio;
    double flux = heat_case->friction_share * heat_case->pressure * heat_case->chip *
                  heat_case->speed / length;
    double chip_side = sliding * sqrt(length / chip_speed) / effusivity;
    double stream = heat_case->teeth_chip * heat_case->depth * heat_case->chip * heat_case->speed;
    net->shear_rise = (1.0 - *work_share) * shear_heat / volumetric;
    net->rake_tool = length * bite_conduction_rectangle(heat_case->depth / (2.0 * length)) /
                     heat_case->tool_conductivity;
    net->rake_drive = heat_case->sublayer_share * flux * chip_side;
    net->rake_area = heat_case->teeth_chip * length * heat_case->depth;
    net->stream_capacity = stream * volumetric;
    net->rake_conductance = stream > 0.0
                                ? stream_conductance(net->rake_area, chip_side + net->rake_tool,
                                                     net->stream_capacity, heat_case->endless_chip)
                                : 0.0;
    net->friction = heat_case->friction_share * heat_case->pressure * stream;
    net->into_work = *work_share * shear_heat * stream;
}

static void fill_flank(const bite_heat_case *heat_case, double effusivity, network *net)
{
    double work_side = sliding * sqrt(heat_case->flank_land / heat_case->speed) / effusivity;
    double tool_side = heat_case->flank_land *
                       bite_conduction_rectangle(heat_case->depth / (2.0 * heat_case->flank_land)) /
                       heat_case->tool_conductivity;
    double flux = heat_case->edge * heat_case->speed / heat_case->flank_land;
    net->edge_drive = heat_case->edge_born * flux * work_side;
    net->edge_split = heat_case->edge_born * work_side / (work_side + tool_side);
    net->flank_conductance =
        heat_case->teeth_edge * heat_case->flank_land * heat_case->depth / (work_side + tool_side);
    net->into_work += heat_case->teeth_edge * heat_case->depth * heat_case->speed * heat_case->edge;
}

/* The heat balance of the tool gives T_tool = level + gain * preheat; recirculation gives preheat =
 * kappa (into_work - flank). */
static state solve_for(const bite_heat_case *heat_case, const network *net, double s,
                       double volumetric)
{
    double conductance = net->rake_conductance + net->flank_conductance + net->tool_conductance;
    double level =
        (net->rake_conductance * (s * net->rake_drive + heat_case->start + net->shear_rise) +
         net->flank_conductance * (net->edge_drive + heat_case->start) +
         net->tool_conductance * heat_case->sink) /
        conductance;
    double gain =
        (net->rake_conductance + net->flank_conductance * heat_case->share_deep) / conductance;
    double kappa = heat_case->share_met / (volumetric * heat_case->removal_rate);
    double flank_cold = net->flank_conductance * (net->edge_drive + heat_case->start - level);
    double flank_gain = net->flank_conductance * (heat_case->share_deep - gain);
    state at;
    at.preheat = kappa * (net->into_work - flank_cold) / (1.0 + kappa * flank_gain);
    at.tool = level + gain * at.preheat;
    at.into_flank = flank_cold + flank_gain * at.preheat;
    at.into_rake = net->rake_conductance * (s * net->rake_drive + heat_case->start + at.preheat +
                                            net->shear_rise - at.tool);
    at.into_work = net->into_work - at.into_flank;
    return at;
}

static double rake_temperature(const network *net, const state *at)
{
    return net->rake_area > 0.0 ? at->tool + net->rake_tool * at->into_rake / net->rake_area
                                : at->tool;
}

/* s = soft(T_rake(s)): T_rake is a rising line in s, soft falls in straight pieces, so the root is
 * unique and has a closed form. */
static double friction_share(const bite_heat_case *heat_case, const network *net, double volumetric)
{
    if (!(heat_case->transition > 0.0) || !(net->rake_area > 0.0)) {
        return 1.0;
    }
    state cold = solve_for(heat_case, net, 0.0, volumetric);
    state whole = solve_for(heat_case, net, 1.0, volumetric);
    double base = rake_temperature(net, &cold);
    double rise = rake_temperature(net, &whole) - base;
    double from = heat_case->transition + soften_from;
    double fall = (1.0 - friction_least) / (soften_to - soften_from);
    double s = (1.0 - fall * (base - from)) / (1.0 + fall * rise);
    return fmin(1.0, fmax(friction_least, s));
}

void bite_heat_solve(const bite_heat_case *heat_case, bite_heat *heat)
{
    double volumetric = heat_case->density * heat_case->heat_capacity;
    double effusivity = sqrt(heat_case->conductivity * volumetric);
    network net;
    fill_rake(heat_case, effusivity, volumetric, &net, &heat->work_share);
    fill_flank(heat_case, effusivity, &net);
    net.tool_conductance = 1.0 / heat_case->resistance;

    heat->friction = friction_share(heat_case, &net, volumetric);
    state at = solve_for(heat_case, &net, heat->friction, volumetric);
    heat->preheat = at.preheat;
    heat->tool = at.tool;
    heat->rake = rake_temperature(&net, &at);
    heat->shear = heat_case->start + at.preheat + net.shear_rise;
    heat->chip = net.stream_capacity > 0.0
                     ? heat->shear + (net.friction - at.into_rake) / net.stream_capacity
                     : heat_case->start + at.preheat;

    /* Edge work in a skin of depth d_p, spreading while the flank passes: both limits exact. */
    double spread = 0.5 * sqrt(M_PI * heat_case->conductivity / volumetric * heat_case->flank_land /
                               heat_case->speed);
    heat->edge_energy = (1.0 - net.edge_split) * heat_case->edge;
    heat->skin = heat_case->start + heat_case->share_deep * at.preheat +
                 heat->edge_energy / (volumetric * (heat_case->skin + spread));
    heat->film = (heat_case->tool_effusivity * heat->tool + effusivity * heat->skin) /
                 (heat_case->tool_effusivity + effusivity);

    double stream = heat_case->teeth_chip * heat_case->depth * heat_case->chip * heat_case->speed;
    double shear_work = (1.0 - heat_case->friction_share) * heat_case->pressure * stream;
    double swept_area =
        heat_case->teeth_edge * heat_case->depth * heat_case->speed; /* area swept by edges, m2/s */
    heat->power =
        heat_case->pressure * stream + swept_area * (heat_case->edge + heat_case->fracture);
    heat->stored = (1.0 - heat_case->heat_share) * shear_work + swept_area * heat_case->fracture;
    heat->to_tool = at.into_rake + at.into_flank;
    heat->to_part = (1.0 - heat_case->share_met) * at.into_work;
    heat->to_chip = (1.0 - heat->work_share) * heat_case->heat_share * shear_work + net.friction -
                    at.into_rake + heat_case->share_met * at.into_work;
}
