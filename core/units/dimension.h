/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The dimension of a quantity, by which a sum or a comparison makes sense or not. */
#ifndef BITE_UNITS_DIMENSION_H
#define BITE_UNITS_DIMENSION_H

#include <coolbite/coolbite.h>
#include <stdbool.h>

/** Exponents of the base units. Angles, shares and revolutions have none. */
typedef struct bite_dimension {
    int length;
    int mass;
    int time;
    int temperature;
} bite_dimension;

/** The dimension of a kind, from its SI unit. */
bite_dimension bite_dimension_of(bite_kind kind);

/** a times b^power. */
bite_dimension bite_dimension_times(bite_dimension a, bite_dimension b, int power);

bool bite_dimension_equal(bite_dimension a, bite_dimension b);

#endif
