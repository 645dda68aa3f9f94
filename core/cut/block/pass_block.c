/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The evaluation of a block of cuts: straight, corner, entry move, limits. */
#include "core/cut/block/pass_block.h"
#include "core/base/memory.h"
#include "core/cut/block/entry_block.h"
#include "core/cut/block/motion_block.h"
#include "core/cut/block/spring_block.h"
#include "core/cut/block/tool_block.h"
#include "core/cut/limits.h"
#include "core/cut/physics_inputs.h"
#include <stdint.h>
#include <string.h>

void bite_block_space_init(bite_block_space *space)
{
    space->work.chip.hinges.flutes = 0;
}

/* The pointer to free lies before the first space. */
bite_block_space *bite_block_spaces_new(const bite_allocator *allocator, size_t count)
{
    const uintptr_t most = _Alignof(bite_block_space) - 1;
    size_t size = sizeof(void *) + most + count * sizeof(bite_block_space);
    char *whole = bite_memory_grow(allocator, NULL, size, 1);
    if (whole == NULL) {
        return NULL;
    }
    char *start = whole + sizeof(void *);
    start += (most + 1 - ((uintptr_t)start & most)) & most;
    memcpy(start - sizeof(void *), &whole, sizeof whole);
    bite_block_space *spaces = (void *)start;
    for (size_t i = 0; i < count; i++) {
        bite_block_space_init(&spaces[i]);
    }
    return spaces;
}

void bite_block_spaces_free(const bite_allocator *allocator, bite_block_space *spaces)
{
    if (spaces != NULL) {
        void *whole;
        memcpy(&whole, (char *)spaces - sizeof whole, sizeof whole);
        bite_memory_free(allocator, whole);
    }
}

static void fill_row(double *row, double value, size_t lanes)
{
    for (size_t k = 0; k < lanes; k++) {
        row[k] = value;
    }
}

void bite_block_fill(bite_block *block, size_t offset, double value)
{
    fill_row(bite_block_row(block, offset), value, BITE_LANES);
}

/* lanes: that are filled, a multiple of BITE_LANE_STEP. */
static void start_lanes(bite_block_space *space, const bite_checked_cut *checked, size_t lanes)
{
    bite_block *block = &space->block;
    double numbers[BITE_BLOCK_ROWS];
    memcpy(numbers, (const char *)&checked->full + BITE_BLOCK_FIRST * sizeof(double),
           sizeof numbers);
    block->cut = &checked->full;
    block->flutes = (int)checked->full.flutes;
    for (size_t i = 0; i < BITE_BLOCK_ROWS; i++) {
        fill_row(block->number[i], numbers[i], lanes);
    }
    fill_row(block->tolerance, checked->requested.tolerance, lanes);
    fill_row(block->finish, checked->requested.finish, lanes);
    space->work.tool_alike = 1;
    space->varied_count = 0;
}

void bite_block_start(bite_block_space *space, const bite_checked_cut *checked,
                      const size_t *varied, size_t varied_count)
{
    start_lanes(space, checked, BITE_LANES);
    for (size_t i = 0; i < varied_count; i++) {
        space->varied[i] = varied[i] / sizeof(double) - BITE_BLOCK_FIRST;
        space->work.tool_alike &= !bite_block_tool_reads(varied[i]);
    }
    space->varied_count = varied_count;
}

void bite_block_start_one(bite_block_space *space, const bite_checked_cut *checked)
{
    start_lanes(space, checked, BITE_LANE_STEP);
}

void bite_block_vary_all(bite_block_space *space)
{
    for (size_t i = 0; i < BITE_BLOCK_ROWS; i++) {
        space->varied[i] = i;
    }
    space->varied_count = BITE_BLOCK_ROWS;
    space->work.tool_alike = 0;
}

void bite_block_vary_row(bite_block_space *space, size_t row)
{
    for (size_t i = 0; i < space->varied_count; i++) {
        if (space->varied[i] == row) {
            return;
        }
    }
    space->varied[space->varied_count++] = row;
    space->work.tool_alike &= !bite_block_tool_reads((row + BITE_BLOCK_FIRST) * sizeof(double));
}

static void repeat_last(double *row, size_t count, size_t lanes)
{
    for (size_t k = count; k < lanes; k++) {
        row[k] = row[count - 1];
    }
}

/* Lanes behind the last cut repeat it. */
static void set_lanes(bite_block_space *space, size_t count)
{
    bite_block *block = &space->block;
    size_t lanes = (count + BITE_LANE_STEP - 1) & ~(size_t)(BITE_LANE_STEP - 1);
    block->count = (int)count;
    block->lanes = (int)lanes;
    for (size_t i = 0; count < lanes && i < space->varied_count; i++) {
        repeat_last(block->number[space->varied[i]], count, lanes);
    }
    repeat_last(block->tolerance, count, lanes);
    repeat_last(block->finish, count, lanes);
}

/* Radius of the finished corner where most is cut: of a chamfer at its upper end. A slot of the
 * tool's width has no corner of its own. Returns 0 if no cut of the block has one. */
static int find_corner(const bite_block *block, const double *diameter, const double *width,
                       double *inside_radius)
{
    double chamfers = block->cut->operation == BITE_CHAMFER ? 1.0 : 0.0;
    int any = 0;
    if (isnan(block->cut->inside_radius) || bite_cut_is_axial(block->cut)) {
        return 0;
    }
    for (int k = 0; k < block->lanes; k++) {
        any |= width[k] < diameter[k];
        inside_radius[k] = BITE_ROW(block, inside_radius)[k] + chamfers * width[k];
    }
    return any;
}

void bite_block_evaluate(bite_block_space *space, size_t count, const uint8_t *wanted)
{
    bite_block *block = &space->block;
    bite_segment_work *work = &space->work;
    bite_lanes width;
    bite_lanes inside_radius;
    set_lanes(space, count);
    bite_block_size(block, &space->straight, width);
    space->pressure = bite_block_segment_compute(block, width, NULL, NULL, work, &space->straight);
    bite_block_springs(block, width, NULL, work, &space->lap, &space->straight);
    bite_block_limits(block, &space->straight, wanted, &space->limits);
    memcpy(space->other.diameter, space->straight.diameter, sizeof space->other.diameter);
    if (find_corner(block, space->straight.diameter, width, inside_radius)) {
        (void)bite_block_segment_compute(block, width, inside_radius, &space->straight, work,
                                         &space->other);
        bite_block_springs(block, width, inside_radius, work, &space->lap, &space->other);
        bite_block_limits_corner(block, &space->other, &space->limits);
    }
    if (block->cut->entry != BITE_ENTRY_OUTSIDE && block->cut->operation == BITE_MILL) {
        bite_entry_rows before;
        bite_block_entry(block, work, &before, &space->other);
        bite_block_limits_entry(block, &space->other, before.along, &space->limits);
        bite_block_entry_end(&before, block);
    }
}
