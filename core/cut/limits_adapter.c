/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Limits of a single cut: a block of one in the working memory of its segments. */
#include "core/cut/limits_adapter.h"
#include "core/cut/limits.h"
#include "core/cut/physics_inputs.h"
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

/* The scratch of segments, aligned for lanes. */
static bite_limits_room *room_in(bite_scratch *scratch)
{
    uintptr_t most = _Alignof(bite_limits_room) - 1;
    uintptr_t start = ((uintptr_t)scratch->limits + most) & ~most;
    return (void *)(scratch->limits + (start - (uintptr_t)scratch->limits));
}

static void set_row(double *row, double value)
{
    for (int k = 0; k < BITE_LANE_STEP; k++) {
        row[k] = value;
    }
}

static void set_rows(bite_lanes *rows, const double *values, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        set_row(rows[i], values[i]);
    }
}

static void fill_block(const bite_judged_cut *judged, bite_block *block)
{
    double numbers[BITE_BLOCK_ROWS];
    memcpy(numbers, (const char *)judged->cut + offsetof(bite_cut, spindle_speed), sizeof numbers);
    block->cut = judged->cut;
    block->lanes = BITE_LANE_STEP;
    block->flutes = (int)judged->cut->flutes;
    set_row(block->tolerance, judged->requested->tolerance);
    set_row(block->finish, judged->requested->finish);
    set_rows(block->number, numbers, BITE_BLOCK_ROWS);
}

/* What limits need of a segment. */
static void fill_segment(const bite_judged_cut *judged, bite_block_segment *lanes)
{
    const bite_segment *segment = judged->segment;
    set_row(lanes->diameter, bite_cutting_diameter(judged->cut));
    set_row(lanes->edge_radius, bite_cut_edge_radius(judged->cut));
    set_rows(lanes->value, segment->value, BITE_VALUE_COUNT);
    set_row(lanes->compliance, segment->compliance);
    set_row(lanes->heavy_chip, segment->heavy_chip);
    set_row(lanes->thin_chip, segment->thin_chip);
    set_row(lanes->torque_mean, segment->torque_mean);
    set_row(lanes->engaged, segment->engaged);
    set_row(lanes->chip_rise, segment->chip_rise);
    set_row(lanes->chip_mean, segment->chip_mean);
    set_row(lanes->wall_rise, segment->wall.rise);
    set_row(lanes->wall_dwell, segment->wall.dwell);
    set_row(lanes->floor_rise, segment->floor.rise);
    set_row(lanes->floor_dwell, segment->floor.dwell);
    set_row(lanes->wall_bend, segment->wall_bend);
    set_row(lanes->pocket, segment->pocket);
    set_row(lanes->packing, segment->packing);
}

static bite_limits_room *room_of(const bite_judged_cut *judged, bite_scratch *scratch)
{
    bite_limits_room *room = room_in(scratch);
    fill_block(judged, &room->block);
    fill_segment(judged, &room->segment);
    return room;
}

void bite_cut_limits(const bite_judged_cut *judged, const uint8_t *wanted, bite_scratch *scratch,
                     bite_limit limits[BITE_LIMIT_COUNT])
{
    bite_limits_room *room = room_of(judged, scratch);
    bite_block_limits(&room->block, &room->segment, wanted, &room->limits);
    for (bite_limit_id id = 0; id < BITE_LIMIT_COUNT; id++) {
        bite_block_limit_of(&room->limits, id, 0, &limits[id]);
    }
}

/* Limits so far, to be compared with those of another segment. */
static void give_limits(const bite_limit limits[BITE_LIMIT_COUNT], bite_block_limits_result *lanes)
{
    for (int i = 0; i < BITE_LIMIT_COUNT; i++) {
        lanes->applies[i] = (uint8_t)limits[i].applies;
        lanes->why[i] = (uint8_t)limits[i].why;
        lanes->advisory[i] = (uint8_t)limits[i].advisory;
        set_row(lanes->demand[i], limits[i].demand);
        set_row(lanes->capacity[i], limits[i].capacity);
        set_row(lanes->utilization[i], limits[i].utilization);
        for (int k = 0; k < BITE_LANE_STEP; k++) {
            lanes->in_corner[i][k] = limits[i].in_corner;
        }
    }
}

static void take_limits(const bite_block_limits_result *lanes, bite_limit limits[BITE_LIMIT_COUNT])
{
    for (bite_limit_id id = 0; id < BITE_LIMIT_COUNT; id++) {
        if (limits[id].applies) {
            bite_block_limit_of(lanes, id, 0, &limits[id]);
        }
    }
}

void bite_cut_limits_corner(const bite_judged_cut *judged, bite_scratch *scratch,
                            bite_limit limits[BITE_LIMIT_COUNT])
{
    bite_limits_room *room = room_of(judged, scratch);
    give_limits(limits, &room->limits);
    bite_block_limits_corner(&room->block, &room->segment, &room->limits);
    take_limits(&room->limits, limits);
}

void bite_cut_limits_entry(const bite_judged_cut *judged, double along, bite_scratch *scratch,
                           bite_limit limits[BITE_LIMIT_COUNT])
{
    bite_lanes feed;
    bite_limits_room *room = room_of(judged, scratch);
    set_row(feed, along);
    give_limits(limits, &room->limits);
    bite_block_limits_entry(&room->block, &room->segment, feed, &room->limits);
    take_limits(&room->limits, limits);
}
