/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places as hashes of the offsets of return addresses in their files: the same in each run and for
 * each command, wherever the loader puts the files. */
#include "tests/memory/request_places.h"
#include <dlfcn.h>
#include <execinfo.h>
#include <fcntl.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>
#include <unistd.h>

/* An error of memory is passed on by one caller after the other: so many of them tell one place
 * from another. More where no function is put in place of its call. */
#ifndef BITE_PLACE_CALLERS
#define BITE_PLACE_CALLERS 7
#endif
/* The frames of the allocator itself: place_is_new, what calls it, and malloc. */
#define OWN 3
#define PLACES_MOST 65536 /* a power of two */

static uint64_t known[PLACES_MOST];
static size_t count;
static int file = -1;
static atomic_flag busy = ATOMIC_FLAG_INIT;

/* FNV-1a, 64 bits */
static uint64_t mixed(uint64_t hash, const void *bytes, size_t size)
{
    for (size_t i = 0; i < size; i++) {
        hash = (hash ^ ((const unsigned char *)bytes)[i]) * UINT64_C(0x100000001b3);
    }
    return hash;
}

static uint64_t place_here(void)
{
    void *frames[OWN + BITE_PLACE_CALLERS];
    int all = backtrace(frames, OWN + BITE_PLACE_CALLERS);
    uint64_t hash = UINT64_C(0xcbf29ce484222325);
    for (int i = OWN; i < all; i++) {
        Dl_info about = {0};
        uintptr_t at = (uintptr_t)frames[i];
        if (dladdr(frames[i], &about) != 0) {
            at -= (uintptr_t)about.dli_fbase;
        }
        hash = mixed(hash, &at, sizeof at);
    }
    return hash == 0 ? 1 : hash; /* 0 marks an entry that is free */
}

static bool add(uint64_t place)
{
    size_t at = (size_t)place & (PLACES_MOST - 1);
    while (known[at] != 0 && known[at] != place) {
        at = (at + 1) & (PLACES_MOST - 1);
    }
    if (known[at] == place || count + 1 >= PLACES_MOST) {
        return false;
    }
    known[at] = place;
    count++;
    return true;
}

bool places_begin(const char *path)
{
    uint64_t place = 0;
    file = open(path, O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    while (file >= 0 && read(file, &place, sizeof place) == (ssize_t)sizeof place) {
        (void)add(place);
    }
    return file >= 0;
}

bool place_is_new(void)
{
    uint64_t place = place_here();
    while (atomic_flag_test_and_set(&busy)) {
    }
    bool fresh = add(place);
    if (fresh) {
        fresh = write(file, &place, sizeof place) == (ssize_t)sizeof place;
    }
    atomic_flag_clear(&busy);
    return fresh;
}
