/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a machine can tap a thread: the settings that a choice takes for its tap. */
#ifndef BITE_SEARCH_TAP_CHOICE_H
#define BITE_SEARCH_TAP_CHOICE_H

#include "core/search/thread_milling.h"

typedef struct bite_tap_choice {
    double turns;        /* 1/s; NaN: no settings were found */
    double speed_share;  /* edge speed over that of taps in the material */
    uint32_t verdict;    /* a bite_verdict */
    const char *closest; /* name of a limit, borrowed from the library */
    uint32_t serves;     /* 1: neither over nor faster than taps turn in the material */
    uint32_t reserved;
} bite_tap_choice;

/** Whether an answer of a tap is sound: neither over nor faster than taps turn in the material. */
int bite_tap_serves(const bite_result *result);

/** Chooses settings for the tap of a thread. name: of the thread. BITE_NO_MEMORY and errors of
 * bite_choice_new; settings that are not found do not serve. */
bite_status bite_tap_choose(const bite_thread_case *thread, const char *name, bite_tap_choice *tap,
                            bite_error *error);

#endif
