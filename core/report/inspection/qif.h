/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged record as measurement results of QIF 3.0 (ISO 23952). */
#ifndef BITE_REPORT_INSPECTION_QIF_H
#define BITE_REPORT_INSPECTION_QIF_H

#include "core/inspection/inspection_result.h"
#include "core/report/text_page.h"

/** An XML document: devices, characteristics (definition, nominal, item), and of each part its
 * measured characteristics with their status. Sizes in mm or in, at 20 degC. */
bite_status bite_inspection_qif(const bite_inspection *inspection, bite_page *page,
                                bite_error *error);

#endif
