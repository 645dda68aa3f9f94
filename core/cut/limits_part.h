/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the part: size, corner, gap, finish, edges, thin sections, flatness and stock. */
#ifndef BITE_CUT_LIMITS_PART_H
#define BITE_CUT_LIMITS_PART_H

#include "core/cut/limit_fill.h"

/** The tolerance, m, that is assumed if none was requested. It is not filled into the cut: there
 * NaN means that none was requested. */
extern const double bite_tolerance_default;

/** How far the thin wall beside the cut gives way to the force that finishes it, m; 0: there is no
 * thin wall. */
void bite_wall_gives(const bite_block *block, const bite_block_segment *segment, double *bend);

bite_limit_fill bite_limit_deflection;
bite_limit_fill bite_limit_corner;
bite_limit_fill bite_limit_gap;
bite_limit_fill bite_limit_finish;
bite_limit_fill bite_limit_edge_chip;
bite_limit_fill bite_limit_part_bend;
bite_limit_fill bite_limit_part_gross_bend;
bite_limit_fill bite_limit_warp;
bite_limit_fill bite_limit_stock_thickness;

bite_limit_omit bite_limit_part_bend_omit;
bite_limit_omit bite_limit_part_gross_bend_omit;
bite_limit_omit bite_limit_warp_omit;

#endif
