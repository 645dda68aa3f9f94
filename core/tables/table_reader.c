/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The report of the faults of a typed table. */
#include "core/tables/table_reader.h"
#include "core/base/error.h"

void bite_table_report(bite_table_reader *reader, bite_error *error, const bite_ini_entry *at,
                       const char *key)
{
    error->status = BITE_BAD_FILE;
    bite_error_place(error, bite_ini_path(reader->table->ini), at == NULL ? 0 : at->line,
                     at == NULL ? 0 : at->column);
    if (at != NULL && key != NULL) {
        bite_error_key(error, "%s:%s", at->section, key);
    } else if (at != NULL) {
        bite_error_key(error, "%s", at->section);
    }
    if (reader->faults == 0) {
        reader->first = *error;
    }
    reader->faults++;
    if (reader->fault != NULL) {
        reader->fault(reader->user, error);
    }
}

void bite_table_report_text(bite_table_reader *reader, const bite_ini_entry *at, const char *key,
                            const char *message, const char *hint)
{
    bite_error error = BITE_ERROR_INIT;
    bite_error_set(&error, BITE_BAD_FILE, "%s", message);
    bite_error_hint(&error, "%s", hint);
    bite_table_report(reader, &error, at, key);
}
