/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loads and utilization of workholding: bonds, vacuum plates, jaws, screws and tabs. */
#include "core/physics/holding/workholding.h"
#include <math.h>

double bite_workholding_groove(double pressure, double groove, double rigidity)
{
    return pressure * pow(groove, 4.0) / (384.0 * rigidity);
}

static void update_worst(bite_workholding_share *worst, double utilization,
                         bite_workholding_way mode)
{
    if (isnan(utilization) ||
        utilization > worst->utilization) { /* NaN, an unknown strength, is never replaced */
        worst->utilization = utilization;
        worst->mode = mode;
    }
}

double bite_workholding_mean_radius(double along, double across)
{
    double a = 0.5 * along;
    double b = 0.5 * across;
    return hypot(a, b) / 3.0 + a * a / (6.0 * b) * asinh(b / a) + b * b / (6.0 * a) * asinh(a / b);
}

bite_workholding_share bite_workholding_clamped(const bite_workholding_jaws *jaws,
                                                const bite_workholding_load *load)
{
    bite_workholding_share worst = {0.0, BITE_WORKHOLDING_SLIP};
    double friction_force = 2.0 * jaws->friction * jaws->force;
    double torque_force =
        load->side * load->height / bite_workholding_mean_radius(jaws->width, jaws->depth);
    double across = load->side / jaws->force;
    update_worst(&worst, (hypot(load->side, fmax(0.0, load->lift)) + torque_force) / friction_force,
                 BITE_WORKHOLDING_SLIP);
    update_worst(&worst, across * (1.0 + 2.0 * load->height / jaws->depth), BITE_WORKHOLDING_LEVER);
    update_worst(&worst, across * (1.0 + 2.0 * load->arm / jaws->width), BITE_WORKHOLDING_LEVER);
    if (!isnan(jaws->part_bearing)) {
        update_worst(&worst, jaws->force / (jaws->width * jaws->depth * jaws->part_bearing),
                     BITE_WORKHOLDING_CRUSH);
    }
    return worst;
}

bite_workholding_share bite_workholding_screwed(const bite_workholding_screws *screws, double along,
                                                double across, const bite_workholding_load *load)
{
    const double stress_share =
        0.7; /* of the thread's circle: 5.03, 8.78 and 20.1 mm2 of M3, M4 and M6 (memory) */
    const double head = 2.25;   /* diameters; washers of M3 to M8 are 2.0 to 2.4 (memory) */
    const double torsion = 1.3; /* stress of a shank that is tightened, over its tension */
    bite_workholding_share worst = {0.0, BITE_WORKHOLDING_SLIP};
    double lift = fmax(0.0, load->lift);
    double circle = 0.25 * M_PI * screws->diameter * screws->diameter;
    double clamping_force = screws->count * screws->force - lift;
    double apart = screws->count < 2.0 ? 1.5 * screws->diameter : screws->apart;
    double sideways = load->side * (1.0 + 2.0 * load->arm / apart);
    double tension = (lift + 2.0 * load->side * load->height / fmin(along, across)) / screws->count;
    double hole = screws->diameter * screws->thickness;
    update_worst(&worst,
                 clamping_force > 0.0 ? sideways / (screws->friction * clamping_force) : INFINITY,
                 BITE_WORKHOLDING_SLIP);
    update_worst(&worst, tension / screws->force, BITE_WORKHOLDING_LEVER);
    update_worst(&worst,
                 (screws->force + tension) /
                     (0.5 * M_PI * screws->diameter * screws->engaged * screws->plate_shear),
                 BITE_WORKHOLDING_STRIP);
    update_worst(
        &worst, (torsion * screws->force + tension) / (stress_share * circle * screws->screw_yield),
        BITE_WORKHOLDING_STRETCH);
    update_worst(&worst, sideways / screws->count / (stress_share * circle * screws->screw_shear),
                 BITE_WORKHOLDING_SHEAR);
    if (!isnan(screws->part_bearing)) {
        update_worst(&worst, screws->force / ((head * head - 1.0) * circle * screws->part_bearing),
                     BITE_WORKHOLDING_CRUSH);
        update_worst(&worst, sideways / screws->count / (hole * screws->part_bearing),
                     BITE_WORKHOLDING_CRUSH);
    }
    return worst;
}

bite_workholding_share bite_workholding_tabbed(const bite_workholding_tabs *tabs, double along,
                                               double across, const bite_workholding_load *load)
{
    bite_workholding_share share = {0.0, BITE_WORKHOLDING_BREAK};
    double shorter = fmin(along, across);
    double sideways = load->side * (1.0 + 2.0 * load->arm / shorter) / tabs->count;
    double upward =
        (fmax(0.0, load->lift) + 2.0 * load->side * load->height / shorter) / tabs->count;
    double shear = sideways / (tabs->width * tabs->height);
    double bending = 3.0 * upward * tabs->length / (tabs->width * tabs->height * tabs->height) +
                     3.0 * sideways * tabs->length / (tabs->height * tabs->width * tabs->width);
    share.utilization = hypot(bending, sqrt(3.0) * shear) / tabs->strength;
    return share;
}

static const double nut_factor = 0.2;

double bite_workholding_tightened(double torque, double diameter)
{
    return torque / (nut_factor * diameter);
}

double bite_workholding_torque(double force, double diameter)
{
    return nut_factor * force * diameter;
}

double bite_workholding_buckling(double modulus, double poisson, double thickness, double between,
                                 double width)
{
    double stress = M_PI * M_PI * modulus * thickness * thickness /
                    (12.0 * (1.0 - poisson * poisson) * between * between);
    return stress * width * thickness;
}

double bite_workholding_squeeze(double force, double modulus, double thickness, double between,
                                double width)
{
    return force * between / (modulus * width * thickness);
}

double bite_workholding_chance(double utilization, double scatter)
{
    return 0.5 * erfc(-log(utilization) / (scatter * M_SQRT2));
}

double bite_workholding_cure(double gap)
{
    const double touching = 10.0; /* s */
    const double at_gap = 600.0;
    const double known_gap = 0.127e-3; /* m */
    const double day = 86400.0;
    return fmin(day, touching * pow(at_gap / touching, fmax(0.0, gap) / known_gap));
}
