/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of the caller's bite_style. */
#include "core/report/style_check.h"
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
    if (style->struct_size != sizeof *style) {
        return refuse(
            error, "style",
            "a style of this library's size was expected: set struct_size to sizeof(bite_style)");
    }
    if (style->format > BITE_QIF || (formats & BITE_STYLE_FORMAT(style->format)) == 0) {
        return refuse(error, "style.format", "this result cannot be written in that format");
    }
    if (style->units > BITE_INCH) {
        return refuse(error, "style.units", "BITE_METRIC or BITE_INCH was expected");
    }
    return BITE_OK;
}
