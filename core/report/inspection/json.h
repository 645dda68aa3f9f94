/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged record as JSON. */
#ifndef BITE_REPORT_INSPECTION_JSON_H
#define BITE_REPORT_INSPECTION_JSON_H

#include "core/inspection/inspection_result.h"
#include <stdbool.h>

/** Schema 1. SI throughout; what is missing is null. */
bite_status bite_inspection_json(const bite_inspection *inspection, bool compact, bite_sink sink,
                                 void *user, bite_error *error);

#endif
