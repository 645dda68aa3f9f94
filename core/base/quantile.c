/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The k-th smallest of many numbers: Floyd and Rivest 1975, Algorithm 489 (memory). */
#include "core/base/quantile.h"
#include <math.h>
#include <string.h>

/* Above this count it pays to narrow the range of the k-th number by a sample first. */
#define SAMPLING_MIN 600

static void swap(double *a, double *b)
{
    double old = *a;
    *a = *b;
    *b = old;
}

/* Partitions left..right around the value at index k; *low..*high: the range that the k-th number
 * is still in. */
static void partition(double *numbers, ptrdiff_t left, ptrdiff_t right, ptrdiff_t k, ptrdiff_t *low,
                      ptrdiff_t *high)
{
    double pivot = numbers[k];
    ptrdiff_t i = left;
    ptrdiff_t j = right;
    while (i <= j) {
        while (numbers[i] < pivot) {
            i++;
        }
        while (numbers[j] > pivot) {
            j--;
        }
        if (i <= j) {
            swap(&numbers[i++], &numbers[j--]);
        }
    }
    *low = k <= j ? left : k >= i ? i : k;
    *high = k <= j ? j : k >= i ? right : k;
}

static void select_range(double *numbers, ptrdiff_t left, ptrdiff_t right, ptrdiff_t k)
{
    while (right > left) {
        if (right - left > SAMPLING_MIN) {
            double n = (double)(right - left + 1);
            double rank = (double)(k - left + 1);
            double z = log(n);
            double size = 0.5 * exp(2.0 * z / 3.0);
            double spread = 0.5 * sqrt(z * size * (n - size) / n) * (rank < 0.5 * n ? -1.0 : 1.0);
            double from = (double)k - rank * size / n + spread;
            double to = (double)k + (n - rank) * size / n + spread;
            ptrdiff_t low = from > (double)left ? (ptrdiff_t)from : left;
            ptrdiff_t high = to < (double)right ? (ptrdiff_t)to : right;
            select_range(numbers, low < k ? low : k, high > k ? high : k, k);
        }
        partition(numbers, left, right, k, &left, &right);
    }
}

double bite_quantile_select(double *numbers, size_t count, size_t k)
{
    select_range(numbers, 0, (ptrdiff_t)count - 1, (ptrdiff_t)k);
    return numbers[k];
}

/* Two numbers of a sorted sample enclose the k-th in all but one of a thousand cases: the rank of
 * the k-th in the sample has a binomial distribution, and 3.2 standard deviations are left on
 * either side. */
#define SAMPLE 256
static const double sample_deviations = 3.2;

/* Copies the numbers within least..most to `inside`, in one pass without branches that could be
 * mispredicted. Returns how many there are; *below: how many are less than least. */
static size_t copy_range(const double *numbers, size_t count, double least, double most,
                         double *inside, size_t *below)
{
    size_t found = 0;
    size_t smaller = 0;
    for (size_t i = 0; i < count; i++) {
        double number = numbers[i];
        inside[found] = number;
        found += (size_t)((number >= least) & (number <= most));
        smaller += (size_t)(number < least);
    }
    *below = smaller;
    return found;
}

double bite_quantile_select_copy(const double *numbers, size_t count, size_t k, double *scratch)
{
    if (count >= 4 * SAMPLE) {
        double sample[SAMPLE];
        for (size_t i = 0; i < SAMPLE; i++) {
            sample[i] = numbers[i * count / SAMPLE];
        }
        double share = ((double)k + 0.5) / (double)count;
        double rank = share * SAMPLE;
        double margin = sample_deviations * sqrt(SAMPLE * share * (1.0 - share)) + 1.0;
        double least = rank - margin < 0.0
                           ? -INFINITY
                           : bite_quantile_select(sample, SAMPLE, (size_t)(rank - margin));
        double most = rank + margin >= SAMPLE
                          ? INFINITY
                          : bite_quantile_select(sample, SAMPLE, (size_t)(rank + margin));
        size_t below = 0;
        size_t found = copy_range(numbers, count, least, most, scratch, &below);
        if (k >= below && k - below < found) {
            return bite_quantile_select(scratch, found, k - below);
        }
    }
    memcpy(scratch, numbers, count * sizeof *scratch);
    return bite_quantile_select(scratch, count, k);
}
