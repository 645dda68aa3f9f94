// SPDX-License-Identifier: CC0-1.0
// The same family as soap.c, in C++.
#include <coolbite/family.h>
#include <algorithm>

static const char *const numbers[] = {"melting_rise", "tool_temperature", "room_temperature",
                                      nullptr};

// The tool's rise against the rise at which this soap melts. No exception may leave it.
static bite_family_status judge(size_t count, const double *const *of, double *demand,
                                double *capacity)
{
    for (size_t k = 0; k < count; k++) {
        demand[k] = std::max(of[1][k] - of[2][k], 0.0);
        capacity[k] = of[0][k];
    }
    return BITE_FAMILY_OK;
}

static const bite_family_figure melting_rise = {
    sizeof melting_rise, 0, "melting_rise", "temperature rise", "rise at which it melts", 1, 500};
static const bite_family_limit smear = {
    sizeof smear, 0, "smear", "temperature rise", "the tool stays too cool to melt the soap",
    "rise of the tool against melting_rise", "estimate: a template", "Cut slower, or blow air.",
    numbers, judge};

const bite_family *bite_family_entry(void)
{
    static const bite_family_figure *const figures[] = {&melting_rise, nullptr};
    static const bite_family_limit *const limits[] = {&smear, nullptr};
    static const bite_family family = {sizeof family, BITE_FAMILY_ABI, "soap", "soap.ini",
                                       nullptr, nullptr, nullptr, nullptr, figures, limits};
    return &family;
}
