/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Points at which edges are summed. */
#ifndef BITE_PHYSICS_FORCE_GAUSS_POINTS_H
#define BITE_PHYSICS_FORCE_GAUSS_POINTS_H

#define BITE_GAUSS_POINTS 8

/* Gauss and Legendre, eight points over -1..1 (Abramowitz and Stegun, table 25.4; memory, checked
 * by the tests of a ball's and a chamfer's section). */
static const double bite_gauss_at[BITE_GAUSS_POINTS] = {
    -0.9602898564975363, -0.7966664774136267, -0.5255324099163290, -0.1834346424956498,
    0.1834346424956498,  0.5255324099163290,  0.7966664774136267,  0.9602898564975363};
static const double bite_gauss_share[BITE_GAUSS_POINTS] = {
    0.1012285362903763, 0.2223810344533745, 0.3137066458778873, 0.3626837833783620,
    0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763};

#endif
