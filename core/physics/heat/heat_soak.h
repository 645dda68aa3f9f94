/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Heat soak: how warm a part becomes over consecutive laps and passes.
 *
 * The zone that the cut has warmed is taken as one body: C dT/dt = P - G T, T above the fixture,
 * which stays cold. It is as wide as heat has spread to both sides of the path. Heat that reaches
 * the fixture passes half of the part's thickness and the layers under it. SI units.
 */
#ifndef BITE_PHYSICS_HEAT_HEAT_SOAK_H
#define BITE_PHYSICS_HEAT_HEAT_SOAK_H

#include "core/base/lane_math.h"

/** A warm body on a fixture. */
typedef struct bite_soak_body {
    double capacity;    /* J/K */
    double conductance; /* W/K, to the fixture and to the air; 0: insulated */
} bite_soak_body;

/** Rise, K, after a time with a power, from a rise before it: exact. */
BITE_FORMULA double bite_soak_step(const bite_soak_body *body, double rise, double power,
                                   double time)
{
    double constant = body->conductance * time / body->capacity; /* time over time constant */
    /* (1 - exp(-x))/x, 1 for small x */
    double mean = constant > 1e-8 ? -expm1(-constant) / constant : 1.0 - 0.5 * constant;
    return rise * exp(-constant) + power * time / body->capacity * mean;
}

/** Highest rise, K, after laps of a power, with a pause after each but the last. */
BITE_FORMULA double bite_soak_laps(const bite_soak_body *body, double rise, double power,
                                   double lap, double pause, double laps)
{
    /* r -> a r + b, laps - 1 times, then a last lap: a geometric series */
    double lapse = exp(-body->conductance * (lap + pause) / body->capacity);
    double gained = bite_soak_step(body, bite_soak_step(body, 0.0, power, lap), 0.0, pause);
    double before = laps - 1.0;
    double all = pow(lapse, before);
    double sum = lapse < 1.0 - 1e-12 ? (1.0 - all) / (1.0 - lapse) : before;
    return bite_soak_step(body, rise * all + gained * sum, power, lap);
}

/** Mean width, m, of the warm zone beside a path of a width that is heated for a time: (w +
 * sqrt(w^2
 * + 4 pi a t))/2. A line's peak falls with 1/sqrt(4 pi a t') after its pulse; the mean over all
 * pulses of the time (derived here; both limits are exact). */
BITE_FORMULA double bite_soak_width(double width, double diffusivity, double time)
{
    return 0.5 * (width + sqrt(width * width + 4.0 * M_PI * diffusivity * time));
}

/** Conductance from the middle of a part to the fixture, W/m2/K: 1/(h/(2 k) + layers). layers:
 * thermal resistance of what is between, m2 K/W. */
BITE_FORMULA double bite_soak_contact(double thickness, double conductivity, double layers)
{
    return 1.0 / (0.5 * thickness / conductivity + layers);
}

#endif
