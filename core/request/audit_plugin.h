/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Auditing a plugin. */
#ifndef BITE_REQUEST_AUDIT_PLUGIN_H
#define BITE_REQUEST_AUDIT_PLUGIN_H

#include "core/request/audit_run.h"

/** Judges the plugin at run->path, which runs its code. Faults are told; BITE_OK also with faults.
 * BITE_NOT_FOUND, BITE_NO_MEMORY; errors of bite_library_open. */
bite_status bite_audit_plugin(bite_audit_run *run, bite_error *error);

#endif
