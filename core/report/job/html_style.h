/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a job's sheet looks: system fonts, dark on white, no meaning in colour alone; screen first,
 * then paper. */
#ifndef BITE_REPORT_JOB_HTML_STYLE_H
#define BITE_REPORT_JOB_HTML_STYLE_H

/** Style of the page, in pieces ended by NULL; the pictures' own rules, each for its own picture.
 */
extern const char *const bite_job_html_style[];

#endif
