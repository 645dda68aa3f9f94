/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged record as text for a terminal. */
#ifndef BITE_REPORT_INSPECTION_TEXT_H
#define BITE_REPORT_INSPECTION_TEXT_H

#include "core/inspection/inspection_result.h"
#include "core/report/text_page.h"

/** The verdict, each characteristic with what was found, and the offsets of the next cut. */
bite_status bite_inspection_text(const bite_inspection *inspection, bite_page *page,
                                 bite_error *error);

#endif
