/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Allocation through the caller's allocator, and arenas that are freed at once. */
#ifndef BITE_BASE_MEMORY_H
#define BITE_BASE_MEMORY_H

#include <coolbite/coolbite.h>
#include <stdbool.h>

/** The allocator of the C library. Borrowed, for ever. */
const bite_allocator *bite_memory_default(void);

/** Zeroed memory for `count` elements of `size` bytes, at least one byte. Owned, bite_memory_free
 * with the same allocator. NULL: no memory, or the product overflows. */
void *bite_memory_new(const bite_allocator *allocator, size_t count, size_t size);
/** Resizes memory (NULL: allocates) to `count` elements; the new part is not zeroed. NULL: no
 * memory, and the old memory is unchanged. */
void *bite_memory_grow(const bite_allocator *allocator, void *memory, size_t count, size_t size);
void bite_memory_free(const bite_allocator *allocator, void *memory); /* NULL is allowed */

/** Many small allocations that are freed together. For one thread at a time. */
typedef struct bite_arena bite_arena;

/** allocator: copied. NULL: no memory. Owned, bite_arena_free. */
bite_arena *bite_arena_new(const bite_allocator *allocator);
void bite_arena_free(bite_arena *arena); /* NULL is allowed */
/** Zeroed memory for `count` elements of `size` bytes, aligned for any type. NULL: no memory. */
void *bite_arena_alloc(bite_arena *arena, size_t count, size_t size);
/** A copy of text[0..length), ended by 0. NULL: no memory. */
char *bite_arena_text(bite_arena *arena, const char *text, size_t length);
/** Whether it has ever found no memory: what was made in it may lack something, and is not to be
 * returned. */
bool bite_arena_failed(const bite_arena *arena);

#endif
