/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Figures of table records, with a fallback. */
#ifndef BITE_JOB_PLAN_FIGURE_H
#define BITE_JOB_PLAN_FIGURE_H

#include "core/library/item.h"

/** The figure of a record's key, SI; `otherwise` if the record is NULL or does not state it. */
double bite_plan_figure(const bite_item_record *record, const char *key, double otherwise);

#endif
