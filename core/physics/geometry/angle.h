/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An angle with its sine and cosine, so that neither is computed twice. */
#ifndef BITE_PHYSICS_GEOMETRY_ANGLE_H
#define BITE_PHYSICS_GEOMETRY_ANGLE_H

typedef struct bite_angle {
    double at; /* rad */
    double sine;
    double cosine;
} bite_angle;

#endif
