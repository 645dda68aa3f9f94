/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of a square end mill, integrated along the helix in closed form. */
#include "core/cut/force.h"
#include <math.h>
#include <string.h>

/* A straight flute is the limit of a helix that lags by so little over the depth: one code for both, good to 1e-9. */
static const double lag_least = 1e-6; /* rad over ap */

/* Between kinks the sum is smooth; samples this close and a parabola give its peak to 2e-3, mostly to 3e-4. */
static const double sample_step = M_PI / 9.0;

/* A stretch this short is judged by its ends: what it could rise between them is under 1e-3. */
static const double stretch_least = 0.05; /* rad */

/* Over so short a lag the shares of the two ends of an edge are large and cancel: their sum is made anew for each span, for what is
 * added and taken away again would leave its rounding. */
static const double carry_least = 1e-3; /* rad over ap */

enum { TANGENTIAL, SIDE_X, SIDE_Y, LIFT };

/* The antiderivative of a piece's forces in the tooth's own angle, with sin^2 and sin cos written in twice the angle. */
static void form_waves(const bite_force_piece *piece, bite_waves *waves)
{
    memset(waves, 0, sizeof *waves);
    waves->rise[TANGENTIAL] = piece->edge_t;
    waves->cosine[TANGENTIAL] = -piece->cut_t;
    waves->rise[SIDE_X] = -0.5 * piece->cut_r;
    waves->sine[SIDE_X] = -piece->edge_t;
    waves->cosine[SIDE_X] = piece->edge_r;
    waves->sine2[SIDE_X] = 0.25 * piece->cut_r;
    waves->cosine2[SIDE_X] = 0.25 * piece->cut_t;
    waves->rise[SIDE_Y] = 0.5 * piece->cut_t;
    waves->sine[SIDE_Y] = -piece->edge_r;
    waves->cosine[SIDE_Y] = -piece->edge_t;
    waves->sine2[SIDE_Y] = -0.25 * piece->cut_t;
    waves->cosine2[SIDE_Y] = 0.25 * piece->cut_r;
    waves->rise[LIFT] = piece->edge_a;
    waves->cosine[LIFT] = -piece->cut_a;
    memcpy(waves->level, piece->level, sizeof waves->level);
}

static void waves_at(const bite_waves *restrict waves, double phi, double sine, double cosine, double *restrict parts)
{
    double sine2 = 2.0 * sine * cosine;
    double cosine2 = 1.0 - 2.0 * sine * sine;
    for (int i = 0; i < BITE_LOADS; i++) {
        parts[i] = waves->level[i] + waves->rise[i] * phi + waves->sine[i] * sine + waves->cosine[i] * cosine +
                   waves->sine2[i] * sine2 + waves->cosine2[i] * cosine2;
    }
}

/* Levels a piece so that it goes on from `sum` at enter; sum becomes what has been met at leave. */
static void join(bite_force_piece *piece, double *sum)
{
    bite_waves waves;
    double enter[BITE_LOADS];
    memset(piece->level, 0, sizeof piece->level);
    form_waves(piece, &waves);
    waves_at(&waves, piece->enter, sin(piece->enter), cos(piece->enter), enter);
    waves_at(&waves, piece->leave, sin(piece->leave), cos(piece->leave), piece->after);
    for (int i = 0; i < BITE_LOADS; i++) {
        piece->level[i] = sum[i] - enter[i];
        piece->after[i] += piece->level[i];
        sum[i] = piece->after[i];
    }
}

/* A tooth under h_min forms no chip now, but may meet what it left and this pass together: for the peak its chip counts twice. */
static void form_tooth(bite_force_tooth *out, const bite_tooth *tooth, const bite_pressure *pressure)
{
    double times = tooth->forms ? 1.0 : 2.0;
    double sum[BITE_LOADS] = {0.0};
    out->count = tooth->count;
    for (int i = 0; i < tooth->count; i++) {
        const bite_piece *from = &tooth->pieces[i];
        bite_force_piece *piece = &out->pieces[i];
        double slope = times * from->slope;
        double offset = times * from->offset;
        piece->enter = from->enter;
        piece->leave = from->leave;
        piece->cut_t = pressure->tangential * slope;
        piece->edge_t = pressure->tangential * offset + pressure->edge_tangential;
        piece->cut_r = pressure->radial * slope;
        piece->edge_r = pressure->radial * offset + pressure->edge_radial;
        piece->cut_a = pressure->axial * slope;
        piece->edge_a = pressure->axial * offset + pressure->edge_axial;
        join(piece, sum);
    }
    memcpy(out->total, sum, sizeof out->total);
}

/* The mean of a tooth that rubs: its edge term alone, for the material that it leaves is cut by another. */
static void rubbing_total(const bite_tooth *tooth, const bite_pressure *pressure, double *sum)
{
    for (int i = 0; i < tooth->count; i++) {
        bite_force_piece piece = {0};
        piece.enter = tooth->pieces[i].enter;
        piece.leave = tooth->pieces[i].leave;
        piece.edge_t = pressure->edge_tangential;
        piece.edge_r = pressure->edge_radial;
        piece.edge_a = pressure->edge_axial;
        join(&piece, sum);
    }
}

static bite_load load_of(const double *parts, double times)
{
    bite_load load = {times * parts[TANGENTIAL], times * parts[SIDE_X], times * parts[SIDE_Y], times * parts[LIFT]};
    return load;
}

/* Both ends of every tooth's edge, with the angles by which they trail the tip of tooth 0. */
static void form_ends(bite_force *force)
{
    double pitch = 2.0 * M_PI / force->flutes;
    double psi = force->lag * force->depth;
    force->ends = 2 * force->flutes;
    for (int i = 0; i < force->ends; i++) {
        bite_force_end *end = &force->end[i];
        end->behind = pitch * (i / 2) + (i % 2 ? psi : 0.0);
        end->sine = sin(end->behind);
        end->cosine = cos(end->behind);
        end->sine2 = 2.0 * end->sine * end->cosine;
        end->cosine2 = 1.0 - 2.0 * end->sine * end->sine;
        end->scale = (i % 2 ? -1.0 : 1.0) / force->lag;
    }
}

static void form_mean(bite_force *force, const bite_chip *chip, const bite_pressure *pressure)
{
    double sum[BITE_LOADS] = {0.0};
    int shown = chip->alike ? 1 : chip->flutes;
    for (int j = 0; j < shown; j++) {
        if (chip->teeth[j].forms) {
            for (int i = 0; i < BITE_LOADS; i++) {
                sum[i] += force->teeth[j].total[i];
            }
        } else {
            double rubbed[BITE_LOADS] = {0.0};
            rubbing_total(&chip->teeth[j], pressure, rubbed);
            for (int i = 0; i < BITE_LOADS; i++) {
                sum[i] += rubbed[i];
            }
        }
    }
    force->mean = load_of(sum, (chip->alike ? chip->flutes : 1.0) * force->depth / (2.0 * M_PI));
}

static double wrapped(double phi, double period)
{
    double turn = phi - period * floor(phi / period);
    return turn < period ? turn : 0.0;
}

/* Tip angles at which some end of the integral crosses the border of a piece: there the sum has its kinks. */
static void add_kink(bite_force *force, int tooth, int piece, int inside, double theta)
{
    double pitch = 2.0 * M_PI / force->flutes;
    double psi = force->lag * force->depth;
    for (int top = 0; top < 2; top++) {
        double phi = theta + pitch * tooth + (top ? psi : 0.0);
        bite_force_kink kink;
        kink.at = wrapped(phi, force->period);
        /* which tooth comes there within the period, and in which of its turns */
        int ahead = (int)floor((kink.at - phi) / pitch + 0.5) + tooth;
        int turns = (int)floor((double)ahead / force->flutes);
        kink.end = (int16_t)(2 * (ahead - turns * force->flutes) + top);
        kink.turns = (int16_t)turns;
        kink.piece = (int16_t)piece;
        kink.inside = (int16_t)inside;
        int k = force->kinks++;
        for (; k > 0 && force->kink[k - 1].at > kink.at; k--) {
            force->kink[k] = force->kink[k - 1];
        }
        force->kink[k] = kink;
    }
}

/* Of teeth that cut alike one period of the first tells of all. */
static void form_kinks(bite_force *force)
{
    int shown = force->alike ? 1 : force->flutes;
    force->period = force->alike ? 2.0 * M_PI / force->flutes : 2.0 * M_PI;
    force->kink[0].at = 0.0;
    force->kink[0].end = -1;
    force->kinks = 1;
    for (int j = 0; j < shown; j++) {
        const bite_force_tooth *tooth = &force->teeth[j];
        for (int i = 0; i < tooth->count; i++) {
            add_kink(force, j, i, 1, tooth->pieces[i].enter);
            if (i + 1 == tooth->count || tooth->pieces[i + 1].enter != tooth->pieces[i].leave) {
                add_kink(force, j, i, 0, tooth->pieces[i].leave);
            }
        }
    }
}

/* Where an end of the integral stands. */
typedef struct place {
    const bite_force_piece *piece; /* the last that it has entered; NULL: before the first */
    int inside;                    /* whether it is still in it */
    double turns;                  /* how often it went round */
} place;

static place find_place(const bite_force_tooth *tooth, double theta)
{
    place at;
    at.turns = floor(theta / (2.0 * M_PI));
    theta -= 2.0 * M_PI * at.turns;
    const bite_force_piece *piece = tooth->pieces + tooth->count;
    while (piece > tooth->pieces && theta <= piece[-1].enter) {
        piece--;
    }
    at.piece = piece > tooth->pieces ? piece - 1 : NULL;
    at.inside = at.piece != NULL && theta < at.piece->leave;
    return at;
}

/* The piece's waves in the tooth's own angle become waves in the tip's, which is ahead by end->behind. */
static void form_share(bite_waves *restrict into, const bite_force_tooth *restrict tooth, const bite_force_end *restrict end,
                       place at)
{
    double behind = end->behind + 2.0 * M_PI * at.turns;
    double scale = end->scale;
    memset(into, 0, sizeof *into);
    if (at.inside) {
        bite_waves from;
        form_waves(at.piece, &from);
        for (int i = 0; i < BITE_LOADS; i++) {
            into->level[i] = scale * (at.turns * tooth->total[i] + from.level[i] - from.rise[i] * behind);
            into->rise[i] = scale * from.rise[i];
            into->sine[i] = scale * (from.sine[i] * end->cosine + from.cosine[i] * end->sine);
            into->cosine[i] = scale * (from.cosine[i] * end->cosine - from.sine[i] * end->sine);
            into->sine2[i] = scale * (from.sine2[i] * end->cosine2 + from.cosine2[i] * end->sine2);
            into->cosine2[i] = scale * (from.cosine2[i] * end->cosine2 - from.sine2[i] * end->sine2);
        }
        return;
    }
    for (int i = 0; i < BITE_LOADS; i++) {
        into->level[i] = scale * (at.turns * tooth->total[i] + (at.piece == NULL ? 0.0 : at.piece->after[i]));
    }
}

static void add_share(bite_waves *restrict sum, const bite_waves *restrict share, double times)
{
    for (int i = 0; i < BITE_LOADS; i++) {
        sum->level[i] += times * share->level[i];
        sum->rise[i] += times * share->rise[i];
        sum->sine[i] += times * share->sine[i];
        sum->cosine[i] += times * share->cosine[i];
        sum->sine2[i] += times * share->sine2[i];
        sum->cosine2[i] += times * share->cosine2[i];
    }
}

/* Going from span to span: few ends change their place, so the others' shares are kept. */
typedef struct sweep {
    bite_waves sum;
    bite_waves shares[2 * BITE_TEETH_MOST];
} sweep;

static const bite_force_tooth *tooth_of(const bite_force *force, int end)
{
    return &force->teeth[force->alike ? 0 : end / 2];
}

static void add_up(const bite_force *force, sweep *of)
{
    memset(&of->sum, 0, sizeof of->sum);
    for (int i = 0; i < force->ends; i++) {
        add_share(&of->sum, &of->shares[i], 1.0);
    }
}

/* All shares at a tip angle that is no kink. */
static void begin(const bite_force *force, double phi, sweep *of)
{
    for (int i = 0; i < force->ends; i++) {
        const bite_force_tooth *tooth = tooth_of(force, i);
        form_share(&of->shares[i], tooth, &force->end[i], find_place(tooth, phi - force->end[i].behind));
    }
    add_up(force, of);
}

/* The share of the end that crosses a kink. It is set, not moved: crossing a kink twice, as rounding at the period's ends may have
 * it, does no harm. */
static void cross(const bite_force *force, const bite_force_kink *kink, sweep *of)
{
    if (kink->end < 0) {
        return;
    }
    const bite_force_tooth *tooth = tooth_of(force, kink->end);
    bite_waves *share = &of->shares[kink->end];
    place at = {kink->piece < 0 ? NULL : &tooth->pieces[kink->piece], kink->inside, kink->turns};
    int short_lag = fabs(force->lag) * force->depth < carry_least;
    if (!short_lag) {
        add_share(&of->sum, share, -1.0);
    }
    form_share(share, tooth, &force->end[kink->end], at);
    if (!short_lag) {
        add_share(&of->sum, share, 1.0);
    } else {
        add_up(force, of);
    }
}

static bite_load load_at(const bite_waves *waves, double phi, double sine, double cosine)
{
    double parts[BITE_LOADS];
    waves_at(waves, phi, sine, cosine, parts);
    return load_of(parts, 1.0);
}

/* The top of the parabola through three values at equal steps, never below the middle one. */
static double parabola(double left, double middle, double right)
{
    double bend = left - 2.0 * middle + right;
    double slope = 0.5 * (right - left);
    if (!(bend < 0.0) || fabs(slope) >= -bend) {
        return fmax(left, fmax(middle, right));
    }
    return middle - 0.5 * slope * slope / bend;
}

static double square_side(const bite_load *load)
{
    return load->x * load->x + load->y * load->y;
}

static void meet(bite_force_peaks *peaks, const bite_load *load)
{
    double side = square_side(load);
    peaks->tangential = load->tangential > peaks->tangential ? load->tangential : peaks->tangential;
    peaks->side = side > peaks->side ? side : peaks->side;
    peaks->lift = fabs(load->lift) > fabs(peaks->lift) ? load->lift : peaks->lift;
}

static void meet_between(bite_force_peaks *peaks, const bite_load *left, const bite_load *middle, const bite_load *right)
{
    double tangential = parabola(left->tangential, middle->tangential, right->tangential);
    double side = parabola(square_side(left), square_side(middle), square_side(right));
    peaks->tangential = tangential > peaks->tangential ? tangential : peaks->tangential;
    peaks->side = side > peaks->side ? side : peaks->side;
    double sign = middle->lift < 0.0 ? -1.0 : 1.0;
    double lift = sign * parabola(sign * left->lift, sign * middle->lift, sign * right->lift);
    peaks->lift = fabs(lift) > fabs(peaks->lift) ? lift : peaks->lift;
}

/* Where the sweep stands. The load has no steps, so what one span ends with the next begins with. */
typedef struct stand {
    double sine;
    double cosine;
    bite_load load;
} stand;

/* One smooth stretch: its end and what lies between, in even steps, the angle's sine and cosine turned on from step to step. */
static void climb(const bite_waves *waves, bite_force_peaks *peaks, double a, double b, stand *at)
{
    int steps = b - a < stretch_least ? 1 : 2 * (1 + (int)((b - a) / (2.0 * sample_step)));
    double step = (b - a) / steps;
    double turn_sine = sin(step);
    double turn_cosine = cos(step);
    bite_load before = at->load;
    bite_load middle = at->load;
    for (int i = 1; i <= steps; i++) {
        double sine = at->sine * turn_cosine + at->cosine * turn_sine;
        at->cosine = at->cosine * turn_cosine - at->sine * turn_sine;
        at->sine = sine;
        at->load = load_at(waves, a + step * i, at->sine, at->cosine);
        meet(peaks, &at->load);
        if (i % 2 == 1) {
            middle = at->load;
        } else {
            meet_between(peaks, &before, &middle, &at->load);
            before = at->load;
        }
    }
}

static void keep_side_y(bite_force_kink *kink, const bite_waves *sum)
{
    const double *const parts[6] = {sum->level, sum->rise, sum->sine, sum->cosine, sum->sine2, sum->cosine2};
    for (int i = 0; i < 6; i++) {
        kink->side_y[i] = parts[i][SIDE_Y];
    }
}

static void sweep_period(bite_force *force)
{
    sweep of;
    stand at = {0.0, 1.0, {0.0, 0.0, 0.0, 0.0}}; /* the first kink is at 0 */
    int begun = 0;
    bite_force_peaks none = {0.0, 0.0, 0.0};
    force->peaks = none;
    for (int i = 0; i < force->kinks; i++) {
        bite_force_kink *kink = &force->kink[i];
        double end = i + 1 < force->kinks ? kink[1].at : force->period;
        if (begun) {
            cross(force, kink, &of);
        }
        if (!(end > kink->at)) {
            continue;
        }
        if (!begun) {
            begin(force, 0.5 * (kink->at + end), &of);
            begun = 1;
            at.load = load_at(&of.sum, 0.0, 0.0, 1.0);
            meet(&force->peaks, &at.load);
        }
        keep_side_y(kink, &of.sum);
        climb(&of.sum, &force->peaks, kink->at, end, &at);
    }
    force->peaks.side = sqrt(force->peaks.side);
}

void bite_force_form(bite_force *force, const bite_chip *chip, const bite_pressure *pressure, double depth, double diameter,
                     double helix)
{
    double lag = tan(helix) / (0.5 * diameter);
    double least = lag_least / depth;
    force->flutes = chip->flutes;
    force->alike = chip->alike;
    force->depth = depth;
    force->lag = fabs(lag) < least ? copysign(least, lag) : lag;
    int shown = chip->alike ? 1 : chip->flutes;
    for (int j = 0; j < shown; j++) {
        form_tooth(&force->teeth[j], &chip->teeth[j], pressure);
    }
    form_mean(force, chip, pressure);
    form_ends(force);
    form_kinks(force);
    sweep_period(force);
}

bite_load bite_force_at(const bite_force *force, double phi)
{
    sweep of;
    begin(force, phi, &of);
    return load_at(&of.sum, phi, sin(phi), cos(phi));
}

bite_force_span bite_force_span_at(const bite_force *force, double phi)
{
    const double hair = 1e-12; /* rad: at a kink but for rounding is at it */
    double at = wrapped(phi, force->period);
    int next = 1;
    while (next < force->kinks && force->kink[next].at <= at + hair) {
        next++;
    }
    double away = phi - at;
    bite_force_span span = {next - 1, away, away + (next < force->kinks ? force->kink[next].at : force->period)};
    return span;
}

double bite_force_side_y(const bite_force *force, bite_force_span span, double phi)
{
    const double *of = force->kink[span.kink].side_y;
    double at = phi - span.away;
    double sine = sin(at);
    double cosine = cos(at);
    return of[0] + of[1] * at + of[2] * sine + of[3] * cosine + of[4] * (2.0 * sine * cosine) + of[5] * (1.0 - 2.0 * sine * sine);
}
