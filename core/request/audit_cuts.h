/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trial cuts of an audit: each grade of a family, and each record of a table, in a few cuts. */
#ifndef BITE_REQUEST_AUDIT_CUTS_H
#define BITE_REQUEST_AUDIT_CUTS_H

#include "core/request/audit_run.h"

/** Opens every grade of a family and judges trial cuts of it. twice: each cut is judged two times,
 * and the answers must be the same. BITE_NO_MEMORY, BITE_BAD_ARGUMENT. */
bite_status bite_audit_try_grades(bite_audit_run *run, const bite_library *library,
                                  const char *family, int twice, bite_error *error);

/** Judges a cut with each record that is from the audited table: its tools, machines, holders and
 * holds. */
bite_status bite_audit_try_records(bite_audit_run *run, const bite_library *library,
                                   bite_error *error);

#endif
