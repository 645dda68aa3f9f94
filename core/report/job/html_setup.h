/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to enter and which tools to set out for a setup. */
#ifndef BITE_REPORT_JOB_HTML_SETUP_H
#define BITE_REPORT_JOB_HTML_SETUP_H

#include "core/report/job/html_page.h"

/** The tables of the passes and of the tools of a setup, from 1. */
void bite_job_html_passes(bite_job_html_page *html, uint32_t setup);
void bite_job_html_tools(bite_job_html_page *html, uint32_t setup);

/** Why each tool was selected: for the desk. */
void bite_job_html_tool_reasons(bite_job_html_page *html);

#endif
