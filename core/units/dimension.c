/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dimension of a kind is read from its SI unit ("W/m2/K"), so that it stands in one table. */
#include "core/units/dimension.h"
#include "core/base/text.h"
#include "core/units/unit_table.h"
#include <string.h>

static const struct {
    const char *name;
    bite_dimension dimension;
} symbols[] = {
    {"kg", {0, 1, 0, 0}},  {"m", {1, 0, 0, 0}},   {"s", {0, 0, 1, 0}},  {"K", {0, 0, 0, 1}},
    {"N", {1, 1, -2, 0}},  {"J", {2, 1, -2, 0}},  {"W", {2, 1, -3, 0}}, {"Pa", {-1, 1, -2, 0}},
    {"Hz", {0, 0, -1, 0}}, {"rad", {0, 0, 0, 0}}, {"1", {0, 0, 0, 0}},
};

bite_dimension bite_dimension_times(bite_dimension a, bite_dimension b, int power)
{
    bite_dimension product = {a.length + power * b.length, a.mass + power * b.mass,
                              a.time + power * b.time, a.temperature + power * b.temperature};
    return product;
}

bool bite_dimension_equal(bite_dimension a, bite_dimension b)
{
    return a.length == b.length && a.mass == b.mass && a.time == b.time &&
           a.temperature == b.temperature;
}

/* Symbols with an exponent behind them, divided by "/" and multiplied by a blank. */
bite_dimension bite_dimension_of(bite_kind kind)
{
    bite_dimension dimension = {0, 0, 0, 0};
    int sign = 1;
    for (const char *at = bite_unit_si(kind); *at != 0;) {
        size_t length = strcspn(at, "/ ");
        int power = length > 1 && bite_text_is_digit(at[length - 1]) ? at[length - 1] - '0' : 1;
        size_t size = power > 1 ? length - 1 : length;
        for (size_t i = 0; i < sizeof symbols / sizeof *symbols; i++) {
            if (strlen(symbols[i].name) == size && memcmp(symbols[i].name, at, size) == 0) {
                dimension = bite_dimension_times(dimension, symbols[i].dimension, sign * power);
            }
        }
        at += length;
        if (*at != 0) {
            sign = *at == '/' ? -1 : 1; /* what follows a "/" alone is divided */
            at++;
        }
    }
    return dimension;
}
