/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two drawings of a job: what lies on what, heights to scale; and the blank with its parts, all to
 * scale. */
#ifndef BITE_REPORT_JOB_HTML_DRAWINGS_H
#define BITE_REPORT_JOB_HTML_DRAWINGS_H

#include "core/report/job/html_sections.h"
#include <stdint.h>

/** Drawings. */
void bite_job_html_patterns(bite_job_html_page *html);

void bite_job_html_draw_stack(bite_job_html_page *html, uint32_t setup);
void bite_job_html_draw_blank(bite_job_html_page *html);

#endif
