/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the machine: spindle speed, feed rate, power and torque. */
#include "core/cut/limits_machine.h"
#include <math.h>

void bite_limit_spindle_fast(bite_limit_case *limit)
{
    bite_limit_set(limit, limit->cut->spindle_speed,
                   fmin(limit->cut->spindle_fastest, limit->cut->tool_turn_limit));
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
}

void bite_limit_spindle_slow(bite_limit_case *limit)
{
    bite_limit_set(limit, limit->cut->spindle_slowest, limit->cut->spindle_speed);
    limit->advisory = 1; /* a speed that was entered can evidently be run */
    bite_limit_require(limit, limit->demand, BITE_WHY_NOT_GIVEN);
}

void bite_limit_feed_fast(bite_limit_case *limit)
{
    bite_limit_set(limit, limit->cut->feed_rate, limit->cut->feed_fastest);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
}

void bite_limit_power(bite_limit_case *limit)
{
    bite_limit_set(limit, limit->segment->value[BITE_POWER_MEAN], limit->cut->power_limit);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
}

/* A rotor of inertia J that loses dw of its speed under its rated torque M responds with the time
 * constant J dw/M (estimate: 3e-4 kg m2, 120 rad/s, 0.9 N m of a router's spindle: 40 ms; a brushed
 * router motor has twice that). */
static const double spindle_time_constant = 0.04; /* s */

/* The fraction of a torque ripple of once per turn that reaches the motor: a first-order lag. */
static double ripple_share(double speed)
{
    return 1.0 / hypot(1.0, 2.0 * M_PI * speed * spindle_time_constant);
}

/* A spindle's inertia carries it through a peak, and it stalls on the mean torque; a slow spindle
 * feels more of the peak. */
void bite_limit_torque(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    double mean = limit->segment->torque_mean;
    double share = 1.0;
    if (!isnan(cut->torque_speed) && !isnan(cut->torque_exponent)) {
        share = fmin(1.0, pow(cut->spindle_speed / cut->torque_speed, cut->torque_exponent));
    }
    double above = limit->segment->value[BITE_TORQUE_PEAK] - mean;
    bite_limit_set(limit, mean + ripple_share(cut->spindle_speed) * above,
                   cut->torque_limit * share);
    bite_limit_require(limit, limit->capacity, BITE_WHY_NOT_GIVEN);
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
}
