#include "core/base/error.h"
#include "core/sheet/job.h"
bite_status bite_job_html(const struct bite_job *job, const bite_style *style, bite_sink sink, void *user, bite_error *error)
{
    (void)job;
    (void)style;
    (void)sink;
    (void)user;
    return bite_error_set(error, BITE_FAULT, "no page yet");
}
