/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window as one web page for a tablet at the machine: the picture, and a reading of every limit
 * at any place of the grid. */
#ifndef BITE_REPORT_WINDOW_HTML_H
#define BITE_REPORT_WINDOW_HTML_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>

bite_status bite_window_html(const bite_window *window, bite_page *page, bite_error *error);

#endif
