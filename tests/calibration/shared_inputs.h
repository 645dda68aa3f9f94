/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inputs that all cuts share and that are calibrated together, and their priors. */
#ifndef BITE_TESTS_CALIBRATION_SHARED_INPUTS_H
#define BITE_TESTS_CALIBRATION_SHARED_INPUTS_H

#include <coolbite/coolbite.h>
#include <stddef.h>

#define SHARED_INPUTS 6

typedef struct shared_input {
    const char *name;
    double value; /* median of the prior, SI; NaN: a factor on what each cut has */
    double used;  /* value of the engine, SI; 1 for a factor */
    double low;   /* at 5 and 95 % of the prior, over its median */
    double high;
    int exact; /* without calibration it would be exact */
    char source[200];
} shared_input;

typedef struct priors {
    double detection;
    double false_alarm;
    double within;
    shared_input inputs[SHARED_INPUTS];
} priors;

/** Reads tests/calibration/priors.ini; stops the program if it cannot. */
priors priors_read(void);

/** Fills draws x SHARED_INPUTS values over the medians of the priors; the same on every run. */
void priors_draw(const priors *prior, size_t draws, double *factors);

/** Notes the values that the engine uses. full: any cut with all defaults. */
void priors_note_used(const bite_cut *full, priors *prior);

/** Applies one draw to a cut: the inputs are set, and their spreads removed, for the draw is all of
 * their uncertainty. full: the cut with all defaults. Returns how many spreads remain. */
size_t shared_inputs_apply(const priors *prior, const double *factors, const bite_cut *full,
                           bite_cut *cut, bite_spread *spreads, size_t count);

#endif
