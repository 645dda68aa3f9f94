/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mean and standard deviation of readings, with compensated sums. */
#include "core/statistics/moments.h"
#include <math.h>

void bite_sum_add(bite_sum *sum, double term)
{
    double total = sum->high + term;
    if (fabs(sum->high) >= fabs(term)) {
        sum->low += (sum->high - total) + term;
    } else {
        sum->low += (term - total) + sum->high;
    }
    sum->high = total;
}

double bite_sum_total(const bite_sum *sum)
{
    return sum->high + sum->low;
}

/* The mean of the readings less the first of them: the differences of near numbers are exact. */
static double mean_from_first(const double *readings, size_t count)
{
    bite_sum sum = {0.0, 0.0};
    for (size_t i = 1; i < count; i++) {
        bite_sum_add(&sum, readings[i] - readings[0]);
    }
    return bite_sum_total(&sum) / (double)count;
}

void bite_moments_of(const double *readings, size_t count, bite_moments *moments)
{
    const bite_moments none = {count, (double)NAN, (double)NAN, (double)NAN, (double)NAN, 0.0};
    *moments = none;
    if (count == 0) {
        return;
    }
    double offset = mean_from_first(readings, count);
    bite_sum squares = {0.0, 0.0};
    bite_sum rest = {0.0, 0.0}; /* of the differences: what the rounded mean leaves */
    moments->least = moments->most = readings[0];
    for (size_t i = 0; i < count; i++) {
        double difference = (readings[i] - readings[0]) - offset;
        bite_sum_add(&squares, difference * difference);
        bite_sum_add(&rest, difference);
        moments->least = fmin(moments->least, readings[i]);
        moments->most = fmax(moments->most, readings[i]);
    }
    double left = bite_sum_total(&rest);
    moments->mean = readings[0] + (offset + left / (double)count);
    if (count > 1) {
        moments->squares = fmax(0.0, bite_sum_total(&squares) - left * left / (double)count);
        moments->deviation = sqrt(moments->squares / (double)(count - 1));
    }
}
