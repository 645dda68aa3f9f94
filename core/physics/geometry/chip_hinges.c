/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The hinges of the chips of all teeth, for a number of flutes. */
#include "core/physics/geometry/chip_hinges.h"
#include "core/physics/geometry/runout_envelope.h"

/* At this runout over the feed per tooth every line of the envelope is lowest somewhere in the
 * range that bite_runout_envelope searches: no two lines cross beyond TIR/fz. */
static const double searched_ratio = 0.5;

/* Differences of neighbouring pieces: each hinge replaces the line before it. */
static int add_tooth(const bite_runout_line *lines, int count, bite_chip_hinge *hinge)
{
    double from[BITE_TEETH_MAX + 1];
    int which[BITE_TEETH_MAX + 1];
    bite_runout_line before = {0.0, 0.0};
    int pieces = bite_runout_envelope(lines, count, from, which);
    for (int i = 0; i < pieces; i++) {
        const bite_runout_line *line = &lines[which[i]];
        hinge[i].at = from[i] / searched_ratio;
        hinge[i].slope = line->slope - before.slope;
        hinge[i].offset = (line->step - before.step) / searched_ratio;
        before = *line;
    }
    return pieces;
}

void bite_chip_hinges_init(bite_chip_hinges *hinges, int flutes, int alike)
{
    double reach[BITE_TEETH_MAX];
    bite_runout_line lines[BITE_TEETH_MAX];
    hinges->flutes = flutes;
    hinges->alike = alike;
    hinges->teeth = alike ? 1 : flutes;
    hinges->longest = 0;
    hinges->first[0] = 0;
    bite_runout_reach(flutes, searched_ratio, reach);
    for (int j = 0; j < hinges->teeth; j++) {
        hinges->longest = reach[j] > reach[hinges->longest] ? j : hinges->longest;
        int count = bite_runout_lines(j, alike ? 1 : flutes, 1.0, reach, lines);
        hinges->first[j + 1] =
            hinges->first[j] + add_tooth(lines, count, &hinges->hinge[hinges->first[j]]);
    }
}
