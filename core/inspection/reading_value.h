/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The value of a reading: as it is typed, and at 20 degC. */
#ifndef BITE_INSPECTION_READING_VALUE_H
#define BITE_INSPECTION_READING_VALUE_H

#include "core/inspection/record_model.h"

/** The words of a reading that is judged. */
#define BITE_READING_ACCEPT "accept"
#define BITE_READING_REJECT "reject"

/** Reads a value with its unit, or, of a characteristic that is judged, a word. Errors as
 * bite_quantity_read. */
bite_status bite_reading_value_read(const bite_characteristic *characteristic, const char *text,
                                    double *value, bite_error *error);

/** Reads a value as it is typed (NULL: nothing): blanks around it do not count, a number without a
 * unit is one of `units`, and a judgement may be abbreviated. Writes it to `to`, of 64 bytes, as it
 * is recorded. Errors as bite_quantity_read. */
bite_status bite_reading_value_type(const bite_characteristic *characteristic, uint32_t units,
                                    const char *typed, char *to, double *value, bite_error *error);

/** Whether a part is measured at this temperature (K; NaN: not noted). BITE_OUT_OF_RANGE. */
bite_status bite_reading_temperature_check(double temperature, bite_error *error);

/** The standard uncertainty of a temperature that was noted, K: that of the head, or the usual one.
 */
double bite_reading_temperature_uncertainty(const struct bite_record *record);

/** Fills value_20, uncertainty_20 and corrected from value and temperature. Without a temperature,
 * or an expansion of the part, the value stays as it was read. */
void bite_reading_correct(const struct bite_record *record,
                          const bite_characteristic *characteristic, bite_reading *reading);

#endif
