/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Modes of a structure. */
#include "core/physics/dynamics/stability_lobes.h"
#include <math.h>

bite_mode bite_mode_plain(double frequency, double stiffness, double damping)
{
    double natural = 2.0 * M_PI * frequency;
    bite_mode mode = {natural, damping, natural * natural / stiffness, 0.0};
    return mode;
}
