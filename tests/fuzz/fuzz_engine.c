/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Any numbers as a cut: the engine answers with finite numbers, or refuses by name.
 *
 * The first 8 bytes choose a random cut, each further record of 10 bytes changes an input of it:
 * its index, how the rest is read, and 8 bytes that are the number itself, a place within its
 * range, or one of the numbers at which arithmetic breaks. Checked: no infinity; the heat adds up
 * to the power (an account of its own); a limit applies with numbers, or says why it does not; the
 * three counts are all limits; the verdict follows from the limits.
 */
#include "tests/support/any_cut.h"
#include <float.h>
#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

extern const long bite_fuzz_rounds;
const long bite_fuzz_rounds = 3000;

static const bite_cut *judged; /* for what is printed of a failure */

/* The inputs that were given, so that the cut can be made again by hand. */
static void fail(const char *what, const char *name, double number)
{
    fprintf(stderr, "%s %s: %g\n", what, name, number);
    for (size_t i = 0; judged != NULL && i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        const char *member = (const char *)judged + input->offset;
        double value = 0.0;
        uint32_t word = 0;
        memcpy(&value, member, input->words == 0 ? sizeof value : 0);
        memcpy(&word, member, input->words > 0 ? sizeof word : 0);
        if (input->words > 0 ? word > 0 : !isnan(value)) {
            fprintf(stderr, "%s=%.17g ", input->name, input->words > 0 ? word : value);
        }
    }
    abort();
}

static double number_of(const bite_input *input, uint8_t how, const uint8_t bytes[8])
{
    static const double edges[] = {0.0,           -0.0,    DBL_MIN,  DBL_TRUE_MIN,
                                   -DBL_TRUE_MIN, DBL_MAX, -DBL_MAX, 1e-300,
                                   1e300,         1.0,     -1.0,     DBL_EPSILON};
    double raw = 0.0;
    uint64_t whole = 0;
    memcpy(&raw, bytes, sizeof raw);
    memcpy(&whole, bytes, sizeof whole);
    double share = (double)(whole >> 11) * 0x1p-53;
    switch (how % 6) {
    case 0:
        return raw;
    case 1:
        return edges[whole % (sizeof edges / sizeof *edges)];
    case 2:
        return (double)NAN;
    case 3:
        return whole % 2 == 0 ? input->least : input->most;
    case 4: /* by order of magnitude, as most inputs spread */
        return input->least > 0.0 ? input->least * pow(input->most / input->least, share)
                                  : input->most * pow(10.0, -12.0 * share);
    default:
        return input->least + share * (input->most - input->least);
    }
}

static void change(bite_cut *cut, const uint8_t record[10])
{
    const bite_input *input = bite_input_at(record[0] % bite_input_count());
    char *member = (char *)cut + input->offset;
    if (input->words > 0) {
        uint32_t word = record[1] % 16 == 0 ? record[2] : record[2] % input->words;
        memcpy(member, &word, sizeof word);
        return;
    }
    double number = number_of(input, record[1], record + 2);
    if (input->whole && record[1] % 6 >= 4) {
        number = floor(number);
    }
    memcpy(member, &number, sizeof number);
}

static void check_limit(const bite_result *result, uint32_t id)
{
    const bite_limit *limit = &result->limits[id];
    const char *name = bite_limit_name((bite_limit_id)id);
    if (limit->applies) {
        if (!isfinite(limit->demand) ||
            !isfinite(limit->utilization)) { /* a rise is below zero beside a cold holder */
            fail("demand or utilization of", name, limit->utilization);
        }
        if (isnan(limit->capacity) || limit->capacity < 0.0) {
            fail("capacity of", name, limit->capacity);
        }
    } else if (limit->why == 0 || limit->why >= BITE_WHY_COUNT) {
        fail("no reason for", name, limit->why);
    }
}

static void check_verdict(const bite_result *result)
{
    double worst = 0.0;
    uint32_t counted = 0;
    for (uint32_t i = 0; i < result->limit_count; i++) {
        counted +=
            result->limits[i].why != BITE_WHY_NO_LIMIT; /* of which there are none to count */
        if (result->limits[i].applies && !result->limits[i].advisory) {
            worst = fmax(worst, result->limits[i].utilization);
        }
    }
    if ((result->verdict == BITE_OVER) != (worst > 1.0)) {
        fail("the verdict is", bite_verdict_name(result->verdict), worst);
    }
    if (result->verdict == BITE_CLEAR && result->not_judged > 0) {
        fail("clear, though limits are not judged", "", result->not_judged);
    }
    if (result->judged + result->not_applicable + result->not_judged != counted) {
        fail("limits are missing from", "the counts", result->judged);
    }
}

static void check_numbers(const bite_result *result)
{
    for (uint32_t i = 0; i < result->value_count; i++) {
        /* a cut that chatters at no depth has no largest one */
        bool depth = i == BITE_STABILITY_DEPTH || i == BITE_STABILITY_DEPTH_TOOL;
        if (isinf(result->values[i].value) && !(depth && result->values[i].value > 0.0)) {
            fail("infinite", bite_value_name((bite_value_id)i), result->values[i].value);
        }
    }
    double heat = result->heat_share[0] + result->heat_share[1] + result->heat_share[2] +
                  result->heat_share[3];
    if (isinf(heat) || (isfinite(heat) && fabs(heat - 1.0) > 1e-9)) {
        fail("the heat does not add up to the", "power", heat);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    uint64_t seed = 1;
    bite_error error = BITE_ERROR_INIT;
    static bite_result result; /* too large for a stack */
    if (size < sizeof seed) {
        return 0;
    }
    memcpy(&seed, data, sizeof seed);
    bite_cut cut = bite_test_any_cut(&seed);
    for (size_t at = sizeof seed; at + 10 <= size && at < 400; at += 10) {
        change(&cut, data + at);
    }
    judged = &cut;
    memset(&result, 0, sizeof result);
    result.struct_size = (uint32_t)sizeof result;
    bite_status status = bite_cut_pass(&cut, &result, &error);
    if (status != BITE_OK) {
        if (status == BITE_FAULT || error.message[0] == 0 || error.key[0] == 0) {
            fail("refused without a reason or an input", error.message, (double)status);
        }
        return 0;
    }
    for (uint32_t i = 0; i < result.limit_count; i++) {
        check_limit(&result, i);
    }
    check_numbers(&result);
    check_verdict(&result);
    return 0;
}
