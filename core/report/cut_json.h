/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut as JSON, schema 1: names are stable; the schema may grow but never changes meaning.
 */
#ifndef BITE_REPORT_CUT_JSON_H
#define BITE_REPORT_CUT_JSON_H

#include <coolbite/coolbite.h>
#include <jansson.h>
#include <stddef.h>

/** The answer as an object that the caller owns; NULL: no memory. */
json_t *bite_answer_object(const bite_answer *answer, bite_units units);

bite_status bite_answer_json(const bite_answer *answer, const bite_style *style, bite_sink sink,
                             void *user, bite_error *error);
/** Writes a proposed value as it would be entered: two digits, in the shop's unit. */
void bite_change_quantity_text(double si, bite_kind kind, bite_units units, char *buffer,
                               size_t size);

#endif
