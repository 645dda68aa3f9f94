/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Characteristics of a document of QIF: their definitions, and their measurements. */
#ifndef BITE_REPORT_INSPECTION_QIF_CHARACTERISTIC_H
#define BITE_REPORT_INSPECTION_QIF_CHARACTERISTIC_H

#include "core/inspection/inspection_result.h"
#include "core/report/html.h"

/** What has an id for each characteristic, reading or part. What may have ids that are not written
 * (readings that were corrected) is not the last: the largest id is stated. */
typedef enum bite_qif_kind {
    BITE_QIF_DEVICE,
    BITE_QIF_DEFINITION,
    BITE_QIF_NOMINAL,
    BITE_QIF_ITEM,
    BITE_QIF_MEASUREMENT,
    BITE_QIF_RESULTS,
    BITE_QIF_COMPONENT,
    BITE_QIF_KINDS
} bite_qif_kind;

/** A document: every id is used once. */
typedef struct bite_qif {
    const bite_inspection *inspection;
    bite_page *page;
    double standard; /* ids */
    double part;
    double first[BITE_QIF_KINDS];
    double last; /* the largest id */
} bite_qif;

/** BITE_OUT_OF_RANGE: a reading that QIF cannot hold. */
bite_status bite_qif_check_sizes(const bite_inspection *inspection, bite_error *error);

/** Gives all their ids. */
void bite_qif_number(const bite_inspection *inspection, bite_page *page, bite_qif *qif);
bite_html_string bite_qif_id(const bite_qif *qif, bite_qif_kind kind, size_t index);

/** The definitions, nominals and items: at least one each. */
void bite_qif_write_characteristics(const bite_qif *qif);

/** Writes the readings of a part, an index into the parts of the inspection: those that stand, and
 * those that were skipped. */
void bite_qif_write_measurements(const bite_qif *qif, size_t part);

#endif
