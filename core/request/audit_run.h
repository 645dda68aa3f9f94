/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An audit while it runs: the file, where its faults go, and what has been judged. */
#ifndef BITE_REQUEST_AUDIT_RUN_H
#define BITE_REQUEST_AUDIT_RUN_H

#include <coolbite/coolbite.h>

typedef struct bite_audit_run {
    const char *path;
    const char *base; /* the name of the file in its folder */
    const char *name; /* of the table in the library: "materials/soap.ini"; NULL: a plugin */
    const bite_audit_options *options;
    const bite_allocator *allocator;
    bite_audit *audit;
    bite_error first;
    uint32_t faults;
} bite_audit_run;

/** A bite_fault_sink, whose user is a bite_audit_run: counts a fault and passes it on with the path
 * of the file. */
void bite_audit_tell(void *user, const bite_error *fault);

/** Tells a fault of the whole file, or of a line of it. hint: may be NULL. */
void bite_audit_tell_text(bite_audit_run *run, uint32_t line, const char *key, const char *message,
                          const char *hint);

/** Tells the stage that begins: what is done, and to which thing ("" for none). */
void bite_audit_begin(const bite_audit_run *run, const char *doing, const char *thing);

#endif
