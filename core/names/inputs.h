/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Inputs: one entry for each member of bite_cut, and access to that member. bite_input_count,
 * bite_input_at, bite_input_find and bite_input_word are in coolbite/coolbite.h. */
#ifndef BITE_NAMES_INPUTS_H
#define BITE_NAMES_INPUTS_H

#include <coolbite/coolbite.h>
#include <math.h>
#include <stddef.h>
#include <stdint.h>

extern const bite_input bite_input_table[];
extern const size_t bite_input_table_count; /* without BITE_OWN_FIGURES entries behind them */

/** A member of bite_cut that is a property over temperature. */
typedef struct bite_curve_input {
    const char *name;
    size_t offset; /* of the member in bite_cut */
    double least;  /* range of its values, SI */
    double most;
    uint32_t kind; /* a bite_kind, of its values */
    uint32_t reserved;
} bite_curve_input;

extern const bite_curve_input bite_curve_inputs[];
extern const size_t bite_curve_input_count;

/** As bite_input_at; from bite_input_count() on, the members of own_figure: as they have no names
 * and units of their own, for draws only. */
const bite_input *bite_input_entry(size_t index);

/** Share of the largest value below which no size is meant: a floor of 1e-314 m is neither "cut
 * through", which 0 says, nor a floor, and the cube of its thickness is 0. */
#define BITE_INPUT_GRAIN 1e-12

/** The smallest value other than 0 of an input that may be 0; of others 0. */
static inline double bite_input_grain(const bite_input *input)
{
    return input->least == 0.0 ? BITE_INPUT_GRAIN * input->most : 0.0;
}

/** Whether value, SI, is within the range of an input and no vanishing one. NaN: no. */
static inline int bite_input_accepts(const bite_input *input, double value)
{
    int within = (value >= input->least) & (value <= input->most);
    return within & ((value == 0.0) | (fabs(value) >= bite_input_grain(input)));
}

/** Index of an input, for bite_input_at. input: an entry of bite_input_table. */
size_t bite_input_index(const bite_input *input);

/** The member of a cut that an input names: a uint32_t if input->words > 0 (choice), otherwise a
 * double (number). Borrowed, as long as cut exists. */
double *bite_input_number(bite_cut *cut, const bite_input *input);
const double *bite_input_number_of(const bite_cut *cut, const bite_input *input);
uint32_t *bite_input_choice(bite_cut *cut, const bite_input *input);
const uint32_t *bite_input_choice_of(const bite_cut *cut, const bite_input *input);

#endif
