/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of material properties that several stages of a block need. */
#ifndef BITE_CUT_BLOCK_MATERIAL_ROWS_H
#define BITE_CUT_BLOCK_MATERIAL_ROWS_H

#include "core/cut/block/block.h"
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/heat/softening_time.h"

/** A curve that has points, at the temperature of each lane. */
BITE_FORMULA void bite_block_curve_at(const bite_block *block, const bite_curve *curve,
                                      const double *temperature, double *row)
{
    double first = curve->value[0];
    BITE_EACH_LANE(k, block)
    {
        row[k] = first;
    }
    for (uint32_t i = 1; i < curve->count; i++) {
        BITE_EACH_LANE(k, block)
        {
            row[k] += bite_curve_rise(curve, i, temperature[k]);
        }
    }
}

/** rho c of the work at the start temperature, J/(m3 K). */
BITE_FORMULA void bite_block_volumetric_heat(const bite_block *block, double *row)
{
    const bite_curve *curve = &block->cut->heat_capacity_curve;
    if (curve->count > 0) {
        bite_block_curve_at(block, curve, BITE_ROW(block, room_temperature), row);
        BITE_EACH_LANE(k, block)
        {
            row[k] *= BITE_ROW(block, density)[k];
        }
    } else {
        BITE_EACH_LANE(k, block)
        {
            row[k] = BITE_ROW(block, density)[k] * BITE_ROW(block, heat_capacity)[k];
        }
    }
}

/** The law of a glassy polymer in one lane. */
BITE_FORMULA bite_softening_law bite_block_law(const bite_block *block, int k)
{
    bite_softening_law law = {BITE_ROW(block, transition)[k], BITE_ROW(block, wlf_c1)[k],
                              BITE_ROW(block, wlf_c2)[k]};
    return law;
}

/** Temperature, K, at which the material flows within the time, s, of each lane; NaN: it is not a
 * polymer. kind: the law of one of the cuts, which tells what is known of all. */
BITE_FORMULA void bite_block_flow(const bite_block *block, const bite_softening_law *kind,
                                  const double *time, double *row)
{
    if (!isnan(kind->transition) && !isnan(kind->c1)) {
        BITE_EACH_LANE(k, block)
        {
            bite_softening_law law = bite_block_law(block, k);
            row[k] = bite_softening_glassy(&law, time[k], 0.0);
        }
    } else {
        double missing = isnan(kind->transition) ? (double)NAN : 0.0;
        BITE_EACH_LANE(k, block)
        {
            row[k] = BITE_ROW(block, transition)[k] + missing;
        }
    }
}

#endif
