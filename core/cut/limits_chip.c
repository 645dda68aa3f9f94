/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the chip: whether it forms, whether all teeth cut, whether it leaves the flutes and
 * whether it welds to them. */
#include "core/cut/limits_chip.h"
#include <math.h>

void bite_limit_rubbing(bite_limit_case *limit)
{
    const bite_segment *segment = limit->segment;
    bite_limit_set(limit, segment->value[BITE_CHIP_THICKNESS_LEAST],
                   limit->cut->operation == BITE_CHAMFER ? segment->thin_chip
                                                         : segment->heavy_chip);
}

/* Two neighbouring teeth differ in radius by at most TIR sin(pi/z): the lighter one cuts nothing
 * once that exceeds the feed per tooth. */
void bite_limit_runout(bite_limit_case *limit)
{
    double step = limit->cut->runout * sin(M_PI / limit->cut->flutes);
    bite_limit_set(limit, step, limit->segment->value[BITE_CHIP_LOAD]);
    limit->advisory = 1;
    if (limit->cut->flutes < 2.0) {
        bite_limit_omit(limit, BITE_WHY_ONE_FLUTE);
    }
}

/* Metal chips in a slot that is closed at both ends can only leave upwards, and what falls back is
 * cut again (estimate: between all of the capacity and half of it; no published figure was found).
 * An air blast, mist or flood removes them. */
static const double closed_slot_share = 0.7;

static double slot_share(const bite_cut *cut)
{
    return cut->substance == BITE_METAL && cut->blind == 1 && cut->coolant == BITE_COOLANT_NONE
               ? closed_slot_share
               : 1.0;
}

/* Capacity of the flutes: falls with their number, and rises with a coolant that blows or washes
 * the chips out (estimate: one and two flutes, air and mist are fitted to public reports; flood by
 * what makers of carbide mills rate for slots: as deep as wide with two flutes in aluminium, half
 * of that with four in steel, memory). More than two flutes follow the pocket that a tooth has for
 * its chip: 46, 44, 39 and 36 % of the section, shared among 2, 3, 4 and 5 (memory: sections of
 * makers' end mills are 54, 56 and 61 % full; in a maker's catalogue the pockets of three flutes
 * together are nearly as large as those of two, those of four are small and for shallow slots). */
static double packing_capacity(const bite_cut *cut)
{
    static const double by_flutes[] = {1.0, 0.85, 0.54, 0.36, 0.27};
    static const double by_coolant[] = {1.0, 1.3, 1.4, 2.6};
    int flutes = (int)cut->flutes;
    uint32_t coolant = cut->coolant <= BITE_COOLANT_FLOOD ? cut->coolant : 0;
    return slot_share(cut) * cut->packing_limit * by_flutes[flutes > 5 ? 4 : flutes - 1] *
           by_coolant[coolant];
}

void bite_limit_chip_packing(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    bite_limit_set(limit, limit->segment->packing, packing_capacity(cut));
    bite_limit_require(limit, limit->capacity, BITE_WHY_NO_DATA);
    /* glassy plastics in a blind slot without an air blast: the trouble begins long before the
     * flutes are full */
    if (cut->substance == BITE_AMORPHOUS && cut->coolant == BITE_COOLANT_NONE && cut->blind == 1 &&
        limit->segment->engaged >= 1.0) {
        limit->tight_from = 0.35;
    }
}

/* Metals: chips that stay in the flutes of a warm tool, sqrt(packing x warmth). Plastics: the
 * temperature of the film under the edge. */
void bite_limit_chip_weld(bite_limit_case *limit)
{
    const bite_cut *cut = limit->cut;
    const bite_segment *segment = limit->segment;
    double start = cut->room_temperature;
    if (isnan(cut->welding)) {
        bite_limit_omit(limit, BITE_WHY_DOES_NOT_WELD);
        return;
    }
    double capacity = cut->welding - start;
    if (cut->substance != BITE_METAL) {
        bite_limit_set(limit, segment->value[BITE_FILM_TEMPERATURE] - start, capacity);
    } else {
        double warmth = fmax(0.0, segment->value[BITE_TOOL_TEMPERATURE] - start) / capacity;
        double packing = segment->packing / packing_capacity(cut);
        bite_limit_set(limit, capacity * sqrt(packing * warmth), capacity);
    }
    bite_limit_require(limit, limit->demand, BITE_WHY_NO_DATA);
}
