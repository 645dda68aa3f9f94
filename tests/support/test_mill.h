/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The engine's square end mill, from numbers of its own rather than those of a cut. */
#ifndef BITE_TESTS_SUPPORT_TEST_MILL_H
#define BITE_TESTS_SUPPORT_TEST_MILL_H

#include "core/cut/block/square_block.h"
#include "core/physics/force/cutting_pressure.h"
#include "core/physics/geometry/engagement.h"

typedef struct bite_test_mill {
    double diameter; /* m */
    double depth;    /* m */
    double helix;    /* rad */
    double feed;     /* per tooth, m */
    double runout;   /* m */
    int flutes;
    bite_arc arc;
    bite_pressure pressure;
} bite_test_mill;

/** Fills the chips within the arc, in all lanes. */
void bite_test_mill_chips(const bite_test_mill *mill, bite_block_chip *chip);

/** Fills the forces, with a sharp edge and a rigid tool. */
void bite_test_mill_forces(const bite_test_mill *mill, bite_block_force *force);

#endif
