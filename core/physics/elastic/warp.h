/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Bow of a flat part caused by stress or strain that is not balanced over its thickness.
 *
 * A curvature kappa over a span L gives a bow of kappa L^2/8. Plates are stressed in both
 * directions: E/(1 - nu) replaces E. Removing stock in tension leaves that face shorter, hence
 * concave.
 */
#ifndef BITE_PHYSICS_ELASTIC_WARP_H
#define BITE_PHYSICS_ELASTIC_WARP_H

#include "core/base/lane_math.h"

/** Bow, m, of a curvature, 1/m, over a span, m. */
BITE_FORMULA double bite_warp_bow(double curvature, double span)
{
    return curvature * span * span / 8.0;
}

/** One face longer than the other by a strain (heat: alpha dT; moisture): kappa = strain/h. */
BITE_FORMULA double bite_warp_gradient(double strain, double thickness)
{
    return strain / thickness;
}

/**
 * A sheet with a balanced parabola of stress over its thickness: -s in the skins, s/2 in the
 * middle. With c1 removed from the top and c2 from the bottom kappa = 6 (1 - nu) s (c1 - c2)/(E
 * h^2), h before the cut. This is exact: what is left is the middle of a parabola, whose moment
 * over its own h^3/12 has c1 - c2 as its only factor. Positive: the top becomes concave.
 */
BITE_FORMULA double bite_warp_layers(double modulus, double poisson, double skin_stress,
                                     double thickness, double top, double below)
{
    return 6.0 * (1.0 - poisson) * skin_stress * (top - below) / (modulus * thickness * thickness);
}

/** The inverse: skin stress, Pa, of a coupon that bows by `bow` over a span after `cut` was removed
 * from one face. */
BITE_FORMULA double bite_warp_coupon(double modulus, double poisson, double thickness, double cut,
                                     double span, double bow)
{
    return 4.0 * modulus * thickness * thickness * bow /
           (3.0 * (1.0 - poisson) * cut * span * span);
}

#endif
