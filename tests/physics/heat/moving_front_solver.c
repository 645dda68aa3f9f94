/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An integral equation and a finite-element solution for the fraction of its own heat that a cutter
 * cuts again. */
#include "tests/physics/heat/moving_front_solver.h"
#include <math.h>
#include <stdlib.h>

/* A x = b with A zero further than reach from its diagonal; row by row, 2 reach + 1 to a row. */
typedef struct band {
    double *matrix;
    double *right; /* b, then x */
    int count;
    int reach;
} band;

static int band_init(band *of, int count, int reach)
{
    of->count = count;
    of->reach = reach < count ? reach : count - 1;
    of->matrix = calloc((size_t)count * (size_t)(2 * of->reach + 1), sizeof *of->matrix);
    of->right = calloc((size_t)count, sizeof *of->right);
    return of->matrix != NULL && of->right != NULL;
}

static void band_free(band *of)
{
    free(of->matrix);
    free(of->right);
}

static double *band_at(band *of, int limit, int column)
{
    return of->matrix + (size_t)limit * (size_t)(2 * of->reach + 1) +
           (size_t)(column - limit + of->reach);
}

/* Gaussian elimination without pivoting; the heat balance (met + behind = 1) shows whether that was
 * accurate enough. */
static void band_solve(band *of)
{
    int n = of->count;
    for (int i = 0; i < n; i++) {
        int last = i + of->reach < n - 1 ? i + of->reach : n - 1;
        const double *pivot = band_at(of, i, i);
        for (int limit = i + 1; limit <= last; limit++) {
            double *entry = band_at(of, limit, i);
            double factor = entry[0] / pivot[0];
            for (int k = 1; k <= last - i; k++) {
                entry[k] -= factor * pivot[k];
            }
            of->right[limit] -= factor * of->right[i];
        }
    }
    for (int i = n - 1; i >= 0; i--) {
        int last = i + of->reach < n - 1 ? i + of->reach : n - 1;
        const double *pivot = band_at(of, i, i);
        for (int k = 1; k <= last - i; k++) {
            of->right[i] -= pivot[k] * of->right[i + k];
        }
        of->right[i] /= pivot[0];
    }
}

/*
 * One dimension. f(x): rise at depth x just before a tooth. The tooth takes x < 1 away and leaves a
 * unit pulse at the new surface; then heat spreads from an insulated surface for a time Fo (source
 * and mirror image), and f must come out again: f(x) = 2 G(x) + integral over y > 0 of [G(x - y) +
 * G(x + y)] f(y + 1),  G(x) = exp(-x^2/(4 Fo))/sqrt(4 pi Fo). Gauss points on panels that divide a
 * layer evenly, so that y + 1 is a point whenever y is (Nystroem's method).
 */
#define POINTS 5
static const double gauss_at[POINTS] = {-0.906179845938663993, -0.538469310105683091, 0.0,
                                        0.538469310105683091, 0.906179845938663993};
static const double gauss_weight[POINTS] = {0.236926885056189088, 0.478628670499366468,
                                            0.568888888888888889, 0.478628670499366468,
                                            0.236926885056189088};

static double kernel(double x, double y, double fourier)
{
    double near = x - y;
    double image = x + y;
    return (exp(-near * near / (4.0 * fourier)) + exp(-image * image / (4.0 * fourier))) /
           sqrt(4.0 * M_PI * fourier);
}

static double gauss_depth(int index, int panels)
{
    return (index / POINTS + 0.5 * (gauss_at[index % POINTS] + 1.0)) / panels;
}

static double gauss_share(int index, int panels)
{
    return 0.5 * gauss_weight[index % POINTS] / panels;
}

walk_1d walk_oracle_1d(double fourier, int fineness)
{
    walk_1d out = {(double)NAN, (double)NAN};
    double spread =
        sqrt(2.0 * fourier); /* standard deviation of G; at large Fo f falls as exp(-x/Fo) */
    int panels = (int)ceil(fineness / fmin(1.0, spread));
    int layer = panels * POINTS;
    int count = layer * (2 + (int)ceil(fmax(18.0 * fourier, 9.0 * spread)));
    band system;
    if (band_init(&system, count, layer * (1 + (int)ceil(9.0 * spread)))) {
        for (int i = 0; i < count; i++) {
            double x = gauss_depth(i, panels);
            system.right[i] = kernel(x, 0.0, fourier);
            *band_at(&system, i, i) = 1.0;
            for (int j = layer; j < count;
                 j++) { /* f(y_j) is f one layer below the point j - layer */
                if (abs(i - j) <= system.reach) {
                    double y = gauss_depth(j - layer, panels);
                    *band_at(&system, i, j) -= gauss_share(j, panels) * kernel(x, y, fourier);
                }
            }
        }
        band_solve(&system);
        out.met = 0.0;
        for (int i = 0; i < layer; i++) {
            out.met += gauss_share(i, panels) * system.right[i];
        }
        out.surface = kernel(1.0, 0.0, fourier);
        for (int j = layer; j < count; j++) {
            out.surface += gauss_share(j, panels) *
                           kernel(1.0, gauss_depth(j - layer, panels), fourier) * system.right[j];
        }
    }
    band_free(&system);
    return out;
}

/*
 * Two dimensions. Steady div(u T - grad T) = 0 with u = (-Pe, 0) in the frame of the cutter, whose
 * centre is the origin. Rays start from the cut edge: k = 0..front along the arc, from where it
 * meets the free side to the finished wall, then on along that wall behind the cutter; m =
 * 0..outwards along a ray. The first ray is the free side itself, rays from the wall are normal to
 * it. Bilinear elements (Galerkin: the layer ahead of the front is resolved). Heat is laid evenly
 * per length of arc, as an edge that drags along its whole contact lays it; what is cut leaves with
 * the temperature of the front at Pe cos(theta).
 */
typedef struct mesh {
    double peclet;
    int front;   /* elements along the arc */
    int rays;    /* elements along arc and wall */
    int outward; /* elements along a ray; its last node is cold */
    double *x;   /* start of each ray */
    double *y;
    double *dx; /* its direction */
    double *dy;
    double *along; /* distance of each node from the start */
} mesh;

static double graded(double part, double length, double first)
{
    return first * sinh(asinh(length / first) * part); /* equal steps near 0, then geometric ones */
}

static int mesh_init(mesh *of, double peclet, double width, int cells, double domain)
{
    double behind = domain * (2.0 + 10.0 / peclet);
    double aside = domain * (8.0 * sqrt((1.0 + behind) / peclet) +
                             20.0 / peclet); /* the wake widens as 2 sqrt(x/Pe) */
    of->peclet = peclet;
    of->front = cells;
    of->outward = cells;
    of->rays = cells + cells / 2;
    size_t rays = (size_t)of->rays + 1;
    of->x = calloc(4 * rays + (size_t)of->outward + 1, sizeof *of->x);
    if (of->x == NULL) {
        return 0;
    }
    of->y = of->x + rays;
    of->dx = of->y + rays;
    of->dy = of->dx + rays;
    of->along = of->dy + rays;
    double start = asin(1.0 - width);
    double arc = 0.5 * M_PI - start;
    for (int k = 0; k <= of->rays; k++) {
        if (k < of->front) { /* finer towards the wall, where the loss happens */
            double left = pow(1.0 - (double)k / of->front, 1.5);
            double angle = start + arc * (1.0 - left);
            of->x[k] = cos(angle);
            of->y[k] = sin(angle);
            of->dx[k] = sin(0.5 * M_PI * left);
            of->dy[k] = cos(0.5 * M_PI * left);
        } else {
            double part = (double)(k - of->front) / (of->rays - of->front);
            of->x[k] = -graded(part, behind, fmin(0.2, cbrt(1.0 / peclet)));
            of->y[k] = 1.0;
            of->dy[k] = 1.0;
        }
    }
    for (int m = 0; m <= of->outward; m++) {
        of->along[m] = graded((double)m / of->outward, aside, fmin(1.0, 1.0 / peclet));
    }
    return 1;
}

/* The integral of grad w . (grad T - u T) at one Gauss point of the element between rays k, k + 1
 * and nodes m, m + 1. */
static void add_point(const mesh *of, band *system, int k, int m, double s, double t)
{
    const int ray[4] = {k, k + 1, k + 1, k};
    const int node[4] = {m, m, m + 1, m + 1};
    const double shape[4] = {0.25 * (1 - s) * (1 - t), 0.25 * (1 + s) * (1 - t),
                             0.25 * (1 + s) * (1 + t), 0.25 * (1 - s) * (1 + t)};
    const double by_s[4] = {-0.25 * (1 - t), 0.25 * (1 - t), 0.25 * (1 + t), -0.25 * (1 + t)};
    const double by_t[4] = {-0.25 * (1 - s), -0.25 * (1 + s), 0.25 * (1 + s), 0.25 * (1 - s)};
    double xs = 0.0;
    double ys = 0.0;
    double xt = 0.0;
    double yt = 0.0;
    for (int a = 0; a < 4; a++) {
        double x = of->x[ray[a]] + of->along[node[a]] * of->dx[ray[a]];
        double y = of->y[ray[a]] + of->along[node[a]] * of->dy[ray[a]];
        xs += by_s[a] * x;
        ys += by_s[a] * y;
        xt += by_t[a] * x;
        yt += by_t[a] * y;
    }
    double area = xs * yt - ys * xt; /* negative: rays run clockwise round the element */
    double wx[4];
    double wy[4];
    for (int a = 0; a < 4; a++) {
        wx[a] = (yt * by_s[a] - ys * by_t[a]) / area;
        wy[a] = (xs * by_t[a] - xt * by_s[a]) / area;
    }
    for (int a = 0; a < 4; a++) {
        for (int b = 0; b < 4; b++) {
            if (node[a] < of->outward && node[b] < of->outward) {
                *band_at(system, ray[a] * of->outward + node[a], ray[b] * of->outward + node[b]) +=
                    fabs(area) * (wx[a] * wx[b] + wy[a] * wy[b] + of->peclet * shape[b] * wx[a]);
            }
        }
    }
}

static void add_solid(const mesh *of, band *system)
{
    const double at = 1.0 / sqrt(3.0);
    for (int k = 0; k < of->rays; k++) {
        for (int m = 0; m < of->outward; m++) {
            add_point(of, system, k, m, -at, -at);
            add_point(of, system, k, m, at, -at);
            add_point(of, system, k, m, at, at);
            add_point(of, system, k, m, -at, at);
        }
    }
}

/* The heat that a total flow carries out through the straight side from node i to node j; j may be
 * a cold node (-1). */
static void add_outflow(band *system, double *leaving, int i, int j, double flow)
{
    *band_at(system, i, i) += flow / 3.0;
    leaving[i] += flow / 2.0;
    if (j >= 0) {
        *band_at(system, j, j) += flow / 3.0;
        *band_at(system, i, j) += flow / 6.0;
        *band_at(system, j, i) += flow / 6.0;
        leaving[j] += flow / 2.0;
    }
}

/* The heat laid on the front and the heat that crosses it; returns the former. */
static double add_front(const mesh *of, band *system, double *leaving)
{
    double heat = 0.0;
    for (int k = 0; k < of->front; k++) {
        double length = hypot(of->x[k + 1] - of->x[k], of->y[k + 1] - of->y[k]);
        int i = k * of->outward;
        int j = i + of->outward;
        add_outflow(system, leaving, i, j, of->peclet * (of->y[k + 1] - of->y[k]));
        system->right[i] += 0.5 * length;
        system->right[j] += 0.5 * length;
        heat += length;
    }
    return heat;
}

/* The last ray, far behind: heat is carried out, without conduction. */
static void add_behind(const mesh *of, band *system, double *leaving)
{
    for (int m = 0; m < of->outward; m++) {
        int i = of->rays * of->outward + m;
        add_outflow(system, leaving, i, m + 1 < of->outward ? i + 1 : -1,
                    of->peclet * (of->along[m + 1] - of->along[m]));
    }
}

walk_2d walk_oracle_2d(double peclet, double width, int cells, double domain)
{
    walk_2d out = {(double)NAN, (double)NAN};
    mesh of;
    band system = {NULL, NULL, 0, 0};
    double *front = NULL;
    double *behind = NULL;
    if (!mesh_init(&of, peclet, width, cells, domain)) {
        return out;
    }
    int count = (of.rays + 1) * of.outward;
    front = calloc((size_t)count, sizeof *front);
    behind = calloc((size_t)count, sizeof *behind);
    if (front != NULL && behind != NULL && band_init(&system, count, of.outward + 1)) {
        add_solid(&of, &system);
        double heat = add_front(&of, &system, front);
        add_behind(&of, &system, behind);
        band_solve(&system);
        out = (walk_2d){0.0, 0.0};
        for (int i = 0; i < count; i++) {
            out.met += front[i] * system.right[i] / heat;
            out.behind += behind[i] * system.right[i] / heat;
        }
    }
    band_free(&system);
    free(behind);
    free(front);
    free(of.x);
    return out;
}
