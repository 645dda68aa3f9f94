/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page of a job's sheet, and what several of its sections share. */
#ifndef BITE_REPORT_JOB_HTML_PAGE_H
#define BITE_REPORT_JOB_HTML_PAGE_H

#include "core/job/plan.h"
#include "core/report/html.h"

/** The picture of a window as it was written, stored until the page reaches it. */
typedef struct bite_job_picture {
    const bite_planned_pass *pass;
    size_t number; /* of the pass, from 1 */
    bite_allocator allocator;
    char *text;
    size_t size;
    size_t capacity;
    int no_memory;
} bite_job_picture;

typedef struct bite_job_html_page {
    bite_page page;
    const struct bite_job *job;
    uint32_t setups;
    bite_job_picture pictures[BITE_PLANNED_WINDOWS_MAX];
    size_t picture_count;
} bite_job_html_page;

/** A verdict as a framed word; the frames differ in grey print too. */
void bite_job_html_verdict(bite_job_html_page *html, uint32_t verdict);

/** The head of a table: a <th scope="col"> for each column. */
void bite_job_html_table_head(bite_job_html_page *html, const char *const *heads, size_t count);

/** Whether a cut of this setup goes through the part. */
int bite_job_setup_cuts_through(const struct bite_job *job, uint32_t setup);

#endif
