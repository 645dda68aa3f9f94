/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The force of an instrument on a part: contact, bending, squeezing. */
#include "core/inspection/gauge_effect.h"
#include "core/physics/holding/workholding.h"
#include "core/physics/measurement/gauge_contact.h"
#include <math.h>
#include <string.h>

/* Tips and faces are of carbide or hardened steel: stiff against any plastic, counted for metals.
 */
static const double tip_modulus = 210e9; /* Pa; common practice, steel */
static const double tip_poisson = 0.3;

static int is(const char *measures, const char *word)
{
    return strcmp(measures, word) == 0;
}

static double contact_depth(const bite_instrument *instrument, const bite_gauged_part *part)
{
    double modulus = bite_contact_modulus(part->modulus, part->poisson, tip_modulus, tip_poisson);
    if (instrument->contact == BITE_CONTACT_BALL) {
        return bite_contact_ball_depth(instrument->force, instrument->contact_size, modulus);
    }
    double area = 0.25 * M_PI * instrument->contact_size * instrument->contact_size;
    return instrument->force * part->thickness / (area * part->modulus); /* between two faces */
}

void bite_gauge_effect_of(const bite_instrument *instrument, const char *measures,
                          const bite_gauged_part *part, bite_gauge_effect *effect)
{
    effect->indentation = effect->dent_force = effect->bend = (double)NAN;
    effect->squeeze = effect->buckling_force = (double)NAN;
    if (instrument->judges || instrument->contact == BITE_CONTACT_NONE ||
        !(instrument->force > 0.0)) {
        return;
    }
    effect->indentation = contact_depth(instrument, part);
    if (instrument->contact == BITE_CONTACT_BALL) {
        double modulus =
            bite_contact_modulus(part->modulus, part->poisson, tip_modulus, tip_poisson);
        effect->dent_force = bite_contact_ball_dent(instrument->contact_size, modulus, part->yield);
    }
    double along = fmax(part->length, part->width);
    double across = fmin(part->length, part->width);
    if (is(measures, "outside")) {
        effect->squeeze = bite_workholding_squeeze(instrument->force, part->modulus,
                                                   part->thickness, along, across);
        effect->buckling_force =
            bite_workholding_buckling(part->modulus, part->poisson, part->thickness, along, across);
    }
    if (is(measures, "depth") || is(measures, "height") || is(measures, "flatness")) {
        effect->bend =
            bite_strip_deflection(instrument->force, along, across, part->thickness, part->modulus);
    }
}

double bite_gauge_effect_on_reading(const bite_gauge_effect *effect, const char *measures)
{
    int bends = is(measures, "height") || is(measures, "flatness");
    double sum = bends && !isnan(effect->bend) ? effect->bend : 0.0;
    sum += isnan(effect->indentation) ? 0.0 : effect->indentation;
    return sum + (isnan(effect->squeeze) ? 0.0 : effect->squeeze);
}
