/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut, shown. */
#ifndef BITE_REPORT_CUT_H
#define BITE_REPORT_CUT_H

#include "core/search/choice.h"
#include "core/report/text_page.h"
#include <jansson.h>

/** The answer as an object; NULL: no memory. */
json_t *bite_answer_object(const bite_answer *answer, bite_units units);
bite_status bite_answer_json(const bite_answer *answer, const bite_style *style, bite_sink sink, void *user, bite_error *error);
/** choice: NULL, or the choice that the answer belongs to. */
bite_status bite_answer_text(const bite_answer *answer, const bite_choice *choice, const bite_style *style, bite_sink sink,
                             void *user, bite_error *error);
/** What a choice has to say beside its answer: passes, what holds it back, the next best tool. */
void bite_choice_text_lines(bite_page *page, const bite_choice *choice);

/** Material, tool, machine and coolant in one line. */
void bite_answer_title_text(bite_page *page, const bite_answer *answer, char *to, size_t size);
/** "; advice: chatter 690 %", or nothing: what stands behind a verdict that goes without it. */
void bite_advisory_text(const bite_result *result, char *to, size_t size);
/** A proposed number as it would be typed in: two digits, in the shop's unit. */
void bite_change_quantity_text(double si, bite_kind kind, bite_units units, char *buffer, size_t size);

#endif
