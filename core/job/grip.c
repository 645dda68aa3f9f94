/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Loads on a bond, vacuum plates, jaws. */
#include "core/job/grip.h"
#include <math.h>

bite_grip_stress bite_grip_stresses(double along, double across, const bite_grip_load *load)
{
    double area = along * across;
    double polar = area * (along * along + across * across) / 12.0;
    bite_grip_stress stress;
    stress.shear = load->side / area;
    stress.pull = fmax(0.0, load->lift) / area;
    stress.tilt = 6.0 * load->side * load->height / (across * along * along);
    stress.twist = load->side * load->arm * 0.5 * hypot(along, across) / polar;
    return stress;
}

double bite_grip_use(const bite_grip_stress *stress, double shear_strength, double pull_strength, double safety)
{
    return safety * hypot((stress->shear + stress->twist) / shear_strength, (stress->pull + stress->tilt) / pull_strength);
}

double bite_grip_peel(double along, double across, const bite_grip_load *load)
{
    return (0.5 * fmax(0.0, load->lift) + 1.5 * load->side * load->height / along) / across;
}

double bite_grip_vacuum(double pressure, double area, double friction, double lift)
{
    return fmax(0.0, friction * (pressure * area - fmax(0.0, lift)));
}

double bite_grip_groove(double pressure, double groove, double rigidity)
{
    return pressure * pow(groove, 4.0) / (384.0 * rigidity);
}

double bite_grip_buckling(double modulus, double poisson, double thickness, double between, double width)
{
    double stress = M_PI * M_PI * modulus * thickness * thickness / (12.0 * (1.0 - poisson * poisson) * between * between);
    return stress * width * thickness;
}

double bite_grip_squeeze(double force, double modulus, double thickness, double between, double width)
{
    return force * between / (modulus * width * thickness);
}

double bite_grip_slip(double expansion, double plate_expansion, double warmer, double from_middle)
{
    return (expansion - plate_expansion) * warmer * from_middle;
}

double bite_grip_mismatch(double modulus, double poisson, double expansion, double plate_expansion, double warmer)
{
    return modulus * (expansion - plate_expansion) * warmer / (1.0 - poisson);
}

double bite_grip_warm(double temperature, double room, double limit)
{
    double share = 1.0 - 0.5 * (temperature - room) / (limit - room);
    if (isnan(share) || !(limit > room)) {
        return 1.0;
    }
    return fmin(1.0, fmax(0.25, share));
}

double bite_grip_cure(double gap)
{
    const double touching = 10.0; /* s */
    const double at_gap = 600.0;
    const double known_gap = 0.127e-3; /* m */
    const double day = 86400.0;
    return fmin(day, touching * pow(at_gap / touching, fmax(0.0, gap) / known_gap));
}
