/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Finite volumes for the share of its own heat that a cutter meets again. */
#include "tests/cut/walk_oracle.h"
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Implicit step of a half-space, insulated at its surface and at its far end: Thomas' algorithm, all cells alike. */
static void diffuse(double *t, double *work, int count, double number)
{
    double diagonal = 1.0 + number;
    work[0] = -number / diagonal;
    t[0] /= diagonal;
    for (int i = 1; i < count; i++) {
        double middle = 1.0 + (i + 1 < count ? 2.0 : 1.0) * number + number * work[i - 1];
        work[i] = -number / middle;
        t[i] = (t[i] + number * t[i - 1]) / middle;
    }
    for (int i = count - 2; i >= 0; i--) {
        t[i] -= work[i] * t[i + 1];
    }
}

walk_1d walk_oracle_1d(double fourier, int teeth, int cells)
{
    /* layer thickness d, time dt between teeth: v = d/dt, Fo = a dt/d^2 (as a/(v d)); take d = 1, a = 1, so dt = Fo */
    int count = cells * (20 + (int)(12.0 * sqrt(fourier * 40.0)));
    double step = 1.0 / cells;
    double *t = calloc((size_t)count, sizeof *t);
    double *work = calloc((size_t)count, sizeof *work);
    walk_1d out = {0.0, 0.0, 0.0};
    const int substeps = 200;
    for (int tooth = 0; t != NULL && work != NULL && tooth < teeth; tooth++) {
        out.met = 0.0;
        for (int i = 0; i < cells; i++) {
            out.met += t[i] * step;
        }
        out.preheat = out.met;
        memmove(t, t + cells, (size_t)(count - cells) * sizeof *t);
        memset(t + count - cells, 0, (size_t)cells * sizeof *t);
        out.surface = t[0];
        t[0] += 1.0 / step;
        for (int k = 0; k < substeps; k++) {
            diffuse(t, work, count, fourier / substeps / (step * step));
        }
    }
    free(t);
    free(work);
    return out;
}

typedef struct plane {
    int nx;
    int ny;
    int origin; /* column of x = 0 */
    double h;
    double peclet;
    double *t;
    double *source;
    unsigned char *solid;
} plane;

static double centre_x(const plane *of, int i)
{
    return (i - of->origin + 0.5) * of->h;
}

static double centre_y(const plane *of, int j)
{
    return (j + 0.5) * of->h;
}

static int at(const plane *of, int i, int j)
{
    return i * of->ny + j;
}

static int is_solid(const plane *of, int i, int j)
{
    return i >= 0 && i < of->nx && j >= 0 && j < of->ny && of->solid[at(of, i, j)];
}

static void lay_heat(plane *of)
{
    const int points = 20000;
    for (int k = 0; k < points; k++) {
        double angle = 0.5 * M_PI * (k + 0.5) / points;
        double radius = 1.0;
        int i;
        int j;
        do { /* the first solid cell outwards */
            i = of->origin + (int)floor(radius * cos(angle) / of->h);
            j = (int)floor(radius * sin(angle) / of->h);
            radius += 0.25 * of->h;
        } while (!is_solid(of, i, j));
        of->source[at(of, i, j)] += 1.0 / points;
    }
}

/* Exponential scheme (Scharfetter and Gummel): exact in one dimension, at any speed. Conductance towards the source side and the
 * other. */
static double bernoulli(double x)
{
    return fabs(x) < 1e-6 ? 1.0 - 0.5 * x : x / expm1(x);
}

/* One column solved along y by elimination, its neighbours held; material runs from larger to smaller i. */
static double relax_column(plane *of, int i, double *upper, double *value, double factor)
{
    double cell = of->peclet * of->h; /* of the cell */
    double from_right = bernoulli(-cell);
    double to_left = bernoulli(-cell);
    double back = bernoulli(cell);
    double change = 0.0;
    for (int j = 0; j < of->ny; j++) {
        upper[j] = 0.0;
        value[j] = 0.0;
        if (!is_solid(of, i, j)) {
            continue;
        }
        double diagonal = 0.0;
        double right = of->source[at(of, i, j)];
        if (is_solid(of, i + 1, j)) {
            right += from_right * of->t[at(of, i + 1, j)];
            diagonal += back;
        } else if (i + 1 == of->nx) {
            diagonal += back; /* cold stock far ahead */
        }
        if (is_solid(of, i - 1, j)) {
            right += back * of->t[at(of, i - 1, j)];
            diagonal += to_left;
        } else {
            diagonal += cell; /* carried off by the cutter, or out behind: no conduction across */
        }
        double below = is_solid(of, i, j - 1) ? 1.0 : 0.0;
        double above = is_solid(of, i, j + 1) ? 1.0 : 0.0;
        diagonal += below + above + (j + 1 == of->ny ? 1.0 : 0.0);
        double pivot = diagonal - (below > 0.0 ? below * upper[j - 1] : 0.0);
        upper[j] = above / pivot;
        value[j] = (right + (below > 0.0 ? below * value[j - 1] : 0.0)) / pivot;
    }
    for (int j = of->ny - 1; j >= 0; j--) {
        if (!is_solid(of, i, j)) {
            continue;
        }
        double fresh = value[j] + (is_solid(of, i, j + 1) ? upper[j] * of->t[at(of, i, j + 1)] : 0.0);
        double old = of->t[at(of, i, j)];
        of->t[at(of, i, j)] = old + factor * (fresh - old);
        change = fmax(change, fabs(fresh - old));
    }
    return change;
}

static double share_met(const plane *of)
{
    double out = 0.0;
    for (int i = of->origin; i < of->nx; i++) {
        for (int j = 0; j < of->ny; j++) {
            if (is_solid(of, i, j) && i > 0 && !is_solid(of, i - 1, j)) {
                out += of->peclet * of->h * of->t[at(of, i, j)];
            }
        }
    }
    return out;
}

double walk_oracle_2d(double peclet, int cells)
{
    double ahead = 1.0 + 9.0 / peclet + 4.0 / cells;
    double behind = 2.0 + 3.0 / peclet + 4.0 / cells;
    double aside = 1.0 + 5.0 * sqrt(4.0 / peclet) + 4.0 / peclet;
    plane of = {
        (int)((ahead + behind) * cells), (int)(aside * cells), (int)(behind * cells), 1.0 / cells, peclet, NULL, NULL, NULL};
    size_t count = (size_t)of.nx * (size_t)of.ny;
    of.t = calloc(count, sizeof *of.t);
    of.source = calloc(count, sizeof *of.source);
    of.solid = calloc(count, 1);
    double *work = calloc(2 * (size_t)of.ny, sizeof *work);
    double share = (double)NAN;
    if (of.t != NULL && of.source != NULL && of.solid != NULL && work != NULL) {
        for (int i = 0; i < of.nx; i++) {
            for (int j = 0; j < of.ny; j++) {
                double x = centre_x(&of, i);
                double y = centre_y(&of, j);
                of.solid[at(&of, i, j)] = x < 0.0 ? y > 1.0 : x * x + y * y > 1.0;
            }
        }
        lay_heat(&of);
        for (int sweep = 0; sweep < 4000; sweep++) {
            double change = 0.0;
            double largest = 0.0;
            for (int i = of.nx - 1; i >= 0; i--) {
                change = fmax(change, relax_column(&of, i, work, work + of.ny, 1.0));
            }
            for (size_t k = 0; k < count; k++) {
                largest = fmax(largest, of.t[k]);
            }
            if (change < 1e-6 * largest) {
                break;
            }
        }
        share = share_met(&of);
    }
    free(of.t);
    free(of.source);
    free(of.solid);
    free(work);
    return share;
}
