/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Spring passes: the lap of a side cut repeated at the same setting.
 *
 * A lap of width w leaves e = F(w)/k on a wall that is cut with the feed: k is the stiffness of
 * tool and machine, and a thin wall gives way beside it. The same path again meets a cut of width
 * e, so that
 *
 *   e(n+1) = F(e(n))/k
 *
 * with the forces of that width from the model of the cut, not from a share of the first lap: the
 * edge's own force does not fall with the width. What is thinner than the thinnest chip that forms
 * stays. What a lap has cut too deep no later one puts back.
 */
#include "core/cut/block/spring_block.h"
#include "core/cut/limits_part.h"
#include "core/cut/physics_inputs.h"
#include "core/names/registry.h"
#include <string.h>

/* The most spring passes of a cut of the block. */
static int laps_of(const bite_block *block)
{
    const double *laps = BITE_ROW(block, spring_passes);
    double most = 0.0;
    for (int k = 0; k < block->lanes; k++) {
        most = laps[k] > most ? laps[k] : most;
    }
    return (int)(most + 0.5);
}

/* A lap cannot be wider than the first, nor thinner than a cut may be. */
BITE_IN_LANES static void fill_width(const bite_block *restrict block, const double *restrict error,
                                     const double *restrict gives, const double *restrict width,
                                     double *restrict left)
{
    const double least = bite_input_find("width")->least;
    BITE_EACH_LANE(k, block)
    {
        double both = bite_larger(error[k], 0.0) + gives[k];
        left[k] = bite_smaller(bite_larger(both, least), width[k]);
    }
}

/* A lap of which there are `number` or more leaves what is left of the smaller of both. */
BITE_IN_LANES static void take_lap(const bite_block *restrict block, double number,
                                   const bite_block_segment *restrict lap, bite_value_id wall,
                                   bite_block_segment *restrict segment)
{
    const double *restrict laps = BITE_ROW(block, spring_passes);
    const double *restrict thinnest = segment->value[BITE_CHIP_THICKNESS_LEAST];
    double *restrict error = segment->value[wall];
    BITE_EACH_LANE(k, block)
    {
        double least = bite_smaller(error[k], thinnest[k]);
        double after = lap->value[wall][k];
        after = after > 0.0 ? bite_larger(after, least) : after;
        int better = laps[k] + 0.5 > number && after < error[k];
        error[k] = better ? after : error[k];
        segment->finish_bend[k] = better ? lap->finish_bend[k] : segment->finish_bend[k];
        segment->value[BITE_WALL_ERROR][k] = fabs(error[k]);
    }
}

void bite_block_springs(const bite_block *block, const double *width, const double *inside_radius,
                        bite_segment_work *work, bite_block_segment *lap,
                        bite_block_segment *segment)
{
    const bite_cut *cut = block->cut;
    bite_value_id wall = cut->side == BITE_CLIMB ? BITE_WALL_CLIMB : BITE_WALL_CONVENTIONAL;
    bite_value_id other = cut->side == BITE_CLIMB ? BITE_WALL_CONVENTIONAL : BITE_WALL_CLIMB;
    int laps = cut->operation == BITE_MILL && !bite_cut_is_groove(cut) ? laps_of(block) : 0;
    bite_lanes gives;
    bite_lanes left;
    memcpy(lap->diameter, segment->diameter, sizeof lap->diameter);
    for (int number = 1; number <= laps; number++) {
        if (bite_is_given(segment->value[other]) || !bite_is_given(segment->value[wall])) {
            return; /* a slot finishes both walls; without a pressure there is no error */
        }
        bite_wall_gives(block, segment, gives);
        fill_width(block, segment->value[wall], gives, width, left);
        (void)bite_block_segment_compute(block, left, inside_radius, segment, work, lap);
        take_lap(block, number, lap, wall, segment);
    }
}
