/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A new record. */
#ifndef BITE_INSPECTION_RECORD_CREATE_H
#define BITE_INSPECTION_RECORD_CREATE_H

#include "core/inspection/record_model.h"

/** Writes a new file with the head of a record in memory and its seal, and syncs it.
 * BITE_CANNOT_WRITE: there is such a file already, or it cannot be made. */
BITE_CHECKED bite_status bite_record_create(const struct bite_record *record, bite_error *error);

#endif
