/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Memory from the caller: an allocator with a ceiling, which counts what the library holds.
 * SECURITY.md names the memory that does not come from it. */
#include <coolbite/coolbite.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Before each block its size, in a space that keeps the block aligned. */
typedef union block {
    size_t size;
    long double aligned;
} block;

typedef struct budget {
    size_t most; /* bytes that may be held at a time */
    size_t held;
    size_t peak;
    size_t refused; /* requests for more */
} budget;

static void *take(void *user, size_t size)
{
    budget *own = user;
    if (size > own->most - own->held) {
        own->refused++;
        return NULL;
    }
    block *start = malloc(sizeof *start + size);
    if (start == NULL) {
        return NULL;
    }
    start->size = size;
    own->held += size;
    own->peak = own->held > own->peak ? own->held : own->peak;
    return start + 1;
}

static void give_back(void *user, void *memory)
{
    budget *own = user;
    if (memory != NULL) {
        block *start = (block *)memory - 1;
        own->held -= start->size;
        free(start);
    }
}

static void *resize(void *user, void *memory, size_t size)
{
    void *moved = take(user, size);
    if (moved != NULL && memory != NULL) {
        size_t old = ((block *)memory - 1)->size;
        memcpy(moved, memory, old < size ? old : size);
        give_back(user, memory);
    }
    return moved;
}

/* Judges one cut with at most that much memory. */
static bite_status judge(budget *own, bite_error *error)
{
    const bite_allocator allocator = {take, resize, give_back, own};
    bite_library_options options;
    bite_library_options_init(&options);
    options.allocator = &allocator;
    bite_library *library = NULL;
    bite_request *request = NULL;
    bite_answer *answer = NULL;
    bite_status status = bite_library_open(&options, &library, error);
    status = status ? status : bite_request_new(library, &request, error);
    status = status ? status : bite_request_use(request, BITE_GRADES, "acrylic/cast", error);
    status = status ? status : bite_request_use(request, BITE_TOOLS, "1mm", error);
    status = status ? status : bite_request_set(request, "spindle_speed", "12000rpm", error);
    status = status ? status : bite_request_set(request, "feed_rate", "200mm/min", error);
    status = status ? status : bite_request_set(request, "depth", "0.2mm", error);
    status = status ? status : bite_answer_new(request, 0, 0.9, &answer, error);
    bite_answer_free(answer);
    bite_request_free(request);
    bite_library_close(library);
    return status;
}

int main(void)
{
    bite_error error = BITE_ERROR_INIT;
    budget enough = {64u << 20, 0, 0, 0};
    bite_status status = judge(&enough, &error);
    printf("with enough memory: %s, %zu KiB at the peak, %zu bytes left behind\n",
           bite_status_name(status), enough.peak >> 10, enough.held);

    budget little = {enough.peak / 2, 0, 0, 0};
    bite_status refused = judge(&little, &error);
    printf("with half of that: %s, %zu bytes left behind\n", bite_status_name(refused),
           little.held);
    return status != BITE_OK || refused != BITE_NO_MEMORY || enough.held + little.held != 0;
}
