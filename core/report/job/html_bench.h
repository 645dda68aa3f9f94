/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page for the bench: taking the part off, cleaning it, looking at it, measuring it. */
#ifndef BITE_REPORT_JOB_HTML_BENCH_H
#define BITE_REPORT_JOB_HTML_BENCH_H

#include "core/report/job/html_page.h"

void bite_job_html_bench(bite_job_html_page *html);

#endif
