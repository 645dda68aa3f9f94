/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Offsets of the next cut from the sizes of the last parts. */
#include "core/inspection/wear_offset.h"
#include "core/inspection/measured.h"
#include "core/statistics/moments.h"
#include "core/statistics/polynomial_fit.h"
#include <math.h>

/* The offset of each kind of size, the walls that it has, and whether material that was left makes
 * it larger. */
static const struct {
    uint32_t kind;
    double walls;
    double sign;
} rules[BITE_MEASURED_COUNT + 1] = {
    [BITE_MEASURED_THICKNESS] = {BITE_OFFSET_LENGTH, 1.0, 1.0},
    [BITE_MEASURED_OUTSIDE] = {BITE_OFFSET_RADIUS, 2.0, 1.0},
    [BITE_MEASURED_INSIDE] = {BITE_OFFSET_RADIUS, 2.0, -1.0},
    [BITE_MEASURED_DEPTH] = {BITE_OFFSET_LENGTH, 1.0, -1.0},
    [BITE_MEASURED_HEIGHT] = {BITE_OFFSET_LENGTH, 1.0, 1.0},
};

/* Standard uncertainties beyond which a deviation is corrected, and a drift is taken for one: a
 * correction of noise makes the next part worse (common practice). */
static const double corrected_beyond = 2.0;
static const double drifts_beyond = 3.0;
static const size_t drift_parts = 6;

static double target_of(const bite_offset_question *question)
{
    return isnan(question->lower) || isnan(question->upper)
               ? question->nominal
               : 0.5 * (question->lower + question->upper);
}

/* A straight line over the number of the part. */
static void find_drift(const bite_offset_question *question, bite_wear_offset *offset)
{
    double order[128]; /* the last so many parts: a tool is not the same for longer */
    size_t most = sizeof order / sizeof *order;
    size_t count = question->count < most ? question->count : most;
    bite_polynomial_fit fit;
    for (size_t i = 0; i < count; i++) {
        order[i] = (double)i;
    }
    if (count >= drift_parts &&
        bite_polynomial_fit_points(order, question->parts + question->count - count, count, 1,
                                   &fit)) {
        offset->drift = fit.coefficient[1];
        offset->drift_uncertainty = fit.deviation[1];
        offset->drifts = fabs(offset->drift) > drifts_beyond * offset->drift_uncertainty;
        double next = fit.coefficient[0] + fit.coefficient[1] * (double)count;
        offset->expected = offset->drifts ? next : offset->expected;
    }
}

static void compare(const bite_offset_question *question, bite_wear_offset *offset)
{
    double excess = fabs(offset->left) - question->wall_error_high;
    if (offset->kind != BITE_OFFSET_RADIUS || isnan(excess)) {
        return; /* walls are predicted, floors are not */
    }
    offset->match = excess <= 0.0                             ? BITE_MATCH_WITHIN
                    : excess > 2.0 * offset->left_uncertainty ? BITE_MATCH_BEYOND
                                                              : BITE_MATCH_UNCLEAR;
    offset->unexplained = fmax(0.0, excess);
}

/* Moves the next part to the target, unless what it is expected to miss is noise. */
static void correct(double sign, bite_wear_offset *offset)
{
    double miss = offset->expected - offset->target;
    offset->corrects = fabs(miss) > corrected_beyond * offset->uncertainty;
    double change = offset->corrects ? 0.0 - sign * miss / offset->walls : 0.0;
    if (offset->kind == BITE_OFFSET_RADIUS) {
        offset->radius = change;
        offset->diameter = 2.0 * change;
    } else {
        offset->length = change;
    }
}

/* Nothing known but the target. */
static bite_wear_offset none_of(const bite_offset_question *question)
{
    const double nan = (double)NAN;
    const bite_wear_offset none = {.kind = BITE_OFFSET_NONE,
                                   .match = BITE_MATCH_UNKNOWN,
                                   .target = target_of(question),
                                   .mean = nan,
                                   .deviation = nan,
                                   .uncertainty = nan,
                                   .walls = nan,
                                   .left = nan,
                                   .left_uncertainty = nan,
                                   .spread = nan,
                                   .parts_spread = nan,
                                   .drift = nan,
                                   .drift_uncertainty = nan,
                                   .expected = nan,
                                   .radius = nan,
                                   .diameter = nan,
                                   .length = nan};
    return none;
}

void bite_wear_offset_of(const bite_offset_question *question, bite_wear_offset *offset)
{
    double own = isnan(question->uncertainty) ? 0.0 : question->uncertainty;
    bite_moments moments;
    *offset = none_of(question);
    bite_moments_of(question->parts, question->count, &moments);
    uint32_t measures =
        question->measures < BITE_MEASURED_COUNT ? question->measures : BITE_MEASURED_COUNT;
    if (question->count == 0 || isnan(offset->target) || rules[measures].kind == BITE_OFFSET_NONE) {
        return;
    }
    double spread = isnan(moments.deviation) ? 0.0 : moments.deviation;
    offset->kind = rules[measures].kind;
    offset->walls = rules[measures].walls;
    offset->mean = offset->expected = moments.mean;
    offset->deviation = moments.mean - offset->target;
    offset->uncertainty = sqrt(spread * spread / (double)question->count + own * own);
    offset->left = rules[measures].sign * offset->deviation / offset->walls;
    offset->left_uncertainty = offset->uncertainty / offset->walls;
    offset->spread = moments.deviation;
    if (question->count > 1) {
        offset->parts_spread = sqrt(fmax(0.0, spread * spread - own * own));
    }
    find_drift(question, offset);
    compare(question, offset);
    correct(rules[measures].sign, offset);
}
