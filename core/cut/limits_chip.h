/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of the chip: whether it forms, whether all teeth cut, whether it leaves the flutes and
 * whether it welds to them. */
#ifndef BITE_CUT_LIMITS_CHIP_H
#define BITE_CUT_LIMITS_CHIP_H

#include "core/cut/limit_fill.h"

bite_limit_fill bite_limit_rubbing;
bite_limit_fill bite_limit_runout;
bite_limit_fill bite_limit_chip_packing;
bite_limit_fill bite_limit_chip_weld;
bite_limit_fill bite_limit_unproven;
bite_limit_fill bite_limit_plunge_feed;

bite_limit_omit bite_limit_chip_weld_omit;
bite_limit_omit bite_limit_unproven_omit;
bite_limit_omit bite_limit_plunge_feed_omit;

#endif
