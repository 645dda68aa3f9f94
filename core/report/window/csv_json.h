/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window's numbers: CSV, a place a line, and JSON, a matrix a limit. */
#ifndef BITE_REPORT_WINDOW_CSV_JSON_H
#define BITE_REPORT_WINDOW_CSV_JSON_H

#include "core/report/text_page.h"
#include <coolbite/coolbite.h>

bite_status bite_window_csv(const bite_window *window, bite_page *page, bite_error *error);
bite_status bite_window_json(const bite_window *window, bite_page *page, bite_error *error);

#endif
