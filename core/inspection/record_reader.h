/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The state while a record is read: where its faults go. */
#ifndef BITE_INSPECTION_RECORD_READER_H
#define BITE_INSPECTION_RECORD_READER_H

#include "core/inspection/record_model.h"

/** The line behind which the readings begin. */
#define BITE_RECORD_MARK "[readings]"

typedef struct bite_record_reader {
    struct bite_record *record;
    bite_fault_sink fault; /* may be NULL */
    void *user;
    bite_error first; /* the first fault */
    uint32_t faults;
    uint32_t reserved;
} bite_record_reader;

/** Counts a fault and passes it on. It has its place. user: a bite_record_reader. */
void bite_record_report(void *user, const bite_error *fault);

#endif
