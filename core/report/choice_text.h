/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A choice in words: its passes, the limits that restrict it, and the next best tool. */
#ifndef BITE_REPORT_CHOICE_TEXT_H
#define BITE_REPORT_CHOICE_TEXT_H

#include "core/report/text_page.h"
#include "core/search/choice.h"
#include <coolbite/coolbite.h>

/** The name of what restricts a choice: a limit, chip_load for the largest feed per tooth, or
 * "goal". */
const char *bite_active_limit_name(const bite_choice *choice, const bite_active_limit *active);

/** Writes the lines that a choice adds to the page of its answer. */
void bite_choice_text_lines(bite_page *page, const bite_choice *choice);

#endif
