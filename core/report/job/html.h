/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job's sheet as one web page. */
#ifndef BITE_REPORT_JOB_HTML_H
#define BITE_REPORT_JOB_HTML_H

#include <coolbite/coolbite.h>

/**
 * The job's sheet: one web page that needs nothing else, to be printed; a page of paper for each
 * setup, then what stays at the desk.
 *
 * Numbers stand in the job's own units; of the style only its size is looked at. BITE_NO_MEMORY
 * comes before the first byte. BITE_CANNOT_WRITE: the sink refused.
 */
bite_status bite_job_html(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error);

#endif
