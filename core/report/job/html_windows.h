/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Window pictures inside the page. */
#ifndef BITE_REPORT_JOB_HTML_WINDOWS_H
#define BITE_REPORT_JOB_HTML_WINDOWS_H

#include "core/report/job/html_sections.h"
#include <coolbite/coolbite.h>

void bite_job_html_picture_styles(bite_job_html_page *html);
/** Pictures of the passes likeliest to go over. A pass that no window can be made of has none. */
bite_status bite_job_html_pictures_make(bite_job_html_page *html, bite_error *error);

void bite_job_html_pictures_free(bite_job_html_page *html);
void bite_job_html_pictures(bite_job_html_page *html);

#endif
