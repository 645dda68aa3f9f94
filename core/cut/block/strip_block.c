/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The load of a block of edges in strips at an instant: the sum over all teeth, their strips and
 * the hinges of their chips. */
#include "core/cut/block/strip_block.h"
#include "core/physics/force/edge_strip.h"

static void find_bounds(int lanes, const double *number, double *low, double *high)
{
    *low = *high = number[0];
    for (int k = 1; k < lanes; k++) {
        *low = bite_smaller(number[k], *low);
        *high = bite_larger(number[k], *high);
    }
}

/* ---- the strips of a tooth ---- */

/* A tooth, ahead of tooth 0 by an angle. */
typedef struct strip_tooth {
    int first; /* of its hinges */
    int last;  /* behind them */
    bite_turned ahead;
} strip_tooth;

BITE_IN_LANES static void turn_tip(const bite_block *restrict block, bite_turned ahead,
                                   const bite_turned_lanes *restrict tip,
                                   bite_turned_lanes *restrict own)
{
    BITE_EACH_LANE(k, block)
    {
        bite_turned_store(own, k, bite_turned_sum(bite_turned_lane(tip, k), ahead));
    }
}

/* Hinges that are added together. */
#define HINGES_MOST 3

/* Some of the hinges of a tooth in lanes. */
typedef struct hinge_group {
    const double *slope[HINGES_MOST];
    const double *offset[HINGES_MOST];
    const double *bound[HINGES_MOST]; /* the sines from which they count */
    const double *touch;              /* rad, from which the tooth touches */
    double edges; /* 1, or 0: the edge is added with other hinges of the tooth */
} hinge_group;

BITE_FORMULA double margin_of(const bite_strip_node *restrict node,
                              const bite_turned_lanes *restrict tip, int k)
{
    return node->margin[k] + node->margin_cosine[k] * tip->cosine[k] -
           node->margin_sine[k] * tip->sine[k];
}

/* The part of a strip that is in contact. */
BITE_FORMULA bite_strip_part part_of(const bite_strip_node *restrict node,
                                     const bite_strip *restrict strip,
                                     const bite_turned_lanes *restrict tip, double touch, int k)
{
    bite_strip_part touching =
        bite_strip_touching(tip->at[k] + node[1].ahead[k], strip->per_turn[k], 0.5 * M_PI - touch);
    bite_strip_part inside =
        bite_strip_inside(margin_of(&node[0], tip, k), margin_of(&node[1], tip, k),
                          margin_of(&node[2], tip, k), strip->turn[k]);
    bite_strip_part part = {bite_larger(touching.from, inside.from),
                            bite_smaller(touching.to, inside.to)};
    return part;
}

/* Adds the strips from..to - 1 of a tooth with some of its hinges; hinges: how many, a constant
 * where this is inlined. */
BITE_FORMULA void add_strips(const bite_block *restrict block, hinge_group group, int hinges,
                             int from, int to, const bite_strip_work *restrict work,
                             bite_strip_load *restrict load)
{
    const bite_turned_lanes *restrict tip = &work->tooth_tip;
    const double *restrict touch = group.touch;
    double edges = group.edges;
    double sense = work->sense;
    for (int i = from; i < to; i++) {
        const bite_strip *restrict strip = &work->strip[i];
        const bite_strip_node *restrict node = &work->node[2 * i];
        BITE_EACH_LANE(k, block)
        {
            bite_strip_part part = part_of(node, strip, tip, touch[k], k);
            double length = bite_larger(0.0, part.to - part.from);
            double middle = 0.5 * (part.from + part.to);
            bite_strip_means means = bite_strip_means_of(
                tip->sine[k] * node[1].cosine[k] + tip->cosine[k] * node[1].sine[k],
                tip->cosine[k] * node[1].cosine[k] - tip->sine[k] * node[1].sine[k],
                middle * strip->turn[k], 0.5 * length * strip->turn[k]);
            double slope = 0.0;
            double offset = 0.0;
            BITE_UNROLLED
            for (int m = 0; m < hinges; m++) {
                int counts = means.middle >= group.bound[m][k];
                slope += counts ? group.slope[m][k] : 0.0;
                offset += counts ? group.offset[m][k] : 0.0;
            }
            double share = bite_strip_share(length, middle, strip->rise[k]);
            double edge = edges * length;
            double tangential = share * strip->tangential[k];
            double radial = share * strip->radial[k];
            double edge_tangential = edge * strip->edge_tangential[k];
            double edge_radial = edge * strip->edge_radial[k];
            double chip = slope * means.sine + offset;
            double chip_sine = slope * means.sine_sine + offset * means.sine;
            double chip_cosine = sense * (slope * means.sine_cosine + offset * means.cosine);
            double cosine = sense * means.cosine;
            double cut = tangential * chip;
            double force = cut + edge_tangential;
            double widening = strip->widening[k];
            load->tangential[k] += force;
            load->x[k] -= tangential * chip_cosine + radial * chip_sine + edge_tangential * cosine +
                          edge_radial * means.sine;
            load->y[k] += tangential * chip_sine - radial * chip_cosine +
                          edge_tangential * means.sine - edge_radial * cosine;
            load->lift[k] += share * strip->lift[k] * chip + edge * strip->edge_lift[k];
            /* the chip's force is greater where the radius is */
            load->torque[k] += force * (node[1].radius[k] + middle * widening) +
                               cut * (length * length) * strip->torque_rise[k];
        }
    }
}

BITE_IN_LANES static void add_one(const bite_block *restrict block,
                                  const hinge_group *restrict group, int from, int to,
                                  const bite_strip_work *restrict work,
                                  bite_strip_load *restrict load)
{
    add_strips(block, *group, 1, from, to, work, load);
}

BITE_IN_LANES static void add_two(const bite_block *restrict block,
                                  const hinge_group *restrict group, int from, int to,
                                  const bite_strip_work *restrict work,
                                  bite_strip_load *restrict load)
{
    add_strips(block, *group, 2, from, to, work, load);
}

BITE_IN_LANES static void add_three(const bite_block *restrict block,
                                    const hinge_group *restrict group, int from, int to,
                                    const bite_strip_work *restrict work,
                                    bite_strip_load *restrict load)
{
    add_strips(block, *group, 3, from, to, work, load);
}

static void add_hinges(const bite_block *block, const bite_block_chip *chip,
                       const strip_tooth *tooth, int from, int to, bite_strip_work *work)
{
    typedef void adder(const bite_block *, const hinge_group *, int, int, const bite_strip_work *,
                       bite_strip_load *);
    static adder *const adders[HINGES_MOST] = {add_one, add_two, add_three};
    for (int first = tooth->first; first < tooth->last; first += HINGES_MOST) {
        int left = tooth->last - first;
        int hinges = left < HINGES_MOST ? left : HINGES_MOST;
        hinge_group group = {.touch = work->start[tooth->first].at,
                             .edges = first == tooth->first ? 1.0 : 0.0};
        for (int m = 0; m < hinges; m++) {
            group.slope[m] = chip->hinge[first + m].slope;
            group.offset[m] = chip->hinge[first + m].offset;
            group.bound[m] = work->bound[first + m];
        }
        adders[hinges - 1](block, &group, from, to, work, &work->load);
    }
}

/* ---- the cylinder ---- */

/* One hinge of one tooth over the cylinder, in closed form. away: whole turns, rad. */
BITE_IN_LANES static void
add_cylinder_hinge(const bite_block *restrict block, const bite_hinge_lanes *restrict hinge,
                   const bite_turned_lanes *restrict start, double away, double edges,
                   const bite_block_segment *restrict segment, const bite_strip_work *restrict work,
                   bite_strip_load *restrict load)
{
    const bite_strip_node *restrict low = &work->node[BITE_STRIP_TOP];
    const bite_strip_node *restrict high = &work->node[BITE_STRIP_TOP + 1];
    double sense = work->sense;
    BITE_EACH_LANE(k, block)
    {
        bite_turned low_ahead = {low->ahead[k] + away, low->sine[k], low->cosine[k]};
        bite_turned high_ahead = {high->ahead[k] + away, high->sine[k], high->cosine[k]};
        bite_turned own = bite_turned_lane(&work->tooth_tip, k);
        bite_edge_terms terms = bite_strip_hinge_between(
            hinge->slope[k], hinge->offset[k], bite_turned_lane(start, k),
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
    const bite_strip_node *low = &work->node[BITE_STRIP_TOP];
    const bite_strip_node *high = &work->node[BITE_STRIP_TOP + 1];
    double first = work->low_at + tooth->ahead.at + bite_smaller(low->low_ahead, high->low_ahead);
    double last = work->high_at + tooth->ahead.at + bite_larger(low->high_ahead, high->high_ahead);
    double away = 2.0 * M_PI * ceil(-last / (2.0 * M_PI));
    for (; first + away <= high->high_span; away += 2.0 * M_PI) {
        for (int m = tooth->first; m < tooth->last; m++) {
            add_cylinder_hinge(block, &chip->hinge[m], &work->start[m], away,
                               m == tooth->first ? 1.0 : 0.0, segment, work, &work->load);
        }
    }
}

/* ---- all teeth ---- */

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

static void add_tooth(const bite_block *block, const bite_block_chip *chip,
                      const strip_tooth *tooth, const bite_block_segment *segment,
                      bite_strip_work *work)
{
    int from = 0;
    int to = BITE_STRIPS;
    double tip = work->low_at + tooth->ahead.at;
    tip -= 2.0 * M_PI * floor(tip / (2.0 * M_PI));
    while (from < to && !strip_meets(work, &work->range[from], tip)) {
        from++;
    }
    while (to > from && !strip_meets(work, &work->range[to - 1], tip)) {
        to--;
    }
    if (from < to || work->cylinder) {
        turn_tip(block, tooth->ahead, &work->tip, &work->tooth_tip);
    }
    if (from < to) {
        add_hinges(block, chip, tooth, from, to, work);
    }
    if (work->cylinder) {
        add_cylinder(block, chip, tooth, segment, work);
    }
}

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
        /* an arc tangent, since the arc sine of 1 and more is slow in lanes */
        double span = 2.0 * atan(sqrt(width / bite_larger(diameter - width, 1e-30)));
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
        double radius = node->radius[k];
        double cosine = cos(node->ahead[k]);
        node->cosine[k] = cosine;
        node->margin[k] = node->width[k] - radius;
        node->margin_cosine[k] = radius * cosine;
        node->margin_sine[k] = radius * node->sine[k];
    }
}

/* A straight flute is computed as a helix that turns by this little over a strip, rad; the means
 * over a strip are those of one that turns by no more than the most for which they hold. */
static const double least_turn = 1e-10;
static const double most_turn = 2.0;

BITE_IN_LANES static void fill_turn(const bite_block *restrict block,
                                    const bite_strip_node *restrict low,
                                    const bite_strip_node *restrict high,
                                    bite_strip *restrict strip)
{
    BITE_EACH_LANE(k, block)
    {
        double turn = high->ahead[k] - low->ahead[k];
        double least = turn < 0.0 ? -least_turn : least_turn;
        strip->turn[k] = bite_within(turn, -most_turn, most_turn);
        strip->per_turn[k] = 1.0 / (fabs(turn) < least_turn ? least : turn);
        strip->widening[k] = high->radius[k] - low->radius[k];
        strip->torque_rise[k] = strip->rise[k] * strip->widening[k] / 12.0;
    }
}

/* Within a strip the angle is taken to be linear about its middle, so that its ends are a little
 * beyond the nodes. */
static bite_strip_range range_of(const bite_block *block, const bite_strip_node *node)
{
    double least = bite_smaller(node[0].low_ahead, node[2].low_ahead);
    double most = bite_larger(node[0].high_ahead, node[2].high_ahead);
    double span = bite_larger(node[0].high_span, node[2].high_span);
    double beyond = 0.0;
    for (int k = 0; k < block->lanes; k++) {
        double away = node[1].ahead[k] - 0.5 * (node[0].ahead[k] + node[2].ahead[k]);
        beyond = bite_larger(fabs(away), beyond);
    }
    bite_strip_range range = {least - beyond, most - least + 2.0 * beyond,
                              bite_larger(node[1].high_span, span)};
    return range;
}

void bite_strips_fill_nodes(const bite_block *block, bite_strip_work *work)
{
    for (int i = 0; i <= BITE_STRIP_TOP + work->cylinder; i++) {
        bite_strip_node *node = &work->node[i];
        double low;
        fill_node_sine(block, node);
        fill_node_cosine(block, node);
        find_bounds(block->lanes, node->span, &low, &node->high_span);
        find_bounds(block->lanes, node->ahead, &node->low_ahead, &node->high_ahead);
    }
    for (int i = 0; i < BITE_STRIPS; i++) {
        const bite_strip_node *node = &work->node[2 * i];
        fill_turn(block, &node[0], &node[2], &work->strip[i]);
        work->range[i] = range_of(block, node);
    }
    for (int j = 0; j < block->flutes; j++) {
        double ahead = -work->sense * 2.0 * M_PI * j / block->flutes;
        bite_turned tooth = {ahead, sin(ahead), cos(ahead)};
        work->tooth[j] = tooth;
    }
}
