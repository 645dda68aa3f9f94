/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The parts of a job's sheet. setup: from 1; 0: of the whole job. */
#ifndef BITE_REPORT_JOB_HTML_SECTIONS_H
#define BITE_REPORT_JOB_HTML_SECTIONS_H

#include "core/report/html.h"
#include "core/report/job/job.h"

#define BITE_PICTURES_MAX 2

/** A window's picture as it was written, kept until its place comes. */
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
    bite_job_picture pictures[BITE_PICTURES_MAX];
    size_t picture_count;
} bite_job_html_page;

void bite_job_html_hold(bite_job_html_page *html, uint32_t setup);
void bite_job_html_hold_words(bite_job_html_page *html);
void bite_job_html_steps(bite_job_html_page *html);
void bite_job_html_stock(bite_job_html_page *html);
void bite_job_html_warp(bite_job_html_page *html);
void bite_job_html_fluids(bite_job_html_page *html);
void bite_job_html_checks(bite_job_html_page *html);
void bite_job_html_time(bite_job_html_page *html);
/** Dangers alone, to stand on top; or all remarks with their sources. */
void bite_job_html_dangers(bite_job_html_page *html);
void bite_job_html_remarks(bite_job_html_page *html);

#endif
