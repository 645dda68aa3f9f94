/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Chips, marks and forces of a block of chamfers (core/physics/force/chamfer_cone.h). */
#ifndef BITE_CUT_BLOCK_CHAMFER_BLOCK_H
#define BITE_CUT_BLOCK_CHAMFER_BLOCK_H

#include "core/cut/block/strip_block.h"

/* inside_radius (lanes, m): of an inside corner that is chamfered, finished, at the upper end of
 * the chamfer; NULL: a straight edge. */

/** Fills of the segment the values that depend on the shape of the cone: the chips, which are
 * thinner by the slope of the edge, heavy_chip and thin_chip, the removal rate, the speed at the
 * thin end, and the roughness of the face. Chip thickness and chip load are set. */
void bite_block_cone(const bite_block *block, const bite_block_chip *chip,
                     const double *inside_radius, bite_block_segment *segment,
                     bite_strip_work *work);

/** Fills the forces, and of the segment the edge contact. segment: heavy_chip, pressure and
 * compliance are set; chip: of the arc at the upper end. The wall is the face of the chamfer,
 * computed at the pressure of the peaks and at the compliance of the load. */
void bite_block_chamfer(const bite_block *block, const bite_block_chip *chip,
                        const double *inside_radius, bite_block_segment *segment,
                        bite_strip_work *work, bite_block_force *force);

#endif
