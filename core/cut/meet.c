/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the edges of a square end mill meet, integrated along the helix in closed form. */
#include "core/cut/meet.h"
#include <math.h>
#include <string.h>

/* A straight flute is the limit of a helix that lags by so little over the depth: one code for both, good to 1e-9. */
static const double lag_least = 1e-6; /* rad over ap */

/* Between kinks all is smooth; samples this close and a parabola give the peak of a force to 2e-3, mostly to 3e-4. */
static const double sample_step = M_PI / 9.0;

/* A stretch this short is judged by its ends: what it could rise between them is under 1e-3. */
static const double stretch_least = 0.05; /* rad */

/* Over so short a lag the shares of the two ends of an edge are large and cancel: their sum is made anew for each span, for what is
 * added and taken away again would leave its rounding. */
static const double carry_least = 1e-3; /* rad over ap */

/* The waves: six levels in the order of the integrals, then those of an end that trails by b. */
enum {
    RISE_AREA = BITE_MEETS, /* offset, on the angle */
    RISE_EDGE,              /* 1 */
    RISE_TWICE,             /* slope/2 */
    SLOPE_COSINE,           /* slope cos b */
    SLOPE_SINE,
    OFFSET_COSINE, /* offset cos b */
    OFFSET_SINE,
    ONE_COSINE, /* cos b */
    ONE_SINE,
    TWICE_COSINE, /* slope/4 cos 2 b */
    TWICE_SINE,
    WAVES_USED
};

/* Antiderivatives in the tooth's own angle t = phi - b of (slope sin t + offset), 1, and both times sin t and cos t, with products
 * of sine and cosine written in twice the angle. sine and cosine are those of phi. */
static void waves_at(const double *restrict of, double phi, double sine, double cosine, double *restrict met)
{
    double sine2 = 2.0 * sine * cosine;
    double cosine2 = 1.0 - 2.0 * sine * sine;
    met[BITE_MEET_AREA] = of[BITE_MEET_AREA] + of[RISE_AREA] * phi - (of[SLOPE_COSINE] * cosine + of[SLOPE_SINE] * sine);
    met[BITE_MEET_EDGE] = of[BITE_MEET_EDGE] + of[RISE_EDGE] * phi;
    met[BITE_MEET_AREA_SINE] = of[BITE_MEET_AREA_SINE] + of[RISE_TWICE] * phi -
                               (of[TWICE_COSINE] * sine2 - of[TWICE_SINE] * cosine2) -
                               (of[OFFSET_COSINE] * cosine + of[OFFSET_SINE] * sine);
    met[BITE_MEET_AREA_COSINE] = of[BITE_MEET_AREA_COSINE] - (of[TWICE_COSINE] * cosine2 + of[TWICE_SINE] * sine2) +
                                 (of[OFFSET_COSINE] * sine - of[OFFSET_SINE] * cosine);
    met[BITE_MEET_EDGE_SINE] = of[BITE_MEET_EDGE_SINE] - (of[ONE_COSINE] * cosine + of[ONE_SINE] * sine);
    met[BITE_MEET_EDGE_COSINE] = of[BITE_MEET_EDGE_COSINE] + (of[ONE_COSINE] * sine - of[ONE_SINE] * cosine);
}

/* The waves of a piece seen from an angle that is ahead of the tooth's own by behind, whose sine and cosine are given. */
static void form_waves(const bite_meet_piece *restrict piece, double behind, double sine, double cosine, double scale,
                       double *restrict waves)
{
    double slope = scale * piece->slope;
    double offset = scale * piece->offset;
    double rise[BITE_MEETS] = {offset, scale, 0.5 * slope, 0.0, 0.0, 0.0};
    for (int i = 0; i < BITE_MEETS; i++) {
        waves[i] = scale * piece->level[i] - rise[i] * behind;
    }
    waves[RISE_AREA] = rise[0];
    waves[RISE_EDGE] = rise[1];
    waves[RISE_TWICE] = rise[2];
    waves[SLOPE_COSINE] = slope * cosine;
    waves[SLOPE_SINE] = slope * sine;
    waves[OFFSET_COSINE] = offset * cosine;
    waves[OFFSET_SINE] = offset * sine;
    waves[ONE_COSINE] = scale * cosine;
    waves[ONE_SINE] = scale * sine;
    waves[TWICE_COSINE] = 0.25 * slope * (1.0 - 2.0 * sine * sine);
    waves[TWICE_SINE] = 0.5 * slope * sine * cosine;
    for (int i = WAVES_USED; i < BITE_WAVES; i++) {
        waves[i] = 0.0;
    }
}

/* Levels a piece so that it goes on from `sum` at enter; sum becomes what has been met at leave. */
static void join(bite_meet_piece *piece, double *sum)
{
    double waves[BITE_WAVES];
    double enter[BITE_MEETS];
    memset(piece->level, 0, sizeof piece->level);
    form_waves(piece, 0.0, 0.0, 1.0, 1.0, waves);
    waves_at(waves, piece->enter.angle, piece->enter.sine, piece->enter.cosine, enter);
    waves_at(waves, piece->leave.angle, piece->leave.sine, piece->leave.cosine, piece->after);
    for (int i = 0; i < BITE_MEETS; i++) {
        piece->level[i] = sum[i] - enter[i];
        piece->after[i] += piece->level[i];
        sum[i] = piece->after[i];
    }
}

static bite_meet_border border_at(double angle)
{
    bite_meet_border border = {angle, sin(angle), cos(angle)};
    return border;
}

/* A tooth under h_min forms no chip now, but may meet what it left and this pass together: for the peak its chip counts twice. */
static void form_tooth(bite_meet_tooth *out, const bite_tooth *tooth)
{
    double times = tooth->forms ? 1.0 : 2.0;
    double sum[BITE_MEETS] = {0.0};
    out->count = tooth->count;
    for (int i = 0; i < tooth->count; i++) {
        const bite_piece *from = &tooth->pieces[i];
        bite_meet_piece *piece = &out->pieces[i];
        int goes_on = i > 0 && from->enter == tooth->pieces[i - 1].leave;
        piece->enter = goes_on ? out->pieces[i - 1].leave : border_at(from->enter);
        piece->leave = border_at(from->leave);
        piece->slope = times * from->slope;
        piece->offset = times * from->offset;
        join(piece, sum);
    }
    memcpy(out->total, sum, sizeof out->total);
}

/* Both ends of every tooth's edge, with the angles by which they trail the tip of tooth 0. */
static void form_ends(bite_meet *meet)
{
    double pitch = 2.0 * M_PI / meet->flutes;
    double psi = meet->lag * meet->depth;
    meet->ends = 2 * meet->flutes;
    for (int i = 0; i < meet->ends; i++) {
        bite_meet_end *end = &meet->end[i];
        end->behind = pitch * (i / 2) + (i % 2 ? psi : 0.0);
        end->sine = sin(end->behind);
        end->cosine = cos(end->behind);
        end->scale = (i % 2 ? -1.0 : 1.0) / meet->lag;
    }
}

/* The mean of a tooth that rubs: its edge alone, for the material that it leaves is cut by another. */
static void form_mean(bite_meet *meet, const bite_chip *chip)
{
    double sum[BITE_MEETS] = {0.0};
    int shown = chip->alike ? 1 : chip->flutes;
    for (int j = 0; j < shown; j++) {
        const double *total = meet->teeth[j].total;
        double chips = chip->teeth[j].forms ? 1.0 : 0.0;
        sum[BITE_MEET_AREA] += chips * total[BITE_MEET_AREA];
        sum[BITE_MEET_AREA_SINE] += chips * total[BITE_MEET_AREA_SINE];
        sum[BITE_MEET_AREA_COSINE] += chips * total[BITE_MEET_AREA_COSINE];
        sum[BITE_MEET_EDGE] += total[BITE_MEET_EDGE];
        sum[BITE_MEET_EDGE_SINE] += total[BITE_MEET_EDGE_SINE];
        sum[BITE_MEET_EDGE_COSINE] += total[BITE_MEET_EDGE_COSINE];
    }
    for (int i = 0; i < BITE_MEETS; i++) {
        meet->mean[i] = sum[i] * (chip->alike ? chip->flutes : 1.0) * meet->depth / (2.0 * M_PI);
    }
}

static double wrapped(double phi, double period)
{
    double turn = phi - period * floor(phi / period);
    return turn < period ? turn : 0.0;
}

/* Tip angles at which some end of the integral crosses the border of a piece: there the sum has its kinks. */
static void add_kink(bite_meet *meet, int tooth, int piece, int inside, const bite_meet_border *border)
{
    double pitch = 2.0 * M_PI / meet->flutes;
    double psi = meet->lag * meet->depth;
    for (int top = 0; top < 2; top++) {
        double phi = border->angle + pitch * tooth + (top ? psi : 0.0);
        bite_meet_kink kink;
        kink.at = wrapped(phi, meet->period);
        /* which tooth comes there within the period, and in which of its turns */
        int ahead = (int)floor((kink.at - phi) / pitch + 0.5) + tooth;
        int turns = (int)floor((double)ahead / meet->flutes);
        kink.end = (int16_t)(2 * (ahead - turns * meet->flutes) + top);
        kink.turns = (int16_t)turns;
        kink.piece = (int16_t)piece;
        kink.inside = (int16_t)inside;
        const bite_meet_end *end = &meet->end[kink.end];
        kink.sine = border->sine * end->cosine + border->cosine * end->sine;
        kink.cosine = border->cosine * end->cosine - border->sine * end->sine;
        int k = meet->kinks++;
        for (; k > 0 && meet->kink[k - 1].at > kink.at; k--) {
            meet->kink[k] = meet->kink[k - 1];
        }
        meet->kink[k] = kink;
    }
}

/* Of teeth that cut alike one period of the first tells of all. */
static void form_kinks(bite_meet *meet)
{
    const bite_meet_kink first = {0.0, 0.0, 1.0, -1, -1, 0, 0};
    int shown = meet->alike ? 1 : meet->flutes;
    meet->period = meet->alike ? 2.0 * M_PI / meet->flutes : 2.0 * M_PI;
    meet->kink[0] = first;
    meet->kinks = 1;
    for (int j = 0; j < shown; j++) {
        const bite_meet_tooth *tooth = &meet->teeth[j];
        for (int i = 0; i < tooth->count; i++) {
            add_kink(meet, j, i, 1, &tooth->pieces[i].enter);
            if (i + 1 == tooth->count || tooth->pieces[i + 1].enter.angle != tooth->pieces[i].leave.angle) {
                add_kink(meet, j, i, 0, &tooth->pieces[i].leave);
            }
        }
    }
}

/* Where an end of the integral stands. */
typedef struct place {
    const bite_meet_piece *piece; /* the last that it has entered; NULL: before the first */
    int inside;                   /* whether it is still in it */
    double turns;                 /* how often it went round */
} place;

static place find_place(const bite_meet_tooth *tooth, double theta)
{
    place at;
    at.turns = floor(theta / (2.0 * M_PI));
    theta -= 2.0 * M_PI * at.turns;
    const bite_meet_piece *piece = tooth->pieces + tooth->count;
    while (piece > tooth->pieces && theta <= piece[-1].enter.angle) {
        piece--;
    }
    at.piece = piece > tooth->pieces ? piece - 1 : NULL;
    at.inside = at.piece != NULL && theta < at.piece->leave.angle;
    return at;
}

/* What the tooth has met up to an end, in waves of the tip's angle, which is ahead by end->behind. */
static void form_share(bite_waves *restrict into, const bite_meet_tooth *restrict tooth, const bite_meet_end *restrict end,
                       place at)
{
    if (at.inside) {
        form_waves(at.piece, end->behind + 2.0 * M_PI * at.turns, end->sine, end->cosine, end->scale, into->of);
    } else {
        memset(into, 0, sizeof *into);
        for (int i = 0; i < BITE_MEETS; i++) {
            into->of[i] = end->scale * (at.piece == NULL ? 0.0 : at.piece->after[i]);
        }
    }
    if (at.turns != 0.0) {
        for (int i = 0; i < BITE_MEETS; i++) {
            into->of[i] += end->scale * at.turns * tooth->total[i];
        }
    }
}

/* Going from span to span: few ends change their place, so the others' shares are kept. */
typedef struct sweep {
    bite_waves sum;
    bite_waves shares[2 * BITE_TEETH_MOST];
} sweep;

static const bite_meet_tooth *tooth_of(const bite_meet *meet, int end)
{
    return &meet->teeth[meet->alike ? 0 : end / 2];
}

static void add_share(bite_waves *restrict sum, const bite_waves *restrict share)
{
    for (int i = 0; i < BITE_WAVES; i++) {
        sum->of[i] += share->of[i];
    }
}

static void take_share(bite_waves *restrict sum, const bite_waves *restrict share)
{
    for (int i = 0; i < BITE_WAVES; i++) {
        sum->of[i] -= share->of[i];
    }
}

static void add_up(const bite_meet *meet, sweep *of)
{
    memset(&of->sum, 0, sizeof of->sum);
    for (int i = 0; i < meet->ends; i++) {
        add_share(&of->sum, &of->shares[i]);
    }
}

/* All shares at a tip angle that is no kink. */
static void begin(const bite_meet *meet, double phi, sweep *of)
{
    for (int i = 0; i < meet->ends; i++) {
        const bite_meet_tooth *tooth = tooth_of(meet, i);
        form_share(&of->shares[i], tooth, &meet->end[i], find_place(tooth, phi - meet->end[i].behind));
    }
    add_up(meet, of);
}

/* The share of the end that crosses a kink. It is set, not moved: crossing a kink twice, as rounding at the period's ends may have
 * it, does no harm. */
static void cross(const bite_meet *meet, const bite_meet_kink *kink, sweep *of)
{
    if (kink->end < 0) {
        return;
    }
    const bite_meet_tooth *tooth = tooth_of(meet, kink->end);
    bite_waves *share = &of->shares[kink->end];
    place at = {kink->piece < 0 ? NULL : &tooth->pieces[kink->piece], kink->inside, kink->turns};
    int short_lag = fabs(meet->lag) * meet->depth < carry_least;
    if (!short_lag) {
        take_share(&of->sum, share);
    }
    form_share(share, tooth, &meet->end[kink->end], at);
    if (!short_lag) {
        add_share(&of->sum, share);
    } else {
        add_up(meet, of);
    }
}

static void add_sample(bite_meet *meet, const bite_waves *waves, double phi, double sine, double cosine, int middle)
{
    double met[BITE_MEETS];
    int at = meet->samples++;
    waves_at(waves->of, phi, sine, cosine, met);
    for (int i = 0; i < BITE_MEETS; i++) {
        meet->sample[i][at] = met[i];
    }
    meet->middle[at] = (uint8_t)middle;
}

/* One smooth stretch from a kink: what lies between, in even steps, and its end. What it begins with the one before ended with, for
 * nothing has steps. */
static void climb(bite_meet *meet, const bite_waves *waves, const bite_meet_kink *from, const bite_meet_kink *to)
{
    double whole = to->at - from->at;
    int steps = whole < stretch_least ? 1 : 2 * (1 + (int)(whole / (2.0 * sample_step)));
    if (steps > 1) {
        double step = whole / steps;
        double turn_sine = sin(step);
        double turn_cosine = cos(step);
        double sine = from->sine;
        double cosine = from->cosine;
        for (int i = 1; i < steps; i++) {
            double turned = sine * turn_cosine + cosine * turn_sine;
            cosine = cosine * turn_cosine - sine * turn_sine;
            sine = turned;
            add_sample(meet, waves, from->at + step * i, sine, cosine, i % 2);
        }
    }
    add_sample(meet, waves, to->at, to->sine, to->cosine, 0);
}

static void repeat_last(bite_meet *meet)
{
    int last = meet->samples - 1;
    for (; meet->samples % BITE_SAMPLE_LANES != 0; meet->samples++) {
        for (int i = 0; i < BITE_MEETS; i++) {
            meet->sample[i][meet->samples] = meet->sample[i][last];
        }
        meet->middle[meet->samples] = 0;
    }
}

static void sweep_period(bite_meet *meet)
{
    sweep of;
    int begun = 0;
    bite_meet_kink end = {meet->period, 0.0, 1.0, -1, -1, 0, 0};
    if (meet->alike) {
        end.sine = sin(meet->period);
        end.cosine = cos(meet->period);
    }
    meet->samples = 0;
    for (int i = 0; i < meet->kinks; i++) {
        const bite_meet_kink *kink = &meet->kink[i];
        const bite_meet_kink *next = i + 1 < meet->kinks ? &kink[1] : &end;
        if (begun) {
            cross(meet, kink, &of);
        }
        if (!(next->at > kink->at)) {
            continue;
        }
        if (!begun) {
            begin(meet, 0.5 * (kink->at + next->at), &of);
            begun = 1;
            add_sample(meet, &of.sum, 0.0, 0.0, 1.0, 0); /* the first kink is at 0 */
        }
        meet->span[i] = of.sum;
        climb(meet, &of.sum, kink, next);
    }
    repeat_last(meet);
}

void bite_meet_form(bite_meet *meet, const bite_chip *chip, double depth, double diameter, double helix)
{
    double lag = tan(helix) / (0.5 * diameter);
    double least = lag_least / depth;
    meet->flutes = chip->flutes;
    meet->alike = chip->alike;
    meet->depth = depth;
    meet->lag = fabs(lag) < least ? copysign(least, lag) : lag;
    int shown = chip->alike ? 1 : chip->flutes;
    for (int j = 0; j < shown; j++) {
        form_tooth(&meet->teeth[j], &chip->teeth[j]);
    }
    form_mean(meet, chip);
    form_ends(meet);
    form_kinks(meet);
    sweep_period(meet);
}

void bite_meet_at(const bite_meet *meet, double phi, double met[BITE_MEETS])
{
    sweep of;
    begin(meet, phi, &of);
    waves_at(of.sum.of, phi, sin(phi), cos(phi), met);
}

bite_meet_span bite_meet_span_at(const bite_meet *meet, double phi)
{
    const double hair = 1e-12; /* rad: at a kink but for rounding is at it */
    double at = wrapped(phi, meet->period);
    int next = 1;
    while (next < meet->kinks && meet->kink[next].at <= at + hair) {
        next++;
    }
    double away = phi - at;
    bite_meet_span span = {next - 1, away, away + (next < meet->kinks ? meet->kink[next].at : meet->period)};
    return span;
}

void bite_meet_within(const bite_meet *meet, bite_meet_span span, double phi, double met[BITE_MEETS])
{
    double at = phi - span.away;
    waves_at(meet->span[span.kink].of, at, sin(at), cos(at), met);
}
