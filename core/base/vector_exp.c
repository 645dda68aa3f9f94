/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Functions of several numbers at once. */
#include "core/base/vector_exp.h"
#include <math.h>
#include <stdint.h>
#include <string.h>

/* exp(x) = 2^n exp(r), r = x - n ln 2 within 0.347 of 0: Taylor to the 13th power, whose rest is
 * 4e-18. ln 2 in two parts, the first with so many zeros at its end that n times it is exact. A
 * number added to 1.5 2^52 stands in its last digits as a whole one. */
static void exp_of_lanes(const double *restrict x, double *restrict out)
{
    const double whole = 0x1.8p52;
    const double ln2_high = 0x1.62e42feep-1;
    const double ln2_low = 0x1.a39ef35793c76p-33;
    for (int i = 0; i < BITE_VECTOR_WIDTH; i++) {
        double at = x[i] > 700.0 ? 700.0 : x[i];
        at = at < -700.0 ? -700.0 : at;
        double shifted = at * M_LOG2E + whole;
        double n = shifted - whole;
        double r = (at - n * ln2_high) - n * ln2_low;
        double sum = 1.0 / 6227020800.0;
        sum = sum * r + 1.0 / 479001600.0;
        sum = sum * r + 1.0 / 39916800.0;
        sum = sum * r + 1.0 / 3628800.0;
        sum = sum * r + 1.0 / 362880.0;
        sum = sum * r + 1.0 / 40320.0;
        sum = sum * r + 1.0 / 5040.0;
        sum = sum * r + 1.0 / 720.0;
        sum = sum * r + 1.0 / 120.0;
        sum = sum * r + 1.0 / 24.0;
        sum = sum * r + 1.0 / 6.0;
        sum = sum * r + 0.5;
        sum = sum * r * r + r + 1.0;
        uint64_t digits;
        double power;
        memcpy(&digits, &shifted, sizeof digits);
        digits = (digits + 1023U) << 52;
        memcpy(&power, &digits, sizeof power);
        out[i] = sum * power;
    }
}

void bite_vector_exp(const double *x, double *out, size_t count)
{
    for (size_t i = 0; i < count; i += BITE_VECTOR_WIDTH) {
        double at[BITE_VECTOR_WIDTH];
        double power[BITE_VECTOR_WIDTH];
        memcpy(at, x + i, sizeof at);
        exp_of_lanes(at, power);
        memcpy(out + i, power, sizeof power);
    }
}
