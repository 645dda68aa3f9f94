/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sections of a job's sheet that consist of words and tables. */
#ifndef BITE_REPORT_JOB_HTML_SECTIONS_H
#define BITE_REPORT_JOB_HTML_SECTIONS_H

#include "core/report/job/html_page.h"

/** The workholding: its drawing for a setup, from 1; its strength; the steps of mounting and of
 * release. */
void bite_job_html_hold(bite_job_html_page *html, uint32_t setup);
void bite_job_html_hold_words(bite_job_html_page *html, uint32_t setup);
void bite_job_html_mounting(bite_job_html_page *html, uint32_t setup);
void bite_job_html_release(bite_job_html_page *html, uint32_t setup);

void bite_job_html_stock(bite_job_html_page *html);
void bite_job_html_warp(bite_job_html_page *html);
/** A rating as a framed word: SAFE, RISK, NO, NOT KNOWN. */
void bite_job_html_rating(bite_job_html_page *html, uint32_t rated);
void bite_job_html_fluids(bite_job_html_page *html);
/** Beside a coolant that is a liquid: that the fluid the job names for it must not be used. */
void bite_job_html_refused_coolant(bite_job_html_page *html, uint32_t coolant);
void bite_job_html_checks(bite_job_html_page *html);
void bite_job_html_time(bite_job_html_page *html);

/** One box with the remarks that `belongs` accepts, without their sources, and with a refused
 * workholding of the setup if these are the dangers; nothing if there are none. */
void bite_job_html_warnings(bite_job_html_page *html, const char *title, uint32_t setup,
                            int (*belongs)(const bite_remark *remark));
/** The dangers alone, for a setup; or all remarks with their sources. */
void bite_job_html_dangers(bite_job_html_page *html, uint32_t setup);
void bite_job_html_remarks(bite_job_html_page *html);

#endif
