/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * An allocator, loaded by LD_PRELOAD, that runs out of memory at the n-th request.
 *
 * BITE_FAIL_AT   n, counted from 1; 0 or nothing: never
 * BITE_FAIL_HOW  "once": only the n-th request fails; "rest": all from the n-th on; "full": from
 * the n-th on the heap does not grow, but freed memory can be allocated again
 * BITE_FAIL_FD   descriptor to which the number of requests, of those exempted, and of the blocks
 * not freed are written at the end
 * BITE_FAIL_PLACES  file of the places that requests come from (request_places.h)
 * BITE_FAIL_NEW     descriptor to which the number of each request from a new place is written
 *
 * Only the program itself is affected, not the shells and tools around it. In "once" three requests
 * in iniparser's dictionary_new are exempted: it does not check their results, so it crashes before
 * the failure can be reported if memory is available again for the next line. The loader makes sure
 * that this memory is available, and "full", in which memory behaves as in reality, tests that.
 */
#include "tests/memory/request_places.h"
#include <dlfcn.h>
#include <errno.h>
#include <execinfo.h>
#include <link.h>
#include <malloc.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* The functions of the C library, by the names that it gives to such a layer above it. */
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *memory, size_t size);
void *__libc_memalign(size_t alignment, size_t size);
void __libc_free(void *memory);

enum { ONCE, REST, FULL };

static bool active;
static bool tracing;
static int new_places = -1; /* descriptor; below 0: places are not looked at */
static int how;
static long fail_at;
static uintptr_t unchecked_from; /* the code of dictionary_new */
static uintptr_t unchecked_to;
static atomic_long requests;
static atomic_long let_pass;
static atomic_long live_blocks;
static atomic_long live_bytes; /* bytes */
static atomic_long most; /* most bytes allocated at one time, until the heap stopped growing */

static long number_of(const char *name)
{
    const char *text = getenv(name);
    return text == NULL ? 0 : strtol(text, NULL, 10);
}

static void find_unchecked(void)
{
    void *code = dlsym(RTLD_DEFAULT, "dictionary_new");
    Dl_info about;
    const ElfW(Sym) *symbol = NULL;
    if (code != NULL && dladdr1(code, &about, (void **)&symbol, RTLD_DL_SYMENT) != 0 &&
        symbol != NULL) {
        unchecked_from = (uintptr_t)code;
        unchecked_to = unchecked_from + symbol->st_size;
    }
}

__attribute__((constructor)) static void begin(void)
{
    const char *mode = getenv("BITE_FAIL_HOW");
    if (strstr(program_invocation_short_name, "coolbite") == NULL ||
        getenv("BITE_FAIL_AT") == NULL) {
        return;
    }
    how = mode == NULL || strcmp(mode, "once") == 0 ? ONCE
          : strcmp(mode, "rest") == 0               ? REST
                                                    : FULL;
    fail_at = number_of("BITE_FAIL_AT");
    tracing = getenv("BITE_FAIL_TRACE") != NULL;
    /* the first call allocates, and loads what some plugin would load: in every run, so that all
     * have the same requests */
    void *frames[2];
    (void)backtrace(frames, 2);
    if (getenv("BITE_FAIL_PLACES") != NULL && places_begin(getenv("BITE_FAIL_PLACES"))) {
        new_places = (int)number_of("BITE_FAIL_NEW");
    }
    find_unchecked();
    active = true;
}

__attribute__((destructor)) static void end(void)
{
    char text[80];
    int file = (int)number_of("BITE_FAIL_FD");
    if (active && file > 2) {
        int length = snprintf(text, sizeof text, "%ld %ld %ld\n", requests, let_pass, live_blocks);
        ssize_t written = write(file, text, (size_t)length);
        (void)written;
    }
    active = false;
}

static bool grows(size_t size)
{
    return atomic_load(&live_bytes) + (long)size > atomic_load(&most);
}

static void tell_if_new(long at)
{
    if (new_places >= 0 && place_is_new()) {
        char text[24];
        int length = snprintf(text, sizeof text, "%ld\n", at);
        ssize_t written = write(new_places, text, (size_t)length);
        (void)written;
    }
}

/* Whether this request fails. many: it allocates an array, as the three in dictionary_new do. */
static bool fails(size_t size, bool many, const void *caller)
{
    if (!active) {
        return false;
    }
    if (many && how == ONCE && (uintptr_t)caller >= unchecked_from &&
        (uintptr_t)caller < unchecked_to) {
        atomic_fetch_add(&let_pass, 1);
        return false;
    }
    long at = atomic_fetch_add(&requests, 1) + 1;
    tell_if_new(at);
    if (fail_at == 0 || at < fail_at || (how == ONCE && at > fail_at) ||
        (how == FULL && !grows(size))) {
        return false;
    }
    if (tracing && at == fail_at) {
        void *frames[40];
        backtrace_symbols_fd(frames, backtrace(frames, 40), STDERR_FILENO);
    }
    errno = ENOMEM;
    return true;
}

static void *keep(void *memory)
{
    if (memory != NULL && active) {
        long now = atomic_fetch_add(&live_bytes, (long)malloc_usable_size(memory)) +
                   (long)malloc_usable_size(memory);
        atomic_fetch_add(&live_blocks, 1);
        if (now > atomic_load(&most)) {
            atomic_store(&most, now);
        }
    }
    return memory;
}

static void drop(void *memory)
{
    if (memory != NULL && active) {
        atomic_fetch_sub(&live_bytes, (long)malloc_usable_size(memory));
        atomic_fetch_sub(&live_blocks, 1);
    }
}

__attribute__((visibility("default"))) void *malloc(size_t size)
{
    return fails(size, false, __builtin_return_address(0)) ? NULL : keep(__libc_malloc(size));
}

__attribute__((visibility("default"))) void *calloc(size_t count, size_t size)
{
    return fails(count * size, count > 1, __builtin_return_address(0))
               ? NULL
               : keep(__libc_calloc(count, size));
}

__attribute__((visibility("default"))) void *realloc(void *memory, size_t size)
{
    if (fails(size, false, __builtin_return_address(0))) {
        return NULL;
    }
    drop(memory);
    return keep(__libc_realloc(memory, size));
}

__attribute__((visibility("default"))) void *aligned_alloc(size_t alignment, size_t size)
{
    return fails(size, false, __builtin_return_address(0)) ? NULL
                                                           : keep(__libc_memalign(alignment, size));
}

__attribute__((visibility("default"))) int posix_memalign(void **memory, size_t alignment,
                                                          size_t size)
{
    void *fresh = fails(size, false, __builtin_return_address(0))
                      ? NULL
                      : keep(__libc_memalign(alignment, size));
    if (fresh == NULL) {
        return ENOMEM;
    }
    *memory = fresh;
    return 0;
}

__attribute__((visibility("default"))) void free(void *memory)
{
    drop(memory);
    __libc_free(memory);
}
