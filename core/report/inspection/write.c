/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A record judged and written in the requested format. */
#include "core/base/error.h"
#include "core/report/inspection/csv.h"
#include "core/report/inspection/html.h"
#include "core/report/inspection/json.h"
#include "core/report/inspection/qif.h"
#include "core/report/inspection/text.h"
#include "core/report/style_check.h"

static bite_status write(const bite_inspection *inspection, const bite_style *style, bite_sink sink,
                         void *user, bite_error *error)
{
    bite_page page;
    bite_style plain = bite_style_copy(style);
    plain.format = BITE_TEXT;
    if (!bite_page_open(&page, &plain, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    switch (style->format) {
    case BITE_JSON:
        return bite_inspection_json(inspection, page.compact, sink, user, error);
    case BITE_CSV:
        return bite_inspection_csv(inspection, &page, error);
    case BITE_HTML:
        return bite_inspection_html(inspection, style, sink, user, error);
    case BITE_QIF:
        return bite_inspection_qif(inspection, &page, error);
    default:
        return bite_inspection_text(inspection, &page, error);
    }
}

bite_status bite_record_report_write(const bite_record *record, const bite_style *style,
                                     bite_sink sink, void *user, bite_error *error)
{
    bite_inspection *inspection = NULL;
    bite_error_clear(error);
    if (record == NULL || style == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a record and a style were expected");
    }
    bite_status status =
        bite_style_check(style, sink,
                         BITE_STYLE_PAGE | BITE_STYLE_FORMAT(BITE_CSV) |
                             BITE_STYLE_FORMAT(BITE_HTML) | BITE_STYLE_FORMAT(BITE_QIF),
                         error);
    if (status != BITE_OK) {
        return status;
    }
    status = bite_inspection_new(record, &inspection, error);
    if (status == BITE_OK) {
        status = write(inspection, style, sink, user, error);
    }
    bite_inspection_free(inspection);
    return status;
}
