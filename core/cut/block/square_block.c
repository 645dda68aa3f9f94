/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Forces of square end mills, in lanes: means in closed form, peaks and walls from samples of a
 * turn (square_samples.c). */
#include "core/cut/block/square_block.h"
#include "core/cut/block/square_samples.h"
#include "core/physics/geometry/chip_thickness.h"
#include <string.h>

/* ---- means ---- */

/* Adds the integrals of a hinge over its whole interval. */
BITE_IN_LANES static void add_whole(const bite_block *restrict block,
                                    const bite_hinge_lanes *restrict hinge, double first,
                                    bite_edge_term_lanes *restrict sum)
{
    BITE_EACH_LANE(k, block)
    {
        bite_edge_terms terms =
            bite_edge_between(hinge->slope[k], hinge->offset[k], bite_turned_lane(&hinge->low, k),
                              bite_turned_lane(&hinge->high, k));
        sum->area[k] += terms.area;
        sum->area_sine[k] += terms.area_sine;
        sum->area_cosine[k] += terms.area_cosine;
        sum->edge[k] += first * terms.edge;
        sum->edge_sine[k] += first * terms.edge_sine;
        sum->edge_cosine[k] += first * terms.edge_cosine;
    }
}

/* times: teeth that each tooth of the chips stands for. */
BITE_IN_LANES static void fill_means(const bite_block *restrict block,
                                     const bite_square_tool *restrict tool, double times,
                                     const bite_edge_term_lanes *restrict sum,
                                     bite_block_force *restrict force)
{
    const double *restrict depth = BITE_ROW(block, depth);
    BITE_EACH_LANE(k, block)
    {
        double share = times * depth[k] / (2.0 * M_PI);
        bite_edge_terms terms = {share * sum->area[k],        share * sum->area_sine[k],
                                 share * sum->area_cosine[k], share * sum->edge[k],
                                 share * sum->edge_sine[k],   share * sum->edge_cosine[k]};
        bite_edge_load load =
            bite_edge_load_of(terms, tool->tangential[k], tool->radial[k], tool->axial[k],
                              tool->edge_tangential[k], tool->edge_radial[k], tool->edge_axial[k]);
        force->mean_tangential[k] = load.tangential;
        force->mean_x[k] = load.x;
        force->mean_y[k] = load.y;
        force->mean_lift[k] = load.lift;
        force->mean_torque[k] = load.tangential * 0.5 * tool->diameter[k];
    }
}

static void find_means(const bite_block *block, const bite_square_tool *tool,
                       const bite_block_chip *chip, bite_square_work *work, bite_block_force *force)
{
    bite_edge_term_lanes *sum = &work->sum;
    memset(sum, 0, sizeof *sum);
    for (int j = 0; j < chip->hinges.teeth; j++) {
        for (int i = chip->hinges.first[j]; i < chip->hinges.first[j + 1]; i++) {
            add_whole(block, &chip->hinge[i], i == chip->hinges.first[j] ? 1.0 : 0.0, sum);
        }
    }
    fill_means(block, tool, chip->hinges.teeth == 1 ? (double)block->flutes : 1.0, sum, force);
}

/* ---- all of it ---- */

BITE_IN_LANES static void prepare(const bite_block *restrict block,
                                  const bite_square_tool *restrict tool,
                                  const bite_block_segment *restrict segment,
                                  bite_square_work *restrict work, bite_block_force *restrict force)
{
    const double *restrict depth = BITE_ROW(block, depth);
    const double *restrict helix = BITE_ROW(block, helix);
    BITE_EACH_LANE(k, block)
    {
        double lag = bite_edge_lag(depth[k], tool->diameter[k], helix[k]);
        double heavy = segment->heavy_chip[k];
        double peak = bite_chip_peak(heavy, segment->value[BITE_CHIP_THICKNESS_LEAST][k]);
        work->lag.at[k] = lag;
        work->per_lag[k] = depth[k] / lag;
        double per_lag = work->per_lag[k];
        double factor = heavy > 0.0 ? per_lag * (peak / heavy) : per_lag;
        work->tangential[k] = factor * tool->tangential[k];
        work->radial[k] = factor * tool->radial[k];
        work->axial[k] = factor * tool->axial[k];
        work->edge_tangential[k] = per_lag * tool->edge_tangential[k];
        work->edge_radial[k] = per_lag * tool->edge_radial[k];
        work->edge_axial[k] = per_lag * tool->edge_axial[k];
        work->wall_force[k] = segment->compliance[k] + tool->slope[k] * segment->load[k];
        work->wall_fall[k] = tool->slope[k];
        work->up[k] = work->down[k] = 0.0;
        force->peak_tangential[k] = force->peak_side[k] = 0.0;
        force->wall_climb[k] = force->wall_conventional[k] = 0.0;
    }
}

BITE_IN_LANES static void fill_lag_sine(const bite_block *restrict block,
                                        bite_turned_lanes *restrict lag)
{
    BITE_EACH_LANE(k, block)
    {
        lag->sine[k] = sin(lag->at[k]);
    }
}

BITE_IN_LANES static void fill_lag_cosine(const bite_block *restrict block,
                                          bite_turned_lanes *restrict lag)
{
    BITE_EACH_LANE(k, block)
    {
        lag->cosine[k] = cos(lag->at[k]);
    }
}

/* A wall exists where the arc of contact reaches it. */
BITE_IN_LANES static void finish(const bite_block *restrict block,
                                 const bite_square_tool *restrict tool,
                                 const bite_block_chip *restrict chip,
                                 const bite_square_work *restrict work,
                                 bite_block_force *restrict force)
{
    BITE_EACH_LANE(k, block)
    {
        force->peak_side[k] = sqrt(force->peak_side[k]);
        force->peak_lift[k] = work->up[k] >= -work->down[k] ? work->up[k] : work->down[k];
        force->peak_torque[k] = force->peak_tangential[k] * 0.5 * tool->diameter[k];
        force->wall_climb[k] = chip->leave.at[k] >= M_PI ? force->wall_climb[k] : (double)NAN;
        force->wall_conventional[k] =
            chip->enter.at[k] <= 0.0 ? force->wall_conventional[k] : (double)NAN;
    }
}

void bite_block_square(const bite_block *block, const bite_square_tool *tool,
                       const bite_block_chip *chip, const bite_block_segment *segment,
                       bite_square_work *work, bite_block_force *force)
{
    find_means(block, tool, chip, work, force);
    prepare(block, tool, segment, work, force);
    fill_lag_sine(block, &work->lag);
    fill_lag_cosine(block, &work->lag);
    bite_square_sample(block, tool, chip, work, force);
    finish(block, tool, chip, work, force);
}
