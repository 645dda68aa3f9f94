/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A calculation that a reference row names: inputs by name, results in order. */
#ifndef BITE_TESTS_REFERENCE_CHECK_H
#define BITE_TESTS_REFERENCE_CHECK_H

#include <stddef.h>

#define BITE_CHECK_NUMBERS 24

#define BITE_CHECK_WORDS 4

typedef struct bite_given {
    size_t count;
    char names[BITE_CHECK_NUMBERS][24];
    double values[BITE_CHECK_NUMBERS];
    size_t words; /* name=word pairs, as of a material */
    char word_names[BITE_CHECK_WORDS][24];
    char word_values[BITE_CHECK_WORDS][48];
} bite_given;

/** The number of that name; fails the test if it is missing. */
double bite_in(const bite_given *given, const char *name);
/** The word of that name; NULL if there is none. */
const char *bite_in_word(const bite_given *given, const char *name);
/** The same for names such as k1, k2: a stem and a digit. */
double bite_in_at(const bite_given *given, const char *stem, int index);

/** What a check verifies: the engine, a textbook formula, or the row's own numbers. */
typedef enum bite_check_kind {
    BITE_CHECK_ENGINE,    /* runs a function that core/ itself calls, and no textbook formula */
    BITE_CHECK_FORMULA,   /* runs a formula in tests/reference/textbook/ */
    BITE_CHECK_ARITHMETIC /* runs neither */
} bite_check_kind;

typedef struct bite_check {
    const char
        *name; /* also the name of the function `run`, by which the object files are searched */
    int (*run)(const bite_given *given, double *out); /* the number of results */
    const char *runs; /* the function of core/ (bite_...) or the formula that it runs; NULL:
                         arithmetic. test_check_kinds.sh verifies it in the object files. */
} bite_check;

/** Kinematics, engagement, marks; the orthogonal cut; forces, shafts; conduction and the heat
 * model; uncertainty; chatter and beams; plates; warp, holding, sheet and time; and textbook
 * formulas that the engine does not use, which verify the rows but not the engine. */
extern const bite_check bite_checks_motion[];
extern const size_t bite_checks_motion_count;
extern const bite_check bite_checks_orthogonal[];
extern const size_t bite_checks_orthogonal_count;
extern const bite_check bite_checks_force[];
extern const size_t bite_checks_force_count;
extern const bite_check bite_checks_heat[];
extern const size_t bite_checks_heat_count;
extern const bite_check bite_checks_uncertainty[];
extern const size_t bite_checks_uncertainty_count;
extern const bite_check bite_checks_vibration[];
extern const size_t bite_checks_vibration_count;
extern const bite_check bite_checks_plate[];
extern const size_t bite_checks_plate_count;
extern const bite_check bite_checks_around[];
extern const size_t bite_checks_around_count;
extern const bite_check bite_checks_model[];
extern const size_t bite_checks_model_count;
extern const bite_check bite_checks_textbook[];
extern const size_t bite_checks_textbook_count;

#define BITE_COUNT(list) (sizeof list / sizeof *list)

#endif
