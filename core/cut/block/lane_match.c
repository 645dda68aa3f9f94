/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether cuts can be lanes of one block. */
#include "core/cut/block/lane_match.h"
#include "core/cut/block/block.h"
#include <math.h>
#include <string.h>

int bite_cut_same_form(const bite_cut *one, const bite_cut *other)
{
    return one->flutes == other->flutes &&
           (one->corner_radius > 0.0) == (other->corner_radius > 0.0) &&
           (one->floor_thickness > 0.0) == (other->floor_thickness > 0.0);
}

int bite_cut_same_given(const bite_cut *one, const bite_cut *other)
{
    const double *a = &one->spindle_speed;
    const double *b = &other->spindle_speed;
    int same = 1;
    for (size_t i = 0; i < BITE_BLOCK_ROWS; i++) {
        same &= isnan(a[i]) == isnan(b[i]);
    }
    return same;
}

int bite_cut_same_words(const bite_cut *one, const bite_cut *other)
{
    return memcmp(one, other, offsetof(bite_cut, spindle_speed)) == 0 &&
           memcmp(&one->heat_capacity_curve, &other->heat_capacity_curve,
                  sizeof one->heat_capacity_curve) == 0 &&
           memcmp(&one->strength_curve, &other->strength_curve, sizeof one->strength_curve) == 0 &&
           one->own == other->own;
}
