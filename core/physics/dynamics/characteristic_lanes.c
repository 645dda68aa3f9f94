/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Characteristic polynomials of four matrices at once. */
#include "core/physics/dynamics/characteristic_lanes.h"
#include <float.h>

/* The row from `from` on that is largest in a column, over all lanes. */
BITE_FORMULA int largest_row(const bite_lane_vector *real, const bite_lane_vector *imaginary,
                             int order, int from, int column)
{
    double largest = -1.0;
    int row = from;
    for (int i = from; i < order; i++) {
        bite_lane_vector a = real[i * order + column];
        bite_lane_vector b = imaginary[i * order + column];
        bite_lane_vector square = a * a + b * b;
        double size = (square[0] + square[1]) + (square[2] + square[3]);
        if (size > largest) {
            largest = size;
            row = i;
        }
    }
    return row;
}

BITE_FORMULA void swap_rows_and_columns(bite_lane_vector *x, int order, int a, int b)
{
    for (int j = 0; j < order; j++) {
        bite_lane_vector other = x[a * order + j];
        x[a * order + j] = x[b * order + j];
        x[b * order + j] = other;
    }
    for (int i = 0; i < order; i++) {
        bite_lane_vector other = x[i * order + a];
        x[i * order + a] = x[i * order + b];
        x[i * order + b] = other;
    }
}

/* The sums over k < count of two rows of complex numbers times a vector x. Two rows at once need
 * half of the loads. */
BITE_FORMULA void multiply_rows(const bite_lane_complex *restrict x, const bite_lane_vector *real,
                                const bite_lane_vector *imaginary, int next_row, int count,
                                bite_lane_complex sums[2])
{
    bite_lane_vector a = sums[0].real;
    bite_lane_vector b = sums[0].imaginary;
    bite_lane_vector c = sums[1].real;
    bite_lane_vector d = sums[1].imaginary;
    for (int k = 0; k < count; k++) {
        bite_lane_vector u = x[k].real;
        bite_lane_vector w = x[k].imaginary;
        const bite_lane_vector *p = real + k;
        const bite_lane_vector *q = imaginary + k;
        /* in this order each line is two fused operations */
        a = a + u * p[0] - w * q[0];
        b = b + u * q[0] + w * p[0];
        c = c + u * p[next_row] - w * q[next_row];
        d = d + u * q[next_row] + w * p[next_row];
    }
    sums[0].real = a;
    sums[0].imaginary = b;
    sums[1].real = c;
    sums[1].imaginary = d;
}

/* The same of four rows, which need a quarter of the loads; `rows` tells where they are. */
BITE_FORMULA void multiply_four(const bite_lane_complex *restrict x, const bite_lane_vector *real,
                                const bite_lane_vector *imaginary, const int rows[4], int count,
                                bite_lane_complex sums[4])
{
    bite_lane_vector a = sums[0].real, b = sums[0].imaginary;
    bite_lane_vector c = sums[1].real, d = sums[1].imaginary;
    bite_lane_vector e = sums[2].real, f = sums[2].imaginary;
    bite_lane_vector g = sums[3].real, h = sums[3].imaginary;
    for (int k = 0; k < count; k++) {
        bite_lane_vector u = x[k].real;
        bite_lane_vector w = x[k].imaginary;
        const bite_lane_vector *p = real + k;
        const bite_lane_vector *q = imaginary + k;
        a = a + u * p[rows[0]] - w * q[rows[0]];
        b = b + u * q[rows[0]] + w * p[rows[0]];
        c = c + u * p[rows[1]] - w * q[rows[1]];
        d = d + u * q[rows[1]] + w * p[rows[1]];
        e = e + u * p[rows[2]] - w * q[rows[2]];
        f = f + u * q[rows[2]] + w * p[rows[2]];
        g = g + u * p[rows[3]] - w * q[rows[3]];
        h = h + u * q[rows[3]] + w * p[rows[3]];
    }
    sums[0].real = a, sums[0].imaginary = b;
    sums[1].real = c, sums[1].imaginary = d;
    sums[2].real = e, sums[2].imaginary = f;
    sums[3].real = g, sums[3].imaginary = h;
}

/* The places of four rows; those beyond the last one are the last one. */
BITE_FORMULA void four_rows(int from, int order, int rows[4])
{
    for (int r = 0; r < 4; r++) {
        rows[r] = (from + r < order ? from + r : order - 1) * order;
    }
}

/* Adds to a column of A the columns behind it by the multiples L of the step before: A L. */
BITE_FORMULA void multiply_columns(const bite_lane_matrices *restrict matrices, int order, int m,
                                   const bite_lane_complex *restrict multiples,
                                   bite_lane_complex *restrict column)
{
    for (int i = 0; i < order; i += 4) {
        int rows[4];
        four_rows(i, order, rows);
        for (int r = 0; r < 4; r++) {
            column[i + r].real = matrices->real[rows[r] + m];
            column[i + r].imaginary = matrices->imaginary[rows[r] + m];
        }
        multiply_four(multiples, matrices->real + m + 1, matrices->imaginary + m + 1, rows,
                      order - 1 - m, column + i);
    }
}

/* Solves L h = column in place for the first m + 1 rows, and subtracts their part from the others.
 * L has no entries in column 0; its column k is kept in column k - 1 below those of H. */
BITE_FORMULA void solve_column(const bite_lane_matrices *restrict matrices, int order, int m,
                               bite_lane_complex *restrict column)
{
    for (int i = 2; i <= m; i++) {
        bite_lane_vector real = column[i].real;
        bite_lane_vector imaginary = column[i].imaginary;
        for (int k = 1; k < i; k++) {
            bite_lane_vector u = matrices->real[i * order + k - 1];
            bite_lane_vector w = matrices->imaginary[i * order + k - 1];
            real = real - u * column[k].real + w * column[k].imaginary;
            imaginary = imaginary - u * column[k].imaginary - w * column[k].real;
        }
        column[i].real = real;
        column[i].imaginary = imaginary;
    }
    for (int i = m + 1; i < order; i += 4) {
        const bite_lane_vector none = {0.0, 0.0, 0.0, 0.0};
        bite_lane_complex sums[4] = {{none, none}, {none, none}, {none, none}, {none, none}};
        int rows[4];
        four_rows(i, order, rows);
        multiply_four(column + 1, matrices->real, matrices->imaginary, rows, m, sums);
        for (int r = 0; r < 4; r++) {
            column[i + r].real -= sums[r].real;
            column[i + r].imaginary -= sums[r].imaginary;
        }
    }
}

/* The multiples of the entry below the diagonal of column m in those below it. */
BITE_FORMULA void divide_column(bite_lane_matrices *restrict matrices, int order, int m,
                                bite_lane_complex *restrict multiples)
{
    int at = (m + 1) * order + m;
    bite_lane_vector a = matrices->real[at];
    bite_lane_vector b = matrices->imaginary[at];
    bite_lane_vector over = 1.0 / (a * a + b * b + DBL_MIN); /* 0/0: 0 */
    a *= over;
    b *= over;
    for (int i = m + 2; i < order; i++) {
        bite_lane_vector c = matrices->real[i * order + m];
        bite_lane_vector d = matrices->imaginary[i * order + m];
        bite_lane_complex of = {c * a + d * b, d * a - c * b};
        matrices->real[i * order + m] = of.real;
        matrices->imaginary[i * order + m] = of.imaginary;
        multiples[i - m - 2] = of;
    }
}

/* A L = L H, column by column of H, with L a lower triangle with ones on its diagonal. */
BITE_FORMULA void make_hessenberg(int order, bite_lane_matrices *matrices)
{
    bite_lane_complex column[BITE_ARC_ORDER_MAX + 3];
    bite_lane_complex multiples[BITE_ARC_ORDER_MAX];
    for (int m = 0; m < order; m++) {
        if (m > 0) {
            multiply_columns(matrices, order, m, multiples, column);
            solve_column(matrices, order, m, column);
            for (int i = 0; i < order; i++) {
                matrices->real[i * order + m] = column[i].real;
                matrices->imaginary[i * order + m] = column[i].imaginary;
            }
        }
        if (m + 2 < order) {
            int row = largest_row(matrices->real, matrices->imaginary, order, m + 1, m);
            if (row != m + 1) {
                swap_rows_and_columns(matrices->real, order, m + 1, row);
                swap_rows_and_columns(matrices->imaginary, order, m + 1, row);
            }
        }
        if (m + 1 < order) {
            divide_column(matrices, order, m, multiples);
        }
    }
}

/* The entries of column n - 1 of H times those below the diagonal to their right. */
BITE_FORMULA void set_products(const bite_lane_matrices *restrict matrices, int order, int n,
                               bite_lane_complex *restrict products)
{
    const bite_lane_vector none = {0.0, 0.0, 0.0, 0.0};
    bite_lane_complex product = {none - 1.0, none};
    for (int i = n - 1; i >= 0; i--) {
        int at = i * order;
        bite_lane_complex entry = {matrices->real[at + n - 1], matrices->imaginary[at + n - 1]};
        bite_lane_product(&entry, &product, &products[i]);
        if (i > 0) {
            bite_lane_complex below = {matrices->real[at + i - 1], matrices->imaginary[at + i - 1]};
            bite_lane_product(&product, &below, &product);
        }
    }
}

/* Where the coefficients x^0, x^1, ... of the minors n, n + 1, ... begin: those that a sum runs
 * over stand side by side. */
BITE_FORMULA int diagonal_of(int order, int n)
{
    return n * (2 * order + 3 - n) / 2;
}

/* The n-th minor's polynomial from those before it: the coefficients of x^k and x^(k + 1). */
BITE_FORMULA void set_coefficients(const bite_lane_complex *restrict products, int order, int n,
                                   int k, bite_lane_minors *restrict minors)
{
    const bite_lane_vector none = {0.0, 0.0, 0.0, 0.0};
    int here = diagonal_of(order, n - k);
    bite_lane_complex sums[2] = {{none, none}, {none, none}};
    int next = 0;
    if (k < n) {
        /* that of x^k of the minor before, and the first term of that of x^(k + 1) */
        int before = diagonal_of(order, n - k - 1);
        sums[0].real = minors->real[before + k];
        sums[0].imaginary = minors->imaginary[before + k];
        bite_lane_complex first = {minors->real[before], minors->imaginary[before]};
        bite_lane_product(&first, &products[n - k - 1], &sums[1]);
        if (k + 1 < n) {
            int last = diagonal_of(order, n - k - 2);
            sums[1].real += minors->real[last + k + 1];
            sums[1].imaginary += minors->imaginary[last + k + 1];
        }
        next = before + 1 - here;
    }
    multiply_rows(products + n - k, minors->real + here, minors->imaginary + here, next, k, sums);
    minors->real[here + k] = sums[0].real;
    minors->imaginary[here + k] = sums[0].imaginary;
    if (k < n) {
        minors->real[here + next + k] = sums[1].real;
        minors->imaginary[here + next + k] = sums[1].imaginary;
    }
}

BITE_IN_LANES void bite_lane_characteristics(int order, bite_lane_matrices *matrices,
                                             bite_lane_minors *minors,
                                             bite_lane_complex *coefficients)
{
    const bite_lane_vector none = {0.0, 0.0, 0.0, 0.0};
    bite_lane_complex products[BITE_ARC_ORDER_MAX];
    make_hessenberg(order, matrices);
    for (int n = 0; n <= order; n++) {
        minors->real[diagonal_of(order, n)] = none + 1.0;
        minors->imaginary[diagonal_of(order, n)] = none;
        if (n > 0) {
            set_products(matrices, order, n, products);
        }
        for (int k = 1; k <= n; k += 2) {
            set_coefficients(products, order, n, k, minors);
        }
    }
    for (int k = 0; k <= order; k++) {
        int at = diagonal_of(order, order - k) + k;
        coefficients[k].real = minors->real[at];
        coefficients[k].imaginary = minors->imaginary[at];
    }
}

/* Subtracts from each row below row k its multiple of row k that clears column k. */
BITE_FORMULA void subtract_row(bite_lane_vector *restrict real,
                               bite_lane_vector *restrict imaginary, int order, int k)
{
    const bite_lane_vector *pivot_real = real + k * order;
    const bite_lane_vector *pivot_imaginary = imaginary + k * order;
    bite_lane_vector a = pivot_real[k];
    bite_lane_vector b = pivot_imaginary[k];
    bite_lane_vector over = 1.0 / (a * a + b * b);
    for (int i = k + 1; i < order; i++) {
        bite_lane_vector *row_real = real + i * order;
        bite_lane_vector *row_imaginary = imaginary + i * order;
        bite_lane_vector c = row_real[k] * over;
        bite_lane_vector d = row_imaginary[k] * over;
        bite_lane_vector x = c * a + d * b;
        bite_lane_vector y = d * a - c * b;
        for (int j = k + 1; j < order; j++) {
            row_real[j] = row_real[j] - x * pivot_real[j] + y * pivot_imaginary[j];
            row_imaginary[j] = row_imaginary[j] - x * pivot_imaginary[j] - y * pivot_real[j];
        }
    }
}

BITE_IN_LANES void bite_lane_determinants(int order, bite_lane_matrices *matrices,
                                          bite_lane_complex *value)
{
    const bite_lane_vector none = {0.0, 0.0, 0.0, 0.0};
    bite_lane_complex total = {none + 1.0, none};
    for (int i = 0; i < order; i++) {
        for (int j = 0; j < order; j++) {
            bite_lane_vector one = none + (i == j ? 1.0 : 0.0);
            matrices->real[i * order + j] = one - matrices->real[i * order + j];
            matrices->imaginary[i * order + j] = -matrices->imaginary[i * order + j];
        }
    }
    for (int k = 0; k < order; k++) {
        bite_lane_complex pivot = {matrices->real[k * order + k],
                                   matrices->imaginary[k * order + k]};
        bite_lane_product(&total, &pivot, &total);
        subtract_row(matrices->real, matrices->imaginary, order, k);
    }
    *value = total;
}
