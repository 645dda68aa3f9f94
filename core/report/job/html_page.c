/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What several sections of a job's sheet share. */
#include "core/report/job/html_page.h"
#include "core/job/job_file.h"

static const struct {
    const char *word;
    const char *look;
} verdicts[] = {{"NOT JUDGED", "verdict-word open"},
                {"CLEAR", "verdict-word clear"},
                {"TIGHT", "verdict-word tight"},
                {"OVER", "verdict-word over"},
                {"UNKNOWN", "verdict-word open"}};

void bite_job_html_verdict(bite_job_html_page *html, uint32_t verdict)
{
    uint32_t limit = verdict < sizeof verdicts / sizeof *verdicts ? verdict : 0;
    bite_html_put(&html->page, "<strong class=\"%s\">%s</strong>", verdicts[limit].look,
                  verdicts[limit].word);
}

void bite_job_html_table_head(bite_job_html_page *html, const char *const *heads, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        bite_html_put(&html->page, "<th scope=\"col\">%s</th>", heads[i]);
    }
}

int bite_job_setup_cuts_through(const struct bite_job *job, uint32_t setup)
{
    for (size_t i = 0; i < job->pass_count; i++) {
        const bite_planned_pass *pass = &job->passes[i];
        if (pass->setup == setup &&
            (pass->work == BITE_WORK_FREE || pass->depth >= job->thickness * (1.0 - 1e-9))) {
            return 1;
        }
    }
    return 0;
}
