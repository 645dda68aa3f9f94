/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job in the requested format. */
#include "core/base/error.h"
#include "core/report/job/html.h"
#include "core/report/job/json.h"
#include "core/report/job/text.h"
#include "core/report/style_check.h"

bite_status bite_job_write(const bite_job *job, const bite_style *style, bite_sink sink, void *user,
                           bite_error *error)
{
    bite_error_clear(error);
    if (job == NULL || style == NULL) {
        return bite_error_set(error, BITE_BAD_ARGUMENT, "a job and a style were expected");
    }
    bite_status status =
        bite_style_check(style, sink, BITE_STYLE_PAGE | BITE_STYLE_FORMAT(BITE_HTML), error);
    if (status != BITE_OK) {
        return status;
    }
    switch (style->format) {
    case BITE_TEXT:
        return bite_job_text(job, style, sink, user, error);
    case BITE_JSON:
        return bite_job_json(job, style, sink, user, error);
    case BITE_HTML:
        return bite_job_html(job, style, sink, user, error);
    default:
        return bite_error_set(error, BITE_FAULT, "a format was accepted but has no writer");
    }
}
