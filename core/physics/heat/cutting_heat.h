/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Heat of a pass: temperatures of chip, tool and skin, and the heat into the part, in closed form.
 *
 * Weiner's partition divides the shear heat between chip and work; rake face and flank are contacts
 * with an impedance on either side; the tool is a stepped fin; and the work is preheated by the
 * heat that the teeth before have left in it. For a given share s of the friction heat that a
 * softened face still makes, all of this is linear: one equation for the preheat, no iteration. s
 * itself is where a falling line and a rising line cross.
 */
#ifndef BITE_PHYSICS_HEAT_CUTTING_HEAT_H
#define BITE_PHYSICS_HEAT_CUTTING_HEAT_H

#include "core/physics/force/orthogonal_cutting.h"
#include "core/physics/heat/conduction.h"

typedef struct bite_heat_case {
    /* contact */
    double speed;      /* vc, m/s */
    double chip;       /* mean h over the arc, m; > 0 */
    double depth;      /* b = ap, m */
    double teeth_chip; /* teeth in contact that form a chip, mean over a turn; 0: none does */
    double teeth_edge; /* teeth in contact, mean over a turn */
    double pressure;   /* K, Pa */
    double edge;       /* Ke, N/m, the part of the edge force from ploughing */
    double fracture;   /* N/m, the part of the edge force that makes new surface: spent in the craze
                          ahead of the edge, it leaves with the chip */
    /* material */
    double volumetric; /* rho c, J/(m3 K) */
    double conductivity;
    double chip_ratio;     /* chip thickness after / before */
    double rake;           /* rad */
    double heat_share;     /* share of the plastic work that turns into heat */
    double friction_share; /* share of K that is friction on the rake face */
    double sublayer_share; /* share of the rake friction heat that reaches the interface */
    double edge_born;      /* share of the edge energy that is generated at the flank interface */
    double transition;     /* K; NaN: friction is not limited by softening */
    /* tool */
    double edge_radius;       /* m */
    double flank_land;        /* l_f, m, in contact behind the edge */
    double skin;              /* d_p, m, depth of the layer that the work of the edge heats */
    double tool_conductivity; /* W/(m K) */
    double tool_effusivity;   /* W s^0.5/(m2 K) */
    double resistance;        /* of the tool from the edge outwards, K/W */
    double sink;              /* K, temperature of the tool without a cut */
    /* work */
    double start;        /* K */
    double removal_rate; /* Q, m3/s */
    double share_met;    /* r: share of the heat in the work that leaves with the chips of the next
                            teeth */
    double share_deep;   /* g: share of the preheat that reaches the finished surface */
    int endless_chip; /* 1: the heat capacity of the chip does not limit the heat into the rake face
                         (the limit of a thick chip) */
} bite_heat_case;

typedef struct bite_heat {
    double work_share;  /* Gamma of the shear heat, 1 */
    double shear;       /* K, of the chip as it leaves the shear plane */
    double chip;        /* K, its mean, friction included */
    double tool;        /* K, body at the edge */
    double rake;        /* K, interface */
    double skin;        /* K, of the finished surface */
    double film;        /* K, under the edge */
    double edge_energy; /* J/m2, heat of one pass of the edge that stays in the workpiece */
    double preheat;     /* K, rise of the work ahead of the next tooth */
    double friction;    /* s: share of the friction heat that a softened face still makes */
    double power;       /* W */
    double to_chip;     /* W, including the heat that leaves with the chips of the next teeth */
    double to_tool;     /* W */
    double to_part;     /* W, that stays in the part */
    double stored; /* W, work that does not heat tool or skin: stored cold work and fracture; it
                      leaves with the chip */
} bite_heat;

/* Mean rise of a fast band source, 2/3 of the peak 1.128: the impedance of a sliding contact is
 * 0.752 sqrt(l/v)/e (Jaeger 1942; memory, limit re-derived). */
#define BITE_HEAT_SLIDING 0.752

/* Friction of a softened face: full up to 40 K below the transition, a tenth from 60 K above it on
 * (estimate: without it router cuts in acrylic that shops run every day would reach 200 to 300
 * degC). */
#define BITE_HEAT_SOFTEN_FROM -40.0 /* K, from the transition */
#define BITE_HEAT_SOFTEN_TO 60.0
#define BITE_HEAT_FRICTION_LEAST 0.1

/** The shares and shapes of the case that need functions of their own; the rest is arithmetic. */
typedef struct bite_heat_shape {
    double work_share;     /* Gamma of the shear heat, 1 */
    double contact_length; /* of the chip on the rake face, m */
    double rake_shape;     /* Abar of the contact on the rake face */
    double flank_shape;    /* Abar of the one on the flank */
} bite_heat_shape;

/** Contact of the chip on the rake face, m: h r (1 + tan(phi - g)). */
BITE_FORMULA double bite_heat_contact_length(const bite_heat_case *heat_case, bite_angle rake)
{
    return heat_case->chip *
           (heat_case->chip_ratio + (1.0 - heat_case->chip_ratio * rake.sine) / rake.cosine);
}

/** Peclet number v h tan(phi)/a of the shear plane. */
BITE_FORMULA double bite_heat_peclet(const bite_heat_case *heat_case, bite_angle rake)
{
    return heat_case->speed * heat_case->chip * heat_case->volumetric / heat_case->conductivity *
           bite_orthogonal_shear_tangent(heat_case->chip_ratio, rake);
}

/** Abar of a contact of this length along the edge's whole depth of cut. */
BITE_FORMULA double bite_heat_contact_shape(double depth, double length)
{
    return bite_conduction_rectangle(0.5 * depth / length);
}

/* The part of the case that does not depend on temperatures. */
typedef struct bite_heat_network {
    double effusivity;        /* of the work */
    double resistivity;       /* 1/effusivity */
    double tool_resistivity;  /* 1/conductivity of the tool */
    double per_volumetric;    /* 1/(rho c) */
    double flank_root;        /* s^0.5, of the time under the flank, l_f/v */
    double shear_heat;        /* J/m3, of the shear work */
    double shear_rise;        /* K, (1 - Gamma) u_s/(rho c) */
    double rake_drive;        /* K, eta q_f Z_c */
    double edge_drive;        /* K, q_e Z_w of the heat generated at the interface */
    double rake_tool;         /* K/W, Z_t/area; 0: no chip */
    double edge_split;        /* psi: share of the edge heat that would go into a cold tool */
    double rake_conductance;  /* W/K */
    double flank_conductance; /* W/K */
    double tool_conductance;  /* W/K, 1/resistance */
    double stream;            /* m3/s, of the chips */
    double swept;             /* m2/s, area swept by the edges */
    double into_work;         /* W, before the share that the flank conducts into the tool */
    double friction;          /* W, on the rake */
} bite_heat_network;

/* A stream of finite heat capacity C gives a wall at most C (T_in - T_wall): a heat exchanger with
 * one stream. capacity > 0. */
BITE_FORMULA double bite_heat_stream_conductance(double plain, double capacity)
{
    return capacity * -expm1(-plain / capacity);
}

/* The impedances on both sides of a contact of length l over which the work slides for the time t:
 * 0.752 sqrt(t)/e and l Abar/k. The flux of a heat q in J/m2 over that time is q/t. */
BITE_FORMULA void bite_heat_fill_rake(const bite_heat_case *heat_case, const bite_heat_shape *shape,
                                      bite_heat_network *net)
{
    double length = shape->contact_length;
    double friction = heat_case->friction_share * heat_case->pressure; /* J/m3 */
    double root_time = sqrt(length * heat_case->chip_ratio / heat_case->speed);
    double chip_side = BITE_HEAT_SLIDING * net->resistivity * root_time;
    double tool_side = length * shape->rake_shape * net->tool_resistivity;
    double area = heat_case->teeth_chip * length * heat_case->depth;
    double capacity = net->stream * heat_case->volumetric;
    double plain = area / (chip_side + tool_side);
    double limited = bite_heat_stream_conductance(plain, capacity > 0.0 ? capacity : 1.0);
    net->shear_heat =
        heat_case->heat_share * (1.0 - heat_case->friction_share) * heat_case->pressure;
    net->shear_rise = (1.0 - shape->work_share) * net->shear_heat * net->per_volumetric;
    net->rake_drive = heat_case->sublayer_share * BITE_HEAT_SLIDING * friction * heat_case->chip *
                      heat_case->chip_ratio * net->resistivity / root_time;
    net->rake_tool = area > 0.0 ? tool_side / area : 0.0;
    net->rake_conductance = heat_case->endless_chip ? plain : limited; /* 0 without a chip */
    net->friction = friction * net->stream;
    net->into_work = shape->work_share * net->shear_heat * net->stream;
}

BITE_FORMULA void bite_heat_fill_flank(const bite_heat_case *heat_case,
                                       const bite_heat_shape *shape, bite_heat_network *net)
{
    double land = heat_case->flank_land;
    double work_side = BITE_HEAT_SLIDING * net->resistivity * net->flank_root;
    double tool_side = land * shape->flank_shape * net->tool_resistivity;
    double both = 1.0 / (work_side + tool_side);
    net->edge_drive = heat_case->edge_born * BITE_HEAT_SLIDING * heat_case->edge *
                      net->resistivity / net->flank_root;
    net->edge_split = heat_case->edge_born * work_side * both;
    net->flank_conductance = heat_case->teeth_edge * land * heat_case->depth * both;
    net->into_work += net->swept * heat_case->edge;
}

BITE_FORMULA bite_heat_network bite_heat_network_of(const bite_heat_case *heat_case,
                                                    const bite_heat_shape *shape)
{
    bite_heat_network net;
    net.effusivity = sqrt(heat_case->conductivity * heat_case->volumetric);
    net.resistivity = 1.0 / net.effusivity;
    net.tool_resistivity = 1.0 / heat_case->tool_conductivity;
    net.per_volumetric = 1.0 / heat_case->volumetric;
    net.flank_root = sqrt(heat_case->flank_land / heat_case->speed);
    net.swept = heat_case->teeth_edge * heat_case->depth * heat_case->speed;
    net.stream = heat_case->teeth_chip * heat_case->depth * heat_case->chip * heat_case->speed;
    bite_heat_fill_rake(heat_case, shape, &net);
    bite_heat_fill_flank(heat_case, shape, &net);
    net.tool_conductance = 1.0 / heat_case->resistance;
    return net;
}

/* A temperature rise or a flow of heat, which grows in proportion to the share s of the friction
 * that a softened face still makes. */
typedef struct bite_heat_line {
    double without; /* at s = 0 */
    double each;    /* what the whole friction adds */
} bite_heat_line;

BITE_FORMULA double bite_heat_line_at(bite_heat_line line, double share)
{
    return line.without + share * line.each;
}

/* Rises above the start, K, and heat into the rake face, W. */
typedef struct bite_heat_balance {
    bite_heat_line preheat;
    bite_heat_line tool;
    bite_heat_line into_rake;
    bite_heat_line into_flank;
} bite_heat_balance;

/* The heat balance of the tool gives T_tool = level + gain * preheat; recirculation gives preheat =
 * kappa (into_work - flank). */
BITE_FORMULA bite_heat_balance bite_heat_balance_of(const bite_heat_case *heat_case,
                                                    const bite_heat_network *net)
{
    double rake = net->rake_conductance;
    double flank = net->flank_conductance;
    double tool = net->tool_conductance;
    double all = 1.0 / (rake + flank + tool);
    double gain = (rake + flank * heat_case->share_deep) * all;
    double level = (rake * net->shear_rise + flank * net->edge_drive +
                    tool * (heat_case->sink - heat_case->start)) *
                   all;
    double level_each = rake * net->rake_drive * all;
    double kappa = heat_case->share_met / (heat_case->volumetric * heat_case->removal_rate);
    double flank_cold = flank * (net->edge_drive - level);
    double flank_gain = flank * (heat_case->share_deep - gain);
    double fed = kappa / (1.0 + kappa * flank_gain);
    bite_heat_balance at;
    at.preheat.without = fed * (net->into_work - flank_cold);
    at.preheat.each = fed * flank * level_each;
    at.tool.without = level + gain * at.preheat.without;
    at.tool.each = level_each + gain * at.preheat.each;
    at.into_flank.without = flank_cold + flank_gain * at.preheat.without;
    at.into_flank.each = flank_gain * at.preheat.each - flank * level_each;
    at.into_rake.without = rake * (net->shear_rise + at.preheat.without - at.tool.without);
    at.into_rake.each = rake * (net->rake_drive + at.preheat.each - at.tool.each);
    return at;
}

/* s = soft(T_rake(s)): T_rake is a rising line in s, soft falls in straight pieces, so the root is
 * unique and has a closed form. 1 without a chip or a transition. */
BITE_FORMULA double bite_heat_friction_share(const bite_heat_case *heat_case,
                                             const bite_heat_network *net,
                                             const bite_heat_balance *at)
{
    const double fall =
        (1.0 - BITE_HEAT_FRICTION_LEAST) / (BITE_HEAT_SOFTEN_TO - BITE_HEAT_SOFTEN_FROM);
    double base = at->tool.without + net->rake_tool * at->into_rake.without;
    double rise = at->tool.each + net->rake_tool * at->into_rake.each;
    double from = heat_case->transition + BITE_HEAT_SOFTEN_FROM - heat_case->start;
    double share = bite_within((1.0 - fall * (base - from)) / (1.0 + fall * rise),
                               BITE_HEAT_FRICTION_LEAST, 1.0);
    double of_chip = net->rake_tool > 0.0 ? share : 1.0;
    return heat_case->transition > 0.0 ? of_chip : 1.0;
}

/* Edge work in a skin of depth d_p, spreading while the flank passes: both limits exact. */
BITE_FORMULA void bite_heat_fill_skin(const bite_heat_case *heat_case, const bite_heat_network *net,
                                      bite_heat *heat)
{
    /* rho c times the depth to which the heat spreads, sqrt(pi a t)/2 */
    double spread = 0.5 * sqrt(M_PI) * net->effusivity * net->flank_root;
    heat->edge_energy = (1.0 - net->edge_split) * heat_case->edge;
    heat->skin = heat_case->start + heat_case->share_deep * heat->preheat +
                 heat->edge_energy / (heat_case->volumetric * heat_case->skin + spread);
    heat->film = (heat_case->tool_effusivity * heat->tool + net->effusivity * heat->skin) /
                 (heat_case->tool_effusivity + net->effusivity);
}

/** Solves the case whose shape is known. All members are finite, except that transition may be NaN;
 * speeds, lengths and properties are > 0. */
BITE_FORMULA void bite_heat_solve_shape(const bite_heat_case *heat_case,
                                        const bite_heat_shape *shape, bite_heat *heat)
{
    bite_heat_network net = bite_heat_network_of(heat_case, shape);
    bite_heat_balance at = bite_heat_balance_of(heat_case, &net);
    double share = bite_heat_friction_share(heat_case, &net, &at);
    double into_rake = bite_heat_line_at(at.into_rake, share);
    double into_flank = bite_heat_line_at(at.into_flank, share);
    double tool = bite_heat_line_at(at.tool, share);
    double chip_rise =
        (net.friction - into_rake) / (net.stream > 0.0 ? net.stream * heat_case->volumetric : 1.0);
    heat->work_share = shape->work_share;
    heat->friction = share;
    heat->preheat = bite_heat_line_at(at.preheat, share);
    heat->tool = heat_case->start + tool;
    heat->rake = heat->tool + net.rake_tool * into_rake;
    heat->shear = heat_case->start + heat->preheat + net.shear_rise;
    heat->chip = net.stream > 0.0 ? heat->shear + chip_rise : heat_case->start + heat->preheat;
    bite_heat_fill_skin(heat_case, &net, heat);

    double shear_work = (1.0 - heat_case->friction_share) * heat_case->pressure * net.stream;
    double into_work = net.into_work - into_flank;
    heat->power =
        heat_case->pressure * net.stream + net.swept * (heat_case->edge + heat_case->fracture);
    heat->stored = (1.0 - heat_case->heat_share) * shear_work + net.swept * heat_case->fracture;
    heat->to_tool = into_rake + into_flank;
    heat->to_part = (1.0 - heat_case->share_met) * into_work;
    heat->to_chip = (1.0 - shape->work_share) * heat_case->heat_share * shear_work + net.friction -
                    into_rake + heat_case->share_met * into_work;
}

#endif
