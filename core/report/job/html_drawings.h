/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawings of a job: the stack on the fixture, with heights to scale, and the blank with its
 * parts. */
#ifndef BITE_REPORT_JOB_HTML_DRAWINGS_H
#define BITE_REPORT_JOB_HTML_DRAWINGS_H

#include "core/report/job/html_page.h"

/** The fill patterns, once for all drawings. */
void bite_job_html_patterns(bite_job_html_page *html);

/** The stack of a setup, from 1: what is removed, part, tapes, fixture. */
void bite_job_html_draw_stack(bite_job_html_page *html, uint32_t setup);
/** The blank and the parts on it. */
void bite_job_html_draw_blank(bite_job_html_page *html);

#endif
