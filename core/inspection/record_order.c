/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is to be measured next. */
#include "core/inspection/record_order.h"
#include <math.h>
#include <string.h>

int bite_record_is_due(const struct bite_record *record, const bite_characteristic *characteristic,
                       uint32_t part)
{
    return part == 1 || (part - 1) % characteristic->every == 0 || part == record->count;
}

static uint32_t done_by_anybody(const struct bite_record *record, size_t characteristic,
                                uint32_t part)
{
    return part > record->parts
               ? 0
               : record->done[(part - 1) * record->characteristic_count + characteristic];
}

/* Readings and skips of one person. */
static uint32_t done_by(const struct bite_record *record, size_t characteristic, uint32_t part,
                        const char *person)
{
    uint32_t count = 0;
    for (size_t i = 0; i < record->reading_count; i++) {
        const bite_reading *one = &record->readings[i];
        if (one->characteristic == characteristic && one->part == part &&
            strcmp(one->person, person) == 0) {
            count += one->state == BITE_READING_STANDS;
            count = one->state == BITE_READING_SKIPPED ? UINT32_MAX / 2 : count;
        }
    }
    return count;
}

int bite_record_next(const bite_record *record, const char *person, uint32_t trials, uint32_t from,
                     size_t *characteristic, uint32_t *part)
{
    if (record == NULL || characteristic == NULL || part == NULL) {
        return 0;
    }
    uint32_t last = isnan(record->count) ? BITE_PARTS_MAX : (uint32_t)record->count;
    for (uint32_t at = from == 0 ? 1 : from; at <= last; at++) {
        for (size_t i = 0; i < record->characteristic_count; i++) {
            if (!bite_record_is_due(record, &record->characteristics[i], at)) {
                continue;
            }
            uint32_t done = trials == 0 ? done_by_anybody(record, i, at)
                                        : done_by(record, i, at, person == NULL ? "" : person);
            if (done < (trials == 0 ? 1 : trials)) {
                *characteristic = i;
                *part = at;
                return 1;
            }
        }
    }
    return 0;
}
