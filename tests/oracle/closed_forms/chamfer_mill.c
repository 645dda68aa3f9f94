/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a chamfer: sums over slices of the cone's edge, between the heights at which a tooth is
 * in contact. */
#include "tests/oracle/closed_forms/chamfer_mill.h"
#include "core/base/gauss_legendre.h"
#include "tests/oracle/closed_forms/cone_heights.h"
#include "tests/support/test_formulas.h"
#include <math.h>
#include <string.h>

/* A piece of a tooth's chip. In conventional milling a tooth enters at the wall, at angle 0, and
 * leaves at the end of the arc; in climb milling it is the other way round. `away` is the angle
 * between the tooth and the wall, so that one code serves both. */
typedef struct chip_piece {
    double from; /* rad from the wall; rising from piece to piece */
    double to;
    double slope; /* h = slope sin(away) + offset, m */
    double offset;
} chip_piece;

/* The chip pieces of a tooth. */
typedef struct chamfer_tooth {
    int count;
    const chip_piece *pieces;
} chamfer_tooth;

/* The parts of the case that are the same for all heights and teeth. */
typedef struct chamfer_engagement {
    bite_cone cone;
    const bite_pressure *pressure;
    double sense; /* cos(phi)/cos(away): 1 conventional, -1 climb */
    double lag;   /* rad/m, by which an edge lags its lower end */
    double span;  /* rad, the arc of the upper end */
    int flutes;
    int alike;
    chamfer_tooth teeth[BITE_TEETH_MAX];
    chip_piece pieces[BITE_PIECES_MAX]; /* of all teeth */
} chamfer_engagement;

/* Integrals over the arc of contact of a tooth: of 1, sine and cosine (rad), and of the same times
 * the chip thickness (m rad). */
typedef struct arc_integrals {
    double arc;
    double sine;
    double cosine;
    double chip;
    double chip_sine;
    double chip_cosine;
} arc_integrals;

/* The error of a peak is proportional to the square of half a step: this number of steps over the
 * arc leaves 0.2 % (the load is about x - x^3 over the arc). */
#define STEPS_PER_ARC 24
#define STEPS_MAX 400

static int make_pieces(const bite_chip *chip, const bite_tooth *tooth, bite_side side,
                       chip_piece *pieces)
{
    const bite_piece *own = bite_chip_pieces(chip, tooth);
    for (int i = 0; i < tooth->count; i++) {
        const bite_piece *from = &own[side == BITE_CLIMB ? tooth->count - 1 - i : i];
        chip_piece into = {from->enter, from->leave, from->slope, from->offset};
        if (side == BITE_CLIMB) {
            into.from = M_PI - from->leave;
            into.to = M_PI - from->enter;
        }
        pieces[i] = into;
    }
    return tooth->count;
}

/* The largest sine within a piece up to an angle. */
static double sine_most(const chip_piece *piece, double until)
{
    double to = fmin(piece->to, until);
    return piece->from <= 0.5 * M_PI && to >= 0.5 * M_PI ? 1.0 : fmax(sin(piece->from), sin(to));
}

static double chip_most(const chamfer_tooth *tooth, double span)
{
    double most = 0.0;
    for (int i = 0; i < tooth->count && tooth->pieces[i].from <= span; i++) {
        most = fmax(most, tooth->pieces[i].slope * sine_most(&tooth->pieces[i], span) +
                              tooth->pieces[i].offset);
    }
    return most;
}

double bite_chamfer_chip(const bite_cone *cone, const bite_chip *chip, bite_side side, double share)
{
    double span = bite_cone_span(cone, share * cone->depth);
    double most = 0.0;
    for (int j = 0; j < (chip->alike ? 1 : chip->flutes); j++) {
        chip_piece pieces[BITE_PIECES_MAX];
        chamfer_tooth tooth = {make_pieces(chip, &chip->teeth[j], side, pieces), pieces};
        most = fmax(most, chip_most(&tooth, span));
    }
    return most * cone->sine;
}

static void prepare(const bite_chamfer_tool *tool, bite_arc arc, const bite_chip *chip,
                    const bite_pressure *pressure, chamfer_engagement *chamfer)
{
    chamfer->cone = bite_chamfer_cone_in(&tool->shape, arc);
    chamfer->pressure = pressure;
    chamfer->sense = tool->side == BITE_CLIMB ? -1.0 : 1.0;
    chamfer->lag = tan(tool->helix) / (0.5 * tool->diameter);
    chamfer->span = bite_cone_span(&chamfer->cone, chamfer->cone.depth);
    chamfer->flutes = chip->flutes;
    chamfer->alike = chip->alike;
    for (int j = 0; j < (chamfer->alike ? 1 : chamfer->flutes); j++) {
        chip_piece *own = chamfer->pieces + chip->teeth[j].first;
        chamfer->teeth[j].count = make_pieces(chip, &chip->teeth[j], tool->side, own);
        chamfer->teeth[j].pieces = own;
    }
}

/* ---- means, in closed form over each slice's arc ---- */

static arc_integrals integrate_arc(const chamfer_tooth *tooth, double span)
{
    arc_integrals sum = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    for (int i = 0; i < tooth->count && tooth->pieces[i].from < span; i++) {
        const chip_piece *at = &tooth->pieces[i];
        double a = at->from;
        double b = fmin(at->to, span);
        double arc = b - a;
        double sine = cos(a) - cos(b);
        double cosine = sin(b) - sin(a);
        sum.arc += arc;
        sum.sine += sine;
        sum.cosine += cosine;
        sum.chip += at->slope * sine + at->offset * arc;
        sum.chip_sine +=
            at->slope * (0.5 * arc - 0.25 * (sin(2.0 * b) - sin(2.0 * a))) + at->offset * sine;
        sum.chip_cosine += at->slope * 0.5 * cosine * (sin(a) + sin(b)) + at->offset * cosine;
    }
    return sum;
}

/* Adds the mean over a turn of one slice of one tooth. */
static void add_mean(const chamfer_engagement *chamfer, const arc_integrals *arc, double height,
                     double rise, bite_corner_mill *sum, double *area)
{
    const bite_pressure *pressure = chamfer->pressure;
    const bite_cone *cone = &chamfer->cone;
    double turns = (chamfer->alike ? chamfer->flutes : 1.0) / (2.0 * M_PI);
    double cut = rise * turns;
    double edge = rise / cone->sine * turns;
    double tangential =
        pressure->tangential * cut * arc->chip + pressure->edge_tangential * edge * arc->arc;
    double tangential_sine =
        pressure->tangential * cut * arc->chip_sine + pressure->edge_tangential * edge * arc->sine;
    double tangential_cosine = pressure->tangential * cut * arc->chip_cosine +
                               pressure->edge_tangential * edge * arc->cosine;
    double normal = pressure->radial * cut * arc->chip + pressure->edge_radial * edge * arc->arc;
    double normal_sine =
        pressure->radial * cut * arc->chip_sine + pressure->edge_radial * edge * arc->sine;
    double normal_cosine =
        pressure->radial * cut * arc->chip_cosine + pressure->edge_radial * edge * arc->cosine;
    sum->mean.tangential += tangential;
    sum->mean.x += -chamfer->sense * tangential_cosine - cone->sine * normal_sine;
    sum->mean.y += tangential_sine - chamfer->sense * cone->sine * normal_cosine;
    sum->mean.lift += pressure->axial * cut * arc->chip + pressure->edge_axial * edge * arc->arc -
                      cone->cosine * normal;
    sum->torque_mean += tangential * (cone->small + height * cone->slope);
    sum->teeth_edge += edge * arc->arc;
    *area += cut * arc->chip;
}

/* Adds an interval of heights without kinks, by Gauss points in the square root of the height,
 * since the arc grows as a square root at its beginning. An interval whose arc ends as a square
 * root is integrated from its upper end downwards. */
static void add_interval(const chamfer_engagement *chamfer, const chamfer_tooth *tooth, double from,
                         double to, bite_corner_mill *sum, double *area)
{
    for (int i = 0; from != to && i < BITE_GAUSS_LEGENDRE_POINTS; i++) {
        double root = 0.5 * (1.0 + bite_gauss_legendre_point[i]);
        double height = from + (to - from) * root * root;
        double rise = fabs(to - from) * root * bite_gauss_legendre_weight[i];
        arc_integrals arc = integrate_arc(tooth, bite_cone_span(&chamfer->cone, height));
        add_mean(chamfer, &arc, height, rise, sum, area);
    }
}

static void add_heights(const chamfer_engagement *chamfer, const chamfer_tooth *tooth, double low,
                        double high, bite_corner_mill *sum, double *area)
{
    if (low >= high) {
        return;
    }
    if (isinf(chamfer->cone.inside)) {
        add_interval(chamfer, tooth, low, high, sum, area);
        return;
    }
    double border = fmax(low, fmin(high, bite_cone_change_height(&chamfer->cone)));
    double middle = 0.5 * (low + border);
    add_interval(chamfer, tooth, low, middle, sum, area);
    add_interval(chamfer, tooth, border, middle, sum, area);
    add_interval(chamfer, tooth, border, high, sum, area);
}

static void add_means(const chamfer_engagement *chamfer, bite_corner_mill *sum)
{
    double area = 0.0;
    for (int j = 0; j < (chamfer->alike ? 1 : chamfer->flutes); j++) {
        const chamfer_tooth *tooth = &chamfer->teeth[j];
        for (int i = 0; i < tooth->count; i++) {
            double low = bite_cone_height(&chamfer->cone, tooth->pieces[i].from);
            double high = i + 1 == tooth->count
                              ? chamfer->cone.depth
                              : bite_cone_height(&chamfer->cone, tooth->pieces[i].to);
            add_heights(chamfer, tooth, low, high, sum, &area);
        }
    }
    sum->section = bite_chamfer_section(&chamfer->cone);
    sum->edge_length = chamfer->cone.depth / chamfer->cone.sine;
    /* mean chip thickness over the edge length, as for a tool with a corner radius */
    sum->chip_mean = sum->teeth_edge > 0.0 ? area / sum->teeth_edge : 0.0;
    sum->teeth_edge /= sum->edge_length;
}

/* ---- the load at one instant ---- */

/* A range of heights; low > high: none. */
typedef struct range {
    double low;
    double high;
} range;

/* How far a height lies above the lowest height in contact at its angle away = at + rate z.
 * *growth: the derivative with z. Concave in z, except in a corner where the arc exceeds a quarter
 * turn. */
static double height_margin(const bite_cone *cone, double at, double rate, double height,
                            double *growth)
{
    double lowest = bite_cone_height_growth(cone, at + rate * height, growth);
    *growth = 1.0 - rate * *growth;
    return height - lowest;
}

/* The end of the contact, by bisection between a height that is not in contact and one that is. */
static double bisect_contact(const bite_cone *cone, double at, double rate, double outside,
                             double inside)
{
    for (int i = 0; i < 40; i++) {
        double growth;
        double middle = 0.5 * (outside + inside);
        if (height_margin(cone, at, rate, middle, &growth) >= 0.0) {
            inside = middle;
        } else {
            outside = middle;
        }
    }
    return inside;
}

/* The first height in contact, by Newton's method inwards from an end that is not in contact. For a
 * concave function the steps never pass its root; if they do pass one, it lies within the last step
 * and is found by bisection. INFINITY: there is no contact. */
static double first_contact(const bite_cone *cone, double at, double rate, double from,
                            double sense)
{
    double height = from;
    double last = from;
    for (int i = 0; i < 60; i++) {
        double growth;
        double value = height_margin(cone, at, rate, height, &growth);
        if (value >= -1e-12 * cone->depth) {
            return value <= 1e-9 * cone->depth || i == 0
                       ? height
                       : bisect_contact(cone, at, rate, last, height);
        }
        if (!(sense * growth > 0.0)) {
            return (double)INFINITY;
        }
        last = height;
        height -= value / growth;
    }
    return height;
}

/* The heights at which an edge at the angle at + rate z from the wall is in contact: one range,
 * since the function above is concave. */
static range contact_heights(const chamfer_engagement *chamfer, double at, double rate)
{
    static const range none = {1.0, 0.0};
    range heights = {0.0, chamfer->cone.depth};
    if (fabs(rate) * chamfer->cone.depth > 1e-12) {
        double zero = -at / rate;
        double whole = (chamfer->span - at) / rate;
        heights.low = fmax(heights.low, fmin(zero, whole));
        heights.high = fmin(heights.high, fmax(zero, whole));
    } else if (at < 0.0 || at > chamfer->span) {
        return none;
    }
    if (heights.low > heights.high) {
        return none;
    }
    double low = first_contact(&chamfer->cone, at, rate, heights.low, 1.0);
    if (!(low <= heights.high)) {
        return none;
    }
    heights.low = low;
    double high = first_contact(&chamfer->cone, at, rate, heights.high, -1.0);
    heights.high = isfinite(high) ? high : low;
    return heights;
}

static void add_slice(const chamfer_engagement *chamfer, double height, double rise, double away,
                      double chip, bite_load *load, double *torque)
{
    const bite_pressure *pressure = chamfer->pressure;
    double length = rise / chamfer->cone.sine;
    double sine = sin(away);
    double cosine = chamfer->sense * cos(away);
    double tangential = pressure->tangential * chip * rise + pressure->edge_tangential * length;
    double normal = pressure->radial * chip * rise + pressure->edge_radial * length;
    double radial = normal * chamfer->cone.sine;
    load->tangential += tangential;
    load->x += -tangential * cosine - radial * sine;
    load->y += tangential * sine - radial * cosine;
    load->lift += pressure->axial * chip * rise + pressure->edge_axial * length -
                  normal * chamfer->cone.cosine;
    *torque += tangential * (chamfer->cone.small + height * chamfer->cone.slope);
}

/* Adds the forces of one chip piece over a range of heights. */
static void add_piece(const chamfer_engagement *chamfer, const chip_piece *chip, range heights,
                      double at, double rate, bite_load *load, double *torque)
{
    if (fabs(rate) * chamfer->cone.depth > 1e-12) {
        double from = (chip->from - at) / rate;
        double to = (chip->to - at) / rate;
        heights.low = fmax(heights.low, fmin(from, to));
        heights.high = fmin(heights.high, fmax(from, to));
    } else if (at < chip->from || at > chip->to) {
        return;
    }
    double half = 0.5 * (heights.high - heights.low);
    for (int i = 0; half > 0.0 && i < BITE_GAUSS_LEGENDRE_POINTS; i++) {
        double height = heights.low + half * (1.0 + bite_gauss_legendre_point[i]);
        double away = at + rate * height;
        add_slice(chamfer, height, half * bite_gauss_legendre_weight[i], away,
                  chip->slope * sin(away) + chip->offset, load, torque);
    }
}

static void add_tooth(const chamfer_engagement *chamfer, const chamfer_tooth *tooth, double at,
                      bite_load *load, double *torque)
{
    double rate = -chamfer->sense * chamfer->lag;
    range heights = contact_heights(chamfer, at, rate);
    if (heights.low > heights.high) {
        return;
    }
    for (int i = 0; i < tooth->count; i++) {
        add_piece(chamfer, &tooth->pieces[i], heights, at, rate, load, torque);
    }
}

/* The load on all teeth when the thin end of tooth 0 is at the angle `away` from the wall. */
static bite_load load_at(const chamfer_engagement *chamfer, double away, double *torque)
{
    bite_load load = {0.0, 0.0, 0.0, 0.0};
    double swept = -chamfer->sense * chamfer->lag *
                   chamfer->cone.depth; /* from the thin end to the upper end */
    *torque = 0.0;
    for (int j = 0; j < chamfer->flutes; j++) {
        /* the following tooth arrives later: it is nearer to the wall in conventional milling,
         * farther from it in climb milling */
        double at = away - chamfer->sense * 2.0 * M_PI * j / chamfer->flutes;
        double turns = floor((at + fmax(0.0, swept)) / (2.0 * M_PI));
        for (at -= 2.0 * M_PI * turns; at + fmin(0.0, swept) <= chamfer->span; at += 2.0 * M_PI) {
            add_tooth(chamfer, &chamfer->teeth[chamfer->alike ? 0 : j], at, &load, torque);
        }
    }
    return load;
}

static void update_peaks(const chamfer_engagement *chamfer, double away, bite_corner_mill *sum)
{
    double torque;
    bite_load load = load_at(chamfer, away, &torque);
    sum->peaks.tangential = fmax(sum->peaks.tangential, load.tangential);
    sum->peaks.side = fmax(sum->peaks.side, hypot(load.x, load.y));
    sum->peaks.lift = fabs(load.lift) > fabs(sum->peaks.lift) ? load.lift : sum->peaks.lift;
    sum->torque_peak = fmax(sum->torque_peak, torque);
}

/* Distance of a sample from an angle at which an end of an edge enters or leaves the cut. */
static const double kink_distance = 1e-9; /* rad */

/* Finds the peaks in even steps over the contact of each tooth, and just before and after each end
 * of its edge enters or leaves the cut. */
static void find_peaks(const chamfer_engagement *chamfer, bite_corner_mill *sum)
{
    double swept = -chamfer->sense * chamfer->lag * chamfer->cone.depth;
    double first = fmin(0.0, -swept);
    double last = fmax(chamfer->span, chamfer->span - swept);
    int steps = (int)fmin(STEPS_MAX, ceil((last - first) / chamfer->span * STEPS_PER_ARC));
    const double ends[] = {0.0, -swept, chamfer->span - swept};
    for (int j = 0; j < (chamfer->alike ? 1 : chamfer->flutes); j++) {
        double shift = chamfer->sense * 2.0 * M_PI * j / chamfer->flutes;
        for (int i = 0; i <= steps; i++) {
            update_peaks(chamfer, shift + first + (last - first) * i / steps, sum);
        }
        for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
            update_peaks(chamfer, shift + ends[i] - kink_distance, sum);
            update_peaks(chamfer, shift + ends[i] + kink_distance, sum);
        }
    }
}

/* The face is finished height by height, each by the tooth that is at the wall there (just inside
 * the contact): the force at that instant displaces it. */
#define FACE_HEIGHTS 8

static void find_wall(const chamfer_engagement *chamfer, bite_corner_mill *sum)
{
    for (int j = 0; j < (chamfer->alike ? 1 : chamfer->flutes); j++) {
        double shift = chamfer->sense * 2.0 * M_PI * j / chamfer->flutes;
        for (int i = 0; i <= FACE_HEIGHTS; i++) {
            double torque;
            double height = chamfer->cone.depth * i / FACE_HEIGHTS;
            double force =
                -chamfer->sense *
                load_at(chamfer, shift + chamfer->sense * chamfer->lag * height + kink_distance,
                        &torque)
                    .y;
            double *worst = &sum->wall_force[chamfer->sense < 0.0];
            *worst = fabs(force) <= fabs(*worst) ? *worst : force;
        }
    }
}

void bite_chamfer_forces(const bite_chamfer_tool *tool, bite_arc arc, const bite_chip *chip,
                         const bite_pressure *pressure, bite_corner_mill *sum)
{
    chamfer_engagement chamfer;
    memset(sum, 0, sizeof *sum);
    sum->wall_force[0] = sum->wall_force[1] = (double)NAN;
    prepare(tool, arc, chip, pressure, &chamfer);
    add_means(&chamfer, sum);
    sum->heavy_chip = bite_chamfer_chip(&chamfer.cone, chip, tool->side, 1.0);
    bite_pressure peak = *pressure;
    if (sum->heavy_chip > 0.0) {
        peak = bite_pressure_thicker(pressure, bite_chip_peak(sum->heavy_chip, tool->least_chip) /
                                                   sum->heavy_chip);
    }
    chamfer.pressure = &peak;
    find_peaks(&chamfer, sum);
    find_wall(&chamfer, sum);
}
