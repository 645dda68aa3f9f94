/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the plugins of laminates share: plies that the tool pushes or lifts apart, and fibres that
 * grind the edge. Inline, because a plugin links to nothing of the library. */
#ifndef BITE_PLUGINS_LAMINATE_H
#define BITE_PLUGINS_LAMINATE_H

#include "plugins/plugin_help.h"
#include <coolbite/family.h>
#include <math.h>
#include <stddef.h>

#define LAMINATE_FIGURE(member, of, text, from, to)                                                \
    static const struct bite_family_figure member = {                                              \
        .struct_size = (uint32_t)sizeof(struct bite_family_figure),                                \
        .name = #member,                                                                           \
        .quantity = of,                                                                            \
        .summary = text,                                                                           \
        .least = from,                                                                             \
        .most = to}

LAMINATE_FIGURE(ply, "length", "thickness of one ply", 10e-6, 2e-3);
LAMINATE_FIGURE(opening_energy, "energy per area", "energy that parts two plies, in opening", 10.0,
                10e3);
LAMINATE_FIGURE(edge_loss, "plain number",
                "growth of the radius of a carbide edge / path that it has slid in the laminate",
                1e-11, 1e-6);
LAMINATE_FIGURE(edge_limit, "length", "growth of the edge radius at which cuts fray", 1e-6, 200e-6);

/* ---- delamination ---- */

enum { PLY, ENERGY, MODULUS, POISSON, LIFT, TAPS, REAMS };
static const char *const delamination_numbers[] = {
    "ply",           "opening_energy", "modulus", "poisson", "force_lift_peak",
    "operation:tap", "operation:ream", NULL};

/* Ho-Cheng and Dharan 1990: a crack between plies grows where the force on the plies below it, a
 * clamped circular plate of thickness h, passes pi sqrt(8 G E h^3/(3 (1 - nu^2))). h: the last ply.
 */
static inline double critical_thrust(double energy, double modulus, double poisson, double height)
{
    static const double pi = 3.14159265358979323846;
    return pi * sqrt(8.0 * energy * modulus * height * height * height /
                     (3.0 * (1.0 - poisson * poisson)));
}

/* A drill pushes the last ply out, a helix lifts the first one. */
static inline enum bite_family_status judge_delamination(size_t count, const double *const *numbers,
                                                         double *demand, double *capacity)
{
    if (numbers[TAPS][0] > 0.0 || numbers[REAMS][0] > 0.0 || isnan(numbers[LIFT][0])) {
        return BITE_FAMILY_NO_DATA;
    }
    for (size_t k = 0; k < count; k++) {
        demand[k] = fabs(numbers[LIFT][k]);
        capacity[k] = critical_thrust(numbers[ENERGY][k], numbers[MODULUS][k], numbers[POISSON][k],
                                      numbers[PLY][k]);
    }
    return BITE_FAMILY_OK;
}

/* Advisory: whether a backing sheet holds the last ply is not known. */
static const struct bite_family_limit delamination = {
    .struct_size = (uint32_t)sizeof(struct bite_family_limit),
    .advisory = 1,
    .name = "delamination",
    .quantity = "force",
    .summary = "the thrust does not part the last or first ply, if nothing supports it",
    .equation = "|axial force| against pi sqrt(8 G E h^3/(3 (1 - nu^2))) of one ply",
    .source = "paper: Ho-Cheng and Dharan 1990, J. Eng. Ind. 112 236 (recalled)",
    .remedy = "Clamp a backing sheet under the part, plunge at less feed, use a keen drill, or "
              "drill from both sides.",
    .numbers = delamination_numbers,
    .judge = judge_delamination};

/* ---- abrasion ---- */

enum { LOSS, GROWTH, PATH, FEED, TURNS, DIAMETER, ARC, STEEL, DIAMOND };
static const char *const abrasion_numbers[] = {
    "edge_loss",  "edge_limit",        "path_length",
    "feed_rate",  "spindle_speed",     "diameter",
    "engagement", "tool_material:hss", "tool_material:diamond",
    NULL};

/* Wear of other tool materials over that of carbide: those of the speeds that last equally long, in
 * the tables of laminates (estimate). */
static const double steel_wear = 20.0;
static const double diamond_wear = 0.03;

/* An edge slides D/2 x arc in each turn. */
static inline enum bite_family_status judge_abrasion(size_t count, const double *const *numbers,
                                                     double *demand, double *capacity)
{
    double factor = numbers[STEEL][0] > 0.0     ? steel_wear
                    : numbers[DIAMOND][0] > 0.0 ? diamond_wear
                                                : 1.0;
    if (isnan(numbers[PATH][0]) || isnan(numbers[ARC][0])) {
        return BITE_FAMILY_NO_DATA;
    }
    for (size_t k = 0; k < count; k++) {
        double turns = numbers[PATH][k] / numbers[FEED][k] * numbers[TURNS][k];
        double slid = turns * 0.5 * numbers[DIAMETER][k] * numbers[ARC][k];
        demand[k] = factor * numbers[LOSS][k] * slid;
        capacity[k] = numbers[GROWTH][k];
    }
    return BITE_FAMILY_OK;
}

static const struct bite_family_limit abrasion = {
    .struct_size = (uint32_t)sizeof(struct bite_family_limit),
    .advisory = 1,
    .name = "abrasion",
    .quantity = "length",
    .summary = "the edge stays keen to the end of the path",
    .equation = "edge_loss x path/vf x n x D/2 x arc (x 20 of high-speed steel, 0.03 of diamond) "
                "against edge_limit",
    .source = "estimate: wear by the path that an edge slides among hard fibres",
    .remedy = "Feed more per turn, change the tool on the way, or use a diamond edge.",
    .numbers = abrasion_numbers,
    .judge = judge_abrasion};

/* ---- the family ---- */

static inline enum bite_family_status laminate_caution(const struct bite_host *host,
                                                       struct bite_case *judged)
{
    int failed = 0;
    if (host->number(judged, "delamination.utilization") > 1.0) {
        failed |= BITE_FAMILY_OK !=
                  add_care(host, judged, "delamination",
                           "An axial force of {delamination.demand} parts a single ply from "
                           "{delamination.capacity} on: it breaks out unless a backing sheet is "
                           "clamped hard against it. Plunge or drill at less feed.",
                           "paper: Ho-Cheng and Dharan 1990, J. Eng. Ind. 112 236 (recalled)");
    }
    if (host->number(judged, "abrasion.utilization") > 1.0) {
        failed |= BITE_FAMILY_OK !=
                  add_care(host, judged, "abrasion",
                           "Over this path the edge loses about {abrasion.demand} of its "
                           "keenness, and frays plies from {abrasion.capacity} on: change the "
                           "tool on the way, or use a diamond edge.",
                           "estimate: wear by the path that an edge slides among hard fibres");
    }
    return !failed ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
}

/* Of grades of other tables: those of cloth in epoxy. */
static inline enum bite_family_status laminate_fill(const struct bite_host *host,
                                                    struct bite_grade *grade)
{
    static const struct {
        const char *name;
        struct bite_figure figure;
        const char *source;
    } usual[] = {{"ply", {180e-6, 100e-6, 300e-6}, "estimate: cloth of usual weight"},
                 {"opening_energy", {400.0, 150.0, 1000.0}, "memory: epoxy laminates"},
                 {"edge_loss", {7e-9, 2e-9, 25e-9}, "estimate: as glass laminate"},
                 {"edge_limit", {15e-6, 8e-6, 30e-6}, "estimate: as glass laminate"}};
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++) {
        if (set_usual(host, grade, usual[i].name, &usual[i].figure, usual[i].source) !=
            BITE_FAMILY_OK) {
            return BITE_FAMILY_FAULT;
        }
    }
    return BITE_FAMILY_OK;
}

static const struct bite_family_figure *const laminate_figures[] = {&ply, &opening_energy,
                                                                    &edge_loss, &edge_limit, NULL};
static const struct bite_family_limit *const laminate_limits[] = {&delamination, &abrasion, NULL};

#endif
