/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is typed in and what is set out for a setup: passes and tools. */
#ifndef BITE_REPORT_JOB_HTML_SETUP_H
#define BITE_REPORT_JOB_HTML_SETUP_H

#include "core/report/job/html_sections.h"
#include <coolbite/coolbite.h>
#include <stddef.h>
#include <stdint.h>

void bite_job_html_passes(bite_job_html_page *html, uint32_t setup);
void bite_job_html_tools(bite_job_html_page *html, uint32_t setup);
/** A verdict as a word in a frame that grey print tells apart. */
void bite_job_html_verdict(bite_job_html_page *html, uint32_t verdict);

/** A head of a table's column: <th scope="col">. */
void bite_job_html_table_head(bite_job_html_page *html, const char *const *heads, size_t count);

/** Whether a cut of this setup goes through the part. */
int bite_job_setup_cuts_through(const struct bite_job *job, uint32_t setup);

#endif
