/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Integrals along the cutting edges of a square end mill, in closed form along the helix. */
#include "tests/oracle/closed_forms/edge_integrals.h"
#include <math.h>
#include <string.h>

/* A straight flute is computed as a helix that lags by this little over the depth: one formula
 * covers both, accurate to 1e-9. */
static const double lag_least = 1e-6; /* rad over ap */

/* Between kinks the integrals are smooth: samples this close and a parabola through them give the
 * peak of a force to 2e-3, mostly to 3e-4. */
static const double sample_step = M_PI / 9.0;

/* In an interval shorter than this only the ends are sampled: a peak between them is higher by less
 * than 1e-3. */
static const double interval_least = 0.05; /* rad */

/* Below this lag the contributions of the two ends of an edge are large and cancel: their sum is
 * computed anew for each span, since adding and subtracting contributions would leave rounding
 * errors. */
static const double update_lag_least = 1e-3; /* rad over ap */

/* Coefficients of the harmonics: six constants in the order of the integrals, then those of an end
 * that lags by b. */
enum {
    RISE_AREA = BITE_EDGE_TERMS, /* offset, times the angle */
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
    HARMONICS_USED
};

/* Evaluates the antiderivatives, in the tooth's own angle t = phi - b, of (slope sin t + offset),
 * of 1, and of both times sin t and cos t; products of sine and cosine are written in twice the
 * angle. */
static inline void evaluate_harmonics(const double *restrict coefficient, const bite_angle *angle,
                                      double *restrict integrals)
{
    double phi = angle->at;
    double sine = angle->sine;
    double cosine = angle->cosine;
    double sine2 = 2.0 * sine * cosine;
    double cosine2 = 1.0 - 2.0 * sine * sine;
    integrals[BITE_EDGE_AREA] =
        coefficient[BITE_EDGE_AREA] + coefficient[RISE_AREA] * phi -
        (coefficient[SLOPE_COSINE] * cosine + coefficient[SLOPE_SINE] * sine);
    integrals[BITE_EDGE_EDGE] = coefficient[BITE_EDGE_EDGE] + coefficient[RISE_EDGE] * phi;
    integrals[BITE_EDGE_AREA_SINE] =
        coefficient[BITE_EDGE_AREA_SINE] + coefficient[RISE_TWICE] * phi -
        (coefficient[TWICE_COSINE] * sine2 - coefficient[TWICE_SINE] * cosine2) -
        (coefficient[OFFSET_COSINE] * cosine + coefficient[OFFSET_SINE] * sine);
    integrals[BITE_EDGE_AREA_COSINE] =
        coefficient[BITE_EDGE_AREA_COSINE] -
        (coefficient[TWICE_COSINE] * cosine2 + coefficient[TWICE_SINE] * sine2) +
        (coefficient[OFFSET_COSINE] * sine - coefficient[OFFSET_SINE] * cosine);
    integrals[BITE_EDGE_EDGE_SINE] =
        coefficient[BITE_EDGE_EDGE_SINE] -
        (coefficient[ONE_COSINE] * cosine + coefficient[ONE_SINE] * sine);
    integrals[BITE_EDGE_EDGE_COSINE] =
        coefficient[BITE_EDGE_EDGE_COSINE] +
        (coefficient[ONE_COSINE] * sine - coefficient[ONE_SINE] * cosine);
}

/* The harmonics of a piece as functions of an angle that leads the tooth's own angle by `behind`
 * and by whole turns, which do not change sine and cosine. */
static void form_harmonics(const bite_edge_piece *restrict piece, const bite_angle *behind,
                           double turns, double scale, double *restrict harmonics)
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
    harmonics[BITE_EDGE_AREA] = level[BITE_EDGE_AREA] - offset * away;
    harmonics[BITE_EDGE_EDGE] = level[BITE_EDGE_EDGE] - scale * away;
    harmonics[BITE_EDGE_AREA_SINE] = level[BITE_EDGE_AREA_SINE] - 0.5 * slope * away;
    harmonics[BITE_EDGE_AREA_COSINE] = level[BITE_EDGE_AREA_COSINE];
    harmonics[BITE_EDGE_EDGE_SINE] = level[BITE_EDGE_EDGE_SINE];
    harmonics[BITE_EDGE_EDGE_COSINE] = level[BITE_EDGE_EDGE_COSINE];
    harmonics[RISE_AREA] = offset;
    harmonics[RISE_EDGE] = scale;
    harmonics[RISE_TWICE] = 0.5 * slope;
    harmonics[SLOPE_COSINE] = slope * cosine;
    harmonics[SLOPE_SINE] = slope * sine;
    harmonics[OFFSET_COSINE] = offset * cosine;
    harmonics[OFFSET_SINE] = offset * sine;
    harmonics[ONE_COSINE] = scale * cosine;
    harmonics[ONE_SINE] = scale * sine;
    harmonics[TWICE_COSINE] = 0.25 * slope * (1.0 - 2.0 * sine * sine);
    harmonics[TWICE_SINE] = 0.5 * slope * sine * cosine;
    for (int i = HARMONICS_USED; i < BITE_EDGE_HARMONICS; i++) {
        harmonics[i] = 0.0;
    }
}

/* Sets the level of a piece so that it continues from `sum` at enter; sum becomes the integrals up
 * to leave. */
static void set_level(bite_edge_piece *piece, double *sum)
{
    const bite_angle own = {0.0, 0.0, 1.0};
    double harmonics[BITE_EDGE_HARMONICS];
    double enter[BITE_EDGE_TERMS];
    memset(piece->level, 0, sizeof piece->level);
    form_harmonics(piece, &own, 0.0, 1.0, harmonics);
    evaluate_harmonics(harmonics, &piece->enter, enter);
    evaluate_harmonics(harmonics, &piece->leave, piece->after);
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
        set_level(piece, sum);
    }
    memcpy(out->total, sum, sizeof out->total);
}

/* Sets both ends of every tooth's edge, with the angles by which they lag the tip of tooth 0. */
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

/* The angle within the period. *turns: whole periods removed. */
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

/* Adds the tip angles at which the two ends of an edge cross the border of a piece. */
static void add_kink(bite_edge_integrals *edges, int tooth, int piece, int inside,
                     const bite_angle *border)
{
    int teeth = edges->alike ? 1 : edges->flutes; /* teeth that pass in a period */
    for (int top = 0; top < 2 && edges->kinks < BITE_KINKS_MAX; top++) {
        bite_edge_kink kink;
        int periods;
        double phi = border->at + edges->end[2 * tooth + top].behind.at;
        double at = wrapped(phi, edges->period, &periods);
        /* which tooth reaches the border within the period, and in which of its turns */
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

/* If all teeth cut alike, one period of the first tooth represents all of them. */
static void form_kinks(bite_edge_integrals *edges)
{
    const bite_edge_kink first = {{0.0, 0.0, 1.0}, -1, -1, 0, 0};
    int distinct = edges->alike ? 1 : edges->flutes;
    edges->period = edges->alike ? 2.0 * M_PI / edges->flutes : 2.0 * M_PI;
    edges->kink[0] = first;
    edges->kinks = 1;
    for (int j = 0; j < distinct; j++) {
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

/* Position of an end of an edge among the pieces of its tooth. */
typedef struct end_position {
    const bite_edge_piece *piece; /* the last piece that it has entered; NULL: before the first */
    int inside;                   /* whether it is still in that piece */
    double turns;                 /* whole turns */
} end_position;

static end_position find_position(const bite_edge_integrals *edges, const bite_edge_tooth *tooth,
                                  double theta)
{
    const bite_edge_piece *pieces = edges->piece + tooth->first;
    end_position at;
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

/* The contribution of one end of an edge: the integrals of its tooth up to there, as harmonics of
 * the tip angle, which leads that end by end->behind. */
static void form_contribution(bite_edge_harmonics *restrict into,
                              const bite_edge_tooth *restrict tooth,
                              const bite_edge_end *restrict end, end_position at)
{
    if (at.inside) {
        form_harmonics(at.piece, &end->behind, at.turns, end->scale, into->coefficient);
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

/* The contributions of all ends and their sum. Few ends change their position from one span to the
 * next, so the other contributions are reused. */
typedef struct edge_sums {
    bite_edge_harmonics sum;
    bite_edge_harmonics contributions[2 * BITE_TEETH_MAX];
} edge_sums;

static const bite_edge_tooth *tooth_of(const bite_edge_integrals *edges, int end)
{
    return &edges->teeth[edges->alike ? 0 : end / 2];
}

static void add_contribution(bite_edge_harmonics *restrict sum,
                             const bite_edge_harmonics *restrict contribution)
{
    for (int i = 0; i < BITE_EDGE_HARMONICS; i++) {
        sum->coefficient[i] += contribution->coefficient[i];
    }
}

static void add_up(const bite_edge_integrals *edges, edge_sums *sweep)
{
    sweep->sum = sweep->contributions[0];
    for (int i = 1; i < edges->ends; i++) {
        add_contribution(&sweep->sum, &sweep->contributions[i]);
    }
}

/* Computes all contributions at a tip angle that is not a kink. */
static void start_sweep(const bite_edge_integrals *edges, double phi, edge_sums *sweep)
{
    for (int i = 0; i < edges->ends; i++) {
        const bite_edge_tooth *tooth = tooth_of(edges, i);
        form_contribution(&sweep->contributions[i], tooth, &edges->end[i],
                          find_position(edges, tooth, phi - edges->end[i].behind.at));
    }
    add_up(edges, sweep);
}

/* Updates the contribution of the end that crosses a kink. It is set, not incremented: crossing a
 * kink twice, which rounding may cause at the ends of the period, does no harm. */
static void cross_kink(const bite_edge_integrals *edges, const bite_edge_kink *kink,
                       edge_sums *sweep)
{
    if (kink->end < 0) {
        return;
    }
    const bite_edge_tooth *tooth = tooth_of(edges, kink->end);
    bite_edge_harmonics *contribution = &sweep->contributions[kink->end];
    bite_edge_harmonics before = *contribution;
    end_position at = {kink->piece < 0 ? NULL : &edges->piece[tooth->first + kink->piece],
                       kink->inside, kink->turns};
    form_contribution(contribution, tooth, &edges->end[kink->end], at);
    if (fabs(edges->lag) * edges->depth < update_lag_least) {
        add_up(edges, sweep);
        return;
    }
    for (int i = 0; i < BITE_EDGE_HARMONICS; i++) {
        sweep->sum.coefficient[i] += contribution->coefficient[i] - before.coefficient[i];
    }
}

static void add_sample(bite_edge_integrals *edges, const bite_edge_harmonics *harmonics,
                       const bite_angle *angle)
{
    double integrals[BITE_EDGE_TERMS];
    int at = edges->samples++;
    evaluate_harmonics(harmonics->coefficient, angle, integrals);
    double *lane = &edges->sample[at / BITE_SAMPLE_WIDTH].term[0][at % BITE_SAMPLE_WIDTH];
    for (int i = 0; i < BITE_EDGE_TERMS; i++) {
        lane[i * BITE_SAMPLE_WIDTH] = integrals[i];
    }
}

/* Adds the samples of one smooth interval that begins at a kink: those in between, in even steps,
 * and the one at its end. The sample at its beginning is the last one of the interval before, since
 * the integrals have no jumps. */
static void sample_interval(bite_edge_integrals *edges, const bite_edge_harmonics *harmonics,
                            const bite_angle *from, const bite_angle *to)
{
    double whole = to->at - from->at;
    int steps = whole < interval_least ? 1 : 2 * (1 + (int)(whole / (2.0 * sample_step)));
    if (steps > 1) {
        bite_angle step = bite_angle_small(whole / steps);
        bite_angle between = *from;
        for (int i = 1; i < steps; i++) {
            between = bite_angle_sum(from->at + step.at * i, between, step);
            if (i % 2) {
                edges->middle[edges->middles++] = (int16_t)edges->samples;
            }
            add_sample(edges, harmonics, &between);
        }
    }
    add_sample(edges, harmonics, to);
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
    int started = 0;
    bite_angle end = {edges->period, 0.0, 1.0};
    if (edges->alike) {
        end = bite_angle_of(edges->period);
    }
    edges->samples = 0;
    edges->middles = 0;
    for (int i = 0; i < edges->kinks; i++) {
        const bite_edge_kink *kink = &edges->kink[i];
        const bite_angle *next = i + 1 < edges->kinks ? &kink[1].angle : &end;
        if (started) {
            cross_kink(edges, kink, &sweep);
        }
        if (!(next->at > kink->angle.at)) {
            continue;
        }
        if (!started) {
            start_sweep(edges, 0.5 * (kink->angle.at + next->at), &sweep);
            started = 1;
            add_sample(edges, &sweep.sum, &edges->kink[0].angle);
        }
        edges->span[i] = sweep.sum;
        sample_interval(edges, &sweep.sum, &kink->angle, next);
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
    int distinct = chip->alike ? 1 : chip->flutes;
    for (int j = 0; j < distinct; j++) {
        form_tooth(edges, &edges->teeth[j], chip, &chip->teeth[j]);
    }
    form_mean(edges, chip);
    form_ends(edges);
    form_kinks(edges);
    sweep_period(edges);
}

/* An angle this close to a kink counts as the kink itself; the difference is due to rounding. */
static const double angle_tolerance = 1e-12; /* rad */

/* The last span that begins at `at` or before, in the period that begins at `away`. */
static bite_edge_span span_from(const bite_edge_integrals *edges, int kink, double at, double away)
{
    int next = kink + 1;
    while (next < edges->kinks && edges->kink[next].angle.at <= at + angle_tolerance) {
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
                      const bite_angle *angle, double integrals[BITE_EDGE_TERMS])
{
    evaluate_harmonics(edges->span[span.kink].coefficient, angle, integrals);
}
