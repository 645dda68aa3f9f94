/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The k-th of many numbers: Floyd and Rivest 1975, Algorithm 489 (memory). */
#include "core/base/quantile.h"
#include <math.h>
#include <string.h>

/* So many numbers are worth a sample of their own, which narrows where the k-th lies. */
#define WORTH_A_SAMPLE 600

static void swap(double *a, double *b)
{
    double kept = *a;
    *a = *b;
    *b = kept;
}

/* Parts left..right at the value that stands at k: *low..*high is what may still hold the k-th. */
static void part(double *numbers, ptrdiff_t left, ptrdiff_t right, ptrdiff_t k, ptrdiff_t *low,
                 ptrdiff_t *high)
{
    double at = numbers[k];
    ptrdiff_t i = left;
    ptrdiff_t j = right;
    while (i <= j) {
        while (numbers[i] < at) {
            i++;
        }
        while (numbers[j] > at) {
            j--;
        }
        if (i <= j) {
            swap(&numbers[i++], &numbers[j--]);
        }
    }
    *low = k <= j ? left : k >= i ? i : k;
    *high = k <= j ? j : k >= i ? right : k;
}

static void narrow(double *numbers, ptrdiff_t left, ptrdiff_t right, ptrdiff_t k)
{
    while (right > left) {
        if (right - left > WORTH_A_SAMPLE) {
            double n = (double)(right - left + 1);
            double place = (double)(k - left + 1);
            double z = log(n);
            double size = 0.5 * exp(2.0 * z / 3.0);
            double spread = 0.5 * sqrt(z * size * (n - size) / n) * (place < 0.5 * n ? -1.0 : 1.0);
            double from = (double)k - place * size / n + spread;
            double to = (double)k + (n - place) * size / n + spread;
            ptrdiff_t low = from > (double)left ? (ptrdiff_t)from : left;
            ptrdiff_t high = to < (double)right ? (ptrdiff_t)to : right;
            narrow(numbers, low < k ? low : k, high > k ? high : k, k);
        }
        part(numbers, left, right, k, &left, &right);
    }
}

double bite_quantile_select(double *numbers, size_t count, size_t k)
{
    narrow(numbers, 0, (ptrdiff_t)count - 1, (ptrdiff_t)k);
    return numbers[k];
}

/* A sample tells between which two numbers the k-th lies, but once in a thousand times. */
#define SAMPLE 256
static const double deviates_wide = 3.2;

/* What lies between two numbers, in one pass without a branch that could be guessed wrong. Returns
 * how many. */
static size_t gather(const double *numbers, size_t count, double least, double most,
                     double *capacity, size_t *below)
{
    size_t gathered = 0;
    size_t less = 0;
    for (size_t i = 0; i < count; i++) {
        double number = numbers[i];
        capacity[gathered] = number;
        gathered += (size_t)((number >= least) & (number <= most));
        less += (size_t)(number < least);
    }
    *below = less;
    return gathered;
}

double bite_quantile_select_neighbour(const double *numbers, size_t count, size_t k,
                                      double *capacity)
{
    if (count >= 4 * SAMPLE) {
        double sample[SAMPLE];
        for (size_t i = 0; i < SAMPLE; i++) {
            sample[i] = numbers[i * count / SAMPLE];
        }
        double share = ((double)k + 0.5) / (double)count;
        double place = share * SAMPLE;
        double away = deviates_wide * sqrt(SAMPLE * share * (1.0 - share)) + 1.0;
        double least = place - away < 0.0
                           ? -INFINITY
                           : bite_quantile_select(sample, SAMPLE, (size_t)(place - away));
        double most = place + away >= SAMPLE
                          ? INFINITY
                          : bite_quantile_select(sample, SAMPLE, (size_t)(place + away));
        size_t below = 0;
        size_t gathered = gather(numbers, count, least, most, capacity, &below);
        if (k >= below && k - below < gathered) {
            return bite_quantile_select(capacity, gathered, k - below);
        }
    }
    memcpy(capacity, numbers, count * sizeof *capacity);
    return bite_quantile_select(capacity, count, k);
}
