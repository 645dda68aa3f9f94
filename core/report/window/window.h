/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window, shown. */
#ifndef BITE_REPORT_WINDOW_WINDOW_H
#define BITE_REPORT_WINDOW_WINDOW_H

#include "core/report/text_page.h"
#include "core/search/operating_window.h"

#endif
