/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut, shown. */
#ifndef BITE_REPORT_CUT_H
#define BITE_REPORT_CUT_H

#include "core/report/text_page.h"
#include "core/search/choice.h"
#include <jansson.h>

#endif
