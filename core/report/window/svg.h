/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window as SVG: real text, a title and a description for screen readers, patterns and dashes
 * that distinguish regions and lines in grey print and for any colour vision. */
#ifndef BITE_REPORT_WINDOW_SVG_H
#define BITE_REPORT_WINDOW_SVG_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>

bite_status bite_window_svg(const bite_window *window, bite_page *page, bite_error *error);

#endif
