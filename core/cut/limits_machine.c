/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the machine: spindle speed, feed rate, power and torque. */
#include "core/cut/limits_machine.h"
#include <math.h>

BITE_IN_LANES void bite_limit_spindle_fast(const bite_block *block,
                                           const bite_block_segment *segment,
                                           double *restrict demand, double *restrict capacity)
{
    const double *speed = BITE_ROW(block, spindle_speed);
    const double *machine = BITE_ROW(block, spindle_fastest);
    const double *tool = BITE_ROW(block, tool_turn_limit);
    (void)segment;
    BITE_EACH_LANE(k, block)
    {
        demand[k] = speed[k];
        capacity[k] = bite_smaller(bite_or(machine[k], tool[k]), bite_or(tool[k], machine[k]));
    }
}

BITE_IN_LANES void bite_limit_spindle_slow(const bite_block *block,
                                           const bite_block_segment *segment,
                                           double *restrict demand, double *restrict capacity)
{
    const double *speed = BITE_ROW(block, spindle_speed);
    const double *slowest = BITE_ROW(block, spindle_slowest);
    (void)segment;
    BITE_EACH_LANE(k, block)
    {
        demand[k] = slowest[k];
        capacity[k] = speed[k];
    }
}

BITE_IN_LANES void bite_limit_feed_fast(const bite_block *block, const bite_block_segment *segment,
                                        double *restrict demand, double *restrict capacity)
{
    const double *feed = BITE_ROW(block, feed_rate);
    const double *fastest = BITE_ROW(block, feed_fastest);
    (void)segment;
    BITE_EACH_LANE(k, block)
    {
        demand[k] = feed[k];
        capacity[k] = fastest[k];
    }
}

BITE_IN_LANES void bite_limit_power(const bite_block *block, const bite_block_segment *segment,
                                    double *restrict demand, double *restrict capacity)
{
    const double *most = BITE_ROW(block, power_limit);
    BITE_EACH_LANE(k, block)
    {
        demand[k] = segment->value[BITE_POWER_MEAN][k];
        capacity[k] = most[k];
    }
}

/* A rotor of inertia J that loses dw of its speed under its rated torque M responds with the time
 * constant J dw/M (estimate: 3e-4 kg m2, 120 rad/s, 0.9 N m of a router's spindle: 40 ms; a brushed
 * router motor has twice that). */
static const double spindle_time_constant = 0.04; /* s */

/* The fraction of a torque ripple of once per turn that reaches the motor: a first-order lag. */
BITE_FORMULA double ripple_share(double speed)
{
    return 1.0 / bite_length_of(1.0, 2.0 * M_PI * speed * spindle_time_constant);
}

/* A spindle's inertia carries it through a peak, and it stalls on the mean torque; a slow spindle
 * feels more of the peak. */
BITE_IN_LANES void bite_limit_torque(const bite_block *block, const bite_block_segment *segment,
                                     double *restrict demand, double *restrict capacity)
{
    const double *speed = BITE_ROW(block, spindle_speed);
    const double *most = BITE_ROW(block, torque_limit);
    const double *below = BITE_ROW(block, torque_speed);
    const double *exponent = BITE_ROW(block, torque_exponent);
    BITE_EACH_LANE(k, block)
    {
        double mean = segment->torque_mean[k];
        double above = segment->value[BITE_TORQUE_PEAK][k] - mean;
        demand[k] = mean + ripple_share(speed[k]) * above;
        capacity[k] = most[k];
    }
    if (bite_is_given(most) && bite_is_given(below) && bite_is_given(exponent)) {
        BITE_EACH_LANE(k, block)
        {
            capacity[k] *= bite_smaller(bite_power_of(speed[k] / below[k], exponent[k]), 1.0);
        }
    }
}
