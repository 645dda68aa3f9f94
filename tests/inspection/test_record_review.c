/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A value before it is recorded: by one limit, by none, and by what the instrument can show. */
#include "tests/inspection/record_fixture.h"
#include "tests/support/support.h"
#include <math.h>
#include <stdio.h>
#include <string.h>

#define MM 1e-3

typedef struct review_case {
    const char *keys; /* of the characteristic */
    const char *value;
    uint32_t place;
    uint32_t slip;
    double likely; /* mm; 0: none */
} review_case;

static const review_case cases[] = {
    /* a lower limit alone: nothing is too large, and small values are a third of it or less */
    {"nominal = 5 mm\nlower = 5 mm\n", "5.1", BITE_PLACE_INSIDE, BITE_SLIP_NONE, 0},
    {"nominal = 5 mm\nlower = 5 mm\n", "4.9", BITE_PLACE_OUTSIDE, BITE_SLIP_NONE, 0},
    {"nominal = 5 mm\nlower = 5 mm\n", "1.7", BITE_PLACE_OUTSIDE, BITE_SLIP_NONE, 0},
    {"nominal = 5 mm\nlower = 5 mm\n", "0.51", BITE_PLACE_OUTSIDE, BITE_SLIP_FACTOR, 5.1},
    {"nominal = 5 mm\nlower = 5 mm\n", "5000", BITE_PLACE_INSIDE, BITE_SLIP_NONE, 0},
    /* limits from 0 on: only what is large is odd */
    {"nominal = 0 mm\nlower = 0 mm\nupper = 0.1 mm\n", "0.05", BITE_PLACE_INSIDE, BITE_SLIP_NONE,
     0},
    {"nominal = 0 mm\nlower = 0 mm\nupper = 0.1 mm\n", "0.29", BITE_PLACE_OUTSIDE, BITE_SLIP_NONE,
     0},
    {"nominal = 0 mm\nlower = 0 mm\nupper = 0.1 mm\n", "0.5", BITE_PLACE_OUTSIDE, BITE_SLIP_FACTOR,
     0.05},
    /* no limits: a fifth of the nominal size either way is near; without one nothing is odd */
    {"nominal = 5 mm\n", "5.9", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    {"nominal = 5 mm\n", "51", BITE_PLACE_NONE, BITE_SLIP_FACTOR, 5.1},
    {"nominal = 5 mm\n", "8", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    {"nominal = 5 mm\n", "22", BITE_PLACE_NONE, BITE_SLIP_FAR, 0},
    {"nominal = 0 mm\n", "800", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    {"", "800", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    /* steps of a display in mm, and of the same in inches: 0.002, 0.001, 0.0005, 0.00005 in */
    {"nominal = 3 mm\nresolution = 0.05 mm\n", "3.05", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    {"nominal = 3 mm\nresolution = 0.05 mm\n", "0.118in", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    {"nominal = 3 mm\nresolution = 0.05 mm\n", "0.119in", BITE_PLACE_NONE, BITE_SLIP_FINER, 3.0},
    {"nominal = 3 mm\nresolution = 0.02 mm\n", "0.119in", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    {"nominal = 3 mm\nresolution = 0.02 mm\n", "0.1195in", BITE_PLACE_NONE, BITE_SLIP_FINER, 3.04},
    {"nominal = 3 mm\nresolution = 0.01 mm\n", "0.1195in", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    {"nominal = 3 mm\nresolution = 0.01 mm\n", "3.006", BITE_PLACE_NONE, BITE_SLIP_FINER, 3.01},
    {"nominal = 3 mm\nresolution = 0.001 mm\n", "0.11835in", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    {"nominal = 3 mm\nresolution = 0.001 mm\n", "0.11833in", BITE_PLACE_NONE, BITE_SLIP_FINER,
     3.006},
    {"nominal = 3 mm\nresolution = 0 mm\n", "3.00001", BITE_PLACE_NONE, BITE_SLIP_NONE, 0},
    /* an uncertainty that is none: the reading decides */
    {"nominal = 3 mm\nlower = 2.9 mm\nupper = 3.1 mm\nuncertainty = 0 mm\n", "3.1",
     BITE_PLACE_INSIDE, BITE_SLIP_NONE, 0},
};

START_TEST(values_before_they_are_recorded)
{
    static record_faults faults;
    static record_text text;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_record_entry entry;
        bite_review review;
        bite_error error = BITE_ERROR_INIT;
        text.size = 0;
        record_text_add(&text, "[format]\nkind = record\nversion = 1\n[characteristic.1]\n"
                               "what = size\n");
        record_text_add(&text, cases[i].keys);
        struct bite_record *record = record_of(&text, &faults);
        bite_record_entry_init(&entry);
        bite_review_init(&review);
        entry.value = cases[i].value;
        ck_assert_msg(bite_record_review(record, &entry, &review, &error) == BITE_OK, "%s",
                      error.message);
        ck_assert_msg(review.place == cases[i].place && review.slip == cases[i].slip,
                      "%s of %s: place %u, slip %u", cases[i].value, cases[i].keys, review.place,
                      review.slip);
        if (cases[i].likely > 0.0) {
            ck_assert_double_eq_tol(review.likely, cases[i].likely * MM, 1e-9);
        } else {
            ck_assert_double_nan(review.likely);
        }
        bite_record_free(record);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("record_review");
    TCase *tests = tcase_create("record_review");
    tcase_add_test(tests, values_before_they_are_recorded);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
