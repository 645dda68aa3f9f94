/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A planned job in the format that is asked for. */
#include "core/report/job/write.h"
#include "core/base/error.h"
#include "core/report/job/html.h"
#include "core/report/job/job.h"
#include "core/report/job/json.h"
#include "core/report/job/text.h"
#include "core/report/style.h"

uint32_t bite_job_worst_limit(const bite_result *result)
{
    uint32_t found = result->worst;
    double most = 0.0;
    for (uint32_t i = 0; result->verdict > BITE_CLEAR && i < BITE_LIMIT_COUNT; i++) {
        const bite_limit *limit = &result->limits[i];
        if (limit->applies && !limit->advisory && limit->chance > most) {
            most = limit->chance;
            found = i;
        }
    }
    return found;
}

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
        return bite_error_set(error, BITE_FAULT, "a format was checked and is not written");
    }
}
