/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The host's side of a plugin: the services that a plugin's functions call. */
#ifndef BITE_LIBRARY_PLUGIN_HOST_H
#define BITE_LIBRARY_PLUGIN_HOST_H

#include "core/base/display_text.h"
#include "core/base/text.h"
#include "core/library/case_view.h"
#include "core/library/library_internal.h"
#include <coolbite/family.h>

#define BITE_PLUGIN_REASON_MAX 200

/** The host as a plugin sees it, followed by the reason that the plugin gave. */
typedef struct bite_plugin_host {
    struct bite_host host; /* first: the plugin's reason() is called with its address */
    char reason[BITE_PLUGIN_REASON_MAX];
} bite_plugin_host;

/** A grade while a plugin completes it. */
struct bite_grade {
    bite_plugin_host *host;
    const bite_library *library;
    bite_field_value *values;
    size_t count;
    size_t capacity;
    const bite_field *own; /* figures of the plugin's own */
    size_t own_count;
    int no_memory;
};

/** A judged cut while a plugin adds its cautions. */
struct bite_case {
    bite_plugin_host *host;
    const bite_case_view *view;
    int no_memory;
    int malformed; /* a caution was refused; the host has the reason */
};

/** A host with all services and no reason. */
bite_plugin_host bite_plugin_host_make(void);

/** The field of this name among count; NULL: there is none. */
const bite_field *bite_plugin_field_in(const bite_field *fields, size_t count, const char *key);

/** The field of a key that a grade may have; NULL: there is none. Borrowed. */
const bite_field *bite_plugin_field(const bite_library *library, const char *key);

/** The value of a field in a grade, added if it is missing; NULL: no capacity left. */
bite_field_value *bite_plugin_value(struct bite_grade *grade, const bite_field *field);

/** What makes a plugin's text unfit to be displayed as it is: it must be one line of UTF-8 without
 * anything that a terminal would interpret. */
bite_text_fault bite_plugin_text_fault(const char *text);

#endif
