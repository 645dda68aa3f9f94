/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window as plain text: a map of letters, its axes, and the same in words. */
#ifndef BITE_REPORT_WINDOW_TEXT_H
#define BITE_REPORT_WINDOW_TEXT_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>

bite_status bite_window_text(const bite_window *window, bite_page *page, bite_error *error);

#endif
