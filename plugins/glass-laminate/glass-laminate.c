/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Glass laminate: what its table cannot state. Its figures are in
 * tables/materials/glass-laminate.ini. */
#include "plugins/laminate.h"

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "glass-laminate",
                                              .table = "glass-laminate.ini",
                                              .fill = laminate_fill,
                                              .caution = laminate_caution,
                                              .figures = laminate_figures,
                                              .limits = laminate_limits};
    return &family;
}
