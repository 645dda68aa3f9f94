/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Lengths at 20 degC. */
#include "core/physics/measurement/length_correction.h"
#include <math.h>

double bite_length_at_reference(const bite_length_reading *reading)
{
    double part =
        reading->part_expansion * (reading->part_temperature - BITE_REFERENCE_TEMPERATURE);
    double gauge =
        reading->gauge_expansion * (reading->gauge_temperature - BITE_REFERENCE_TEMPERATURE);
    return reading->length * (1.0 - part + gauge);
}

/* The terms of expansion and temperature, over the length. */
static double relative_square(double expansion, double expansion_uncertainty, double temperature,
                              double temperature_uncertainty)
{
    double of_expansion = (temperature - BITE_REFERENCE_TEMPERATURE) * expansion_uncertainty;
    double of_temperature = expansion * temperature_uncertainty;
    return of_expansion * of_expansion + of_temperature * of_temperature;
}

double bite_length_uncertainty(const bite_length_reading *reading)
{
    double relative =
        relative_square(reading->part_expansion, reading->part_expansion_uncertainty,
                        reading->part_temperature, reading->temperature_uncertainty) +
        relative_square(reading->gauge_expansion, reading->gauge_expansion_uncertainty,
                        reading->gauge_temperature, reading->temperature_uncertainty);
    return hypot(reading->length_uncertainty, reading->length * sqrt(relative));
}
