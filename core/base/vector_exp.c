/* SPDX-License-Identifier: GPL-3.0-or-later */
/* exp of several numbers at once. */
#include "core/base/vector_exp.h"
#include <math.h>
#include <stdint.h>
#include <string.h>

/* exp(x) = 2^n exp(r), r = x - n ln 2 within 0.347 of 0. exp(r) is its Taylor series to the 13th
 * power, with a remainder of 4e-18. ln 2 is split in two parts; the first ends in enough zero bits
 * for n times it to be exact. Adding 1.5 2^52 to a number rounds it to an integer, which is then in
 * the low bits of the sum. */
static void exp_vector(const double *restrict x, double *restrict out)
{
    const double rounding = 0x1.8p52;
    const double ln2_high = 0x1.62e42feep-1;
    const double ln2_low = 0x1.a39ef35793c76p-33;
    for (int i = 0; i < BITE_VECTOR_WIDTH; i++) {
        double clamped = x[i] > 700.0 ? 700.0 : x[i];
        clamped = clamped < -700.0 ? -700.0 : clamped;
        double shifted = clamped * M_LOG2E + rounding;
        double n = shifted - rounding;
        double r = (clamped - n * ln2_high) - n * ln2_low;
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
        uint64_t bits;
        double power;
        memcpy(&bits, &shifted, sizeof bits);
        bits = (bits + 1023U) << 52;
        memcpy(&power, &bits, sizeof power);
        out[i] = sum * power;
    }
}

void bite_vector_exp(const double *x, double *out, size_t count)
{
    for (size_t i = 0; i < count; i += BITE_VECTOR_WIDTH) {
        double in[BITE_VECTOR_WIDTH];
        double power[BITE_VECTOR_WIDTH];
        memcpy(in, x + i, sizeof in);
        exp_vector(in, power);
        memcpy(out + i, power, sizeof power);
    }
}
