/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A job's sheet as one web page. */
#ifndef BITE_REPORT_JOB_HTML_H
#define BITE_REPORT_JOB_HTML_H

#include <coolbite/coolbite.h>

/**
 * The job's sheet: one self-contained web page to print; one printed page for each setup, followed
 * by the pages for use at the desk.
 *
 * Quantities are in the job's own units; only the size of the style is used. BITE_NO_MEMORY is
 * returned before the first byte is written. BITE_CANNOT_WRITE: the sink refused.
 */
bite_status bite_job_html(const struct bite_job *job, const bite_style *style, bite_sink sink,
                          void *user, bite_error *error);

#endif
