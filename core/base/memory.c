/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Allocation through the caller's allocator, and arenas. */
#include "core/base/memory.h"
#include <stdalign.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* Bytes of an ordinary block of an arena. Tests of memory that runs out define 1: each piece then
 * is a request of its own. */
#ifndef BITE_ARENA_BLOCK
#define BITE_ARENA_BLOCK 16384
#endif

static void *default_allocate(void *user, size_t size)
{
    (void)user;
    return malloc(size);
}

static void *default_resize(void *user, void *memory, size_t size)
{
    (void)user;
    return realloc(memory, size);
}

static void default_release(void *user, void *memory)
{
    (void)user;
    free(memory);
}

const bite_allocator *bite_memory_default(void)
{
    static const bite_allocator allocator = {default_allocate, default_resize, default_release,
                                             NULL};
    return &allocator;
}

/* The bytes of an allocation, at least 1; false: the product overflows. */
static bool total_size(size_t count, size_t size, size_t *bytes)
{
    if (size != 0 && count > SIZE_MAX / size) {
        return false;
    }
    *bytes = count * size == 0 ? 1 : count * size;
    return true;
}

void *bite_memory_new(const bite_allocator *allocator, size_t count, size_t size)
{
    size_t bytes;
    if (!total_size(count, size, &bytes)) {
        return NULL;
    }
    void *memory = allocator->allocate(allocator->user, bytes);
    if (memory != NULL) {
        memset(memory, 0, bytes);
    }
    return memory;
}

void *bite_memory_grow(const bite_allocator *allocator, void *memory, size_t count, size_t size)
{
    size_t bytes;
    if (!total_size(count, size, &bytes)) {
        return NULL;
    }
    return memory == NULL ? allocator->allocate(allocator->user, bytes)
                          : allocator->resize(allocator->user, memory, bytes);
}

void bite_memory_free(const bite_allocator *allocator, void *memory)
{
    if (memory != NULL) {
        allocator->release(allocator->user, memory);
    }
}

typedef struct block {
    struct block *next;
    size_t used;
    size_t capacity;
    max_align_t data[];
} block;

struct bite_arena {
    bite_allocator allocator;
    block *blocks;
    bool failed;
};

bite_arena *bite_arena_new(const bite_allocator *allocator)
{
    bite_arena *arena = bite_memory_new(allocator, 1, sizeof *arena);
    if (arena != NULL) {
        arena->allocator = *allocator;
    }
    return arena;
}

void bite_arena_free(bite_arena *arena)
{
    if (arena == NULL) {
        return;
    }
    bite_allocator allocator = arena->allocator;
    for (block *next, *at = arena->blocks; at != NULL; at = next) {
        next = at->next;
        bite_memory_free(&allocator, at);
    }
    bite_memory_free(&allocator, arena);
}

static block *add_block(bite_arena *arena, size_t bytes)
{
    size_t capacity = bytes > BITE_ARENA_BLOCK ? bytes : BITE_ARENA_BLOCK;
    if (capacity > SIZE_MAX - sizeof(block)) {
        return NULL;
    }
    block *added = bite_memory_new(&arena->allocator, 1, sizeof(block) + capacity);
    if (added == NULL) {
        return NULL;
    }
    added->capacity = capacity;
    if (bytes > BITE_ARENA_BLOCK && arena->blocks != NULL) { /* the block in use stays the first */
        added->next = arena->blocks->next;
        arena->blocks->next = added;
    } else {
        added->next = arena->blocks;
        arena->blocks = added;
    }
    return added;
}

bool bite_arena_failed(const bite_arena *arena)
{
    return arena->failed;
}

static void *fail(bite_arena *arena)
{
    arena->failed = true;
    return NULL;
}

void *bite_arena_alloc(bite_arena *arena, size_t count, size_t size)
{
    size_t bytes;
    if (!total_size(count, size, &bytes) || bytes > SIZE_MAX - alignof(max_align_t)) {
        return fail(arena);
    }
    bytes = (bytes + alignof(max_align_t) - 1) / alignof(max_align_t) * alignof(max_align_t);
    block *from = arena->blocks;
    if (from == NULL || from->capacity - from->used < bytes) {
        from = add_block(arena, bytes);
        if (from == NULL) {
            return fail(arena);
        }
    }
    void *memory = (char *)from->data + from->used;
    from->used += bytes;
    return memory;
}

char *bite_arena_text(bite_arena *arena, const char *text, size_t length)
{
    char *copy = length == SIZE_MAX ? fail(arena) : bite_arena_alloc(arena, length + 1, 1);
    if (copy != NULL) {
        memcpy(copy, text, length);
        copy[length] = 0;
    }
    return copy;
}
