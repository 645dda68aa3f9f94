/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * How far a flat part bows when stress or strain in its thickness is no longer in balance.
 *
 * A curvature kappa over a span L is a bow of kappa L^2/8. Plates are stressed both ways: E/(1 -
 * nu) stands for E. Stress that is taken away in tension leaves that face shorter, hence hollow.
 */
#ifndef BITE_PHYSICS_ELASTIC_WARP_H
#define BITE_PHYSICS_ELASTIC_WARP_H

/** Bow, m, of a curvature, 1/m, over a span, m. */
double bite_warp_bow(double curvature, double span);

/** One face longer than the other by a strain (warmth: alpha dT; moisture): kappa = strain/h. */
double bite_warp_gradient(double strain, double thickness);

/**
 * A sheet whose stress over its thickness is a parabola in balance: -s in the skins, s/2 in the
 * middle. With c1 taken off the top and c2 off the bottom kappa = 6 (1 - nu) s (c1 - c2)/(E h^2), h
 * before the cut: exact, for what is left is the middle of a parabola, whose moment over its own
 * h^3/12 has c1 - c2 as its one factor. Positive: the top comes out hollow.
 */
double bite_warp_layers(double modulus, double poisson, double skin_stress, double thickness,
                        double top, double below);

/** The other way round: skin stress, Pa, of a coupon that bows by `bow` over a span after `cut`
 * came off one face. */
double bite_warp_coupon(double modulus, double poisson, double thickness, double cut, double span,
                        double bow);

#endif
