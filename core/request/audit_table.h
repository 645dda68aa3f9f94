/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Auditing a table. */
#ifndef BITE_REQUEST_AUDIT_TABLE_H
#define BITE_REQUEST_AUDIT_TABLE_H

#include "core/request/audit_run.h"

/** Judges the table at run->path. Faults are told; BITE_OK also with faults. BITE_NOT_FOUND,
 * BITE_IO, BITE_BAD_FILE (larger than any table), BITE_NO_MEMORY; errors of bite_library_open. */
bite_status bite_audit_table(bite_audit_run *run, bite_error *error);

#endif
