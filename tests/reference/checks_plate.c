/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plates under a point load against published and computed coefficients. mm, N, N/mm2 as in the
 * rows. */
#include "core/physics/elastic/thin_plate.h"
#include "tests/reference/check.h"
#include "tests/reference/textbook/plate.h"
#include <math.h>

#define IN(name) bite_in(given, name)

/* Timoshenko's square plate, in consistent units. */
static int clamped_square(const bite_given *given, double *out)
{
    out[0] = bite_plate_floor(1.0) * IN("P") * pow(IN("a"), 2.0) /
             bite_plate_rigidity(IN("E"), IN("nu"), IN("h"));
    return 1;
}

static int supported_plate(const bite_given *given, double *out)
{
    for (int i = 1; i <= 7; i++) {
        out[i - 1] = textbook_plate_supported(bite_in_at(given, "r", i));
    }
    return 7;
}

static int clamped_floor(const bite_given *given, double *out)
{
    for (int i = 1; i <= 4; i++) {
        out[i - 1] = bite_plate_floor(bite_in_at(given, "r", i));
    }
    return 4;
}

static int free_wall(const bite_given *given, double *out)
{
    out[0] = bite_plate_wall_middle(IN("r"));
    out[1] = bite_plate_wall_end(IN("r"));
    return 2;
}

static int pocket_wall(const bite_given *given, double *out)
{
    out[0] = bite_plate_pocket_wall(IN("r"));
    return 1;
}

static int long_wall(const bite_given *given, double *out)
{
    (void)given;
    out[0] = bite_plate_wall_middle(INFINITY);
    return 1;
}

static int wide_wall(const bite_given *given, double *out)
{
    double rigidity = bite_plate_rigidity(IN("E") * 1e6, IN("nu"), IN("h") * 1e-3);
    out[0] = 1e3 * bite_plate_wall_middle(INFINITY) * IN("P") * pow(IN("H") * 1e-3, 2.0) / rigidity;
    return 1;
}

static int bedded_plate(const bite_given *given, double *out)
{
    double rigidity = bite_plate_rigidity(IN("E") * 1e6, IN("nu"), IN("h") * 1e-3);
    out[0] = 1e3 * IN("P") * textbook_plate_bedded(IN("k1") * 1e9, rigidity);
    out[1] = 1e3 * IN("P") * textbook_plate_bedded(IN("k2") * 1e9, rigidity);
    return 2;
}

/* So thin for its length that shear is negligible. */
static int strip_quarter(const bite_given *given, double *out)
{
    const double thin = 1e-3;
    double width = 12.0 * IN("I") / pow(thin, 3.0);
    out[0] = 0.5 * 2.0 * IN("F") * bite_plate_strip(IN("E"), 0.3, 4.0 * IN("L"), width, thin);
    return 1;
}

static int strip(const bite_given *given, double *out)
{
    for (int i = 1; i <= 2; i++) {
        out[i - 1] = bite_in_at(given, "P", i) *
                     bite_plate_strip(bite_in_at(given, "E", i), bite_in_at(given, "nu", i),
                                      bite_in_at(given, "L", i), bite_in_at(given, "b", i),
                                      bite_in_at(given, "h", i));
    }
    return 2;
}

static int round_plate(const bite_given *given, double *out)
{
    out[0] = textbook_plate_round(IN("nu"), 1);
    out[1] = textbook_plate_round(IN("nu"), 0);
    return 2;
}

const bite_check bite_checks_plate[] = {
    {"clamped_square", clamped_square, "bite_plate_rigidity"},
    {"supported_plate", supported_plate, "textbook_plate_supported"},
    {"clamped_floor", clamped_floor, "bite_plate_floor"},
    {"free_wall", free_wall, "bite_plate_wall_end"},
    {"pocket_wall", pocket_wall, "bite_plate_pocket_wall"},
    {"long_wall", long_wall, "bite_plate_wall_middle"},
    {"wide_wall", wide_wall, "bite_plate_rigidity"},
    {"bedded_plate", bedded_plate, "textbook_plate_bedded"},
    {"round_plate", round_plate, "textbook_plate_round"},
    {"strip_quarter", strip_quarter, "bite_plate_strip"},
    {"strip", strip, "bite_plate_strip"},
};
const size_t bite_checks_plate_count = BITE_COUNT(bite_checks_plate);
