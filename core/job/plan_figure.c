/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures of table records, with a fallback. */
#include "core/job/plan_figure.h"
#include "core/library/collection.h"
#include <math.h>

double bite_plan_figure(const bite_item_record *record, const char *key, double otherwise)
{
    const bite_field_value *field_value = record == NULL ? NULL : bite_item_field(record, key);
    return field_value == NULL || isnan(field_value->value) ? otherwise : field_value->value;
}
