/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of the caller's bite_style. */
#include "core/report/style_check.h"
#include "core/base/caller_struct.h"
#include "core/base/error.h"

static bite_status refuse(bite_error *error, const char *key, const char *message)
{
    bite_error_set(error, BITE_BAD_ARGUMENT, "%s", message);
    bite_error_key(error, "%s", key);
    return BITE_BAD_ARGUMENT;
}

bite_status bite_style_check(const bite_style *style, bite_sink sink, uint32_t formats,
                             bite_error *error)
{
    if (sink == NULL) {
        return refuse(error, "sink", "a sink that receives the text was expected");
    }
    if (style == NULL) {
        return BITE_OK;
    }
    bite_status status = bite_struct_check(&bite_struct_style, style, "style", error);
    if (status != BITE_OK) {
        return status;
    }
    if (style->format > BITE_QIF || (formats & BITE_STYLE_FORMAT(style->format)) == 0) {
        return refuse(error, "style.format", "this result cannot be written in that format");
    }
    if (style->units > BITE_INCH) {
        return refuse(error, "style.units", "BITE_METRIC or BITE_INCH was expected");
    }
    if (bite_style_copy(style).json > BITE_JSON_COMPACT) {
        return refuse(error, "style.json", "BITE_JSON_INDENTED or BITE_JSON_COMPACT was expected");
    }
    return BITE_OK;
}

bite_style bite_style_copy(const bite_style *style)
{
    bite_style own;
    bite_style_init(&own);
    (void)bite_struct_read(&bite_struct_style, style, &own, "style", NULL); /* it is checked */
    return own;
}

bool bite_style_is_compact(const bite_style *style)
{
    return bite_style_copy(style).json == BITE_JSON_COMPACT;
}
