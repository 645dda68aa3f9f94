/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An audit while it runs: where its faults go. */
#include "core/request/audit_run.h"
#include "core/base/error.h"
#include <stdio.h>
#include <string.h>

void bite_audit_tell(void *user, const bite_error *fault)
{
    bite_audit_run *run = user;
    bite_error shown = *fault;
    shown.faults = 1;
    if (shown.file[0] == 0 || (run->name != NULL && strcmp(shown.file, run->name) == 0)) {
        bite_error_place(&shown, run->path, shown.line, shown.column);
    }
    if (run->faults++ == 0) {
        run->first = shown;
    }
    if (run->options->fault != NULL) {
        run->options->fault(run->options->user, &shown);
    }
}

void bite_audit_tell_text(bite_audit_run *run, uint32_t line, const char *key, const char *message,
                          const char *hint)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, run->name == NULL ? BITE_BAD_PLUGIN : BITE_BAD_FILE, "%s", message);
    bite_error_place(&error, run->path, line, 0);
    bite_error_key(&error, "%s", key);
    bite_error_hint(&error, "%s", hint == NULL ? "" : hint);
    bite_audit_tell(run, &error);
}

void bite_audit_begin(const bite_audit_run *run, const char *doing, const char *thing)
{
    char text[240];
    if (run->options->stage != NULL) {
        (void)snprintf(text, sizeof text, "%s%s%s", doing, thing[0] == 0 ? "" : " ", thing);
        run->options->stage(run->options->user, text);
    }
}
