/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings at the best estimates, kept. */
#include "core/search/estimate_cache.h"
#include <math.h>
#include <string.h>

/* One place for each hash; a setting takes the place of another with the same one. */
enum { PLACES = 8192, BATCH = BITE_LANES };

struct bite_estimate_cache {
    bite_allocator allocator;
    bite_draw_set *set;
    bite_estimate *estimates;
    bite_setting settings[PLACES]; /* spindle 0: none */
};

bite_estimate_cache *bite_estimate_cache_new(const bite_allocator *allocator, bite_draw_set *set)
{
    bite_estimate_cache *cache = bite_memory_new(allocator, 1, sizeof *cache);
    bite_estimate *estimates = bite_memory_grow(allocator, NULL, PLACES, sizeof *estimates);
    if (cache == NULL || estimates == NULL) {
        bite_memory_free(allocator, cache);
        bite_memory_free(allocator, estimates);
        return NULL;
    }
    cache->allocator = *allocator;
    cache->set = set;
    cache->estimates = estimates;
    return cache;
}

void bite_estimate_cache_free(bite_estimate_cache *cache)
{
    if (cache != NULL) {
        bite_allocator allocator = cache->allocator;
        bite_memory_free(&allocator, cache->estimates);
        bite_memory_free(&allocator, cache);
    }
}

/* A width that is NaN is that of the cut in every setting. */
static size_t place_of(const bite_setting *setting)
{
    const double numbers[] = {setting->spindle, setting->feed, setting->depth,
                              isnan(setting->width) ? 0.0 : setting->width};
    uint64_t hash = 0;
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        uint64_t bits = 0;
        memcpy(&bits, &numbers[i], sizeof bits);
        hash = (hash ^ bits) * UINT64_C(0x9E3779B97F4A7C15);
        hash ^= hash >> 29;
    }
    return (size_t)(hash % PLACES);
}

static int is_same(const bite_setting *a, const bite_setting *b)
{
    return memcmp(a, b, sizeof *a) == 0;
}

static void get_batch(bite_estimate_cache *cache, const bite_setting *settings, size_t count,
                      bite_estimate *estimates)
{
    bite_setting missing[BATCH];
    bite_estimate fresh[BATCH];
    size_t at[BATCH];
    size_t misses = 0;
    for (size_t i = 0; i < count; i++) {
        size_t place = place_of(&settings[i]);
        if (is_same(&cache->settings[place], &settings[i])) {
            estimates[i] = cache->estimates[place];
        } else {
            at[misses] = i;
            missing[misses++] = settings[i];
        }
    }
    if (misses > 0) {
        bite_draw_set_estimate(cache->set, missing, misses, fresh);
    }
    for (size_t i = 0; i < misses; i++) {
        size_t place = place_of(&missing[i]);
        cache->settings[place] = missing[i];
        cache->estimates[place] = estimates[at[i]] = fresh[i];
    }
}

void bite_estimate_cache_get(bite_estimate_cache *cache, const bite_setting *settings, size_t count,
                             bite_estimate *estimates)
{
    for (size_t from = 0; from < count; from += BATCH) {
        get_batch(cache, settings + from, count - from < BATCH ? count - from : BATCH,
                  estimates + from);
    }
}
