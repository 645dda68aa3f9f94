/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do for a thread in a material: tapped, and milled. */
#ifndef BITE_SEARCH_THREAD_ANSWER_H
#define BITE_SEARCH_THREAD_ANSWER_H

#include "core/base/memory.h"
#include "core/request/thread_advice.h"
#include "core/search/thread_milling.h"

struct bite_thread_answer {
    bite_allocator allocator;
    bite_thread_advice advice;
    bite_thread_milling milling;     /* passes 0: no settings were found */
    const bite_item_record *machine; /* NULL: the usual one */
    double slowest;                  /* 1/s, of its spindle; NaN: not known */
    uint32_t left_hand;
    uint32_t too_fast; /* 1: that is faster than the tap may turn */
};

#endif
