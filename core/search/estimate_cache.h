/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Settings at the best estimates, kept: a search that begins again meets the same grids. */
#ifndef BITE_SEARCH_ESTIMATE_CACHE_H
#define BITE_SEARCH_ESTIMATE_CACHE_H

#include "core/uncertainty/draw_set.h"

typedef struct bite_estimate_cache bite_estimate_cache;

/** set: borrowed. Owned, bite_estimate_cache_free. NULL: no memory. */
bite_estimate_cache *bite_estimate_cache_new(const bite_allocator *allocator, bite_draw_set *set);
void bite_estimate_cache_free(bite_estimate_cache *cache);

/** The estimates of settings; those that are not kept are evaluated, and replace others. */
void bite_estimate_cache_get(bite_estimate_cache *cache, const bite_setting *settings, size_t count,
                             bite_estimate *estimates);

#endif
