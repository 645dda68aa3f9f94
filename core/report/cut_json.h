/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut as JSON, schema 1: the names are stable, the schema grows and never changes meaning.
 */
#ifndef BITE_REPORT_CUT_JSON_H
#define BITE_REPORT_CUT_JSON_H

#include <coolbite/coolbite.h>
#include <jansson.h>
#include <stddef.h>

/** The answer as an object; NULL: no memory. */
json_t *bite_answer_object(const bite_answer *answer, bite_units units);

bite_status bite_answer_json(const bite_answer *answer, const bite_style *style, bite_sink sink,
                             void *user, bite_error *error);
/** A proposed number as it would be typed in: two digits, in the shop's unit. */
void bite_change_quantity_text(double si, bite_kind kind, bite_units units, char *buffer,
                               size_t size);

#endif
