/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Aluminium: what its table cannot state. Its figures are in tables/materials/aluminium.ini. */
#include <coolbite/family.h>
#include <math.h>
#include <string.h>

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    struct bite_figure welding = host->figure(grade, "welding");
    struct bite_figure melting = host->figure(grade, "melting");
    if (!isnan(welding.value) && !isnan(melting.value) && !(welding.value < melting.value)) {
        host->reason(host, "the welding temperature of aluminium must be below its melting range");
        return BITE_FAMILY_FAULT;
    }
    return BITE_FAMILY_OK;
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    const char *coolant = host->choice(judged, "coolant");
    const char *operation = host->choice(judged, "operation");
    double flutes = host->number(judged, "flutes");
    double width = host->number(judged, "width");
    double diameter = host->number(judged, "diameter");
    int dry = coolant != NULL && strcmp(coolant, "none") == 0;
    int mills = operation != NULL && strcmp(operation, "mill") == 0;
    int slot = mills && (isnan(width) || width > 0.9 * diameter);
    if (dry && slot && flutes > 2.0) {
        return host->caution(judged, "many_flutes", BITE_CARE,
                             "A dry slot with {flutes} flutes: three or more flutes leave little "
                             "space for chips, and aluminium packs and welds. Use one or two "
                             "flutes, air or mist, or less width.",
                             "common-practice") == 0
                   ? BITE_FAMILY_OK
                   : BITE_FAMILY_FAULT;
    }
    return BITE_FAMILY_OK;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family family = {.struct_size = (uint32_t)sizeof(struct bite_family),
                                              .abi = BITE_FAMILY_ABI,
                                              .name = "aluminium",
                                              .table = "aluminium.ini",
                                              .fill = fill,
                                              .caution = caution};
    return &family;
}
