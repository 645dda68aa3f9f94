/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numbers of a window: CSV with a grid point on each line, JSON with a matrix for each limit.
 */
#ifndef BITE_REPORT_WINDOW_CSV_JSON_H
#define BITE_REPORT_WINDOW_CSV_JSON_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>

bite_status bite_window_csv(const bite_window *window, bite_page *page, bite_error *error);
bite_status bite_window_json(const bite_window *window, bite_page *page, bite_error *error);

#endif
