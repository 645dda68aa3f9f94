/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a record holds, for callers of the library. */
#include "core/base/caller_struct.h"
#include "core/base/error.h"
#include "core/inspection/record.h"
#include "core/inspection/record_head.h"
#include "core/inspection/record_model.h"
#include <math.h>

size_t bite_record_unsettled(const struct bite_record *record)
{
    size_t count = 0;
    for (size_t i = 0; record != NULL && i < record->damage_count; i++) {
        count += record->damages[i].settled == 0;
    }
    return count;
}

uint64_t bite_record_torn_line(const bite_record *record)
{
    return record == NULL ? 0 : record->torn_line;
}

const char *bite_record_text(const bite_record *record, const char *key)
{
    return record == NULL || key == NULL ? NULL : bite_record_head_text(record, key);
}

uint32_t bite_record_units(const bite_record *record)
{
    return record == NULL ? BITE_METRIC : record->units;
}

double bite_record_parts(const bite_record *record)
{
    return record == NULL ? (double)NAN : record->count;
}

const bite_characteristic *bite_record_characteristic(const bite_record *record, size_t index)
{
    return record == NULL || index >= record->characteristic_count
               ? NULL
               : &record->characteristics[index];
}

const bite_reading *bite_record_reading(const bite_record *record, size_t index)
{
    return record == NULL || index >= record->reading_count ? NULL : &record->readings[index];
}

bite_status bite_record_entry_read(const struct bite_record *record, const bite_record_entry *given,
                                   bite_record_entry *own, bite_error *error)
{
    if (record == NULL || given == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a record and an entry were expected");
    }
    bite_status status = bite_struct_read(&bite_struct_record_entry, given, own, "entry", error);
    if (status == BITE_OK) {
        own->temperature = own->temperature == 0.0 ? (double)NAN : own->temperature;
        own->time = own->time == 0.0 ? (double)NAN : own->time;
    }
    return status;
}
