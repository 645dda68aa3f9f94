/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Faults of a record that is read. */
#include "core/inspection/record_reader.h"

void bite_record_report(void *user, const bite_error *fault)
{
    bite_record_reader *reader = user;
    if (reader->faults++ == 0) {
        reader->first = *fault;
    }
    if (reader->fault != NULL) {
        reader->fault(reader->user, fault);
    }
}
