/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the edges of a square end mill meet, integrated along the helix in closed form. */
#include "core/physics/force/edge_integrals.h"
#include <math.h>
#include <string.h>

/* A straight flute is the limit of a helix that lags by so little over the depth: one code for
 * both, good to 1e-9. */
static const double lag_least = 1e-6; /* rad over ap */

/* Between kinks all is smooth; samples this close and a parabola give the peak of a force to 2e-3,
 * mostly to 3e-4. */
static const double sample_step = M_PI / 9.0;

/* A stretch this short is judged by its ends: what it could rise between them is under 1e-3. */
static const double stretch_least = 0.05; /* rad */

/* Over so short a lag the shares of the two ends of an edge are large and cancel: their sum is made
 * anew for each span, for what is added and taken away again would leave its rounding. */
static const double carry_least = 1e-3; /* rad over ap */

/* The waves: six levels in the order of the integrals, then those of an end that trails by b. */
enum {
    RISE_AREA = BITE_EDGE_TERMS, /* offset, on the angle */
    RISE_EDGE,                   /* 1 */
    RISE_TWICE,                  /* slope/2 */
    SLOPE_COSINE,                /* slope cos b */
    SLOPE_SINE,
    OFFSET_COSINE, /* offset cos b */
    OFFSET_SINE,
    ONE_COSINE, /* cos b */
    ONE_SINE,
    TWICE_COSINE, /* slope/4 cos 2 b */
    TWICE_SINE,
    WAVES_USED
};

/* Antiderivatives in the tooth's own angle t = phi - b of (slope sin t + offset), 1, and both times
 * sin t and cos t, with products of sine and cosine written in twice the angle. */
static inline void waves_at(const double *restrict of, const bite_angle *angle,
                            double *restrict met)
{
    double phi = angle->at;
    double sine = angle->sine;
    double cosine = angle->cosine;
    double sine2 = 2.0 * sine * cosine;
    double cosine2 = 1.0 - 2.0 * sine * sine;
    met[BITE_EDGE_AREA] = of[BITE_EDGE_AREA] + of[RISE_AREA] * phi -
                          (of[SLOPE_COSINE] * cosine + of[SLOPE_SINE] * sine);
    met[BITE_EDGE_EDGE] = of[BITE_EDGE_EDGE] + of[RISE_EDGE] * phi;
    met[BITE_EDGE_AREA_SINE] = of[BITE_EDGE_AREA_SINE] + of[RISE_TWICE] * phi -
                               (of[TWICE_COSINE] * sine2 - of[TWICE_SINE] * cosine2) -
                               (of[OFFSET_COSINE] * cosine + of[OFFSET_SINE] * sine);
    met[BITE_EDGE_AREA_COSINE] = of[BITE_EDGE_AREA_COSINE] -
                                 (of[TWICE_COSINE] * cosine2 + of[TWICE_SINE] * sine2) +
                                 (of[OFFSET_COSINE] * sine - of[OFFSET_SINE] * cosine);
    met[BITE_EDGE_EDGE_SINE] =
        of[BITE_EDGE_EDGE_SINE] - (of[ONE_COSINE] * cosine + of[ONE_SINE] * sine);
    met[BITE_EDGE_EDGE_COSINE] =
        of[BITE_EDGE_EDGE_COSINE] + (of[ONE_COSINE] * sine - of[ONE_SINE] * cosine);
}

/* The waves of a piece seen from an angle that is ahead of the tooth's own by behind, and by whole
 * turns of which sine and cosine know nothing. */
static void form_waves(const bite_edge_piece *restrict piece, const bite_angle *behind,
                       double turns, double scale, double *restrict waves)
{
    double sine = behind->sine;
    double cosine = behind->cosine;
    double away = behind->at + 2.0 * M_PI * turns;
    double slope = scale * piece->slope;
    double offset = scale * piece->offset;
    double level[BITE_EDGE_TERMS];
    for (int i = 0; i < BITE_EDGE_TERMS; i++) {
        level[i] = scale * piece->level[i];
    }
    waves[BITE_EDGE_AREA] = level[BITE_EDGE_AREA] - offset * away;
    waves[BITE_EDGE_EDGE] = level[BITE_EDGE_EDGE] - scale * away;
    waves[BITE_EDGE_AREA_SINE] = level[BITE_EDGE_AREA_SINE] - 0.5 * slope * away;
    waves[BITE_EDGE_AREA_COSINE] = level[BITE_EDGE_AREA_COSINE];
    waves[BITE_EDGE_EDGE_SINE] = level[BITE_EDGE_EDGE_SINE];
    waves[BITE_EDGE_EDGE_COSINE] = level[BITE_EDGE_EDGE_COSINE];
    waves[RISE_AREA] = offset;
    waves[RISE_EDGE] = scale;
    waves[RISE_TWICE] = 0.5 * slope;
    waves[SLOPE_COSINE] = slope * cosine;
    waves[SLOPE_SINE] = slope * sine;
    waves[OFFSET_COSINE] = offset * cosine;
    waves[OFFSET_SINE] = offset * sine;
    waves[ONE_COSINE] = scale * cosine;
    waves[ONE_SINE] = scale * sine;
    waves[TWICE_COSINE] = 0.25 * slope * (1.0 - 2.0 * sine * sine);
    waves[TWICE_SINE] = 0.5 * slope * sine * cosine;
    for (int i = WAVES_USED; i < BITE_EDGE_HARMONICS; i++) {
        waves[i] = 0.0;
    }
}

/* Levels a piece so that it goes on from `sum` at enter; sum becomes what has been met at leave. */
static void join(bite_edge_piece *piece, double *sum)
{
    const bite_angle own = {0.0, 0.0, 1.0};
    double waves[BITE_EDGE_HARMONICS];
    double enter[BITE_EDGE_TERMS];
    memset(piece->level, 0, sizeof piece->level);
    form_waves(piece, &own, 0.0, 1.0, waves);
    waves_at(waves, &piece->enter, enter);
    waves_at(waves, &piece->leave, piece->after);
    for (int i = 0; i < BITE_EDGE_TERMS; i++) {
        piece->level[i] = sum[i] - enter[i];
        piece->after[i] += piece->level[i];
        sum[i] = piece->after[i];
    }
}

static void form_tooth(bite_edge_integrals *edges, bite_edge_tooth *out, const bite_chip *chip,
                       const bite_tooth *tooth)
{
    const bite_piece *pieces = bite_chip_pieces(chip, tooth);
    double sum[BITE_EDGE_TERMS] = {0.0};
    out->first = tooth->first;
    out->count = tooth->count;
    for (int i = 0; i < tooth->count; i++) {
        const bite_piece *from = &pieces[i];
        bite_edge_piece *piece = &edges->piece[out->first + i];
        const bite_angle enter = {from->enter, from->enter_sine, from->enter_cosine};
        const bite_angle leave = {from->leave, from->leave_sine, from->leave_cosine};
        piece->enter = enter;
        piece->leave = leave;
        piece->slope = from->slope;
        piece->offset = from->offset;
        join(piece, sum);
    }
    memcpy(out->total, sum, sizeof out->total);
}

/* Both ends of every tooth's edge, with the angles by which they trail the tip of tooth 0. */
static void form_ends(bite_edge_integrals *edges)
{
    double pitch = 2.0 * M_PI / edges->flutes;
    bite_angle psi = bite_angle_of(edges->lag * edges->depth);
    edges->ends = 2 * edges->flutes;
    for (int j = 0; j < edges->flutes; j++) {
        bite_edge_end *tip = &edges->end[2 * j];
        tip[0].behind = bite_angle_of(pitch * j);
        tip[0].scale = 1.0 / edges->lag;
        tip[1].behind = bite_angle_sum(tip[0].behind.at + psi.at, tip[0].behind, psi);
        tip[1].scale = -1.0 / edges->lag;
    }
}

static void form_mean(bite_edge_integrals *edges, const bite_chip *chip)
{
    double sum[BITE_EDGE_TERMS] = {0.0};
    int shown = chip->alike ? 1 : chip->flutes;
    for (int j = 0; j < shown; j++) {
        for (int i = 0; i < BITE_EDGE_TERMS; i++) {
            sum[i] += edges->teeth[j].total[i];
        }
    }
    double share = (chip->alike ? chip->flutes : 1.0) * edges->depth / (2.0 * M_PI);
    for (int i = 0; i < BITE_EDGE_TERMS; i++) {
        edges->mean[i] = sum[i] * share;
    }
}

/* Whole periods in an angle. */
static int periods_in(double phi, double period)
{
    double periods = phi / period;
    int count = (int)periods; /* towards 0 */
    return count > periods ? count - 1 : count;
}

/* Within the period; *turns: whole periods taken off. */
static double wrapped(double phi, double period, int *turns)
{
    *turns = periods_in(phi, period);
    double turn = phi - period * *turns;
    if (turn >= period || turn < 0.0) { /* by rounding */
        *turns += turn < 0.0 ? -1 : 1;
        return 0.0;
    }
    return turn;
}

/* Tip angles at which some end of the integral crosses the border of a piece: there the sum has its
 * kinks. */
static void add_kink(bite_edge_integrals *edges, int tooth, int piece, int inside,
                     const bite_angle *border)
{
    int teeth = edges->alike ? 1 : edges->flutes; /* that pass in a period */
    for (int top = 0; top < 2 && edges->kinks < BITE_KINKS_MAX; top++) {
        bite_edge_kink kink;
        int periods;
        double phi = border->at + edges->end[2 * tooth + top].behind.at;
        double at = wrapped(phi, edges->period, &periods);
        /* which tooth comes there within the period, and in which of its turns */
        int ahead = tooth - periods * teeth;
        int turns =
            ahead >= 0 ? ahead / edges->flutes : -((edges->flutes - 1 - ahead) / edges->flutes);
        kink.end = (int16_t)(2 * (ahead - turns * edges->flutes) + top);
        kink.turns = (int16_t)turns;
        kink.piece = (int16_t)piece;
        kink.inside = (int16_t)inside;
        kink.angle = bite_angle_sum(at, *border, edges->end[kink.end].behind);
        int k = edges->kinks++;
        for (; k > 0 && edges->kink[k - 1].angle.at > at; k--) {
            edges->kink[k] = edges->kink[k - 1];
        }
        edges->kink[k] = kink;
    }
}

/* Of teeth that cut alike one period of the first tells of all. */
static void form_kinks(bite_edge_integrals *edges)
{
    const bite_edge_kink first = {{0.0, 0.0, 1.0}, -1, -1, 0, 0};
    int shown = edges->alike ? 1 : edges->flutes;
    edges->period = edges->alike ? 2.0 * M_PI / edges->flutes : 2.0 * M_PI;
    edges->kink[0] = first;
    edges->kinks = 1;
    for (int j = 0; j < shown; j++) {
        const bite_edge_tooth *tooth = &edges->teeth[j];
        const bite_edge_piece *pieces = edges->piece + tooth->first;
        for (int i = 0; i < tooth->count; i++) {
            add_kink(edges, j, i, 1, &pieces[i].enter);
            if (i + 1 == tooth->count || pieces[i + 1].enter.at != pieces[i].leave.at) {
                add_kink(edges, j, i, 0, &pieces[i].leave);
            }
        }
    }
}

/* Where an end of the integral stands. */
typedef struct place {
    const bite_edge_piece *piece; /* the last that it has entered; NULL: before the first */
    int inside;                   /* whether it is still in it */
    double turns;                 /* how often it went round */
} place;

static place find_place(const bite_edge_integrals *edges, const bite_edge_tooth *tooth,
                        double theta)
{
    const bite_edge_piece *pieces = edges->piece + tooth->first;
    place at;
    at.turns = periods_in(theta, 2.0 * M_PI);
    theta -= 2.0 * M_PI * at.turns;
    const bite_edge_piece *piece = pieces + tooth->count;
    while (piece > pieces && theta <= piece[-1].enter.at) {
        piece--;
    }
    at.piece = piece > pieces ? piece - 1 : NULL;
    at.inside = at.piece != NULL && theta < at.piece->leave.at;
    return at;
}

/* What the tooth has met up to an end, in waves of the tip's angle, which is ahead by end->behind.
 */
static void form_share(bite_edge_harmonics *restrict into, const bite_edge_tooth *restrict tooth,
                       const bite_edge_end *restrict end, place at)
{
    if (at.inside) {
        form_waves(at.piece, &end->behind, at.turns, end->scale, into->coefficient);
    } else {
        static const bite_edge_harmonics none;
        *into = none;
        for (int i = 0; at.piece != NULL && i < BITE_EDGE_TERMS; i++) {
            into->coefficient[i] = end->scale * at.piece->after[i];
        }
    }
    if (at.turns != 0.0) {
        for (int i = 0; i < BITE_EDGE_TERMS; i++) {
            into->coefficient[i] += end->scale * at.turns * tooth->total[i];
        }
    }
}

/* Going from span to span: few ends change their place, so the others' shares are kept. */
typedef struct edge_sums {
    bite_edge_harmonics sum;
    bite_edge_harmonics shares[2 * BITE_TEETH_MAX];
} edge_sums;

static const bite_edge_tooth *tooth_of(const bite_edge_integrals *edges, int end)
{
    return &edges->teeth[edges->alike ? 0 : end / 2];
}

static void add_share(bite_edge_harmonics *restrict sum, const bite_edge_harmonics *restrict share)
{
    for (int i = 0; i < BITE_EDGE_HARMONICS; i++) {
        sum->coefficient[i] += share->coefficient[i];
    }
}

static void add_up(const bite_edge_integrals *edges, edge_sums *sweep)
{
    sweep->sum = sweep->shares[0];
    for (int i = 1; i < edges->ends; i++) {
        add_share(&sweep->sum, &sweep->shares[i]);
    }
}

/* All shares at a tip angle that is no kink. */
static void begin(const bite_edge_integrals *edges, double phi, edge_sums *sweep)
{
    for (int i = 0; i < edges->ends; i++) {
        const bite_edge_tooth *tooth = tooth_of(edges, i);
        form_share(&sweep->shares[i], tooth, &edges->end[i],
                   find_place(edges, tooth, phi - edges->end[i].behind.at));
    }
    add_up(edges, sweep);
}

/* The share of the end that crosses a kink. It is set, not moved: crossing a kink twice, as
 * rounding at the period's ends may have it, does no harm. */
static void cross(const bite_edge_integrals *edges, const bite_edge_kink *kink, edge_sums *sweep)
{
    if (kink->end < 0) {
        return;
    }
    const bite_edge_tooth *tooth = tooth_of(edges, kink->end);
    bite_edge_harmonics *share = &sweep->shares[kink->end];
    bite_edge_harmonics before = *share;
    place at = {kink->piece < 0 ? NULL : &edges->piece[tooth->first + kink->piece], kink->inside,
                kink->turns};
    form_share(share, tooth, &edges->end[kink->end], at);
    if (fabs(edges->lag) * edges->depth < carry_least) {
        add_up(edges, sweep);
        return;
    }
    for (int i = 0; i < BITE_EDGE_HARMONICS; i++) {
        sweep->sum.coefficient[i] += share->coefficient[i] - before.coefficient[i];
    }
}

static void add_sample(bite_edge_integrals *edges, const bite_edge_harmonics *waves,
                       const bite_angle *angle)
{
    double met[BITE_EDGE_TERMS];
    int at = edges->samples++;
    waves_at(waves->coefficient, angle, met);
    double *lane = &edges->sample[at / BITE_SAMPLE_WIDTH].term[0][at % BITE_SAMPLE_WIDTH];
    for (int i = 0; i < BITE_EDGE_TERMS; i++) {
        lane[i * BITE_SAMPLE_WIDTH] = met[i];
    }
}

/* One smooth stretch from a kink: what lies between, in even steps, and its end. What it begins
 * with the one before ended with, for nothing has steps. */
static void climb(bite_edge_integrals *edges, const bite_edge_harmonics *waves,
                  const bite_angle *from, const bite_angle *to)
{
    double whole = to->at - from->at;
    int steps = whole < stretch_least ? 1 : 2 * (1 + (int)(whole / (2.0 * sample_step)));
    if (steps > 1) {
        bite_angle step = bite_angle_small(whole / steps);
        bite_angle between = *from;
        for (int i = 1; i < steps; i++) {
            between = bite_angle_sum(from->at + step.at * i, between, step);
            if (i % 2) {
                edges->middle[edges->middles++] = (int16_t)edges->samples;
            }
            add_sample(edges, waves, &between);
        }
    }
    add_sample(edges, waves, to);
}

static void repeat_last(bite_edge_integrals *edges)
{
    bite_edge_sample_block *block = &edges->sample[(edges->samples - 1) / BITE_SAMPLE_WIDTH];
    int last = (edges->samples - 1) % BITE_SAMPLE_WIDTH;
    for (int k = last + 1; k < BITE_SAMPLE_WIDTH; k++) {
        for (int i = 0; i < BITE_EDGE_TERMS; i++) {
            block->term[i][k] = block->term[i][last];
        }
    }
    edges->samples += BITE_SAMPLE_WIDTH - 1 - last;
}

static void sweep_period(bite_edge_integrals *edges)
{
    edge_sums sweep;
    int begun = 0;
    bite_angle end = {edges->period, 0.0, 1.0};
    if (edges->alike) {
        end = bite_angle_of(edges->period);
    }
    edges->samples = 0;
    edges->middles = 0;
    for (int i = 0; i < edges->kinks; i++) {
        const bite_edge_kink *kink = &edges->kink[i];
        const bite_angle *next = i + 1 < edges->kinks ? &kink[1].angle : &end;
        if (begun) {
            cross(edges, kink, &sweep);
        }
        if (!(next->at > kink->angle.at)) {
            continue;
        }
        if (!begun) {
            begin(edges, 0.5 * (kink->angle.at + next->at), &sweep);
            begun = 1;
            add_sample(edges, &sweep.sum, &edges->kink[0].angle);
        }
        edges->span[i] = sweep.sum;
        climb(edges, &sweep.sum, &kink->angle, next);
    }
    repeat_last(edges);
}

void bite_edge_integrals_init(bite_edge_integrals *edges, const bite_chip *chip, double depth,
                              double diameter, double helix)
{
    double lag = tan(helix) / (0.5 * diameter);
    double least = lag_least / depth;
    edges->flutes = chip->flutes;
    edges->alike = chip->alike;
    edges->depth = depth;
    edges->lag = fabs(lag) < least ? copysign(least, lag) : lag;
    int shown = chip->alike ? 1 : chip->flutes;
    for (int j = 0; j < shown; j++) {
        form_tooth(edges, &edges->teeth[j], chip, &chip->teeth[j]);
    }
    form_mean(edges, chip);
    form_ends(edges);
    form_kinks(edges);
    sweep_period(edges);
}

/* At a kink but for rounding is at it. */
static const double hair = 1e-12; /* rad */

/* The last span of a period away that begins at `at` or before. */
static bite_edge_span span_from(const bite_edge_integrals *edges, int kink, double at, double away)
{
    int next = kink + 1;
    while (next < edges->kinks && edges->kink[next].angle.at <= at + hair) {
        next++;
    }
    bite_edge_span span = {
        next - 1, away, away + (next < edges->kinks ? edges->kink[next].angle.at : edges->period)};
    return span;
}

bite_edge_span bite_edge_span_at(const bite_edge_integrals *edges, double phi)
{
    int periods;
    double at = wrapped(phi, edges->period, &periods);
    return span_from(edges, 0, at, phi - at);
}

bite_edge_span bite_edge_span_next(const bite_edge_integrals *edges, bite_edge_span span)
{
    int next = span.kink + 1;
    if (next < edges->kinks) {
        return span_from(edges, next, edges->kink[next].angle.at, span.away);
    }
    return span_from(edges, 0, 0.0, span.end);
}

void bite_edge_within(const bite_edge_integrals *edges, bite_edge_span span,
                      const bite_angle *angle, double met[BITE_EDGE_TERMS])
{
    waves_at(edges->span[span.kink].coefficient, angle, met);
}
