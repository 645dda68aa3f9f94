/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The pictures of the operating windows inside the page. */
#ifndef BITE_REPORT_JOB_HTML_WINDOWS_H
#define BITE_REPORT_JOB_HTML_WINDOWS_H

#include "core/report/job/html_page.h"

/** Writes the pictures of the plan's windows into memory. BITE_NO_MEMORY is the only failure. */
bite_status bite_job_html_pictures_make(bite_job_html_page *html, bite_error *error);
void bite_job_html_pictures_free(bite_job_html_page *html);

/** Their style rules, for the head of the page; and the pictures themselves. */
void bite_job_html_picture_styles(bite_job_html_page *html);
void bite_job_html_pictures(bite_job_html_page *html);

#endif
