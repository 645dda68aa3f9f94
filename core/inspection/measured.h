/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a characteristic is a measure of. */
#ifndef BITE_INSPECTION_MEASURED_H
#define BITE_INSPECTION_MEASURED_H

#include <stdint.h>

/** What a check measures: the words of its key `measures`. */
typedef enum bite_measured {
    BITE_MEASURED_THICKNESS,
    BITE_MEASURED_OUTSIDE,
    BITE_MEASURED_INSIDE,
    BITE_MEASURED_DEPTH,
    BITE_MEASURED_HEIGHT,
    BITE_MEASURED_FLATNESS,
    BITE_MEASURED_GAP,
    BITE_MEASURED_THREAD,
    BITE_MEASURED_APPEARANCE,
    BITE_MEASURED_STRESS,
    BITE_MEASURED_COUNT /* not stated */
} bite_measured;

/** The words of a bite_measured, ended by NULL. */
extern const char *const bite_measured_words[];

/** The word of a bite_measured; "" if it is not stated. */
const char *bite_measures_word(uint32_t measures);

#endif
