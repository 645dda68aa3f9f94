/* SPDX-License-Identifier: CC0-1.0 */
/* A family of your own: soap, whose chips stick to a warm tool. Its figures are in soap.ini. */
#include <coolbite/family.h>
#include <stddef.h>

static const char *const numbers[] = {"melting_rise", "tool_temperature", "room_temperature", NULL};

/* The tool's rise against the rise at which this soap melts. */
static enum bite_family_status judge(size_t count, const double *const *of, double *demand,
                                     double *capacity)
{
    for (size_t k = 0; k < count; k++) {
        demand[k] = of[1][k] > of[2][k] ? of[1][k] - of[2][k] : 0.0;
        capacity[k] = of[0][k];
    }
    return BITE_FAMILY_OK;
}

static const struct bite_family_figure melting_rise = {
    .struct_size = sizeof melting_rise,
    .name = "melting_rise",
    .quantity = "temperature rise",
    .summary = "rise at which it melts",
    .least = 1,
    .most = 500,
};
static const struct bite_family_limit smear = {
    .struct_size = sizeof smear,
    .name = "smear",
    .quantity = "temperature rise",
    .summary = "the tool stays too cool to melt the soap",
    .equation = "rise of the tool against melting_rise",
    .source = "estimate: a template",
    .remedy = "Cut slower, or blow air.",
    .numbers = numbers,
    .judge = judge,
};

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family_figure *const figures[] = {&melting_rise, NULL};
    static const struct bite_family_limit *const limits[] = {&smear, NULL};
    static const struct bite_family family = {
        .struct_size = sizeof family,
        .abi = BITE_FAMILY_ABI,
        .name = "soap",
        .table = "soap.ini",
        .figures = figures,
        .limits = limits,
    };
    return &family;
}
