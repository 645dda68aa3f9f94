/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice, shown: its answer, and beside it the passes, what holds it back, and the next best
 * tool. */
#ifndef BITE_REPORT_CHOICE_H
#define BITE_REPORT_CHOICE_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>

/** What a choice has to say beside its answer: passes, what holds it back, the next best tool. */
void bite_choice_text_lines(bite_page *page, const bite_choice *choice);

#endif
