/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The forces of a block of edges in strips: means in closed form over the arcs, and sums over all
 * teeth at angles of a turn. */
#include "core/cut/block/strip_block.h"
#include "core/physics/force/edge_strip.h"
#include "core/physics/force/edge_terms.h"
#include <string.h>

static const bite_turned at_wall = {0.0, 0.0, 1.0};

/* ---- the chips ---- */

BITE_IN_LANES static void start_hinge(const bite_block *restrict block,
                                      const bite_block_chip *restrict chip, double at,
                                      double *restrict bound, bite_turned_lanes *restrict start)
{
    const double *restrict runout = BITE_ROW(block, runout);
    BITE_EACH_LANE(k, block)
    {
        double ratio = runout[k] / chip->feed[k];
        bound[k] = at * ratio;
        bite_turned_store(start, k, bite_chip_hinge_start(at, ratio));
    }
}

void bite_strips_start(const bite_block *block, const bite_block_chip *chip, bite_strip_work *work)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    memset(work->area, 0, sizeof work->area);
    memset(work->teeth_edge, 0, sizeof work->teeth_edge);
    memset(work->edge_length, 0, sizeof work->edge_length);
    memset(work->section, 0, sizeof work->section);
    work->cylinder = 0;
    work->sense = block->cut->side == BITE_CLIMB ? -1.0 : 1.0;
    for (int i = 0; i < hinges->first[hinges->teeth]; i++) {
        start_hinge(block, chip, hinges->hinge[i].at, work->bound[i], &work->start[i]);
    }
}

BITE_IN_LANES static void add_chip_most(const bite_block *restrict block,
                                        const bite_hinge_lanes *restrict hinge,
                                        const double *restrict bound,
                                        const double *restrict half_sine, double *restrict chip)
{
    BITE_EACH_LANE(k, block)
    {
        chip[k] += bite_strip_chip(hinge->slope[k], hinge->offset[k], bound[k],
                                   bite_strip_sine_most(half_sine[k]));
    }
}

BITE_IN_LANES static void take_larger(const bite_block *restrict block,
                                      const double *restrict number, double *restrict most)
{
    BITE_EACH_LANE(k, block)
    {
        most[k] = bite_larger(number[k], most[k]);
    }
}

void bite_strips_chip_most(const bite_block *block, const bite_block_chip *chip,
                           const bite_strip_work *work, const double *half_sine, double *most)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    memset(most, 0, sizeof(bite_lanes));
    for (int j = 0; j < hinges->teeth; j++) {
        bite_lanes tooth = {0.0};
        for (int i = hinges->first[j]; i < hinges->first[j + 1]; i++) {
            add_chip_most(block, &chip->hinge[i], work->bound[i], half_sine, tooth);
        }
        take_larger(block, tooth, most);
    }
}

/* ---- means ---- */

BITE_IN_LANES static void fill_end(const bite_block *restrict block,
                                   const double *restrict half_sine,
                                   bite_turned_lanes *restrict end)
{
    BITE_EACH_LANE(k, block)
    {
        double half = half_sine[k];
        bite_turned span = {2.0 * asin(half), 2.0 * half * sqrt(1.0 - half * half),
                            1.0 - 2.0 * half * half};
        bite_turned_store(end, k, span);
    }
}

/* The part of the interval of a hinge between two angles. */
BITE_FORMULA bite_edge_terms hinge_between(double slope, double offset, bite_turned start,
                                           bite_turned span, bite_turned from, bite_turned to)
{
    bite_turned mirrored = {M_PI - start.at, start.sine, -start.cosine};
    bite_turned low = bite_turned_within(start, at_wall, span);
    bite_turned high = bite_turned_within(mirrored, at_wall, span);
    return bite_edge_between(slope, offset, bite_turned_within(from, low, high),
                             bite_turned_within(to, low, high));
}

/* edges: 1, or 0 for a hinge after the first of its tooth, whose edge is counted already. */
BITE_IN_LANES static void add_hinge_mean(const bite_block *restrict block,
                                         const bite_hinge_lanes *restrict hinge,
                                         const bite_turned_lanes *restrict start, double edges,
                                         double times, const bite_block_segment *restrict segment,
                                         bite_strip_work *restrict work,
                                         bite_block_force *restrict force)
{
    const bite_strip_slice *restrict slice = &work->slice;
    double sense = work->sense;
    double turns = times / (2.0 * M_PI);
    BITE_EACH_LANE(k, block)
    {
        bite_turned end = bite_turned_lane(&work->end, k);
        bite_edge_terms terms = hinge_between(hinge->slope[k], hinge->offset[k],
                                              bite_turned_lane(start, k), end, at_wall, end);
        double rise = slice->rise[k] * turns;
        double length = slice->length[k] * turns * edges;
        double sine = slice->sine[k];
        double cosine = slice->cosine[k];
        terms.area_cosine *= sense;
        terms.edge_cosine *= sense;
        bite_edge_load load = bite_edge_load_of(
            terms, segment->tangential[k] * rise, segment->radial[k] * sine * rise,
            (segment->axial[k] - segment->radial[k] * cosine) * rise,
            segment->edge_tangential[k] * length, segment->edge_radial[k] * sine * length,
            (segment->edge_axial[k] - segment->edge_radial[k] * cosine) * length);
        force->mean_tangential[k] += load.tangential;
        force->mean_x[k] += load.x;
        force->mean_y[k] += load.y;
        force->mean_lift[k] += load.lift;
        force->mean_torque[k] += load.tangential * slice->radius[k];
        work->area[k] += terms.area * rise;
        work->teeth_edge[k] += terms.edge * length;
    }
}

BITE_IN_LANES static void add_section(const bite_block *restrict block,
                                      bite_strip_work *restrict work)
{
    const bite_strip_slice *restrict slice = &work->slice;
    BITE_EACH_LANE(k, block)
    {
        double half = slice->reach[k];
        work->section[k] += 2.0 * slice->radius[k] * half * half * slice->rise[k];
        work->edge_length[k] += slice->length[k];
    }
}

static int is_first(const bite_chip_hinges *hinges, int hinge)
{
    for (int j = 0; j < hinges->teeth; j++) {
        if (hinges->first[j] == hinge) {
            return 1;
        }
    }
    return 0;
}

void bite_strips_add_hinge_mean(const bite_block *block, const bite_block_chip *chip, int hinge,
                                const bite_block_segment *segment, bite_strip_work *work,
                                bite_block_force *force)
{
    double edges = is_first(&chip->hinges, hinge) ? 1.0 : 0.0;
    double times = chip->hinges.teeth == 1 ? (double)block->flutes : 1.0;
    fill_end(block, work->slice.reach, &work->end);
    add_hinge_mean(block, &chip->hinge[hinge], &work->start[hinge], edges, times, segment, work,
                   force);
}

void bite_strips_add_mean(const bite_block *block, const bite_block_chip *chip,
                          const bite_block_segment *segment, bite_strip_work *work,
                          bite_block_force *force)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    double times = hinges->teeth == 1 ? (double)block->flutes : 1.0;
    fill_end(block, work->slice.reach, &work->end);
    add_section(block, work);
    for (int i = 0; i < hinges->first[hinges->teeth]; i++) {
        double edges = is_first(hinges, i) ? 1.0 : 0.0;
        add_hinge_mean(block, &chip->hinge[i], &work->start[i], edges, times, segment, work, force);
    }
}

BITE_IN_LANES void bite_strips_contact(const bite_block *restrict block,
                                       const bite_block_chip *restrict chip,
                                       const bite_strip_work *restrict work,
                                       const bite_block_force *restrict force,
                                       bite_block_segment *restrict segment)
{
    const double *restrict spindle = BITE_ROW(block, spindle_speed);
    BITE_EACH_LANE(k, block)
    {
        double edge = work->teeth_edge[k];
        double thick = work->area[k] / edge;
        /* the speed is the one at which the mean force makes the mean power, so that heat and force
         * agree */
        segment->contact_speed[k] =
            2.0 * M_PI * spindle[k] * force->mean_torque[k] / force->mean_tangential[k];
        segment->contact_chip[k] = edge > 0.0 ? thick : 0.0;
        segment->contact_length[k] = work->edge_length[k];
        segment->contact_teeth[k] = edge / work->edge_length[k];
        segment->contact_feed[k] = chip->feed_real[k];
    }
}

/* ---- the load at an instant ---- */

BITE_IN_LANES static void fill_tip_sine(const bite_block *restrict block,
                                        bite_turned_lanes *restrict tip)
{
    BITE_EACH_LANE(k, block)
    {
        tip->sine[k] = sin(tip->at[k]);
    }
}

BITE_IN_LANES static void fill_tip_cosine(const bite_block *restrict block,
                                          bite_turned_lanes *restrict tip,
                                          bite_strip_load *restrict load)
{
    BITE_EACH_LANE(k, block)
    {
        tip->cosine[k] = cos(tip->at[k]);
        load->tangential[k] = load->x[k] = load->y[k] = load->lift[k] = load->torque[k] = 0.0;
    }
}

/* A tooth, ahead of tooth 0 by an angle. */
typedef struct strip_tooth {
    int first; /* of its hinges */
    int last;  /* behind them */
    bite_turned ahead;
} strip_tooth;

BITE_IN_LANES static void turn_node(const bite_block *restrict block, const bite_turned *ahead,
                                    const bite_strip_node *restrict node,
                                    const bite_turned_lanes *restrict tip, double *restrict sines,
                                    double *restrict cosines, double *restrict inside)
{
    double ahead_sine = ahead->sine;
    double ahead_cosine = ahead->cosine;
    BITE_EACH_LANE(k, block)
    {
        double sine = tip->sine[k] * ahead_cosine + tip->cosine[k] * ahead_sine;
        double cosine = tip->cosine[k] * ahead_cosine - tip->sine[k] * ahead_sine;
        double own = cosine * node->cosine[k] - sine * node->sine[k];
        sines[k] = sine * node->cosine[k] + cosine * node->sine[k];
        cosines[k] = own;
        inside[k] = node->width[k] - node->radius[k] * (1.0 - own);
    }
}

/* Two hinges of a tooth in lanes, of which the second one may be 0, the sine from which the tooth
 * is in contact, and whether its edge is added with them. */
typedef struct hinge_pair {
    const bite_hinge_lanes *one;
    const bite_hinge_lanes *other;
    const double *one_bound;
    const double *other_bound;
    const double *touch;
    double edges;
} hinge_pair;

/* Adds the strips from..to - 1 of a tooth. */
BITE_IN_LANES static void add_strips(const bite_block *restrict block, const hinge_pair *pair,
                                     int from, int to, const bite_strip_work *restrict work,
                                     bite_strip_load *restrict load)
{
    const bite_hinge_lanes *restrict one = pair->one;
    const bite_hinge_lanes *restrict other = pair->other;
    const double *restrict one_bound = pair->one_bound;
    const double *restrict other_bound = pair->other_bound;
    const double *restrict touch = pair->touch;
    double edges = pair->edges;
    double sense = work->sense;
    for (int i = from; i < to; i++) {
        const bite_strip *restrict strip = &work->strip[i];
        const double *restrict low_sine = work->node_sine[i];
        const double *restrict high_sine = work->node_sine[i + 1];
        const double *restrict low_cosine = work->node_cosine[i];
        const double *restrict high_cosine = work->node_cosine[i + 1];
        const double *restrict low_inside = work->node_inside[i];
        const double *restrict high_inside = work->node_inside[i + 1];
        const double *restrict low_radius = work->node[i].radius;
        const double *restrict high_radius = work->node[i + 1].radius;
        BITE_EACH_LANE(k, block)
        {
            bite_strip_part touches =
                bite_strip_part_of(low_sine[k] - touch[k], high_sine[k] - touch[k]);
            bite_strip_part inside = bite_strip_part_of(low_inside[k], high_inside[k]);
            double start = bite_larger(touches.from, inside.from);
            double end = bite_smaller(touches.to, inside.to);
            double edge = bite_larger(0.0, end - start);
            double middle = 0.5 * (start + end);
            double bow = bite_strip_bow(strip->bow[k], edge, middle);
            double sine = bow * (low_sine[k] + middle * (high_sine[k] - low_sine[k]));
            double cosine =
                sense * bow * (low_cosine[k] + middle * (high_cosine[k] - low_cosine[k]));
            double radius = low_radius[k] + middle * (high_radius[k] - low_radius[k]);
            double chip =
                (bite_strip_chip(one->slope[k], one->offset[k], one_bound[k], sine) +
                 bite_strip_chip(other->slope[k], other->offset[k], other_bound[k], sine)) *
                bite_strip_share(edge, middle, strip->rise[k]);
            edge *= edges;
            double tangential = strip->tangential[k] * chip + strip->edge_tangential[k] * edge;
            double radial = strip->radial[k] * chip + strip->edge_radial[k] * edge;
            load->tangential[k] += tangential;
            load->x[k] -= tangential * cosine + radial * sine;
            load->y[k] += tangential * sine - radial * cosine;
            load->lift[k] += strip->lift[k] * chip + strip->edge_lift[k] * edge;
            load->torque[k] += tangential * radius;
        }
    }
}

/* One hinge of one tooth over the cylinder, in closed form. away: whole turns, rad. */
BITE_IN_LANES static void
add_cylinder_hinge(const bite_block *restrict block, const bite_hinge_lanes *restrict hinge,
                   const bite_turned_lanes *restrict start, bite_turned ahead, double edges,
                   const bite_block_segment *restrict segment, const bite_strip_work *restrict work,
                   bite_strip_load *restrict load)
{
    const bite_strip_node *restrict low = &work->node[work->strips];
    const bite_strip_node *restrict high = &work->node[work->strips + 1];
    double sense = work->sense;
    BITE_EACH_LANE(k, block)
    {
        bite_turned low_ahead = {low->ahead[k], low->sine[k], low->cosine[k]};
        bite_turned high_ahead = {high->ahead[k], high->sine[k], high->cosine[k]};
        bite_turned own = bite_turned_sum(bite_turned_lane(&work->tip, k), ahead);
        bite_edge_terms terms =
            hinge_between(hinge->slope[k], hinge->offset[k], bite_turned_lane(start, k),
                          bite_turned_lane(&work->end, k), bite_turned_sum(own, low_ahead),
                          bite_turned_sum(own, high_ahead));
        double above = work->above[k];
        double turn = high->ahead[k] - low->ahead[k];
        double length = above / (above > 0.0 ? turn : 1.0);
        double rise = length * work->thicker[k];
        length *= edges;
        terms.area_cosine *= sense;
        terms.edge_cosine *= sense;
        bite_edge_load more =
            bite_edge_load_of(terms, segment->tangential[k] * rise, segment->radial[k] * rise,
                              segment->axial[k] * rise, segment->edge_tangential[k] * length,
                              segment->edge_radial[k] * length, segment->edge_axial[k] * length);
        load->tangential[k] += more.tangential;
        load->x[k] += more.x;
        load->y[k] += more.y;
        load->lift[k] += more.lift;
        load->torque[k] += more.tangential * high->radius[k];
    }
}

static void add_cylinder(const bite_block *block, const bite_block_chip *chip,
                         const strip_tooth *tooth, const bite_block_segment *segment,
                         bite_strip_work *work)
{
    const bite_strip_node *low = &work->node[work->strips];
    const bite_strip_node *high = &work->node[work->strips + 1];
    double first = work->low_at + tooth->ahead.at + bite_smaller(low->low_ahead, high->low_ahead);
    double last = work->high_at + tooth->ahead.at + bite_larger(low->high_ahead, high->high_ahead);
    double away = 2.0 * M_PI * ceil(-last / (2.0 * M_PI));
    for (; first + away <= high->high_span; away += 2.0 * M_PI) {
        bite_turned ahead = {tooth->ahead.at + away, tooth->ahead.sine, tooth->ahead.cosine};
        for (int m = tooth->first; m < tooth->last; m++) {
            add_cylinder_hinge(block, &chip->hinge[m], &work->start[m], ahead,
                               m == tooth->first ? 1.0 : 0.0, segment, work, &work->load);
        }
    }
}

/* Whether a strip may be in contact in any lane: an interval of angles meets 0 to a span. tip: the
 * least angle of the tooth's lower end, within a turn. */
static int strip_meets(const bite_strip_work *work, const bite_strip_range *range, double tip)
{
    const double turn = 2.0 * M_PI;
    double from = tip + range->low_ahead;
    from += from < 0.0 ? turn : from >= turn ? -turn : 0.0;
    double to = from + work->high_at - work->low_at + range->width;
    /* a strip that is more than a turn ahead is not looked at closely */
    return fabs(range->low_ahead) > turn || from <= range->span || to >= turn;
}

static const bite_hinge_lanes no_hinge;

static void add_tooth(const bite_block *block, const bite_block_chip *chip,
                      const strip_tooth *tooth, const bite_block_segment *segment,
                      bite_strip_work *work)
{
    int from = 0;
    int to = work->strips;
    double tip = work->low_at + tooth->ahead.at;
    tip -= 2.0 * M_PI * floor(tip / (2.0 * M_PI));
    while (from < to && !strip_meets(work, &work->range[from], tip)) {
        from++;
    }
    while (to > from && !strip_meets(work, &work->range[to - 1], tip)) {
        to--;
    }
    if (from < to) {
        for (int i = from; i <= to; i++) {
            turn_node(block, &tooth->ahead, &work->node[i], &work->tip, work->node_sine[i],
                      work->node_cosine[i], work->node_inside[i]);
        }
        for (int m = tooth->first; m < tooth->last; m += 2) {
            int second = m + 1 < tooth->last;
            hinge_pair pair = {&chip->hinge[m],
                               second ? &chip->hinge[m + 1] : &no_hinge,
                               work->bound[m],
                               work->bound[second ? m + 1 : m],
                               work->bound[tooth->first],
                               m == tooth->first ? 1.0 : 0.0};
            add_strips(block, &pair, from, to, work, &work->load);
        }
    }
    if (work->cylinder) {
        add_cylinder(block, chip, tooth, segment, work);
    }
}

static void find_bounds(int lanes, const double *number, double *low, double *high)
{
    *low = *high = number[0];
    for (int k = 1; k < lanes; k++) {
        *low = bite_smaller(number[k], *low);
        *high = bite_larger(number[k], *high);
    }
}

void bite_strips_load_at(const bite_block *block, const bite_block_chip *chip,
                         const bite_block_segment *segment, bite_strip_work *work)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    fill_tip_sine(block, &work->tip);
    fill_tip_cosine(block, &work->tip, &work->load);
    find_bounds(block->lanes, work->tip.at, &work->low_at, &work->high_at);
    for (int j = 0; j < block->flutes; j++) {
        int own = hinges->teeth == 1 ? 0 : j;
        strip_tooth tooth = {hinges->first[own], hinges->first[own + 1], work->tooth[j]};
        add_tooth(block, chip, &tooth, segment, work);
    }
}

/* ---- nodes ---- */

BITE_IN_LANES static void fill_node_sine(const bite_block *restrict block,
                                         bite_strip_node *restrict node)
{
    BITE_EACH_LANE(k, block)
    {
        double diameter = 2.0 * node->radius[k];
        double width = node->width[k];
        int whole = width >= diameter * (1.0 - 1e-12);
        double span = 2.0 * asin(sqrt(whole ? 1.0 : width / diameter));
        node->span[k] = whole ? M_PI : span;
        /* within a slot rounding must not end the contact */
        node->width[k] = whole ? bite_larger(width, diameter * (1.0 + 1e-9)) : width;
        node->sine[k] = sin(node->ahead[k]);
    }
}

BITE_IN_LANES static void fill_node_cosine(const bite_block *restrict block,
                                           bite_strip_node *restrict node)
{
    BITE_EACH_LANE(k, block)
    {
        node->cosine[k] = cos(node->ahead[k]);
    }
}

BITE_IN_LANES static void fill_bow(const bite_block *restrict block,
                                   const bite_strip_node *restrict low,
                                   const bite_strip_node *restrict high, bite_strip *restrict strip)
{
    BITE_EACH_LANE(k, block)
    {
        double turn = high->ahead[k] - low->ahead[k];
        strip->bow[k] = turn * turn / 24.0;
    }
}

static bite_strip_range range_of(const bite_strip_node *low, const bite_strip_node *high)
{
    double least = bite_smaller(low->low_ahead, high->low_ahead);
    double most = bite_larger(low->high_ahead, high->high_ahead);
    bite_strip_range range = {least, most - least, bite_larger(low->high_span, high->high_span)};
    return range;
}

void bite_strips_fill_nodes(const bite_block *block, bite_strip_work *work)
{
    for (int i = 0; i < work->strips + 1 + work->cylinder; i++) {
        bite_strip_node *node = &work->node[i];
        double low;
        fill_node_sine(block, node);
        fill_node_cosine(block, node);
        find_bounds(block->lanes, node->span, &low, &node->high_span);
        find_bounds(block->lanes, node->ahead, &node->low_ahead, &node->high_ahead);
    }
    for (int i = 0; i < work->strips; i++) {
        fill_bow(block, &work->node[i], &work->node[i + 1], &work->strip[i]);
        work->range[i] = range_of(&work->node[i], &work->node[i + 1]);
    }
    for (int j = 0; j < block->flutes; j++) {
        double ahead = -work->sense * 2.0 * M_PI * j / block->flutes;
        bite_turned tooth = {ahead, sin(ahead), cos(ahead)};
        work->tooth[j] = tooth;
    }
}
