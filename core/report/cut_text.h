/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut as plain text: what to type in, the limits by use, temperatures, cautions, and what
 * was taken as usual. */
#ifndef BITE_REPORT_CUT_TEXT_H
#define BITE_REPORT_CUT_TEXT_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/** choice: NULL, or the choice that the answer belongs to. */
bite_status bite_answer_text(const bite_answer *answer, const bite_choice *choice,
                             const bite_style *style, bite_sink sink, void *user,
                             bite_error *error);

/** Material, tool, machine and coolant in one line. */
void bite_answer_title_text(bite_page *page, const bite_answer *answer, char *to, size_t size);

/** "; advice: chatter 690 %", or nothing: what stands behind a verdict that goes without it. */
void bite_advisory_text(const bite_result *result, char *to, size_t size);

#endif
