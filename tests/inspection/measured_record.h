/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Records in memory for tests, made reading by reading. */
#ifndef BITE_TESTS_INSPECTION_MEASURED_RECORD_H
#define BITE_TESTS_INSPECTION_MEASURED_RECORD_H

#include "core/inspection/record_model.h"

#define MEASURED_CHARACTERISTICS 20
#define MEASURED_READINGS 4000

typedef struct measured_record {
    struct bite_record record;
    bite_characteristic characteristics[MEASURED_CHARACTERISTICS];
    bite_reading readings[MEASURED_READINGS];
    char texts[MEASURED_READINGS][24];
} measured_record;

/** A record without characteristics, of which nothing is stated. Owned: free. */
measured_record *measured_record_new(void);

/** A characteristic, lengths in mm; NaN: not stated. */
bite_characteristic *measured_characteristic(measured_record *to, const char *what,
                                             bite_measured measures, double nominal, double lower,
                                             double upper, double uncertainty);

/** A reading that stands, in mm, of the characteristic added last; no temperature, no time. */
bite_reading *measured_reading(measured_record *to, uint32_t part, double value);

/** A record with everything that a report shows: six cover lenses with readings that are invented,
 * as its note says. */
measured_record *measured_example(bite_units units);

#endif
