/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The walls of a block of edges in strips: a wall is finished height by height, each by the tooth
 * that reaches farthest when it is there, and the force at that instant displaces it.
 *
 * Whatever instants the peaks are sought at also show the walls: each belongs to one height.
 */
#include "core/cut/block/strip_block.h"

/* An edge is taken to be at a wall within this angle, rad: instants just before or after it. */
static const double slack = 1e-8;

BITE_IN_LANES void bite_strips_fill_walls(const bite_block *restrict block,
                                          bite_strip_work *restrict work,
                                          bite_block_force *restrict force)
{
    const bite_strip_node *restrict top = &work->node[BITE_STRIP_TOP + work->cylinder];
    bite_strip_walls *restrict walls = &work->walls;
    BITE_EACH_LANE(k, block)
    {
        double per_height = top->ahead[k] / top->height[k];
        double lag = bite_larger(fabs(per_height), 1e-9 / top->height[k]);
        walls->direction[k] = per_height < 0.0 ? -1.0 : 1.0;
        walls->start[k] = lag * walls->from[k];
        walls->lag[k] = lag * (walls->to[k] - walls->from[k]);
        walls->per_lag[k] = 1.0 / lag;
        force->wall_climb[k] = force->wall_conventional[k] = (double)NAN;
    }
}

/* at: of the wall, rad; sign: of the force on the tool that leaves stock on it; tooth: the one that
 * finishes it, ahead of tooth 0. If teeth cut alike each of them does, every period. Of the heights
 * that are at the wall at one instant the lowest one bends most. */
BITE_IN_LANES static void take_wall(const bite_block *restrict block, double at, double sign,
                                    double tooth, double period,
                                    const bite_strip_work *restrict work, double *restrict wall)
{
    const bite_strip_walls *restrict walls = &work->walls;
    double per_period = 1.0 / period;
    BITE_EACH_LANE(k, block)
    {
        double tip = at - tooth - work->tip.at[k];
        double behind = walls->direction[k] * tip - walls->start[k];
        behind -= period * floor((behind + slack) * per_period);
        double above = bite_larger(0.0, behind - slack) * walls->per_lag[k];
        double bend = walls->bend[k] - walls->fall[k] * (walls->from[k] + above);
        double left = sign * work->load.y[k] * bend;
        /* the first one replaces a NaN */
        double worse = fabs(left) <= fabs(wall[k]) ? wall[k] : left;
        wall[k] = behind <= walls->lag[k] + slack ? worse : wall[k];
    }
}

void bite_strips_take_walls(const bite_block *block, const bite_block_chip *chip,
                            const bite_strip_work *work, bite_block_force *force)
{
    const bite_chip_hinges *hinges = &chip->hinges;
    int climbs = work->sense < 0.0;
    double *own = climbs ? force->wall_climb : force->wall_conventional;
    double *other = climbs ? force->wall_conventional : force->wall_climb;
    double tooth = work->tooth[hinges->longest].at;
    double period = 2.0 * M_PI / (hinges->teeth == 1 ? block->flutes : 1);
    take_wall(block, 0.0, -work->sense, tooth, period, work, own);
    if (work->walls.other) {
        take_wall(block, M_PI, work->sense, tooth, period, work, other);
    }
}
