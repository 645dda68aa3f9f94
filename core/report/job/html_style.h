/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The style of a job's sheet. */
#ifndef BITE_REPORT_JOB_HTML_STYLE_H
#define BITE_REPORT_JOB_HTML_STYLE_H

/** The style of the page, in pieces ended by NULL. */
extern const char *const bite_job_html_style[];

#endif
