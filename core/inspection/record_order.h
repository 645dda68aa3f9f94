/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is to be measured next. */
#ifndef BITE_INSPECTION_RECORD_ORDER_H
#define BITE_INSPECTION_RECORD_ORDER_H

#include "core/inspection/record_model.h"

/** Whether a characteristic is measured on a part: on the first, the last, and each so many. */
int bite_record_is_due(const struct bite_record *record, const bite_characteristic *characteristic,
                       uint32_t part);

#endif
