/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Allocation through the caller's allocator, and arenas that are freed at once. */
#ifndef BITE_BASE_MEMORY_H
#define BITE_BASE_MEMORY_H

#include <coolbite/coolbite.h>

/** The C library's allocator. Borrowed, for ever. */
const bite_allocator *bite_memory_default(void);

/** Zeroed memory for count things of size bytes; NULL when there is none or the product overflows;
 * count 0 gives one byte. */
void *bite_memory_new(const bite_allocator *allocator, size_t count, size_t size);
/** Grows to count things; the new part is not zeroed. NULL: the old memory is as it was. */
void *bite_memory_grow(const bite_allocator *allocator, void *memory, size_t count, size_t size);
void bite_memory_free(const bite_allocator *allocator, void *memory); /* NULL is fine */

/** Many small things that live and die together. Not for several threads at once. */
typedef struct bite_arena bite_arena;

bite_arena *bite_arena_new(const bite_allocator *allocator); /* NULL: no memory */
void bite_arena_free(bite_arena *arena);                     /* NULL is fine */
void *bite_arena_alloc(bite_arena *arena, size_t count,
                       size_t size); /* zeroed, aligned for any type; NULL: no memory */
char *bite_arena_text(bite_arena *arena, const char *text,
                      size_t length); /* copied, ended by 0; NULL: no memory */
const bite_allocator *bite_arena_allocator(const bite_arena *arena);

#endif
