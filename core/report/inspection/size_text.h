/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes of a characteristic as text: all with the same unit and the same decimals. */
#ifndef BITE_REPORT_INSPECTION_SIZE_TEXT_H
#define BITE_REPORT_INSPECTION_SIZE_TEXT_H

#include "core/inspection/inspection_result.h"
#include "core/report/html.h"

/** How the sizes of a characteristic are written. */
typedef struct bite_size_form {
    const char *unit; /* "mm" or "in"; static */
    double scale;     /* m, of the unit */
    int decimals;
    bite_units units;
} bite_size_form;

/** As many decimals as the limits and the instrument's resolution have, and one more if the
 * uncertainty is finer than that; in mm 2 to 6, in inches 4 to 6. */
bite_size_form bite_size_form_of(const bite_characteristic *characteristic, double uncertainty,
                                 bite_units units);

/** A size without its unit: "37.982"; "-" for NaN. */
bite_html_string bite_size_number(const bite_size_form *form, double si);
/** The same with its unit; a sign in front if it is a difference. */
bite_html_string bite_size_text(const bite_size_form *form, double si);
bite_html_string bite_size_change(const bite_size_form *form, double si);

/** A spread or an uncertainty, of two or three significant digits, in a small unit: "3.4 um". */
bite_html_string bite_size_spread_text(const bite_size_form *form, double si);

/** The nominal size; NaN for one of 0, as forms have that have none. */
double bite_stated_nominal(const bite_characteristic *characteristic);

/** The limits: "37.950 to 38.050 mm", "at most 0.300 mm", "accepted or rejected". */
bite_html_string bite_limits_text(const bite_size_form *form,
                                  const bite_characteristic *characteristic);

/** A time of a record, "-" for NaN; a temperature with one decimal, "-" for NaN. */
bite_html_string bite_moment_text(double seconds);
bite_html_string bite_temperature_text(double kelvin, bite_units units);

/** A number with so many significant digits, "-" if it is not finite. */
bite_html_string bite_plain_number(double value, int digits);

/** A chance: "99.7 %", "over 99.9 %", "under 0.1 %". */
bite_html_string bite_chance_text(double chance);

#endif
