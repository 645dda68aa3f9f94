/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Formulas for plates and warp that the engine does not use. */
#include "tests/reference/textbook/plate.h"
#include <math.h>
#include <stddef.h>

/* Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells (the square read, the rest
 * recalled): long over short side, alpha. */
static const double supported[][2] = {{1.0, 0.1267}, {1.2, 0.1478}, {1.4, 0.1621}, {1.6, 0.1715},
                                      {1.8, 0.1770}, {2.0, 0.1805}, {4.0, 0.1851}};

double textbook_plate_supported(double long_over_short)
{
    double ratio = fmax(long_over_short, 1.0 / long_over_short);
    size_t count = sizeof supported / sizeof *supported;
    for (size_t i = 1; i < count; i++) {
        const double *near = supported[i - 1];
        const double *far = supported[i];
        if (ratio <= far[0]) { /* linear in the logarithm of the ratio */
            return near[1] + (far[1] - near[1]) * log(ratio / near[0]) / log(far[0] / near[0]);
        }
    }
    return supported[count - 1][1];
}

double textbook_plate_round(double poisson, int clamped)
{
    return (clamped ? 1.0 : (3.0 + poisson) / (1.0 + poisson)) / (16.0 * M_PI);
}

double textbook_plate_bedded(double layer, double rigidity)
{
    return 1.0 / (8.0 * sqrt(layer * rigidity));
}

double textbook_warp_slope(double modulus, double poisson, double face_stress, double thickness)
{
    return 2.0 * (1.0 - poisson) * face_stress / (modulus * thickness);
}

double textbook_warp_skin(double modulus, double poisson, double tension, double thickness)
{
    return 6.0 * (1.0 - poisson) * tension / (modulus * thickness * thickness);
}

double textbook_warp_flattened(double thickness, double bow, double span)
{
    return 4.0 * thickness * bow / (span * span);
}
