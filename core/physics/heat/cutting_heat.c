/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Heat of a pass: chip, tool, skin and part, in closed form. */
#include "core/physics/heat/cutting_heat.h"
#include "core/physics/heat/conduction.h"
#include "core/physics/force/orthogonal_cutting.h"
#include <math.h>

/* Friction of a softened face: whole until 40 K below the transition, a tenth from 60 K above it on (estimate: without it router
 * cuts in acrylic that shops run every day come out at 200 to 300 degC). */
static const double soften_from = -40.0; /* K, from the transition */
static const double soften_to = 60.0;
static const double friction_least = 0.1;

/* Mean rise of a fast band source, 2/3 of the peak 1.128: the impedance of a sliding contact is 0.752 sqrt(l/v)/e (Jaeger 1942;
 * memory, limit re-derived). */
static const double sliding = 0.752;

/* What of the case does not depend on temperatures. */
typedef struct network {
    double shear_rise;  /* K, (1 - Gamma) u_s/(rho c) */
    double rake_drive;  /* K, eta q_f Z_c */
    double edge_drive;  /* K, q_e Z_w of what is born at the interface */
    double rake_tool;   /* m2 K/W, Z_t */
    double edge_split;  /* psi: of edge heat that would go into a cold tool */
    double rake_leads;  /* W/K */
    double flank_leads; /* W/K */
    double tool_leads;  /* W/K, 1/resistance */
    double rake_area;   /* m2, N l_c b */
    double into_work;   /* W, before the flank's share of the tool */
    double friction;    /* W, on the rake */
    double carried;     /* W/K, N b rho c h v: the chip stream */
} network;

/* Temperatures and flows for one share s of friction. */
typedef struct state {
    double tool;
    double preheat;
    double into_rake;  /* W into the tool */
    double into_flank; /* W into the tool */
    double into_work;  /* W */
} state;

/* A stream of finite heat capacity gives a wall at most C (T_in - T_wall): exchanger of one side. */
static double stream_conductance(double area, double impedance, double capacity, int endless)
{
    double plain = area / impedance;
    return endless ? plain : capacity * -expm1(-plain / capacity);
}

static void fill_rake(const bite_heat_case *of, double effusivity, double volumetric, network *net, double *work_share)
{
    double diffusivity = of->conductivity / volumetric;
    double angle = bite_orthogonal_shear_angle(of->chip_ratio, of->rake);
    *work_share = bite_conduct_weiner(of->speed * of->chip / diffusivity * tan(angle));
    double shear_heat = of->heat_share * (1.0 - of->friction_share) * of->pressure; /* J/m3 */
    double length = of->chip * of->chip_ratio * (1.0 + tan(angle - of->rake));
    double chip_speed = of->speed / of->chip_ratio;
    double flux = of->friction_share * of->pressure * of->chip * of->speed / length;
    double chip_side = sliding * sqrt(length / chip_speed) / effusivity;
    double stream = of->teeth_chip * of->depth * of->chip * of->speed;
    net->shear_rise = (1.0 - *work_share) * shear_heat / volumetric;
    net->rake_tool = length * bite_conduct_rectangle(of->depth / (2.0 * length)) / of->tool_conductivity;
    net->rake_drive = of->sublayer_share * flux * chip_side;
    net->rake_area = of->teeth_chip * length * of->depth;
    net->carried = stream * volumetric;
    net->rake_leads =
        stream > 0.0 ? stream_conductance(net->rake_area, chip_side + net->rake_tool, net->carried, of->endless_chip) : 0.0;
    net->friction = of->friction_share * of->pressure * stream;
    net->into_work = *work_share * shear_heat * stream;
}

static void fill_flank(const bite_heat_case *of, double effusivity, network *net)
{
    double work_side = sliding * sqrt(of->flank_land / of->speed) / effusivity;
    double tool_side = of->flank_land * bite_conduct_rectangle(of->depth / (2.0 * of->flank_land)) / of->tool_conductivity;
    double flux = of->edge * of->speed / of->flank_land;
    net->edge_drive = of->edge_born * flux * work_side;
    net->edge_split = of->edge_born * work_side / (work_side + tool_side);
    net->flank_leads = of->teeth_edge * of->flank_land * of->depth / (work_side + tool_side);
    net->into_work += of->teeth_edge * of->depth * of->speed * of->edge;
}

/* The tool's balance gives T_tool = level + gain * preheat; the walk gives preheat = kappa (into_work - flank). */
static state solve_for(const bite_heat_case *of, const network *net, double s, double volumetric)
{
    double leads = net->rake_leads + net->flank_leads + net->tool_leads;
    double level = (net->rake_leads * (s * net->rake_drive + of->start + net->shear_rise) +
                    net->flank_leads * (net->edge_drive + of->start) + net->tool_leads * of->sink) /
                   leads;
    double gain = (net->rake_leads + net->flank_leads * of->share_deep) / leads;
    double kappa = of->share_met / (volumetric * of->removal_rate);
    double flank_cold = net->flank_leads * (net->edge_drive + of->start - level);
    double flank_gain = net->flank_leads * (of->share_deep - gain);
    state at;
    at.preheat = kappa * (net->into_work - flank_cold) / (1.0 + kappa * flank_gain);
    at.tool = level + gain * at.preheat;
    at.into_flank = flank_cold + flank_gain * at.preheat;
    at.into_rake = net->rake_leads * (s * net->rake_drive + of->start + at.preheat + net->shear_rise - at.tool);
    at.into_work = net->into_work - at.into_flank;
    return at;
}

static double rake_temperature(const network *net, const state *at)
{
    return net->rake_area > 0.0 ? at->tool + net->rake_tool * at->into_rake / net->rake_area : at->tool;
}

/* s = soft(T_rake(s)): T_rake is a rising line in s, soft falls in straight pieces, so the root is unique and closed. */
static double friction_share(const bite_heat_case *of, const network *net, double volumetric)
{
    if (!(of->transition > 0.0) || !(net->rake_area > 0.0)) {
        return 1.0;
    }
    state cold = solve_for(of, net, 0.0, volumetric);
    state whole = solve_for(of, net, 1.0, volumetric);
    double base = rake_temperature(net, &cold);
    double rise = rake_temperature(net, &whole) - base;
    double from = of->transition + soften_from;
    double fall = (1.0 - friction_least) / (soften_to - soften_from);
    double s = (1.0 - fall * (base - from)) / (1.0 + fall * rise);
    return fmin(1.0, fmax(friction_least, s));
}

void bite_heat_solve(const bite_heat_case *of, bite_heat *heat)
{
    double volumetric = of->density * of->heat_capacity;
    double effusivity = sqrt(of->conductivity * volumetric);
    network net;
    fill_rake(of, effusivity, volumetric, &net, &heat->work_share);
    fill_flank(of, effusivity, &net);
    net.tool_leads = 1.0 / of->resistance;

    heat->friction = friction_share(of, &net, volumetric);
    state at = solve_for(of, &net, heat->friction, volumetric);
    heat->preheat = at.preheat;
    heat->tool = at.tool;
    heat->rake = rake_temperature(&net, &at);
    heat->shear = of->start + at.preheat + net.shear_rise;
    heat->chip = net.carried > 0.0 ? heat->shear + (net.friction - at.into_rake) / net.carried : of->start + at.preheat;

    /* Edge work in a skin of depth d_p, spreading while the flank passes: both limits exact. */
    double spread = 0.5 * sqrt(M_PI * of->conductivity / volumetric * of->flank_land / of->speed);
    double skin_rise = (1.0 - net.edge_split) * of->edge / (volumetric * (of->skin + spread));
    heat->skin = of->start + of->share_deep * at.preheat + skin_rise;
    heat->film = (of->tool_effusivity * heat->tool + effusivity * heat->skin) / (of->tool_effusivity + effusivity);

    double stream = of->teeth_chip * of->depth * of->chip * of->speed;
    double shear_work = (1.0 - of->friction_share) * of->pressure * stream;
    double edge_way = of->teeth_edge * of->depth * of->speed; /* area swept by edges, m2/s */
    heat->power = of->pressure * stream + edge_way * (of->edge + of->fracture);
    heat->stored = (1.0 - of->heat_share) * shear_work + edge_way * of->fracture;
    heat->to_tool = at.into_rake + at.into_flank;
    heat->to_part = (1.0 - of->share_met) * at.into_work;
    heat->to_chip =
        (1.0 - heat->work_share) * of->heat_share * shear_work + net.friction - at.into_rake + of->share_met * at.into_work;
}
