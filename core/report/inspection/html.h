/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An inspection report as a web page to print. */
#ifndef BITE_REPORT_INSPECTION_HTML_H
#define BITE_REPORT_INSPECTION_HTML_H

#include "core/inspection/inspection_result.h"

/** One self-contained page without script: a first sheet that a customer can file; then results,
 * readings and instruments; last, for the shop, what they say of the cut. */
bite_status bite_inspection_html(const bite_inspection *inspection, const bite_style *style,
                                 bite_sink sink, void *user, bite_error *error);

#endif
