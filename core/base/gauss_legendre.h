/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points and weights of Gauss-Legendre quadrature with eight points. */
#ifndef BITE_BASE_GAUSS_LEGENDRE_H
#define BITE_BASE_GAUSS_LEGENDRE_H

#define BITE_GAUSS_LEGENDRE_POINTS 8

/* Points and weights over -1..1 (Abramowitz and Stegun, table 25.4; memory, checked by the tests of
 * a ball's and a chamfer's section). GSL has the same points, but its weights differ in the last
 * bits, and its table would have to be allocated. */
static const double bite_gauss_legendre_point[BITE_GAUSS_LEGENDRE_POINTS] = {
    -0.9602898564975363, -0.7966664774136267, -0.5255324099163290, -0.1834346424956498,
    0.1834346424956498,  0.5255324099163290,  0.7966664774136267,  0.9602898564975363};
static const double bite_gauss_legendre_weight[BITE_GAUSS_LEGENDRE_POINTS] = {
    0.1012285362903763, 0.2223810344533745, 0.3137066458778873, 0.3626837833783620,
    0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763};

#endif
