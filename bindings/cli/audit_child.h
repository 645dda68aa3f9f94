/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Audits one file in a child process with limits, because the code of a plugin runs there. */
#ifndef BITE_CLI_AUDIT_CHILD_H
#define BITE_CLI_AUDIT_CHILD_H

#include <coolbite/coolbite.h>
#include <stddef.h>

#define AUDIT_FINDINGS_MOST 5000 /* of one run; more are counted, not kept */

/** Findings in the order in which they were made. All zero: none. */
struct audit_findings {
    bite_error *list; /* owned, freed with free() */
    size_t count;
    size_t capacity;
    size_t lost; /* beyond the most that are kept */
};

/** Adds a finding. Nonzero: out of memory. */
int audit_findings_add(struct audit_findings *findings, const bite_error *finding);

/**
 * Audits a file; seconds: the time that it may take.
 *
 * What is wrong with it goes to findings, also what its plugin did to the process: its end, a
 * crash, an endless loop, output, and all that audit_watch.h compares. audit: begun; what was
 * judged. BITE_OK: it was judged, whatever was found. BITE_NOT_FOUND, BITE_IO: it cannot be read;
 * BITE_BAD_FILE: it is larger than any table; BITE_NO_MEMORY: here; BITE_STOPPED: the child cannot
 * be started.
 */
bite_status audit_in_child(const char *path, double seconds, struct audit_findings *findings,
                           bite_audit *audit, bite_error *error);

#endif
