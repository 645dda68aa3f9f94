/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words for a characteristic that is inspected. */
#include "core/report/job/check_text.h"
#include <math.h>
#include <stdio.h>

#define NUMBER 48

const char *bite_check_limits_text(bite_page *page, const bite_planned_check *check,
                                   char text[BITE_CHECK_TEXT_MAX])
{
    char lower[NUMBER];
    char upper[NUMBER];
    text[0] = 0;
    bite_page_quantity(page, check->lower, BITE_KIND_LENGTH, lower, NUMBER);
    bite_page_quantity(page, check->upper, BITE_KIND_LENGTH, upper, NUMBER);
    if (!isnan(check->tolerance) && !isnan(check->lower)) {
        bite_page_quantity(page, check->tolerance, BITE_KIND_LENGTH, upper, NUMBER);
        (void)snprintf(text, BITE_CHECK_TEXT_MAX, "%s%s", page->ascii ? "+-" : "\xc2\xb1", upper);
    } else if (!isnan(check->lower) && !isnan(check->upper)) {
        (void)snprintf(text, BITE_CHECK_TEXT_MAX, "%s to %s", lower, upper);
    } else if (!isnan(check->lower)) {
        (void)snprintf(text, BITE_CHECK_TEXT_MAX, "at least %s", lower);
    } else if (!isnan(check->upper)) {
        (void)snprintf(text, BITE_CHECK_TEXT_MAX, "at most %s", upper);
    }
    return text;
}

static const char *ordinal(uint32_t number)
{
    uint32_t tens = number % 100;
    uint32_t ones = number % 10;
    if (tens >= 11 && tens <= 13) {
        return "th";
    }
    return ones == 1 ? "st" : ones == 2 ? "nd" : ones == 3 ? "rd" : "th";
}

const char *bite_check_frequency_text(const struct bite_job *job, const bite_planned_check *check,
                                      char text[BITE_CHECK_TEXT_MAX])
{
    text[0] = 0;
    if (job->count <= 1.0 || check->every == 0) {
        return text;
    }
    if (check->every == 1) {
        (void)snprintf(text, BITE_CHECK_TEXT_MAX, "every part");
    } else if ((double)check->every >= job->count) {
        (void)snprintf(text, BITE_CHECK_TEXT_MAX, "the first and the last part");
    } else {
        (void)snprintf(text, BITE_CHECK_TEXT_MAX, "every %u%s part and the last", check->every,
                       ordinal(check->every));
    }
    return text;
}
