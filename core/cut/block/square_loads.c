/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The load of a square end mill at samples of a turn, in lanes.
 *
 * An edge reaches from its tip to its upper end; the part of it between the borders of a hinge is
 * found by clipping both ends. At steps at which all hinges hold the whole edge, in all lanes, they
 * add up to one line and nothing is clipped. Where one tooth alone is in contact, its load goes to
 * the peaks at once.
 */
#include "core/cut/block/square_loads.h"

/* ---- the integrals of a tooth in one lane ---- */

/* The angle less the lag of the upper end. */
BITE_FORMULA bite_turned top_of(bite_turned tip, const bite_turned_lanes *lag, int k)
{
    double sine = lag->sine[k];
    double cosine = lag->cosine[k];
    bite_turned top = {tip.at - lag->at[k], tip.sine * cosine - tip.cosine * sine,
                       tip.cosine * cosine + tip.sine * sine};
    return top;
}

/* hinges: how many are clipped; 0: all hold the whole edge. The edge terms are those of the first
 * hinge alone: from there on the edge touches. */
BITE_FORMULA bite_edge_terms edge_of(const bite_square_tooth *tooth, int hinges, int k,
                                     bite_turned tip, bite_turned top)
{
    if (hinges == 0) {
        return bite_edge_between(tooth->slope[k], tooth->offset[k], top, tip);
    }
    bite_edge_terms sum = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    BITE_UNROLLED
    for (int i = 0; i < hinges; i++) {
        const bite_hinge_lanes *hinge = &tooth->hinge[i];
        bite_turned low = bite_turned_lane(&hinge->low, k);
        bite_turned high = bite_turned_lane(&hinge->high, k);
        bite_turned from = bite_turned_within(top, low, high);
        bite_turned to = bite_turned_within(tip, low, high);
        bite_edge_terms terms = bite_edge_between(hinge->slope[k], hinge->offset[k], from, to);
        sum.area += terms.area;
        sum.area_sine += terms.area_sine;
        sum.area_cosine += terms.area_cosine;
        if (i == 0) {
            sum.edge = terms.edge;
            sum.edge_sine = terms.edge_sine;
            sum.edge_cosine = terms.edge_cosine;
        }
    }
    return sum;
}

BITE_FORMULA bite_edge_terms terms_of(const bite_edge_term_lanes *sum, int k)
{
    bite_edge_terms terms = {sum->area[k], sum->area_sine[k], sum->area_cosine[k],
                             sum->edge[k], sum->edge_sine[k], sum->edge_cosine[k]};
    return terms;
}

BITE_FORMULA void put(bite_edge_term_lanes *sum, int k, double keep, bite_edge_terms terms)
{
    sum->area[k] = keep * sum->area[k] + terms.area;
    sum->area_sine[k] = keep * sum->area_sine[k] + terms.area_sine;
    sum->area_cosine[k] = keep * sum->area_cosine[k] + terms.area_cosine;
    sum->edge[k] = keep * sum->edge[k] + terms.edge;
    sum->edge_sine[k] = keep * sum->edge_sine[k] + terms.edge_sine;
    sum->edge_cosine[k] = keep * sum->edge_cosine[k] + terms.edge_cosine;
}

/* Updates the peaks with the load at one position of the tool. */
BITE_FORMULA void raise_peaks(bite_edge_terms terms, int k, bite_square_work *restrict work,
                              bite_block_force *restrict force)
{
    bite_edge_load load =
        bite_edge_load_of(terms, work->tangential[k], work->radial[k], work->axial[k],
                          work->edge_tangential[k], work->edge_radial[k], work->edge_axial[k]);
    double side = load.x * load.x + load.y * load.y;
    force->peak_tangential[k] = bite_larger(load.tangential, force->peak_tangential[k]);
    force->peak_side[k] = bite_larger(side, force->peak_side[k]); /* squared for now */
    work->up[k] = bite_larger(load.lift, work->up[k]);
    work->down[k] = bite_smaller(load.lift, work->down[k]);
}

/* ---- loops; hinges: a constant ---- */

BITE_FORMULA void add_at(int lanes, const bite_square_tooth *restrict tooth, int hinges,
                         bite_turned tip, double keep, bite_square_work *restrict work)
{
    for (int k = 0; k < lanes; k++) {
        put(&work->sum, k, keep, edge_of(tooth, hinges, k, tip, top_of(tip, &work->lag, k)));
    }
}

/* A tooth alone in contact, away from the walls. */
BITE_FORMULA void raise_at(int lanes, const bite_square_tooth *restrict tooth, int hinges,
                           bite_turned tip, bite_square_work *restrict work,
                           bite_block_force *restrict force)
{
    for (int k = 0; k < lanes; k++) {
        bite_edge_terms terms = edge_of(tooth, hinges, k, tip, top_of(tip, &work->lag, k));
        raise_peaks(terms, k, work, force);
    }
}

BITE_FORMULA void add_turned(int lanes, const bite_square_tooth *restrict tooth, int hinges,
                             const bite_turned_lanes *restrict at, bite_turned by, double keep,
                             bite_square_work *restrict work)
{
    for (int k = 0; k < lanes; k++) {
        bite_turned tip = bite_turned_sum(bite_turned_lane(at, k), by);
        put(&work->sum, k, keep, edge_of(tooth, hinges, k, tip, top_of(tip, &work->lag, k)));
    }
}

BITE_FORMULA void raise_all(int lanes, bite_square_work *restrict work,
                            bite_block_force *restrict force)
{
    for (int k = 0; k < lanes; k++) {
        raise_peaks(terms_of(&work->sum, k), k, work, force);
    }
}

/* Updates the bending at the wall that a tooth is finishing. past: what is to be added to the
 * angles of the tip to count from the wall. The height that is at the wall lags the tip by the
 * angle from the wall, in the sense in which the wall is finished upwards. Rounding must not turn a
 * tip that is at the wall into one that is a period away. */
BITE_FORMULA void bend_wall(int lanes, const bite_square_tool *restrict tool, double sign,
                            const double *restrict tip, double past,
                            const bite_square_work *restrict work, double *restrict worst)
{
    double period = work->period;
    double per_period = 1.0 / period;
    for (int k = 0; k < lanes; k++) {
        double beyond = tip[k] + past;
        double along = (work->lag.at[k] < 0.0 ? -beyond : beyond) + BITE_SQUARE_ROUNDING;
        double turned = along - period * floor(along * per_period);
        double ahead = bite_larger(0.0, turned - BITE_SQUARE_ROUNDING);
        bite_edge_load load = bite_edge_load_of(
            terms_of(&work->sum, k), tool->tangential[k], tool->radial[k], tool->axial[k],
            tool->edge_tangential[k], tool->edge_radial[k], tool->edge_axial[k]);
        double height = ahead * fabs(work->per_lag[k]);
        double bend =
            sign * work->per_lag[k] * load.y * (work->wall_force[k] - work->wall_fall[k] * height);
        int finishes = ahead <= fabs(work->lag.at[k]) + BITE_SQUARE_ROUNDING;
        worst[k] = (finishes & (fabs(bend) > fabs(worst[k]))) ? bend : worst[k];
    }
}

static int lanes_of(const bite_block *block)
{
    return block->lanes & ~(BITE_LANE_STEP - 1);
}

/* ---- even steps ---- */

static int clipped_hinges(const bite_square_tooth *tooth, int step)
{
    return step >= tooth->whole_first && step <= tooth->whole_last ? 0 : tooth->hinges;
}

BITE_FORMULA void add_step(int lanes, const bite_square_tooth *restrict tooth, int step,
                           bite_turned tip, double keep, bite_square_work *restrict work)
{
    switch (clipped_hinges(tooth, step)) {
    case 0:
        add_at(lanes, tooth, 0, tip, keep, work);
        break;
    case 1:
        add_at(lanes, tooth, 1, tip, keep, work);
        break;
    case 2:
        add_at(lanes, tooth, 2, tip, keep, work);
        break;
    default:
        add_at(lanes, tooth, 3, tip, keep, work);
        break;
    }
}

BITE_FORMULA void raise_step(int lanes, const bite_square_tooth *restrict tooth, int step,
                             bite_turned tip, bite_square_work *restrict work,
                             bite_block_force *restrict force)
{
    switch (clipped_hinges(tooth, step)) {
    case 0:
        raise_at(lanes, tooth, 0, tip, work, force);
        break;
    case 1:
        raise_at(lanes, tooth, 1, tip, work, force);
        break;
    case 2:
        raise_at(lanes, tooth, 2, tip, work, force);
        break;
    default:
        raise_at(lanes, tooth, 3, tip, work, force);
        break;
    }
}

static void advance(const bite_square_turn *turn, bite_step_counter *counter)
{
    counter->now++;
    counter->turn++;
    if (counter->now == counter->first + turn->cycle) {
        counter->now -= turn->cycle;
        counter->turn -= turn->cycle;
        counter->turn += counter->turn < 0 ? turn->steps : 0;
    }
    if (counter->turn == turn->steps) {
        counter->turn = 0;
    }
}

static int lasts(const bite_step_counter *counter)
{
    return counter->now <= counter->last;
}

/* Whether one tooth alone is in contact, once, and no wall is finished. */
static const bite_square_tooth *only_tooth(const bite_square_turn *turn)
{
    const bite_square_tooth *only = NULL;
    for (int i = 0; i < BITE_SQUARE_WALLS; i++) {
        if (turn->walls[i].exists && lasts(&turn->walls[i].finished)) {
            return NULL;
        }
    }
    for (int j = 0; j < turn->tooth_count; j++) {
        const bite_step_counter *contact = &turn->teeth[j].contact;
        if (lasts(contact)) {
            if (only != NULL || contact->now + turn->cycle <= contact->last) {
                return NULL;
            }
            only = &turn->teeth[j];
        }
    }
    return only;
}

BITE_FORMULA bite_turned tip_at(const bite_turned *angles, double width, int step, int turn)
{
    bite_turned tip = {(step + 0.5) * width, angles[turn].sine, angles[turn].cosine};
    return tip;
}

/* The load of all teeth. A tooth that stands for others is in contact more than once. */
BITE_FORMULA void sum_step(int lanes, const bite_square_tool *restrict tool,
                           const bite_turned *restrict angles, double width,
                           const bite_square_turn *restrict turn, bite_square_work *restrict work,
                           bite_block_force *restrict force)
{
    double keep = 0.0;
    for (int j = 0; j < turn->tooth_count; j++) {
        const bite_square_tooth *tooth = &turn->teeth[j];
        int at = tooth->contact.turn;
        for (int now = tooth->contact.now; now <= tooth->contact.last; now += turn->cycle) {
            add_step(lanes, tooth, now, tip_at(angles, width, now, at), keep, work);
            keep = 1.0;
            at += turn->cycle;
            at -= at >= turn->steps ? turn->steps : 0;
        }
    }
    if (keep > 0.0) {
        raise_all(lanes, work, force);
    }
    for (int i = 0; keep > 0.0 && i < BITE_SQUARE_WALLS; i++) {
        const bite_square_wall *wall = &turn->walls[i];
        if (wall->exists && lasts(&wall->finished)) {
            double past = (wall->finished.now + 0.5) * width - wall->at;
            bend_wall(lanes, tool, wall->sign, work->none, past, work, wall->worst);
        }
    }
}

BITE_IN_LANES void
bite_square_evenly(const bite_block *restrict block, const bite_square_tool *restrict tool,
                   const bite_turned *restrict angles, bite_square_turn *restrict turn,
                   bite_square_work *restrict work, bite_block_force *restrict force)
{
    int lanes = lanes_of(block);
    double width = 2.0 * M_PI / turn->steps;
    for (int position = 0; position < turn->cycle; position++) {
        const bite_square_tooth *only = only_tooth(turn);
        if (only != NULL) {
            const bite_step_counter *contact = &only->contact;
            raise_step(lanes, only, contact->now,
                       tip_at(angles, width, contact->now, contact->turn), work, force);
        } else {
            sum_step(lanes, tool, angles, width, turn, work, force);
        }
        for (int j = 0; j < turn->tooth_count; j++) {
            advance(turn, &turn->teeth[j].contact);
        }
        for (int i = 0; i < BITE_SQUARE_WALLS; i++) {
            advance(turn, &turn->walls[i].finished);
        }
    }
}

/* ---- other positions ---- */

BITE_IN_LANES void bite_square_add(const bite_block *restrict block,
                                   const bite_square_tooth *restrict tooth,
                                   const bite_turned_lanes *restrict at, bite_turned by,
                                   double keep, bite_square_work *restrict work)
{
    int lanes = lanes_of(block);
    switch (tooth->hinges) {
    case 1:
        add_turned(lanes, tooth, 1, at, by, keep, work);
        break;
    case 2:
        add_turned(lanes, tooth, 2, at, by, keep, work);
        break;
    default:
        add_turned(lanes, tooth, 3, at, by, keep, work);
        break;
    }
}

BITE_IN_LANES void bite_square_peaks(const bite_block *restrict block,
                                     bite_square_work *restrict work,
                                     bite_block_force *restrict force)
{
    raise_all(lanes_of(block), work, force);
}

BITE_IN_LANES void bite_square_finish(const bite_block *restrict block,
                                      const bite_square_tool *restrict tool,
                                      const bite_square_wall *restrict wall,
                                      const double *restrict tip, double offset,
                                      const bite_square_work *restrict work)
{
    bend_wall(lanes_of(block), tool, wall->sign, tip, offset - wall->at, work, wall->worst);
}
