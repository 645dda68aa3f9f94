/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A window in the format of the caller's style. */
#include "core/base/error.h"
#include "core/report/style_check.h"
#include "core/report/text_page.h"
#include "core/report/window/csv_json.h"
#include "core/report/window/html.h"
#include "core/report/window/svg.h"
#include "core/report/window/text.h"

bite_status bite_window_write(const bite_window *window, const bite_style *style, bite_sink sink,
                              void *user, bite_error *error)
{
    bite_page page;
    bite_style plain;
    bite_error_clear(error);
    if (window == NULL || style == NULL) {
        bite_error_set(error, BITE_BAD_ARGUMENT, "a window and a style were expected");
        bite_error_key(error, "style");
        return BITE_BAD_ARGUMENT;
    }
    bite_status status =
        bite_style_check(style, sink,
                         BITE_STYLE_PAGE | BITE_STYLE_FORMAT(BITE_CSV) |
                             BITE_STYLE_FORMAT(BITE_SVG) | BITE_STYLE_FORMAT(BITE_HTML),
                         error);
    if (status != BITE_OK) {
        return status;
    }
    plain = bite_style_copy(style);
    plain.format = BITE_TEXT;
    if (!bite_page_open(&page, &plain, sink, user, error)) {
        return BITE_BAD_ARGUMENT;
    }
    switch (style->format) {
    case BITE_CSV:
        return bite_window_csv(window, &page, error);
    case BITE_JSON:
        return bite_window_json(window, &page, error);
    case BITE_SVG:
        return bite_window_svg(window, &page, error);
    case BITE_HTML:
        return bite_window_html(window, &page, error);
    default:
        return bite_window_text(window, &page, error);
    }
}
