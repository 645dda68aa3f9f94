/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut as plain text: what to enter at the machine, the limits by utilization,
 * temperatures, cautions, and the defaults used. */
#ifndef BITE_REPORT_CUT_TEXT_H
#define BITE_REPORT_CUT_TEXT_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>
#include <stddef.h>

/** Writes the page of an answer. choice: NULL, or the choice that the answer belongs to. */
bite_status bite_answer_text(const bite_answer *answer, const bite_choice *choice,
                             const bite_style *style, bite_sink sink, void *user,
                             bite_error *error);

/** Writes the material, tool, machine and coolant in one line; at most size bytes. */
void bite_answer_title_text(bite_page *page, const bite_answer *answer, char *to, size_t size);

/** Writes "; advisory: chatter 690 %" or nothing. It follows the verdict, which does not count
 * advisory limits. At most size bytes. */
void bite_advisory_text(const bite_answer *answer, char *to, size_t size);

/** How the tool enters a closed feature: "; ramp in at 3 deg, 450 mm/min"; "" if it enters from
 * outside. */
void bite_entry_text(bite_page *page, const bite_answer *answer, char *to, size_t size);

#endif
