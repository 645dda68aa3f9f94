/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a tool with a corner radius, up to a ball end: sums over slices of the edge at angles
 * of a turn. */
#include "tests/oracle/closed_forms/corner_radius_mill.h"
#include "core/base/gauss_legendre.h"
#include "tests/support/test_formulas.h"
#include <math.h>
#include <string.h>

/* A slice of the edge. */
typedef struct tool_slice {
    double height; /* above the tip, m */
    double rise;   /* dz, m */
    double length; /* db, m */
    double radius; /* m */
    double sine;   /* of kappa */
    double cosine;
} tool_slice;

/* Sets the angles of a turn and clears the sums. */
static void set_angles(const bite_corner_tool *tool, double span, bite_round_turn *turn)
{
    static const double kink_distance = 1e-7;
    static const double angles_per_arc = 12.0;
    double angles = ceil(2.0 * M_PI / span * angles_per_arc);
    double enter = tool->side == BITE_CLIMB ? M_PI - span : 0.0;
    double lag = tool->depth * tan(tool->helix) / (0.5 * tool->diameter);
    turn->angles = (int)fmin(BITE_ROUND_ANGLES_MAX, fmax(BITE_ROUND_ANGLES_LEAST, angles));
    for (turn->all = 0; turn->all < turn->angles; turn->all++) {
        turn->at[turn->all] = bite_angle_of(2.0 * M_PI * turn->all / turn->angles);
    }
    for (int j = 0; j < (int)tool->flutes; j++) {
        for (int end = 0; end < 4; end++) {
            double at = 2.0 * M_PI * j / tool->flutes + enter + (end % 2 ? span : 0.0) +
                        (end / 2 ? lag : 0.0);
            turn->at[turn->all++] = bite_angle_of(at - kink_distance);
            turn->at[turn->all++] = bite_angle_of(at + kink_distance);
        }
    }
    memset(turn->load, 0, (size_t)turn->all * sizeof *turn->load);
    memset(turn->torque, 0, (size_t)turn->all * sizeof *turn->torque);
    memset(turn->mean, 0, (size_t)turn->angles * sizeof *turn->mean);
}

static tool_slice slice_of_corner(const bite_corner_tool *tool, double kappa, double step)
{
    double corner = tool->corner_radius;
    tool_slice slice;
    slice.sine = sin(kappa);
    slice.cosine = cos(kappa);
    slice.height = corner * (1.0 - slice.cosine);
    slice.rise = corner * slice.sine * step;
    slice.length = corner * step;
    slice.radius = 0.5 * tool->diameter - corner + corner * slice.sine;
    return slice;
}

static int make_slices(const bite_corner_tool *tool, tool_slice *slices)
{
    double corner = tool->corner_radius;
    double reach = tool->depth >= corner ? 0.5 * M_PI : acos(1.0 - tool->depth / corner);
    int count = 0;
    for (int i = 0; i < BITE_GAUSS_LEGENDRE_POINTS; i++) {
        slices[count++] = slice_of_corner(tool, 0.5 * reach * (1.0 + bite_gauss_legendre_point[i]),
                                          0.5 * reach * bite_gauss_legendre_weight[i]);
    }
    return count;
}

/* The arc of contact at a radius. The stock left by a pass of the same tool is equally wide at
 * every height: ae, or the whole diameter there if that is less. */
static double span_at(double width, double radius)
{
    return width >= 2.0 * radius * (1.0 - 1e-12) ? M_PI : acos(1.0 - width / radius);
}

static double wrapped(double phi)
{
    return phi - 2.0 * M_PI * floor(phi / (2.0 * M_PI));
}

/* Chip thickness of a tooth at its own angle, before the slope of the edge reduces it; < 0: no
 * contact. */
static double chip_at(const bite_piece *pieces, int count, double phi, double sine)
{
    for (int i = 0; i < count; i++) {
        if (phi >= pieces[i].enter && phi <= pieces[i].leave) {
            return pieces[i].slope * sine + pieces[i].offset;
        }
    }
    return -1.0;
}

static bite_load load_of(const bite_pressure *pressure, const tool_slice *slice, double chip,
                         const bite_angle *angle)
{
    double tangential =
        pressure->tangential * chip * slice->rise + pressure->edge_tangential * slice->length;
    double normal = pressure->radial * chip * slice->rise + pressure->edge_radial * slice->length;
    double axial = pressure->axial * chip * slice->rise + pressure->edge_axial * slice->length;
    double radial = normal * slice->sine;
    bite_load load = {tangential, -tangential * angle->cosine - radial * angle->sine,
                      tangential * angle->sine - radial * angle->cosine,
                      axial - normal * slice->cosine};
    return load;
}

static void add_peak(bite_round_turn *turn, int k, const bite_load *load, double radius)
{
    turn->load[k].tangential += load->tangential;
    turn->load[k].x += load->x;
    turn->load[k].y += load->y;
    turn->load[k].lift += load->lift;
    turn->torque[k] += load->tangential * radius;
}

static void add_mean(bite_round_turn *turn, int k, const bite_load *load)
{
    turn->mean[k].x += load->x;
    turn->mean[k].y += load->y;
    turn->mean[k].lift += load->lift;
}

/* The pressure for the peaks: at the thickest chip that a tooth may cut where the geometric one is
 * h. */
static bite_pressure peak_pressure(const bite_corner_tool *tool, const bite_pressure *pressure,
                                   double h)
{
    double factor = h > 0.0 ? bite_chip_peak(h, tool->least_chip) / h : 1.0;
    return bite_pressure_thicker(pressure, factor);
}

static void add_slice(const bite_corner_tool *tool, const tool_slice *slice, const bite_chip *chip,
                      const bite_pressure *pressure, bite_round_turn *turn)
{
    bite_pressure peak = peak_pressure(tool, pressure, chip->most * slice->sine);
    double lag = slice->height * tan(tool->helix) / (0.5 * tool->diameter);
    for (int j = 0; j < chip->flutes; j++) {
        const bite_tooth *tooth = bite_chip_tooth(chip, j);
        const bite_piece *pieces = bite_chip_pieces(chip, tooth);
        bite_angle ahead = bite_angle_of(-2.0 * M_PI * j / chip->flutes - lag);
        for (int k = 0; tooth->count > 0 && k < turn->all; k++) {
            bite_angle angle =
                bite_angle_sum(wrapped(turn->at[k].at + ahead.at), turn->at[k], ahead);
            double thickness = chip_at(pieces, tooth->count, angle.at, angle.sine);
            if (thickness < 0.0) {
                continue;
            }
            bite_load most = load_of(&peak, slice, thickness, &angle);
            add_peak(turn, k, &most, slice->radius);
            if (k < turn->angles) {
                bite_load mean = load_of(pressure, slice, thickness, &angle);
                add_mean(turn, k, &mean);
            }
        }
    }
}

/* Means are computed from the arcs, not from the sums at single angles. */
static void add_means(const tool_slice *slice, const bite_chip *chip, const bite_pressure *pressure,
                      bite_corner_mill *mill, double *area)
{
    double turns = 1.0 / (2.0 * M_PI);
    double cut_force = pressure->tangential * chip->area * slice->rise * turns;
    double edge_force = pressure->edge_tangential * chip->arc * slice->length * turns;
    mill->mean.tangential += cut_force + edge_force;
    mill->torque_mean += (cut_force + edge_force) * slice->radius;
    mill->teeth_edge += chip->arc * turns * slice->length;
    mill->edge_length += slice->length;
    mill->heavy_chip = fmax(mill->heavy_chip, chip->most * slice->sine);
    *area += chip->area * slice->rise;
}

/* The cylinder above the corner radius as one slice, with the height of the upper end of its wall.
 */
static tool_slice slice_of_cylinder(const bite_corner_tool *tool)
{
    double above = tool->depth - tool->corner_radius;
    tool_slice slice = {tool->depth, above, above, 0.5 * tool->diameter, 1.0, 0.0};
    return slice;
}

/* Adds the cylinder in closed form, as a square end mill that is a corner radius higher. */
static void add_cylinder(const bite_corner_tool *tool, const tool_slice *slice, double width,
                         double tooth_feed, const bite_pressure *pressure, bite_round_turn *turn,
                         bite_force *force, bite_corner_mill *mill, double *area)
{
    bite_chip chip;
    double lag = tool->corner_radius * tan(tool->helix) / (0.5 * tool->diameter);
    double span = span_at(width, slice->radius);
    bite_arc arc = bite_engagement_arc(span, tool->side);
    bite_chip_init(&chip, arc, tooth_feed, (int)tool->flutes, tool->runout);
    bite_pressure peak = peak_pressure(tool, pressure, chip.most);
    bite_force_init(force, &chip, pressure, &peak, slice->rise, tool->diameter, tool->helix);
    for (int k = 0; k < turn->all; k++) {
        double phi = turn->at[k].at - lag;
        bite_edge_span stands = bite_edge_span_at(&force->edges, phi);
        bite_angle within = bite_angle_of(phi - stands.away);
        double met[BITE_EDGE_TERMS];
        bite_edge_within(&force->edges, stands, &within, met);
        bite_load load = bite_force_of(&peak, met);
        add_peak(turn, k, &load, slice->radius);
    }
    add_means(slice, &chip, pressure, mill, area);
    mill->mean.x += force->mean.x;
    mill->mean.y += force->mean.y;
    mill->mean.lift += force->mean.lift;
    mill->section += slice->radius * (1.0 - cos(span)) * slice->rise;
}

static void find_peaks(const bite_round_turn *turn, bite_corner_mill *mill)
{
    for (int k = 0; k < turn->all; k++) {
        const bite_load *load = &turn->load[k];
        mill->peaks.tangential = fmax(mill->peaks.tangential, load->tangential);
        mill->peaks.side = fmax(mill->peaks.side, hypot(load->x, load->y));
        mill->peaks.lift =
            fabs(load->lift) > fabs(mill->peaks.lift) ? load->lift : mill->peaks.lift;
        mill->torque_peak = fmax(mill->torque_peak, turn->torque[k]);
        if (k < turn->angles) {
            mill->mean.x += turn->mean[k].x / turn->angles;
            mill->mean.y += turn->mean[k].y / turn->angles;
            mill->mean.lift += turn->mean[k].lift / turn->angles;
        }
    }
}

/* The wall is finished at each height by the edge that is at the wall there; the force is
 * interpolated linearly between the angles. */
static void find_wall(const bite_corner_tool *tool, double width, const tool_slice *slices,
                      int count, const bite_round_turn *turn, bite_corner_mill *mill)
{
    int slot = width >= tool->diameter * (1.0 - 1e-9);
    for (int wall = 0; wall < 2; wall++) { /* 0: conventional, phi = 0; 1: climb, phi = pi */
        if (!slot && wall != (tool->side == BITE_CLIMB)) {
            continue;
        }
        for (int i = 0; i < count; i++) {
            if (slices[i].sine < 0.5 && i + 1 < count) {
                continue; /* floor, not wall; if all of the edge cuts floor, its upper end counts */
            }
            double lag = slices[i].height * tan(tool->helix) / (0.5 * tool->diameter);
            double at = wrapped((wall ? M_PI : 0.0) + lag) / (2.0 * M_PI) * turn->angles;
            int below = (int)at % turn->angles;
            double share = at - floor(at);
            double force = (1.0 - share) * turn->load[below].y +
                           share * turn->load[(below + 1) % turn->angles].y;
            if (!(fabs(force) <= fabs(mill->wall_force[wall]))) {
                /* a force towards the wall at -y removes too much, one away from it leaves stock;
                 * the sign is that of bite_tool_deflection_wall_errors */
                mill->wall_force[wall] = wall ? force : -force;
                mill->wall_height[wall] = slices[i].height;
            }
        }
    }
}

void bite_corner_mill_forces(const bite_corner_tool *tool, double width, double tooth_feed,
                             const bite_pressure *pressure, bite_round_turn *turn,
                             bite_force *cylinder, bite_corner_mill *mill)
{
    tool_slice slices[BITE_GAUSS_LEGENDRE_POINTS + 1];
    double area = 0.0;
    memset(mill, 0, sizeof *mill);
    mill->wall_force[0] = mill->wall_force[1] = (double)NAN;
    set_angles(tool, span_at(width, 0.5 * tool->diameter), turn);
    int count = make_slices(tool, slices);
    for (int i = 0; i < count; i++) {
        const tool_slice *slice = &slices[i];
        double span = span_at(width, slice->radius);
        bite_chip chip;
        bite_arc arc = bite_engagement_arc(span, tool->side);
        bite_chip_init(&chip, arc, tooth_feed, (int)tool->flutes, tool->runout);
        add_slice(tool, slice, &chip, pressure, turn);
        add_means(slice, &chip, pressure, mill, &area);
        mill->section += slice->radius * (1.0 - cos(span)) * slice->rise;
    }
    if (tool->depth > tool->corner_radius) {
        slices[count] = slice_of_cylinder(tool);
        add_cylinder(tool, &slices[count], width, tooth_feed, pressure, turn, cylinder, mill,
                     &area);
        count++;
    }
    find_peaks(turn, mill);
    find_wall(tool, width, slices, count, turn, mill);
    /* mean chip thickness over the edge length: area rise/(arc length) */
    mill->chip_mean = mill->teeth_edge > 0.0 ? area / (2.0 * M_PI * mill->teeth_edge) : 0.0;
    mill->teeth_edge /= mill->edge_length;
}
