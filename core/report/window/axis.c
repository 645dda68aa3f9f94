/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The axes of a window: their titles, numbers and tick marks. */
#include "core/report/window/axis.h"
#include "core/units/format_quantity.h"
#include <math.h>
#include <stdio.h>

/* The whole axis has the unit that suits its middle. */
static const char *unit_of(const bite_page *page, const bite_axis *axis, double *scale)
{
    double middle = bite_axis_at(axis, 0.5);
    double number = 0.0;
    const char *unit = bite_unit_shop(middle, (bite_kind)axis->input->kind, page->units, &number);
    *scale = number / middle;
    return unit;
}

double bite_window_axis_number(const bite_page *page, const bite_axis *axis, double si)
{
    double scale = 1.0;
    if (axis->input->kind == BITE_KIND_TEMPERATURE) { /* its scales differ in zero */
        double number = 0.0;
        (void)bite_unit_shop(si, BITE_KIND_TEMPERATURE, page->units, &number);
        return number;
    }
    (void)unit_of(page, axis, &scale);
    return si * scale;
}

void bite_window_axis_text(const bite_page *page, const bite_axis *axis, char *to, size_t size)
{
    char name[48];
    double scale = 1.0;
    const char *unit = unit_of(page, axis, &scale);
    bite_page_plain(axis->input->name, name, sizeof name);
    (void)snprintf(to, size, unit[0] == 0 ? "%s" : "%s, %s", name, unit);
}

size_t bite_window_marks(const bite_page *page, const bite_axis *axis, double *marks, size_t most)
{
    static const double steps[] = {1.0, 2.0, 5.0, 10.0};
    double low = bite_window_axis_number(page, axis, axis->least);
    double high = bite_window_axis_number(page, axis, axis->most);
    size_t count = 0;
    if (axis->logarithmic) {
        for (double decade = pow(10.0, floor(log10(low))); decade <= high; decade *= 10.0) {
            for (int i = 0; i < 3; i++) {
                double mark = decade * steps[i];
                if (mark >= low * 0.999 && mark <= high * 1.001 && count < most) {
                    marks[count++] = axis->least * mark / low;
                }
            }
        }
        return count;
    }
    double decade = pow(10.0, floor(log10((high - low) / 4.0)));
    double step = decade;
    for (int i = 0; i < 4 && (high - low) / step > 6.0; i++) {
        step = decade * steps[i];
    }
    step = axis->input->whole && step < 1.0 ? 1.0 : step;
    for (double mark = step * ceil(low / step); mark <= high * (1.0 + 1e-9) && count < most;
         mark += step) {
        marks[count++] = axis->least + (mark - low) / (high - low) * (axis->most - axis->least);
    }
    return count;
}
